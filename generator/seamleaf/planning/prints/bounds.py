"""How few like neighbours there can be at the least: a bound that needs no search.

Four blocks round a crossing all touch each other. If the floor falls into q such groups, a print of n blocks has at
least n - q like neighbours, since of every two blocks in a group one pair is alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from seamleaf.planning.prints.floor import Floor
from seamleaf.planning.prints.pairs import Block

Spot = tuple[int, int]
"""Column and line of the lattice."""
_SQUARE: Final = ((0, 0), (1, 0), (0, 1), (1, 1))


def least_like_neighbours(floor: Floor, blocks: Sequence[Block]) -> int:
    """Return a lower bound of the like neighbours, by edge and corner together, of any layout of these blocks."""
    groups = groups_of(floor)
    counts: dict[int, int] = {}
    for block in blocks:
        for one in set(block):
            counts[one] = counts.get(one, 0) + 1
    return sum(_least_pairs(count, groups) for count in counts.values())


def groups_of(floor: Floor) -> list[int]:
    """Return the sizes of groups of cells that all touch each other, each cell in one: as few groups as were found."""
    step = floor.step
    cells = {(cell.column, cell.line) for cell in floor.cells}
    corners = sorted({(column - dx * step, line - dy * step) for column, line in cells for dx, dy in _SQUARE})
    squares = {(x, y): {(x + dx * step, y + dy * step) for dx, dy in _SQUARE} & cells for x, y in corners}
    covers = [_greedy_cover(cells, list(squares.values()))]
    for parity in _SQUARE:  # the four ways to tile the lattice with squares
        tiles = [squares[x, y] for x, y in corners if (x // step % 2, y // step % 2) == parity]
        covers.append(sorted((len(tile) for tile in tiles), reverse=True))
    return min(covers, key=len)


def _greedy_cover(cells: set[Spot], squares: Sequence[set[Spot]]) -> list[int]:
    """Take the square that holds most of what is left, again and again."""
    left, sizes = set(cells), []
    while left:
        best = max(squares, key=lambda square: len(square & left))
        sizes.append(len(best & left))
        left -= best
    return sizes


def _least_pairs(count: int, groups: Sequence[int]) -> int:
    """Return the least pairs in groups that hold ``count`` blocks of a print: the k-th block of a group adds k - 1."""
    left, pairs = count, 0
    for before in range(4):
        taken = min(left, sum(size > before for size in groups))
        pairs += before * taken
        left -= taken
    return pairs
