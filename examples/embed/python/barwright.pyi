# examples/embed/python/barwright.pyi - what the module offers, and with what types
#
# _Loads are kilograms. What is not allowed is a ValueError with the library's message: "reps
# must be a whole number from 1 to 100; got 0". These are calculations, not advice for one body:
# print the cautions beside a load.
# SPDX-License-Identifier: BSL-1.0
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

__version__: str

_Loads = Sequence[float] | NDArray[Any]
"""An array of float64 in one piece is used where it lies; anything else is copied first."""
_Counts = NDArray[np.uint8]
"""_Counts in single bytes; an array that is not in one piece is copied first."""
_Faults = NDArray[np.uint8]
"""0 for a row with a result, or the place in FAULTS of the reason why there is none."""

FAULTS: tuple[str, ...]

# ---- the planner ----

def ask(request: dict[str, Any]) -> dict[str, Any]:
    """What the planner answers to a request: docs/json.md has the members of both.

    Any request has an answer, if only what is wrong with it: look at its "outcome". One that is
    "stop" holds no load. Print the cautions beside every load. A date may be a datetime.date. Other
    Python threads run meanwhile.
    """

def answer(request: str) -> str:
    """The same from JSON to JSON."""

# ---- one set, one bar ----

def one_rep_max(load_kg: float, reps: int, reserve: float = ..., equation: str = ...) -> float:
    """The max behind a set by a published equation; reserve in steps of one half."""

class Loading:
    """A loaded bar; str() tells it."""

    @property
    def total_kg(self) -> float: ...
    @property
    def plates_kg(self) -> list[float]:
        """Of one side, inside to outside."""

class Room:
    """A bar and its plates: Room("gym_kg"), Room("bar 20 kg; plates 25x2 20 10 5 2.5 kg")."""

    def __init__(self, text: str) -> None: ...
    def at_most(self, load_kg: float) -> Loading | None: ...
    def at_least(self, load_kg: float) -> Loading | None: ...
    def nearest(self, load_kg: float) -> Loading: ...

# ---- columns ----

class CurveLattice:
    """A published equation for columns of sets, for tables and studies.

    It plans nothing: what load_for gives is no load to show a lifter, as it knows no lift, no
    layoff, no limit and no stop. Use ask(). A row that makes no sense gets 0 and a fault. Other Python threads run meanwhile.
    """

    def __init__(self, equation: str) -> None: ...
    def one_rep_max(
        self, loads_kg: _Loads, reps: _Counts, half_reps_left: _Counts
    ) -> tuple[NDArray[np.float64], _Faults]: ...
    def load_for(
        self, maxes_kg: _Loads, reps: _Counts, half_reps_left: _Counts
    ) -> tuple[NDArray[np.float64], _Faults]:
        """The loads by the equation alone, not rounded. No plan: see above."""
    def half_reps_left(
        self, maxes_kg: _Loads, loads_kg: _Loads, reps: _Counts
    ) -> tuple[NDArray[np.int16], _Faults]:
        """In whole half reps, rounded down; negative when they are too many."""
