"""A layout as a careful maker begins it: cell by cell in sewing order, each time the block that fits best so far."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from typing import Final

from seamleaf.planning.prints.objective import WEIGHTS, Objective

_HAND: Final = 40
"""Different blocks that are looked at for each cell."""


def lay_as_read(objective: Objective, fixed: Collection[int] = ()) -> list[int]:
    """Return a layout: the look at each cell. Blocks of ``fixed`` cells stay where they are."""
    floor = objective.floor
    around: list[list[tuple[int, list[int]]]] = [[] for _ in floor.cells]
    edge, corner = ([getattr(weights, way) for weights in WEIGHTS] for way in ("edge", "corner"))
    for pairs, costs in ((floor.edges, edge), (floor.corners, corner)):
        for a, b in pairs:
            around[a].append((b, costs))
            around[b].append((a, costs))
    layout = [objective.start[cell] if cell in fixed else -1 for cell in range(len(floor.cells))]
    left: dict[str, Counter[int]] = {}
    for cell, look in enumerate(objective.start):
        if cell not in fixed:
            left.setdefault(floor.cells[cell].kind, Counter())[look] += 1

    def cost(cell: int, look: int) -> int:
        traits = objective.looks[look].traits
        return sum(
            costs[objective.kinds[trait]]
            for other, costs in around[cell]
            if layout[other] >= 0
            for trait in objective.looks[layout[other]].traits
            if trait in traits
        )

    for cell, at in enumerate(floor.cells):
        if layout[cell] >= 0:
            continue
        stock = left[at.kind]
        # The most frequent blocks first: those are the hardest to keep apart later.
        hand = sorted(stock, key=lambda look: (-stock[look], look))[:_HAND]
        layout[cell] = min(hand, key=lambda look: (cost(cell, look), -stock[look], look))
        stock[layout[cell]] -= 1
        if not stock[layout[cell]]:
            del stock[layout[cell]]
    return layout
