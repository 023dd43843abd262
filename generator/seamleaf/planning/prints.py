"""Which bundle piece each block takes, so that like colours keep apart.

Pieces are numbered from 1 in the order of the cutting plan; piece n shows the pattern's colour (n - 1) mod their
number. Blocks are filled row by row, each with the piece whose colours its neighbours have least, ties by number.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from seamleaf.planning.demand import CuttingPlan
from seamleaf.planning.pressing.plan import Placed
from seamleaf.sizing import Quilt

Role = tuple[str, int]
"""Block unit id and print role."""

_AROUND: Final = tuple((dx, dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1) if (dx, dy) != (0, 0))


def assign_prints(
    quilt: Quilt, placed: Mapping[int, Placed], fabric: str, roles: Mapping[str, Sequence[int]], plan: CuttingPlan
) -> dict[int, tuple[int, ...]]:
    """Return for each block, by index of its spot, the piece of each of its print roles of one bundle fabric.

    Args:
        roles: the print roles of each block unit, in order.
        plan: the bundle's cutting plan, whose sheets say which roles a piece serves.

    """
    floor = _Floor(quilt, placed, len(quilt.pattern.fabrics[fabric].colours))
    left = _supply(plan)
    for row in quilt.layout.rows:
        for index in row:
            if index in placed:
                unit = placed[index].unit
                chosen: list[int] = []
                for role in roles.get(unit, ()):
                    pieces = left[unit, role]
                    number = min(floor.cost(index, piece, chosen) for piece in pieces)[-1]
                    pieces[number] -= 1
                    pieces += Counter()  # drops what is used up
                    chosen.append(number)
                    floor.lay(index, number)
    return floor.pieces()


def _supply(plan: CuttingPlan) -> dict[Role, Counter[int]]:
    """Return how often each piece can serve each role."""
    supply: dict[Role, Counter[int]] = defaultdict(Counter)
    number = 0
    for sheet in plan.sheets:
        for _ in range(sheet.times):
            number += 1
            for role in sheet.roles:
                supply[role][number] += 1
    return supply


@dataclass(slots=True)
class _Floor:
    """The blocks laid out so far."""

    quilt: Quilt
    placed: Mapping[int, Placed]
    colours: int
    _laid: dict[int, list[int]] = field(default_factory=lambda: defaultdict(list))
    _at: dict[tuple[int, int], int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        spots = self.quilt.layout.spots
        self._at = {(spots[index].column, spots[index].line): index for index in self.placed}

    def cost(self, index: int, piece: int, chosen: Sequence[int]) -> tuple[int, int, int]:
        """Count what speaks against a piece: its own colour in the block, then among neighbours, then its number."""
        spot = self.quilt.layout.spots[index]
        near: Counter[int] = Counter()
        for dx, dy in _AROUND:
            other = self._at.get((spot.column + dx, spot.line + dy))
            if other is not None:
                near.update(self._colour(number) for number in self._laid.get(other, ()))
        colour = self._colour(piece)
        return sum(self._colour(number) == colour for number in chosen), near[colour], piece

    def lay(self, index: int, piece: int) -> None:
        """Put a piece into a block."""
        self._laid[index].append(piece)

    def pieces(self) -> dict[int, tuple[int, ...]]:
        """Return the pieces of every block."""
        return {index: tuple(numbers) for index, numbers in self._laid.items()}

    def _colour(self, number: int) -> int:
        return (number - 1) % self.colours
