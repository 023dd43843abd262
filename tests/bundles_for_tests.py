"""Random bundles on floors of on-point quilts, for the tests and the bench of prints."""

from __future__ import annotations

import random
from collections import Counter
from typing import Final

from seamleaf.planning.prints.bounds import least_like_neighbours
from seamleaf.planning.prints.choice import Kind, Square, choose, prints_of
from seamleaf.planning.prints.colour import Lab, lab_of
from seamleaf.planning.prints.floor import Cell, Floor
from seamleaf.planning.prints.objective import Objective
from seamleaf.planning.prints.pairs import Block, pair_prints, print_of

GROUND: Final = "#22334f"
SETS: Final = {18: (3, 4), 32: (4, 5), 41: (5, 5), 61: (6, 6)}
"""Blocks of an on-point set, and how many lie across and down in its outer grid."""


def on_point_floor(across: int, down: int) -> Floor:
    """Return the floor of an on-point set: an outer grid of blocks and an inner one, one smaller each way."""
    places = [(2 * i, 2 * j) for i in range(across) for j in range(down)]
    places += [(2 * i + 1, 2 * j + 1) for i in range(across - 1) for j in range(down - 1)]
    cells = [Cell(column=(x + y) // 2, line=(y - x) // 2, across=x, down=y, kind="block") for x, y in places]
    return Floor(tuple(sorted(cells, key=lambda cell: (cell.line, cell.column))), 2 * across - 2, 2 * down - 2)


def straight_floor(across: int, down: int) -> Floor:
    """Return the floor of a straight set."""
    cells = [Cell(column=x, line=y, across=x, down=y, kind="block") for y in range(down) for x in range(across)]
    return Floor(tuple(cells), across - 1, down - 1)


def random_colours(seed: int, count: int) -> list[str]:
    """Return so many colours that stand out from the ground, as any bundle of brights on a dark one has them."""
    chance = random.Random(seed)
    found: list[str] = []
    while len(found) < count:
        colour = f"#{chance.randrange(1 << 24):06x}"
        if lab_of(colour)[0] > lab_of(GROUND)[0] + 26_00:
            found.append(colour)
    return found


def random_objective(seed: int, blocks: int) -> Objective:
    """Return the blocks of a random bundle, chosen and paired: each print once or more in each of two roles."""
    chance = random.Random(seed)
    colours = random_colours(seed, chance.randint(10, 42))
    ground: tuple[Lab, ...] = (lab_of(GROUND),)
    each = -(-blocks // len(colours))
    squares = [Square(lab=lab_of(colour), squares=each) for colour in colours]
    choice = choose(squares, [Kind(pieces=blocks, grounds=ground)])
    first = prints_of(squares)
    numbers = {index: number for number, index in enumerate(sorted(set(first)))}
    prints = [print_of(squares[index].lab) for index in numbers]
    uses = Counter(numbers[first[index]] for index in choice.pieces)
    paired: list[Block] = pair_prints([uses, uses], prints)
    floor = on_point_floor(*SETS[blocks])
    contrasts = [min(abs(prints[one].lab[0] - ground[0][0]) for one in block) for block in paired]
    return Objective(floor, paired, prints, contrasts)


def like_neighbours(objective: Objective, layout: list[int]) -> int:
    """Count the prints that blocks share with those beside them, from the blocks' columns and lines alone."""
    at = {
        (cell.column, cell.line): set(objective.looks[look].block)
        for cell, look in zip(objective.floor.cells, layout, strict=True)
    }
    ways = ((1, 0), (0, 1), (1, 1), (-1, 1))
    return sum(len(block & at.get((x + dx, y + dy), set())) for (x, y), block in at.items() for dx, dy in ways)


def lower_bound(objective: Objective) -> int:
    """Return the proven least number of like neighbours."""
    return least_like_neighbours(objective.floor, [objective.looks[look].block for look in objective.start])
