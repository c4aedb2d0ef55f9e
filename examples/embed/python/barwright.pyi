# examples/embed/python/barwright.pyi - what the module offers, and with what types
#
# _Loads are kilograms. What is not allowed is a ValueError with the library's message: "repetitions
# must be a whole number from 1 to 100; got 0". These are calculations, not advice for one body:
# print cautions() beside a load.
# SPDX-License-Identifier: BSL-1.0
from collections.abc import Sequence
from datetime import date as Date
from typing import Any, Literal

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

class Range:
    """Three values, in order."""

    @property
    def low(self) -> float: ...
    @property
    def typical(self) -> float: ...
    @property
    def high(self) -> float: ...

# ---- one set, one load, one bar ----

def one_rep_max(load_kg: float, reps: int, reserve: float = ..., equation: str = ...) -> float:
    """The max behind a set by a published equation; reserve in steps of one half."""

def load_for(max_kg: float, reps: int, reserve: float = ..., equation: str = ...) -> float:
    """The load for so many repetitions with so many left."""

class Lift:
    """A lift and what is changed about it: Lift("bench press, feet up, flat back")."""

    def __init__(self, name: str) -> None: ...
    @property
    def name(self) -> str: ...
    def max_from(self, base_max_kg: float) -> Range:
        """What others lift on it, for a lifter with this max on the unchanged lift."""
    def __eq__(self, other: object) -> bool: ...
    def __hash__(self) -> int: ...

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

class Caution:
    @property
    def weight(self) -> str:
        """STOP, take care, or note."""
    @property
    def text(self) -> str: ...

def cautions(
    lift: Lift,
    reps: int,
    reserve: float,
    spotter: bool = ...,
    safeties: Literal["none", "unchecked", "checked"] = ...,
    earlier_sessions: int = ...,
) -> list[Caution]:
    """What must be said beside a load, heaviest first; never empty."""

# ---- columns ----

class CurveLattice:
    """A published equation for columns of sets, which give the values of one_rep_max and load_for.

    A row that makes no sense gets 0 and a fault. Other Python threads run meanwhile.
    """

    def __init__(self, equation: str) -> None: ...
    def one_rep_max(
        self, loads_kg: _Loads, reps: _Counts, half_reps_left: _Counts
    ) -> tuple[NDArray[np.float64], _Faults]: ...
    def load_for(
        self, maxes_kg: _Loads, reps: _Counts, half_reps_left: _Counts
    ) -> tuple[NDArray[np.float64], _Faults]: ...
    def half_reps_left(
        self, maxes_kg: _Loads, loads_kg: _Loads, reps: _Counts
    ) -> tuple[NDArray[np.int16], _Faults]:
        """In whole half repetitions, rounded down; negative when they are too many."""

# ---- what a log says ----

class BoundedLoad:
    @property
    def load_kg(self) -> float: ...
    @property
    def chance_of_missing(self) -> float: ...
    @property
    def is_bounded(self) -> bool:
        """The bound on the chance, not the reserve, decided."""

class StrengthModel:
    """A lifter's log of one lift and its variations."""

    def __init__(self, lift: Lift, equation: str = ...) -> None: ...
    def add(
        self,
        lift: Lift,
        date: Date,
        load_kg: float,
        reps: int,
        reserve: float | None = ...,
        missed: bool = ...,
    ) -> None:
        """One set; without a reserve it was not rated. Sets of one day count in their order."""
    def __len__(self) -> int: ...
    def fit(self) -> StrengthFit:
        """Other Python threads run meanwhile; they must not add to this model."""

class StrengthFit:
    """What the log says; level is the chance with which an interval holds the value."""

    def max(self, lift: Lift, date: Date, level: float = ...) -> Range: ...
    def ratio(self, lift: Lift, level: float = ...) -> Range: ...
    def trend(self, level: float = ...) -> Range:
        """The change of the max a week, as a share of it."""
    def chance_of_missing(
        self, lift: Lift, load_kg: float, reps: int, date: Date, earlier_sets: int = ...
    ) -> float: ...
    def load_for(
        self,
        lift: Lift,
        reps: int,
        reserve: float,
        date: Date,
        max_chance_of_missing: float = ...,
        earlier_sets: int = ...,
    ) -> BoundedLoad:
        """It knows no introduction to a new lift, no layoff, no limit on the step from the last
        session and no stop: a lift never done, or not done for months, gets the load of one in full
        training. An estimate for a planner to start from, and no load to show a lifter."""
    @property
    def suspicious_sets(self) -> list[int]:
        """The places of sets that fit too badly to be used: look for typing errors."""
