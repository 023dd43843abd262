"""Sets on point: blocks in diagonal rows, with or without sashing, and the triangles that fill up their edges.

All is laid in the frame of the blocks, which is then turned by 45 degrees: u runs to the lower right of the quilt, v
to its lower left, and cell (column, line) is the place (column, line) / step of block and sash together from the
first block. With sashing the blocks stand in even columns and lines, sashes and cornerstones in the odd ones; without
cornerstones each odd column is one sash, as long as all of them.

With blocks of side B, sashes of width s and P = B + s, N blocks m across and n down take, with sashes round all of
them, 2N + 2(m+n-1) sashes and N + 2(m+n-1) + 1 cornerstones, and the centre is (mP+s) sqrt 2 by (nP+s) sqrt 2, so
that the outer cornerstones' points lie on its edge; without outer sashes it is (mP-s) sqrt 2 by (nP-s) sqrt 2.
Side triangles have legs P either way (derived; that sashing counts as part of the block: ehow.com/how_8171657).

Blocks float when the triangles are so much larger that the points of the blocks stay away from the edge by a length f:
the centre is 2f wider and higher, and corner triangles have legs of P / sqrt 2 + 2f. A side triangle has legs of
L = P + f sqrt 2. The one along the row's own end is cut off at P, where the seam to the row beside it runs past the
block's point; the other one keeps its length, but beside a corner triangle that is sewn across (derived).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from seamleaf.lengths import ZERO, Length
from seamleaf.reading.pattern import Cell, Setting
from seamleaf.sizing.spots import Spot, SpotKind, cell_of, plain_cell

HALF = Fraction(1, 2)


def diagonal_size(setting: Setting, across: int, down: int, side: Length) -> tuple[Length, Length]:
    """Return the centre's finished width and height."""
    pitch = pitch_of(setting, side)
    edge = corner_edge(setting, side) - pitch
    float_ = float_of(setting) * 2
    return (pitch * across + edge).times_root2() + float_, (pitch * down + edge).times_root2() + float_


def float_of(setting: Setting) -> Length:
    """Return how far the points of the blocks stay away from the edge of the centre."""
    return setting.triangles.float if setting.triangles else ZERO


def side_leg(setting: Setting, side: Length) -> Length:
    """Return the legs of a side triangle, before the seams beside it cut its tips off."""
    return pitch_of(setting, side) + float_of(setting).times_root2()


def corner_leg(setting: Setting, side: Length) -> Length:
    """Return the legs of a corner triangle."""
    return corner_edge(setting, side).times_root2() * HALF + float_of(setting) * 2


def pitch_of(setting: Setting, side: Length) -> Length:
    """Return how far blocks follow each other, block and sash together."""
    return side + (setting.sashing.width if setting.sashing else ZERO)


def corner_edge(setting: Setting, side: Length) -> Length:
    """Return what a corner triangle lies beside: one block's side, with the outer sashes at its ends."""
    sashing = setting.sashing
    return side + (sashing.width * 2 if sashing and sashing.outer else ZERO)


def first_centre(setting: Setting, side: Length) -> Length:
    """Return how far the centre of the first block lies from the centre's corner, across and down."""
    return corner_edge(setting, side).times_root2() * HALF + float_of(setting)


def lay_diagonally(setting: Setting, across: int, down: int, side: Length) -> list[Spot]:
    """Place blocks, then sashes and cornerstones row by row, then triangles: top, right, bottom, left, corners."""
    pitch = pitch_of(setting, side)
    step = 2 if setting.sashing else 1
    first = -1 if setting.sashing and setting.sashing.outer else 0
    to_first = first_centre(setting, side)

    def spot(
        kind: SpotKind,
        column: int,
        line: int,
        size: tuple[Length, Length],
        cell: Cell,
        *,
        inner: bool = False,
    ) -> Spot:
        u, v = pitch * Fraction(column, step), pitch * Fraction(line, step)
        return Spot(
            kind=kind,
            x=to_first + (u - v).times_root2() * HALF,
            y=to_first + (u + v).times_root2() * HALF,
            w=size[0],
            h=size[1],
            turn=(45 + cell.turn) % 360,
            column=column,
            line=line,
            row=column - first + 1,
            inner=inner,
            cell=cell,
        )

    spots: list[Spot] = []
    for inner, tile in ((False, setting.blocks), (True, setting.between or setting.blocks)):
        for j in range(down - inner):
            for i in range(across - inner):
                column, line = step * (i + j + inner), step * (j - i)
                spots.append(spot("block", column, line, (side, side), cell_of(tile, i, j), inner=inner))
    if setting.sashing:
        width = setting.sashing.width
        blocks = {(each.column, each.line) for each in spots}
        between = _between(blocks, outer=setting.sashing.outer)
        long: dict[int, list[int]] = {}
        for kind, column, line in between:
            use = setting.sashing.fabric if kind == "sash" else setting.sashing.cornerstone
            if column % 2 and setting.sashing.cornerstone is None:
                long.setdefault(column, []).append(line)
                continue
            assert use is not None  # noqa: S101 -- without cornerstones, what is left of them is in the long sashes
            size = (width if column % 2 else side, width if line % 2 else side)
            spots.append(spot(kind, column, line, size, plain_cell(use)))
        for column, lines in long.items():  # one sash as long as what it lies beside; both of its ends are alike
            count = len(lines) // 2
            length = pitch * count + (width if lines[0] % 2 else side)
            middle = (min(lines) + max(lines)) // 2
            spots.append(spot("sash", column, middle, (width, length), plain_cell(setting.sashing.fabric)))
    return spots + list(_triangles(setting, across, down, side))


