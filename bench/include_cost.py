#!/usr/bin/env python3
"""bench/include_cost.py - what each header costs a program that includes it

    python3 bench/include_cost.py                                 # all umbrellas; prints the page
    python3 bench/include_cost.py --write                         # and keeps it: docs/include-cost.md
    python3 bench/include_cost.py --rounds 3 plates learn/batch   # some headers, roughly

Needs a compiler (--cxx, g++ unless told otherwise), Eigen, and Python with its standard library.
Only what stands between the page's marks is renewed; the prose around it is kept.
"""

import argparse
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import page

HEADERS = page.ROOT / "include" / "barwright"
FLAGS = ["-std=c++20", "-O2", "-c"]


def eigen_folder():
    for prefix in [*os.environ.get("CMAKE_PREFIX_PATH", "").split(":"), "/usr", "/usr/local"]:
        for folder in (f"{prefix}/include/eigen3", f"{prefix}/include"):
            if prefix and pathlib.Path(folder, "Eigen", "Core").exists():
                return folder
    sys.exit("Eigen 3.4 is not here (Debian: libeigen3-dev)")


# A file that fits a model and asks it for a max and a load.
FITS_A_MODEL = """#include <barwright/learn/strength_model.hpp>
double fits(const std::vector<barwright::LoggedSet>& log, barwright::Date today) {
  using namespace barwright;
  StrengthModel model({.reference = lifts::bench_press, .curve = equations::wathen});
  for (const LoggedSet& set : log) model.add(set);
  const StrengthFit fit = model.fit();
  return fit.max(lifts::bench_press, today).median().kg() +
         fit.load_for(lifts::bench_press, Reps(5), RepsInReserve(2), today).load.kg();
}
"""


class Compiler:
    """Compiles files of its own folder, `compiled` as a program does that links barwright::compiled."""

    def __init__(self, cxx, folder):
        self.cxx = cxx
        self.folder = pathlib.Path(folder)
        self.where = [f"-I{page.ROOT / 'include'}", "-isystem", eigen_folder()]
        marker = self.folder / "marker" / "barwright" / "compiled.hpp"
        marker.parent.mkdir(parents=True)
        marker.write_text("#pragma once\n")
        self.compiled = [f"-I{self.folder / 'marker'}", *self.where]

    def source(self, stem, text):
        path = self.folder / f"{stem.replace('/', '_')}.cpp"
        path.write_text(text)
        return path

    def milliseconds(self, source, where):
        """CPU time of one compilation, user and system, of the compiler and all it starts."""
        command = [self.cxx, *FLAGS, *where, "-o", os.devnull, str(source)]
        process = subprocess.Popen(command)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != 0:
            sys.exit(f"failed: {' '.join(command)}")
        return 1000.0 * (used.ru_utime + used.ru_stime)

    def lines(self, source, where):
        """Preprocessed lines that are not empty, line markers left out."""
        command = [self.cxx, "-std=c++20", *where, "-E", str(source)]
        text = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        return sum(1 for line in text.splitlines() if line.strip() and not line.startswith("#"))

    def foreign(self, source, where):
        """The headers that are not ours and that ours include, as this compiler sees them."""
        command = [self.cxx, "-std=c++20", *where, "-H", "-fsyntax-only", str(source)]
        tree = subprocess.run(command, check=True, capture_output=True, text=True).stderr
        found = []
        parents = [str(source)]
        for dots, path in re.findall(r"^(\.+) (.+)$", tree, re.MULTILINE):
            parents[len(dots):] = [path]
            if "/barwright/" in parents[len(dots) - 1] and "/barwright/" not in path:
                found.append(re.sub(r".*?/((unsupported/)?Eigen/)|.*/", r"\1", path))
        return found


