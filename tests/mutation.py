#!/usr/bin/env python3
"""Mutation testing: would the tests notice if one operator or number in a header were another?

    python3 tests/mutation.py --sample 500                  # of all headers, always the same 500
    python3 tests/mutation.py --sample 20 --headers week    # of one
    python3 tests/mutation.py --only week.hpp:315:24        # one mutant again, by its place
    python3 tests/mutation.py --list                        # how many there are

Each mutant changes one place in a copy of include/, never the headers themselves. Then the tests of
that header are compiled and run, and only if they pass those of the whole chain. A mutant is

    killed     a test fails or does not end, or a static assertion or constant expression does not hold
    survived   all pass: a test is missing, or the change makes no difference that can be seen
    invalid    it does not compile for another reason; it is not counted and another is drawn

The answers are written line by line, so a run may be stopped at any time. Needs g++, doctest and
Eigen; not run by tests/run.sh.
SPDX-License-Identifier: BSL-1.0
"""

import argparse
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
HEADERS = ROOT / "include" / "barwright"

# Operators stand between blanks, as clang-format leaves them; so template brackets are not meant.
SWAPS = {
    "<": ["<="], "<=": ["<"], ">": [">="], ">=": [">"], "==": ["!="], "!=": ["=="],
    "+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"], "%": ["+"], "&&": ["||"], "||": ["&&"],
    "+=": ["-="], "-=": ["+="], "*=": ["/="], "/=": ["*="],
}
OPERATOR = re.compile(r"(?<= )(<=|>=|==|!=|&&|\|\||\+=|-=|\*=|/=|<|>|\+|-|\*|/|%)(?= )")
NUMBER = re.compile(r"(?<![\w.])(\d+\.\d+(?:e-?\d+)?|\d+e-?\d+|\d+)(?![\w.'])")
WORD = re.compile(r"\b(true|false)\b|(?<![\w)\]])!(?=[\w(])|\+\+(?=\w)|--(?=\w)")

# Tests beside those named after the header.
MORE_TESTS = {
    "plate_search": ["plates"],
    "equations": ["published_cases"],
    "effort": ["published_cases"],
    "rep_curve": ["equations", "rep_table"],
    "rep_table": ["published_cases"],
    "catalogue": ["variation"],
    "loading": ["plates", "words"],
    "variation": ["words"],
    "choice": ["words"],
    "block": ["words"],
    "week": ["words"],
    "curve_table": ["shaped_curve"],
    "error": ["units"],
    "source": ["catalogue"],
    "introduction": ["caution"],
}
CHAIN = ["chain", "chain_properties"]
SLOW = {"strength_model_calibration", "errors"}


def blanked(code):
    """The code with comments, texts and preprocessor lines as blanks, so that places stay."""
    def blank(match):
        return re.sub(r"[^\n]", " ", match.group())
    code = re.sub(r'"(?:\\.|[^"\\\n])*"', blank, code)
    code = re.sub(r"'(?:\\.|[^'\\\n])'", blank, code)
    code = re.sub(r"//[^\n]*", blank, code)
    code = re.sub(r"(?m)^#(?:[^\n]*\\\n)*[^\n]*", blank, code)
    return re.sub(r"static_assert\([^;]*;", blank, code)


def mutants_of(header):
    code = header.read_text()
    plain = blanked(code)
    found = []
    for match in OPERATOR.finditer(plain):
        for other in SWAPS[match.group()]:
            found.append((match.start(), match.group(), other))
    for match in NUMBER.finditer(plain):
        text = match.group()
        if re.fullmatch(r"\d+", text):
            others = [str(int(text) + 1)]
        else:
            value = float(text)
            others = [repr(value * 1.1 if value else 1.0)]
        found += [(match.start(), text, other) for other in others]
    for match in WORD.finditer(plain):
        text = match.group()
        other = {"true": "false", "false": "true", "!": "", "++": "--", "--": "++"}[text]
        found.append((match.start(), text, other))
    result = []
    for place, text, other in sorted(found):
        line = code.count("\n", 0, place) + 1
        column = place - code.rfind("\n", 0, place)
        result.append((header.name, line, column, place, text, other))
    return result


def tests_of(name):
    tests = [t.name[: -len("_test.cpp")] for t in sorted((ROOT / "tests").glob("*_test.cpp"))]
    own = [t for t in tests if t == name or t.startswith(name + "_")]
    own += [t for t in MORE_TESTS.get(name, []) if t in tests]
    return [t for t in own + CHAIN if t not in SLOW], len(own)


