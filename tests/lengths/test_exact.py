"""The number a + b*sqrt(2): field, order, integer parts and notation, against 60-digit decimals."""

from __future__ import annotations

import copy
import pickle
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seamleaf.lengths import ZERO, Length
from strategies import lengths, near_misses, rationals

DIGITS = 120
"""Of the reference: the strategies' near misses lie some 1e-20 from 0, with parts of 1e20 and more."""


def decimal_of(length: Length) -> Decimal:
    """Return the reference value; the caller sets the precision."""
    a, b = length.a, length.b
    rational = Decimal(a.numerator) / Decimal(a.denominator)
    return rational + Decimal(b.numerator) / Decimal(b.denominator) * Decimal(2).sqrt()


# ------------------------------------------------------------------------------------------------- field


@given(lengths(), lengths(), lengths())
def test_sums_and_products_associate_commute_and_distribute(x: Length, y: Length, z: Length) -> None:
    assert (x + y) + z == x + (y + z)
    assert x + y == y + x
    assert (x * y) * z == x * (y * z)
    assert x * y == y * x
    assert x * (y + z) == x * y + x * z


@given(lengths())
def test_zero_and_one_are_neutral_and_every_length_has_its_negative(x: Length) -> None:
    assert x + ZERO == x == x * 1
    assert x - x == ZERO == x + -x
    assert x * 0 == ZERO


@given(lengths(), lengths().filter(bool))
def test_division_undoes_multiplication(x: Length, y: Length) -> None:
    assert x * y / y == x
    assert x / y * y == x


@given(lengths(), rationals())
def test_plain_rationals_mix_in_on_either_side(x: Length, r: Fraction) -> None:
    assert x + r == r + x == x + Length(r)
    assert x - r == x - Length(r)
    assert r - x == Length(r) - x
    assert x * r == r * x == x * Length(r)
    if r:
        assert x / r == x / Length(r)


@given(lengths())
def test_times_root2_twice_doubles(x: Length) -> None:
    assert x.times_root2() == x * Length(0, 1)
    assert x.times_root2().times_root2() == x * 2


def test_division_by_nothing_is_refused() -> None:
    for nothing in (ZERO, 0, Fraction(0)):
        with pytest.raises(ZeroDivisionError):
            Length(1) / nothing


def test_no_float_gets_in() -> None:
    """A float would decide a cut by its last bit; building, mixing and comparing with one are all refused."""
    for attempt in (
        lambda: Length(0.5),  # type: ignore[arg-type]  # the mistake that the test is about
        lambda: Length(1, 0.5),  # type: ignore[arg-type]  # the mistake that the test is about
        lambda: Length(1) + 0.5,  # type: ignore[operator]  # the mistake that the test is about
        lambda: Length(1) * 0.5,  # type: ignore[operator]  # the mistake that the test is about
        lambda: Length(1) / 0.5,  # type: ignore[operator]  # the mistake that the test is about
        lambda: Length(1) < 0.5,  # type: ignore[operator]  # the mistake that the test is about
    ):
        with pytest.raises(TypeError):
            attempt()


def test_a_length_cannot_be_changed() -> None:
    length = Length(1, 2)
    with pytest.raises(AttributeError, match="immutable"):
        length.a = Fraction(3)
    assert length == Length(1, 2)


@given(lengths())
def test_copies_and_pickles_are_equal(x: Length) -> None:
    assert copy.deepcopy(x) == x
    assert pickle.loads(pickle.dumps(x)) == x  # noqa: S301 -- what the line itself has just written


# ------------------------------------------------------------------------------------------------- order


@given(lengths(), lengths())
def test_the_order_is_that_of_high_precision_decimals(x: Length, y: Length) -> None:
    with localcontext() as context:
        context.prec = DIGITS
        difference = decimal_of(x) - decimal_of(y)
    expected = 0 if (x.a, x.b) == (y.a, y.b) else (1 if difference > 0 else -1)
    assert (x - y).sign() == expected
    assert (x < y, x <= y, x == y, x >= y, x > y) == (
        expected < 0,
        expected <= 0,
        expected == 0,
        expected >= 0,
        expected > 0,
    )


