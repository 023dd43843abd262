"""Many machines that share the work of a build, reached through Dask."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from functools import partial
from typing import Final, TypeVar

from seamleaf.site.files.shelf import program_digest

SCHEME: Final = "dask://"
_PATIENCE: Final = 20
"""Seconds in which a scheduler must answer."""

_Given = TypeVar("_Given")
_Done = TypeVar("_Done")


class ClusterError(Exception):
    """A cluster that cannot do the work; the message says why."""


@contextmanager
def cluster(address: str) -> Iterator[Executor]:
    """Give the machines of a cluster as an executor; a task whose worker dies is given to another.

    Args:
        address: ``dask://HOST:PORT`` of the scheduler.

    Raises:
        ClusterError: Dask is not installed, or no scheduler answers.

    """
    try:
        from distributed import Client  # here: few builds need it, and it takes long to load
    except ImportError:
        raise ClusterError(
            f"{address}: needs Dask; install it with: python -m pip install 'seamleaf[cluster]'"
        ) from None
    try:
        client = Client(f"tcp://{address.removeprefix(SCHEME)}", timeout=_PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]  # it has no types
    except (OSError, ValueError, TypeError) as fault:
        raise ClusterError(f"{address}: no scheduler answers there") from fault
    with client:
        yield client.get_executor(pure=False)  # type: ignore[no-untyped-call]  # as above


def on_any_machine(do: Callable[[_Given], _Done]) -> Callable[[_Given], _Done]:
    """Return what a worker is asked to do in place of ``do``: the same, if its program is this one."""
    return partial(_with_the_same_program, program_digest(), do)


def _with_the_same_program(digest: bytes, do: Callable[[_Given], _Done], given: _Given) -> _Done:
    """Do something.

    Raises:
        ClusterError: this machine has another program, which might give other bytes.

    """
    if program_digest() != digest:
        raise ClusterError("a machine of the cluster has another version of seamleaf, of its solvers or of Python")
    return do(given)
