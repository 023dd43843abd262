"""Three-triangle squares: what they are cut from, and which of two hands is sewn how often."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from effort import tries
from patterns_for_tests import PRINTS, YARDAGE, booklet_of, inches, refusals_of, three_triangle, use
from proved import findings_in
from seamleaf.booklet import Booklet
from seamleaf.booklet.codec import to_json
from seamleaf.booklet.record import Unit
from seamleaf.lengths import Length

HALVES = [Fraction(n, 2) for n in range(2, 13)]
HAND = three_triangle("light", "dark", "red", "3")


def pair_of(hand: dict[str, Any], **sections: Any) -> Booklet:
    """Return a quilt of one block that takes a unit and its mirror image."""
    row = [use("hand"), use("hand", mirror=True)]
    return booklet_of({"hand": hand, "block": {"row": row}}, tile=[["block"]], **sections)


def sewn(booklet: Booklet) -> list[Unit]:
    """Return the three-triangle squares."""
    return [unit for unit in booklet.units if unit.how == "three-triangle"]


def cut(unit: Unit, booklet: Booklet) -> dict[str, tuple[Length, Length, str, int]]:
    """Return what one batch takes, by fabric: size, shape, how many."""
    notes = {patch.label: patch for patch in booklet.patches}
    found = {}
    for take in unit.from_:
        note = notes[take.label or ""]
        found[note.fabric] = (note.w, note.h, note.shape, take.n)
    return found


@pytest.mark.parametrize("finished", HALVES, ids=str)
def test_a_pair_takes_quarters_of_f_and_1_1_4_and_a_half_of_f_and_7_8(finished: Fraction) -> None:
    """A quarter-square's square is F + 1 1/4, a half-square's F + 7/8 (allpeoplequilt.com/print/325998).

    Two squares give two half-squares, and each of these with a square of the half gives two units.
    """
    booklet = pair_of(three_triangle("light", "dark", "red", str(finished), method="two"), size="2 x 2")
    (unit,) = sewn(booklet)
    small, large = Length(finished + Fraction(5, 4)), Length(finished + Fraction(7, 8))
    assert cut(unit, booklet) == {
        "light": (large, large, "rectangle", 2),
        "dark": (small, small, "rectangle", 1),
        "red": (small, small, "rectangle", 1),
    }
    assert (unit.makes, unit.count, unit.mirrored, unit.batches) == (4, 8, 4, 2)
    assert (unit.made.w, unit.trim) == (finished + Fraction(1, 2), None)
    assert findings_in(to_json(booklet)) == []


def test_from_triangles_the_same_squares_are_cut_once_and_twice() -> None:
    """karencombs.com page 31 (2002): + 7/8 cut once, + 1 1/4 cut twice."""
    booklet = booklet_of({"block": three_triangle("light", "dark", "red", "3")}, size="3 x 3")
    (unit,) = sewn(booklet)
    assert unit.method == "triangles"
    assert cut(unit, booklet) == {
        "light": (inches("3 7/8"), inches("3 7/8"), "halved", 1),
        "dark": (inches("4 1/4"), inches("4 1/4"), "quartered", 1),
        "red": (inches("4 1/4"), inches("4 1/4"), "quartered", 1),
    }
    assert {patch.count for patch in booklet.patches if patch.use == "block"} == {9}
    assert findings_in(to_json(booklet)) == []


def test_oversized_squares_are_trimmed() -> None:
    """F + 1 1/2 and F + 1 1/8, a quarter of an inch more each (north-hampshire-quilters.org.uk/hblk402b.htm)."""
    booklet = pair_of({**HAND, "oversize": "1/4"})
    (unit,) = sewn(booklet)
    assert {take[0] for take in cut(unit, booklet).values()} == {inches("4 1/2"), inches("4 1/8")}
    assert unit.trim is not None
    assert (unit.made.w, unit.trim.w) == (inches("3 3/4"), inches("3 1/2"))
    assert findings_in(to_json(booklet)) == []


def test_in_centimetres_the_allowances_are_2_6_and_3_7() -> None:
    """Exactly 2.56 and 3.62 at a seam of 7.5 mm, rounded up to 1 mm: derived."""
    booklet = pair_of(three_triangle("light", "dark", "red", "10"), unit="cm")
    sides = {take[0] for take in cut(sewn(booklet)[0], booklet).values()}
    assert sides == {Length(Fraction(126, 10)), Length(Fraction(137, 10))}
    assert findings_in(to_json(booklet)) == []


def test_hands_that_do_not_come_alike_are_units_of_their_own_and_cut_as_triangles() -> None:
    row = [use("hand"), use("hand", mirror=True), use("hand", 180)]
    booklet = booklet_of({"hand": HAND, "block": {"row": row}}, tile=[["block"]], size="2 x 2", turns="fixed")
    counted = {(unit.method, unit.count, unit.mirrored) for unit in sewn(booklet)}
    assert counted == {("triangles", 8, 0), ("triangles", 4, 0)}


def test_the_same_hand_turned_is_one_unit_and_written_either_way() -> None:
    """The first fabric is the half, wherever it lies; a mirror image swaps the quarters and turns on."""
    ways = [three_triangle("light", "dark", "red", "2", turn) for turn in (0, 90, 180, 270)]
    booklet = booklet_of({"block": {"row": ways}}, size="1 x 1")
    assert [unit.count for unit in sewn(booklet)] == [4]
    mirrored = [three_triangle("light", "red", "dark", "2", turn) for turn in (0, 90, 180, 270)]
    both = booklet_of({"block": {"row": [*ways, *mirrored]}}, size="1 x 1")
    assert [(unit.count, unit.mirrored, unit.batches) for unit in sewn(both)] == [(8, 4, 2)]


def test_with_like_quarters_there_is_one_hand() -> None:
    same = three_triangle("light", "dark", "dark", "3")
    booklet = pair_of(same, size="2 x 2")
    assert [(unit.method, unit.count, unit.mirrored) for unit in sewn(booklet)] == [("two", 8, 0)]
    assert findings_in(to_json(booklet)) == []


@pytest.mark.parametrize(("copies", "chosen"), [(1, "triangles"), (2, "two"), (3, "triangles"), (4, "two")])
def test_pairs_of_a_print_are_sewn_only_if_a_block_takes_whole_batches(copies: int, chosen: str) -> None:
    """A batch gives two of each hand."""
    hand = three_triangle("star", "light", "dark", "2")
    row = [use("hand"), use("hand", mirror=True)] * copies
    blocks = {"hand": hand, "block": {"row": row}}
    booklet = booklet_of(blocks, tile=[["block"]], fabrics={**YARDAGE, "star": PRINTS})
    (unit,) = sewn(booklet)
    assert (unit.method, unit.mirrored * 2) == (chosen, unit.count)
    assert unit.batches * unit.makes == unit.count
    assert findings_in(to_json(booklet)) == []


def test_pairs_are_refused_where_half_of_them_would_be_of_no_use() -> None:
    (problem,) = refusals_of({"block": {"row": [{**HAND, "method": "two"}, "dark 3 x 3"]}})
    assert problem.found == "'method: two' for three-triangle squares without as many mirrored ones in each block"
    assert problem.expected == "as many of one hand as of the other, or 'method: triangles'"


def test_a_three_triangle_square_is_square() -> None:
    (problem,) = refusals_of({"block": {**HAND, "finished": "3 x 4"}})
    assert problem.found == "a three-triangle square of 3 x 4"


@given(turns=st.lists(st.tuples(st.sampled_from([0, 90, 180, 270]), st.booleans()), min_size=1, max_size=6))
@settings(max_examples=tries(25), deadline=None)
def test_twins_are_counted_apart_however_they_lie(turns: list[tuple[int, bool]]) -> None:
    """Places and takes say which copies lie mirrored; together they are what the block was written with."""
    row = [use("hand", turn, mirror=mirror) for turn, mirror in turns]
    booklet = booklet_of({"hand": HAND, "block": {"row": row}}, tile=[["block"]], size="1 x 1", turns="fixed")
    wanted = Counter(mirror for _, mirror in turns)
    if wanted[True] == wanted[False]:
        assert [(unit.count, unit.mirrored) for unit in sewn(booklet)] == [(len(turns), wanted[True])]
    else:
        assert sorted(unit.count for unit in sewn(booklet)) == sorted(n for n in wanted.values() if n)
    assert findings_in(to_json(booklet)) == []
