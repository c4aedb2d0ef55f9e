#!/usr/bin/env python3
"""examples/embed/web/check.py - the page, in a browser, says what the library says outside one

    check.py FOLDER NATIVE

FOLDER is what build.sh made, NATIVE the program embed_c_answers. Needs Chromium, without a screen.
Everything comes from this machine: a web server of this program's own.
SPDX-License-Identifier: BSL-1.0
"""

import datetime
import functools
import html
import http.server
import json
import math
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import threading

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[2] / "tests"))
import accessibility  # noqa: E402

# What is typed into the fresh page, or stands in its address. All sets are invented.


def case(entries, address=""):
    return {"entries": entries, "address": address}


def day(days_ahead):
    return (datetime.date.today() + datetime.timedelta(days_ahead)).isoformat()


# The page plans by the clock: days are counted from today, or the log would age into a layoff.
LOG = "date,lifter,lift,load,unit,reps,rir\n" + "".join(
    f"{day(-ago)},{lifter},bench press,{load},kg,6,2\n"
    for ago in (89, 82, 75, 68, 59, 52, 45, 38) for lifter, load in (("Ana", 60), ("Bo", 100)))

HURT = LOG.replace("rir\n", "rir,note\n", 1).replace(",6,2\n", ",6,2,\n") + \
    f"{day(-37)},Bo,bench press,100,kg,0,,sharp pain - stopped\n"

