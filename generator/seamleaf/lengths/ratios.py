"""The arithmetic of fractions that lengths are made of, as ``Fraction`` has it but three times as fast.

The operators of ``Fraction`` look at the types of both sides and at the form of the result, each time anew; a length
knows both, and planning and drawing add up millions of them. Every result here is the ``Fraction`` that those operators
give, in lowest terms, and has its hash. What a ``Fraction`` keeps its parts in is read as it is: the properties that
show them take as long as a sum.
"""

from __future__ import annotations

import functools
import sys
from fractions import Fraction
from math import gcd
from typing import Any, Final

_MODULUS: Final = sys.hash_info.modulus
_new: Final = object.__new__


def ratio(numerator: int, denominator: int) -> Fraction:
    """Return a fraction whose parts have no common divisor; the denominator is above 0."""
    made: Any = _new(Fraction)
    made._numerator = numerator
    made._denominator = denominator
    return made  # type: ignore[no-any-return]  # the types do not know its parts


def whole(number: int) -> Fraction:
    """Return a whole number."""
    return ratio(number, 1)


def total(one: Any, other: Any) -> Fraction:
    """Add two fractions."""
    return _sum(one._numerator, one._denominator, other._numerator, other._denominator)


def difference(one: Any, other: Any) -> Fraction:
    """Take one fraction from another."""
    return _sum(one._numerator, one._denominator, -other._numerator, other._denominator)


def _sum(one: int, below: int, other: int, below_other: int) -> Fraction:
    if below == below_other:
        if below == 1:
            return ratio(one + other, 1)
        added = one + other
        common = gcd(added, below)
        return ratio(added, below) if common == 1 else ratio(added // common, below // common)
    # Knuth, The Art of Computer Programming, volume 2, 4.5.1
    shared = gcd(below, below_other)
    if shared == 1:
        return ratio(one * below_other + other * below, below * below_other)
    part = below // shared
    added = one * (below_other // shared) + other * part
    common = gcd(added, shared)
    return ratio(added // common, part * (below_other // common))


def product(one: Any, other: Any) -> Fraction:
    """Multiply two fractions."""
    top, below, top_other, below_other = one._numerator, one._denominator, other._numerator, other._denominator
    if below_other != 1 and (common := gcd(top, below_other)) != 1:
        top, below_other = top // common, below_other // common
    if below != 1 and (common := gcd(top_other, below)) != 1:
        top_other, below = top_other // common, below // common
    return ratio(top * top_other, below * below_other)


def inverse(one: Any) -> Fraction:
    """Return 1 divided by a fraction.

    Raises:
        ZeroDivisionError: it is 0.

    """
    top, below = one._numerator, one._denominator
    if top == 0:
        raise ZeroDivisionError("a length divided by 0")
    return ratio(below, top) if top > 0 else ratio(-below, -top)


def negative(one: Any) -> Fraction:
    """Return a fraction with the other sign."""
    return ratio(-one._numerator, one._denominator)


def sign_of(one: Any) -> int:
    """Return -1, 0 or 1."""
    top: int = one._numerator
    return (top > 0) - (top < 0)


def same(one: Any, other: Any) -> bool:
    """Tell whether two fractions are equal."""
    equal: bool = one._numerator == other._numerator and one._denominator == other._denominator
    return equal


def order_of(one: Any, other: Any) -> int:
    """Return a number below, at or above 0, as one fraction is less than another, equal or more."""
    compared: int = one._numerator * other._denominator - other._numerator * one._denominator
    return compared


def float_of(one: Any) -> float:
    """Return the nearest number that a computer counts with."""
    near: float = one._numerator / one._denominator
    return near


def hash_of(one: Any) -> int:
    """Return the hash of a fraction."""
    if one._denominator == 1:
        return hash(one._numerator)
    inverse = _inverse(one._denominator)
    if inverse is None:
        return hash(one)
    found = hash(hash(abs(one._numerator)) * inverse)
    return found if one._numerator >= 0 else -2 if found == 1 else -found


@functools.lru_cache(maxsize=4096)
def _inverse(denominator: int) -> int | None:
    """Return what the hash of a fraction is made with, which takes longer than all the rest of it."""
    try:
        return pow(denominator, -1, _MODULUS)
    except ValueError:  # a multiple of the modulus
        return None
