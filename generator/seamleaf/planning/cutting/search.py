"""Branch and bound over plans: first how many strips of each height, then which fillings.

The number of strips settles the length, so most of the proof is in the first part; a plan with those numbers is
then found by diving, or ruled out. Branches are taken up in the order of their bounds, and the search stops after
an amount of counted work, never after a time: the same question has the same answer on every machine.
"""

from __future__ import annotations

import heapq
from dataclasses import dataclass
from typing import Final

import numpy as np

from seamleaf.planning.cutting.dive import Cut, Diver
from seamleaf.planning.cutting.master import FINE, Branch, Master, Pool, Relaxed, SolverError
from seamleaf.planning.cutting.pricing import Ints, Model
from seamleaf.planning.cutting.sums import Totals

_WHOLE: Final = 1e-5


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long to look, by what is counted: the same question has the same answer on every machine."""

    work: int
    """Linear programs to solve, each counted as often as its list has fillings."""
    settled: int | None = None
    """How many settled numbers of strips to try; ``None``: no limit of its own."""
    dives: int = 4
    turns: int = 8
    choices: int = 0
    """Branches on fillings, when the strips are settled and no dive has found a plan."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a search has found: a plan with its length, and a length below which there is none."""

    cut: Cut | None
    length: int
    bound: int


