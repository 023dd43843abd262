"""The notation of values: LENGTH = RAT [("+"|"-") URAT "*r2"], lowest terms, no /1, the root part left out when 0."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given

from seamleaf.lengths import Length
from seamleaf.proof.notation import NotationError, read_length, read_rational
from strategies import lengths, rationals


@given(length=lengths())
def test_every_length_is_read_as_it_is_written(length: Length) -> None:
    assert read_length(length.exact_text()) == length


@given(rational=rationals())
def test_every_rational_is_read_as_it_is_written(rational: Fraction) -> None:
    assert read_rational(str(rational)) == rational


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "1 ", " 1", "+1", "--1", "1.5", "1,5", "1e3", "one", "0x1", "1_000", "٣", "1/2/3", "1/", "/2",
        "1/0", "0/1", "0/2", "2/1", "4/2", "9/6", "01", "1/02", "00", "-0", "-0/1", "1/-2",
        "0+*r2", "*r2", "1*r2", "0*r2", "1+r2", "1+1*r3", "1+1r2", "1 + 1*r2", "1+0*r2", "1-0*r2", "1+2/4*r2",
        "1+-1*r2", "1+1*r2+1", "1+1*r2 ", "0+1/1*r2", "1+01*r2", "1\n", "1" * 121,
    ],
)  # fmt: skip
def test_what_breaks_a_rule_is_refused(text: str) -> None:
    with pytest.raises(NotationError):
        read_length(text)


@pytest.mark.parametrize("text", ["1+1*r2", "4/2", "1.5", "", "-0"])
def test_a_rational_has_no_root_and_no_shorter_form(text: str) -> None:
    with pytest.raises(NotationError):
        read_rational(text)
