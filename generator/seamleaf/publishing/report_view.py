"""What the report of the proof says of one size: each thing that is proved, with how many there are.

Nothing is published that does not prove, so the report is written like any other page, before the proof runs. The proof
reads it too: it holds every count against its own, and the digest against the file.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seamleaf.booklet import Booklet


@dataclass(frozen=True, slots=True, kw_only=True)
class Proved:
    """One kind of thing that is proved."""

    key: str
    """Names its sentences in the catalogue, and its count to the proof."""
    count: int
    at: str = ""
    """Where the count stands in the booklet; empty where the booklet does not say it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportView:
    """The report of one size."""

    proved: tuple[Proved, ...]
    """In the order of the work; what a size has none of is left out."""
    method: str
    """How the digest is made, by the name of its standard (FIPS 180-4)."""
    digest: str
    """Of the booklet as it is published, in hexadecimal digits."""


def report_view(booklet: Booklet, record: bytes, *, pages: int, figures: int, papers: int) -> ReportView:
    """Gather the report.

    Args:
        booklet: the size.
        record: the booklet as it is published.
        pages: how many pages the size has, the report among them.
        figures: how many figures.
        papers: how many PDF files.

    """
    made = Proved(key="pages", count=pages), Proved(key="figures", count=figures), Proved(key="papers", count=papers)
    return ReportView(
        proved=tuple(each for each in (*_sewn(booklet), *made) if each.count),
        method="SHA-256",
        digest=hashlib.sha256(record).hexdigest(),
    )


def _sewn(booklet: Booklet) -> Iterator[Proved]:
    yield Proved(key="sheets", count=booklet.totals.sheets, at="/totals/sheets")
    yield Proved(key="patches", count=booklet.totals.patches, at="/totals/patches")
    yield Proved(key="units", count=booklet.totals.units, at="/totals/units")
    yield Proved(key="blocks", count=booklet.set.blocks, at="/set/blocks")
    yield Proved(key="points", count=booklet.pressing.match_points, at="/pressing/match_points")
    yield Proved(key="borders", count=sum(len(border.strips) for border in booklet.borders))
    yield Proved(key="stops", count=len(booklet.gates))
    yield Proved(key="purchases", count=len(booklet.fabrics))
