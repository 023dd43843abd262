"""The linear program over strip fillings, and the exact bound that its prices prove.

HiGHS solves it in floating point and is believed nowhere: its dual prices are rounded to whole numbers, every
reduced cost is computed again from them, and the bound follows by weak duality, whatever the prices were.
Sources of fillings differ (:class:`Pricer`): the knapsack over all that fit, or a finished list.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final, Protocol

import numpy as np
from highspy import HighsModelStatus, kHighsInf

from seamleaf.planning.cutting.pricing import Filling, Floats, Ints, Model
from seamleaf.planning.cutting.solver import new_solver

FINE: Final = 1_000_000
"""Prices are whole numbers of this part of a step."""
_SLIGHT: Final = 20
"""A reduced cost above minus this is as good as none: one step is ``FINE``."""
_AT_ONCE: Final = 25
_WHOLE: Final = 1e-5
"""How far from a whole number the solver's value may be and still hint at it."""


@dataclass(frozen=True, slots=True, eq=False)
class Branch:
    """A part of all plans: how many strips are at least as high as each level, and how often fillings are cut."""

    least: Ints
    most: Ints
    times: dict[int, tuple[int, int | None]] = field(default_factory=dict)
    """By filling: least and greatest number."""


@dataclass(frozen=True, slots=True, eq=False)
class Prices:
    """Whole-number prices and the bound that they prove, in parts of a step (``FINE``)."""

    worth: Ints
    costs: Ints
    """What is left of a strip's cost, by level, when the prices of strip numbers are taken off."""
    fees: Ints
    """Price of a strip at least as high as each level; negative where more would save."""
    bound: int


@dataclass(frozen=True, slots=True, eq=False)
class Relaxed:
    """A solution of the linear program: a hint where a plan may be, and a proven bound."""

    prices: Prices
    values: dict[int, float]
    """Numbers of the fillings, zeros left out."""
    strips: Floats
    """How many strips are at least as high as each level."""
    short: bool
    """Whether the fillings at hand do not make a plan of the branch."""


class Pricer(Protocol):
    """A source of fillings."""

    def worst(self, worth: Ints, costs: Ints, passed: Sequence[int]) -> tuple[int, list[int]]:
        """Return the least reduced cost, and fillings worth adding; ``passed`` ones are left out of both."""

    def __getitem__(self, at: int) -> Filling:
        """Return a filling by its number."""


class Knapsack:
    """All fillings that fit, found when they pay."""

    def __init__(self, model: Model, known: Sequence[Filling]) -> None:
        self._model = model
        self.fillings: list[Filling] = []
        self._numbers: dict[tuple[int, tuple[int, ...]], int] = {}
        for filling in known:
            self._number(filling)

    def __getitem__(self, at: int) -> Filling:
        return self.fillings[at]

    def _number(self, filling: Filling) -> int:
        key = (filling.level, filling.counts)
        if key not in self._numbers:
            self._numbers[key] = len(self.fillings)
            self.fillings.append(filling)
        return self._numbers[key]

    def worst(self, worth: Ints, costs: Ints, passed: Sequence[int]) -> tuple[int, list[int]]:  # noqa: ARG002 - a Pricer
        """Value all fillings; none is ever passed over, since branches of this source limit strips alone."""
        valuation = self._model.value(worth)
        reduced = costs - valuation.best
        paying = [self._number(valuation.filling(int(level))) for level in np.nonzero(reduced < -_SLIGHT)[0]]
        return int(reduced.min()), paying


class Pool:
    """A finished list of fillings."""

    def __init__(self, fillings: Sequence[Filling], kinds: int) -> None:
        self.fillings = list(fillings)
        self.levels: Ints = np.array([filling.level for filling in fillings], dtype=np.int64)
        # Floats for the speed of their product; all are whole and sums stay below 2**53, so nothing is rounded.
        self.counts = np.array([filling.counts for filling in fillings], dtype=np.float64).reshape(-1, kinds)

    def __getitem__(self, at: int) -> Filling:
        return self.fillings[at]

    def worst(self, worth: Ints, costs: Ints, passed: Sequence[int]) -> tuple[int, list[int]]:
        """Value the list."""
        if not self.fillings:
            return 0, []
        reduced = costs[self.levels] - (self.counts @ worth.astype(np.float64)).astype(np.int64)
        reduced[list(passed)] = 0
        paying: Ints = np.nonzero(reduced < -_SLIGHT)[0]
        return int(reduced.min()), paying[np.argsort(reduced[paying], kind="stable")].tolist()