CASES = [
    case({"kg": "100", "spotter": True}),
    case({"kg": "100", "changes": ["feet_up"], "spotter": True}),
    case({"kg": "112.5", "reps": "3", "said_as": "rpe", "effort": "8.5", "safeties": "checked",
          "changes": ["flat_back", "feet_up"], "new": True, "bar": "20_and_collars"}),
    case({"lift": "squat", "kg": "140", "changes": ["front_squat"], "next_reps": "3",
          "next_left": "1.5", "safeties": "checked"}),
    # Alone, close to failure: no load.
    case({"next_left": "0"}),
    # Refused, in the library's words.
    case({"reps": "0"}),
    case({"said_as": "rpe", "effort": "11"}),
    case({"kg": ""}),
    # Lighter than the bar.
    case({"kg": "20", "next_left": "4"}),
    # A squad's log, taken in; with a line that cannot be read; with a set of today kept.
    case({"file": LOG, "lifter": "Bo", "spotter": True}),
    case({"file": LOG + f"{day(-31)},Ana,bench press,a lot,kg,6,2\n", "spotter": True}),
    case({"file": LOG, "lifter": "ana", "spotter": True, "kg": "60", "reps": "6", "effort": "0", "keep": True}),
    # A file that is no log.
    case({"file": "no log\n", "spotter": True}),
    # A question kept as a link.
    case({}, "?lift=overhead_press&changes=seated&kg=42.5&reps=8&left=1&spotter=1&bar=15"),
    # A top set, then back-off sets; a range of reps, with a range left.
    case({"lift": "squat", "kg": "140", "plan": "back_offs", "next_reps": "3", "back_off_sets": "2",
          "back_off_reps": "5", "safeties": "checked"}),
    case({"kg": "100", "next_reps": "3", "next_reps_to": "5", "next_left_to": "3", "spotter": True}),
    case({"kg": "100", "next_reps": "5", "next_reps_to": "3"}),
    # Test day, with spotters and without.
    case({"lift": "squat", "kg": "140", "plan": "attempts", "spotter": True, "bar": "20_and_collars"}),
    case({"lift": "squat", "kg": "140", "plan": "attempts"}),
    # What is added to the body; nobody said what that weighs; a body that is too heavy.
    case({"lift": "pull_up", "kg": "10", "body": "75"}),
    case({"lift": "pull_up", "kg": "10"}),
    case({"lift": "dip", "kg": "0", "reps": "4", "effort": "0", "body": "90", "next_reps": "10", "next_left": "4"}),
    # A beginner's first session, and its second set.
    case({"lift": "squat", "source": "beginner", "safeties": "checked"}),
    case({"lift": "squat", "source": "beginner", "safeties": "checked", "kg": "20", "effort": "12", "keep": True}),
    # A stack, a machine and dumbbells.
    case({"lift": "lat_pulldown", "kg": "60", "lightest": "7.5", "heaviest": "90", "step": "7.5"}),
    case({"lift": "leg_press", "kg": "160", "machine": "45", "safeties": "checked"}),
    case({"kg": "100", "changes": ["dumbbells"], "spotter": True, "lightest": "4", "heaviest": "40", "step": "4"}),
    case({"lift": "dumbbell_row", "kg": "30"}),
    # Another day: after a layoff from today on; long ago; the day after today's set; before the log's last.
    case({"kg": "100", "date": day(40), "spotter": True}),
    case({"kg": "100", "date": "2020-02-29", "spotter": True}),
    case({"file": LOG, "lifter": "Ana", "spotter": True, "kg": "60", "reps": "6", "effort": "2", "keep": True, "date": day(2)}),
    case({"file": LOG, "lifter": "Ana", "spotter": True, "date": day(-41)}),
    case({"kg": "100", "date": "", "spotter": True}, "?date=2026-11-25"),
    # Pain in a line that cannot be read is kept with the log.
    case({"file": HURT, "lifter": "Bo", "spotter": True, "date": day(-35)}),
    # What the lifter says of pain counts, whatever the log says; it is asked of each lifter and day anew.
    case({"kg": "100", "spotter": True, "pain": "yes"}),
    case({"kg": "100", "spotter": True, "unwell": "yes", "pain": "none"}),
    case({"file": HURT, "lifter": "Bo", "spotter": True, "date": day(-35), "pain": "none"}),
    case({"file": HURT, "lifter": "Bo", "spotter": True, "pain": "none", "date": day(-35)}),
    case({"file": HURT.replace("sharp pain", "dizzy"), "lifter": "Bo", "spotter": True, "date": day(-35), "unwell": "none"}),
]
# What the page shows for them.
STATES = ["answered", "answered", "answered", "answered", "stopped", "refused", "refused", "refused",
          "answered", "answered", "answered", "answered", "answered", "answered",
          "answered", "answered", "refused", "answered", "stopped", "answered", "refused", "refused",
          "answered", "answered", "answered", "answered", "answered", "answered",
          "answered", "answered", "answered", "answered", "answered", "stopped",
          "stopped", "stopped", "answered", "stopped", "answered"]

failures = []


def expect(what, got, wanted):
    if got != wanted:
        failures.append(f"{what}: expected {wanted!r}, got {got!r}")


def shown_by_browser(folder):
    """What the page shows for each case."""
    with tempfile.TemporaryDirectory() as work:
        site = pathlib.Path(work) / "site"
        shutil.copytree(folder, site)
        shutil.copy(HERE / "check.html", site)
        (site / "cases.json").write_text(json.dumps(CASES))

        class Handler(http.server.SimpleHTTPRequestHandler):
            extensions_map = {**http.server.SimpleHTTPRequestHandler.extensions_map,
                              ".mjs": "text/javascript", ".wasm": "application/wasm"}

            def log_message(self, *_):
                pass

        server = http.server.ThreadingHTTPServer(
            ("127.0.0.1", 0), functools.partial(Handler, directory=str(site)))
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = shutil.which("chromium") or shutil.which("chromium-browser")
        address = f"http://127.0.0.1:{server.server_address[1]}/check.html"
        run = subprocess.run(
            [browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic",
             "--no-first-run", "--disable-background-networking", "--disable-component-update",
             "--disable-sync", f"--user-data-dir={work}/profile", "--virtual-time-budget=60000",
             "--dump-dom", address],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, timeout=100, check=False)
        server.shutdown()
        found = re.search(r'<pre id="result">(.*?)</pre>', run.stdout, re.S)
        if not found or not found.group(1):
            sys.exit(f"the browser gave no result, exit status {run.returncode}\n{run.stderr}")
        result = json.loads(html.unescape(found.group(1)))
        if isinstance(result, dict):
            sys.exit(f"the page failed: {result['error']}")
        return result


