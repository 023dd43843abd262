"""The records of what the work takes: length of seam, thread and time; see :mod:`records`."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Literal

from seamleaf.lengths import Length

Sewn = Literal["units", "rows", "borders", "binding", "backing"]
Work = Literal["cut", "sew", "press", "join", "borders", "finish"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamSum:
    """All seams of one part of the work."""

    of: Annotated[Sewn, "rows: seams of rows and between them; backing: joins of panels and of a strip of leftovers"]
    count: Annotated[int, "seams, every copy"]
    length: Annotated[Length, "from raw edge to raw edge, exact; a slope no ruler shows goes up to the grid"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadRange:
    """Thread for all seams, in one unit."""

    unit: Literal["yd", "m"]
    least: Annotated[int, "ratio times the length of seam, up to the next ten"]
    most: Annotated[int, "the same with waste, up to the next ten"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadNote:
    """Thread from needle and bobbin together, without quilting."""

    ratio: Annotated[Fraction | int, "length of thread for a length of seam"]
    waste: Annotated[Fraction | int, "share that ends and ripped seams take at most"]
    amounts: Annotated[tuple[ThreadRange, ...], "in the unit of the pattern, and for inches in metres as well"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """What is done in an hour, from slow to quick."""

    least: int
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PaceNote:
    """What the time is reckoned with; the designer may give their own."""

    cuts: Annotated[Pace, "ruler cuts"]
    seams: Annotated[Pace, "seams of units"]
    presses: Annotated[Pace, "seams pressed"]
    pinned: Annotated[Pace, "length of seams that are pinned: of rows, borders, binding and back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkTime:
    """Time for one part of the work, in hours."""

    work: Work
    least: Annotated[Fraction | int, "at the quick pace, down to half an hour"]
    most: Annotated[Fraction | int, "at the slow pace, up to half an hour"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeNote:
    """Time for the quilt, in hours, without quilting."""

    works: tuple[WorkTime, ...]
    least: Annotated[int, "all parts of the work at the quick pace, down to an hour"]
    most: Annotated[int, "all parts at the slow pace, up to an hour"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimates:
    """What the work takes, reckoned from what is counted: ranges, and no promise."""

    cuts: Annotated[int, "ruler cuts: strips from the fabric, cuts of sheets, diagonals of halved squares"]
    seams: tuple[SeamSum, ...]
    thread: ThreadNote
    paces: PaceNote
    time: TimeNote