def measure(compiler, names, rounds):
    """What each header costs, and a file that fits a model; milliseconds are the least of the rounds."""
    jobs = {"empty": (compiler.source("empty", ""), compiler.where)}
    rows = []
    for name in names:
        ours = compiler.source(f"ours_{name}", f'#include "barwright/{name}.hpp"\n')
        foreign = compiler.foreign(ours, compiler.compiled)
        needs_eigen = any("Eigen/" in header for header in foreign)
        theirs = compiler.source(f"theirs_{name}", "".join(f"#include <{h}>\n" for h in foreign))
        jobs[name, "ours"] = (ours, compiler.compiled)
        jobs[name, "theirs"] = (theirs, compiler.where)
        if needs_eigen or compiler.lines(ours, compiler.where) != compiler.lines(ours, compiler.compiled):
            needs_eigen = True
            jobs[name, "bodies"] = (ours, compiler.where)
        lines = compiler.lines(ours, compiler.compiled)
        rows.append({"name": name, "needs_eigen": needs_eigen, "lines": lines,
                     "own": lines - compiler.lines(theirs, compiler.where)})
    fits = compiler.source("fits", FITS_A_MODEL)
    jobs["fits", "compiled"] = (fits, compiler.compiled)
    jobs["fits", "bodies"] = (fits, compiler.where)
    times = {}
    for done in range(rounds):
        # In turns, so that a busy minute of the machine falls on all.
        for job, (source, where) in jobs.items():
            spent = compiler.milliseconds(source, where)
            times[job] = min(spent, times.get(job, spent))
        print(f"round {done + 1} of {rounds}", file=sys.stderr)
    return times, rows


def tables(times, rows):
    """The target is 1.3 times the headers of others."""
    target = 1.30

    def ratio(name):
        value = times[name, "ours"] / times[name, "theirs"]
        return f"{value:.2f}" if value <= target else f"**{value:.2f}**"

    rows = sorted(rows, key=lambda row: times[row["name"], "ours"])
    yield "## Without Eigen\n"
    yield "| header | ms | its standard headers, ms | ratio | lines | of those its own |"
    yield "|---|---:|---:|---:|---:|---:|"
    yield f"| (empty file) | {times['empty']:.0f} | | | | |"
    for row in rows:
        if row["needs_eigen"]:
            continue
        name = row["name"]
        yield (f"| `{name}.hpp` | {times[name, 'ours']:.0f} | {times[name, 'theirs']:.0f} | "
               f"{ratio(name)} | {row['lines']:,} | {row['own']:,} |")
    yield "\n## With Eigen\n"
    yield "| header | ms, linked to `barwright::compiled` | the headers of others, ms | ratio | ms, header-only |"
    yield "|---|---:|---:|---:|---:|"
    for row in rows:
        if not row["needs_eigen"]:
            continue
        name = row["name"]
        yield (f"| `{name}.hpp` | {times[name, 'ours']:.0f} | {times[name, 'theirs']:.0f} | "
               f"{ratio(name)} | {times[name, 'bodies']:.0f} |")
    yield (f"| a file that fits a model | {times['fits', 'compiled']:.0f} | | | "
           f"{times['fits', 'bodies']:.0f} |")
    yield ""


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("names", nargs="*", help="headers, without .hpp; all umbrellas if none")
    parser.add_argument("--cxx", default="g++")
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--write", action="store_true", help="into docs/include-cost.md")
    options = parser.parse_args()
    names = options.names or sorted(path.stem for path in HEADERS.glob("*.hpp"))
    with tempfile.TemporaryDirectory() as folder:
        times, rows = measure(Compiler(options.cxx, folder), names, options.rounds)
    machine = page.machine(options.cxx, " ".join(FLAGS))
    text = "\n".join([f"{machine} The least of {options.rounds} rounds.", "", *tables(times, rows)])
    if options.write:
        page.write(page.ROOT / "docs" / "include-cost.md", "bench/include_cost.py", text)
    else:
        print(text)


if __name__ == "__main__":
    main()
