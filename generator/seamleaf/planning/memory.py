"""Plans that were found before: an edit that leaves a fabric's patches, or the prints, alone searches nothing again.

A plan follows from what is asked alone, so whether it was remembered or found anew changes nothing but the time.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, Final, Protocol, TypeVar

RECENT: Final = 256
"""Plans that a process remembers; those asked for longest ago go first."""

_Plan = TypeVar("_Plan")


class Store(Protocol):
    """Where plans are kept beyond the process, by what was asked."""

    def take(self, asked: str, record: type[_Plan]) -> _Plan | None:
        """Return the plan for what is asked, if it is kept; ``record`` is what it is."""

    def put(self, asked: str, plan: object) -> None:
        """Keep a plan, which is a record."""


_recent: OrderedDict[str, Any] = OrderedDict()
_store: ContextVar[Store | None] = ContextVar("store", default=None)


@contextmanager
def remembering(store: Store | None) -> Iterator[None]:
    """Take plans from a store, and put them there, until the block ends."""
    token = _store.set(store)
    try:
        yield
    finally:
        _store.reset(token)


def remembered(asked: str, record: type[_Plan], plan: Callable[[], _Plan]) -> _Plan:
    """Return the plan for what is asked; it is made only where nobody remembers it.

    Args:
        asked: all that the plan follows from, as a text that begins with its kind.
        record: what the plan is.
        plan: makes it; what it raises is not remembered.

    """
    found: _Plan | None = _recent.get(asked)
    if found is not None:
        _recent.move_to_end(asked)
        return found
    store = _store.get()
    if store is not None:
        found = store.take(asked, record)
    if found is None:
        found = plan()
        if store is not None:
            store.put(asked, found)
    _recent[asked] = found
    if len(_recent) > RECENT:
        _recent.popitem(last=False)
    return found
