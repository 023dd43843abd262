"""What a designer states by hand, to be compared with what is computed. Lengths are in the pattern's unit."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Generic, Literal, TypeVar

from seamleaf.lengths import Length
from seamleaf.reading.marks import Mark

BuyUnit = Literal["yd", "m", "pack", "piece"]
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated(Generic[T]):
    """One value that a designer states by hand."""

    value: T
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedBuy:
    """A stated purchase of one fabric."""

    fabric: str
    amount: Fraction
    unit: BuyUnit
    text: str
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedCut:
    """A stated cut size, with how many of it if that is stated; squares are counted before they become triangles."""

    count: int | None
    sides: tuple[Length, Length]
    text: str
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedCuts:
    """All that is stated to be cut from one fabric."""

    fabric: str
    cuts: tuple[StatedCut, ...]
    complete: bool
    """Whether every line of it could be read, so that what it lacks is worth a word."""
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedSize:
    """What is stated of one size, to be compared with what is computed."""

    size: str
    finished: Stated[tuple[Length, Length]] | None
    blocks: Stated[int] | None
    binding: Stated[int] | None
    """Strips of binding."""
    buy: tuple[StatedBuy, ...]
    cut: tuple[StatedCuts, ...]
    where: Mark = field(compare=False)
