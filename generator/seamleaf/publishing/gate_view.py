"""The stops to measure, as the pages look for them: after what, and where their numbers stand."""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Gate
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
    asks: str
    """Ends the key below ``stop.`` of what to measure; of an only one there are no others to sew."""
    advice: str
    """Ends the keys of what to do if it is small or large; a centre without borders is mended in another way."""
    across: bool
    """Whether only the width of a row can be told, because its ends slant."""


def gate_views(booklet: Booklet) -> tuple[GateView, ...]:
    """Return the stops of one size in the order of the work."""
    return tuple(_view(booklet, index, gate) for index, gate in enumerate(booklet.gates))


def _view(booklet: Booklet, index: int, gate: Gate) -> GateView:
    key = "column" if gate.after == "row" and booklet.set.run == "down" else gate.after
    return GateView(
        at=pointer("gates", index),
        after=gate.after,
        of=gate.of,
        number=_number(booklet, gate.after, gate.of),
        key=key,
        asks=key + ("-across" if gate.w is None else "") + ("-only" if _only(booklet, gate) else ""),
        advice="centre-last" if gate.after == "centre" and not booklet.borders else key,
        across=gate.w is None,
    )


def _only(booklet: Booklet, gate: Gate) -> bool:
    """Tell whether the first one that is measured is all that there is."""
    if gate.after == "row":
        sewn = [row for row in booklet.rows if len(row.items) > 1]
        return len(sewn) == 1
    return any(unit.id == gate.of and unit.count <= unit.makes for unit in booklet.units)


def _number(booklet: Booklet, after: str, of: str) -> str:
    if after == "row":
        return next(pointer("rows", at, "row") for at, row in enumerate(booklet.rows) if str(row.row) == of)
    if after == "border":
        return next(pointer("borders", at, "order") for at, each in enumerate(booklet.borders) if str(each.order) == of)
    return ""
