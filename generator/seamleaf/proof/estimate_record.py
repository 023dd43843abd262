"""What the booklet says of seams, thread and time, as the proof reads it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.proof.form import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamSum(Record):
    """All seams of one part of the work."""

    of: Literal["units", "rows", "borders", "binding", "backing"]
    count: int
    length: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadRange(Record):
    """Thread for all seams, in one unit."""

    unit: Literal["yd", "m"]
    least: int
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread(Record):
    """Thread for all seams."""

    ratio: Fraction | int
    waste: Fraction | int
    amounts: tuple[ThreadRange, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace(Record):
    """What is done in an hour."""

    least: int
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Paces(Record):
    """What time is reckoned with."""

    cuts: Pace
    seams: Pace
    presses: Pace
    pinned: Pace


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkTime(Record):
    """Hours for one part of the work."""

    work: Literal["cut", "sew", "press", "join", "borders", "finish"]
    least: Fraction | int
    most: Fraction | int


@dataclass(frozen=True, slots=True, kw_only=True)
class Time(Record):
    """Hours for the quilt."""

    works: tuple[WorkTime, ...]
    least: int
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimates(Record):
    """What the work takes."""

    cuts: int
    seams: tuple[SeamSum, ...]
    thread: Thread
    paces: Paces
    time: Time