class Bench:
    """Compiles and runs the tests against a changed copy of the headers."""

    def __init__(self, folder, compiler):
        self.folder = pathlib.Path(folder)
        self.compiler = compiler
        self.include = self.folder / "include"
        shutil.copytree(ROOT / "include", self.include)
        eigen = next((p for p in ("/usr/include/eigen3", "/usr/local/include/eigen3")
                      if os.path.isdir(p)), "/usr/include")
        self.flags = ["-std=c++20", "-w", f"-I{self.include}", "-isystem", eigen,
                      f"-I{ROOT / 'tests'}", f'-DBARWRIGHT_TEST_DATA="{ROOT / "tests" / "data"}"']
        self.main = self.folder / "main.o"
        subprocess.run([compiler, *self.flags, "-O1", "-c", ROOT / "tests" / "main.cpp", "-o",
                        self.main], check=True)

    def try_test(self, name, header):
        """None when the test passes, else how it failed."""
        source = ROOT / "tests" / f"{name}_test.cpp"
        # What uses Eigen runs for too long without optimisation.
        level = "-O1" if "linear_gaussian" in self.reach(source) else "-O0"
        program = self.folder / "program"
        try:
            build = subprocess.run([self.compiler, *self.flags, level, source, self.main, "-o",
                                    program], capture_output=True, text=True, timeout=300)
        except subprocess.TimeoutExpired:
            return "killed", "compiling does not end"
        if build.returncode != 0:
            said = build.stderr
            if re.search(r"static assertion failed|constant expression|is not a constant|constexpr"
                         r"|in the definition of|consteval", said):
                return "killed", "while compiling " + name
            return "invalid", said[:300]
        try:
            run = subprocess.run([program, "--no-colors=true", "--abort-after=1", "--minimal=true"],
                                 capture_output=True, text=True, timeout=120, errors="replace")
        except subprocess.TimeoutExpired:
            return "killed", name + " does not end"
        if run.returncode != 0:
            return "killed", name
        return None

    def reach(self, source):
        text = source.read_text()
        return "linear_gaussian" if re.search(
            r"strength_model|linear_gaussian|least_squares|curve_fit|batch|learning|missing_by_lot",
            text) else ""

    def judge(self, mutant):
        header, _, _, place, text, other = mutant
        target = self.include / "barwright" / header
        code = (HEADERS / header).read_text()
        target.write_text(code[:place] + other + code[place + len(text):])
        try:
            names, _ = tests_of(header[: -len(".hpp")])
            for name in names:
                verdict = self.try_test(name, header)
                if verdict:
                    return verdict
            return "survived", ""
        finally:
            target.write_text(code)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("--sample", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--headers", nargs="*", default=[])
    parser.add_argument("--only", help="HEADER:LINE:COLUMN")
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--skip", type=int, default=0, help="leave out the first so many drawn")
    parser.add_argument("--compiler", default="g++")
    args = parser.parse_args()

    headers = sorted(HEADERS.glob("*.hpp"))
    if args.headers:
        headers = [h for h in headers if h.stem in args.headers]
    mutants = [m for header in headers for m in mutants_of(header)]
    if args.list:
        for header in headers:
            print(f"{len(mutants_of(header)):6} {header.name}")
        print(f"{len(mutants):6} in all")
        return 0
    random.Random(args.seed).shuffle(mutants)
    if args.only:
        mutants = [m for m in mutants if f"{m[0]}:{m[1]}:{m[2]}" == args.only]

    counts = {"killed": 0, "survived": 0, "invalid": 0}
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(folder, args.compiler)
        for mutant in mutants[args.skip:]:
            if counts["killed"] + counts["survived"] == args.sample:
                break
            start = time.time()
            verdict, why = bench.judge(mutant)
            counts[verdict] += 1
            header, line, column, _, text, other = mutant
            source_line = (HEADERS / header).read_text().split("\n")[line - 1].strip()
            why = why.split("\n")[0]
            print(f"{verdict}: {header}:{line}:{column}: {text} -> {other or 'nothing'}"
                  f" [{why}] {time.time() - start:.0f} s: {source_line}", flush=True)
    judged = counts["killed"] + counts["survived"]
    if judged:
        print(f"{counts['killed']} of {judged} killed, {100 * counts['killed'] / judged:.1f} %; "
              f"{counts['invalid']} were invalid")
    return 0


if __name__ == "__main__":
    sys.exit(main())
