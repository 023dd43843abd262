"""The colouring on graphs too large for trying everything: against OR-Tools' CP-SAT, with opens and the program too."""

from __future__ import annotations

import random

import pytest
from ortools.sat.python import cp_model

from seamleaf.planning.pressing import colouring
from seamleaf.planning.pressing.colouring import BACK, FORTH, OPEN, Colouring, Demand, Fold, Question, colour


def ring_of_blocks(seed: int, keys: int) -> Question[int]:
    """Draw a sparse signed graph as seams make it: most demands between near keys, some of a key on itself."""
    draw = random.Random(seed)
    demands = []
    for _ in range(keys * 3 // 2):
        one = draw.randrange(keys)
        other = (one + draw.choice((0, 1, 1, 2, 3, 7))) % keys
        demands.append(Demand(one=one, other=other, sign=draw.choice((-1, -1, 1)), weight=draw.randint(1, 6)))
    fixed: dict[int, Fold] = {key: draw.choice((BACK, FORTH)) for key in range(0, keys, 11)}
    free = [key for key in range(keys) if key not in fixed]
    return Question(keys=range(keys), demands=demands, fixed=fixed, may_open=frozenset(draw.sample(free, keys // 3)))


def least(question: Question[int]) -> tuple[int, int]:
    """Return the fewest clashes and, with those, the fewest open seams, as CP-SAT finds and proves them."""
    model = cp_model.CpModel()
    forth = {key: model.new_bool_var(f"forth{key}") for key in question.keys}
    is_open = {key: model.new_bool_var(f"open{key}") for key in question.keys}
    for key in question.keys:
        if key in question.fixed:
            model.add(forth[key] == (question.fixed[key] == FORTH))
        if key not in question.may_open or key in question.fixed:
            model.add(is_open[key] == 0)
    clashes = []
    for demand in question.demands:
        clash = model.new_bool_var("")
        for one in (False, True):
            # Going opposite ways clashes where they should be equal, and going one way where they should be opposite.
            other = one == (demand.sign < 0)
            here = forth[demand.one] if one else ~forth[demand.one]
            there = forth[demand.other] if other else ~forth[demand.other]
            model.add_bool_or(~here, ~there, is_open[demand.one], is_open[demand.other], clash)
        clashes.append(demand.weight * clash)
    model.minimize(sum(clashes) * (len(is_open) + 1) + sum(is_open.values()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return divmod(round(solver.objective_value), len(is_open) + 1)


def check(question: Question[int], found: Colouring[int]) -> None:
    cost = sum(each.weight for each in question.demands if each.clashes(found.fold[each.one], found.fold[each.other]))
    assert found.proven
    assert (cost, found.count((OPEN,))) == (found.clashes, found.count((OPEN,))) == least(question)


@pytest.mark.parametrize("seed", range(20))
def test_sixty_seams_with_some_that_may_be_open_are_folded_as_well_as_cp_sat_folds_them(seed: int) -> None:
    question = ring_of_blocks(seed, 60)
    check(question, colour(question))


@pytest.mark.parametrize(("tables", "keys"), [(colouring.TABLES_LIMIT, 60), (0, 30)], ids=["tables", "the program"])
@pytest.mark.parametrize("seed", range(12))
def test_what_the_search_does_not_finish_is_solved_as_well(
    seed: int, tables: int, keys: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(colouring, "WORK_LIMIT", 1)
    monkeypatch.setattr(colouring, "TABLES_LIMIT", tables)
    question = ring_of_blocks(seed, keys)
    check(question, colour(question))
