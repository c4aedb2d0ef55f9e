"""examples/embed/python/next_session.py - from a handful of sets to the loaded bar, in Python

The rower and her sets are invented; ../c/next_session.c is the same in C, and prints the same.
SPDX-License-Identifier: BSL-1.0
"""

from datetime import date

import barwright


def main() -> None:
    bench, feet_up = "bench press", "bench press, feet up"

    # What she did, and what is planned: six with two left, feet up. docs/json.md has all members.
    answer = barwright.ask({
        "version": 1,
        "ask": "plan_session",
        "log": [
            {"date": date(2026, 10, 28), "lift": bench, "load_kg": 60.0, "reps": 5, "left": 2},
            {"date": date(2026, 11, 2), "lift": bench, "load_kg": 62.5, "reps": 5, "left": 1},
            {"date": date(2026, 11, 5), "lift": feet_up, "load_kg": 52.5, "reps": 6, "left": 3},
            {"date": date(2026, 11, 9), "lift": feet_up, "load_kg": 55.0, "reps": 6, "left": 2},
            {"date": date(2026, 11, 14), "lift": bench, "load_kg": 62.5, "reps": 6, "left": 1},
        ],
        "lift": feet_up, "date": date(2026, 11, 18), "reps": 6, "left": 2, "safeties": "checked",
    })
    print(answer["outcome"])
    if answer["outcome"] == "plan":
        print(f"{answer['load_kg']:g} kg for {answer['reps']}, at least {answer['stop_with_left']:g} left, "
              f"limited by {answer['limited_by']}")
        for planned in answer["sets"]:
            print(planned["bar"]["text"])
    for caution in answer.get("cautions", []):
        print(caution["text"])


if __name__ == "__main__":
    main()
