"""Processes that stand ready while a site is served, so that an edit does not wait for one to start."""

from __future__ import annotations

import contextlib
import importlib
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import replace

from seamleaf.site.work.jobs import Job, Outcome, try_job
from seamleaf.site.work.workers import standing_pool


class StandingCrew:
    """Does jobs in the order in which they are given; a process that was killed is replaced for the next ones."""

    def __init__(self, processes: int) -> None:
        self._processes = processes
        self._pool: ProcessPoolExecutor | None = None

    def start(self) -> None:
        """Have every process started, and the program loaded there."""
        for _ in range(self._processes):
            self._standing().submit(_load)

    def get_ready(self, job: Job) -> list[Future[Outcome | Exception]]:
        """Have every process do a job whose outcome nobody wants: it then has loaded what jobs need."""
        return [self.begin(job) for _ in range(self._processes)]

    def begin(self, job: Job) -> Future[Outcome | Exception]:
        """Have a job done and return what its outcome will be asked of."""
        job = replace(job, served=True)
        with contextlib.suppress(BrokenProcessPool):
            return self._standing().submit(try_job, job)
        self._pool = None
        return self._standing().submit(try_job, job)

    def leave(self) -> None:
        """End all processes."""
        if self._pool is not None:
            self._pool.shutdown(wait=False, cancel_futures=True)
            self._pool = None

    def _standing(self) -> ProcessPoolExecutor:
        if self._pool is None:
            self._pool = standing_pool(self._processes)
        return self._pool


def _load() -> None:
    """Load what jobs need: this module is loaded where a process is sent here, and it loads no planner and no check."""
    importlib.import_module("seamleaf.booklet.assemble")
    importlib.import_module("seamleaf.proof.checks")
