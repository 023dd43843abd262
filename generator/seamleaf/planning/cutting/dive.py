"""Quick tries for a whole-numbered plan when the number of strips of every height is settled.

A dive rounds one filling up after the other and lets the linear program mend the rest; when it gets stuck, the
patches still missing go into the strips that are left as a careful maker would lay them. What a dive finds is
counted again by the caller; where it looks first follows from fixed pseudo-random weights, the same everywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from highspy import HighsLp, HighsModelStatus, MatrixFormat, kHighsInf

from seamleaf.planning.cutting.firstfit import LAYS, filled_one_by_one
from seamleaf.planning.cutting.kinds import Kind, area_of
from seamleaf.planning.cutting.master import Pool
from seamleaf.planning.cutting.pricing import Filling, Floats, Ints, Model
from seamleaf.planning.cutting.solver import new_solver

Cut = list[tuple[Filling, int]]
"""Fillings with how often each is cut."""

_WHOLE: Final = 1e-6
_WEIGHTS: Final = 997


class Diver:
    """Dives over one pool."""

    def __init__(self, model: Model, pool: Pool) -> None:
        self._model, self._pool = model, pool
        self._heights: Floats = model.tall[pool.levels].astype(np.float64)
        self._many, self._kinds, self._levels = len(pool.fillings), len(model.kinds), len(model.heights)
        self._lp = new_solver()
        self._lp.passModel(self._program())
        self._dives = 0
        self.solved = 0

    def _program(self) -> HighsLp:
        many, kinds, levels = self._many, self._kinds, self._levels
        program = HighsLp()
        program.num_col_, program.num_row_ = many + kinds, kinds + levels
        program.col_cost_ = np.concatenate([np.ones(many), np.full(kinds, 1e4)])
        program.col_lower_ = np.zeros(many + kinds)
        program.col_upper_ = np.full(many + kinds, kHighsInf)
        program.row_lower_ = np.concatenate([self._model.wanted.astype(np.float64), np.zeros(levels)])
        program.row_upper_ = np.full(kinds + levels, kHighsInf)
        starts, rows, values = [0], [], []
        for filling in self._pool.fillings:
            entries = [(kind, float(count)) for kind, count in enumerate(filling.counts) if count]
            entries += [(kinds + level, 1.0) for level in range(filling.level + 1)]
            rows += [row for row, _ in entries]
            values += [value for _, value in entries]
            starts.append(len(rows))
        for kind in range(kinds):
            rows.append(kind)
            values.append(1.0)
            starts.append(len(rows))
        program.a_matrix_.format_ = MatrixFormat.kColwise
        program.a_matrix_.start_ = np.array(starts, dtype=np.int32)
        program.a_matrix_.index_ = np.array(rows, dtype=np.int32)
        program.a_matrix_.value_ = np.array(values)
        return program

    def dive(self, strips: Ints, times: int, turns: int) -> Cut | None:
        """Try ``times`` dives with ``strips`` at least as high as each level, each with so many ``turns`` back."""
        total = int(np.diff(np.append(strips, 0)[::-1])[::-1] @ self._model.tall)
        for level in range(self._levels):
            self._lp.changeRowBounds(self._kinds + level, 0.0, float(strips[level]))
        for _ in range(times):
            self._dives += 1
            steps = self._one(turns)
            if not steps:
                return None  # not even fractions of fillings do it
            for numbers in (steps[-1], steps[len(steps) // 2]):
                cut = self._completed(numbers, total)
                if cut is not None:
                    return cut
        return None

    def _one(self, turns: int) -> list[Floats]:
        """Dive once; return the whole parts of the solutions on the way."""
        weights = (np.arange(self._many) * 7919 + self._dives * 104_729) * 31 % _WEIGHTS
        columns = np.arange(self._many, dtype=np.int32)
        self._lp.changeColsCost(self._many, columns, weights * self._heights / _WEIGHTS)
        self._lp.changeColsBounds(self._many, columns, np.zeros(self._many), np.full(self._many, kHighsInf))
        least = np.zeros(self._many)
        most = np.full(self._many, kHighsInf)
        steps: list[Floats] = []
        last: int | None = None
        while True:
            values = self._solved()
            if values is None:
                turns -= 1
                if last is None or turns < 0:
                    return steps
                least[last] -= 1
                most[last] = least[last]
                self._lp.changeColBounds(last, least[last], most[last])
                last = None
                continue
            whole = np.floor(values + _WHOLE)
            steps.append(whole)
            rest = values - whole
            last = int(rest.argmax())
            if rest[last] < _WHOLE:
                return steps
            least[last] = whole[last] + 1
            self._lp.changeColBounds(last, least[last], most[last])

    def _solved(self) -> Floats | None:
        self._lp.run()
        self.solved += 1
        if self._lp.getModelStatus() != HighsModelStatus.kOptimal:
            return None
        values = np.array(self._lp.getSolution().col_value)
        return None if values[self._many :].sum() > _WHOLE else values[: self._many]

    def _completed(self, numbers: Floats, total: int) -> Cut | None:
        """Lay the patches that the fillings leave out into the height that they leave over."""
        cut = [(self._pool.fillings[at], int(numbers[at])) for at in np.nonzero(numbers)[0].tolist()]
        given = numbers @ self._pool.counts
        missing = [max(kind.count - round(have), 0) for kind, have in zip(self._model.kinds, given, strict=True)]
        rest = filled(self._model, missing, total - int(numbers @ self._heights))
        return None if rest is None else cut + rest


def filled(model: Model, missing: Sequence[int], height: int) -> Cut | None:
    """Return strips for the ``missing`` patches by kind, in no more than ``height``; ``None`` if none are found."""
    kinds = [
        Kind(index=kind.index, w=kind.w, h=kind.h, turns=kind.turns, count=count, labels=())
        for kind, count in zip(model.kinds, missing, strict=True)
        if count
    ]
    if not kinds:
        return []
    for lay in LAYS[:3]:
        cut: Cut = []
        waste = height * model.usable - area_of(kinds)
        for strip, times in filled_one_by_one(kinds, model.usable, lay):
            waste -= (strip.height * model.usable - strip.area) * times
            if waste < 0:
                break
            cut.append((model.filling(model.heights.index(strip.height), strip.columns), times))
        else:
            return cut
    return None