class Search:
    """Searches over one pool; its linear program stays warm from one search to the next."""

    def __init__(self, model: Model, totals: Totals, pool: Pool, start: list[int]) -> None:
        self._model, self._totals, self._pool = model, totals, pool
        self._master = Master(model, pool, start)
        self._diver: Diver | None = None

    def run(self, root: Branch, lowest: int, highest: int, limits: Limits) -> Outcome:
        """Look for the shortest plan of a branch, made of the pool, with a length from ``lowest`` to ``highest``.

        Returns:
            The plan, if one was found. ``bound`` holds for plans of the pool of length ``lowest`` or more: it is
            above ``highest`` when it is proven that there is none in between.

        """
        run = _Run(self._model, self._totals, self._pool, limits, highest)
        run.push(0, root)
        last = self.solved + limits.work // max(len(self._pool.fillings), 1)
        while self.solved < last and (taken := run.pop()) is not None:
            bound, branch = taken
            try:
                relaxed = self._master.solve(branch, lowest, run.highest)
            except SolverError:
                run.open.append(bound)
                continue
            if relaxed is None:
                continue
            bound = max(bound, self._totals.least_from(-(-relaxed.prices.bound // FINE)))
            if bound > run.highest:
                continue
            if run.heap and bound > run.heap[0][0]:
                run.push(bound, branch)  # another branch is more promising now
            elif relaxed.short:
                run.open.append(bound)
            else:
                self._branch(run, bound, branch, relaxed)
        return run.outcome()

    @property
    def work(self) -> int:
        """What the searches over the pool have taken so far, counted as :class:`Limits` does."""
        return self.solved * len(self._pool.fillings)

    @property
    def solved(self) -> int:
        """Linear programs solved: the measure of work."""
        return self._master.solved + (0 if self._diver is None else self._diver.solved)

    def _branch(self, run: _Run, bound: int, branch: Branch, relaxed: Relaxed) -> None:
        parted = by_strips(branch, relaxed)
        if parted:
            run.push_all(bound, parted)
            return
        strips = np.rint(relaxed.strips).astype(np.int64)
        if self._tries(run, strips, relaxed) and run.length == bound:
            return
        loose = np.nonzero(branch.least < branch.most)[0]
        if len(loose):
            run.push_all(bound, _around(branch, strips, int(loose[-1])))
            return
        fractions = {at: value % 1 for at, value in relaxed.values.items() if _WHOLE < value % 1 < 1 - _WHOLE}
        if run.choices >= run.limits.choices or not fractions:
            run.open.append(bound)
            return
        run.choices += 1
        chosen = max(fractions, key=lambda at: (fractions[at], -at))
        run.push_all(bound, _by_filling(branch, chosen, int(relaxed.values[chosen])))

    def _tries(self, run: _Run, strips: Ints, relaxed: Relaxed) -> bool:
        """Look for a plan with settled numbers of strips; tell whether a shorter plan than before was found."""
        if all(abs(value - round(value)) < _WHOLE for value in relaxed.values.values()):
            return run.take([(self._pool[at], round(value)) for at, value in relaxed.values.items()])
        key = tuple(strips.tolist())
        if key in run.tried or not run.limits.dives:
            return False
        run.tried.add(key)
        if self._diver is None:
            self._diver = Diver(self._model, self._pool)
        cut = self._diver.dive(strips, run.limits.dives, run.limits.turns)
        return cut is not None and run.take(cut)


class _Run:
    """The state of one search."""

    def __init__(self, model: Model, totals: Totals, pool: Pool, limits: Limits, highest: int) -> None:
        self._model, self._totals, self._pool = model, totals, pool
        self.limits = limits
        self.highest = highest
        self._asked = highest
        self.heap: list[tuple[int, int, Branch]] = []
        self.open: list[int] = []
        """Bounds of branches that were given up."""
        self.tried: set[tuple[int, ...]] = set()
        self.choices = 0
        self.length = highest + 1
        self._cut: Cut | None = None
        self._pushed = 0

    def push(self, bound: int, branch: Branch) -> None:
        self._pushed += 1
        heapq.heappush(self.heap, (bound, -self._pushed, branch))  # of equal bounds the youngest: dig before widening

    def push_all(self, bound: int, branches: list[Branch]) -> None:
        for branch in branches:
            self.push(bound, branch)

    def pop(self) -> tuple[int, Branch] | None:
        if not self.heap or self.heap[0][0] > self.highest:
            return None
        if self.limits.settled is not None and len(self.tried) >= self.limits.settled:
            return None
        bound, _, branch = heapq.heappop(self.heap)
        return bound, branch

    def take(self, cut: Cut) -> bool:
        """Keep a plan if it holds what is wanted and is shorter than the last; counted in whole numbers."""
        given = np.zeros(len(self._model.kinds), dtype=np.int64)
        for filling, times in cut:
            given += times * np.array(filling.counts, dtype=np.int64)
        length = sum(self._model.heights[filling.level] * times for filling, times in cut)
        if (given < self._model.wanted).any() or length > self.highest:
            return False
        self._cut, self.length = cut, length
        self.highest = self._totals.greatest_below(length)
        return True

    def outcome(self) -> Outcome:
        left = [bound for bound, _, _ in self.heap] + self.open
        bound = min([one for one in left if one <= self.highest], default=self.highest + 1)
        return Outcome(self._cut, self.length, self._totals.least_from(bound) if self._cut else bound)


def by_strips(branch: Branch, relaxed: Relaxed) -> list[Branch]:
    """Part a branch at the highest strips whose number is not whole: at most so many, or at least one more."""
    apart = np.abs(relaxed.strips - np.rint(relaxed.strips))
    fractional = np.nonzero(apart > _WHOLE)[0]
    if not len(fractional):
        return []
    level = int(fractional[-1])
    number = int(np.floor(relaxed.strips[level]))
    return [_at_most(branch, level, number), _at_least(branch, level, number + 1)]


def _at_most(branch: Branch, level: int, number: int) -> Branch:
    most = branch.most.copy()
    most[level:] = np.minimum(most[level:], number)  # strips are counted from a height upwards
    return Branch(branch.least, most, branch.times)


def _at_least(branch: Branch, level: int, number: int) -> Branch:
    least = branch.least.copy()
    least[: level + 1] = np.maximum(least[: level + 1], number)
    return Branch(least, branch.most, branch.times)


def _around(branch: Branch, strips: Ints, level: int) -> list[Branch]:
    """Part a branch at a whole number of strips: fewer, more, and just as many; what cannot be is left out."""
    number = int(strips[level])
    parts = [_at_least(_at_most(branch, level, number), level, number)]
    if number < branch.most[level]:
        parts.insert(0, _at_least(branch, level, number + 1))
    if number > branch.least[level]:
        parts.insert(0, _at_most(branch, level, number - 1))
    return parts


def _by_filling(branch: Branch, at: int, number: int) -> list[Branch]:
    least, most = branch.times.get(at, (0, None))
    fewer = Branch(branch.least, branch.most, {**branch.times, at: (least, number)})
    more = Branch(branch.least, branch.most, {**branch.times, at: (number + 1, most)})
    return [fewer, more]
