"""The seams of a quilt top: within rows, between rows, of corner triangles and of borders, each along its line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.planning.diagonal import Diagonal
from seamleaf.planning.halves import half_of, is_sashed_on_point
from seamleaf.planning.records import Point, Press, Seam
from seamleaf.sizing import Quilt
from seamleaf.sizing.diagonal import corner_leg, float_of
from seamleaf.sizing.spots import Spot

HALF: Final = Fraction(1, 2)
CORNER_UNIT: Final = "T2"
"""The triangle at each corner of an on-point set."""
Line = tuple[Point, Point]


def centre_seams(quilt: Quilt, units: Sequence[str], rows: Sequence[tuple[Press, ...]]) -> list[Seam]:
    """Return the seams of rows, between rows and of corner triangles, in sewing order.

    ``units`` holds the unit of each place, ``rows`` how the seams of each row are pressed.
    """
    if not is_sashed_on_point(quilt):
        return [*_row_seams(quilt, units, rows), *_join_seams(quilt)]
    diagonal = Diagonal(quilt)
    joins = diagonal.joins()
    seams: list[Seam] = []
    for of, row, position in diagonal.sewing_order(half_of(quilt)):
        if of == "row":
            seam, items = diagonal.row_seams(row)[position - 1], quilt.layout.rows[row - 1]
            line = diagonal.point(seam.low, seam.at), diagonal.point(seam.high, seam.at)
            first, second = (units[items[index]] for index in (position - 1, position))
            press: Press = rows[row - 1][position - 1]
            seams.append(make_seam(f"row{row}.{position}", "row", line, press, first, second))
        else:
            join = joins[row - 1]
            line = diagonal.point(join.at, join.high), diagonal.point(join.at, join.low)
            blocks_follow = any(quilt.layout.spots[index].kind == "block" for index in quilt.layout.rows[row])
            press = "before" if blocks_follow else "after"
            seams.append(make_seam(f"rows.{row}", "rows", line, press, f"row {row}", f"row {row + 1}"))
    return [*seams, *_corner_triangle_seams(quilt)]


def fixed_seams(quilt: Quilt, rows: Sequence[tuple[Press, ...]]) -> list[Seam]:
    """Return the same seams before units are placed: those of rows name nothing that they join."""
    return centre_seams(quilt, [""] * len(quilt.layout.spots), rows)


def _row_seams(quilt: Quilt, units: Sequence[str], rows: Sequence[tuple[Press, ...]]) -> list[Seam]:
    """Return the seams between the places of each row, in the centre's frame."""
    seams: list[Seam] = []
    for number, (row, presses) in enumerate(zip(quilt.layout.rows, rows, strict=True), 1):
        for position, ((a, b), press) in enumerate(zip(pairwise(row), presses, strict=True), 1):
            line = _between(quilt, quilt.layout.spots[a], quilt.layout.spots[b])
            seams.append(make_seam(f"row{number}.{position}", "row", line, press, units[a], units[b]))
    return seams


def _join_seams(quilt: Quilt) -> list[Seam]:
    """Return the seams between rows, and those of the corner triangles; of a big quilt that of its halves late.

    Rows are pressed to the later one, with sashing to the sash row; corner triangles outward.
    """
    straight = quilt.pattern.setting.set == "straight"
    layout = quilt.layout
    w, h = layout.w, layout.h
    diagonal, float_ = quilt.block_w.times_root2(), float_of(quilt.pattern.setting)
    corner = ZERO if straight else corner_leg(quilt.pattern.setting, quilt.block_w)
    seams: list[Seam] = []
    for number, row in enumerate(layout.rows[:-1], 1):
        press: Press = "after"
        if straight:
            last = layout.spots[row[-1]]
            right, bottom = last.x + last.w * HALF, last.y + last.h * HALF
            down = quilt.pattern.setting.run == "down"
            line = ((right, ZERO), (right, h)) if down else ((ZERO, bottom), (w, bottom))
            if (
                any(layout.spots[index].kind == "block" for index in layout.rows[number])
                and quilt.pattern.setting.sashing
            ):
                press = "before"  # toward the sash row, which lies above, or the strip at the left
        else:
            reach = diagonal * (number + HALF) + float_ * 2  # the seam runs along x + y = reach
            # ... as far as the edge, or a corner triangle that is sewn across it.
            start, end = min(reach, h * 2 - reach, h - corner), min(reach, w * 2 - reach, w - corner)
            line = (((reach - start) * HALF, (reach + start) * HALF), ((reach + end) * HALF, (reach - end) * HALF))
        seams.append(make_seam(f"rows.{number}", "rows", line, press, f"row {number}", f"row {number + 1}"))
    half = half_of(quilt)
    if half is not None:
        seams.append(seams.pop(half - 1))
    return seams if straight else [*seams, *_corner_triangle_seams(quilt)]


