"""Pieced borders: how many of the repeated unit stand along each edge, and what fills up the rest.

As many units as fit stand in the middle of an edge, and a spacer at each end fills up the rest, both alike. One that
would be narrower than half an inch is hardly more than its seams, so then there is one unit less (both common
practice, no source). Or a plain border inside it brings the quilt to a multiple of the unit, as the frame round the
middle of a medallion does: of the widths that such a border may have, the least that does so is taken.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.reading.pattern import Border, Pattern, Size, Widths
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing.blocks import Ruler

LEAST_SPACER_INCHES: Final = Fraction(1, 2)
MAX_UNITS: Final = 200
"""Most units along one edge: a quilt of 400 in takes more of none that is 2 in long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One edge of a pieced border."""

    units: int
    spacer: Length
    """Finished length of the spacer at each end; 0 where the units come out even."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecedBorder:
    """A pieced border of one quilt; left and right are alike, and top and bottom."""

    order: int
    border: Border
    block: str
    unit: Length
    """Finished length of the repeated unit along the border."""
    depth: Length
    """Its finished height, which is the border's width."""
    sides: Fit
    ends: Fit


def pieced_depth(pattern: Pattern, border: Border) -> Length | None:
    """Return the width of a pieced border, the height of its unit; ``None`` for a border of one fabric."""
    size = Ruler(pattern).block(border.pieced) if border.pieced is not None else None
    return size[1] if size else None


def fit_units(edge: Length, unit: Length, least: Length) -> Fit | None:
    """Return how many units an edge takes, with spacers of at least ``least``; ``None`` if not one fits."""
    units = (edge / unit).floor()
    spacer = (edge - unit * units) / 2
    if ZERO < spacer < least:
        units -= 1
        spacer = spacer + unit / 2
    return Fit(units=units, spacer=spacer) if units > 0 else None


def fitting_widths(pattern: Pattern, centre: tuple[Length, Length], ranges: Sequence[Widths]) -> tuple[Length, ...]:
    """Return the width that each border takes: the least, but just inside a pieced one the least that suits its units.

    Args:
        pattern: in the scale of the size.
        centre: finished width and height of the joined rows.
        ranges: the widths that each border may have; where none suits the units, the least is taken.

    """
    w, h = centre
    ruler = Ruler(pattern)
    chosen: list[Length] = []
    for index, widths in enumerate(ranges):
        outer = pattern.borders[index + 1] if index + 1 < len(pattern.borders) else None
        unit = ruler.block(outer.pieced) if outer is not None and outer.pieced is not None else None
        width = widths[0]
        if outer is not None and unit is not None:
            past = ZERO if outer.corner == "cornerstone" else unit[1] * 2
            sides = ((each, h + each * 2, w + each * 2 + past) for each in widths)
            width = next((each for each, *edges in sides if all(_divides(unit[0], edge) for edge in edges)), width)
        chosen.append(width)
        w, h = w + width * 2, h + width * 2
    return tuple(chosen)


def _divides(unit: Length, edge: Length) -> bool:
    count = edge / unit
    return count == count.floor()


def fit_pieced(
    pattern: Pattern, size: Size, centre: tuple[Length, Length], borders: Sequence[tuple[Border, Length]]
) -> tuple[PiecedBorder, ...]:
    """Fit every pieced border of a quilt, from the inside out.

    Args:
        pattern: in the scale of the size.
        size: the size, for its place in the file.
        centre: finished width and height of the joined rows.
        borders: each with its width.

    Raises:
        PatternError: an edge that is shorter than the unit, or takes too many.

    """
    return tuple(_fitted(pattern, size, centre, borders))


def _fitted(
    pattern: Pattern, size: Size, centre: tuple[Length, Length], borders: Sequence[tuple[Border, Length]]
) -> Iterator[PiecedBorder]:
    w, h = centre
    least = Length(pattern.measures.inch * LEAST_SPACER_INCHES)
    ruler = Ruler(pattern)
    for order, (border, width) in enumerate(borders, 1):
        box = ruler.block(border.pieced) if border.pieced is not None else None
        if border.pieced is not None and box is not None:
            across = w if border.corner == "cornerstone" else w + width * 2
            fits: list[Fit] = []
            for edge in (h, across):
                fit = fit_units(edge, box[0], least)
                if fit is None or fit.units > MAX_UNITS:
                    found = f"an edge of {ruler.say(edge)} in size '{size.id}' for a border of units "
                    expected = f"an edge that takes 1 to {MAX_UNITS} of them"
                    raise PatternError([Problem(border.where, f"{found}{ruler.say(box[0])} long", expected)])
                fits.append(fit)
            sides, ends = fits
            yield PiecedBorder(
                order=order, border=border, block=border.pieced, unit=box[0], depth=box[1], sides=sides, ends=ends
            )
        w, h = w + width * 2, h + width * 2
