"""The one title that the program gives: that of a backing which is none of the pattern's fabrics.

A booklet names it in English, as it does everything that is not the designer's. Figures and pages say it in their own
words.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from seamleaf.booklet.record import Booklet

BACKING_ID: Final = "backing"
BACKING_TITLE: Final = "Backing"


def fabric_title(id_: str, title: str, backing: str) -> str:
    """Return the title of a fabric, or ``backing`` for that which the program gave."""
    return backing if (id_, title) == (BACKING_ID, BACKING_TITLE) else title


def with_backing_called(booklet: Booklet, backing: str) -> Booklet:
    """Return the booklet with another title for a backing that the pattern does not name."""
    fabrics = tuple(replace(each, title=fabric_title(each.id, each.title, backing)) for each in booklet.fabrics)
    return replace(booklet, fabrics=fabrics)