def styled(page, folder):
    """The page with its style in it, and the colours that its text lies on."""
    css = (pathlib.Path(folder) / "page.css").read_text(encoding="utf-8")
    colours = dict(re.findall(r"--([a-z]+): (#[0-9a-f]+);", css))
    css = re.sub(r"var\(--([a-z]+)\)", lambda name: colours[name[1]], css)
    return page.replace("</head>", f"<style>{css}</style></head>"), (colours["paper"], colours["sheet"])


def plates_text(plates):
    return " + ".join(f"{plate['weight']:g}" for plate in plates)


def on_it(loaded):
    """How a load is put together, as the table says it."""
    if "bar" in loaded:
        plates = loaded["bar"]["plates_each_side"]
        return plates_text(plates) + " a side" if plates else "no plates"
    if "pin" in loaded:
        return f"the pin at {loaded['pin']['weight']:g} {loaded['pin']['unit']}"
    if "belt" in loaded:
        return plates_text(loaded["belt"]) + " kg hung from the body" if loaded["belt"] else "the body alone"
    held = loaded["dumbbell"]
    return ("one dumbbell" if loaded["load_kg"] == held["weight"] else "two dumbbells, each") + \
        f" of {held['weight']:g} {held['unit']}"


def heading(loaded):
    if "dumbbell" in loaded and loaded["load_kg"] != loaded["dumbbell"]["weight"]:
        return f"2 × {loaded['dumbbell']['weight']:g} kg"
    if "belt" not in loaded:
        return f"{loaded['load_kg']:g} kg"
    return f"body + {loaded['load_kg']:g} kg" if loaded["belt"] else "body alone"


def rows(answer):
    """Every set of an answer in its order: the load, and how it is put together."""
    if "first_session" in answer:
        steps = answer["first_session"]["steps"]
        loads = steps[next(i for i, step in enumerate(steps) if step["load_kg"] == answer["load_kg"]):]
    elif "attempts" in answer:
        loads = answer["sets"][:-1] + answer["attempts"]
    else:
        loads = answer["sets"] + ([answer["back_offs"]] if "back_offs" in answer else [])
    return [[f"{each['load_kg']:g}", on_it(each)] for each in loads]


def in_whole_reps(left):
    return f"{left:g}" if left == math.floor(left) else f"{math.floor(left)} to {math.ceil(left)}"


