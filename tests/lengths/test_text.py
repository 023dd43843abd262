"""Lengths as designers write them and makers read them: every form of the pattern file, and nothing else."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seamleaf.lengths import Length, LengthError, format_rational, mixed_parts, parse_length

F = Fraction


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("3", F(3)), ("3.5", F(7, 2)), ("3 1/2", F(7, 2)), ("3-1/2", F(7, 2)), ("3½", F(7, 2)), ("3 ½", F(7, 2)),
        ("7/8", F(7, 8)), ("½", F(1, 2)), ("0", F(0)), ("0.125", F(1, 8)), ("10  3/4", F(43, 4)), ("9/8", F(9, 8)),
        ("  2 1/2  ", F(5, 2)), ("3 in", F(3)), ("3in", F(3)), ('3"', F(3)), ('3 1/2"', F(7, 2)), ("3½ in", F(7, 2)),
        ("1 inch", F(1)), ("2 inches", F(2)), ("2″", F(2)), ("2.54 cm", F(1)), ("25.4 mm", F(1)), ("5 cm", F(250, 127)),
        ("⅛", F(1, 8)), ("⅜", F(3, 8)), ("⅝", F(5, 8)), ("⅞", F(7, 8)), ("¼", F(1, 4)), ("¾", F(3, 4)), ("⅓", F(1, 3)),
        ("⅔", F(2, 3)),
    ],
)  # fmt: skip
def test_every_written_form_is_read_exactly(text: str, inches: Fraction) -> None:
    assert parse_length(text, "in") == inches


def test_a_unit_converts_exactly_and_a_bare_number_is_in_the_patterns_unit() -> None:
    """One inch is 25.4 mm exactly since 1959 (NBS Circular 572, addendum of 22 January 1960)."""
    assert parse_length("1", "cm") == 1
    assert parse_length("1 in", "cm") == F(254, 100)
    assert parse_length("7.5 mm", "cm") == F(3, 4)
    assert parse_length("1 cm", "in") == F(100, 254)


@pytest.mark.parametrize(
    "text",
    ["", " ", "x", "-3", "+3", "1/0", "3 1/0", "3 1/", "/2", ".5", "3.", "3,5", "1e3", "0x10", "1_000", "1:30", "٣",
     "²", "3 feet", "3 yd", "3 IN", "3'", "½½", "1/2 1/2", "3 - 1/2", "3 1 2", "in", "1 21/2", "3 2/2", "3 0.5",
     "0.5/2", "1234567", "3 in in", "nan", "inf", "3 in cm", "1 1/2 3", "½ 3", "3\n1/2", "--", "null"],
)  # fmt: skip
def test_anything_else_is_refused(text: str) -> None:
    """A fraction of 1 or more after a whole number is refused as well: ``1 21/2`` was meant to be ``12 1/2``."""
    for unit in ("in", "cm", "plain"):
        with pytest.raises(LengthError):
            parse_length(text, unit)  # type: ignore[arg-type]  # the loop's words are the three units


def test_a_plain_number_has_no_unit() -> None:
    assert parse_length("2.5", "plain") == F(5, 2)
    for text in ("3 in", "3 cm", '3"'):
        with pytest.raises(LengthError):
            parse_length(text, "plain")


@given(st.text(max_size=12))
def test_any_text_is_a_length_or_a_length_error(text: str) -> None:
    try:
        length = parse_length(text, "in")
    except LengthError:
        return
    assert isinstance(length, Length)
    assert length >= 0


@given(st.integers(0, 999_999), st.integers(1, 64).flatmap(lambda d: st.tuples(st.integers(0, d - 1), st.just(d))))
def test_a_formatted_length_reads_back(whole: int, fraction: tuple[int, int]) -> None:
    value = whole + F(*fraction)
    for unit in ("in", "cm"):
        name: Literal["in", "cm"] = "in" if unit == "in" else "cm"
        assert parse_length(format_rational(value, name), name) == value


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (F(7, 2), "in", "3 1/2"), (F(1, 8), "in", "1/8"), (F(4), "in", "4"), (F(0), "in", "0"),
        (F(-7, 2), "in", "-3 1/2"), (F(-1, 8), "in", "-1/8"),
        (F(15, 2), "cm", "7.5"), (F(10), "cm", "10"), (F(100), "cm", "100"), (F(1, 20), "cm", "0.05"),
        (F(0), "cm", "0"), (F(-5, 4), "cm", "-1.25"), (F(-1, 4), "cm", "-0.25"), (F(-3), "cm", "-3"),
        (F(10, 3), "cm", "3 1/3"), (F(39, 4) * F(254, 100), "cm", "24.765"), (F(1, 64) * F(254, 100), "cm", "127/3200"),
    ],
)  # fmt: skip
def test_makers_read_fractions_of_an_inch_and_decimals_of_a_centimetre(value: F, unit: str, text: str) -> None:
    """A centimetre value that decimals cannot hold stays a fraction, so that nothing is rounded in writing."""
    assert format_rational(value, "in" if unit == "in" else "cm") == text


def test_mixed_parts_split_a_number_for_setting_as_type() -> None:
    assert mixed_parts(F(31, 8)) == (3, 7, 8)
    assert mixed_parts(F(4)) == (4, 0, 1)
    assert mixed_parts(F(7, 8)) == (0, 7, 8)
