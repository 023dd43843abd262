"""How the seams between the places of a row are pressed, and how they meet those of the next row."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.planning.diagonal import Diagonal
from seamleaf.sizing import Quilt
from seamleaf.sizing.spots import Spot

Direction = Literal["before", "after"]


def press_row(quilt: Quilt, row: Sequence[int]) -> tuple[Direction, ...]:
    """Return how a row's seams are pressed, in sewing order.

    On point toward the setting triangles and the blocks of the inner grid: then the seams of one row butt those
    of the next at every corner of a block (derived: along each line that crosses the rows the sides alternate).
    Straight: rows in turn one way and the other (grammilousgarden.blogspot.com 2015/04); with sashing always toward
    the sash, so that block rows butt sash rows at every cornerstone (common practice, no source). Columns of a strippy
    set meet strips only, which have no seam to butt: all of theirs go down.
    """
    spots = [quilt.layout.spots[index] for index in row]
    if quilt.pattern.setting.run == "down":
        downward: Direction = "after"
        return (downward,) * (len(spots) - 1)
    if quilt.pattern.setting.sashing:
        return tuple(_to_sash(first, second) for first, second in pairwise(spots))
    if quilt.pattern.setting.set == "straight":
        direction: Direction = "after" if (spots[0].row or 0) % 2 else "before"
        return (direction,) * (len(spots) - 1)
    return tuple("after" if second.inner else "before" for _, second in pairwise(spots))


def _to_sash(first: Spot, second: Spot) -> Direction:
    """Toward the sash; a triangle that meets a block toward that, so that it butts the sash across the next join."""
    return "after" if second.kind == "sash" or (first.kind == "side" and second.kind == "block") else "before"


def crossings(quilt: Quilt, rows: Sequence[tuple[Direction, ...]]) -> tuple[int, int]:
    """Return how many seams of rows and of borders meet end to end, and how many of those nest."""
    # At each cornerstone of a border its seam, pressed to the border, meets the side's, pressed outward.
    # Where a border is pieced, all that meets on the seams of borders is found there, cornerstones among it.
    cornerstones = 0 if quilt.pieced else 4 * sum(border.corner == "cornerstone" for border, _ in quilt.borders)
    total, nested = _between_rows(quilt, rows)
    return total + cornerstones, nested + cornerstones


def _between_rows(quilt: Quilt, rows: Sequence[tuple[Direction, ...]]) -> tuple[int, int]:
    layout = quilt.layout
    total = nested = 0
    if quilt.pattern.setting.sashing and quilt.pattern.setting.set == "on-point":
        return _between_sashed_rows(Diagonal(quilt), rows)
    ends = [
        {_along(quilt, layout.spots[spot]): press for spot, press in zip(row[1:], presses, strict=True)}
        for row, presses in zip(layout.rows, rows, strict=True)
    ]
    for upper, lower in pairwise(ends):
        for at in upper.keys() & lower.keys():
            total += 1
            nested += upper[at] != lower[at]
    return total, nested


def _between_sashed_rows(diagonal: Diagonal, rows: Sequence[tuple[Direction, ...]]) -> tuple[int, int]:
    """Count on each join the seams that end at one point from both sides: a triangle's reaches over two rows."""
    before: dict[Length, dict[Length, Direction]] = defaultdict(dict)
    after: dict[Length, dict[Length, Direction]] = defaultdict(dict)
    for number, presses in enumerate(rows, 1):
        for seam, press in zip(diagonal.row_seams(number), presses, strict=True):
            before[seam.high][seam.at] = press
            after[seam.low][seam.at] = press
    total = nested = 0
    for join in diagonal.joins():
        for at in before[join.at].keys() & after[join.at].keys():
            if join.low < at < join.high:
                total += 1
                nested += before[join.at][at] != after[join.at][at]
    return total, nested


def _along(quilt: Quilt, spot: Spot) -> int:
    """Return where the seam before a place ends on the line between rows, counted in blocks."""
    setting = quilt.pattern.setting
    return spot.column if setting.set == "straight" and setting.run == "across" else -spot.line
