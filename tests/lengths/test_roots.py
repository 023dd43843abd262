"""Signs and roundings of a + b sqrt n + d sqrt m, against exact decimals of many places."""

from __future__ import annotations

from decimal import Decimal, localcontext
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from seamleaf.lengths.roots import round_nearest, round_up, sign_of

rationals = st.fractions(min_value=-50, max_value=50, max_denominator=64)
squares = st.fractions(min_value=0, max_value=400, max_denominator=64)


def value(a: Fraction, b: Fraction, n: Fraction, d: Fraction = Fraction(0), m: Fraction = Fraction(0)) -> Decimal:
    with localcontext() as context:
        context.prec = 80
        one, two = decimal(n).sqrt(), decimal(m).sqrt()
        return decimal(a) + decimal(b) * one + decimal(d) * two


def decimal(number: Fraction) -> Decimal:
    return Decimal(number.numerator) / Decimal(number.denominator)


@given(a=rationals, b=rationals, n=squares, d=rationals, m=squares)
def test_a_sign_is_that_of_eighty_decimals(a: Fraction, b: Fraction, n: Fraction, d: Fraction, m: Fraction) -> None:
    near = value(a, b, n, d, m)
    real = 0 if abs(near) < Decimal("1e-60") else 1 if near > 0 else -1
    assert sign_of(a, b, n, d, m) == real


@given(a=rationals, d=rationals, root=rationals, m=squares)
def test_what_cancels_is_nought(a: Fraction, d: Fraction, root: Fraction, m: Fraction) -> None:
    """With n a square, b sqrt n is rational; d sqrt m against itself leaves nothing."""
    assert sign_of(-a * abs(root), a, root * root) == 0
    assert sign_of(Fraction(0), d, m, -d, m) == 0


@given(a=rationals, b=rationals, n=squares, grid=st.sampled_from([Fraction(1, 8), Fraction(1, 10)]))
def test_roundings_are_multiples_on_their_side(a: Fraction, b: Fraction, n: Fraction, grid: Fraction) -> None:
    up, near = round_up(a, b, n, grid), round_nearest(a, b, n, grid)
    assert (up / grid).denominator == (near / grid).denominator == 1
    assert sign_of(a - up, b, n) <= 0 < sign_of(a - up + grid, b, n)
    assert sign_of(a - near - grid / 2, b, n) < 0 <= sign_of(a - near + grid / 2, b, n)
