"""What a pattern has its makers do beyond straight seams between patches, so that they see whether it is for them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from seamleaf.booklet import Booklet

_PLAIN: Final = ("patch", "join")
"""How units are made that take no more than a straight seam."""
TECHNIQUES: Final = (
    "strip-set",
    "half-square",
    "half-rectangle",
    "quarter-square",
    "three-triangle",
    "geese",
    "corners",
    "diamond",
    "around",
    "partial",
    "on-point",
    "sashing",
    "columns",
    "pieced",
    "mitred",
    "bias",
)
"""Every technique there is, in the order of the work."""


def techniques(booklets: Iterable[Booklet]) -> tuple[str, ...]:
    """Return keys below ``technique.`` of the wording, in the order of the work, of all sizes together."""
    found = {key for booklet in booklets for key in _techniques(booklet)}
    return tuple(key for key in TECHNIQUES if key in found)


def _techniques(booklet: Booklet) -> Iterator[str]:
    yield from (unit.how for unit in booklet.units if unit.how not in _PLAIN)
    if booklet.set.kind == "on-point":
        yield "on-point"
    if any(place.kind == "sash" for place in booklet.places):
        yield "columns" if booklet.set.run == "down" else "sashing"
    for border in booklet.borders:
        if border.fabric is None:
            yield "pieced"
        if border.corner == "mitred":
            yield "mitred"
    if booklet.binding is not None and booklet.binding.cut == "bias":
        yield "bias"
