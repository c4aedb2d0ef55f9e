#!/usr/bin/env python3
"""bench/run.py - builds the benchmarks, runs them, and writes docs/benchmarks.md

    python3 bench/run.py            # all; some ten minutes
    python3 bench/run.py --quick    # one short repetition of each, and nothing is written

Needs what the benchmarks need, and Python with its standard library. Where Rscript is at hand, R's
KalmanLike is measured too. Only what stands between the page's marks is renewed; the prose around
it, the reasons for what was missed, is for whoever runs this to hold against the new figures.
"""

import argparse
import json
import os
import re
import shutil
import statistics
import subprocess
import sys

import page

BUILD = page.ROOT / "build" / "bench"
FLAGS = "-std=c++20 -O2 -DNDEBUG"


def build(cxx):
    options = ["-DBARWRIGHT_BUILD_BENCHMARKS=ON", "-DBARWRIGHT_BUILD_TESTS=OFF",
               "-DBARWRIGHT_BUILD_EXAMPLES=OFF", "-DCMAKE_BUILD_TYPE="]
    subprocess.run(["cmake", "-S", page.ROOT, "-B", BUILD, f"-DCMAKE_CXX_COMPILER={cxx}", *options],
                   check=True, stdout=subprocess.DEVNULL)
    names = sorted(path.stem for path in (page.ROOT / "bench").glob("*_bench.cpp"))
    subprocess.run(["cmake", "--build", BUILD, "--parallel", str(os.cpu_count()), "--target", *names],
                   check=True, stdout=sys.stderr)
    return names


def run(name, quick):
    """The medians over repetitions, by benchmark: CPU time in nanoseconds, and counters."""
    command = [BUILD / "bench" / name, "--benchmark_format=json"]
    if quick:
        command += ["--benchmark_min_time=0.01"]
    else:
        # In random order, so that a busy minute of the machine falls on all.
        command += ["--benchmark_min_time=0.1", "--benchmark_repetitions=7",
                    "--benchmark_enable_random_interleaving=true"]
    print(name, file=sys.stderr)
    output = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    samples = {}
    rows = json.loads(output)["benchmarks"]
    rows.sort(key=lambda row: (row.get("family_index", 0), row.get("per_family_instance_index", 0)))
    for row in rows:
        if row.get("run_type") != "iteration":
            continue
        known = {"family_index", "per_family_instance_index", "repetitions", "repetition_index",
                 "threads", "iterations", "real_time", "cpu_time"}
        values = {k: v for k, v in row.items() if isinstance(v, (int, float)) and k not in known}
        values["cpu"] = row["cpu_time"] * {"ns": 1, "us": 1e3, "ms": 1e6, "s": 1e9}[row["time_unit"]]
        for key, value in values.items():
            samples.setdefault(row["run_name"], {}).setdefault(key, []).append(value)
    return {row: {key: statistics.median(values) for key, values in columns.items()}
            for row, columns in samples.items()}


def time_text(ns):
    for unit, size in (("s", 1e9), ("ms", 1e6), ("us", 1e3)):
        if ns >= size:
            return f"{ns / size:.3g} {unit}"
    return f"{ns:.3g} ns"


def table(heads, rows):
    yield "| " + " | ".join(heads) + " |"
    yield "|---" + "|---:" * (len(heads) - 1) + "|"
    for row in rows:
        yield "| " + " | ".join(row) + " |"
    yield ""


# ---- one table for each kind of program ----------------------------------------------------------


def batch_tables(results):
    for rows, where in (("4096", "in cache: 4,096 sets"), ("4000000", "in memory: 4,000,000 sets")):
        lines = []
        for name, c in results.items():
            match = re.fullmatch(rf"(\w+)(?:/(\w+))?/rows:{rows}/bad_in_1000:(\d+)/min_time:.*", name)
            if not match:
                continue
            label = f"{match[1]}, {match[2]}" if match[2] else match[1]
            if match[3] != "0":
                label += f", {match[3]} of 1000 rows bad"
            eigen = f"{c['eigen_to_batch']:.1f}" if "eigen_to_batch" in c else ""
            lines.append([label.replace("_", " "), f"{c['batch_ns']:.2f}", f"{c['triad_ns']:.2f}",
                          f"{c['batch_to_triad']:.2f}", f"{c['batch_to_copy']:.2f}",
                          f"{c['loop_ns']:.2f}", f"{c['loop_to_batch']:.1f}", eigen])
        yield f"`batch.hpp`, {where} (nanoseconds a set):\n"
        yield from table(["", "batch", "triad", "batch / triad", "batch / copy", "loop",
                          "loop / batch", "Eigen / batch"], lines)
    once = {"make_lattice": "a lattice from a curve", "make_steps": "the steps of a room's loads"}
    yield "Made once: " + "; ".join(f"{text} {time_text(results[n]['cpu'])}"
                                    for n, text in once.items()) + ".\n"


