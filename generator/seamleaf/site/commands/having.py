"""How much a maker has of a pattern's fabrics, as it is told: ``ground 1 7/8 yd``, ``star 38``."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.booklet.record import FabricNote
from seamleaf.booklet.sewn import fabrics_of
from seamleaf.lengths import CENTIMETRES, Length, Measures
from seamleaf.lengths.text import LengthError, parse_length
from seamleaf.reading.pattern import Fabric, Pattern
from seamleaf.reading.wording import quoted

_UNITS: Final = {"yd": Fraction(36), "m": 100 / CENTIMETRES.inch, "in": Fraction(1), "cm": 1 / CENTIMETRES.inch}
"""What a length may be told in, in inches."""
_AMOUNT: Final = re.compile(r"(?P<fabric>\S+)\s+(?P<number>.*?\d[^\sa-z]*)\s*(?P<unit>yd|m|in|cm|packs?|pieces?)?")


class HavingError(Exception):
    """An amount that cannot be understood; the message says what was found and what was expected."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Have:
    """How much of one fabric there is: inches of yardage, or pieces of a bundle."""

    fabric: str
    told: str
    """As it was said."""
    inches: Length | None
    pieces: int | None

    def is_enough(self, fabrics: Sequence[FabricNote], measures: Measures) -> bool:
        """Tell whether it gives what a plan takes, with what straightening the edges takes."""
        note = note_of(fabrics, self.fabric)
        return note is None or self.gives(note.need, note.margin, measures)

    def gives(self, amount: Length | int, margin: Length, measures: Measures) -> bool:
        """Tell whether it gives so much, of yardage with a margin."""
        return self._gives(amount + margin if isinstance(amount, Length) else amount, measures)

    def gives_share(self, share: Fraction, fabrics: Sequence[FabricNote], measures: Measures) -> bool:
        """Tell whether it gives a share of what a plan takes."""
        note = note_of(fabrics, self.fabric)
        return note is None or self._gives(note.need * share, measures)

    def _gives(self, amount: Length | Fraction | int, measures: Measures) -> bool:
        if isinstance(amount, Length):
            return self.inches is not None and self.inches * measures.inch >= amount
        return self.pieces is not None and self.pieces >= amount


def read_haves(told: Sequence[str], pattern: Pattern) -> list[Have]:
    """Read what is told of a pattern's fabrics: ``ground 1 7/8 yd``, ``star 38`` or ``star 1 pack``.

    Raises:
        HavingError: another form, an unknown fabric, a unit that its source is not bought in.

    """
    fabrics = fabrics_of(pattern)
    return [_read_have(each, fabrics) for each in told]


def _read_have(text: str, fabrics: Mapping[str, Fabric]) -> Have:
    match = _AMOUNT.fullmatch(text.strip())
    known = ", ".join(fabrics)
    if match is None:
        raise HavingError(f"found {quoted(text)}, expected a fabric and an amount: 'ground 1 7/8 yd' or 'star 38'")
    name, unit = match["fabric"], (match["unit"] or "").rstrip("s")
    if name not in fabrics:
        raise HavingError(f"found fabric {quoted(name)}, expected one of {known}")
    fabric = fabrics[name]
    try:
        number = parse_length(match["number"], "plain").a
    except LengthError:
        raise HavingError(f"found the amount {quoted(match['number'])}, expected a number such as 1 7/8") from None
    if fabric.is_yardage:
        if unit not in _UNITS:
            raise HavingError(f"found {quoted(text)}, expected yardage in yd, m, in or cm")
        return Have(fabric=name, told=text.strip(), inches=Length(number * _UNITS[unit]), pieces=None)
    if unit in _UNITS or number.denominator != 1:
        raise HavingError(f"found {quoted(text)}, expected whole pieces or packs of a bundle")
    if unit == "pack" and fabric.pack is None:
        raise HavingError(f"found {quoted(text)}, but the pattern does not say how many pieces a pack holds")
    each = fabric.pack if unit == "pack" and fabric.pack is not None else 1
    return Have(fabric=name, told=text.strip(), inches=None, pieces=int(number) * each)


def note_of(fabrics: Sequence[FabricNote], fabric: str) -> FabricNote | None:
    """Return what a booklet says of a fabric, ``None`` if its size uses none."""
    return next((note for note in fabrics if note.id == fabric), None)
