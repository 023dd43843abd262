"""What the work takes: every seam by its length, thread by a published ratio, time by counts and paces."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from patterns_for_tests import booklet_of, geese, half_square
from seamleaf.booklet import Booklet
from seamleaf.lengths import Length
from seamleaf.planning.estimates import RATIO, WASTE, distance

NINE: dict[str, Any] = {"nine": {"grid": ["LDL", "DLD", "LDL"], "key": {"L": "light 2 x 2", "D": "dark 2 x 2"}}}
QUARTER = Fraction(1, 4)


def sewn(booklet: Booklet, of: str) -> tuple[int, Length]:
    (found,) = [each for each in booklet.estimates.seams if each.of == of]
    return found.count, found.length


def test_a_nine_patch_has_six_short_seams_and_two_long_ones_from_raw_edge_to_raw_edge() -> None:
    """Derived: patches 2 1/2 in high are joined twice in each of three rows, rows 6 1/2 in long twice."""
    booklet = booklet_of(NINE, size="2 x 2", turns="fixed")
    assert sewn(booklet, "units") == (4 * 8, Length(4 * (6 * Fraction(5, 2) + 2 * Fraction(13, 2))))
    assert sewn(booklet, "rows") == (3, Length(2 * Fraction(13, 2) + Fraction(25, 2)))


def test_a_slanting_seam_runs_from_corner_to_corner_of_the_unfinished_square() -> None:
    """Derived: a half-square that finishes 3 in is sewn across 3 1/2 in, so its seam is 3 1/2 times sqrt 2."""
    booklet = booklet_of({"half": {"row": [half_square("dark", "light", "3")]}}, size="1 x 1")
    assert sewn(booklet, "units") == (2, Length(0, 7))  # a batch of two is sewn, though one is needed
    assert booklet.units[0].makes == 2


def test_the_two_seams_of_flying_geese_cross_their_whole_rectangle() -> None:
    """Derived: at 2 x 4 finished each runs from the base line to the tip, 2 1/2 in up in an unfinished height."""
    (count, length), made = (
        sewn(booklet_of({"g": {"row": [geese("dark", "light", "4 x 2")]}}, size="2 x 2"), "units"),
        4,
    )
    assert (count, length) == (2 * made, Length(0, Fraction(5, 2)) * (2 * made))


def test_a_strip_set_is_sewn_as_long_as_its_strips() -> None:
    strips = {"two": {"row": ["light 2 x 4", "dark 2 x 4"], "method": "strips"}}
    booklet = booklet_of(strips, size="3 x 3", turns="fixed")
    sets = [each for each in booklet.units if each.how == "strip-set"]
    long = {patch.label: patch.w for patch in booklet.patches}
    batches = sum(unit.batches for unit in sets)
    length = sum((long[unit.from_[0].label or ""] * unit.batches for unit in sets), Length(0))
    assert sewn(booklet, "units") == (batches, length)
    assert batches < sum(unit.count for unit in sets)


def test_borders_binding_and_back_are_sewn_too() -> None:
    borders = [{"fabric": "red", "width": "2"}]
    binding = {"fabric": "dark", "strip": "2 1/2", "extra": "12"}
    booklet = booklet_of(NINE, size="8 x 8", turns="fixed", borders=borders, binding=binding)
    around = 4 * (48 + 4)
    joins = booklet.borders[0].pieces - 1
    cut = Fraction(9, 2) - 2
    assert sewn(booklet, "borders") == (4 + joins, Length(2 * 48 + 2 * 52 + 4 * Fraction(1, 2), cut * joins))
    assert booklet.binding is not None
    strips = booklet.binding.strips
    assert sewn(booklet, "binding") == (2 + strips, Length(2 * around, Fraction(5, 2) * strips))
    assert sewn(booklet, "backing") == (booklet.backing.panels - 1, booklet.backing.panel.h)


def test_thread_is_two_and_a_half_times_the_seam_and_up_to_a_fifth_more() -> None:
    """Lockstitch, class 301: 220 cm of seam take 550 cm (melgeecrafts.com, thread consumption).

    Waste 15 to 20 % (scribd.com 75439238, estimating thread consumption).
    """
    assert RATIO * 220 == 550
    assert Fraction(15, 100) <= WASTE <= Fraction(20, 100)
    booklet = booklet_of(NINE, size="8 x 8", turns="fixed")
    seams = sum((each.length for each in booklet.estimates.seams), Length(0))
    for amount in booklet.estimates.thread.amounts:
        a_unit = {"yd": Fraction(36), "m": Fraction(10000, 254)}[amount.unit]
        for told, ratio in ((amount.least, Fraction(5, 2)), (amount.most, Fraction(3))):
            assert told % 10 == 0
            assert told - 10 < seams * ratio / a_unit <= told
    assert [amount.unit for amount in booklet.estimates.thread.amounts] == ["yd", "m"]


def test_a_metric_pattern_tells_metres_alone() -> None:
    booklet = booklet_of({"b": {"row": ["light 5 x 5", "dark 5 x 5"]}}, unit="cm")
    assert [amount.unit for amount in booklet.estimates.thread.amounts] == ["m"]


def test_time_goes_by_the_designers_own_pace() -> None:
    """32 seams at 16 to 64 an hour are half an hour to two."""
    pace = {"seams": "16 to 64", "cuts": "1000"}
    booklet = booklet_of(NINE, size="2 x 2", turns="fixed", pace=pace)
    works = {each.work: (each.least, each.most) for each in booklet.estimates.time.works}
    assert works["sew"] == (Fraction(1, 2), 2)
    assert (booklet.estimates.paces.cuts.least, booklet.estimates.paces.cuts.most) == (1000, 1000)
    slower = booklet_of(NINE, size="2 x 2", turns="fixed", pace={"seams": "8 to 32"}).estimates.time
    assert {each.work: (each.least, each.most) for each in slower.works}["sew"] == (1, 4)
    assert slower.most > booklet.estimates.time.most


def test_every_cut_counts_the_strip_from_the_fabric_and_the_diagonals() -> None:
    booklet = booklet_of({"half": {"row": [half_square("dark", "light", "3", method="triangles")]}}, size="1 x 1")
    diagonals = {patch.label: patch.shape == "halved" for patch in booklet.patches}
    by_hand = 0
    for sheet in booklet.cutting:
        for _ in range(sheet.times):
            by_hand += 1 + len(sheet.cuts) + sum(diagonals[part.label] for part in sheet.parts)
    assert booklet.estimates.cuts == by_hand
    assert any(diagonals.values())


@pytest.mark.parametrize(("across", "down"), [(1, 2), (2, 1), (3, 5), (Fraction(1, 2), 7)])
def test_a_slope_that_no_ruler_shows_goes_up_to_the_next_mark(across: Fraction | int, down: Fraction | int) -> None:
    grid = Fraction(1, 8)
    found = distance((Length(0), Length(0)), (Length(across), Length(-down)), grid)
    exact = across * across + down * down
    assert (found / grid).ceil() == (found / grid).floor()
    assert (found.a - grid) ** 2 < exact <= found.a**2


def test_straight_and_diagonal_distances_are_exact() -> None:
    here, grid = (Length(1), Length(1)), Fraction(1, 8)
    assert distance(here, (Length(4), Length(1)), grid) == 3
    assert distance(here, (Length(1), Length(0, 1)), grid) == Length(-1, 1)
    assert distance(here, (Length(4), Length(-2)), grid) == Length(0, 3)
