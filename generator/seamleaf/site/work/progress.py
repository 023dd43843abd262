"""What a build is doing, and where its time went."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Protocol, TextIO

from seamleaf.site.work.workers import spent_by_children

if TYPE_CHECKING:
    from rich.progress import Progress as Bar


class Progress(Protocol):
    """Hears of the stages of a build."""

    def stage(self, name: str, total: int) -> None:
        """Begin a stage of so many steps; the one before is over."""

    def step(self) -> None:
        """Hear of a step of the stage that is done."""


class Silent:
    """Shows nothing."""

    def stage(self, name: str, total: int) -> None:
        """Show nothing."""

    def step(self) -> None:
        """Show nothing."""


class Shown:
    """Shows a bar on a terminal and one line a stage elsewhere, and notes how long each stage took."""

    def __init__(self, stream: TextIO, *, shown: bool) -> None:
        """Show stages on a stream; with ``shown`` off only note their times."""
        self._stream, self._shown = stream, shown
        self._bar: Bar | None = None
        self._begun: tuple[str, int, float, float] | None = None
        self._times: dict[str, tuple[float, float]] = {}

    def open(self) -> None:
        """Begin: put up the bar where there is a terminal."""
        if self._shown and self._stream.isatty():
            from rich.console import Console  # here: only a terminal needs it
            from rich.progress import BarColumn, MofNCompleteColumn, TextColumn, TimeElapsedColumn
            from rich.progress import Progress as Bar

            columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
            self._bar = Bar(*columns, console=Console(file=self._stream), transient=True, redirect_stdout=False)
            self._bar.start()

    def close(self) -> None:
        """End the last stage and take the bar away."""
        self._over()
        if self._bar is not None:
            self._bar.stop()
            self._bar = None

    def stage(self, name: str, total: int) -> None:
        """Begin a stage."""
        self._over()
        self._begun = (name, total, time.perf_counter(), _processors())
        if self._bar is not None:
            self._bar.add_task(name, total=total or None)

    def step(self) -> None:
        """Move the bar on."""
        if self._bar is not None:
            self._bar.advance(self._bar.task_ids[-1])

    def table(self) -> list[str]:
        """Return a line for each stage: its seconds, their share of the whole, and the seconds of all processors."""
        whole = sum(taken for taken, _ in self._times.values()) or 1.0
        return [
            f"{name:<12} {taken:8.2f} s {taken / whole:6.1%} {spent:8.2f} s of processors"
            for name, (taken, spent) in self._times.items()
        ]

    def _over(self) -> None:
        if self._begun is None:
            return
        name, total, begun, spent = self._begun
        taken = time.perf_counter() - begun
        self._begun = None
        before, spent_before = self._times.get(name, (0.0, 0.0))
        self._times[name] = before + taken, spent_before + _processors() - spent
        if self._bar is not None:
            self._bar.refresh()  # a short stage is seen too
            self._bar.remove_task(self._bar.task_ids[-1])
        elif self._shown:
            count = f" {total}," if total else ""
            self._stream.write(f"seamleaf: {name}:{count} {taken:.1f} s\n")
            self._stream.flush()


def _processors() -> float:
    """Return the processor seconds of this process and of those that it has started."""
    running, spent = spent_by_children(), os.times()
    return running + spent.user + spent.system + spent.children_user + spent.children_system


@contextmanager
def showing(*, shown: bool, profiled: bool) -> Iterator[Progress]:
    """Show the progress of what happens in the block on standard error, and afterwards, if asked, where time went."""
    progress = Shown(sys.stderr, shown=shown)
    progress.open()
    try:
        yield progress
    finally:
        progress.close()
    if profiled:
        for line in progress.table():
            sys.stderr.write(f"seamleaf: {line}\n")
