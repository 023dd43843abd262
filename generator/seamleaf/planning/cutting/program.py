"""A whole-numbered plan out of a list of fillings, found by an integer program.

The whole parts of the linear program's solution are taken as they are, and the integer program looks for the rest:
it is small, and a plan almost as good as any is seldom elsewhere (G. Scheithauer and J. Terno, Operations Research
Letters 20, 1997, from memory). HiGHS searches by branch and bound, in floating point and within a number of nodes,
never a time. What it finds is counted again in whole numbers; what it says about the length of other plans is not used.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from highspy import HighsLp, HighsVarType, MatrixFormat, kHighsInf

from seamleaf.planning import solver
from seamleaf.planning.cutting.dive import Cut
from seamleaf.planning.cutting.pricing import Filling, Model

_ALMOST: Final = 0.5
"""Half a step: lengths are whole numbers of steps, so this tells two of them apart whatever the rounding."""
_NEARLY: Final = 1e-6
"""What a whole number may fall short of itself in floating point."""


def shortest_of(model: Model, fillings: Sequence[Filling], lowest: int, nodes: int) -> Cut | None:
    """Look for the shortest plan made of ``fillings``; stop at a length of ``lowest``, or after so many ``nodes``.

    Returns:
        A plan that gives what is wanted; ``None`` when none was found.

    """
    program = _program(model, fillings)
    relaxed = solver.new_solver()
    relaxed.passModel(program)
    relaxed.run()
    kept = np.floor(np.array(relaxed.getSolution().col_value) + _NEARLY).astype(np.int64)
    if len(kept) != len(fillings):
        return None
    counts = np.array([filling.counts for filling in fillings], dtype=np.int64)
    heights = model.tall[[filling.level for filling in fillings]]
    target = lowest - int(kept @ heights) + _ALMOST
    search = solver.new_solver(
        presolve="off", mip_max_nodes=nodes, mip_rel_gap=0.0, mip_abs_gap=1 - _ALMOST, objective_target=target
    )
    program.row_lower_ = np.maximum(model.wanted - kept @ counts, 0).astype(np.float64)
    program.integrality_ = [HighsVarType.kInteger] * len(fillings)
    search.passModel(program)
    search.run()
    rest = np.array(search.getSolution().col_value)
    if not len(rest):
        return None
    times = kept + np.rint(rest).astype(np.int64)
    if (times @ counts < model.wanted).any():
        return None
    return [(fillings[at], int(times[at])) for at in np.nonzero(times)[0].tolist()]


def _program(model: Model, fillings: Sequence[Filling]) -> HighsLp:
    """Return the program, in fractions: the least height of strips that give each kind as often as it is wanted."""
    counts = np.array([filling.counts for filling in fillings], dtype=np.float64)
    at, kind = np.nonzero(counts)
    program = HighsLp()
    program.num_col_, program.num_row_ = counts.shape
    program.col_cost_ = model.tall[[filling.level for filling in fillings]].astype(np.float64)
    program.col_lower_ = np.zeros(len(fillings))
    program.col_upper_ = np.full(len(fillings), kHighsInf)
    program.row_lower_ = model.wanted.astype(np.float64)
    program.row_upper_ = np.full(len(model.kinds), kHighsInf)
    program.a_matrix_.format_ = MatrixFormat.kColwise
    program.a_matrix_.start_ = np.searchsorted(at, np.arange(len(fillings) + 1)).astype(np.int32)
    program.a_matrix_.index_ = kind.astype(np.int32)
    program.a_matrix_.value_ = counts[at, kind]
    return program
