#!/usr/bin/env python3
"""bench/include_cost.py - what each header costs a program that includes it

    python3 bench/include_cost.py                        # all headers; prints the page
    python3 bench/include_cost.py --write                # and keeps it: docs/include-cost.md
    python3 bench/include_cost.py --rounds 3 batch week  # some headers, roughly

Needs a compiler (--cxx, g++ unless told otherwise), Eigen, and Python with its standard library.
Only what stands between the page's marks is renewed; the prose around it is kept.
"""

import argparse
import os
import pathlib
import re
import statistics
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


class Compiler:
    def __init__(self, cxx, folder):
        self.cxx = cxx
        self.where = [f"-I{page.ROOT / 'include'}", "-isystem", eigen_folder()]
        self.folder = pathlib.Path(folder)

    def source(self, stem, headers):
        path = self.folder / f"{stem}.cpp"
        path.write_text("".join(f"#include {header}\n" for header in headers))
        return path

    def milliseconds(self, source):
        """CPU time of one compilation, user and system, of the compiler and all it starts."""
        command = [self.cxx, *FLAGS, *self.where, "-o", os.devnull, str(source)]
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


def tables(empty, rows):
    """The targets are 1.3 times the standard headers, 1.15 times the Eigen headers."""
    forward = [row for row in rows if not row["eigen"]]
    learning = [row for row in rows if row["eigen"]]
    for title, chosen, base, target in (
            ("Without Eigen", forward, "theirs", 1.30), ("With Eigen", learning, "eigen", 1.15)):
        within = sum(1 for row in chosen if row["ours"] <= target * row[base])
        what = "standard headers" if base == "theirs" else "Eigen headers"
        yield f"## {title}\n"
        yield f"{within} of {len(chosen)} are at most {target} times their {what}.\n"
        yield f"| header | ms | its {what}, ms | ratio | lines | of those its own |"
        yield "|---|---:|---:|---:|---:|---:|"
        if chosen is forward:
            yield f"| (empty file) | {empty:.0f} | | | | |"
        for row in sorted(chosen, key=lambda row: row["ours"]):
            ratio = row["ours"] / row[base]
            text = f"{ratio:.2f}" if ratio <= target else f"**{ratio:.2f}**"
            yield (f"| `{row['name']}.hpp` | {row['ours']:.0f} | {row[base]:.0f} | {text} | "
                   f"{row['lines']:,} | {row['lines'] - row['their_lines']:,} |")
        yield ""


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("names", nargs="*", help="headers, without .hpp; all if none")
    parser.add_argument("--cxx", default="g++")
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--write", action="store_true", help="into docs/include-cost.md")
    options = parser.parse_args()
    names = options.names or sorted(path.stem for path in HEADERS.glob("*.hpp"))
    with tempfile.TemporaryDirectory() as folder:
        empty, rows = measure(Compiler(options.cxx, folder), names, options.rounds)
    machine = page.machine(options.cxx, " ".join(FLAGS))
    text = "\n".join([f"{machine} Medians of {options.rounds} rounds.", "", *tables(empty, rows)])
    if options.write:
        page.write(page.ROOT / "docs" / "include-cost.md", "bench/include_cost.py", text)
    else:
        print(text)


if __name__ == "__main__":
    main()
