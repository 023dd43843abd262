"""Hatches as clipped lines, computed here, so that no pattern fill is needed.

Every hatch hangs on one grid of the figure, so that neighbours of the same fabric read as one cloth, whichever way a
patch is turned.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.drawing.scene import Spot, Step

_SLOPE: Final = math.sqrt(0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """Parallel lines: their direction, their spacing, and whether they are drawn as rows of dots."""

    along: Spot
    spacing: float
    dotted: bool = False


_RISING: Final = Family(along=(_SLOPE, -_SLOPE), spacing=6)
_FALLING: Final = Family(along=(_SLOPE, _SLOPE), spacing=6)
_LEVEL: Final = Family(along=(1, 0), spacing=5)
_UPRIGHT: Final = Family(along=(0, 1), spacing=5)
_DOTS: Final = Family(along=(1, 0), spacing=5, dotted=True)

HATCHES: Final[dict[str, tuple[Family, ...]]] = {
    "plain": (),
    "rising": (_RISING,),
    "dotted": (_DOTS,),
    "level": (_LEVEL,),
    "falling": (_FALLING,),
    "upright": (_UPRIGHT,),
    "lattice": (_RISING, _FALLING),
    "checked": (Family(along=(1, 0), spacing=7), Family(along=(0, 1), spacing=7)),
}
"""Eight that are told apart at a glance, in the order in which looks take them."""


def hatch(points: Sequence[Spot], families: Sequence[Family], *, openness: float = 1) -> tuple[Step, ...]:
    """Return the path steps of all hatch lines inside a polygon, their spacing widened by ``openness``."""
    steps: list[Step] = []
    for family in families:
        _rule(points, family, family.spacing * openness, steps)
    return tuple(steps)


def _rule(points: Sequence[Spot], family: Family, spacing: float, steps: list[Step]) -> None:
    dx, dy = family.along
    # In the family's own frame the lines are level: u runs along them and v across.
    turned = [(x * dx + y * dy, y * dx - x * dy) for x, y in points]
    across = [v for _, v in turned]
    for k in range(math.ceil(min(across) / spacing), math.floor(max(across) / spacing) + 1):
        v = k * spacing
        crossings = sorted(_crossings(turned, v))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if family.dotted:
                _dots(start, end, v, k, spacing, steps)
            else:
                for code, u in (("M", start), ("L", end)):
                    steps.append((code, (u * dx - v * dy, u * dy + v * dx)))


def _dots(start: float, end: float, v: float, row: int, spacing: float, steps: list[Step]) -> None:
    """Add dots, every second row set over by half; a dot is a line too short to see, with round caps."""
    margin = 1.2
    over = spacing / 2 if row % 2 else 0.0
    first, last = math.ceil((start + margin - over) / spacing), math.floor((end - margin - over) / spacing)
    for i in range(first, last + 1):
        u = i * spacing + over
        steps.append(("M", (u, v)))
        steps.append(("L", (u + 0.01, v)))


def _crossings(turned: Sequence[Spot], v: float) -> list[float]:
    """Return where the level line at v crosses the outline; half-open edges, so that a corner counts once."""
    found = []
    for (u1, v1), (u2, v2) in zip(turned, (*turned[1:], turned[0]), strict=True):
        if (v1 <= v) != (v2 <= v):
            found.append(u1 + (v - v1) * (u2 - u1) / (v2 - v1))
    return found
