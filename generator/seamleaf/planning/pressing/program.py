"""A component of the colouring as an integer program, for those that a search cannot finish.

HiGHS is asked for one cost after the other (clashes, open seams, spun seams, wishes), and each optimum is kept while
the next is sought, so that weights of very different size never meet in one sum. Its answer is only a plan: the
caller counts what it costs in whole numbers. One thread and a limit on nodes, not on time, give the same plan on
every run; large programs get fewer nodes, since each takes longer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from seamleaf.planning.solver import new_solver

Fold = tuple[int, int]

NODE_WORK: Final = 20_000
"""Nodes of all costs together, times the folds to choose from: what it takes is a second or two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two variables, with the pairs of folds that go against each other."""

    one: int
    other: int
    against: frozenset[tuple[Fold, Fold]]
    cost: int
    """Which cost it adds to, by index; -1 forbids the pair."""
    weight: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """Variables by index, each with the folds that it may take."""

    folds: Sequence[Sequence[Fold]]
    own: Sequence[Mapping[tuple[int, Fold], int]]
    """For each cost, in their order, what a fold of a variable adds on its own."""
    pairs: Sequence[Pair]


def solve(program: Program) -> tuple[list[Fold], bool] | None:
    """Return a fold for each variable and whether every optimum was proven; ``None`` if HiGHS finds no plan."""
    highs = new_solver(mip_rel_gap=0.0, mip_abs_gap=0.5)  # costs are whole numbers
    chosen = [{fold: highs.addBinary() for fold in folds} for folds in program.folds]
    for each in chosen:
        highs.addConstr(sum(each.values()) == 1)
    terms: list[list[Any]] = [
        [weight * chosen[index][fold] for (index, fold), weight in own.items() if fold in chosen[index]]
        for own in program.own
    ]
    for pair in program.pairs:
        both = [
            chosen[pair.one][one] + chosen[pair.other][other]
            for one, other in sorted(pair.against)
            if one in chosen[pair.one] and other in chosen[pair.other]
        ]
        if pair.cost < 0:
            for total in both:
                highs.addConstr(total <= 1)
        elif both:
            paid = highs.addVariable(0, 1)
            for total in both:
                highs.addConstr(total - paid <= 1)
            terms[pair.cost].append(pair.weight * paid)
    proven = True
    plan: list[Fold] | None = None
    nothing = 0.0 * chosen[0][program.folds[0][0]]  # where nothing costs anything, any plan that can be made is best
    nodes = NODE_WORK // sum(map(len, chosen))
    for cost in [cost for cost in terms if cost] or [[nothing]]:
        highs.setOptionValue("mip_max_nodes", max(nodes, 1))
        highs.minimize(sum(cost))
        nodes -= highs.getInfo().mip_node_count
        optimal = highs.getModelStatus().name == "kOptimal"
        values = highs.getSolution().col_value
        if optimal or values:
            plan = [max(each, key=lambda fold: (values[each[fold].index], fold)) for each in chosen]
        proven = proven and optimal
        if not optimal:
            break
        highs.addConstr(sum(cost) <= round(highs.getObjectiveValue()))
    return None if plan is None else (plan, proven)
