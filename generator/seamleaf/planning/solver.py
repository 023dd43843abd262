"""HiGHS, made quiet and set to give the same answer every time: one thread, a fixed seed, limits on work only."""

from __future__ import annotations

import os
from functools import cache
from typing import Any


def new_solver(**options: bool | float | str) -> Any:
    """Return a solver with one thread and no output, and with the HiGHS options given."""
    import highspy  # here because few plans need a solver, and it takes a while to load

    _swallow_banner()
    solver = highspy.Highs()  # type: ignore[no-untyped-call]  # highspy gives it no types
    settings: dict[str, bool | float | str] = {"output_flag": False, "threads": 1, "random_seed": 0, **options}
    for option, value in settings.items():
        solver.setOptionValue(option, value)
    return solver


@cache
def _swallow_banner() -> None:
    """Make the process's first solver with standard output turned away: it prints a banner there, from C++."""
    import highspy

    try:
        kept = os.dup(1)
    except OSError:
        return  # there is no standard output to keep clean
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        highspy.Highs()  # type: ignore[no-untyped-call]  # as above
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
