"""Bonus half-squares: what stitch and flip cuts off, and what can be sewn from it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, affinity

from patterns_for_tests import booklet_of, geese, inches
from proved import findings_in
from seamleaf.booklet import to_json
from seamleaf.booklet.record import Booklet
from seamleaf.lengths import Length


def _snowball(corner: str, **sections: object) -> Booklet:
    part = {
        "corners": {"base": "dark", "top-left": "light", "bottom-right": "light", "top-right": "red"},
        "corner": corner,
        "finished": "12 x 12",
    }
    return booklet_of({"block": part}, size="2 x 3", **sections)


@pytest.mark.parametrize(("square", "published"), [("2 1/2", "1 1/2"), ("3 1/2", "2 1/2")])
def test_a_bonus_is_at_least_as_large_as_is_published_in_whole_inches(square: str, published: str) -> None:
    """devotedquilter.com: squares of 2 1/2 give bonus half-squares of 1 1/2 in unfinished, 3 1/2 those of 2 1/2.

    That table keeps to finished sizes in whole inches; ours are in steps of 1/4.
    """
    corner = inches(square) - Fraction(1, 2)
    bonus = _snowball(str(corner.a)).bonus[0]
    assert inches(published) <= bonus.trim < inches(published) + Fraction(1, 2)


def test_six_snowballs_with_three_corners_of_2_keep_eighteen_pairs_of_triangles() -> None:
    booklet = _snowball("2")
    two, one = booklet.bonus
    assert [(each.count, each.trim, each.finished) for each in (two, one)] == [
        (12, inches("1 3/4"), inches("1 1/4")),
        (6, inches("1 3/4"), inches("1 1/4")),
    ]
    fabric_of = {patch.label: patch.fabric for patch in booklet.patches}
    assert [(fabric_of[each.base], fabric_of[each.corner]) for each in (two, one)] == [
        ("dark", "light"),
        ("dark", "red"),
    ]
    assert two.apart == inches("1/2")  # quiltingjetgirl.com, 2023: the second seam 1/2 in from the first
    assert findings_in(to_json(booklet)) == []


def test_flying_geese_by_stitch_and_flip_keep_two_corners_each() -> None:
    booklet = booklet_of({"block": geese("dark", "light", "6 x 3", method="flip")}, size="2 x 2")
    (bonus,) = booklet.bonus
    assert (bonus.count, bonus.trim) == (8, inches("2 3/4"))
    assert findings_in(to_json(booklet)) == []


@pytest.mark.parametrize("unit", ["in", "cm"])
def test_corners_too_small_to_sew_are_not_promised(unit: str) -> None:
    """Under a finished inch, or 2.5 cm, hardly anybody sews them (common practice, no source)."""
    small, large = ("1 1/2", "2") if unit == "in" else ("4.6", "4.7")
    sections = {"unit": unit, "backing": {"usable": "148"}} if unit == "cm" else {}
    assert _snowball(small, **sections).bonus == ()
    assert {bonus.finished for bonus in _snowball(large, **sections).bonus} == {
        Length(Fraction(5, 4) if unit == "in" else Fraction(5, 2))
    }


@given(corner=st.integers(9, 47).map(lambda n: Fraction(n, 8)))
def test_a_bonus_is_what_two_triangles_sewn_together_leave(corner: Fraction) -> None:
    """The raw triangle is laid out as a polygon: its mirror image over the seam makes the square (shapely)."""
    square, seam = float(corner) + 0.5, 0.25
    leg = square - seam * 2**0.5
    sewn = Polygon([(0, 0), (leg, 0), (0, leg)])
    inside = sewn.intersection(Polygon([(0, 0), (leg - seam * 2**0.5, 0), (0, leg - seam * 2**0.5)]))
    other = affinity.rotate(inside, 180, origin=((leg - seam * 2**0.5) / 2,) * 2)
    side = (inside.area + other.area) ** 0.5
    booklet = booklet_of(
        {"block": {"corners": {"base": "dark", "top-left": "light"}, "corner": str(corner), "finished": "12 x 12"}},
        size="1 x 1",
    )
    for bonus in booklet.bonus:
        assert abs(bonus.leg.to_float() - leg) < 1e-9
        assert bonus.trim.to_float() <= side + 1e-9 < bonus.trim.to_float() + 0.25 + 2e-9
    assert bool(booklet.bonus) == (side >= 1.5)
