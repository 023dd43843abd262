"""A layout, and what any exchange of two of its blocks would change its cost by, for the whole quilt at once.

For every trait stands ready what each cell would pay its neighbours for it, as a packed row over the cells. From these
some dozens of additions give the changes of all exchanges of one block.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from itertools import combinations
from operator import mul
from typing import Final

from seamleaf.planning.prints.lanes import LANE, Lanes, at, packed
from seamleaf.planning.prints.objective import FAINT, KINDS, WEIGHTS, Objective, Weights, quadrant_share

LEVEL: Final = 1 << 28
"""Stands for no change in rows of changes, which may be negative."""
_BARRED: Final = 1 << 30
"""Added where no exchange is allowed."""


def _slots(kinds: Sequence[int]) -> frozenset[int]:
    """Return a number for each trait of a look, given by kind: ``n * len(KINDS) + kind`` for the n-th of its kind."""
    met: Counter[int] = Counter()
    slots: set[int] = set()
    for kind in kinds:
        slots.add(met[kind] * len(KINDS) + kind)
        met[kind] += 1
    return frozenset(slots)


class Landscape:
    """A layout that knows its slopes."""

    def __init__(self, objective: Objective, layout: Sequence[int], fixed: Collection[int]) -> None:
        """Take a layout, the look at each cell; blocks of ``fixed`` cells stay where they are."""
        self.objective = objective
        self.layout = list(layout)
        self.lanes = Lanes(len(self.layout))
        self._traits = [frozenset(look.traits) for look in objective.looks]
        self._slots = [_slots([objective.kinds[trait] for trait in look.traits]) for look in objective.looks]
        kinds: dict[str, list[int]] = {}
        for number, cell in enumerate(objective.floor.cells):
            if number not in fixed:
                kinds.setdefault(cell.kind, []).append(number)
        self.free = sorted(number for numbers in kinds.values() if len(numbers) > 1 for number in numbers)
        """The cells whose blocks can be exchanged."""
        self._barred: dict[int, int] = {}
        for numbers in kinds.values():
            self._barred |= dict.fromkeys(numbers, _BARRED * (self.lanes.ones - sum(map(at, numbers))))
        self._note_pairs()
        self.lay(self.layout, WEIGHTS)

    def _note_pairs(self) -> None:
        """Note for every cell the others that it is near to, as packed rows."""
        floor = self.objective.floor
        cells = range(len(self.layout))
        self._edge, self._corner, self._near, self._outer = ([0] * len(cells) for _ in range(4))
        for rows, pairs in (
            (self._edge, floor.edges),
            (self._corner, floor.corners),
            (self._near, floor.near),
            (self._outer, tuple(combinations(floor.outer, 2))),
        ):
            for a, b in pairs:
                rows[a] += at(b)
                rows[b] += at(a)
        self._in_column = {key: sum(at(c) for c in cells if floor.columns[c] == key) for key in set(floor.columns)}
        self._in_line = {key: sum(at(c) for c in cells if floor.lines[c] == key) for key in set(floor.lines)}
        self._in_quadrant = {
            key: packed((c, quadrant_share(key, floor.quarters[c])) for c in cells) for key in set(floor.quarters)
        }

    def lay(self, layout: Sequence[int], weights: Sequence[Weights]) -> None:
        """Take another layout of the same blocks, and weights by kind of trait."""
        self.layout = list(layout)
        self._here = [0] * len(self.objective.kinds)
        """1 in the cells with each trait."""
        for cell, look in enumerate(layout):
            for trait in self._traits[look]:
                self._here[trait] += at(cell)
        self._mask = [here * LANE for here in self._here]
        """All bits of those cells."""
        self._price(weights)
        self._felt = [0] * len(self.objective.kinds)
        """What each cell would pay for each trait."""
        self._felt[-1] = weights[FAINT].alone * sum(map(at, self.objective.floor.outer))
        for cell, look in enumerate(layout):
            for trait in self._traits[look]:
                self._felt[trait] += self._costs[self.objective.kinds[trait]][cell]
        self._felt_at = [self.lanes.unpack(row) for row in self._felt]
        self._own = sum(felt & mask for felt, mask in zip(self._felt, self._mask, strict=True))
        """What each cell pays now."""
        self._own_at = self.lanes.unpack(self._own)
        self._back = [0] * (1 + max((slot for slots in self._slots for slot in slots), default=-1))
        """All bits of the cells that have so many traits of a kind, for each kind and number."""
        for cell, look in enumerate(layout):
            for slot in self._slots[look]:
                self._back[slot] |= at(cell) * LANE
        self._cost_of = [self._costs[kind] for kind in self.objective.kinds]
        self._costs_back = [self._costs[slot % len(KINDS)] for slot in range(len(self._back))]

    def _price(self, weights: Sequence[Weights]) -> None:
        """Set what each cell pays for sharing a trait with each other cell, by kind of trait."""
        floor = self.objective.floor
        self._costs: list[list[int]] = []
        for of_kind in weights:
            rows = []
            for cell in range(len(self.layout)):
                row = of_kind.edge * self._edge[cell] + of_kind.corner * self._corner[cell]
                row += of_kind.near * self._near[cell] + of_kind.outer * self._outer[cell]
                line = self._in_column[floor.columns[cell]] + self._in_line[floor.lines[cell]] - 2 * at(cell)
                quarters = floor.quarters[cell]
                quadrant = self._in_quadrant[quarters] - quadrant_share(quarters, quarters) * at(cell)
                rows.append(row + of_kind.line * line + of_kind.quadrant * quadrant)
            self._costs.append(rows)

    def paying(self) -> list[int]:
        """Return the cells whose blocks pay anything and can be exchanged."""
        return [cell for cell in self.free if self._own_at[cell]]

    def changes(self, cell: int) -> int:
        """Return what an exchange with every cell would change the cost by: a packed row of numbers above ``LEVEL``."""
        row: int = (LEVEL - self._own_at[cell]) * self.lanes.ones + self._barred[cell] - self._own
        row += sum(map(mul, [felt_at[cell] for felt_at in self._felt_at], self._here))
        # The two cells themselves stay as near as they were: what they would pay each other is taken back.
        for costs, mask in zip(self._costs_back, self._back, strict=True):
            row -= costs[cell] & mask
        for trait in self._traits[self.layout[cell]]:
            cost = self._cost_of[trait][cell]
            row += self._felt[trait] - cost + ((cost & self._mask[trait]) << 1)
        return row

    def exchange(self, one: int, other: int) -> None:
        """Exchange the blocks of two cells."""
        own, coming = self._traits[self.layout[one]], self._traits[self.layout[other]]
        both = at(one) + at(other)
        both_full = both * LANE
        felt, here, mask, unpack = self._felt, self._here, self._mask, self.lanes.unpack
        for trait in own ^ coming:
            costs = self._cost_of[trait]
            moved = costs[other] - costs[one]
            self._own -= felt[trait] & mask[trait]
            felt[trait] += moved if trait in own else -moved
            here[trait] ^= both
            mask[trait] ^= both_full
            self._own += felt[trait] & mask[trait]
            self._felt_at[trait] = unpack(felt[trait])
        self._own_at = unpack(self._own)
        for slot in self._slots[self.layout[one]] ^ self._slots[self.layout[other]]:
            self._back[slot] ^= both_full
        self.layout[one], self.layout[other] = self.layout[other], self.layout[one]
