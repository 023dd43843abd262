"""How blocks are laid out: like prints apart, and the same on every machine."""

from __future__ import annotations

import math
import os
import random
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from ortools.sat.python import cp_model

from bundles_for_tests import (
    SETS,
    like_neighbours,
    lower_bound,
    on_point_floor,
    random_objective,
    straight_floor,
)
from seamleaf.planning.prints.annealing import GUMBEL, TEMPERATURES, anneal
from seamleaf.planning.prints.bounds import groups_of, least_like_neighbours
from seamleaf.planning.prints.chance import Chance, seed_of
from seamleaf.planning.prints.floor import Floor
from seamleaf.planning.prints.landscape import LEVEL, Landscape
from seamleaf.planning.prints.objective import Objective
from seamleaf.planning.prints.pairs import Block
from seamleaf.planning.prints.reader import lay_as_read


@pytest.mark.parametrize(("blocks", "seed"), [(18, 1), (41, 1), (32, 23), (61, 27), (61, 33)])
def test_no_like_prints_touch_where_a_bound_leaves_it_open(blocks: int, seed: int) -> None:
    """A sample of the two hundred bundles that tests/bench/prints.py lays out, with the three hardest among them."""
    objective = random_objective(seed * 1000 + blocks, blocks)
    layout = anneal(objective, lay_as_read(objective), seed + 1)
    assert lower_bound(objective) == 0
    assert like_neighbours(objective, layout) == 0
    assert Counter(layout) == Counter(objective.start)


def test_every_change_that_the_search_counts_is_the_change_of_the_cost() -> None:
    """The packed sums against the plain cost, for every exchange of a layout, before and after some exchanges."""
    objective = random_objective(5, 18)
    landscape = Landscape(objective, objective.start, ())
    chance = random.Random(3)
    for _ in range(6):
        now = objective.cost(landscape.layout)
        for cell in range(18):
            changes = landscape.lanes.unpack(landscape.changes(cell))
            for other in range(18):
                layout = list(landscape.layout)
                layout[cell], layout[other] = layout[other], layout[cell]
                if layout != landscape.layout:
                    assert changes[other] - LEVEL == objective.cost(layout) - now
        landscape.exchange(chance.randrange(18), chance.randrange(18))


def test_fixed_blocks_stay_where_they_are() -> None:
    objective = random_objective(9, 32)
    fixed = (0, 7, 15, 31)
    start = list(objective.start)
    layout = anneal(objective, start, 4, fixed)
    assert [layout[cell] for cell in fixed] == [start[cell] for cell in fixed]
    assert layout != start
    assert [lay_as_read(objective, fixed)[cell] for cell in fixed] == [start[cell] for cell in fixed]


def test_on_point_a_block_has_neighbours_by_edge_and_straight_above_and_beside_it() -> None:
    """An inner block of 3 x 4 on point: four along its edges, and four at its corners one diagonal away."""
    floor = on_point_floor(3, 4)
    at = {(cell.across, cell.down): number for number, cell in enumerate(floor.cells)}
    middle = at[2, 2]
    assert {other for pair in floor.edges for other in pair if middle in pair} - {middle} == {
        at[1, 1], at[3, 1], at[1, 3], at[3, 3],
    }  # fmt: skip
    assert {other for pair in floor.corners for other in pair if middle in pair} - {middle} == {
        at[0, 2], at[4, 2], at[2, 0], at[2, 4],
    }  # fmt: skip
    assert len(floor.cells) == 18
    assert len(floor.outer) == 4


@pytest.mark.parametrize("floor", [straight_floor(3, 3), straight_floor(4, 2), on_point_floor(2, 3)])
@pytest.mark.parametrize("like", [2, 3, 4, 5])
def test_the_bound_of_like_neighbours_is_never_above_the_least(floor: Floor, like: int) -> None:
    """The least by CP-SAT over all ways to lay ``like`` blocks of one print among others that are all different."""
    cells = len(floor.cells)
    blocks: list[Block] = [(0,)] * like + [(number + 1,) for number in range(cells - like)]
    model = cp_model.CpModel()
    has = [model.new_bool_var("") for _ in range(cells)]
    model.add(sum(has) == like)
    pairs = []
    for a, b in (*floor.edges, *floor.corners):
        both = model.new_bool_var("")
        model.add(both >= has[a] + has[b] - 1)
        pairs.append(both)
    model.minimize(sum(pairs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    assert least_like_neighbours(floor, blocks) <= solver.objective_value
    assert sum(groups_of(floor)) == cells


@pytest.mark.parametrize("blocks", list(SETS))
def test_the_sets_have_as_many_blocks_as_the_trade_counts(blocks: int) -> None:
    """On point a x b and (a - 1) x (b - 1): 18, 32, 41 and 61 (common practice, no source)."""
    assert len(on_point_floor(*SETS[blocks]).cells) == blocks


def test_chance_is_that_of_its_sources() -> None:
    """FNV-1a of 32 bits (offset 2166136261, prime 16777619) and xorshift 13, 17, 5, as their authors give them."""
    assert seed_of() == 2166136261
    assert seed_of("a") == ((0xE40C292C ^ 0) * 16777619) & 0xFFFFFFFF  # FNV-1a of "a" is e40c292c
    assert Chance(2463534242).next() == 723471715  # the first number of Marsaglia's own seed
    chance = Chance(7)
    counts = Counter(chance.below(6) for _ in range(6000))
    assert all(850 < counts[face] < 1150 for face in range(6))


def test_the_tables_of_the_search_are_whole_and_fall() -> None:
    assert len(GUMBEL) == 1024
    assert list(GUMBEL) == sorted(GUMBEL) or list(GUMBEL) == sorted(GUMBEL, reverse=True)
    assert list(TEMPERATURES) == sorted(TEMPERATURES, reverse=True)


def test_the_same_bundle_gives_the_same_layout_under_any_hash_seed() -> None:
    script = (
        "from bundles_for_tests import random_objective\n"
        "from seamleaf.planning.prints.annealing import anneal\n"
        "from seamleaf.planning.prints.reader import lay_as_read\n"
        "o = random_objective(77, 18)\n"
        "print([o.looks[look].block for look in anneal(o, lay_as_read(o), 5)])\n"
    )
    outputs = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(__file__).parents[2])},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "1")
    }
    assert len(outputs) == 1
    assert "(" in outputs.pop()


def test_the_objective_is_what_its_parts_say() -> None:
    objective = random_objective(11, 18)
    layout = lay_as_read(objective)
    assert objective.cost(layout) == sum(objective.parts(layout).values())
    assert isinstance(objective, Objective)


def test_no_number_of_the_tables_of_chance_comes_near_to_where_its_rounding_turns() -> None:
    """They come from logarithms and powers, whose last bit differs between systems, by less than 1e-11 here."""
    values = [1024 * math.log(math.log((part + 0.5) / 1024) / math.log(1 - 0.5 / 1024)) for part in range(1024)]
    values += [4096 * 0.3 ** (level / 31) for level in range(32)]
    assert [math.floor(value + 0.5) for value in values] == [*GUMBEL, *TEMPERATURES]
    assert min(abs(value + 0.5 - round(value + 0.5)) for value in values if value > 0.01) > 1e-5
