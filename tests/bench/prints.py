"""How good the layouts of prints are, and how often like prints touch where they need not.

    python tests/bench/prints.py [SECONDS]

For one random bundle of each size of quilt: the cost of layouts at random, as a careful maker begins (cell by cell, the
best block left), of ours, and of CP-SAT on the same cost in so many seconds (60), from nothing and from our layout.
Then fifty random bundles of each size: like neighbours where a bound leaves none, fixed blocks that moved, and seconds.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from ortools.sat.python import cp_model

from bundles_for_tests import SETS, like_neighbours, lower_bound, random_objective
from seamleaf.planning.prints.annealing import anneal
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.objective import FAINT, WEIGHTS, Objective, quadrant_share
from seamleaf.planning.prints.reader import lay_as_read

BUNDLES = 50


def pair_costs(objective: Objective, kind: int) -> Counter[tuple[int, int]]:
    """Return what two cells pay for sharing a trait of a kind."""
    floor, weights = objective.floor, WEIGHTS[kind]
    costs: Counter[tuple[int, int]] = Counter()
    for pairs, weight in (
        (floor.edges, weights.edge), (floor.corners, weights.corner), (floor.near, weights.near),
        (tuple(combinations(floor.outer, 2)), weights.outer),
    ):  # fmt: skip
        for pair in pairs:
            costs[pair] += weight
    for a, b in combinations(range(len(floor.cells)), 2):
        lines = (floor.columns[a] == floor.columns[b]) + (floor.lines[a] == floor.lines[b])
        costs[a, b] += weights.line * lines + weights.quadrant * quadrant_share(floor.quarters[a], floor.quarters[b])
    return +costs


def by_cp_sat(objective: Objective, seconds: float, hint: list[int] | None) -> tuple[int, int]:
    """Return the least cost that CP-SAT finds, and the bound that it proves."""
    model = cp_model.CpModel()
    cells = range(len(objective.floor.cells))
    looks = range(len(objective.looks))
    at = {(cell, look): model.new_bool_var("") for cell in cells for look in looks}
    for cell in cells:
        model.add_exactly_one(at[cell, look] for look in looks)
    for look, times in Counter(objective.start).items():
        model.add(sum(at[cell, look] for cell in cells) == times)
    has: dict[tuple[int, int], cp_model.LinearExprT] = {}
    for trait in range(len(objective.kinds)):
        holders = [look for look in looks if trait in objective.looks[look].traits]
        for cell in cells:
            has[trait, cell] = sum(at[cell, look] for look in holders)
    costs = [pair_costs(objective, kind) for kind in range(len(WEIGHTS))]
    total = []
    for trait, kind in enumerate(objective.kinds):
        if kind == FAINT:
            total += [CONVENTIONS.faint_outer * has[trait, cell] for cell in objective.floor.outer]
        for (a, b), cost in costs[kind].items():
            both = model.new_bool_var("")
            model.add(both >= has[trait, a] + has[trait, b] - 1)
            total.append(cost * both)
    model.minimize(sum(total))
    if hint is not None:
        for cell, look in at:
            model.add_hint(at[cell, look], int(hint[cell] == look))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return -1, round(solver.best_objective_bound)
    layout = [next(look for look in looks if solver.value(at[cell, look])) for cell in cells]
    return objective.cost(layout), round(solver.best_objective_bound)


def compare(seconds: float) -> None:
    """Print the costs of one bundle of each size."""
    print(f"cost of a layout; CP-SAT with 2 workers and {seconds:.0f} s, from nothing and from ours")
    print(
        f"{'blocks':>6} {'random':>8} {'begun':>7} {'ours':>7} {'CP-SAT':>7} {'from ours':>9} {'bound':>6}  over best"
    )
    for blocks in SETS:
        objective = random_objective(blocks, blocks)
        chance = random.Random(blocks)
        shuffled = [objective.cost(chance.sample(objective.start, blocks)) for _ in range(200)]
        begun = lay_as_read(objective)
        ours = anneal(objective, begun, 1)
        cost = objective.cost(ours)
        cold, bound = by_cp_sat(objective, seconds, None)
        warm, other = by_cp_sat(objective, seconds, ours)
        best = min(each for each in (cost, cold, warm) if each >= 0)
        print(
            f"{blocks:>6} {sum(shuffled) / len(shuffled):>8.0f} {objective.cost(begun):>7} {cost:>7} {cold:>7}"
            f" {warm:>9} {max(bound, other):>6}  {100 * (cost - best) / best:.1f} %",
            flush=True,
        )


def sweep() -> None:
    """Print like neighbours, fixed blocks and seconds of many bundles."""
    print("blocks  bundles  none needed  none found  over bound  moved  s each")
    for blocks in SETS:
        needless = free = over = moved = 0
        took = 0.0
        for bundle in range(BUNDLES):
            objective = random_objective(bundle * 1000 + blocks, blocks)
            began = time.process_time()
            layout = anneal(objective, lay_as_read(objective), bundle + 1)
            took += time.process_time() - began
            like, bound = like_neighbours(objective, layout), lower_bound(objective)
            free += bound == 0
            needless += bound == 0 and like == 0
            over += like > bound
            fixed = random.Random(bundle).sample(range(blocks), 4)
            held = anneal(objective, lay_as_read(objective, fixed), bundle + 1, fixed) if bundle < 5 else None
            moved += held is not None and any(held[cell] != objective.start[cell] for cell in fixed)
        print(
            f"{blocks:>6} {BUNDLES:>8} {free:>12} {needless:>11} {over:>11} {moved:>6} {took / BUNDLES:>7.2f}",
            flush=True,
        )


if __name__ == "__main__":
    sweep()
    compare(float(sys.argv[1]) if len(sys.argv) > 1 else 60)
