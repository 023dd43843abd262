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
    """Parallel lines: their direction and their spacing; they may be broken into strokes, or into dots."""

    along: Spot
    spacing: float
    stroke: float | None = None
    """Length of a stroke; ``None`` for lines that run through, 0 for dots."""
    pitch: float = 0
    """From one stroke to the next of a broken line."""


_RISING: Final = Family(along=(_SLOPE, -_SLOPE), spacing=6)
_FALLING: Final = Family(along=(_SLOPE, _SLOPE), spacing=6)
_LEVEL: Final = Family(along=(1, 0), spacing=5)
_UPRIGHT: Final = Family(along=(0, 1), spacing=5)
_STROKES: Final = Family(along=(0, 1), spacing=5, stroke=5, pitch=9)
_DOTS: Final = Family(along=(1, 0), spacing=5, stroke=0, pitch=5)

HATCHES: Final[dict[str, tuple[Family, ...]]] = {
    "plain": (),
    "rising": (_RISING,),
    "strokes": (_STROKES,),
    "level": (_LEVEL,),
    "falling": (_FALLING,),
    "upright": (_UPRIGHT,),
    "lattice": (_RISING, _FALLING),
    "checked": (Family(along=(1, 0), spacing=7), Family(along=(0, 1), spacing=7)),
}
"""Eight that are told apart at a glance, in the order in which looks take them."""
WRONG_SIDE: Final = (_DOTS,)
"""Of the wrong side of every fabric, and of nothing else."""
_NO_DOT: Final = 1.2
"""Air between a dot and the outline."""
_SHORTEST: Final = 1.0
"""Of a stroke that the outline cuts off, to be drawn at all."""


def hatch(points: Sequence[Spot], families: Sequence[Family], *, openness: float = 1) -> tuple[Step, ...]:
    """Return the path steps of all hatch lines inside a polygon, their spacing widened by ``openness``."""
    steps: list[Step] = []
    for family in families:
        _rule(points, family, openness, steps)
    return tuple(steps)


def _rule(points: Sequence[Spot], family: Family, openness: float, steps: list[Step]) -> None:
    dx, dy = family.along
    spacing = family.spacing * openness
    # In the family's own frame the lines are level: u runs along them and v across.
    turned = [(x * dx + y * dy, y * dx - x * dy) for x, y in points]
    across = [v for _, v in turned]
    edges = list(zip(turned, (*turned[1:], turned[0]), strict=True))
    for k in range(math.ceil(min(across) / spacing), math.floor(max(across) / spacing) + 1):
        v = k * spacing
        off_x, off_y = v * dy, v * dx
        crossings = sorted(_crossings(edges, v))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            for first, last in _broken(start, end, family, k, openness):
                steps.append(("M", (first * dx - off_x, first * dy + off_y)))
                steps.append(("L", (last * dx - off_x, last * dy + off_y)))


def _broken(start: float, end: float, family: Family, row: int, openness: float) -> list[Spot]:
    """Return the ends of all strokes between two crossings, every second row set over by half.

    A dot is a stroke too short to see, with round caps.
    """
    if family.stroke is None:
        return [(start, end)]
    stroke, pitch = family.stroke * openness, family.pitch * openness
    over = pitch / 2 if row % 2 else 0.0
    if not stroke:
        first, last = math.ceil((start + _NO_DOT - over) / pitch), math.floor((end - _NO_DOT - over) / pitch)
        return [(i * pitch + over, i * pitch + over + 0.01) for i in range(first, last + 1)]
    first, last = math.floor((start - stroke - over) / pitch), math.ceil((end - over) / pitch)
    strokes = [(max(start, i * pitch + over), min(end, i * pitch + over + stroke)) for i in range(first, last + 1)]
    return [(u, w) for u, w in strokes if w - u >= _SHORTEST]


def _crossings(edges: Sequence[tuple[Spot, Spot]], v: float) -> list[float]:
    """Return where the level line at v crosses the outline; half-open edges, so that a corner counts once."""
    return [u1 + (v - v1) * (u2 - u1) / (v2 - v1) for (u1, v1), (u2, v2) in edges if (v1 <= v) != (v2 <= v)]
