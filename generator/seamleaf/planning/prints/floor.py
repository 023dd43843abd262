"""The floor that blocks are laid out on: who touches whom, quadrants, rows and columns, corners.

Cells are those of the lattice. On point two blocks touch along an edge where they share a seam, and at a corner where
they stand straight above or beside each other in the quilt: the eye reads both.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from seamleaf.planning.print_records import PrintsTask

Pair = tuple[int, int]
"""Two cells by number, the smaller first."""
Quarters = tuple[int, int, int, int]
"""Quarters of a block top left, top right, bottom left and bottom right; one between two counts half in each."""

_EDGES: Final = ((1, 0), (0, 1))
_CORNERS: Final = ((1, 1), (-1, 1))
_NEAR: Final = tuple((dx, dy) for dy in range(3) for dx in range(-2, 3) if max(abs(dx), dy) == 2 and (dy, dx) > (0, 0))
"""Steps to one of each two cells that touch so, and to those with one between."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """Where one block lies."""

    column: int
    """In the lattice, on the block's own x axis."""
    line: int
    """In the lattice, on the block's own y axis."""
    across: int
    """In the quilt as it hangs, from 0 at its left; on point in steps of half a diagonal."""
    down: int
    kind: str
    """Blocks of one kind may be exchanged, since they are sewn alike."""


@dataclass(frozen=True)
class Floor:
    """The cells of the blocks that have prints, numbered in the order of sewing, in a layout of ``wide`` x ``high``."""

    cells: tuple[Cell, ...]
    wide: int
    """The greatest ``across`` of the whole layout."""
    high: int
    step: int = 1
    """Lattice steps from one block to the next: 2 with sashing, which the eye passes over."""

    @cached_property
    def edges(self) -> tuple[Pair, ...]:
        """The pairs of cells that share an edge."""
        return self._pairs(_EDGES)

    @cached_property
    def corners(self) -> tuple[Pair, ...]:
        """The pairs of cells that touch at a corner."""
        return self._pairs(_CORNERS)

    @cached_property
    def near(self) -> tuple[Pair, ...]:
        """The pairs of cells with one step between them, straight or askew."""
        return self._pairs(_NEAR)

    @cached_property
    def outer(self) -> tuple[int, ...]:
        """The cells in the corners of the layout, at most four."""
        return tuple(
            number
            for number, cell in enumerate(self.cells)
            if cell.across in (0, self.wide) and cell.down in (0, self.high)
        )

    @cached_property
    def quarters(self) -> tuple[Quarters, ...]:
        """How each cell's block counts in the quadrants."""
        shares: list[Quarters] = []
        for cell in self.cells:
            left = 1 + _sign(self.wide - 2 * cell.across)
            top = 1 + _sign(self.high - 2 * cell.down)
            shares.append((left * top, (2 - left) * top, left * (2 - top), (2 - left) * (2 - top)))
        return tuple(shares)

    @cached_property
    def columns(self) -> tuple[int, ...]:
        """The column of the lattice that each cell lies in."""
        return tuple(cell.column for cell in self.cells)

    @cached_property
    def lines(self) -> tuple[int, ...]:
        """The line of the lattice that each cell lies in."""
        return tuple(cell.line for cell in self.cells)

    def _pairs(self, ways: Sequence[tuple[int, int]]) -> tuple[Pair, ...]:
        at = {(cell.column, cell.line): number for number, cell in enumerate(self.cells)}
        found: list[Pair] = []
        for (column, line), number in at.items():
            for step in range(1, self.step + 1):  # across the sashing, and what touches a sash itself
                for dx, dy in ways:
                    other = at.get((column + dx * step, line + dy * step))
                    if other is not None:
                        found.append((min(number, other), max(number, other)))
        return tuple(sorted(found))


def floor_of(task: PrintsTask) -> Floor:
    """Return the floor of the blocks that have prints."""
    cells: list[Cell] = []
    for _, kind, column, line in task.cells:
        across, down = (column - line, column + line) if task.on_point else (column, line)
        cells.append(Cell(column=column, line=line, across=across, down=down, kind=kind))
    return Floor(tuple(cells), task.wide, task.high, task.step)


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)
