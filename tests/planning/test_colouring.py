"""The signed colouring that pressing rests on: as few clashes as trying everything, none where a graph is bipartite."""

from __future__ import annotations

from itertools import product

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from effort import tries
from seamleaf.planning.pressing import colouring
from seamleaf.planning.pressing.colouring import (
    BACK,
    FORTH,
    OPEN,
    SPUN,
    Colouring,
    Demand,
    Fold,
    Link,
    Question,
    colour,
)

Demands = list[Demand[str]]

SIDES: tuple[Fold, Fold] = (BACK, FORTH)


@st.composite
def signed_graphs(draw: st.DrawFn, most: int = 9) -> tuple[list[str], Demands]:
    """Draw up to so many keys and weighted demands between them, now and then of a key on itself."""
    keys = [f"k{number}" for number in range(draw(st.integers(1, most)))]
    key = st.sampled_from(keys)
    edge = st.builds(Demand, one=key, other=key, sign=st.sampled_from([1, -1]), weight=st.integers(1, 4))
    return keys, draw(st.lists(edge, max_size=2 * most))


def question(keys: list[str], demands: Demands, fixed: dict[str, Fold] | None = None) -> Question[str]:
    return Question(keys=keys, demands=demands, fixed=fixed or {})


def clashes(demands: Demands, fold: dict[str, Fold]) -> int:
    """Count what clashes: direction(one) is not sign times direction(other)."""
    return sum(d.weight for d in demands if fold[d.one][0] * fold[d.other][0] == -d.sign)


def fewest(keys: list[str], demands: Demands, fixed: dict[str, Fold]) -> int:
    """Try every direction of every key that is not fixed."""
    free = [key for key in keys if key not in fixed]
    return min(
        clashes(demands, {**fixed, **dict(zip(free, folds, strict=True))}) for folds in product(SIDES, repeat=len(free))
    )


def check(found: Colouring[str], keys: list[str], demands: Demands, least: int) -> None:
    assert set(found.fold) == set(keys)
    assert clashes(demands, found.fold) == found.clashes == least
    assert found.proven


@given(signed_graphs())
@settings(max_examples=tries(100), deadline=None)
def test_no_directions_have_fewer_clashes_than_those_found(graph: tuple[list[str], Demands]) -> None:
    keys, demands = graph
    check(colour(question(keys, demands)), keys, demands, fewest(keys, demands, {}))


@given(signed_graphs(most=12))
@settings(max_examples=tries(10), deadline=None)
def test_nor_with_up_to_twelve_seams(graph: tuple[list[str], Demands]) -> None:
    keys, demands = graph
    check(colour(question(keys, demands)), keys, demands, fewest(keys, demands, {}))


@given(signed_graphs(), st.data())
@settings(max_examples=tries(50), deadline=None)
def test_fixed_directions_are_kept_and_the_rest_does_its_best(
    graph: tuple[list[str], Demands], data: st.DataObject
) -> None:
    keys, demands = graph
    fixed = data.draw(st.dictionaries(st.sampled_from(keys), st.sampled_from(SIDES)))
    found = colour(question(keys, demands, fixed))
    assert all(found.fold[key] == fold for key, fold in fixed.items())
    check(found, keys, demands, fewest(keys, demands, fixed))


@given(signed_graphs())
@settings(max_examples=tries(100), deadline=None)
def test_everything_nests_exactly_where_the_graph_of_differing_seams_is_bipartite(
    graph: tuple[list[str], Demands],
) -> None:
    """Against networkx: seams that must be equal are joined through a node of their own, which differs from both."""
    keys, demands = graph
    differing = nx.Graph()
    differing.add_nodes_from(keys)
    for number, demand in enumerate(demands):
        if demand.sign < 0:
            differing.add_edge(demand.one, demand.other)
        elif demand.one != demand.other:
            nx.add_path(differing, [demand.one, number, demand.other])
    assert (colour(question(keys, demands)).clashes == 0) == nx.is_bipartite(differing)


def test_three_seams_that_must_all_differ_cannot_and_the_cheapest_point_is_given_up() -> None:
    """An odd cycle: three pieces that meet pairwise round a point have no pressing that nests."""
    demands = [
        Demand(one="a", other="b", sign=-1, weight=5),
        Demand(one="b", other="c", sign=-1, weight=2),
        Demand(one="c", other="a", sign=-1, weight=3),
    ]
    found = colour(question(["a", "b", "c"], demands))
    check(found, ["a", "b", "c"], demands, 2)


def test_one_seam_of_an_odd_cycle_pressed_open_leaves_no_clash() -> None:
    demands = [Demand(one=a, other=b, sign=-1) for a, b in ("ab", "bc", "ca")]
    asked = Question(keys="abc", demands=demands, fixed={}, may_open=frozenset("abc"))
    found = colour(asked)
    assert (found.clashes, found.count((OPEN,))) == (0, 1)


