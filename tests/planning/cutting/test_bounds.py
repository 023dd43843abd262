"""Weak duality: whatever the prices, what they prove is not above a plan that keeps to the branch."""

from __future__ import annotations

import random

import numpy as np

from planning.cutting.test_residues import first_plans, small_models, told
from seamleaf.planning.cutting.frugal import shortest_strips
from seamleaf.planning.cutting.master import FINE, Branch, Master, Pool
from seamleaf.planning.cutting.pricing import Ints


def test_no_prices_prove_more_than_a_plan_of_the_branch_takes() -> None:
    close = 0
    for number, model in enumerate(small_models()):
        chance = random.Random(number)
        strips, _, _ = shortest_strips(model.kinds, model.usable, first_plans(model))
        length = sum(strip.height * times for strip, times in strips)
        plan = [(model.filling(model.heights.index(strip.height), strip.columns), times) for strip, times in strips]
        one_each = [model.filling(model.heights.index(lay.h), [(lay,)]) for _, lay in model.lays]
        pool = Pool([*(one for one, _ in plan), *one_each], len(model.kinds))
        levels = len(model.heights)
        cut: Ints = np.zeros(levels, dtype=np.int64)
        for one, times in plan:
            cut[: one.level + 1] += times
        for _ in range(40):
            less = np.array([chance.randint(0, 2) for _ in range(levels)])
            more = np.array([chance.randint(0, 2) for _ in range(levels)])
            bounds = {
                at: (times - chance.randint(0, times), chance.choice((None, times, times + 1)))
                for at, (_, times) in enumerate(plan)
                if chance.random() < 0.5
            }
            branch = Branch(np.maximum(cut - less, 0), cut + more, bounds)
            master = Master(model, pool, range(len(pool.fillings)))
            lowest = chance.choice((0, length - 1, length))
            duals = [chance.uniform(-1, 12) for _ in model.kinds] + [chance.uniform(-3, 3) for _ in range(levels)]
            prices, _ = master._price(branch, lowest, np.array([*duals, chance.uniform(0, 1)]))
            assert prices.bound <= length * FINE, told(model)
            free, _ = master._price(branch, length, np.array([0.0] * (len(duals)) + [1.0]))
            assert free.bound == length * FINE  # nothing but what was asked for
            relaxed = master.solve(branch, 0, length)
            assert relaxed is not None
            assert relaxed.prices.bound <= length * FINE
            close += relaxed.prices.bound > (length - model.heights[-1]) * FINE
    assert close >= 100  # and they do prove something
