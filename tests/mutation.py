#!/usr/bin/env python3
"""Mutation testing: would the tests notice if one operator or number in a header were another?

    python3 tests/mutation.py --sample 500 --results FILE   # of all headers, always the same 500
    python3 tests/mutation.py --sample 20 --headers week    # of one
    python3 tests/mutation.py --only week.hpp:315:24        # one mutant again, by its place
    python3 tests/mutation.py --list                        # how many there are

Each mutant changes one place in a copy of include/, never the headers themselves. A mutant is

    killed     a test fails or does not end, or a static assertion or constant expression does not hold
    survived   all pass: a test is missing, or the change makes no difference that can be seen
    invalid    it does not compile for another reason; it is not counted and another is drawn

First every mutant of the sample is compiled into the same test programs, each behind a switch that
the environment sets (mutant schemata: Untch, Offutt and Harrold 1993), and all tests that reach the
header are run. What passes is judged again with the place itself changed, since a switch has no say
in what the compiler works out: the header's own tests, and those of the chain, are compiled anew. Only
where the compiler works out nothing and a test did reach the switch is it known to survive.

With --results the answers are kept line by line, so a run may be stopped at any time and goes on
from there. Needs g++, doctest, Eigen and libcsv; not run by tests/run.sh.
SPDX-License-Identifier: BSL-1.0
"""

import argparse
import concurrent.futures
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
    "velocity": ["published_cases"],
}
CHAIN = ["chain", "chain_properties"]
NEVER = {"strength_model_calibration", "allocation"}
# Of the many headers that these reach, for the ones their tests are about.
LATE = ["strength_model", "strength_model_risk"]
LATE_FOR = {"strength_model", "set_evidence", "linear_gaussian", "shaped_curve", "curve_table"}
# Where the compiler works out nothing but constants.
AT_RUN_TIME = {"linear_gaussian", "strength_model", "least_squares", "curve_fit", "batch",
               "set_evidence", "shaped_curve"}
SLOW_CASES = "*five hundred logs of nonsense*"  # left out: long, and about the absence of crashes


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


SWITCHES = r"""// Every mutant of a sample in one program: the environment says which is in force.
#pragma once
#include <cstdio>
#include <cstdlib>
#include <type_traits>
namespace mutant {
inline int number(const char* name) {
  const char* text = std::getenv(name);
  return text ? std::atoi(text) : -1;
}
inline int active = number("MUTANT");
inline void reached() {
  static const bool told = std::fputs("\nREACHED\n", stderr) >= 0;
  (void)told;
}
constexpr bool on(int k) {
  if (std::is_constant_evaluated()) return false;
  if (k != active) return false;
  reached();
  return true;
}
template <int k, char kind> struct Op {};
template <int k, char kind, class L> struct Left { const L& l; };
template <int k, char kind, class R> struct Right { R&& r; };
template <int k, class T> constexpr T& up(T& x) { return on(k) ? --x : ++x; }
template <int k, class T> constexpr T& down(T& x) { return on(k) ? ++x : --x; }
#define MUTANT_PAIR(KIND, OP, OTHER)                                                           \
  template <int k, class L> constexpr Left<k, KIND, L> operator OP(const L& l, Op<k, KIND>) {  \
    return {l};                                                                                \
  }                                                                                            \
  template <int k, class L, class R>                                                           \
  constexpr auto operator OP(Left<k, KIND, L> a, const R& r) {                                 \
    return on(k) ? (a.l OTHER r) : (a.l OP r);                                                 \
  }
MUTANT_PAIR('<', <, <=)
MUTANT_PAIR('l', <=, <)
MUTANT_PAIR('>', >, >=)
MUTANT_PAIR('g', >=, >)
MUTANT_PAIR('=', ==, !=)
MUTANT_PAIR('!', !=, ==)
MUTANT_PAIR('+', +, -)
MUTANT_PAIR('-', -, +)
MUTANT_PAIR('*', *, /)
MUTANT_PAIR('/', /, *)
MUTANT_PAIR('%', %, +)
#define MUTANT_ASSIGN(KIND, OP, OTHER)                                                         \
  template <int k, class R> constexpr Right<k, KIND, R> operator OP(Op<k, KIND>, R&& r) {      \
    return {static_cast<R&&>(r)};                                                              \
  }                                                                                            \
  template <int k, class L, class R> constexpr L& operator OP(L& l, Right<k, KIND, R>&& a) {   \
    if (on(k)) l OTHER a.r; else l OP a.r;                                                     \
    return l;                                                                                  \
  }
MUTANT_ASSIGN('p', +=, -=)
MUTANT_ASSIGN('m', -=, +=)
MUTANT_ASSIGN('t', *=, /=)
MUTANT_ASSIGN('d', /=, *=)
}  // namespace mutant
"""
KINDS = {"<": "<", "<=": "l", ">": ">", ">=": "g", "==": "=", "!=": "!", "+": "+", "-": "-",
         "*": "*", "/": "/", "%": "%", "+=": "p", "-=": "m", "*=": "t", "/=": "d"}


