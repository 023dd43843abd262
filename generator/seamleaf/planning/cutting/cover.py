"""The fewest pieces that serve all roles, when it is known what one piece can serve: an integer program.

HiGHS finds the plan and prices for the roles in floating point and within counted work; both are checked in whole
numbers. Prices such that no piece serves more than 1 in all prove that no plan has fewer pieces than all roles
together cost (the dual of the linear program).
"""

from __future__ import annotations

import heapq
import math
import operator
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from typing import Any, Final

import numpy as np

from seamleaf.planning import solver

Choice = tuple[int, ...]
"""How many copies of each role come out of one piece."""

_NODES: Final = 200
_ALMOST: Final = 0.5
_FINE: Final = 10_000
"""Prices are rounded to fractions of at most this denominator; rounding only weakens what they prove."""
_MOST_TO_TELL_APART: Final = 60
"""Of more choices than this, plans of as many pieces are not told apart by how many kinds of pieces they have."""


def fewest_pieces(
    choices: Sequence[Choice], wanted: Sequence[int], *, few_kinds: bool = True
) -> tuple[list[tuple[Choice, int]], int]:
    """Choose pieces that serve every copy of every role.

    Args:
        choices: what one piece can serve: each is allowed, and so is any with less of it. Every role is in one.
        wanted: copies of each role.
        few_kinds: whether to look for few kinds of pieces where that costs no piece.

    Returns:
        The pieces with their numbers, and a number that no plan made of the choices falls below.

    """
    best = _greedy(choices, wanted)
    bound = max(-(-want // max(choice[at] for choice in choices)) for at, want in enumerate(wanted))
    if bound < _number(best):
        bound = max(bound, _bound(choices, wanted))
        if bound < _number(best):
            best = min(best, _program(choices, wanted) or best, key=_effort)
        if few_kinds and len(choices) <= _MOST_TO_TELL_APART:
            best = min(best, _program(choices, wanted, _number(best)) or best, key=_effort)
    return best, bound


def _number(pieces: Sequence[tuple[Choice, int]]) -> int:
    return sum(times for _, times in pieces)


def _effort(pieces: Sequence[tuple[Choice, int]]) -> tuple[int, int]:
    return _number(pieces), len(pieces)


def _greedy(choices: Sequence[Choice], wanted: Sequence[int]) -> list[tuple[Choice, int]]:
    """Take the piece that serves most of what is left, as often as all of it is needed, until nothing is.

    What a piece serves never grows as more is served, so only those that come first in a heap are looked at again.
    """
    all_copies = math.lcm(*wanted)
    worth = [all_copies // copies for copies in wanted]
    left = list(wanted)
    pieces: Counter[Choice] = Counter()

    def rank(choice: Choice) -> tuple[int, tuple[int, ...]]:
        """Return the part of each role that a piece serves, added up, and the roles: less than nothing, most first."""
        return -sum(map(operator.mul, choice, worth)), tuple(map(operator.neg, choice))

    heap = [rank(tuple(map(min, choice, left))) for choice in choices]
    heapq.heapify(heap)
    while any(left):
        best = tuple(min(-n, rest) for n, rest in zip(heap[0][1], left, strict=True))
        now = rank(best)
        if now != heap[0]:
            heapq.heapreplace(heap, now)
            continue
        times = min(rest // n for n, rest in zip(best, left, strict=True) if n)
        pieces[best] += times
        left = [rest - n * times for n, rest in zip(best, left, strict=True)]
    return sorted(pieces.items(), reverse=True)


def _bound(choices: Sequence[Choice], wanted: Sequence[int]) -> int:
    """Return what the prices of the linear program prove."""
    search = solver.new_solver(solver="simplex", presolve="off")
    search.passModel(_model(choices, wanted, whole=False))
    search.run()
    duals = [Fraction(float(dual)).limit_denominator(_FINE) for dual in search.getSolution().row_dual]
    parts = math.lcm(*(dual.denominator for dual in duals))
    prices = [max(int(dual * parts), 0) for dual in duals]
    dearest = max(sum(map(operator.mul, choice, prices)) for choice in choices)
    return -(-sum(map(operator.mul, wanted, prices)) // dearest) if dearest else 0


def _program(choices: Sequence[Choice], wanted: Sequence[int], number: int | None = None) -> list[tuple[Choice, int]]:
    """Return the fewest pieces that the integer program finds, or with a ``number`` the fewest kinds of so many.

    There are none if what it finds does not serve all.
    """
    search = solver.new_solver(mip_max_nodes=_NODES, mip_rel_gap=0.0, mip_abs_gap=_ALMOST)
    search.passModel(_model(choices, wanted, number))
    search.run()
    values = [round(float(value)) for value in list(search.getSolution().col_value)[: len(choices)]]
    left = list(wanted)
    pieces: Counter[Choice] = Counter()
    for choice, times in zip(choices, values, strict=False):
        for _ in range(times):  # what nobody needs any more is not cut
            served = tuple(min(n, rest) for n, rest in zip(choice, left, strict=True))
            if any(served):
                pieces[served] += 1
                left = [rest - n for n, rest in zip(served, left, strict=True)]
    return [] if any(left) else sorted(pieces.items(), reverse=True)


def _model(choices: Sequence[Choice], wanted: Sequence[int], number: int | None = None, *, whole: bool = True) -> Any:
    """Return the program: the fewest pieces, or with a ``number`` the fewest kinds of at most so many pieces."""
    from highspy import HighsLp, HighsVarType, MatrixFormat, kHighsInf  # here because it takes a while to load

    n = len(choices)
    most = [max(-(-want // k) for k, want in zip(choice, wanted, strict=True) if k) for choice in choices]
    table = np.array(choices, dtype=np.float64).T
    costs, upper = [1.0] * n, [float(times) for times in most] if whole else [kHighsInf] * n
    least, greatest = [float(want) for want in wanted], [kHighsInf] * len(wanted)
    if number is not None:  # beside the pieces whether each kind is there at all, x <= most * y; below, all together
        there = np.hstack([np.eye(n), -np.diag(upper)])
        together = np.array([[1.0] * n + [0.0] * n])
        table = np.vstack([np.hstack([table, np.zeros((len(wanted), n))]), there, together])
        costs, upper = [0.0] * n + [1.0] * n, [*upper, *[1.0] * n]
        least, greatest = [*least, *[-kHighsInf] * (n + 1)], [*greatest, *[0.0] * n, float(number)]
    program = HighsLp()
    program.num_row_, program.num_col_ = table.shape
    program.col_cost_, program.col_upper_ = np.array(costs), np.array(upper)
    program.col_lower_ = np.zeros(len(costs))
    program.row_lower_, program.row_upper_ = np.array(least), np.array(greatest)
    row, column = np.nonzero(table)
    program.a_matrix_.format_ = MatrixFormat.kRowwise
    program.a_matrix_.start_ = np.searchsorted(row, np.arange(table.shape[0] + 1)).astype(np.int32)
    program.a_matrix_.index_ = column.astype(np.int32)
    program.a_matrix_.value_ = table[row, column]
    if whole:
        program.integrality_ = [HighsVarType.kInteger] * table.shape[1]
    return program