class Master:
    """The linear program over those fillings of a source that have paid so far."""

    def __init__(self, model: Model, source: Pricer, start: Sequence[int]) -> None:
        self._model = model
        self._source = source
        self._kinds, self._levels = len(model.kinds), len(model.heights)
        self._lp = new_solver()
        self._column: dict[int, int] = {}
        self._bounded: set[int] = set()
        self.solved = 0
        """Linear programs solved: the measure of work."""
        self._rows(dear=100 * model.heights[-1])
        for at in start:
            self._add(at)

    def _rows(self, dear: int) -> None:
        """Make rows for kinds, for strips at least as high as each level, and for the total; each with a dear way out.

        The way out keeps the program feasible, so that a bound can be read from its prices in any branch.
        """
        none = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
        for count in self._model.wanted.tolist():
            self._lp.addRow(float(count), kHighsInf, 0, *none)
        for _ in range(self._levels + 1):
            self._lp.addRow(0.0, kHighsInf, 0, *none)
        for row in range(self._kinds + self._levels + 1):
            one = np.array([row], dtype=np.int32), np.array([1.0])
            self._lp.addCol(float(dear), 0.0, kHighsInf, 1, *one)

    def _add(self, at: int) -> bool:
        if at in self._column:
            return False
        filling = self._source[at]
        height = float(self._model.heights[filling.level])
        entries = [(kind, float(count)) for kind, count in enumerate(filling.counts) if count]
        entries += [(self._kinds + level, 1.0) for level in range(filling.level + 1)]
        entries.append((self._kinds + self._levels, height))
        rows = np.array([row for row, _ in entries], dtype=np.int32)
        self._lp.addCol(height, 0.0, kHighsInf, len(entries), rows, np.array([value for _, value in entries]))
        self._column[at] = self._kinds + self._levels + 1 + len(self._column)
        return True

    def solve(self, branch: Branch, lowest: int, highest: int) -> Relaxed | None:
        """Solve the program for plans of a branch with a length from ``lowest`` on.

        Returns:
            The solution; ``None`` when it is proven that no such plan is as short as ``highest``.

        Raises:
            SolverError: the solver has given up, which proves nothing.

        """
        if self._contradicts(branch):
            return None
        self._bind(branch, lowest)
        proven: Prices | None = None
        while True:
            values, duals = self._run()
            prices, paying = self._price(branch, lowest, duals)
            if proven is None or prices.bound > proven.bound:
                proven = prices
            if -(-proven.bound // FINE) > highest:
                return None
            if not self._add_all(paying):
                return self._relaxed(proven, values)

    def _contradicts(self, branch: Branch) -> bool:
        """Whether more strips of a height are bound to be cut than may be."""
        bound = np.zeros(self._levels, dtype=np.int64)
        for at, (least, _) in branch.times.items():
            bound[: self._source[at].level + 1] += least
        return bool((bound > branch.most).any() or (branch.least > branch.most).any())

    def _bind(self, branch: Branch, lowest: int) -> None:
        for level in range(self._levels):
            self._lp.changeRowBounds(self._kinds + level, float(branch.least[level]), float(branch.most[level]))
        self._lp.changeRowBounds(self._kinds + self._levels, float(lowest), kHighsInf)
        for at in sorted(self._bounded - branch.times.keys()):
            self._lp.changeColBounds(self._column[at], 0.0, kHighsInf)
        for at, (least, most) in branch.times.items():
            self._add(at)
            self._lp.changeColBounds(self._column[at], float(least), kHighsInf if most is None else float(most))
        self._bounded = set(branch.times)

    def _run(self) -> tuple[Floats, Floats]:
        self._lp.run()
        self.solved += 1
        if self._lp.getModelStatus() != HighsModelStatus.kOptimal:
            raise SolverError
        solution = self._lp.getSolution()
        return np.array(solution.col_value), np.array(solution.row_dual)

    def _price(self, branch: Branch, lowest: int, duals: Floats) -> tuple[Prices, list[int]]:
        """Turn dual values into whole prices, and the prices into a bound by weak duality."""
        kinds, levels = self._kinds, self._levels
        worth = np.maximum(np.floor(duals[:kinds] * FINE), 0).astype(np.int64)
        fees = np.rint(duals[kinds : kinds + levels] * FINE).astype(np.int64)
        toll = min(max(round(float(duals[kinds + levels]) * FINE), 0), FINE)
        costs = self._model.tall * (FINE - toll) - np.cumsum(fees)
        least_cost, paying = self._source.worst(worth, costs, list(branch.times))
        bound = int(worth @ self._model.wanted) + toll * lowest
        bound += int(np.where(fees >= 0, fees * branch.least, fees * branch.most).sum())
        bound += min(least_cost, 0) * int(branch.most[0])
        for at, (least, most) in branch.times.items():
            filling = self._source[at]
            cost = int(costs[filling.level]) - int(worth @ np.array(filling.counts))
            bound += cost * (least if cost >= 0 else int(branch.most[0]) if most is None else most)
        return Prices(worth, costs, fees, bound), paying

    def _add_all(self, paying: Sequence[int]) -> bool:
        added = 0
        for at in paying:
            added += self._add(at)
            if added == _AT_ONCE:
                break
        return added > 0

    def _relaxed(self, prices: Prices, values: Floats) -> Relaxed:
        numbers = {at: float(values[column]) for at, column in self._column.items() if values[column] > _WHOLE}
        strips = np.zeros(self._levels, dtype=np.float64)
        for at, number in numbers.items():
            strips[: self._source[at].level + 1] += number
        short = bool(values[: self._kinds + self._levels + 1].sum() > _WHOLE)
        return Relaxed(prices, numbers, strips, short)


class SolverError(Exception):
    """The linear solver has given up."""
