"""What the pages say of thread and time: which ranges there are, by their pointers."""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.booklet import Booklet
from seamleaf.publishing.pointer import pointer


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeView:
    """A range from ``at``/least to ``at``/most; ``what`` is the end of its key in the wording."""

    at: str
    what: str
    single: bool
    """Whether both ends are the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EstimateView:
    """Thread, time and what both are reckoned from."""

    thread: tuple[RangeView, ...]
    """The unit is ``what``: that of the pattern first."""
    works: tuple[RangeView, ...]
    total: RangeView
    paces: tuple[RangeView, ...]


def estimate_view(booklet: Booklet) -> EstimateView:
    """Return the view of a size's estimates."""
    estimates = booklet.estimates
    paces = {key: getattr(estimates.paces, key) for key in ("cuts", "seams", "presses", "pinned")}
    return EstimateView(
        thread=tuple(
            RangeView(at=pointer("estimates", "thread", "amounts", i), what=each.unit, single=each.least == each.most)
            for i, each in enumerate(estimates.thread.amounts)
        ),
        works=tuple(
            RangeView(at=pointer("estimates", "time", "works", i), what=each.work, single=each.least == each.most)
            for i, each in enumerate(estimates.time.works)
        ),
        total=RangeView(
            at=pointer("estimates", "time"), what="time", single=estimates.time.least == estimates.time.most
        ),
        paces=tuple(
            RangeView(at=pointer("estimates", "paces", key), what=key, single=pace.least == pace.most)
            for key, pace in paces.items()
        ),
    )
