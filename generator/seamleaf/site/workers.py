"""Processes that share the work."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from typing import Final

WORTH_A_POOL: Final = 4
"""Sizes of quilts; to start processes for fewer takes longer than to do them in this one."""


def processors() -> int:
    """Return how many processors this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not every system has it
        return os.cpu_count() or 1


@contextmanager
def worker_pool(processes: int) -> Iterator[ProcessPoolExecutor]:
    """Give a pool of fresh processes; what they have not begun when the block ends is not begun any more."""
    pool = standing_pool(processes)
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


def standing_pool(processes: int) -> ProcessPoolExecutor:
    """Return a pool of fresh processes, for whoever sees to its end.

    A process is not forked off this one, whose threads (MkDocs has some while it serves) would not come along.
    """
    return ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), initializer=_ignore_interrupts)


def _ignore_interrupts() -> None:
    """Leave it to the first process to end the others, without a traceback from each."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