def estimates_table(results):
    yield "`equations.hpp`, `rep_table.hpp`: one set after the other (nanoseconds a set):\n"
    lines = []
    for name in (n.split("/")[1] for n in results if n.startswith("library/")):
        library, by_hand, simd = (results[f"{kind}/{name}"]["cpu"] / 4096
                                  for kind in ("library", "by_hand", "by_hand_simd"))
        lines.append([name, f"{library:.2f}", f"{by_hand:.2f}", f"{library / by_hand:.2f}",
                      f"{simd:.2f}"])
    yield from table(["", "library", "by hand", "library / by hand", "by hand, may take several"],
                     lines)


def pairs_table(results, title):
    """Programs of side_by_side.hpp."""
    lines = []
    for name in (n.split("/")[1] for n in results if n.startswith("library/")):
        library = results[f"library/{name}"]
        by_hand = results.get(f"by_hand/{name}")
        row = [name.replace("_", " "), time_text(library["per_case"] * 1e9), "", "", ""]
        if by_hand:
            gap = abs(library["sum"] - by_hand["sum"]) / max(abs(by_hand["sum"]), 1e-9)
            row[2:] = [time_text(by_hand["per_case"] * 1e9),
                       f"{library['per_case'] / by_hand['per_case']:.2f}",
                       "the same" if gap < 1e-9 else f"{100 * gap:.2g} % apart"]
        lines.append(row)
    yield f"{title}:\n"
    yield from table(["", "library", "by hand", "library / by hand", "sums of answers"], lines)


def plain_table(results, title, by_hand):
    """Other programs; `by_hand` names the benchmark that each is held against."""
    yield f"{title}:\n"
    lines = []
    for name, c in results.items():
        against = next((hand for start, hand in by_hand.items() if name.startswith(start)), None)
        ratio = f"{c['cpu'] / results[against]['cpu']:.2f}" if against else ""
        lines.append([f"`{name}`", time_text(c["cpu"]), ratio])
    yield from table(["", "CPU time", "to by hand"], lines)


def kalman_like():
    """Milliseconds, s2 and mean log f by model, from R; nothing where R is not here."""
    if not shutil.which("Rscript"):
        return {}
    output = subprocess.run(["Rscript", page.ROOT / "bench" / "kalman_like.R"], check=True,
                            capture_output=True, text=True).stdout
    return {w[0]: tuple(map(float, w[1:])) for w in map(str.split, output.splitlines())}


def filter_table(results, r):
    yield "`kalman_filter.hpp`: 100,000 observations (milliseconds):\n"
    lines = []
    for model in ("local_level", "local_linear_trend"):
        ms = {kind: results[f"{kind}/{model}"]["cpu"] / 1e6
              for kind in ("library", "textbook", "textbook_fixed")}
        row = [model.replace("_", " ")] + [f"{value:.2f}" for value in ms.values()]
        if model in r:
            c = results[f"library/{model}"]
            same = abs(c["s2"] - r[model][1]) < 2e-6 and abs(c["mean_log_f"] - r[model][2]) < 2e-6
            row += [f"{r[model][0]:.2f}", "the same" if same else "another"]
        else:
            row += ["R is not here", ""]
        lines.append(row)
    yield from table(["", "library", "textbook", "textbook, fixed size", "R's KalmanLike",
                      "likelihood in R"], lines)


# ---- the targets ---------------------------------------------------------------------------------


