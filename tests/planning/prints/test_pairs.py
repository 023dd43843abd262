"""Which prints meet in a block."""

from __future__ import annotations

import random
from collections import Counter

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from bundles_for_tests import random_colours
from seamleaf.planning.prints.colour import lab_of
from seamleaf.planning.prints.handout import even_uses, hand_out
from seamleaf.planning.prints.pairs import Print, pair_cost, pair_prints, print_of
from seamleaf.planning.prints.transport import Transport


def _prints(seed: int, count: int) -> list[Print]:
    return [print_of(lab_of(colour)) for colour in random_colours(seed, count)]


@pytest.mark.parametrize(("seed", "count"), [(seed, count) for seed in range(4) for count in (3, 9, 24)])
def test_pairs_cost_as_little_as_any_assignment(seed: int, count: int) -> None:
    """Every print once a role: the sum of costs is that of SciPy's linear_sum_assignment on the same table."""
    prints = _prints(seed, count)
    costs = np.array([[pair_cost(a, b, same=i == j) for j, b in enumerate(prints)] for i, a in enumerate(prints)])
    least = costs[linear_sum_assignment(costs)].sum()
    blocks = pair_prints([dict.fromkeys(range(count), 1)] * 2, prints)
    assert sum(costs[one, other] for one, other in blocks) == least
    assert all(one != other for one, other in blocks)
    assert Counter(one for one, _ in blocks) == Counter(other for _, other in blocks) == Counter(range(count))


@pytest.mark.parametrize("seed", range(6))
def test_convex_costs_are_met_as_an_assignment_of_single_units_meets_them(seed: int) -> None:
    """Each unit a row and each further unit at a sink a column of its own, which SciPy solves without our paths."""
    chance = random.Random(seed)
    supply = [chance.randint(1, 4) for _ in range(5)]
    room = [chance.randint(2, 6) for _ in range(5)]
    cost = [[chance.randint(0, 50) for _ in room] for _ in supply]
    sent = Transport(supply=supply, room=room, cost=lambda s, t, _: cost[s][t], sink_cost=lambda _, n: 7 * n).solve()
    rows = [s for s, units in enumerate(supply) for _ in range(units)]
    columns = [(t, n) for t, most in enumerate(room) for n in range(most)]
    table = np.array([[cost[s][t] + 7 * n for t, n in columns] for s in rows])
    ours = sum(cost[s][t] * sent[s][t] for s in range(5) for t in range(5))
    ours += sum(7 * n for column in zip(*sent, strict=True) for n in range(sum(column)))
    assert ours == table[linear_sum_assignment(table)].sum()
    assert [sum(row) for row in sent] == supply


def test_a_bundle_of_one_print_is_paired_with_itself_only_for_want_of_another() -> None:
    one, two = _prints(1, 2)
    assert pair_prints([{0: 2}, {0: 2}], [one]) == [(0, 0), (0, 0)]
    assert pair_prints([{0: 2, 1: 1}, {0: 1, 1: 2}], [one, two]) == [(0, 1), (0, 1), (1, 0)]


def test_every_piece_serves_equally_often() -> None:
    assert even_uses({1: 2, 2: 2, 3: 2}, 4, {}, {1: 0, 2: 0, 3: 0}, {}) == {1: 2, 2: 1, 3: 1}
    assert sum(even_uses(dict.fromkeys(range(7), 3), 17, {}, dict.fromkeys(range(7), 0), {}).values()) == 17


def test_no_block_gets_one_piece_twice_even_of_one_print() -> None:
    dealt = hand_out([(0, 0)] * 3, [{1: 1, 2: 1, 3: 1}] * 2, {1: 0, 2: 0, 3: 0})
    assert all(one != other for one, other in dealt)
    assert Counter(one for one, _ in dealt) == Counter(other for _, other in dealt) == {1: 1, 2: 1, 3: 1}
