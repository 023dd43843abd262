"""What the booklet says of borders, binding, backing and batting, as the proof reads it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.proof.form import Box, Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip(Record):
    """One side of a border, as cut."""

    edge: Literal["left", "right", "top", "bottom"]
    length: Length
    w: Length
    unit: str | None
    turn: int
    label: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Border(Record):
    """A border."""

    label: str | None
    fabric: str | None
    width: Length
    corner: Literal["butted", "mitred", "cornerstone"]
    order: int
    pieces: int
    joined: Length
    together: tuple[int, ...]
    strips: tuple[Strip, ...]
    corners: str | None
    before: Box
    after: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding(Record):
    """The binding."""

    label: str
    fabric: str
    need: Length
    extra: Length
    length: Length
    strips: int
    width: Length
    cut: Literal["crosswise", "lengthwise", "bias"]
    square: Length | None
    rounds: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertPiece(Record):
    """Leftovers of one size in the strip of a back."""

    fabric: str
    w: Length
    h: Length
    spare: bool
    count: int
    gives: Length
    sewn: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Insert(Record):
    """A strip of leftovers in the back."""

    width: Length
    length: Length
    pieces: tuple[InsertPiece, ...]
    parts: tuple[Length, ...]
    saves: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing(Record):
    """The back."""

    label: str
    fabric: str
    w: Length
    h: Length
    panels: int
    seam: Literal["none", "vertical", "horizontal"]
    need: Length
    panel: Box
    allowance: Length
    insert_asked: bool
    insert: Insert | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Package(Record):
    """A batting size that the trade sells."""

    id: str
    w: Length
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Batting(Record):
    """The batting."""

    w: Length
    h: Length
    package: Package | None
