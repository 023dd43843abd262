"""Values that a pattern need not state, in the pattern's unit.

Inch values convert exactly; where the metric trade has a round number of its own, that stands here.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from seamleaf.lengths import Length, Measures

DEFAULT_COLOUR = "#b8b8b8"


@dataclass(frozen=True, slots=True, kw_only=True)
class Defaults:
    """Sizes for whatever the file leaves out."""

    seam: Length
    usable_width: Length
    """Width of fabric without selvedges: 40 in."""
    fat_quarter: tuple[Length, Length]
    """What a fat quarter is sure to yield: 18 x 20 in."""
    fat_eighth: tuple[Length, Length]
    """What a fat eighth is sure to yield: 9 x 20 in."""
    margin: Length
    """For straightening a cut edge: 2 in."""
    triangle_oversize: Length
    """On the squares that setting triangles are cut from: 1/2 in, 1 cm."""
    binding_strip: Length
    binding_extra: Length
    """For joins and the last seam: 12 in."""
    backing_extra: Length
    """On each side of the top: 4 in."""
    batting_extra: Length


def defaults_for(measures: Measures) -> Defaults:
    """Return the defaults in the unit of ``measures``."""

    def inches(count: Fraction | int) -> Length:
        return Length(measures.inch * count)

    metric = measures.unit == "cm"
    return Defaults(
        seam=Length(measures.seam),
        usable_width=inches(40),
        fat_quarter=(inches(18), inches(20)),
        fat_eighth=(inches(9), inches(20)),
        margin=inches(2),
        triangle_oversize=Length(1) if metric else inches(Fraction(1, 2)),
        binding_strip=inches(Fraction(5, 2)),
        binding_extra=inches(12),
        backing_extra=inches(4),
        batting_extra=inches(4),
    )
