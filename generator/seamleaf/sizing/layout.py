"""Where every block and setting triangle of the centre lies, exactly, and which row it is sewn into.

The lattice: blocks stand on whole-number cells (``column``, ``line``) of their own frame, the frame that is
turned by 45 degrees on point. A straight set's rows run along lines, an on-point set's along columns, because
its rows climb from lower left to upper right while the block's own y axis falls from upper right to lower left.

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
from seamleaf.reading.pattern import Cell, FabricUse, Sashing, Setting, Tile

HALF = Fraction(1, 2)
SpotKind = Literal["block", "side", "corner", "sash", "cornerstone"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One block or setting triangle of the centre, before the pressing turns any."""

    kind: SpotKind
    x: Length
    y: Length
    w: Length
    """Finished width of its box as the tile has it: blocks of the set, sashes, cornerstones; triangles their legs."""
    h: Length
    turn: int
    column: int
    """Lattice cell on the block's own x axis."""
    line: int
    """Lattice cell on the block's own y axis."""
    row: int | None
    """From 1; ``None`` for corner triangles."""
    inner: bool
    """Whether it belongs to the second colour of the chequerboard: on point the inner grid."""
    cell: Cell | None
    """What lies there: for blocks what the tile says, for sashes and cornerstones their fabric."""


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
        return (w.times_root2() * across, w.times_root2() * down)
    sash, edges = (setting.sashing.width, 1 if setting.sashing.outer else -1) if setting.sashing else (Length(0), 0)
    return (w * across + sash * (across + edges), h * down + sash * (down + edges))


def lay_out(setting: Setting, across: int, down: int, w: Length, h: Length) -> Layout:
    """Place every block and triangle of an ``across`` x ``down`` set of blocks of finished size w x h."""
    spots = _straight(setting, across, down, w, h) if setting.set == "straight" else _on_point(setting, across, down, w)
    rows: dict[int, list[int]] = {}
    for index, spot in enumerate(spots):
        if spot.row is not None:
            rows.setdefault(spot.row, []).append(index)

    def along(index: int) -> int:
        """Sewing order in a row: to the right; on point up to the right, which is against the block's y axis."""
        return spots[index].column if setting.set == "straight" else -spots[index].line

    width, height = centre_size(setting, across, down, w, h)
    ordered = tuple(tuple(sorted(rows[row], key=along)) for row in sorted(rows))
    return Layout(w=width, h=height, spots=tuple(spots), rows=ordered)


def _cell(tile: Tile, i: int, j: int) -> Cell:
    line = tile[j % len(tile)]
    return line[i % len(line)]


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
            spots.append(
                Spot(
                    kind=kind,
                    x=x + width * HALF,
                    y=y + height * HALF,
                    w=width,
                    h=height,
                    turn=cell.turn,
                    column=column,
                    line=line,
                    row=row,
                    inner=kind == "block" and sashing is None and (column + line) % 2 == 1,
                    cell=cell,
                )
            )
    return spots


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
        yield "sash", start[0], start[1], end[1] + end[2] - start[1], _plain(sashing.fabric)
        return
    for column, x, width in columns:
        if sashing and line % 2 and column % 2 and sashing.cornerstone:
            yield "cornerstone", column, x, width, _plain(sashing.cornerstone)
        elif sashing and (line % 2 or column % 2):
            yield "sash", column, x, width, _plain(sashing.fabric)
        else:
            yield "block", column, x, width, _cell(setting.blocks, column // step, line // step)


def _plain(use: FabricUse) -> Cell:
    return Cell(block=None, plain=use, turn=0, where=use.where)


def _on_point(setting: Setting, across: int, down: int, side: Length) -> list[Spot]:
    diagonal = side.times_root2()
    between = setting.between or setting.blocks

    def block(i: int, j: int, *, inner: bool) -> Spot:
        cell = _cell(between if inner else setting.blocks, i, j)
        shift = HALF if not inner else Fraction(1)
        column = i + j + inner
        return Spot(
            kind="block",
            x=diagonal * (i + shift),
            y=diagonal * (j + shift),
            w=side,
            h=side,
            turn=(45 + cell.turn) % 360,
            column=column,
            line=j - i,
            row=column + 1,
            inner=inner,
            cell=cell,
        )

    def side_triangle(i: int, j: int, x: Length, y: Length, turn: int) -> Spot:
        """Place the half of the inner block (i, j) that lies inside the centre; (x, y) halves its long edge."""
        column = i + j + 1
        return Spot(
            kind="side",
            w=side,
            h=side,
            x=x,
            y=y,
            turn=turn,
            column=column,
            line=j - i,
            row=column + 1,
            inner=True,
            cell=None,
        )

    width, height = diagonal * across, diagonal * down
    # Unturned, a triangle's right angle is at its top left; a side triangle's turns to the centre's inside.
    spots = [block(i, j, inner=False) for j in range(down) for i in range(across)]
    spots += [block(i, j, inner=True) for j in range(down - 1) for i in range(across - 1)]
    spots += [side_triangle(i, -1, diagonal * (i + 1), ZERO, 225) for i in range(across - 1)]
    spots += [side_triangle(across - 1, j, width, diagonal * (j + 1), 315) for j in range(down - 1)]
    spots += [side_triangle(i, down - 1, diagonal * (i + 1), height, 45) for i in range(across - 1)]
    spots += [side_triangle(-1, j, ZERO, diagonal * (j + 1), 135) for j in range(down - 1)]
    inset = diagonal / 4  # half the leg of a corner triangle: its legs are side / sqrt 2
    for x, y, turn, i, j in (
        (inset, inset, 0, 0, 0),
        (width - inset, inset, 90, across - 1, 0),
        (width - inset, height - inset, 180, across - 1, down - 1),
        (inset, height - inset, 270, 0, down - 1),
    ):
        spots.append(
            Spot(
                kind="corner",
                w=inset * 2,
                h=inset * 2,
                x=x,
                y=y,
                turn=turn,
                column=i + j,
                line=j - i,
                row=None,
                inner=True,
                cell=None,
            )
        )
    return spots
