#!/usr/bin/env python3
"""examples/embed/check_requests.py - one table of requests, asked in every way there is, has one answer

    check_requests.py REQUESTS [--cpp PROGRAM] [--c PROGRAM] [--python FOLDER] [--web FOLDER] [--programs FOLDER]
                      [--page FILE]

C++, C and Python must give the same text. The module under Node computes with another mathematical
library, and the model's fit ends where a step no longer matters, so that last digits become eighth
ones: decisions must be the same, and numbers to six digits. The programs plan_session and look_back are asked
the same by a CSV file and options: the page of a plan must have its loads and the cautions, and
look_back --json gives the same text. Each request also says what is
expected of it. --page writes forty of them on one page, for a coach to read.
SPDX-License-Identifier: BSL-1.0
"""

import argparse
import csv
import json
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

failures = []


def fail(name, way, what):
    failures.append(name)
    print(f"{name}, {way}: {what}")


def requests_of(table):
    """Names, and the requests with their logs."""
    for case in table["requests"]:
        request = {"version": 1, "ask": "plan_session", **case["request"]}
        if "log" in case:
            request["log"] = table["logs"][case["log"]]
        yield case, request


def by_lines(program, lines, **environment):
    run = subprocess.run([program], input="\n".join(lines) + "\n", stdout=subprocess.PIPE, text=True,
                         encoding="utf-8", check=True, env={**os.environ, **environment})
    return run.stdout.splitlines()


def by_python(folder, lines):
    sys.path.insert(0, folder)
    import barwright
    return [barwright.answer(line) for line in lines]


def by_node(folder, lines):
    script = """
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
const folder = process.argv[1];
const { default: start_library } = await import(pathToFileURL(`${folder}/library.js`));
const library = await start_library({ wasmBinary: readFileSync(`${folder}/barwright.wasm`) });
for (const line of readFileSync(0, "utf8").split("\\n").slice(0, -1)) console.log(library.answer(line));
"""
    run = subprocess.run(["node", "--input-type=module", "-e", script, str(pathlib.Path(folder).resolve())],
                         input="\n".join(lines) + "\n", stdout=subprocess.PIPE, text=True,
                         encoding="utf-8", check=True)
    return run.stdout.splitlines()


def differences(a, b, place=""):
    """Where two answers differ by more than the last digits of a number."""
    if isinstance(a, dict) and isinstance(b, dict) and list(a) == list(b):
        return [d for key in a for d in differences(a[key], b[key], f"{place}.{key}")]
    if isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        return [d for i, (x, y) in enumerate(zip(a, b)) for d in differences(x, y, f"{place}[{i}]")]
    if isinstance(a, float) and isinstance(b, (int, float)) and not isinstance(b, bool):
        return [] if math.isclose(a, b, rel_tol=1e-6, abs_tol=1e-6) else [f"{place}: {a} and {b}"]
    return [] if a == b else [f"{place}: {a} and {b}"]


def decisions(answer):
    """What five ways must agree on."""
    return {"outcome": answer["outcome"], "load_kg": answer.get("load_kg"),
            "limited_by": answer.get("limited_by"), "remedies": answer.get("remedies"),
            "verdict": answer.get("verdict"), "code": answer.get("refusal", {}).get("code"),
            "verdicts": {each["lift"]: each["verdict"] for each in answer.get("lifts", []) if "verdict" in each},
            "cautions": [(c["severity"], c["text"]) for c in answer.get("cautions", [])]}


def expect(case, answer):
    for key, wanted in case["expect"].items():
        got = decisions(answer).get(key, answer.get(key))
        if got != wanted:
            fail(case["name"], "expected", f"{key} {wanted!r}, got {got!r}")
    if answer["outcome"] == "stop" and [key for key in answer if key in ("load_kg", "sets", "max_kg")]:
        fail(case["name"], "stop", "there is a load in the answer")
    if answer["outcome"] in ("plan", "stop") and not answer["cautions"]:
        fail(case["name"], "cautions", "there are none")