def bracketed_until(plain, at, step, ends):
    """The first place from `at` on, outside brackets opened on the way, that `ends` or closes one."""
    opening, closing = "([{", ")]}"
    if step < 0:
        opening, closing = closing, opening
    depth = 0
    while 0 <= at < len(plain):
        c = plain[at]
        if c in opening:
            depth += 1
        elif c in closing:
            if depth == 0:
                break
            depth -= 1
        elif depth == 0 and ends(at):
            break
        at += step
    return at


def condition_around(plain, place):
    """Where the condition begins and ends whose `&&` or `||` stands at `place`, or None."""
    def ends(at):
        return plain[at] in ";,?" or (plain[at] == ":" and plain[at - 1] == " ")

    def begins_behind(at):
        return (ends(at) or plain[at - 1 : at + 2] == " = "
                or plain[at - 6 : at + 1] in ("return ", "return\n"))

    start = bracketed_until(plain, place - 1, -1, begins_behind) + 1
    end = bracketed_until(plain, place, 1, ends)
    part = plain[start:end]
    return None if re.search(r"\b(requires|template|concept|return)\b|[^ ]&&|;", part) else (start, end)


def switched(code, mutants, plain):
    """The code with a switch at the place of each (number, mutant); the numbers left out."""
    edits, left_out = [], []
    for k, (_, _, _, place, text, other) in mutants:
        end = place + len(text)
        if text in ("&&", "||"):
            around = condition_around(plain, place)
            if around is None or any(around[0] <= m[1][3] < around[1] and m[0] != k
                                     for m in mutants):
                left_out.append(k)
                continue
            a, b = around
            whole = code[a:b]
            changed = code[a:place] + other + code[end:b]
            lead = len(whole) - len(whole.lstrip())
            # On as many lines as before, so that messages name the right ones.
            flat = re.sub(r"//[^\n]*", "", changed).replace("\n", " ")
            edits.append((a + lead, b, f"(::mutant::on({k}) ? ({flat}) : ({whole[lead:]}))"))
        elif text in KINDS:
            op = f"::mutant::Op<{k}, '{KINDS[text]}'>{{}}"
            edits.append((place, end, f"{text} {op} {text}"))
        elif text == "!":
            edits.append((place, end, f"::mutant::on({k}) != !"))
        elif text in ("++", "--"):
            name = re.match(r"\w+(?=[);,])", plain[end:])
            if not name:
                left_out.append(k)
                continue
            edits.append((place, end + name.end(),
                          f"::mutant::{'up' if text == '++' else 'down'}<{k}>({name.group()})"))
        else:
            edits.append((place, end, f"(::mutant::on({k}) ? {other} : {text})"))
    for a, b, new in sorted(edits, reverse=True):
        code = code[:a] + new + code[b:]
    return code, left_out

def includes(path, seen=None):
    """The names of all headers a file reaches, those of tests/ and examples/ followed as well."""
    seen = set() if seen is None else seen
    for name in re.findall(r'#include [<"]([\w/.]+)[>"]', path.read_text()):
        if name in seen:
            continue
        seen.add(name)
        for folder in (ROOT / "include", ROOT / "tests", ROOT / "examples"):
            if (folder / name).is_file():
                includes(folder / name, seen)
    return seen


TESTS = [t.name[: -len("_test.cpp")] for t in sorted((ROOT / "tests").glob("*_test.cpp"))]
TESTS = [t for t in TESTS if t not in NEVER]
REACH = {t: includes(ROOT / "tests" / f"{t}_test.cpp") for t in TESTS}


def tests_of(header):
    """Its own tests and a few more; all tests that reach it, its own first."""
    name = header[: -len(".hpp")]
    own = [t for t in TESTS if t == name or t.startswith(name + "_")]
    own += [t for t in MORE_TESTS.get(name, []) if t in TESTS and t not in own]
    reaching = [t for t in TESTS if f"barwright/{header}" in REACH[t]]
    few = own + [t for t in CHAIN if t in reaching]
    more = [t for t in reaching if t not in few and t not in LATE]
    late = [t for t in LATE if name in LATE_FOR and t not in few]
    return few, few + more + late