def _corner_triangle_seams(quilt: Quilt) -> list[Seam]:
    w, h = quilt.layout.w, quilt.layout.h
    half = corner_leg(quilt.pattern.setting, quilt.block_w)
    corners = (
        ((ZERO, half), (half, ZERO)),
        ((w - half, ZERO), (w, half)),
        ((w, h - half), (w - half, h)),
        ((half, h), (ZERO, h - half)),
    )
    return [
        make_seam(f"rows.corner{number}", "rows", line, "after", "centre", CORNER_UNIT)
        for number, line in enumerate(corners, 1)
    ]


def border_seams(quilt: Quilt) -> list[Seam]:
    """Return the seams of the borders, sides first, in the centre's frame.

    Long seams are pressed outward; cornerstones toward the border, so that they nest; mitres open
    (allpeoplequilt.com, mitering-borders).
    """
    seams: list[Seam] = []
    out = ZERO
    for number, (border, width) in enumerate(quilt.borders, 1):
        beyond = out + width
        inner = _Edges(left=-out, top=-out, right=quilt.layout.w + out, bottom=quilt.layout.h + out)
        outer = _Edges(left=-beyond, top=-beyond, right=quilt.layout.w + beyond, bottom=quilt.layout.h + beyond)
        whole = outer if border.corner != "mitred" else inner  # a mitred strip is sewn from corner to corner only
        sides: tuple[tuple[str, Line, Press], ...] = (
            ("left", ((inner.left, inner.top), (inner.left, inner.bottom)), "before"),
            ("right", ((inner.right, inner.top), (inner.right, inner.bottom)), "after"),
            ("top", ((whole.left, inner.top), (whole.right, inner.top)), "before"),
            ("bottom", ((whole.left, inner.bottom), (whole.right, inner.bottom)), "after"),
        )
        of, within = f"border {number}", "centre" if number == 1 else f"border {number - 1}"
        long = [
            make_seam(f"border{number}.{edge}", of, line, press, *((of, within) if press == "before" else (within, of)))
            for edge, line, press in sides
        ]
        corners = _corner_seams(inner, outer)
        if border.corner == "cornerstone":  # sewn to the ends of top and bottom, after the sides
            stones = [
                make_seam(f"border{number}.{name}", of, upright, press, first, second)
                for name, _, upright, press in corners
                for first, second in ((of, "cornerstone") if press == "before" else ("cornerstone", of),)
            ]
            seams += [*long[:2], *stones, *long[2:]]
        elif border.corner == "mitred":
            seams += [
                *long,
                *(make_seam(f"border{number}.{name}", of, mitre, "open", of, of) for name, mitre, _, _ in corners),
            ]
        else:
            seams += long
        out = beyond
    return seams


@dataclass(frozen=True, slots=True, kw_only=True)
class _Edges:
    """A rectangle by its four edges."""

    left: Length
    top: Length
    right: Length
    bottom: Length


def _corner_seams(inner: _Edges, outer: _Edges) -> list[tuple[str, Line, Line, Press]]:
    """Return for each corner its name, the mitre, the seam of a cornerstone, and how that is pressed."""
    corners: tuple[tuple[str, Point, Point, Press], ...] = (
        ("top-left", (inner.left, inner.top), (outer.left, outer.top), "after"),
        ("top-right", (inner.right, inner.top), (outer.right, outer.top), "before"),
        ("bottom-left", (inner.left, inner.bottom), (outer.left, outer.bottom), "after"),
        ("bottom-right", (inner.right, inner.bottom), (outer.right, outer.bottom), "before"),
    )
    return [
        (name, (near, far), ((near[0], min(near[1], far[1])), (near[0], max(near[1], far[1]))), press)
        for name, near, far, press in corners
    ]


def _between(quilt: Quilt, first: Spot, second: Spot) -> tuple[Point, Point]:
    """Return the shared edge of two neighbours of a row."""
    if quilt.pattern.setting.run == "down":
        y, half = first.y + first.h * HALF, first.w * HALF
        return ((first.x - half, y), (first.x + half, y))
    if quilt.pattern.setting.set == "straight":
        x, half = first.x + first.w * HALF, first.h * HALF
        return ((x, first.y - half), (x, first.y + half))
    half = quilt.block_w.times_root2() * HALF
    if first.kind == "block":  # its upper right edge
        return ((first.x, first.y - half), (first.x + half, first.y))
    return ((second.x - half, second.y), (second.x, second.y + half))


def make_seam(seam_id: str, of: str, line: tuple[Point, Point], press: Press, first: str, second: str) -> Seam:
    """Return a seam along a line, with its axis told from the line."""
    (ax, ay), (bx, by) = line
    if ax == bx:
        return Seam(
            id=seam_id, of=of, axis="x", at=ax, span=(ay, by), line=line, press=press, first=first, second=second
        )
    if ay == by:
        return Seam(
            id=seam_id, of=of, axis="y", at=ay, span=(ax, bx), line=line, press=press, first=first, second=second
        )
    return Seam(id=seam_id, of=of, axis="d", at=None, span=None, line=line, press=press, first=first, second=second)
