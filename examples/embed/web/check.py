#!/usr/bin/env python3
"""examples/embed/web/check.py - the page, in a browser, says what the library says outside one

    check.py FOLDER NATIVE

FOLDER is what build.sh made, NATIVE the program embed_c_answers. Needs Chromium, without a screen.
Everything comes from this machine: a web server of this program's own.
SPDX-License-Identifier: BSL-1.0
"""

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

# What is typed into the fresh page, or stands in its address. All sets are invented.


def case(entries, address=""):
    return {"entries": entries, "address": address}


LOG = "date,lifter,lift,load,unit,reps,rir\n" + "".join(
    f"2026-{month:02}-{day:02},{lifter},bench press,{load},kg,6,2\n"
    for month in (9, 10) for day in (2, 9, 16, 23) for lifter, load in (("Ana", 60), ("Bo", 100)))

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
    case({"file": LOG + "2026-10-30,Ana,bench press,a lot,kg,6,2\n", "spotter": True}),
    case({"file": LOG, "lifter": "ana", "spotter": True, "kg": "60", "reps": "6", "effort": "0", "keep": True}),
    # A file that is no log.
    case({"file": "no log\n", "spotter": True}),
    # A question kept as a link.
    case({}, "?lift=overhead_press&changes=seated&kg=42.5&reps=8&left=1&spotter=1&bar=15"),
]
# What the page shows for them.
STATES = ["answered", "answered", "answered", "answered", "stopped", "refused", "refused", "refused",
          "answered", "answered", "answered", "answered", "answered", "answered"]

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


def compare(number, shown, answer, request):
    name = f"case {number}"
    expect(f"{name}, wider than a phone by", max(shown["overflow"], 0), 0)
    expect(f"{name}, fields without a label", shown["unlabelled"], 0)
    expect(f"{name}, fetched from elsewhere", shown["from_elsewhere"], [])
    expect(f"{name}, state", shown["state"], STATES[number])
    if answer["outcome"] == "bad_request":
        expect(name, shown["message"], answer["message"])
        expect(f"{name}, load", (shown["load"], shown["figures"], shown["cautions"]),
               (None, [], []))
        return
    if answer["outcome"] == "refused":
        expect(name, (answer["refusal"]["code"], shown["load"]), ("bar_too_heavy", "lighter than the bar"))
        return
    words = {"stop": "STOP", "warn": "take care", "note": "note"}
    expect(f"{name}, cautions", shown["cautions"],
           [[words[caution["weight"]], caution["text"]] for caution in answer["cautions"]])
    expect(f"{name}, shares", len(shown["shares"]), request["lift"].count(", "))
    if answer["outcome"] == "stop":
        expect(name, (shown["load"], shown["marks"], shown["figures"]), (None, [], []))
        expect(f"{name}, first caution", shown["cautions"][0][0], "STOP")
        return
    bar = answer["sets"][-1]["bar"]
    expect(f"{name}, load", shown["load"], f"{answer['load_kg']:g} kg")
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
    expect(f"{name}, stop", f" at {answer['stop_with_left']:g} RIR," in shown["how"], True)
    ranges = [answer["base_max_kg"]]
    if ", " in request["lift"]:
        ranges.append(answer["max_kg"])
    expect(f"{name}, figures", [row[1:] for row in shown["figures"]],
           [[f"{r[key]:.1f}" for key in ("typical", "low", "high")] for r in ranges])


def main():
    folder, native = sys.argv[1:]
    shown = shown_by_browser(folder)
    expect("cases", len(shown), len(CASES))
    questions = "".join(page["request"] + "\n" for page in shown)
    lines = subprocess.run([native], input=questions, stdout=subprocess.PIPE, text=True, check=True,
                           encoding="utf-8")
    answers = [json.loads(line) for line in lines.stdout.splitlines()]
    for number, (page, answer) in enumerate(zip(shown, answers)):
        compare(number, page, answer, json.loads(page["request"]))
    squad, untidy, begun, no_log = shown[9:13]
    expect("a squad's log", json.loads(squad["request"])["lifter"], "Bo")
    expect("what was taken in is kept", squad["stored"].count(",Bo,"), 8)
    expect("a line that cannot be read", "line 18: refused: a load" in untidy["kept"], True)
    expect("the lines that can be read", untidy["stored"].count(",Ana,"), 8)
    expect("a set of today", (json.loads(begun["request"])["ask"], len(json.loads(begun["request"])["done"])),
           ("replan", 1))
    expect("no log", (no_log["stored"], "There is no set in it yet" in no_log["kept"]), ("", True))
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