@given(signed_graphs(most=7), st.data())
@settings(max_examples=tries(60), deadline=None)
def test_wishes_are_granted_in_their_order_as_far_as_they_can_be_and_never_cost_a_clash(
    graph: tuple[list[str], Demands], data: st.DataObject
) -> None:
    """Two lists of wishes and pairs that had better be alike, against trying everything."""
    keys, demands = graph
    key = st.sampled_from(keys)
    one_list = st.dictionaries(key, st.sampled_from([1, -1]))
    wishes = data.draw(st.tuples(one_list, one_list))
    alike = data.draw(st.lists(st.tuples(key, key).filter(lambda pair: pair[0] != pair[1]), max_size=4, unique=True))
    found = colour(Question(keys=keys, demands=demands, fixed={}, wishes=wishes, alike=alike))

    def cost(fold: dict[str, Fold]) -> tuple[int, ...]:
        against = (sum(fold[key][0] != wish for key, wish in each.items()) for each in wishes)
        return (clashes(demands, fold), *against, sum(fold[a] != fold[b] for a, b in alike))

    every = (dict(zip(keys, folds, strict=True)) for folds in product(SIDES, repeat=len(keys)))
    assert cost(found.fold) == min(map(cost, every))
    assert found.proven


@st.composite
def questions_of_all_kinds(draw: st.DrawFn) -> Question[int]:
    """Draw a few keys that may be open, spun or fixed, with everything that is asked of them."""
    keys = range(draw(st.integers(2, 5)))
    key, end, way = st.sampled_from(keys), st.sampled_from([0, 1]), st.sampled_from([1, -1])
    demand = st.builds(Demand, one=key, other=key, sign=way, weight=st.integers(1, 3), one_end=end, other_end=end)
    link = st.builds(Link, spun=key, crossed=key, crossed_end=end, sign=way).filter(lambda it: it.spun != it.crossed)
    fixed = draw(st.dictionaries(key, st.sampled_from(SIDES), max_size=len(keys) - 1))
    return Question(
        keys=keys,
        demands=draw(st.lists(demand, max_size=8)),
        fixed=fixed,
        wishes=draw(st.tuples(*[st.dictionaries(key, way)] * 2)),
        links=draw(st.lists(link, max_size=4)),
        may_open=frozenset(draw(st.sets(key))) - set(fixed),
        alike=draw(st.lists(st.tuples(key, key).filter(lambda it: it[0] < it[1]), max_size=3, unique=True)),
    )


def costs(asked: Question[int], fold: dict[int, Fold]) -> tuple[int, ...] | None:
    """Count every cost of a plan, what weighs most first; nothing where a spin cannot be made."""
    if any(link.breaks(fold[link.spun], fold[link.crossed]) for link in asked.links):
        return None
    free = [key for key in asked.keys if key not in asked.fixed]
    plain = [key for key in free if fold[key] in SIDES]
    return (
        sum(demand.weight for demand in asked.demands if demand.clashes(fold[demand.one], fold[demand.other])),
        sum(fold[key] == OPEN for key in free),
        sum(fold[key] in SPUN for key in free),
        *(sum(wish.get(key, fold[key][0]) != fold[key][0] for key in plain) for wish in asked.wishes),
        sum(fold[one] != fold[other] for one, other in asked.alike),
    )


@pytest.mark.parametrize(
    ("nodes", "tables"),
    [(colouring.WORK_LIMIT, 0), (0, colouring.TABLES_LIMIT), (0, 0)],
    ids=["by search", "by tables", "by the program"],
)
@given(questions_of_all_kinds())
@settings(max_examples=tries(60), deadline=None)
def test_open_and_spun_seams_cost_what_they_must_and_nothing_costs_less(
    nodes: int, tables: int, asked: Question[int]
) -> None:
    """Against trying everything; the others are asked where the search ends at its first plan."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(colouring, "WORK_LIMIT", nodes)
        patch.setattr(colouring, "TABLES_LIMIT", tables)
        found = colour(asked)
    links = {link.spun for link in asked.links}
    choices = [
        [asked.fixed[key]]
        if key in asked.fixed
        else [*SIDES, *(SPUN if key in links else ()), *((OPEN,) if key in asked.may_open else ())]
        for key in asked.keys
    ]
    every = [costs(asked, dict(zip(asked.keys, folds, strict=True))) for folds in product(*choices)]
    least = min(cost for cost in every if cost is not None)
    assert costs(asked, found.fold) == least
    assert found.clashes == least[0]
    assert found.proven


def knot(seams: int) -> Question[int]:
    """Return seams that each nest only when spun, and one last seam whose ends ask all spins for different ways."""
    links = [
        Link(spun=key, crossed=seams, crossed_end=end, sign=(1, -1)[key % 2 * end])
        for key in range(seams)
        for end in (0, 1)
    ]
    demands = [Demand(one=key, other=key, sign=-1, one_end=0, other_end=1) for key in range(seams)]
    alike = [(0, key) for key in range(1, seams + 1)]
    return Question(keys=range(seams + 1), demands=demands, fixed={}, links=links, alike=alike)


def test_a_knot_of_spins_that_exclude_each_other_ends_with_some_that_are_not_spun() -> None:
    """There are 4^12 ways into it without a way out; half of the seams can be spun, all in one direction."""
    found = colour(knot(12))
    assert (found.clashes, found.count(SPUN)) == (6, 6)
    assert found.proven


def test_where_nothing_finds_a_plan_no_seam_is_spun(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(colouring, "solve", lambda _: None)
    monkeypatch.setattr(colouring, "WORK_LIMIT", 50)
    monkeypatch.setattr(colouring, "TABLES_LIMIT", 0)
    found = colour(knot(12))
    assert (found.clashes, found.count(SPUN), found.proven) == (12, 0, False)
    assert set(found.fold.values()) <= set(SIDES)
