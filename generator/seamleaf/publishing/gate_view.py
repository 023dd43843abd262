"""The stops to measure, as the pages look for them: after what, and where their numbers stand."""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.booklet import Booklet
from seamleaf.publishing.pointer import pointer


@dataclass(frozen=True, slots=True, kw_only=True)
class GateView:
    """One stop; ``at`` is its pointer, from which the templates take its numbers."""

    at: str
    after: str
    of: str
    across: bool
    """Whether only the width of a row can be told, because its ends slant."""


def gate_views(booklet: Booklet) -> tuple[GateView, ...]:
    """Return the stops of one size in the order of the work."""
    return tuple(
        GateView(at=pointer("gates", index), after=gate.after, of=gate.of, across=gate.w is None)
        for index, gate in enumerate(booklet.gates)
    )