def check_schemas(folder, cases, answers):
    """Requests and answers are as docs/schema says, where the module jsonschema is at hand."""
    try:
        import jsonschema
    except ImportError:
        print("left out: the schemas; they need the Python module jsonschema")
        return
    request, answer = (jsonschema.Draft202012Validator(json.loads((folder / name).read_text()))
                       for name in ("request.json", "answer.json"))
    for (case, asked), answered in zip(cases, answers):
        for what, schema, value in [("request", request, asked), ("answer", answer, json.loads(answered))]:
            fault = jsonschema.exceptions.best_match(schema.iter_errors(value))
            if fault:
                fail(case["name"], f"schema of the {what}", f"{fault.json_path}: {fault.message[:300]}")
    for wrong in ({}, {"version": 1, "ask": "plan_session"}, {**cases[0][1], "reserv": 2},
                  {**cases[0][1], "left": -2}, {**cases[0][1], "safeties": "yes"}):
        if request.is_valid(wrong):
            fail("schema", "request", f"takes {json.dumps(wrong)[:200]}")
    if answer.is_valid({**json.loads(answers[0]), "outcome": "stop"}):
        fail("schema", "answer", "takes a stop with a load")


# ---- the program -------------------------------------------------------------------------------

def can_be_asked(request):
    """Some members have no option: the program decides for its own log."""
    left_out = {"rules", "dumbbells", "stack", "reps_to", "left_to", "rpe_from"}
    if request["ask"] == "look_back":
        left_out |= {"body_mass_kg", "body_mass_lb"}
    back_offs = request.get("back_offs", {})
    return (request["ask"] in ("plan_session", "replan", "plan_attempts", "look_back")
            and not left_out & set(request)
            and back_offs.get("drop", 0.1) == 0.1 and "reps" not in back_offs
            and "units" not in request.get("log_reading", {})
            and ("log" in request or request["ask"] != "look_back")
            and ("log_csv" not in request or "lifter" in request))


