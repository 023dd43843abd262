"""Processes that share the work."""

from __future__ import annotations

import ctypes
import gc
import multiprocessing
import os
import signal
import threading
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from multiprocessing.connection import wait
from pathlib import Path
from typing import Final

WORTH_A_POOL: Final = 4
"""Sizes of quilts; to start processes for fewer takes longer than to do them in this one."""
FEW: Final = 24
"""Things of which the first are done in this process, as long as others would take to start."""
TO_START: Final = 0.75
"""Processor seconds that a process takes to start, to load the program and to end."""


_SELDOM: Final = (10_000, 10, 4)
"""New objects, and collections of the younger ones, after which objects that refer to each other are looked for."""


def collect_seldom() -> None:
    """Look less often for objects that refer to each other: few do, and to look took a twentieth of a build."""
    gc.set_threshold(*_SELDOM)


def give_back_memory() -> None:
    """Give the system the memory that is free in this process, where the C library would keep it, as GNU's does."""
    with suppress(OSError, AttributeError, TypeError):  # another C library, or none by that name
        ctypes.CDLL(None).malloc_trim(0)


def processors() -> int:
    """Return how many processors this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not every system has it
        return os.cpu_count() or 1


class _Crew:
    """Processes that one stage of a build takes over from the other: to start them and load the program takes long."""

    def __init__(self) -> None:
        self._pool: ProcessPoolExecutor | None = None
        self._processes = 0

    @property
    def has_started(self) -> bool:
        """Whether there is a pool."""
        return self._pool is not None

    def pool(self, processes: int, *, fresh: bool) -> ProcessPoolExecutor:
        """Return the pool, or another where a fresh or a larger one is asked for."""
        if fresh or processes > self._processes:
            self.leave()
        if self._pool is None:
            self._pool, self._processes = standing_pool(processes), processes
        return self._pool

    def leave(self) -> None:
        """End all processes; what they have not begun is not begun any more."""
        if self._pool is not None:
            self._pool.shutdown(cancel_futures=True)
        self._pool, self._processes = None, 0


_crew: ContextVar[_Crew | None] = ContextVar("crew", default=None)


@contextmanager
def shared_workers() -> Iterator[None]:
    """Have all pools of the block be one."""
    crew = _Crew()
    token = _crew.set(crew)
    try:
        yield
    finally:
        _crew.reset(token)
        crew.leave()


def stand_ready() -> bool:
    """Tell whether there are shared processes that have started already."""
    crew = _crew.get()
    return crew is not None and crew.has_started


@contextmanager
def worker_pool(processes: int, *, fresh: bool = False) -> Iterator[ProcessPoolExecutor]:
    """Give a pool of processes; what they have not begun when the block fails is not begun any more.

    They are fresh ones unless they are shared, and then too where a ``fresh`` pool is asked for.
    """
    crew = _crew.get() or _Crew()
    try:
        yield crew.pool(processes, fresh=fresh)
    except BaseException:
        crew.leave()
        raise
    if crew is not _crew.get():
        crew.leave()


def standing_pool(processes: int) -> ProcessPoolExecutor:
    """Return a pool of fresh processes, for whoever sees to its end.

    A process is not forked off this one, whose threads (MkDocs has some while it serves) would not come along.
    """
    return ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), initializer=_begin)


def _begin() -> None:
    """Leave it to the first process to end the others, without a traceback from each; and end where it was killed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    collect_seldom()
    first = multiprocessing.parent_process()
    if first is not None:
        threading.Thread(target=_end_after, args=(first.sentinel,), daemon=True).start()


def _end_after(sentinel: int) -> None:
    """Wait for the end of a process, and end this one: nobody is left to take what it makes."""
    wait([sentinel])
    os._exit(1)


def spent_by_children() -> float:
    """Return the processor seconds of processes of ours that still run, as far as the system tells."""
    spent = 0.0
    for child in multiprocessing.active_children():
        try:
            told = Path(f"/proc/{child.pid}/stat").read_text(encoding="utf-8")
        except OSError:  # not every system has it
            continue
        # See proc(5): user and system time are the 12th and 13th field behind the name, which stands in brackets.
        fields = told.rpartition(")")[2].split()
        spent += (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")
    return spent
