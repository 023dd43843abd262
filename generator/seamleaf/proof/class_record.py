"""Purchases, times and classes as the proof reads them; see :mod:`seamleaf.proof.record`."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.proof.form import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy(Record):
    """A purchase."""

    amount: Fraction | int
    unit: Literal["yd", "m", "pack", "piece"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackShare(Record):
    """Packs that fill the same number of kits."""

    times: int
    kits: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassFabric(Record):
    """What a class takes of one fabric."""

    fabric: str
    need: Length | int
    buy: Buy
    also: Buy | None
    kits_a_pack: int | None
    packs: tuple[PackShare, ...]
    deal: tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCut(Record):
    """Strips or panels that a shop cuts for a class."""

    fabric: str
    h: Length
    times: int
    panel: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPiece(Record):
    """What is cut of one label for a class, and what of it is one kit's."""

    label: str
    pieces: int
    bag: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson(Record):
    """A part of a session."""

    session: int
    at: str
    minutes: int
    what: str
    of: str
    counts: dict[str, int]
    least: int
    most: int
