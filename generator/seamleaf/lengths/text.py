"""Lengths as designers write them and as makers read them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final, Literal

from seamleaf.lengths.exact import Length
from seamleaf.lengths.rounding import Measures, UnitName

_GLYPHS: Final = {
    "½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4), "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip
_NUMBER = re.compile(
    r"""(?:(?P<whole>[0-9]{1,6})(?:[ ]+|-)(?P<top>[0-9]{1,4})/(?P<bottom>[0-9]{1,4})   # 3 1/2, 3-1/2
        |(?P<num>[0-9]{1,6})/(?P<den>[0-9]{1,4})                                       # 7/8
        |(?P<glyphed>[0-9]{0,6})[ ]?(?P<glyph>[½⅓⅔¼¾⅛⅜⅝⅞])                             # 3½
        |(?P<decimal>[0-9]{1,6}(?:\.[0-9]{1,6})?))                                     # 3, 3.5
        [ ]*(?P<unit>in|inch|inches|"|″|cm|mm)?""",
    re.VERBOSE,
)
_UNITS: Final[dict[str, Fraction]] = {  # one of each, in millimetres
    "in": Fraction(254, 10), "inch": Fraction(254, 10), "inches": Fraction(254, 10), '"': Fraction(254, 10),
    "″": Fraction(254, 10), "cm": Fraction(10), "mm": Fraction(1),
}  # fmt: skip

_DECIMALS: Final = 6

LENGTH_PATTERN: Final = "(?:{})".format(
    re.sub(r"\s+(?![\]])", "", re.sub(r"\(\?P<\w+>", "(?:", re.sub(r"\s# .*", "", _NUMBER.pattern)))
)
"""What is read as a length, as a regular expression that other programs understand too: without names and comments."""


class LengthError(ValueError):
    """A text that is not a length."""


def parse_length(text: str, unit: UnitName | Literal["plain"]) -> Length:
    """Read ``3``, ``3.5``, ``3 1/2``, ``3-1/2``, ``3½`` or ``7/8``, with an optional ``in``, ``"``, ``cm`` or ``mm``.

    Returns:
        The length in ``unit``; a number without a unit is taken to be in it already. ``plain`` is for
        bare numbers (hours, counts) and allows no unit.

    Raises:
        LengthError: anything else: negative numbers, a denominator of 0, a fraction of 1 or more after a whole number
            (``1 21/2`` is a slip of the hand for ``12 1/2``).

    """
    match = _NUMBER.fullmatch(text.strip())
    if match is None:
        raise LengthError(text)
    part = match.groupdict()
    try:
        if part["whole"] is not None:
            rest = Fraction(int(part["top"]), int(part["bottom"]))
            if rest >= 1:
                raise LengthError(text)
            value = int(part["whole"]) + rest
        elif part["num"] is not None:
            value = Fraction(int(part["num"]), int(part["den"]))
        elif part["glyph"] is not None:
            value = int(part["glyphed"] or 0) + _GLYPHS[part["glyph"]]
        else:
            value = Fraction(part["decimal"])
    except ZeroDivisionError:
        raise LengthError(text) from None
    if part["unit"] is not None:
        if unit == "plain":
            raise LengthError(text)
        value = value * _UNITS[part["unit"]] / _UNITS[unit]
    return Length(value)


def mixed_parts(value: Fraction) -> tuple[int, int, int]:
    """Split a non-negative number for setting as type: whole part, numerator, denominator (0, 1 when whole)."""
    whole, rest = divmod(value, 1)
    return int(whole), rest.numerator, rest.denominator


def say_length(length: Length, measures: Measures) -> str:
    """Write a length for a message: ``3 1/2``; one that no ruler shows to the nearest mark, ``about 8 1/2``."""
    shown = format_rational(measures.shown_size(length).a, measures.unit)
    return shown if length.is_rational else f"about {shown}"


def format_rational(value: Fraction, unit: UnitName) -> str:
    """Write a rational length as a maker reads it: ``3 1/2`` in inches, ``7.5`` in centimetres.

    A centimetre value that decimals cannot hold is written as a fraction, so that nothing is rounded here. Six hold any
    inches in eighths (9 3/4 in is 24.765 cm), and any number that is read.
    """
    if value < 0:
        return f"-{format_rational(-value, unit)}"
    if unit == "cm" and (value * 10**_DECIMALS).denominator == 1:
        whole_cm, rest = divmod(int(value * 10**_DECIMALS), 10**_DECIMALS)
        return f"{whole_cm}.{rest:0{_DECIMALS}d}".rstrip("0").rstrip(".")
    whole, top, bottom = mixed_parts(value)
    if not top:
        return str(whole)
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