def compare(number, shown, answer, request, folder):
    name = f"case {number}"
    expect(f"{name}, wider than a phone and than a screen by", shown["overflow"], [0, 0])
    expect(f"{name}, accessibility", accessibility.problems(*styled(shown["html"], folder)), [])
    expect(f"{name}, fields without a label", shown["unlabelled"], 0)
    expect(f"{name}, fetched from elsewhere", shown["from_elsewhere"], [])
    expect(f"{name}, state", shown["state"], STATES[number])
    if answer["outcome"] == "bad_request":
        expect(name, shown["message"], answer["message"])
        expect(f"{name}, load", (shown["load"], shown["figures"], shown["cautions"]),
               (None, [], []))
        return
    if answer["outcome"] == "refused":
        if answer["refusal"]["code"] == "bar_too_heavy":
            expect(name, (shown["load"], shown["sets"]), ("lighter than the bar", []))
        else:
            expect(name, (shown["load"], shown["figures"], shown["cautions"]), (None, [], []))
            expect(f"{name}, a reason in words", "_" in shown["message"] or len(shown["message"]) < 30, False)
        return
    words = {"stop": "STOP", "warn": "take care", "note": "note"}
    expect(f"{name}, cautions", shown["cautions"],
           [[words[caution["severity"]], caution["text"]] for caution in answer["cautions"]])
    expect(f"{name}, shares", len(shown["shares"]), request["lift"].count(", "))
    if answer["outcome"] == "stop":
        expect(name, (shown["load"], shown["sets"], shown["marks"], shown["figures"]), (None, [], [], []))
        expect(f"{name}, first caution", shown["cautions"][0][0], "STOP")
        return
    loaded = answer["attempts"] if "attempts" in answer else answer["sets"][-1:]
    if "attempts" in answer:
        expect(f"{name}, attempts", shown["load"], ", ".join(f"{each['load_kg']:g}" for each in loaded) + " kg")
    else:
        expect(f"{name}, load", shown["load"], heading(loaded[0]))
    expect(f"{name}, sets", [row[2:] for row in shown["sets"]], rows(answer))
    if "bar" in loaded[0]:
        compare_drawing(name, shown, loaded[0]["bar"])
    else:
        expect(f"{name}, drawing", (shown["drawing"], shown["marks"]), (None, []))
        expect(f"{name}, text", shown["bar"].lower().startswith(on_it(loaded[0]) + "."), True)
    if "first_session" in answer:
        first = answer["first_session"]
        expect(f"{name}, by feel", (f"{first['go_on_with_left']:g} or more reps left" in shown["how"],
                                    f"Fewer than {first['go_back_below_left']:g}," in shown["how"],
                                    shown["figures"]), (True, True, []))
        return
    if "attempts" in answer:
        chances = ", ".join(f"{100 * each['chance_of_success']:.0f} %" for each in answer["attempts"])
        expect(f"{name}, chances", f"good lift: {chances}." in shown["how"], True)
        ranges = [answer["max_kg"]]
    else:
        expect(f"{name}, stop", f" at {in_whole_reps(answer['stop_with_left'])} RIR," in shown["how"], True)
        if "reps_to" in answer:
            expect(f"{name}, range", f"{answer['reps']} to {answer['reps_to']} reps" in shown["how"], True)
        ranges = [answer["base_max_kg"]]
        if ", " in request["lift"]:
            ranges.append(answer["max_kg"])
    expect(f"{name}, figures", [row[1:] for row in shown["figures"]],
           [[f"{r[key]:.1f}" for key in ("typical", "low", "high")] for r in ranges])


def compare_drawing(name, shown, bar):
    """The drawing has every plate, to scale, and its marks can be read on a phone."""
    expect(f"{name}, marks of {shown['least_drawn']} pixels", shown["least_drawn"] >= accessibility.LEAST_SHOWN, True)
    expect(f"{name}, drawing", shown["drawing"], bar["text"])
    expect(f"{name}, text", shown["bar"].startswith(bar["text"] + "."), True)
    plates = [plate["weight"] for plate in bar["plates_each_side"]]
    marks = [f"{plate:g}" for plate in plates]
    expect(f"{name}, marks", shown["marks"], marks + ["each side"] if marks else [])
    # Shaft, flange and sleeve, then the plates: areas in the ratio of their masses.
    areas = [w * h for w, h in shown["plates"][3:3 + len(marks)]]
    for area, plate in zip(areas, plates):
        expect(f"{name}, a plate of {plate} kg to scale",
               math.isclose(area / areas[0], plate / plates[0], rel_tol=1e-6), True)


