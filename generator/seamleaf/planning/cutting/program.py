"""A whole-numbered plan out of a list of fillings, found by an integer program.

HiGHS searches by branch and bound, in floating point and within a number of nodes, never a time. What it finds is
counted again in whole numbers; what it says about the length of other plans is not used.
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


def shortest_of(model: Model, fillings: Sequence[Filling], lowest: int, nodes: int) -> Cut | None:
    """Look for the shortest plan made of ``fillings``; stop at a length of ``lowest``, or after so many ``nodes``.

    Returns:
        A plan that gives what is wanted; ``None`` when none was found.

    """
    search = solver.new_solver(
        mip_max_nodes=nodes, mip_rel_gap=0.0, mip_abs_gap=1 - _ALMOST, objective_target=lowest + _ALMOST
    )
    search.passModel(_program(model, fillings))
    search.run()
    values = np.array(search.getSolution().col_value)
    if not len(values):
        return None
    cut = [(fillings[at], round(float(values[at]))) for at in np.nonzero(values > _ALMOST)[0].tolist()]
    given = np.zeros(len(model.kinds), dtype=np.int64)
    for filling, times in cut:
        given += times * np.array(filling.counts, dtype=np.int64)
    return cut if (given >= model.wanted).all() else None


def _program(model: Model, fillings: Sequence[Filling]) -> HighsLp:
    """Return the program: the least height of all strips, so that each kind is cut as often as it is wanted."""
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
    program.integrality_ = [HighsVarType.kInteger] * len(fillings)
    return program
