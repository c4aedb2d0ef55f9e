#!/usr/bin/env python3
"""bench/include_cost.py - what each header costs a program that includes it

    python3 bench/include_cost.py                        # all headers; prints the page
    python3 bench/include_cost.py --write                # and keeps it: docs/include-cost.md
    python3 bench/include_cost.py --rounds 3 batch week  # some headers, roughly

Needs a compiler (--cxx, g++ unless told otherwise), Eigen, and Python with its standard library.
What the page says between the table and its end is prose; it is kept when the tables are renewed.
"""

import argparse
import datetime
import os
import pathlib
import platform
import re
import statistics
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent
HEADERS = ROOT / "include" / "barwright"
PAGE = ROOT / "docs" / "include-cost.md"


def eigen_folder():
    for prefix in [*os.environ.get("CMAKE_PREFIX_PATH", "").split(":"), "/usr", "/usr/local"]:
        for folder in (f"{prefix}/include/eigen3", f"{prefix}/include"):
            if prefix and pathlib.Path(folder, "Eigen", "Core").exists():
                return folder
    sys.exit("Eigen 3.4 is not here (Debian: libeigen3-dev)")


class Compiler:
    def __init__(self, cxx, folder):
        self.cxx = cxx
        self.flags = ["-std=c++20", "-O2", "-c"]
        self.where = [f"-I{ROOT / 'include'}", "-isystem", eigen_folder()]
        self.folder = pathlib.Path(folder)

    def source(self, stem, headers):
        path = self.folder / f"{stem}.cpp"
        path.write_text("".join(f"#include {header}\n" for header in headers))
        return path

    def milliseconds(self, source):
        """CPU time of one compilation, user and system, of the compiler and all it starts."""
        command = [self.cxx, *self.flags, *self.where, "-o", os.devnull, str(source)]
        process = subprocess.Popen(command)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != 0:
            sys.exit(f"failed: {' '.join(command)}")
        return 1000.0 * (used.ru_utime + used.ru_stime)

    def lines(self, source):
        """Preprocessed lines that are not empty, line markers left out."""
        command = [self.cxx, "-std=c++20", *self.where, "-E", str(source)]
        text = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        return sum(1 for line in text.splitlines() if line.strip() and not line.startswith("#"))

    def foreign(self, source):
        """The headers that are not ours and that ours include, as this compiler sees them."""
        command = [self.cxx, "-std=c++20", *self.where, "-H", "-fsyntax-only", str(source)]
        tree = subprocess.run(command, check=True, capture_output=True, text=True).stderr
        found = []
        parents = [str(source)]
        for dots, path in re.findall(r"^(\.+) (.+)$", tree, re.MULTILINE):
            parents[len(dots):] = [path]
            if "/barwright/" in parents[len(dots) - 1] and "/barwright/" not in path:
                found.append(re.sub(r".*?/((unsupported/)?Eigen/)|.*/", r"\1", path))
        return found

    def version(self):
        command = [self.cxx, "--version"]
        return subprocess.run(command, check=True, capture_output=True, text=True).stdout.split("\n")[0]


def measure(compiler, names, rounds):
    """Per name: (ours, what it includes, its Eigen headers or None); and the empty one."""
    empty = compiler.source("empty", [])
    sources = {}
    for name in names:
        ours = compiler.source(f"ours_{name}", [f'"barwright/{name}.hpp"'])
        foreign = [f"<{name}>" for name in compiler.foreign(ours)]
        eigen = [name for name in foreign if "Eigen/" in name]
        sources[name] = [
            ours,
            compiler.source(f"theirs_{name}", foreign),
            compiler.source(f"eigen_{name}", eigen) if eigen else None,
        ]
    times = {}
    for done in range(rounds):
        # In turns, so that a busy minute of the machine falls on all.
        for source in [empty, *(s for triple in sources.values() for s in triple if s)]:
            times.setdefault(source, []).append(compiler.milliseconds(source))
        print(f"round {done + 1} of {rounds}", file=sys.stderr)
    median = {source: statistics.median(values) for source, values in times.items()}
    rows = []
    for name, (ours, theirs, eigen) in sources.items():
        rows.append({
            "name": name,
            "ours": median[ours],
            "theirs": median[theirs],
            "eigen": median[eigen] if eigen else None,
            "lines": compiler.lines(ours),
            "their_lines": compiler.lines(theirs),
        })
    return median[empty], rows


def table(empty, rows):
    yield "| header | ms | its std and Eigen headers, ms | ratio | its Eigen headers, ms | ratio | lines | of those its own |"
    yield "|---|---:|---:|---:|---:|---:|---:|---:|"
    yield f"| (empty file) | {empty:.0f} | | | | | | |"
    for row in rows:
        eigen, ratio = "", ""
        if row["eigen"]:
            eigen, ratio = f"{row['eigen']:.0f}", f"{row['ours'] / row['eigen']:.2f}"
        yield (f"| `{row['name']}.hpp` | {row['ours']:.0f} | {row['theirs']:.0f} | "
               f"{row['ours'] / row['theirs']:.2f} | {eigen} | {ratio} | {row['lines']:,} | "
               f"{row['lines'] - row['their_lines']:,} |")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("names", nargs="*", help="headers, without .hpp; all if none")
    parser.add_argument("--cxx", nargs="+", default=["g++"])
    parser.add_argument("--rounds", type=int, default=7)
    options = parser.parse_args()
    names = options.names or sorted(path.stem for path in HEADERS.glob("*.hpp"))
    for cxx in options.cxx:
        with tempfile.TemporaryDirectory() as folder:
            compiler = Compiler(cxx, folder)
            empty, rows = measure(compiler, names, options.rounds)
            print(compiler.version())
            print("\n".join(table(empty, rows)))


if __name__ == "__main__":
    main()
