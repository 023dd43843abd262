"""Where every block and setting triangle of the centre lies, exactly, and which row it is sewn into.

The lattice: blocks stand on whole-number cells (``column``, ``line``) of their own frame, the frame that is
turned by 45 degrees on point. A straight set's rows run along lines, an on-point set's along columns, because
its rows climb from lower left to upper right while the block's own y axis falls from upper right to lower left.
A strippy set is straight, but its rows run down along columns, and the strips between them are rows of their own.

On point, with m blocks across and n down, there are mn blocks in the outer grid and (m-1)(n-1) in the inner
one, 2(m+n-2) side triangles and 4 corner triangles, in m+n-1 diagonal rows (derived; counts also at
inflorescencedesigns.com/quilting-on-the-diagonal and kristamoser.com/post/quilt-math-made-easy).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from seamleaf.lengths import ZERO, Length
from seamleaf.reading.pattern import Cell, Sashing, Setting
from seamleaf.sizing.diagonal import diagonal_size, lay_diagonally
from seamleaf.sizing.spots import Spot, SpotKind, cell_of, plain_cell

HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The centre: its size, its spots, and the rows as indexes into the spots in sewing order."""

    w: Length
    h: Length
    spots: tuple[Spot, ...]
    rows: tuple[tuple[int, ...], ...]


def count_blocks(set_kind: Literal["straight", "on-point"], across: int, down: int) -> int:
    """Return how many blocks a set has: mn, and (m-1)(n-1) more on point."""
    return across * down + ((across - 1) * (down - 1) if set_kind == "on-point" else 0)


def centre_size(setting: Setting, across: int, down: int, w: Length, h: Length) -> tuple[Length, Length]:
    """Return the centre's finished width and height for blocks of finished size w x h (on point square)."""
    if setting.set == "on-point":
        return diagonal_size(setting, across, down, w)
    sash, edges = (setting.sashing.width, 1 if setting.sashing.outer else -1) if setting.sashing else (Length(0), 0)
    wide = w * across + sash * (across + edges)
    return (wide, h * down if setting.run == "down" else h * down + sash * (down + edges))


def lay_out(setting: Setting, across: int, down: int, w: Length, h: Length) -> Layout:
    """Place every block and triangle of an ``across`` x ``down`` set of blocks of finished size w x h."""
    if setting.run == "down":
        spots = _strippy(setting, across, down, w, h)
    elif setting.set == "straight":
        spots = _straight(setting, across, down, w, h)
    else:
        spots = lay_diagonally(setting, across, down, w)
    rows: dict[int, list[int]] = {}
    for index, spot in enumerate(spots):
        if spot.row is not None:
            rows.setdefault(spot.row, []).append(index)

    def along(index: int) -> int:
        """Sewing order in a row: right, or down; on point up to the right, which is against the block's y axis."""
        if setting.run == "down":
            return spots[index].line
        return spots[index].column if setting.set == "straight" else -spots[index].line

    width, height = centre_size(setting, across, down, w, h)
    ordered = tuple(tuple(sorted(rows[row], key=along)) for row in sorted(rows))
    return Layout(w=width, h=height, spots=tuple(spots), rows=ordered)


def _straight(setting: Setting, across: int, down: int, w: Length, h: Length) -> list[Spot]:
    """Place blocks in lines and columns; with sashing, blocks stand in the even ones and sashes between them."""
    sashing = setting.sashing
    if sashing is None:
        columns = [(i, w * i, w) for i in range(across)]
        lines = [(j, h * j, h) for j in range(down)]
    else:
        columns = _sashed(across, w, sashing)
        lines = _sashed(down, h, sashing)
    spots: list[Spot] = []
    for row, (line, y, height) in enumerate(lines, 1):
        for kind, column, x, width, cell in _straight_row(setting, columns, line):
            inner = kind == "block" and sashing is None and (column + line) % 2 == 1
            spots.append(_spot(kind, cell, (x, y), (width, height), (column, line), row=row, inner=inner))
    return spots


def _strippy(setting: Setting, across: int, down: int, w: Length, h: Length) -> list[Spot]:
    """Place columns of blocks, and between them, or round them too, strips as long as a column.

    Each is a row, numbered from the left. Blocks stand in even columns of the lattice and in all its lines.
    """
    assert setting.sashing is not None  # noqa: S101 -- reading demands it
    spots: list[Spot] = []
    for row, (column, x, width) in enumerate(_sashed(across, w, setting.sashing), 1):
        is_strip = bool(column % 2)
        for line in range(1 if is_strip else down):
            height = h * down if is_strip else h
            fabric = setting.sashing.fabric
            cell = plain_cell(fabric) if is_strip else cell_of(setting.blocks, column // 2, line)
            kind: SpotKind = "sash" if is_strip else "block"
            inner = not is_strip and (column // 2 + line) % 2 == 1
            spots.append(_spot(kind, cell, (x, h * line), (width, height), (column, line), row=row, inner=inner))
    return spots


def _spot(
    kind: SpotKind,
    cell: Cell,
    corner: tuple[Length, Length],
    size: tuple[Length, Length],
    lattice: tuple[int, int],
    *,
    row: int,
    inner: bool,
) -> Spot:
    """Place a cell by its top left corner and its size."""
    (x, y), (w, h), (column, line) = corner, size, lattice
    return Spot(
        kind=kind,
        x=x + w * HALF,
        y=y + h * HALF,
        w=w,
        h=h,
        turn=cell.turn,
        column=column,
        line=line,
        row=row,
        inner=inner,
        cell=cell,
    )


def _sashed(count: int, size: Length, sashing: Sashing) -> list[tuple[int, Length, Length]]:
    """Return (lattice index, start, width) of blocks, which are even, and the sashes between and round them."""
    first, last = (-1, 2 * count - 1) if sashing.outer else (0, 2 * count - 2)
    laid: list[tuple[int, Length, Length]] = []
    at = ZERO
    for index in range(first, last + 1):
        width = sashing.width if index % 2 else size
        laid.append((index, at, width))
        at = at + width
    return laid


def _straight_row(
    setting: Setting, columns: list[tuple[int, Length, Length]], line: int
) -> Iterator[tuple[SpotKind, int, Length, Length, Cell]]:
    """Yield what one row holds: kind, lattice column, start, width and content."""
    sashing = setting.sashing
    step = 1 if sashing is None else 2
    if sashing and line % 2 and sashing.cornerstone is None:  # one long sash
        start, end = columns[0], columns[-1]
        yield "sash", start[0], start[1], end[1] + end[2] - start[1], plain_cell(sashing.fabric)
        return
    for column, x, width in columns:
        if sashing and line % 2 and column % 2 and sashing.cornerstone:
            yield "cornerstone", column, x, width, plain_cell(sashing.cornerstone)
        elif sashing and (line % 2 or column % 2):
            yield "sash", column, x, width, plain_cell(sashing.fabric)
        else:
            yield "block", column, x, width, cell_of(setting.blocks, column // step, line // step)