def _between(blocks: set[tuple[int, int]], *, outer: bool) -> list[tuple[Literal["sash", "cornerstone"], int, int]]:
    """Return sashes and cornerstones: all that touch a block, or those alone that have blocks on all sides."""
    touched = {(column + dx, line + dy) for column, line in blocks for dx in (-1, 0, 1) for dy in (-1, 0, 1)}
    found: list[tuple[Literal["sash", "cornerstone"], int, int]] = []
    for column, line in sorted(touched - blocks, key=lambda cell: (cell[0], -cell[1])):
        xs = (column - 1, column + 1) if column % 2 else (column,)
        ys = (line - 1, line + 1) if line % 2 else (line,)
        if outer or all((x, y) in blocks for x in xs for y in ys):
            found.append(("cornerstone" if column % 2 and line % 2 else "sash", column, line))
    return found


_TURNED = {"top": 225, "right": 315, "bottom": 45, "left": 135}
"""Unturned, a triangle's right angle is at its top left; a side triangle's turns to the centre's inside."""
_LEGS = {
    "top": ((-1, -1), (1, -1)),
    "bottom": ((1, 1), (-1, 1)),
    "left": ((-1, -1), (-1, 1)),
    "right": ((1, 1), (1, -1)),
}
"""Which way the legs of a side triangle lead from its right angle: along its row's end, and beside the other row."""


def _triangles(setting: Setting, across: int, down: int, side: Length) -> Iterator[Spot]:
    pitch, leg, float_ = pitch_of(setting, side), side_leg(setting, side), float_of(setting)
    start = corner_edge(setting, side).times_root2() * HALF + float_
    step = 2 if setting.sashing else 1
    first = -1 if setting.sashing and setting.sashing.outer else 0
    diagonal = pitch.times_root2()
    width, height = diagonal_size(setting, across, down, side)
    inside = float_ + diagonal * HALF  # from the edge to the right angle of a side triangle

    def side_triangle(edge: str, i: int, j: int, *, clipped: bool) -> Spot:
        """Place the triangle instead of the inner block (i, j), which would stick out."""
        x, y = (start + diagonal * (at + HALF) for at in (i, j))
        x = {"left": inside, "right": width - inside}.get(edge, x)
        y = {"top": inside, "bottom": height - inside}.get(edge, y)
        short, other = pitch, pitch if clipped else leg
        (sx, sy), (lx, ly) = _LEGS[edge]
        mirror = bool(float_) and not clipped and edge in ("left", "right")
        column = step * (i + j + 1)
        return Spot(
            kind="side",
            w=short,
            h=other,
            x=x + (short * sx + other * lx).times_root2() / 4,
            y=y + (short * sy + other * ly).times_root2() / 4,
            turn=_TURNED[edge] - (90 if mirror else 0),
            column=column,
            line=step * (j - i),
            row=column - first + 1,
            inner=True,
            mirror=mirror,
            clipped=clipped,
            cell=None,
        )

    last_i, last_j, floats = across - 2, down - 2, bool(float_)
    yield from (side_triangle("top", i, -1, clipped=floats and i == last_i) for i in range(across - 1))
    yield from (side_triangle("right", across - 1, j, clipped=floats and j == 0) for j in range(down - 1))
    yield from (side_triangle("bottom", i, down - 1, clipped=floats and i == 0) for i in range(across - 1))
    yield from (side_triangle("left", -1, j, clipped=floats and j == last_j) for j in range(down - 1))
    inset = corner_leg(setting, side) * HALF
    for x, y, turn, i, j in (
        (inset, inset, 0, 0, 0),
        (width - inset, inset, 90, across - 1, 0),
        (width - inset, height - inset, 180, across - 1, down - 1),
        (inset, height - inset, 270, 0, down - 1),
    ):
        yield Spot(
            kind="corner",
            w=inset * 2,
            h=inset * 2,
            x=x,
            y=y,
            turn=turn,
            column=step * (i + j),
            line=step * (j - i),
            row=None,
            inner=True,
            cell=None,
        )
