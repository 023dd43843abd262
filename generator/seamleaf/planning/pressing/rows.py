"""How the seams between the places of a row are pressed, and how they meet those of the next row."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from seamleaf.sizing import Quilt
from seamleaf.sizing.layout import Spot

Direction = Literal["before", "after"]


def press_row(quilt: Quilt, row: Sequence[int]) -> tuple[Direction, ...]:
    """Return how a row's seams are pressed, in sewing order.

    On point toward the setting triangles and the blocks of the inner grid: then the seams of one row butt those
    of the next at every corner of a block (derived: along each line that crosses the rows the sides alternate).
    Straight: rows in turn one way and the other (grammilousgarden.blogspot.com 2015/04); with sashing always toward
    the sash, so that block rows butt sash rows at every cornerstone (common practice, no source).
    """
    spots = [quilt.layout.spots[index] for index in row]
    if quilt.pattern.setting.sashing:
        return tuple("after" if second.kind == "sash" else "before" for _, second in pairwise(spots))
    if quilt.pattern.setting.set == "straight":
        direction: Direction = "after" if (spots[0].row or 0) % 2 else "before"
        return (direction,) * (len(spots) - 1)
    return tuple("after" if second.inner else "before" for _, second in pairwise(spots))


def crossings(quilt: Quilt, rows: Sequence[tuple[Direction, ...]]) -> tuple[int, int]:
    """Return how many seams of rows and of borders meet end to end, and how many of those nest."""
    layout = quilt.layout
    total = nested = 0
    ends = [
        {_along(quilt, layout.spots[spot]): press for spot, press in zip(row[1:], presses, strict=True)}
        for row, presses in zip(layout.rows, rows, strict=True)
    ]
    for upper, lower in pairwise(ends):
        for at in upper.keys() & lower.keys():
            total += 1
            nested += upper[at] != lower[at]
    # At each cornerstone of a border its seam, pressed to the border, meets the side's, pressed outward.
    cornerstones = 4 * sum(border.corner == "cornerstone" for border, _ in quilt.borders)
    return total + cornerstones, nested + cornerstones


def _along(quilt: Quilt, spot: Spot) -> int:
    """Return where the seam before a place ends on the line between rows, counted in blocks."""
    return spot.column if quilt.pattern.setting.set == "straight" else -spot.line
