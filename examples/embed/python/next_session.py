"""examples/embed/python/next_session.py - from a handful of sets to the loaded bar, in Python

The rower and her sets are invented; ../c/next_session.c is the same in C, and prints the same.
SPDX-License-Identifier: BSL-1.0
"""

import sys
from datetime import date

import barwright as bw


def main() -> None:
    bench = bw.Lift("bench press")
    feet_up = bw.Lift("bench press, feet up")

    # What she did: kilograms, repetitions, and how many more she had in her.
    log = bw.StrengthModel(bench)
    log.add(bench, date(2026, 10, 28), 60.0, 5, reserve=2)
    log.add(bench, date(2026, 11, 2), 62.5, 5, reserve=1)
    log.add(feet_up, date(2026, 11, 5), 52.5, 6, reserve=3)
    log.add(feet_up, date(2026, 11, 9), 55.0, 6, reserve=2)
    log.add(bench, date(2026, 11, 16), 62.5, 6, reserve=1)

    # How strong that makes her, and what to load for 6 with 2 left, feet up.
    today = date(2026, 11, 18)
    fit = log.fit()
    best = fit.max(bench, today)
    ratio = fit.ratio(feet_up)
    load = fit.load_for(feet_up, reps=6, reserve=2, date=today, max_chance_of_missing=0.05)
    bar = bw.Room("gym_kg").at_most(load.load_kg)
    if bar is None:
        sys.exit("there is nothing lighter than the bar")
    chance = fit.chance_of_missing(feet_up, bar.total_kg, 6, today)

    print(f"bench press: max {best.typical:.1f} kg, in 9 of 10 cases {best.low:.1f} to "
          f"{best.high:.1f} kg")
    print(f"feet up: {100 * ratio.typical:.0f} % of it, in 9 of 10 cases {100 * ratio.low:.0f} to "
          f"{100 * ratio.high:.0f} %")
    why = "held down by the bound on missing" if load.is_bounded else "by the reserve"
    print(f"6 with 2 left, feet up: {load.load_kg:.1f} kg, {why}")
    print(f"on the bar: {bar}")
    print(f"the chance that the last one does not go up: {100 * chance:.1f} %")
    for caution in bw.cautions(feet_up, 6, 2, safeties="checked", earlier_sessions=2):
        print(f"{caution.weight}: {caution.text}")


if __name__ == "__main__":
    main()
