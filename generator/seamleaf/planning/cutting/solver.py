"""The linear solver, made quiet and set to give the same answer every time."""

from __future__ import annotations

import os
from functools import cache
from typing import Any

import highspy


def new_solver() -> Any:
    """Return a solver with one thread, no presolve and no output."""
    _swallow_banner()
    solver = highspy.Highs()  # type: ignore[no-untyped-call]  # highspy gives it no types
    for option, value in (("output_flag", False), ("threads", 1), ("presolve", "off"), ("solver", "simplex")):
        solver.setOptionValue(option, value)
    return solver


@cache
def _swallow_banner() -> None:
    """Make the process's first solver with standard output turned away: it prints a banner there, from C++."""
    try:
        kept = os.dup(1)
    except OSError:
        return  # there is no standard output to keep clean
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        highspy.Highs()  # type: ignore[no-untyped-call]
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
