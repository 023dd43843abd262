"""Which bundle piece each block takes, so that like colours keep apart and no block takes a piece twice.

Pieces are numbered from 1 in the order of the cutting plan; piece n shows the pattern's colour (n - 1) mod their
number. Blocks are filled row by row, each with the piece whose colours its neighbours have least, ties by number.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field
from typing import Final

from seamleaf.planning.demand import CuttingPlan
from seamleaf.planning.pressing.arrangement import Placed
from seamleaf.sizing import Quilt

_AROUND: Final = tuple((dx, dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1) if (dx, dy) != (0, 0))


def assign_prints(
    quilt: Quilt, placed: Mapping[int, Placed], fabric: str, roles: Mapping[str, Sequence[int]], plan: CuttingPlan
) -> dict[int, tuple[int, ...]]:
    """Return for each block, by index of its spot, the piece of each of its print roles of one bundle fabric.

    Args:
        roles: the print roles of each block unit, in order.
        plan: the bundle's cutting plan, whose sheets say which roles a piece serves; a piece serves no more roles
            of a block unit than there are such blocks.

    """
    floor = _Floor(quilt, placed, len(quilt.pattern.fabrics[fabric].colours))
    copies = Counter(block.unit for block in placed.values())
    shares = {unit: _Share(copies[unit], tuple(of_block), _supply(plan, unit)) for unit, of_block in roles.items()}
    for row in quilt.layout.rows:
        for index in row:
            if index in placed and placed[index].unit in shares:
                floor.lay(index, shares[placed[index].unit].take(floor.colours_near(index), floor.colours))
    return floor.laid


def _supply(plan: CuttingPlan, unit: str) -> dict[int, Counter[int]]:
    """Return by print role of a block unit how often each piece can serve it."""
    supply: dict[int, Counter[int]] = {}
    number = 0
    for sheet in plan.sheets:
        for _ in range(sheet.times):
            number += 1
            for block, role in sheet.roles:
                if block == unit:
                    supply.setdefault(role, Counter())[number] += 1
    return supply


@dataclass(slots=True)
class _Share:
    """What pieces can still serve in the ``blocks`` of one unit that are not filled yet.

    All blocks can be filled with different pieces in each, as long as every piece that serves as many roles as
    there are blocks left is used in the next one (König 1916: the edges of a bipartite graph need no more colours
    than its largest degree; here a colour is a block, and an edge a piece in a role).
    """

    blocks: int
    roles: tuple[int, ...]
    supply: dict[int, Counter[int]]

    def take(self, near: Counter[int], colours: int) -> tuple[int, ...]:
        """Choose the pieces of one block: of colours that are not in it yet, then seldom ``near``, then by number."""
        serves: Counter[int] = Counter()
        for pieces in self.supply.values():
            serves.update(pieces)
        due = {piece for piece, times in serves.items() if times == self.blocks}
        chosen: list[int] = []

        def cost(piece: int) -> tuple[bool, int, int]:
            colour = (piece - 1) % colours
            return colour in {(number - 1) % colours for number in chosen}, near[colour], piece

        for role in self.roles:
            ranked = sorted(self.supply[role], key=cost)
            chosen.append(next(piece for piece in ranked if self._can_go_on({*chosen, piece}, len(chosen) + 1, due)))
        for role, piece in zip(self.roles, chosen, strict=True):
            self.supply[role] -= Counter([piece])  # drops what is used up
        self.blocks -= 1
        return tuple(chosen)

    def _can_go_on(self, used: Set[int], roles_done: int, due: Set[int]) -> bool:
        """Whether the first roles of a block take different pieces, and the others can take the rest of the due ones.

        A matching that serves all the roles and one that uses all the due pieces are enough, since then one matching
        does both (Mendelsohn and Dulmage 1958).
        """
        rest = self.roles[roles_done:]
        offers = {role: [piece for piece in self.supply[role] if piece not in used] for role in rest}
        places = {piece: [role for role in rest if piece in self.supply[role]] for piece in due - used}
        return len(used) == roles_done and _all_matched(offers) and _all_matched(places)


def _all_matched(choices: Mapping[int, Sequence[int]]) -> bool:
    """Whether every key can have one of its choices for itself (augmenting paths)."""
    owner: dict[int, int] = {}

    def place(key: int, tried: set[int]) -> bool:
        for choice in choices[key]:
            if choice not in tried:
                tried.add(choice)
                if choice not in owner or place(owner[choice], tried):
                    owner[choice] = key
                    return True
        return False

    return all(place(key, set()) for key in choices)


@dataclass(slots=True)
class _Floor:
    """The blocks laid out so far."""

    quilt: Quilt
    placed: Mapping[int, Placed]
    colours: int
    laid: dict[int, tuple[int, ...]] = field(default_factory=dict)
    """The pieces of every block that has some, by index of its spot."""
    _at: dict[tuple[int, int], int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        spots = self.quilt.layout.spots
        self._at = {(spots[index].column, spots[index].line): index for index in self.placed}

    def colours_near(self, index: int) -> Counter[int]:
        """Count the colours of the blocks round one, along edges and at corners."""
        spot = self.quilt.layout.spots[index]
        near: Counter[int] = Counter()
        for dx, dy in _AROUND:
            other = self._at.get((spot.column + dx, spot.line + dy))
            if other is not None:
                near.update((number - 1) % self.colours for number in self.laid.get(other, ()))
        return near

    def lay(self, index: int, pieces: tuple[int, ...]) -> None:
        """Put its pieces into a block."""
        self.laid[index] = pieces
