"""Plans among handfuls of fillings, against an integer program that knows nothing of residues."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np
from ortools.sat.python import cp_model

from seamleaf.lengths import INCHES, Length
from seamleaf.planning.cutting import frugal, plan_yardage
from seamleaf.planning.cutting.fillings import Near
from seamleaf.planning.cutting.firstfit import LAYS, Plan, plan_by_filling, plan_first_fit, total_height
from seamleaf.planning.cutting.frugal import _Hunt, shortest_strips
from seamleaf.planning.cutting.kinds import Kind
from seamleaf.planning.cutting.master import FINE, Branch, Knapsack, Master, Prices
from seamleaf.planning.cutting.pricing import Filling, Model
from seamleaf.planning.cutting.residues import Effort, search
from seamleaf.planning.cutting.search import by_strips
from seamleaf.planning.demand import Demand

if TYPE_CHECKING:
    import pytest

EFFORT = Effort(fillings=3_000, listed=20_000, pairs=1_000_000, work=5_000_000)


def small_models() -> Iterator[Model]:
    """Yield demands of three to five sizes, made up."""
    for number in range(12):
        chance = random.Random(number)
        kinds = [
            Kind(
                index=at,
                w=chance.randint(9, 25),
                h=chance.randint(6, 20),
                turns=chance.random() < 0.4,
                count=chance.randint(4, 30),
                labels=(),
            )
            for at in range(chance.randint(3, 5))
        ]
        yield Model(kinds, 60)


def first_plans(model: Model) -> list[Plan]:
    """Return plans of first fit, to begin a search with."""
    return [make(model.kinds, model.usable, lay) for lay in LAYS for make in (plan_first_fit, plan_by_filling)]


def parts_of(model: Model) -> Iterator[tuple[Branch, Prices]]:
    """Yield all plans, and those with more and with fewer strips of a height, each with the prices of its program."""
    one_each = [model.filling(model.heights.index(lay.h), [(lay,)]) for _, lay in model.lays]
    source = Knapsack(model, one_each)
    master = Master(model, source, range(len(source.fillings)))
    levels = len(model.heights)
    root = Branch(np.zeros(levels, dtype=np.int64), np.full(levels, int(model.wanted.sum()), dtype=np.int64))
    relaxed = master.solve(root, 0, 1 << 30)
    assert relaxed is not None
    yield root, relaxed.prices
    for branch in by_strips(root, relaxed):
        below = master.solve(branch, 0, 1 << 30)
        if below is not None:
            yield branch, below.prices


def has_plan(model: Model, branch: Branch, fillings: list[Filling], longest: int) -> bool:
    """Ask CP-SAT."""
    program = cp_model.CpModel()
    times = [program.new_int_var(0, int(model.wanted.sum()), "") for _ in fillings]
    for kind, wanted in enumerate(model.wanted.tolist()):
        program.add(sum(one.counts[kind] * n for one, n in zip(fillings, times, strict=True)) >= wanted)
    for level in range(len(model.heights)):
        strips = sum(n for one, n in zip(fillings, times, strict=True) if one.level >= level)
        program.add_linear_constraint(strips, int(branch.least[level]), int(branch.most[level]))
    program.add(sum(model.heights[one.level] * n for one, n in zip(fillings, times, strict=True)) <= longest)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    status = solver.solve(program)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return status != cp_model.INFEASIBLE


def test_handfuls_find_a_plan_or_rule_it_out_as_cp_sat_does() -> None:
    found = ruled_out = 0
    for model in small_models():
        for branch, prices in parts_of(model):
            shortest = -(-prices.bound // FINE)
            for longest in range(shortest, shortest + 4):
                gap = longest * FINE - prices.bound
                near, some = Near(model, prices.worth, prices.costs, FINE).up_to(gap, 3_000)
                assert some == gap
                answer = search(model, branch, prices, near, longest, EFFORT)
                if answer.cut is not None:  # counted again by the search, but not for the numbers of strips
                    given = sum(n * np.array(one.counts) for one, n in answer.cut)
                    assert (given >= model.wanted).all()
                    assert sum(model.heights[one.level] * n for one, n in answer.cut) <= longest
                    found += 1
                elif answer.complete:
                    assert not has_plan(model, branch, [one for _, one in near], longest), (longest, told(model))
                    ruled_out += 1
    assert found >= 20
    assert ruled_out >= 20


def test_handfuls_that_are_of_use_wholly_are_not_searched_in_part() -> None:
    """Where all of them can be listed the answer is the same; else there is none, for less work."""
    alike = spared = 0
    for model, (branch, prices) in ((each, part) for each in small_models() for part in parts_of(each)):
        longest = -(-prices.bound // FINE) + 2
        near, _ = Near(model, prices.worth, prices.costs, FINE).up_to(longest * FINE - prices.bound, 3_000)
        for listed in (4, 20_000):
            effort = replace(EFFORT, listed=listed)
            answer = search(model, branch, prices, near, longest, effort)
            wholly = search(model, branch, prices, near, longest, replace(effort, wholly=True))
            if wholly.complete:
                assert wholly == answer
                alike += 1
            else:
                assert wholly.cut is None
                assert wholly.work <= answer.work
                spared += wholly.work < answer.work
    assert alike >= 20
    assert spared >= 5


def test_lengths_ruled_out_one_by_one_end_at_the_shortest(monkeypatch: pytest.MonkeyPatch) -> None:
    """From the bound of the linear program on, none of the lengths in between is left out, however many they are."""
    monkeypatch.setattr(frugal, "_FEW_OPEN", 1_000_000)
    gained = 0
    for model in small_models():
        hunt = _Hunt(model, first_plans(model))
        hunt.by_linear_program()
        start = hunt.bound
        hunt.by_ruling_out()
        assert hunt.bound == hunt.length, told(model)
        gained += hunt.bound > start
        levels = len(model.heights)
        root = Branch(np.zeros(levels, dtype=np.int64), np.full(levels, int(model.wanted.sum()), dtype=np.int64))
        _, prices = next(parts_of(model))
        gap = (hunt.length - 1) * FINE - prices.bound
        near, some = Near(model, prices.worth, prices.costs, FINE).up_to(gap, 3_000)
        assert gap < 0 or some == gap
        assert not has_plan(model, root, [one for _, one in near], hunt.length - 1), told(model)
    assert gained >= 3


def test_what_is_bought_by_the_step_is_no_step_more_than_the_shortest_takes() -> None:
    """A search that may end where nothing less can be bought ends there, and no step later."""
    ended = 0
    for model in small_models():
        shortest, bound, _ = shortest_strips(model.kinds, model.usable, first_plans(model))
        assert total_height(shortest) == bound, told(model)
        for step in (3, 10, 40):

            def alike(one: int, other: int, step: int = step) -> bool:
                return -(-one // step) == -(-other // step)

            enough, least, _ = shortest_strips(
                model.kinds, model.usable, first_plans(model), enough=alike, thorough=False
            )
            assert least <= bound <= total_height(enough)
            assert alike(bound, total_height(enough)), told(model)
            ended += total_height(enough) > bound
    assert ended >= 5  # most of what may be longer is


def told(model: Model) -> list[tuple[int, int, bool, int]]:
    """Return a demand, for the message of a failure."""
    return [(kind.w, kind.h, kind.turns, kind.count) for kind in model.kinds]


def test_a_length_above_the_bound_of_the_linear_program_is_proven() -> None:
    """Of eight made-up sizes: the program allows 646 in, and four lengths from there on are ruled out."""
    sizes = [
        ("35/4", "11", 4, True), ("41/4", "45/4", 67, False), ("13", "15/2", 25, True), ("17/2", "13", 41, True),
        ("4", "21/4", 37, True), ("7/2", "19/2", 18, False), ("43/4", "5/2", 66, False), ("15/2", "14", 63, False),
    ]  # fmt: skip
    demands = [
        Demand(label=f"A{at}", w=Length(Fraction(w)), h=Length(Fraction(h)), count=count, may_turn=turns)
        for at, (w, h, count, turns) in enumerate(sizes)
    ]
    plan = plan_yardage(demands, Length(40), INCHES)
    assert plan.need == plan.bound == Length(647)
