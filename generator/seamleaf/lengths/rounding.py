"""The named roundings: one rule a use, decided at the edge and nowhere else.

A cut that geometry makes irrational goes up to the ruler's grid; a size shown to the reader goes to
the nearest mark and is called "about"; a purchase goes up. Nothing that is cut or bought goes down.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from seamleaf.lengths.exact import Length

UnitName = Literal["in", "cm"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """What depends on the unit a pattern is written in: the ruler's grid, and how a shop sells."""

    unit: UnitName
    cut_grid: Fraction
    """The ruler's smallest mark: 1/8 in, 1 mm."""
    buy_unit: Literal["yd", "m"]
    buy_length: Fraction
    """One yard or metre, in the pattern's unit."""
    buy_grid: Fraction
    """The steps in which a shop sells, in ``buy_unit``: 1/8 yd, 10 cm."""
    seam: Fraction
    """The seam allowance of a pattern that names none."""
    inch: Fraction
    """One inch in the pattern's unit, exact since 1959 (NBS Circular 572, addendum of 1960)."""

    def cut_size(self, exact: Length) -> Length:
        """Round an irrational cut up to the grid; a rational one stays as the designer wrote it."""
        return exact if exact.is_rational else exact.round_up(self.cut_grid)

    def shown_size(self, exact: Length) -> Length:
        """Round an irrational size to the nearest mark, for reading ("about"); a rational one stays."""
        return exact if exact.is_rational else exact.round_nearest(self.cut_grid)

    def purchase(self, need: Length) -> Fraction:
        """Return the amount to buy, in ``buy_unit``: never less than ``need``."""
        return (need / self.buy_length).round_up(self.buy_grid).a

    def half_square_allowance(self, seam: Length) -> Length:
        """Return what a half-square's square adds to the finished side: s(2 + sqrt 2) rounded up (7/8 at 1/4 in)."""
        return self.cut_size(seam * Length(2, 1))

    def quarter_square_allowance(self, seam: Length) -> Length:
        """Return what a quarter-square's square adds: s(2 + 2 sqrt 2) rounded up (1 1/4 at 1/4 in)."""
        return self.cut_size(seam * Length(2, 2))


INCHES: Final = Measures(
    unit="in",
    cut_grid=Fraction(1, 8),
    buy_unit="yd",
    buy_length=Fraction(36),
    buy_grid=Fraction(1, 8),
    seam=Fraction(1, 4),
    inch=Fraction(1),
)
CENTIMETRES: Final = Measures(
    unit="cm",
    cut_grid=Fraction(1, 10),
    buy_unit="m",
    buy_length=Fraction(100),
    buy_grid=Fraction(1, 10),
    seam=Fraction(3, 4),
    inch=Fraction(254, 100),
)


def measures_of(unit: UnitName) -> Measures:
    """Return the measures of a pattern's unit."""
    return INCHES if unit == "in" else CENTIMETRES
