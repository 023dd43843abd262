"""The bed that a size is shown on: its own, or a mattress of the trade that it covers."""

from __future__ import annotations

from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.report import Findings, say

BED: Final = "bed"
TRADE: Final = {
    "in": ((39, 75), (54, 75), (60, 80), (76, 80)),
    "cm": ((90, 200), (140, 200), (160, 200), (180, 200)),
}
"""Mattresses of adults, from the smallest. That of a crib is not among them: no quilt is shown on it."""
DROP: Final = {"in": 12, "cm": 30}


def check_bed(book: Book, findings: Findings) -> None:
    """See that a size for a bed is shown on that bed, and any other on the largest that it covers."""
    size, quilt = book.booklet.size, book.booklet.finished
    sides: tuple[object, object] = TRADE[book.booklet.unit][0]
    if size.cover is not None:
        sides = size.cover.mattress.sides
    else:
        drop = DROP[book.booklet.unit]
        for w, h in TRADE[book.booklet.unit]:
            if quilt.w >= w + drop + drop and quilt.h >= h + drop:
                sides = (w, h)
    message = f"shown on a mattress of {say(size.bed)}, where {say(sides)} is right"
    findings.expect(size.bed.sides == sides, BED, size.bed.pointer, message)