def targets(all_results, r):
    batch = all_results["batch_bench"]
    curves = {name: c for name, c in batch.items()
              if name.startswith("one_rep_max/") and "bad_in_1000:0/" in name}

    def span(counter, pattern, rows):
        values = [c[counter] for name, c in curves.items()
                  if re.search(pattern, name) and f"rows:{rows}/" in name]
        return min(values), max(values)

    def row(what, target, measured, met):
        return [what, target, measured, "met" if met else "**missed**"]

    exponential = "mayhew|wathen/|berger|reynolds"
    for rows, where in ((4096, "in cache"), (4000000, "in memory")):
        least, most = span("batch_to_triad", ".", rows)
        yield row(f"a max from a set, every curve, {where}, to the triad", "at most 1.15",
                  f"{least:.2f} to {most:.2f}", most <= 1.15)
        least, most = span("loop_to_batch", "lombardi", rows)
        yield row(f"the power curve {where}, faster than std::pow", "20 times", f"{least:.1f}", least >= 20)
        least, most = span("loop_to_batch", exponential, rows)
        yield row(f"the exponential curves {where}, faster than std::exp", "10 times",
                  f"{least:.1f} to {most:.1f}", least >= 10)
    scalar = all_results["estimates_bench"]
    ratios = {name.split("/")[1]: c["cpu"] / scalar["by_hand/" + name.split("/")[1]]["cpu"]
              for name, c in scalar.items() if name.startswith("library/")}
    worst = max(ratios, key=ratios.get)
    yield row("a max from one set, to the formula by hand", "at most 1.05",
              f"{min(ratios.values()):.2f} to {ratios[worst]:.2f} ({worst})", ratios[worst] <= 1.05)
    plates = all_results["plates_bench"]
    nearest = plates["nearest/gym_kg"]["cpu"]
    yield row("nearest loading of a gym set", "under 100 ns", time_text(nearest), nearest < 100)
    for what, rooms in (("as many plates as wanted", ("gym_kg", "gym_lb", "weightlifting_men")),
                        ("few plates, or kilograms and pounds", ("limited", "mixed"))):
        ramps = [plates[f"ramp/{room}"]["cpu"] for room in rooms]
        yield row(f"a ramp of eight steps, {what}", "under 20 us",
                  f"{time_text(min(ramps))} to {time_text(max(ramps))}", max(ramps) < 20e3)
    model = all_results["strength_model_bench"]
    for sets, most in ((100, 2e6), (15000, 300e6)):
        cpu = model[f"fit/{sets}"]["cpu"]
        yield row(f"strength model, {sets:,} sets" + (" (ten weeks)" if sets == 100 else ""),
                  f"under {time_text(most)}", time_text(cpu), cpu < most)
    kalman = all_results["kalman_filter_bench"]
    for name in ("local_level", "local_linear_trend"):
        ms = kalman[f"library/{name}"]["cpu"] / 1e6
        textbook = kalman[f"textbook/{name}"]["cpu"] / 1e6
        others = [textbook] + ([r[name][0]] if name in r else [])
        text = f"{ms:.2f} ms against {textbook:.2f}" + (f" and {r[name][0]:.2f}" if name in r else "; R is not here")
        yield row(f"filter, {name.replace('_', ' ')}, 100,000 observations", "faster than textbook and R",
                  text, ms < min(others))


TITLES = {
    "curve_fit_bench": "`curve_fit.hpp`, `least_squares.hpp`",
    "curve_table_bench": "`curve_table.hpp`, `shaped_curve.hpp`",
    "effort_bench": "`effort.hpp`",
    "logged_set_bench": "`logged_set.hpp`",
    "mass_bench": "`mass.hpp`, `date.hpp`",
    "normal_bench": "`normal.hpp`, `estimate.hpp`",
    "observation_bench": "`observation.hpp`",
    "planner_bench": "`plan/session.hpp`, `plan/learn_lifter.hpp`, `plan/json.hpp`",
    "planning_bench": "`introduction.hpp`, `block.hpp`, `choice.hpp`, `caution.hpp`",
    "prescription_bench": "`prescription.hpp`, `velocity.hpp`",
    "rep_table_bench": "`rep_table.hpp`",
    "session_load_bench": "`session_load.hpp`",
    "variation_bench": "`lift.hpp`, `lookup.hpp`",
}


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--cxx", default="g++")
    parser.add_argument("--quick", action="store_true")
    options = parser.parse_args()
    names = build(options.cxx)
    results = {name: run(name, options.quick) for name in names}
    r = kalman_like()

    lines = [page.machine(options.cxx, FLAGS), "", "## Targets", ""]
    lines += table(["", "target", "measured", ""], targets(results, r))
    lines += ["## Columns of sets", "", *batch_tables(results["batch_bench"])]
    lines += ["## One set", "", *estimates_table(results["estimates_bench"])]
    lines += ["## Plates, weeks, the model", ""]
    hands = {"nearest/": "hand_written_kg", "at_most/": "hand_written_kg", "ramp/": "hand_written_ramp"}
    lines += plain_table(results["plates_bench"], "`plates.hpp`", hands)
    lines += plain_table(results["week_bench"], "`day_order.hpp`, `swaps.hpp`", {"order_of_days/": "order_of_days_by_hand"})
    lines += plain_table(results["strength_model_bench"], "`strength_model.hpp`", {})
    lines += filter_table(results["kalman_filter_bench"], r)
    lines += ["## The other headers", ""]
    for name in names:
        if name in TITLES:
            lines += pairs_table(results[name], TITLES[name])
    text = "\n".join(lines)
    if options.quick:
        print(text)
    else:
        page.write(page.ROOT / "docs" / "benchmarks.md", "bench/run.py", text)


if __name__ == "__main__":
    main()
