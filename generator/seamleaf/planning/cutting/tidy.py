"""Among plans of one length the one that asks least of a maker: few strip widths, then few settings of the ruler.

The search for the least length takes whatever fits. Here its strips, and simple ones beside them, are chosen once
more by an integer program: no longer than before, with as few different strips as it finds. What it finds is
counted again in whole numbers and never taken if it is longer, so what is proven of the length stays proven.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from seamleaf.planning import solver
from seamleaf.planning.cutting.firstfit import Plan, total_height
from seamleaf.planning.cutting.kinds import Kind, area_of
from seamleaf.planning.cutting.strips import Column, Strip, column_width, strip_of

_MOST_SIMPLE: Final = 20
"""Simple strips to choose from beside those of the plan: the ones that waste least."""
_MOST_TRIED: Final = 3_000
"""Rows of columns that are looked at, at most, for one height."""
_MOST_SIZES: Final = 3
"""Different sizes of patches in a simple strip."""
_NODES: Final = 10
_ALMOST: Final = 0.5
"""Whole numbers come out of the solver rounded by less than that."""


@dataclass(frozen=True, slots=True, order=True)
class Effort:
    """What a plan asks of a maker, in the order in which it matters."""

    heights: int
    """Different strip widths to cut off the fabric."""
    measures: int
    """Different measures at which the strips are cut up."""
    settings: int
    """How often a maker looks up anew what to do: each kind of strip, and each of its measures, added up."""


def effort_of(strips: Sequence[Strip]) -> Effort:
    """Return what strips ask of a maker; equal ones are cut up together."""
    kinds = set(strips)
    measures = [measures_of(strip) for strip in kinds]
    return Effort(
        heights=len({strip.height for strip in kinds}),
        measures=len(frozenset().union(*measures)),
        settings=sum(1 + len(each) for each in measures),
    )


def measures_of(strip: Strip) -> frozenset[int]:
    """Return the measures at which one strip is cut up: across it, and along it where patches lie in stacks."""
    measures = set()
    for column in strip.columns:
        width = column_width(column)
        measures.add(width)
        if len(column) > 1 or column[0].h < strip.height:
            measures.update(patch.h for patch in column)
            measures.update(patch.w for patch in column)
    return frozenset(measures)


def tidied(plan: Plan, kinds: Sequence[Kind], usable: int, there: Collection[int] = ()) -> Plan:
    """Return strips that are no longer in all than those of ``plan`` and ask no more of a maker.

    Args:
        plan: strips that hold all ``kinds``.
        kinds: what they hold.
        usable: the strips' width.
        there: strip heights that are cut in any case, for other patches of the fabric.

    """
    if len(plan) <= 1:
        return plan
    length = total_height(plan)
    strips = _choice(plan, kinds, usable, length)
    values = _solved(_Program(strips, kinds, length, there), plan)
    chosen = [(strip, times) for strip, times in zip(strips, values, strict=False) if times]
    given = {kind.index: 0 for kind in kinds}
    for strip, times in chosen:
        for kind, n in strip.counts.items():
            given[kind] += n * times
    holds = all(given[kind.index] >= kind.count for kind in kinds) and total_height(chosen) <= length
    return chosen if holds else plan


def _choice(plan: Plan, kinds: Sequence[Kind], usable: int, length: int) -> list[Strip]:
    """Return the strips of the plan, and simple ones of their heights that waste no more than the plan does."""
    own = [strip for strip, _ in plan]
    spared = length * usable - area_of(kinds)
    rows = [
        row for height in sorted({strip.height for strip in own}) for row in _simple_rows(kinds, usable, height, spared)
    ]
    rows.sort(key=lambda row: (row.waste, len(row.columns)))
    chosen = dict.fromkeys(own)
    for row in rows:
        if len(chosen) >= len(own) + _MOST_SIMPLE:
            break
        chosen[strip_of((column for column, n in row.columns for _ in range(n)), row.height)] = None
    return list(chosen)


@dataclass(frozen=True, slots=True)
class _Row:
    """Columns side by side with their numbers, each a stack of patches of one size."""

    height: int
    columns: tuple[tuple[Column, int], ...]
    room: int
    """What is left of the usable width."""
    waste: int
    """Area of the strip that no useful patch covers."""
    after: int
    """The first column that may come next."""

    def plus(self, column: Column, width: int, n: int, at: int) -> _Row:
        covered = n * len(column) * column[0].w * column[0].h
        return _Row(self.height, (*self.columns, (column, n)), self.room - n * width, self.waste - covered, at + 1)


def _simple_rows(kinds: Sequence[Kind], usable: int, height: int, spared: int) -> Iterator[_Row]:
    """Yield rows of at most three sizes, with as many of the last as there is room, that waste up to ``spared``."""
    columns: list[tuple[Column, int]] = []
    for kind in kinds:
        for lay in kind.lays:
            if lay.h <= height and lay.w <= usable:
                stack = min(height // lay.h, kind.count)
                columns.append(((lay,) * stack, kind.count // stack))
    queue = [_Row(height, (), usable, usable * height, 0)]
    tried = 0
    for row in queue:
        for at in range(row.after, len(columns)):
            column, most = columns[at]
            width = column[0].w
            fit = min(row.room // width, most)
            tried += 1
            if not fit:
                continue
            if tried > _MOST_TRIED:
                return
            full = row.plus(column, width, fit, at)
            if full.waste <= spared:
                yield full
            if len(full.columns) < _MOST_SIZES:
                queue.extend(row.plus(column, width, n, at) for n in range(1, fit + 1))


class _Program:
    """The integer program: how often each strip is cut, whether it is, and which heights that asks for."""

    def __init__(self, strips: Sequence[Strip], kinds: Sequence[Kind], length: int, there: Collection[int]) -> None:
        n = len(strips)
        self.strips = strips
        self.heights = heights = sorted({strip.height for strip in strips})
        tall = {height: 2 * n + at for at, height in enumerate(heights)}
        most = [self._most(strip, kinds, length) for strip in strips]
        settings = [1 + len(measures_of(strip)) for strip in strips]
        dear = sum(settings) + 1
        self.costs = [0] * n + settings + [0 if height in there else dear for height in heights]
        self.most = most + [1] * (n + len(heights))
        held = [strip.counts for strip in strips]
        self.rows: list[tuple[dict[int, int], int | None, int | None]] = [
            ({at: each[kind.index] for at, each in enumerate(held) if each[kind.index]}, kind.count, None)
            for kind in kinds
        ]
        self.rows.append(({at: strip.height for at, strip in enumerate(strips)}, None, length))
        for at, strip in enumerate(strips):
            self.rows.append(({at: 1, n + at: -most[at]}, None, 0))
            self.rows.append(({n + at: 1, tall[strip.height]: -1}, None, 0))

    def values_of(self, plan: Plan) -> list[int]:
        """Return the values that stand for a plan of these strips."""
        times: Counter[Strip] = Counter()
        for strip, n in plan:
            times[strip] += n
        tall = {strip.height for strip in times}
        used = [int(strip in times) for strip in self.strips]
        return [times[strip] for strip in self.strips] + used + [int(height in tall) for height in self.heights]

    @staticmethod
    def _most(strip: Strip, kinds: Sequence[Kind], length: int) -> int:
        """Return how often a strip can be of use."""
        wanted = {kind.index: kind.count for kind in kinds}
        useful = max(-(-wanted[kind] // n) for kind, n in strip.counts.items())
        return min(useful, length // strip.height)


def _solved(program: _Program, plan: Plan) -> list[int]:
    """Return how often each strip is cut, beginning with a plan; or nothing when no plan was found."""
    from highspy import (  # here because it takes a while to load
        HighsLp,
        HighsSolution,
        HighsVarType,
        MatrixFormat,
        kHighsInf,
    )

    search = solver.new_solver(
        presolve="off",
        mip_max_nodes=_NODES,
        mip_rel_gap=0.0,
        mip_abs_gap=_ALMOST,
        mip_heuristic_run_feasibility_jump=False,  # it looks for any plan, and there is one
    )
    model = HighsLp()
    model.num_col_, model.num_row_ = len(program.costs), len(program.rows)
    model.col_cost_ = np.array(program.costs, dtype=np.float64)
    model.col_lower_ = np.zeros(len(program.costs))
    model.col_upper_ = np.array(program.most, dtype=np.float64)
    model.row_lower_ = np.array([-kHighsInf if least is None else least for _, least, _ in program.rows])
    model.row_upper_ = np.array([kHighsInf if most is None else most for _, _, most in program.rows])
    model.a_matrix_.format_ = MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.cumsum([0, *(len(row) for row, _, _ in program.rows)]).astype(np.int32)
    model.a_matrix_.index_ = np.array([at for row, _, _ in program.rows for at in row], dtype=np.int32)
    model.a_matrix_.value_ = np.array([n for row, _, _ in program.rows for n in row.values()], dtype=np.float64)
    model.integrality_ = [HighsVarType.kInteger] * len(program.costs)
    search.passModel(model)
    start = HighsSolution()
    start.col_value = [float(value) for value in program.values_of(plan)]
    search.setSolution(start)
    search.run()
    return [round(float(value)) for value in list(search.getSolution().col_value)[: len(program.strips)]]
