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
    number: str
    """Pointer to the number of the row or border; empty for what has a name."""
    key: str
    """Ends the keys of its sentences: what it comes after, a row that runs down being a column."""
    across: bool
    """Whether only the width of a row can be told, because its ends slant."""


def gate_views(booklet: Booklet) -> tuple[GateView, ...]:
    """Return the stops of one size in the order of the work."""
    return tuple(
        GateView(
            at=pointer("gates", index),
            after=gate.after,
            of=gate.of,
            number=_number(booklet, gate.after, gate.of),
            key="column" if gate.after == "row" and booklet.set.run == "down" else gate.after,
            across=gate.w is None,
        )
        for index, gate in enumerate(booklet.gates)
    )


def _number(booklet: Booklet, after: str, of: str) -> str:
    if after == "row":
        return next(pointer("rows", at, "row") for at, row in enumerate(booklet.rows) if str(row.row) == of)
    if after == "border":
        return next(pointer("borders", at, "order") for at, each in enumerate(booklet.borders) if str(each.order) == of)
    return ""
