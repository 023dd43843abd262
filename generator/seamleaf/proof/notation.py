"""The value notation of published files, read strictly.

``LENGTH = RAT [("+"|"-") URAT "*r2"]``, ``RAT = ["-"] URAT``, ``URAT = digits ["/" digits]``: lowest terms, no ``/1``,
no leading zeros, no minus before 0, the root part left out when it is 0.
"""

from __future__ import annotations

import functools
import math
import re
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length

MAX_CHARACTERS: Final = 120
"""No length of a quilt needs more; longer text is damage, and would cost time to reckon with."""

_DIGITS: Final = r"(?:0|[1-9][0-9]*)"
_URAT: Final = rf"({_DIGITS})(?:/([1-9][0-9]*))?"
_RATIONAL: Final = re.compile(rf"(-?){_URAT}")
_LENGTH: Final = re.compile(rf"(-?){_URAT}(?:([+-]){_URAT}\*r2)?")


class NotationError(ValueError):
    """A text that is not in the notation; the message says what is wrong with it."""


@functools.lru_cache(maxsize=20_000)
def read_length(text: str) -> Length:
    """Read a length.

    Raises:
        NotationError: the text breaks a rule of the notation.

    """
    match = _matched(_LENGTH, text, "an exact length")
    minus, top, bottom, sign, root_top, root_bottom = match.groups()
    rational = _ratio(minus, top, bottom, text)
    if sign is None:
        return Length(rational)
    root = _ratio(sign, root_top, root_bottom, text)
    if not root:
        raise NotationError(f"the root part of {text} is 0 and should be left out")
    return Length(rational, root)


@functools.lru_cache(maxsize=2_000)
def read_rational(text: str) -> Fraction:
    """Read a rational number.

    Raises:
        NotationError: the text breaks a rule of the notation.

    """
    minus, top, bottom = _matched(_RATIONAL, text, "a rational").groups()
    return _ratio(minus, top, bottom, text)


def _matched(rule: re.Pattern[str], text: str, what: str) -> re.Match[str]:
    if len(text) > MAX_CHARACTERS:
        raise NotationError(f"{len(text)} characters where {what} is expected")
    match = rule.fullmatch(text)
    if match is None:
        raise NotationError(f"{text!r} is not {what}")
    return match


def _ratio(sign: str, top: str, bottom: str | None, text: str) -> Fraction:
    p, q = int(top), int(bottom or 1)
    if bottom == "1":
        raise NotationError(f"{text} has a denominator of 1, which should be left out")
    if math.gcd(p, q) != 1:
        raise NotationError(f"{text} is not in lowest terms")
    if sign == "-" and p == 0:
        raise NotationError(f"{text} has a minus before 0")
    return Fraction(-p if sign == "-" else p, q)
