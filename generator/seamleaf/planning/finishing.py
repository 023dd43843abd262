"""Borders, binding, backing and batting: lengths from the exact size, strips after what the joins eat."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from seamleaf.lengths import Length, Measures
from seamleaf.planning.finish_records import BattingNote, BorderStrip, Package

Corner = Literal["butted", "mitred", "cornerstone"]

BACKING_JOIN_INCHES: Final = 1
"""What a join of two backing panels loses: two seams of 1/2 in (quiltingboard.com t290638)."""

BACKING_ALLOWANCE: Final = {"in": Length(Fraction(1, 2)), "cm": Length(Fraction(5, 4))}
"""The seam of such a join, whatever the pattern's own: in centimetres what a ruler shows of 1/2 in, rounded down."""

BATTING_PACKAGES: Final = (
    # Sizes in inches that the trade sells (honeybegood.com 2012; primitivequiltsandprojects.com).
    ("craft", 34, 45),
    ("crib", 45, 60),
    ("twin", 72, 90),
    ("full", 81, 96),
    ("queen", 90, 108),
    ("king", 120, 120),
)


def strips_needed(need: Length, usable: Length, width: Length) -> tuple[int, Length]:
    """Return how many strips give ``need`` when joined on the diagonal, and how long they are then.

    Every join eats one strip width: n strips give n * usable - (n - 1) * width (derived; one cut width per
    seam at quiltingboard.com t109880).
    """
    count = 1
    if need > usable:
        count += ((need - usable) / (usable - width)).ceil()
    return count, usable * count - width * (count - 1)


def lengthwise_strips(need: Length, longest: Length, width: Length, measures: Measures) -> tuple[int, Length]:
    """Return how many strips along the fabric, of at most ``longest``, give ``need`` when joined, and their length.

    Every join eats one strip width, as it does across the fabric. All are of one length, which goes up to the grid.
    """
    grid = measures.cut_grid
    count, _ = strips_needed(need, Length((longest / grid).floor() * grid), width)
    return count, ((need + width * (count - 1)) / count).round_up(grid)


MITRE_EXTRA: Final = {"in": 4, "cm": 12}
"""What a mitred strip has beyond the outer edge, half at each end (sources give 1 to 6 in: allpeoplequilt.com,
mitering-borders; quiltingboard.com t168402); a round number of centimetres that is no less."""


def border_strips(
    corner: Corner, w: Length, h: Length, width: Length, seam: Length, measures: Measures
) -> tuple[BorderStrip, ...]:
    """Return the cut strips of a border round a quilt of finished size w x h, in sewing order: sides first.

    Butted: the sides are as long as the quilt, top and bottom as wide as it is with the sides on
    (allpeoplequilt.com, border-and-corner-blocks). With cornerstones: all as long as the quilt's edge. Mitred: as
    long as the outer edge, and some. Lengths that geometry makes irrational go up to the grid.
    """
    if corner == "mitred":
        return mitred_strips(w, h, width, width, seam, measures)
    around = seam * 2
    if corner == "cornerstone":
        side, across = h + around, w + around
    else:
        side, across = h + around, w + width * 2 + around
    return _four_strips(side, across, width + around, measures)


def mitred_strips(
    w: Length, h: Length, width: Length, all_widths: Length, seam: Length, measures: Measures
) -> tuple[BorderStrip, ...]:
    """Return the cut strips of a mitred border: as long as the outer edge of all that is mitred as one, and some.

    Args:
        w: finished width of the quilt inside the borders that are mitred as one.
        h: its finished height.
        width: finished width of this border.
        all_widths: of all the borders that are mitred as one (side + 2 x the sum of widths + some, published for
            borders of 1, 2 1/2 and 3 1/2 in by a hobby page on mitred borders).
        seam: the seam allowance.
        measures: of the pattern.

    """
    extra = all_widths * 2 + MITRE_EXTRA[measures.unit]
    return _four_strips(h + extra, w + extra, width + seam * 2, measures)


def _four_strips(side: Length, across: Length, cut: Length, measures: Measures) -> tuple[BorderStrip, ...]:
    side, across = measures.cut_size(side), measures.cut_size(across)
    return (
        BorderStrip(edge="left", length=side, w=cut),
        BorderStrip(edge="right", length=side, w=cut),
        BorderStrip(edge="top", length=across, w=cut),
        BorderStrip(edge="bottom", length=across, w=cut),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """A backing: panels of the usable width by ``length``, and how their seams run."""

    panels: int
    length: Length
    seam: Literal["none", "vertical", "horizontal"]


def plan_backing(w: Length, h: Length, usable: Length, measures: Measures, *, directional: bool = False) -> Back:
    """Return the direction of seams that needs less fabric; of equals the one with fewer seams, then horizontal.

    p panels cover p * usable - (p - 1) * 1 in across their seams. A directional print decides: it stands upright on
    panels that run from top to bottom, and on no others (common practice, no source).
    """
    upright = Back(panels=panels_across(w, usable, measures), length=measures.cut_size(h), seam="vertical")
    lying = Back(panels=panels_across(h, usable, measures), length=measures.cut_size(w), seam="horizontal")
    best = upright if directional else min((lying, upright), key=lambda back: (back.length * back.panels, back.panels))
    return best if best.panels > 1 else Back(panels=1, length=best.length, seam="none")


def panels_across(across: Length, usable: Length, measures: Measures) -> int:
    """Return how many panels lie side by side across a back."""
    join = measures.inch * BACKING_JOIN_INCHES
    return 1 if across <= usable else 1 + ((across - usable) / (usable - join)).ceil()


def plan_batting(w: Length, h: Length, measures: Measures) -> BattingNote:
    """Return the smallest trade size, by area, that holds w x h either way round.

    In centimetres it is told in whole ones, rounded down, so that what is said to hold the batting does.
    """
    for name, short, long in sorted(BATTING_PACKAGES, key=lambda package: package[1] * package[2]):
        a, b = (Length(measures.inch * side).floor() for side in (short, long))
        if (w <= a and h <= b) or (w <= b and h <= a):
            return BattingNote(w=w, h=h, package=Package(id=name, w=Length(a), h=Length(b)))
    return BattingNote(w=w, h=h, package=None)
