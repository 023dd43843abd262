"""What the cutting planners are asked for, and what they answer.

Both planners are pure functions of these records; triangles are asked for as the squares that they are cut from.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.planning.records import Cut, Offcut, SheetPart


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """``count`` rectangles of one label, by their cut size."""

    label: str
    w: Length
    h: Length
    count: int
    may_turn: bool
    """Whether a patch may lie turned by a quarter: not with directional fabric."""
    first: bool = False
    """Whether it is cut before everything else, as long strips and panels are."""


Search = Literal["none", "short", "tidied", "thorough"]
"""How long to look for less fabric: not at all; as long as most of it takes, and then for what is easy to cut as well;
or until little more can be hoped for, and for what is easy to cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoleDemand:
    """What one print role of one block takes from a bundle: ``demands`` count patches of a single block."""

    block: str
    """Unit id of the block."""
    role: int
    copies: int
    """How many of these blocks the quilt has."""
    demands: tuple[Demand, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSheet:
    """One strip of yardage or one bundle piece, cut the same ``times``; frames as in the booklet."""

    w: Length
    h: Length
    times: int
    roles: tuple[tuple[str, int], ...]
    """Bundles: the (block, role) pairs that the piece serves, each once a piece unless listed again; yardage: empty."""
    parts: tuple[SheetPart, ...]
    cuts: tuple[Cut, ...]
    rests: tuple[Offcut, ...]
    """Usable rests of one sheet (``count`` a sheet)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """A verified plan for one fabric."""

    sheets: tuple[PlannedSheet, ...]
    """None where only the need was asked for."""
    need: Length | int
    """Yardage: length of fabric used; bundles: pieces."""
    bound: Length | int
    """Proven lower bound of ``need``."""
    tightest: Length | None
    """Smallest slack of a cut; ``None`` when nothing is cut."""
    work: int = 0
    """What the search took, in linear programs solved: the same on every machine."""


@dataclass(frozen=True, slots=True)
class MisfitError(Exception):
    """A demand that no sheet can give."""

    label: str
    w: Length
    h: Length
    reason: Literal["too large", "too many for one piece"]
