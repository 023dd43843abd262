"""Bias binding from a square: the exact length, against the trade's area rule and its tables."""

from __future__ import annotations

from fractions import Fraction
from math import isqrt
from pathlib import Path
from typing import Any

import pytest

from patterns_for_tests import booklet_of, inches, refusals_of
from seamleaf.booklet import to_json
from seamleaf.lengths import Length
from seamleaf.planning.bias import bias_length, plan_bias
from seamleaf.proof import prove

SEAM = Length(Fraction(1, 4))


@pytest.mark.parametrize(
    ("need", "width", "published", "source"),
    [
        ("250", "2", 23, "sqrt(250 x 2) = 22.36, so 23: check-value of a continuous bias lesson, hobby page"),
        ("55", "2 1/2", 12, "sqrt(55 x 2.5) = 11.73, so 12: a second hobby page"),
        ("100", "3 1/2", 19, "sqrt(100 x 3.5) = 18.71, at least 19: a third hobby page"),
        ("480", "1 1/2", 28, "published table of squares: 480 in of 1 1/2 in"),
        ("480", "2", 33, "published table of squares: 480 in of 2 in"),
        ("480", "2 1/2", 37, "published table of squares: 480 in of 2 1/2 in"),
        ("480", "3", 40, "published table of squares: 480 in of 3 in"),
    ],
)
def test_the_square_is_no_smaller_than_the_area_rule_asks_and_at_most_three_inches_larger(
    need: str, width: str, published: int, source: str
) -> None:
    """Other sources add 2 or 3 in to the root for seams and rests; the exact side lies between the two."""
    plan = plan_bias(inches(need), inches(width), SEAM, Length(42))
    assert plan is not None
    area = (inches(need) * inches(width)).a
    bare = isqrt(area.numerator // area.denominator)
    assert bare < plan.side.a <= bare + 4, source
    assert plan.side.a >= published - 2, source
    assert plan.length >= inches(need)
    assert bias_length(plan.side - 1, inches(width), SEAM)[1] < inches(need)


def test_a_twenty_inch_square_gives_less_than_the_two_hundred_inches_of_the_area_rule() -> None:
    """20^2 / 2 = 200 in (published); six whole strips of 19 1/2 sqrt 2 are 165.46 in: derived."""
    rounds, length = bias_length(Length(20), Length(2), SEAM)
    assert (rounds, length) == (6, Length(0, 117))
    assert length < 200
    without_loss = bias_length(Length(200), Length(Fraction(1, 100)), Length(0))[1]
    assert 0 <= Length(200 * 200 * 100) - without_loss < 300  # thin strips without seams are the area rule


@pytest.mark.parametrize("side", [Fraction(1, 4), Fraction(1, 2)])
def test_a_square_no_larger_than_its_two_seams_gives_no_strip(side: Fraction) -> None:
    assert bias_length(Length(side), Length(Fraction(5, 2)), Length(Fraction(1, 4))) == (0, Length(0))


def test_several_squares_are_joined_where_one_is_wider_than_the_fabric() -> None:
    plan = plan_bias(Length(600), Length(Fraction(5, 2)), SEAM, Length(30))
    assert plan is not None
    assert plan.squares == 2
    one = bias_length(plan.side, Length(Fraction(5, 2)), SEAM)[1]
    assert plan.length == one * 2 - Fraction(5, 2)
    assert plan.length >= 600


def test_fabric_too_narrow_for_any_bias_strip_is_refused_at_the_binding() -> None:
    fabric = {"source": "yardage", "usable": "2"}
    (problem,) = refusals_of(
        {"a": "dark 1 x 1"},
        fabrics={"dark": fabric, "light": fabric, "red": fabric},
        binding={"fabric": "red", "strip": "1 3/4", "cut": "bias"},
    )
    assert problem.expected == "a narrower strip, or wider fabric"


@pytest.mark.parametrize("more", [{}, {"unit": "cm"}], ids=["inches", "centimetres"])
def test_a_bias_binding_is_bought_cut_and_proved(tmp_path: Path, more: dict[str, Any]) -> None:
    side, strip = ("12", "2 1/4") if not more else ("30", "6")
    binding = {"fabric": "red", "strip": strip, "cut": "bias"}
    booklet = booklet_of({"a": f"dark {side} x {side}"}, size="3 x 4", binding=binding, **more)
    note = booklet.binding
    assert note is not None
    assert note.square is not None
    (patch,) = [patch for patch in booklet.patches if patch.use == "binding"]
    assert (patch.label, patch.w, patch.h, patch.shape, patch.count) == (
        note.label, note.square, note.square, "rectangle", note.strips
    )  # fmt: skip
    assert note.need == (booklet.finished.w + booklet.finished.h) * 2 + note.extra
    folder = tmp_path / "test" / "one"
    folder.mkdir(parents=True)
    text = to_json(booklet)
    (folder / "booklet.json").write_text(text, encoding="utf-8")
    assert prove(tmp_path).findings == ()
    for key, other in (("rounds", str(note.rounds)), ("square", f'"{note.square.exact_text()}"')):
        spoilt = text.replace(f'"{key}": {other}', f'"{key}": {other[:-1]}9{other[-1:]}')
        assert spoilt != text
        (folder / "booklet.json").write_text(spoilt, encoding="utf-8")
        assert prove(tmp_path).findings
