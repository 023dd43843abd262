"""The fast arithmetic of fractions gives what ``Fraction`` gives, in lowest terms and with its hash."""

from __future__ import annotations

import sys
from fractions import Fraction

import pytest
from hypothesis import given

from seamleaf.lengths import ratios
from strategies import rationals


def parts(number: Fraction) -> tuple[int, int]:
    """Return what is in a fraction, not what it is equal to."""
    return number.numerator, number.denominator


@given(rationals(), rationals())
def test_sums_and_products_are_those_of_fractions(one: Fraction, other: Fraction) -> None:
    assert parts(ratios.total(one, other)) == parts(one + other)
    assert parts(ratios.difference(one, other)) == parts(one - other)
    assert parts(ratios.product(one, other)) == parts(one * other)
    assert parts(ratios.negative(one)) == parts(-one)
    if one:
        assert parts(ratios.inverse(one)) == parts(1 / one)


@given(rationals(), rationals())
def test_order_and_equality_are_those_of_fractions(one: Fraction, other: Fraction) -> None:
    for left, right in ((one, other), (one, one + 0)):
        assert ratios.same(left, right) == (left == right)
        assert (ratios.order_of(left, right) < 0) == (left < right)
        assert (ratios.order_of(left, right) > 0) == (left > right)
    assert ratios.sign_of(one) == (one > 0) - (one < 0)


@given(rationals())
def test_hashes_are_those_of_fractions(one: Fraction) -> None:
    assert ratios.hash_of(one) == hash(one)


@pytest.mark.parametrize("bottom", [1, 3, sys.hash_info.modulus, sys.hash_info.modulus * 2])
def test_hashes_of_odd_fractions_too(bottom: int) -> None:
    for top in (0, 1, -1, 1 << 70, -(1 << 70) - 1, -sys.hash_info.modulus - 1):
        made = Fraction(top, bottom)
        assert ratios.hash_of(made) == hash(made)


def test_nothing_is_divided_by_nought() -> None:
    with pytest.raises(ZeroDivisionError):
        ratios.inverse(Fraction(0))