@given(lengths(), lengths(), lengths())
def test_the_order_is_total_and_kept_by_sums(x: Length, y: Length, z: Length) -> None:
    assert (x < y) + (x == y) + (x > y) == 1
    if x <= y:
        assert x + z <= y + z
    assert sorted([x, y, z]) == sorted([z, y, x])


@given(near_misses().filter(bool))
def test_near_misses_have_a_sign_that_floats_lose(x: Length) -> None:
    """p/q above sqrt(2) and below it take turns, so that no float could decide both."""
    with localcontext() as context:
        context.prec = DIGITS
        assert x.sign() == (1 if decimal_of(x) > 0 else -1)
    assert abs(x) > 0
    assert abs(x) == abs(-x)


@given(lengths(), rationals())
def test_equal_numbers_hash_alike_across_types(x: Length, r: Fraction) -> None:
    assert hash(x) == hash(Length(x.a, x.b))
    assert Length(r) == r
    assert hash(Length(r)) == hash(r)
    assert {Length(3): "three"}[3] == "three"  # type: ignore[index]  # equal keys of two types are the point
    assert x != "3"


# --------------------------------------------------------------------------------------------- integer parts


@given(lengths())
def test_floor_and_ceil_are_the_integers_around(x: Length) -> None:
    assert x.floor() <= x < x.floor() + 1
    assert x.ceil() - 1 < x <= x.ceil()
    assert type(x.floor()) is int


@given(lengths(), st.sampled_from([Fraction(1, 8), Fraction(1, 4), Fraction(1, 10), Fraction(1), Fraction(9, 2)]))
def test_round_up_gives_the_least_multiple_that_holds_the_length(x: Length, grid: Fraction) -> None:
    up = x.round_up(grid)
    assert up.is_rational
    assert (up.a / grid).denominator == 1
    assert up - grid < x <= up


@given(lengths(), st.sampled_from([Fraction(1, 8), Fraction(1, 10)]))
def test_round_nearest_is_off_by_half_a_step_at_most(x: Length, grid: Fraction) -> None:
    near = x.round_nearest(grid)
    assert (near.a / grid).denominator == 1
    assert -grid / 2 < near - x <= grid / 2


def test_a_tie_is_rounded_up() -> None:
    assert Length(Fraction(1, 16)).round_nearest(Fraction(1, 8)) == Fraction(1, 8)
    assert Length(Fraction(-1, 16)).round_nearest(Fraction(1, 8)) == 0


@given(st.builds(Length, rationals(), rationals()))
def test_to_float_is_near_enough_for_a_drawing(x: Length) -> None:
    with localcontext() as context:
        context.prec = DIGITS
        assert abs(Decimal(x.to_float()) - decimal_of(x)) < Decimal("1e-8")


# -------------------------------------------------------------------------------------------------- notation


@given(lengths())
def test_the_exact_notation_round_trips(x: Length) -> None:
    assert Length.from_exact_text(x.exact_text()) == x


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (Length(Fraction(9, 2)), "9/2"),
        (Length(0, 24), "0+24*r2"),
        (Length(Fraction(-1, 8), Fraction(-3, 4)), "-1/8-3/4*r2"),
        (Length(7), "7"),
        (ZERO, "0"),
        (Length(-3, 1), "-3+1*r2"),
    ],
)
def test_the_exact_notation_is_in_lowest_terms_with_the_rational_part_always_there(length: Length, text: str) -> None:
    assert length.exact_text() == text
    assert Length.from_exact_text(text) == length
    assert repr(length) == f"Length({text!r})"


@pytest.mark.parametrize(
    "text",
    ["", "x", "1.5", "1/0", "0+1/0*r2", "1/-2", "+1", "--1", "1+-1*r2", "24*r2", "1+2*r3", "1+2r2", " 1", "1\n",
     "1 1/2", "١", "1e3", "1/2/3", "0 + 1*r2"],
)  # fmt: skip
def test_anything_else_is_no_exact_length(text: str) -> None:
    with pytest.raises(ValueError, match="not an exact length"):
        Length.from_exact_text(text)
