"""Values that a pattern need not state, in the pattern's unit.

Each unit has round numbers of its own, so that no cut is ever a converted decimal (common practice, no source: cloth
is sold 110 cm wide, of which 105 cm are used; a metric fat quarter is 50 x 55 cm).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from seamleaf.lengths import Length, Measures
from seamleaf.reading.pace_record import Paces

DEFAULT_COLOUR = "#b8b8b8"


@dataclass(frozen=True, slots=True, kw_only=True)
class Defaults:
    """Sizes for whatever the file leaves out."""

    seam: Length
    usable_width: Length
    """Width of fabric without selvedges: 40 in, 105 cm."""
    fat_quarter: tuple[Length, Length]
    """What a fat quarter is sure to yield: 18 x 20 in, 45 x 50 cm."""
    fat_eighth: tuple[Length, Length]
    """What a fat eighth is sure to yield: 9 x 20 in, 22 x 50 cm."""
    margin: Length
    """For straightening a cut edge: 2 in, 5 cm."""
    triangle_oversize: Length
    """On the squares that setting triangles are cut from: 1/2 in, 1 cm."""
    binding_strip: Length
    binding_extra: Length
    """For joins and the last seam: 12 in, 30 cm."""
    backing_extra: Length
    """On each side of the top: 4 in, 10 cm."""
    batting_extra: Length


def defaults_for(measures: Measures) -> Defaults:
    """Return the defaults in the unit of ``measures``."""
    if measures.unit == "cm":
        return Defaults(
            seam=Length(measures.seam),
            usable_width=Length(105),
            fat_quarter=(Length(45), Length(50)),
            fat_eighth=(Length(22), Length(50)),
            margin=Length(5),
            triangle_oversize=Length(1),
            binding_strip=Length(Fraction(13, 2)),
            binding_extra=Length(30),
            backing_extra=Length(10),
            batting_extra=Length(10),
        )
    return Defaults(
        seam=Length(measures.seam),
        usable_width=Length(40),
        fat_quarter=(Length(18), Length(20)),
        fat_eighth=(Length(9), Length(20)),
        margin=Length(2),
        triangle_oversize=Length(Fraction(1, 2)),
        binding_strip=Length(Fraction(5, 2)),
        binding_extra=Length(12),
        backing_extra=Length(4),
        batting_extra=Length(4),
    )


def paces_for(measures: Measures) -> Paces:
    """Return what one who sews for pleasure does in an hour (common practice, no source)."""
    pinned = (400, 1000) if measures.unit == "cm" else (150, 400)
    return Paces(cuts=(60, 150), seams=(30, 80), presses=(60, 160), pinned=pinned)
