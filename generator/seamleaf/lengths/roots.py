"""Exact answers about a + b*sqrt(n) + d*sqrt(m): lengths along the diagonals of rectangles, which Length cannot hold.

Signs are decided by squaring, with rational numbers alone.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

_PLACES: Final = 64
"""Bits of the root that a first guess takes; the guess is corrected exactly."""


def sign_of(a: Fraction, b: Fraction, n: Fraction, d: Fraction = Fraction(0), m: Fraction = Fraction(0)) -> int:
    """Return the sign of a + b*sqrt(n) + d*sqrt(m), -1, 0 or 1; n and m are not negative."""
    one, two = _sign_of_two(a, b, n), _sign(d * m)
    if not two or one == two:
        return one or two
    if not one:
        return two
    # Of unlike signs the one with the larger square decides: (a + b sqrt n)^2 - d^2 m.
    return one * _sign_of_two(a * a + b * b * n - d * d * m, 2 * a * b, n)


def round_nearest(a: Fraction, b: Fraction, n: Fraction, grid: Fraction) -> Fraction:
    """Return the multiple of ``grid`` nearest to a + b*sqrt(n); a tie goes up."""
    return grid * _floor(a / grid + Fraction(1, 2), b / grid, n)


def round_up(a: Fraction, b: Fraction, n: Fraction, grid: Fraction) -> Fraction:
    """Return the least multiple of ``grid`` that is not below a + b*sqrt(n)."""
    return -grid * _floor(-a / grid, -b / grid, n)


def _floor(a: Fraction, b: Fraction, n: Fraction) -> int:
    root = Fraction(math.isqrt(math.floor(n * 4**_PLACES)), 2**_PLACES)
    guess = math.floor(a + b * root)
    while sign_of(a - guess - 1, b, n) >= 0:
        guess += 1
    while sign_of(a - guess, b, n) < 0:
        guess -= 1
    return guess


def _sign_of_two(a: Fraction, b: Fraction, n: Fraction) -> int:
    one, two = _sign(a), _sign(b * n)
    if not two or one == two:
        return one or two
    if not one:
        return two
    return one * _sign(a * a - b * b * n)


def _sign(value: Fraction) -> int:
    return (value > 0) - (value < 0)
