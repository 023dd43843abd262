"""The linear solver of the strip planner: the simplex method without presolve, so that prices come out as they are."""

from __future__ import annotations

from typing import Any

from seamleaf.planning import solver


def new_solver() -> Any:
    """Return a solver with one thread, no presolve and no output."""
    return solver.new_solver(presolve="off", solver="simplex")
