"""The ways to print a booklet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """A way to print the booklet."""

    id: str
    paper: str
    """As typst names it."""
    points: int
    """Size of the text."""
    room: int
    """Points from side to side in a box of a step, between the margins of the template."""


EDITIONS: Final = (
    Edition(id="a4", paper="a4", points=12, room=488),
    Edition(id="letter", paper="us-letter", points=12, room=505),
    Edition(id="large-print", paper="a4", points=18, room=488),
)
"""Both papers at 12 pt, and a large print at 18 pt, the least of a clear print edition (common practice, no source)."""