def write_log(path, log):
    columns = ["date", "lifter", "lift", "modifiers", "load", "unit", "reps", "rir", "rpe", "outcome", "notes"]
    with open(path, "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(columns)
        for done in log:
            lift, _, changes = done["lift"].partition(", ")
            unit = "lb" if "load_lb" in done else "kg"
            rows.writerow([done["date"], "Somebody", lift, changes, done["load_" + unit], unit,
                           done["reps"], done.get("left", ""), done.get("rpe", ""),
                           {None: "", True: "missed", False: "completed"}[done.get("missed")],
                           done.get("note", "")])


def typed(done):
    """A set as it is typed between sets: "92.5 kg x 6, 2 left"."""
    unit = "lb" if "load_lb" in done else "kg"
    effort = (" missed" if done.get("missed") else f" @{done['rpe']:g}" if "rpe" in done
              else f", {done['left']:g} left" if "left" in done else "")
    return f"{done['load_' + unit]:g} {unit} x {done['reps']}{effort}"


def options_of(request):
    lift, _, changes = request["lift"].partition(", ")
    options = ["--lift", lift, "--date", request["date"], "--room", request.get("room", "gym_kg")]
    if changes:
        options += ["--with", changes]
    for member, option in [("reps", "--reps"), ("left", "--reserve"), ("rpe", "--rpe"), ("sets", "--sets"),
                           ("safeties", "--safeties")]:
        if member in request:
            options += [option, str(request[member])]
    if "max_chance_of_missing" in request:
        options += ["--max-chance-of-missing", f"{100 * request['max_chance_of_missing']:g}"]
    for unit in ("kg", "lb"):
        if f"stated_max_{unit}" in request:
            options += ["--max", f"{request[f'stated_max_{unit}']:g} {unit}"]
    if "pain" in request:
        options += ["--pain", {"yes": "yes", "none": "no"}[request["pain"]]]
    if "unwell" in request:
        options += ["--unwell", {"yes": "yes", "none": "no"}[request["unwell"]]]
    if request.get("spotter"):
        options.append("--spotter")
    for unit in ("kg", "lb"):
        if f"body_mass_{unit}" in request:
            options += ["--body", f"{request[f'body_mass_{unit}']:g} {unit}"]
    if request.get("experience") == "novice":
        options.append("--beginner")
    if request.get("ratings"):
        options += ["--ratings", request["ratings"].replace("_", "-")]
    if request.get("max_is_confirmed"):
        options.append("--max-is-right")
    for done in request.get("done_before", []):
        options += ["--done", str(done["sessions"])]
    reading = request.get("log_reading", {})
    for member, option in [("dates", "--dates"), ("year", "--year"), ("unit", "--log-unit"),
                           ("dumbbells", "--dumbbells")]:
        if member in reading:
            options += [option, str(reading[member]).replace("_", "-")]
    if "columns" in reading:
        options += ["--columns", "; ".join(map("=".join, reading["columns"].items()))]
    if request["ask"] == "plan_attempts":
        options.append("--attempts")
    if "back_offs" in request:
        options += ["--back-offs", str(request["back_offs"].get("sets", 2))]
    if "done" in request:
        options += ["--today", "; ".join(map(typed, request["done"]))]
    return options


def by_program(folder, request):
    """The exit status and what was printed by a program, asked the same by a file and by options."""
    with tempfile.TemporaryDirectory() as work:
        is_look_back = request["ask"] == "look_back"
        command = [str(pathlib.Path(folder) / ("look_back" if is_look_back else "plan_session"))]
        path = pathlib.Path(work) / "log.csv"
        if "log" in request:
            write_log(path, request["log"])
            command += [str(path), "--lifter", "Somebody"]
        elif "log_csv" in request:
            path.write_text(request["log_csv"], encoding="utf-8")
            command += [str(path), "--lifter", request["lifter"]]
        if "own_lifts_csv" in request:
            own = pathlib.Path(work) / "own.csv"
            own.write_text(request["own_lifts_csv"], encoding="utf-8")
            command += ["--own-lifts", str(own)]
        if is_look_back:
            command += ["--json", "--date", request["date"], "--weeks", str(request.get("weeks", 8))]
        else:
            command += options_of(request)
        run = subprocess.run(command, stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE, text=True, encoding="utf-8", check=False)
    return run.returncode, run.stdout


def compare_program(case, answer, text, folder, request):
    """What a program prints is what the answer says."""
    status, printed = by_program(folder, request)
    if request["ask"] != "look_back":
        compare_page(case, answer, status, printed)
    elif answer["outcome"] == "bad_request":
        if printed or status == 0:
            fail(case["name"], "program", f"it answers: {printed}")
    elif printed.rstrip("\n") != text:
        fail(case["name"], "program", "another text")


def load_in_kg(number, unit):
    return float(number) * (1.0 if unit == "kg" else 0.45359237)


def compare_page(case, answer, status, page):
    """The page of a plan has its load and every caution; of a stop no load; a refusal has no page."""
    outcome = {0: "plan", 1: "plan", 2: "refused", 3: "stop"}.get(status, f"status {status}")
    if outcome != answer["outcome"].replace("bad_request", "refused"):
        fail(case["name"], "program", f"outcome {outcome}, not {answer['outcome']}")
        return
    work = re.search(r"(?m)^  work +([0-9.]+) (kg|lb) ", page)
    if outcome != "plan":
        if work:
            fail(case["name"], "program", "there is a load on the page")
        return
    if "attempts" in answer:
        loads = [attempt["load_kg"] for attempt in answer["attempts"]]
        first = [load_in_kg(*each) for each in
                 re.findall(r"([0-9.]+) (kg|lb) \(", page.split("\n\n")[0])]
        if len(first) != len(loads) or not all(map(math.isclose, first, loads)):
            fail(case["name"], "program", f"attempts {first}, not {loads}")
    elif not answer["sets"]:
        if work or not page.startswith("All the work sets are done"):
            fail(case["name"], "program", "there is a load after the last set")
    elif work is None or not math.isclose(load_in_kg(work[1], work[2]), answer["load_kg"], rel_tol=1e-9):
        fail(case["name"], "program", f"load {work}, not {answer['load_kg']}")
    if "back_offs" in answer:
        after = re.search(r"Then (\d+) x (\d+) with ([0-9.]+) (kg|lb)", page)
        wanted = answer["back_offs"]
        if (after is None or [int(after[1]), int(after[2])] != [wanted["sets"], wanted["reps"]]
                or not math.isclose(load_in_kg(after[3], after[4]), wanted["load_kg"])):
            fail(case["name"], "program", f"back-offs {after}, not {wanted}")
    words = " ".join(page.split())
    for caution in answer["cautions"]:
        if " ".join(caution["text"].split()) not in words:
            fail(case["name"], "program", f"no caution \"{caution['text']}\"")


# ---- a page for a coach ------------------------------------------------------------------------

def asked_in_words(request):
    """The request in a few words: "3 x 6, 2 left, alone"."""
    words = f"{request.get('sets', 3)} x {request.get('reps', 6)}, {request.get('left', 2):g} left"
    if request.get("spotter"):
        return words + ", spotter"
    return words + (", " + {"checked": "safeties", "unchecked": "safeties not tried"}.get(
        request.get("safeties", "none"), "alone"))


def answered_in_words(answer):
    """The decision in a few words, as a coach would read it out."""
    if answer["outcome"] == "refused":
        return "no answer: " + answer["refusal"]["code"].replace("_", " ")
    if answer["outcome"] == "stop":
        keep = f" (leave {answer['keep_left']:g})" if "keep_left" in answer else ""
        return "STOP; " + ", ".join(r.replace("_", " ") for r in answer["remedies"]) + keep
    unit = answer["sets"][-1].get("bar", answer["sets"][-1].get("dumbbell"))
    unit = unit.get("bar", unit)["unit"]

    def load(holder):
        return f"{holder['load_kg'] / (1.0 if unit == 'kg' else 0.45359237):.5g}"
    ladder = " ".join(f"{load(s)}x{s['reps']}" for s in answer["sets"] if not s["is_work"])
    steps = {a["kind"]: load(a) for a in answer["alternatives"]}
    said = [f"{load(answer)} {unit}, {answer['work_sets']} x {answer['reps']}, "
            f"stop at {answer['stop_with_left']:g}",
            "by " + answer["limited_by"].replace("_", " ")]
    if "reserve_left" in answer:
        said.insert(1, f"likely {max(answer['reserve_left']['typical'], 0):.0f}, "
                       f"missing {100 * max(answer['chances_of_missing']):.0f} %")
    if ladder:
        said.append("up by " + ladder)
    if "step_above" in steps:
        said.append("or " + steps["step_above"])
    if answer["progress"] != "none":
        said.append(answer["progress"].replace("_", " "))
    return "; ".join(said)


def write_page(path, cases, answers, most=40):
    """So many single sessions, each with its question and its answer, for somebody to read."""
    lines = ["Requests of the table, as they are answered today. All lifters are invented.", ""]
    sessions = [(case, asked, json.loads(answer)) for (case, asked), answer in zip(cases, answers)
                if asked["ask"] == "plan_session"]
    step = max(len(sessions) / most, 1.0)
    for i in range(min(most, len(sessions))):
        case, asked, answer = sessions[int(i * step)]
        lines.append(f"{i + 1:2}. {case['name']}: {asked['lift']}, {asked_in_words(asked)}")
        lines.append(f"    {answered_in_words(answer)}")
    pathlib.Path(path).write_text("\n".join(lines) + "\n", encoding="utf-8")


# ---- all of them -------------------------------------------------------------------------------

def make_decimal_comma(folder):
    """The environment of a host that writes a decimal comma, where glibc's localedef makes one."""
    if shutil.which("localedef") is None:
        return None
    made = subprocess.run(["localedef", "-f", "UTF-8", "-i", "de_DE", f"{folder}/de_DE.UTF-8"],
                          stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    environment = {"LOCPATH": folder, "LC_ALL": "de_DE.UTF-8"}
    point = subprocess.run(["locale", "decimal_point"], stdout=subprocess.PIPE, text=True, check=False,
                           env={**os.environ, **environment}) if made.returncode == 0 else None
    return environment if point and point.stdout.strip() == "," else None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("requests")
    for option in ("cpp", "c", "python", "web", "programs", "schemas", "page"):
        parser.add_argument(f"--{option}")
    asked = parser.parse_args()
    table = json.loads(pathlib.Path(asked.requests).read_text(encoding="utf-8"))
    cases = list(requests_of(table))
    lines = [json.dumps(request) for _, request in cases]

    ways = {"C": by_lines(asked.c, lines)}
    with tempfile.TemporaryDirectory() as folder:
        comma = make_decimal_comma(folder)
        if comma:
            ways["C, decimal comma"] = by_lines(asked.c, lines, **comma)
        else:
            print("left out: no locale that writes a decimal comma")
    if asked.cpp:
        ways["C++"] = by_lines(asked.cpp, lines)
    if asked.python:
        ways["Python"] = by_python(asked.python, lines)
    if asked.web and shutil.which("node"):
        ways["Node"] = by_node(asked.web, lines)
    for i, (case, request) in enumerate(cases):
        answer = json.loads(ways["C"][i])
        expect(case, answer)
        for way, answers in ways.items():
            if len(answers) != len(cases):
                sys.exit(f"{way}: {len(answers)} answers to {len(cases)} requests")
            if answers[i] == ways["C"][i]:
                continue
            others = differences(answer, json.loads(answers[i])) if way == "Node" else ["another text"]
            if others:
                fail(case["name"], way, "; ".join(others[:3]))
        if asked.programs and can_be_asked(request):
            compare_program(case, answer, ways["C"][i], asked.programs, request)
    if asked.schemas:
        check_schemas(pathlib.Path(asked.schemas), cases, ways["C"])
    if asked.page:
        write_page(asked.page, cases, ways["C"])
    named = list(ways) + (["programs"] if asked.programs else [])
    print(f"{len(cases)} requests, asked in {', '.join(named)}: {len(failures)} failures")
    sys.exit(1 if failures else 0)


main()
