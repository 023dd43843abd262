"""What may lie in the centre, one spot a thing: blocks, sashes, cornerstones and setting triangles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.reading.part_records import FabricUse
from seamleaf.reading.pattern import Cell, Tile

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
    mirror: bool = False
    """Whether a side triangle is the mirror image of those on the top and bottom edge, when blocks float."""
    clipped: bool = False
    """Whether a side triangle loses both of its tips: beside it a corner triangle is sewn across its row."""
    cell: Cell | None
    """What lies there: for blocks what the tile says, for sashes and cornerstones their fabric."""


def cell_of(tile: Tile, i: int, j: int) -> Cell:
    """Return what a tile puts in column i, row j of the grid that it fills."""
    line = tile[j % len(tile)]
    return line[i % len(line)]


def plain_cell(use: FabricUse) -> Cell:
    """Return a cell of plain fabric, for what the setting adds to the tile."""
    return Cell(block=None, plain=use, turn=0, where=use.where)