class Bench:
    """Compiles and runs the tests against a changed copy of the headers."""

    def __init__(self, folder, compiler, headers):
        self.folder = pathlib.Path(folder)
        self.folder.mkdir(exist_ok=True)
        self.compiler = compiler
        self.headers = headers
        self.include = self.folder / "include"
        shutil.rmtree(self.include, ignore_errors=True)
        shutil.copytree(headers.parent, self.include)
        eigen = next((p for p in ("/usr/include/eigen3", "/usr/local/include/eigen3")
                      if os.path.isdir(p)), "/usr/include")
        self.flags = ["-std=c++20", "-w", "-Wno-narrowing", f"-I{self.include}", "-isystem", eigen,
                      f"-I{ROOT / 'tests'}", f"-I{ROOT / 'examples'}",
                      f'-DBARWRIGHT_TEST_DATA="{ROOT / "tests" / "data"}"']
        self.main = self.folder / "main.o"
        subprocess.run([compiler, *self.flags, "-O1", "-c", ROOT / "tests" / "main.cpp", "-o",
                        self.main], check=True)

    def compile(self, name, program):
        # What uses Eigen runs for too long without optimisation; of `errors` there is much.
        level = "-O1" if "Eigen/Core" in REACH[name] and name != "errors" else "-O0"
        return subprocess.run([self.compiler, *self.flags, level,
                               ROOT / "tests" / f"{name}_test.cpp", self.main, "-o", program,
                               "-lcsv"], capture_output=True, text=True, timeout=900)

    def run(self, program, number=-1):
        """The exit status, or None if it does not end; and whether the switch was reached."""
        try:
            run = subprocess.run([program, "--no-colors=true", "--abort-after=1", "--minimal=true",
                                  f"-tce={SLOW_CASES}"],
                                 env=dict(os.environ, MUTANT=str(number)), timeout=120,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        except subprocess.TimeoutExpired:
            return None, True
        return run.returncode, b"REACHED" in run.stderr

    # ---- all mutants in one program ----

    def build_switched(self, mutants, tests, workers):
        """Compiles the tests with a switch for each (number, mutant). Numbers without: left out."""
        (self.include / "mutant.hpp").write_text(SWITCHES)
        self.flags += ["-include", str(self.include / "mutant.hpp")]
        self.left_out = set()

        def write():
            self.at_line = {}
            for header in {m[0] for _, m in mutants}:
                code = (self.headers / header).read_text()
                here = [(k, m) for k, m in mutants if m[0] == header and k not in self.left_out]
                code, without = switched(code, here, blanked(code))
                self.left_out.update(without)
                (self.include / "barwright" / header).write_text(code)
                for k, m in here:
                    self.at_line.setdefault((header, m[1]), []).append(k)

        def build(name):
            return name, self.compile(name, self.folder / name)

        write()
        waiting = list(tests)
        with concurrent.futures.ThreadPoolExecutor(workers) as pool:
            while waiting:
                failed = []
                for name, done in pool.map(build, waiting):
                    if done.returncode == 0:
                        continue
                    failed.append(name)
                    # Where the error is; else all places that led to it.
                    for place in (r":\d+: error", ""):
                        lines = set(re.findall(rf"barwright/(\w+\.hpp):(\d+){place}", done.stderr))
                        bad = [k for header, line in lines
                               for k in self.at_line.get((header, int(line)), [])]
                        if bad:
                            break
                    if not bad:
                        sys.exit(f"{name} does not compile with its switches:\n{done.stderr[:3000]}")
                    self.left_out.update(bad)
                write()
                waiting = failed
                if failed:
                    print(f"again, without {len(self.left_out)} switches: {failed}", flush=True)

    def judge_switched(self, number, mutant):
        """None when all pass, else how it was killed; and whether a test reached the place."""
        if number in self.left_out:
            return None, False
        touched = False
        for name in tests_of(mutant[0])[1]:
            status, reached = self.run(self.folder / name, number)
            if status != 0:
                return ("killed", name + (" does not end" if status is None else "")), True
            touched = touched or reached
        return None, touched

    # ---- one mutant at a time ----

    def judge(self, mutant):
        header, _, _, place, text, other = mutant
        target = self.include / "barwright" / header
        code = (self.headers / header).read_text()
        target.write_text(code[:place] + other + code[place + len(text):])
        program = self.folder / "program"
        try:
            for name in tests_of(header)[0]:
                try:
                    build = self.compile(name, program)
                except subprocess.TimeoutExpired:
                    return "killed", "compiling does not end"
                if build.returncode != 0:
                    if re.search(r"static assertion failed|constant expression|is not a constant"
                                 r"|constexpr|in the definition of|consteval", build.stderr):
                        return "killed", "while compiling " + name
                    return "invalid", build.stderr[:300]
                status, _ = self.run(program)
                if status != 0:
                    return "killed", name + (" does not end" if status is None else "")
            return "survived", ""
        finally:
            target.write_text(code)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("--sample", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--headers", nargs="*", default=[])
    parser.add_argument("--only", nargs="*", default=[], help="HEADER:LINE:COLUMN")
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--results", help="file the answers are kept in, for going on after a stop")
    parser.add_argument("--headers-from", default=str(HEADERS), help="include/barwright elsewhere")
    parser.add_argument("--folder", help="where to build, kept; else a temporary folder")
    parser.add_argument("--no-switches", action="store_true", help="one mutant at a time only")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--compiler", default="g++")
    args = parser.parse_args()

    folder_of_headers = pathlib.Path(args.headers_from).resolve()
    headers = sorted(folder_of_headers.glob("*.hpp"))
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
        mutants = [m for m in mutants if f"{m[0]}:{m[1]}:{m[2]}" in args.only]

    def key(mutant):
        header, line, column, _, text, other = mutant
        return f"{header}:{line}:{column}: {text} -> {other or 'nothing'}"

    verdicts = {}
    if args.results and os.path.exists(args.results):
        for line in open(args.results):
            verdict, rest = line.split(": ", 1)
            verdicts[rest.split(" [")[0]] = verdict

    def tell(mutant, verdict, why, start):
        source = (folder_of_headers / mutant[0]).read_text().split("\n")[mutant[1] - 1].strip()
        why = why.split("\n")[0].replace("[", "(")
        line = f"{verdict}: {key(mutant)} [{why}] {time.time() - start:.0f} s: {source}"
        verdicts[key(mutant)] = verdict
        print(line, flush=True)
        if args.results:
            with open(args.results, "a") as file:
                file.write(line + "\n")

    temporary = None if args.folder else tempfile.TemporaryDirectory()
    folder = pathlib.Path(args.folder or temporary.name)
    folder.mkdir(exist_ok=True)
    drawn = [m for m in mutants[: args.sample + args.sample // 20] if key(m) not in verdicts]
    numbered = list(enumerate(drawn))
    left = [(m, False) for m in drawn]
    if not args.no_switches:
        left = []
        bench = Bench(folder / "switched", args.compiler, folder_of_headers)
        tests = [t for t in TESTS if any(t in tests_of(m[0])[1] for m in drawn)]
        bench.build_switched(numbered, tests, args.workers)
        for name in tests:
            status, _ = bench.run(bench.folder / name)
            if status != 0:
                sys.exit(f"{name} fails with every switch off")
        print(f"{len(drawn)} mutants, {len(bench.left_out)} of them without a switch", flush=True)

        def one(numbered_mutant):
            number, mutant = numbered_mutant
            start = time.time()
            verdict, touched = bench.judge_switched(number, mutant)
            if verdict:
                tell(mutant, *verdict, start)
            else:
                left.append((mutant, touched))
        with concurrent.futures.ThreadPoolExecutor(args.workers) as pool:
            list(pool.map(one, numbered))
        print(f"{len(left)} to be judged one at a time", flush=True)
    left.sort(key=lambda item: drawn.index(item[0]))

    waiting = list(left)
    def work(number):
        bench = Bench(folder / f"alone{number}", args.compiler, folder_of_headers)
        while waiting:
            try:
                mutant, touched = waiting.pop(0)
            except IndexError:
                return
            start = time.time()
            if touched and mutant[0][: -len(".hpp")] in AT_RUN_TIME:
                tell(mutant, "survived", "reached by a test", start)
            else:
                tell(mutant, *bench.judge(mutant), start)
    with concurrent.futures.ThreadPoolExecutor(args.workers) as pool:
        list(pool.map(work, range(args.workers)))

    judged = [v for v in (verdicts.get(key(m)) for m in mutants) if v in ("killed", "survived")]
    judged = judged[: args.sample]
    if judged:
        killed = judged.count("killed")
        print(f"{killed} of {len(judged)} killed, {100 * killed / len(judged):.1f} %")
    return 0


if __name__ == "__main__":
    sys.exit(main())
