"""Variables taken out one by one: the same least cost as trying every choice, in small tables only."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from effort import tries
from seamleaf.planning.pressing.elimination import Beside, cheapest

Problem = tuple[list[list[int]], list[Beside]]


def cost(problem: Problem, chosen: list[int] | tuple[int, ...]) -> int:
    alone, beside = problem
    apart = sum(costs[at] for costs, at in zip(alone, chosen, strict=True))
    return apart + sum(pair.costs[chosen[pair.one]][chosen[pair.other]] for pair in beside)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Draw up to seven variables of one to four choices; of some pairs more than one thing is asked."""
    sizes = draw(st.lists(st.integers(1, 4), min_size=1, max_size=7))
    price = st.integers(0, 9)
    alone = [draw(st.lists(price, min_size=size, max_size=size)) for size in sizes]
    pairs = [(one, other) for one in range(len(sizes)) for other in range(len(sizes)) if one != other]
    beside = []
    for one, other in draw(st.lists(st.sampled_from(pairs), max_size=10)) if pairs else []:
        row = st.lists(price, min_size=sizes[other], max_size=sizes[other])
        beside.append(Beside(one=one, other=other, costs=draw(st.lists(row, min_size=sizes[one], max_size=sizes[one]))))
    return alone, beside


@given(problems(), st.sampled_from([1, 1 << 70]))
@settings(max_examples=tries(100))
def test_no_choices_cost_less_than_those_found(problem: Problem, part: int) -> None:
    """With prices beyond a word of the machine too."""
    alone, beside = problem
    dear = (
        [[price * part for price in costs] for costs in alone],
        [Beside(one=p.one, other=p.other, costs=[[price * part for price in row] for row in p.costs]) for p in beside],
    )
    found = cheapest(*dear, most=10_000)
    assert found is not None
    assert cost(problem, found) == min(cost(problem, each) for each in product(*(range(len(one)) for one in alone)))


@pytest.mark.parametrize("many", [4, 61])
def test_a_ring_takes_three_at_a_time_however_long_it_is(many: int) -> None:
    """Neighbours want to differ: in an odd ring one pair cannot. No table is wider than a variable and two others."""
    unlike = [[1, 0], [0, 1]]
    ring = [Beside(one=at, other=(at + 1) % many, costs=unlike) for at in range(many)]
    found = cheapest([[0, 0]] * many, ring, most=8 * many)
    assert found is not None
    assert cost(([[0, 0]] * many, ring), found) == many % 2


def test_what_would_take_too_large_tables_is_left_to_others() -> None:
    every = [Beside(one=one, other=other, costs=[[1, 0], [0, 1]]) for one in range(12) for other in range(one)]
    assert cheapest([[0, 0]] * 12, every, most=1_000) is None
    assert cheapest([[0, 0]] * 12, every, most=10_000) is not None
