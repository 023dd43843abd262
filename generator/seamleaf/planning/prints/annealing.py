"""Find a good layout: pick up a block, look at all that it could be exchanged with, and take one by its odds.

Simulated annealing with heat-bath moves (Kirkpatrick, Gelatt and Vecchi 1983): an exchange that changes the cost by d
is taken in proportion to e^(-d/T), staying put being one of the choices, while T falls in fixed steps. Adding a Gumbel
number of scale T to each choice and taking the least does exactly that (Gumbel 1954). At first like prints may touch
for less, so that blocks can pass each other. In the end every exchange that still helps is made. Several such searches
begin alike and take other chances; where some agree on the least cost, no more are made. Where like prints
touch even then, only blocks with like neighbours are moved, by nothing but like prints, until none touch or the steps
are up (as in min-conflicts search: Minton and others 1992); from there the layout is cooled once more.

No clock, no float: the numbers of Gumbel and the temperatures are tables of whole numbers, and the work is a count of
steps, so the same blocks and the same seed give the same layout on every machine, and in the browser.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Collection, Iterable, Sequence
from typing import Final

from seamleaf.planning.prints.chance import Chance
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.landscape import LEVEL, Landscape
from seamleaf.planning.prints.lanes import LANE, WIDTH
from seamleaf.planning.prints.objective import LIKE_ALONE, SOFT, WEIGHTS, Objective

_UNIT: Final = 1024
LEVELS: Final = 32
"""Steps in which the temperature falls."""
SOFT_LEVELS: Final = 22
"""Like prints may touch for less in so many of them."""
TEMPERATURES: Final = tuple(math.floor(_UNIT * 4 * 0.3 ** (level / (LEVELS - 1)) + 0.5) for level in range(LEVELS))
"""From 4 down to 1.2, in 1024ths of a cost."""
PARTING: Final = 5 * _UNIT
"""The temperature at which blocks with like neighbours are moved apart."""
GUMBEL: Final = tuple(
    math.floor(_UNIT * math.log(math.log((part + 0.5) / _UNIT) / math.log(1 - 0.5 / _UNIT)) + 0.5)
    for part in range(_UNIT)
)
"""How far the numbers of Gumbel, at the middles of 1024 equal parts, lie below the largest; in 1024ths."""


def anneal(objective: Objective, start: Sequence[int], seed: int, fixed: Collection[int] = ()) -> list[int]:
    """Return a layout of low cost: the look at each cell.

    Args:
        start: the layout to begin with.
        seed: of chance.
        fixed: cells whose blocks stay where they are.

    """
    landscape = Landscape(objective, start, fixed)
    chance = Chance(seed)
    best, least = list(start), objective.cost(start)

    def keep(found: Sequence[int]) -> int:
        nonlocal best, least
        landscape.lay(found, WEIGHTS)
        _settle(landscape)
        cost = objective.cost(landscape.layout)
        if cost < least:
            best, least = list(landscape.layout), cost
        return cost

    costs: list[int] = []
    for _ in range(_runs(len(start)) if landscape.free else 0):
        gumbel = _shuffled(chance, len(start))
        landscape.lay(start, SOFT)
        _cool(landscape, gumbel, TEMPERATURES[:SOFT_LEVELS], chance)
        landscape.lay(landscape.layout, WEIGHTS)
        costs.append(keep(_cool(landscape, gumbel, TEMPERATURES[SOFT_LEVELS:], chance)))
        if costs.count(min(costs)) == CONVENTIONS.agreeing:
            break
    landscape.lay(best, LIKE_ALONE)
    if landscape.paying():
        gumbel = _shuffled(chance, len(start))
        landscape.lay(_part(landscape, gumbel, chance), WEIGHTS)
        keep(_cool(landscape, gumbel, TEMPERATURES[SOFT_LEVELS:], chance))
    return best


def _runs(cells: int) -> int:
    return max(1, min(CONVENTIONS.runs, CONVENTIONS.most_looks // (CONVENTIONS.steps * cells)))


def _cool(landscape: Landscape, gumbel: Sequence[int], temperatures: Iterable[int], chance: Chance) -> list[int]:
    """Move blocks at falling temperatures; return the best layout met."""
    cells = len(landscape.layout)
    steps = min(CONVENTIONS.steps, CONVENTIONS.steps_each * cells, CONVENTIONS.most_looks // cells)
    steps = max(1, steps // LEVELS)
    best, cost, least = list(landscape.layout), 0, 0  # as differences
    for temperature in temperatures:
        luck = _luck(gumbel, temperature)
        for _ in range(steps):
            cost += _move(landscape, landscape.free, luck, chance)
            if cost < least:
                best, least = list(landscape.layout), cost
    return best


def _part(landscape: Landscape, gumbel: Sequence[int], chance: Chance) -> list[int]:
    """Move only blocks that touch a like print, at one temperature, until none does; return the best layout met."""
    luck = _luck(gumbel, PARTING)
    best, cost, least = list(landscape.layout), 0, 0
    for _ in range(min(CONVENTIONS.parting_steps, CONVENTIONS.most_looks // len(landscape.layout))):
        paying = landscape.paying()
        if not paying:
            break
        cost += _move(landscape, paying, luck, chance)
        if cost < least:
            best, least = list(landscape.layout), cost
    return best


def _move(landscape: Landscape, cells: Sequence[int], luck: bytes, chance: Chance) -> int:
    """Exchange one of some cells with whichever its odds give; return by how much the cost changes."""
    cell = cells[chance.below(len(cells))]
    first = 4 * chance.below(_UNIT)
    changes = landscape.changes(cell)
    width = 4 * len(landscape.layout)
    odds = landscape.lanes.unpack(changes + int.from_bytes(luck[first : first + width], "little"))
    other = odds.index(min(odds))
    if landscape.layout[cell] == landscape.layout[other]:
        return 0
    landscape.exchange(cell, other)
    return (changes >> WIDTH * other & LANE) - LEVEL


def _luck(gumbel: Sequence[int], temperature: int) -> bytes:
    """Return the numbers of Gumbel of that scale, packed."""
    return struct.pack(f"<{len(gumbel)}I", *(temperature * part >> 20 for part in gumbel))


def _shuffled(chance: Chance, cells: int) -> list[int]:
    """Return the numbers of Gumbel in a random order (Fisher and Yates), again and again for that many cells more."""
    numbers = list(GUMBEL)
    for last in range(_UNIT - 1, 0, -1):
        other = chance.below(last + 1)
        numbers[last], numbers[other] = numbers[other], numbers[last]
    return numbers * (1 + -(-cells // _UNIT))


def _settle(landscape: Landscape) -> None:
    """Make every exchange that lowers the cost, the best one of each cell in turn, until none or no work is left."""
    left = CONVENTIONS.most_settling // len(landscape.layout)
    restless = True
    while restless:
        restless = False
        for cell in landscape.free:
            if not left:
                return
            left -= 1
            changes = landscape.lanes.unpack(landscape.changes(cell))
            best = min(changes)
            if best < LEVEL:
                landscape.exchange(cell, changes.index(best))
                restless = True