def main():
    folder, native = sys.argv[1:]
    shown = shown_by_browser(folder)
    expect("cases", len(shown), len(CASES))
    questions = "".join(page["request"] + "\n" for page in shown)
    lines = subprocess.run([native], input=questions, stdout=subprocess.PIPE, text=True, check=True,
                           encoding="utf-8")
    answers = [json.loads(line) for line in lines.stdout.splitlines()]
    for number, (page, answer) in enumerate(zip(shown, answers)):
        compare(number, page, answer, json.loads(page["request"]), folder)
    squad, untidy, begun, no_log = shown[9:13]
    expect("a squad's log", json.loads(squad["request"])["lifter"], "Bo")
    expect("what was taken in is kept", squad["stored"].count(",Bo,"), 8)
    expect("a line that cannot be read", "line 18: refused: a load" in untidy["kept"], True)
    expect("the lines that can be read", untidy["stored"].count(",Ana,"), 8)
    expect("a set of today", (json.loads(begun["request"])["ask"], len(json.loads(begun["request"])["done"])),
           ("replan", 1))
    expect("no log", (no_log["stored"], "There is no set in it yet" in no_log["kept"]), ("", True))
    fields = [set(page["asked_for"]) for page in shown]
    expect("fields of a barbell", {"bar", "next_sets"} <= fields[0] and not {"body", "step", "machine", "back_off_sets"} & fields[0],
           True)
    expect("fields of back-offs", "back_off_drop" in fields[14], True)
    expect("fields of test day", {"next_sets", "next_reps", "back_off_sets"} & fields[17], set())
    expect("fields of a pull-up", ("body" in fields[19], "bar" in fields[19]), (True, False))
    expect("fields of a stack", ("step" in fields[24], "bar" in fields[24]), (True, False))
    expect("fields of a machine", ("machine" in fields[25], "step" in fields[25]), (True, False))
    second = json.loads(shown[23]["request"])
    expect("a beginner's second set", (second["ask"], second["experience"], len(second["done"])), ("replan", "novice", 1))
    expect("a stack as it stands in this gym", json.loads(shown[24]["request"])["stack"],
           {"lightest": 7.5, "heaviest": 90, "step": 7.5, "unit": "kg"})
    later, past, after_today, _, cleared = shown[28:33]
    asked = [json.loads(page["request"]) for page in (later, past, after_today, cleared)]
    expect("dates", [each["date"] for each in asked], [day(40), "2020-02-29", day(2), day(0)])
    expect("the typed set", [each["log"][0]["date"] for each in asked], [day(-3), "2020-02-26", day(0), day(-3)])
    expect("days off", [answers[number].get("days_off") for number in (0, 28, 29, 30)], [3, 43, 3, 2])
    expect("a layoff is eased", answers[28]["load_kg"] < answers[0]["load_kg"], True)
    expect("not today's session", (asked[2]["ask"], later["name"]), ("plan_session", f"On {day(40)}: bench press"))
    expect("sets after the day", any("after this day" in caution["text"] for caution in answers[31]["cautions"]), True)
    expect("pain in the log that is kept", shown[33]["stored"].count(f"{day(-37)},Bo,bench press,,,,,,,pain"), 1)
    said = [json.loads(page["request"]) for page in shown[34:39]]
    expect("what is said of pain", [(each["pain"], each["unwell"]) for each in said],
           [("yes", "as_logged"), ("none", "yes"), ("none", "as_logged"), ("as_logged", "as_logged"), ("as_logged", "none")])
    expect("where a stop is answered", ["Does it hurt?" in shown[34]["stop"], "a doctor" in shown[35]["stop"]], [True, True])
    worker = (pathlib.Path(folder) / "worker.js").read_text(encoding="utf-8")
    kept = set(re.findall(r'"([^"/]+\.[a-z]+)"', worker)) - {"barwright"}
    expect("files without a network", kept | {"worker.js"}, {path.name for path in pathlib.Path(folder).iterdir()})
    # A change that sets what another sets cannot be chosen beside it.
    expect("excluded by feet up", "exercise_ball" in shown[1]["excluded"], True)
    expect("excluded by nothing", shown[0]["excluded"], [])
    for failure in failures:
        print(failure)
    print(f"{len(CASES)} cases, {len(failures)} failures")
    sys.exit(1 if failures else 0)


main()
