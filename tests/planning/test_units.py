"""Half-squares and flying geese: what each method cuts, makes and trims, against the published tables."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from patterns_for_tests import PRINTS, YARDAGE, booklet_of, geese, half_square, inches, pair, refusals_of
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Unit
from seamleaf.lengths import Length

SEAM = Length(Fraction(1, 4))
ROOT_2 = Length(0, 1)
HALVES = [Fraction(n, 2) for n in range(2, 13)]


def one(part: dict[str, Any], **sections: Any) -> tuple[Unit, dict[str, list[tuple[Length, Length, str, int]]]]:
    """Return the unit of a part that is a block of its own, and what one batch takes: size, shape, n by fabric."""
    booklet = booklet_of({"block": part}, size="1 x 1", **sections)
    (unit,) = booklet.units
    return unit, takes(unit, booklet)


def takes(unit: Unit, booklet: Booklet) -> dict[str, list[tuple[Length, Length, str, int]]]:
    notes = {patch.label: patch for patch in booklet.patches}
    found: dict[str, list[tuple[Length, Length, str, int]]] = {}
    for take in unit.from_:
        note = notes[take.label or ""]
        found.setdefault(note.fabric, []).append((note.w, note.h, note.shape, take.n))
    return found


def square(side: Length | str, shape: str = "rectangle", n: int = 1) -> tuple[Length, Length, str, int]:
    length = inches(side) if isinstance(side, str) else side
    return length, length, shape, n


# ----------------------------------------------------------------------------------------- half-squares


@pytest.mark.parametrize("finished", HALVES, ids=str)
def test_half_squares_two_at_a_time_come_from_squares_of_f_and_7_8(finished: Fraction) -> None:
    """allpeoplequilt.com/print/325998; karencombs.com page 31 (2002)."""
    side = Length(finished + Fraction(7, 8))
    unit, cut = one(half_square("dark", "light", str(finished), method="two"))
    assert (unit.method, unit.makes, unit.batches) == ("two", 2, 1)
    assert cut == {"dark": [square(side)], "light": [square(side)]}
    assert (unit.made.w, unit.trim) == (finished + Fraction(1, 2), None)


@pytest.mark.parametrize("finished", HALVES, ids=str)
def test_half_squares_from_cut_triangles_take_half_of_the_same_squares(finished: Fraction) -> None:
    side = Length(finished + Fraction(7, 8))
    unit, cut = one(half_square("dark", "light", str(finished), method="triangles"))
    assert (unit.method, unit.makes) == ("triangles", 1)
    assert cut == {"dark": [square(side, "halved")], "light": [square(side, "halved")]}


@pytest.mark.parametrize(
    ("finished", "side"),
    [
        ("2 1/2", "6 3/4"),  # mesquitequiltguildinc.com/?p=923
        ("5", "11 3/4"),  # theashleytomlinson.com
        ("3", "7 3/4"),  # 2 (F + 7/8), derived
        ("4", "9 3/4"),
    ],
)
def test_half_squares_eight_at_a_time_come_from_squares_of_twice_f_and_7_8(finished: str, side: str) -> None:
    unit, cut = one(half_square("dark", "light", finished, method="eight"))
    assert (unit.method, unit.makes, unit.trim) == ("eight", 8, None)
    assert cut == {"dark": [square(side)], "light": [square(side)]}


@pytest.mark.parametrize(("finished", "side"), [("3", "8"), ("4", "10"), ("6 1/2", "15")])
def test_eight_at_a_time_with_a_quarter_inch_to_spare_is_the_published_twice_f_and_1(finished: str, side: str) -> None:
    """quiltingboard.com blog b10533. Each unit comes out an eighth larger and is trimmed."""
    unit, cut = one(half_square("dark", "light", finished, method="eight", oversize="1/4"))
    assert cut["dark"] == [square(side)]
    assert unit.made.w == inches(finished) + Fraction(5, 8)
    assert unit.trim is not None
    assert unit.trim.w == inches(finished) + Fraction(1, 2)


@pytest.mark.parametrize("finished", HALVES, ids=str)
def test_half_squares_four_at_a_time_follow_the_exact_formula_rounded_up(finished: Fraction) -> None:
    """(f + 1/2) sqrt 2 + 1/2 (derived); the units have bias edges and are always trimmed."""
    exact = ROOT_2 * (finished + Fraction(1, 2)) + Fraction(1, 2)
    unit, cut = one(half_square("dark", "light", str(finished), method="four"))
    side = cut["dark"][0][0]
    assert (unit.makes, side.is_rational) == (4, True)
    assert 0 < side - exact < Fraction(1, 8)
    assert unit.made.w == (side - Fraction(1, 2)).times_root2() / 2
    assert unit.trim is not None
    assert unit.made.w > unit.trim.w == finished + Fraction(1, 2)


def test_the_popular_ratio_for_four_at_a_time_is_too_small_below_3_inches() -> None:
    """Unfinished / 0.64, a shortcut in circulation (from memory): 3.906 for 2 in, which needs 4.036."""
    for finished in HALVES:
        exact = ROOT_2 * (finished + Fraction(1, 2)) + Fraction(1, 2)
        shortcut = (finished + Fraction(1, 2)) / Fraction(64, 100)
        assert (shortcut < exact) == (finished < 3)
    _, cut = one(half_square("dark", "light", "2", method="four"))
    assert cut["dark"] == [square("4 1/8")]


def test_oversized_half_squares_are_trimmed_to_size() -> None:
    """Squares of F + 1, trimmed to F + 1/2 (mythicseam.com)."""
    unit, cut = one(half_square("dark", "light", "3", method="two", oversize="1/8"))
    assert cut["dark"] == [square("4")]
    assert unit.made.w == inches("3 5/8")
    assert unit.trim is not None
    assert (unit.trim.w, unit.trim.h) == pair("3 1/2 x 3 1/2")


def test_in_centimetres_half_squares_take_2_6_more_at_a_seam_of_7_5_mm() -> None:
    """Exact 25.61 mm; the usual + 2.5 cm (from memory) is 0.6 mm short."""
    _, cut = one(half_square("dark", "light", "10", method="two"), unit="cm")
    assert cut["dark"] == [square(Length(Fraction(126, 10)))]
    assert Length(Fraction(3, 4)) * Length(2, 1) > Fraction(25, 10)


# ------------------------------------------------------------------------------------------------- geese

# members.shaw.ca/beverlysquiltingpage/ffg.htm (whole rows), alinequilts.blogspot.com 2011/03 (quarter rows)
FOUR_GEESE = {
    "2 x 1": ("3 1/4", "1 7/8"), "2 1/2 x 1 1/4": ("3 3/4", "2 1/8"), "3 x 1 1/2": ("4 1/4", "2 3/8"),
    "3 1/2 x 1 3/4": ("4 3/4", "2 5/8"), "4 x 2": ("5 1/4", "2 7/8"), "4 1/2 x 2 1/4": ("5 3/4", "3 1/8"),
    "5 x 2 1/2": ("6 1/4", "3 3/8"), "5 1/2 x 2 3/4": ("6 3/4", "3 5/8"), "6 x 3": ("7 1/4", "3 7/8"),
    "7 x 3 1/2": ("8 1/4", "4 3/8"), "8 x 4": ("9 1/4", "4 7/8"),
}  # fmt: skip


@pytest.mark.parametrize("finished", FOUR_GEESE)
def test_geese_four_at_a_time_match_the_published_table(finished: str) -> None:
    """One goose square of W + 1 1/4 and four of sky of H + 7/8 (sylviasquiltdepot.com/fast-flying-geese.htm too)."""
    large, small = FOUR_GEESE[finished]
    unit, cut = one(geese("dark", "light", finished, method="four"))
    assert (unit.method, unit.makes) == ("four", 4)
    assert cut == {"dark": [square(large)], "light": [square(small, n=4)]}
    w, h = pair(finished)
    assert (unit.made.w, unit.made.h, unit.trim) == (w + Fraction(1, 2), h + Fraction(1, 2), None)


@pytest.mark.parametrize("finished", FOUR_GEESE)
def test_geese_from_triangles_take_a_quarter_and_two_halves_of_the_same_squares(finished: str) -> None:
    """thesewingplace.org.uk topic 1499."""
    large, small = FOUR_GEESE[finished]
    unit, cut = one(geese("dark", "light", finished, method="triangles"))
    assert unit.makes == 1
    assert cut == {"dark": [square(large, "quartered")], "light": [square(small, "halved")] * 2}


@pytest.mark.parametrize(
    ("finished", "rectangle", "squares"),
    [
        ("4 x 2", "4 1/2 x 2 1/2", "2 1/2"),  # derived from the rule
        ("6 x 3", "6 1/2 x 3 1/2", "3 1/2"),  # quilterscache.com/S/ScrapSamplerQuilt_Page2.html
    ],
)
def test_geese_by_stitch_and_flip_take_a_rectangle_and_two_squares(finished: str, rectangle: str, squares: str) -> None:
    unit, cut = one(geese("dark", "light", finished, method="flip"))
    assert unit.makes == 1
    assert cut == {"dark": [(*pair(rectangle), "rectangle", 1)], "light": [square(squares)] * 2}
    assert (unit.made.w, unit.made.h) == pair(rectangle)


@pytest.mark.parametrize("point", ["up", "down", "left", "right"])
def test_geese_are_the_same_unit_whichever_way_they_fly(point: str) -> None:
    size = "4 x 2" if point in ("up", "down") else "2 x 4"
    unit, cut = one(geese("dark", "light", size, point, method="four"))
    assert (unit.finished.w, unit.finished.h) == (4, 2)
    assert cut == {"dark": [square("5 1/4")], "light": [square("2 7/8", n=4)]}


@pytest.mark.parametrize("method", ["four", "triangles", "flip"])
@pytest.mark.parametrize("oversize", ["0", "1/8", "1/4", "1/2"])
def test_what_geese_measure_as_sewn_is_what_folding_the_patches_gives(method: str, oversize: str) -> None:
    """The sky's outer corner, mirrored over the seam, is the corner of the unit (derived).

    For cut squares the seam runs a seam allowance inside the goose's leg; the rule rounds up, so that the
    squares give up to 0.03 in more than the booklet says. Flipped squares are sewn on their diagonal.
    """
    unit, cut = one(geese("dark", "light", "4 x 2", method=method, oversize=oversize))
    goose, sky = cut["dark"][0][0], cut["light"][0][0]
    if method == "flip":
        folded = goose, sky
        assert (unit.made.w, unit.made.h) == folded
    else:
        shift = SEAM.times_root2()  # along an edge, from the goose's corner to where the seam meets it
        corner = mirrored((sky, Length(0)), shift)  # the sky square's corner, in the corner of the goose square
        folded = goose - corner[0] * 2, corner[1]
        assert 0 <= folded[0] - unit.made.w < Fraction(5, 100)
        assert 0 <= folded[1] - unit.made.h < Fraction(5, 100)
    assert (unit.trim is None) == (oversize == "0")
    if unit.trim:
        assert (unit.trim.w, unit.trim.h) == pair("4 1/2 x 2 1/2")


def mirrored(point: tuple[Length, Length], shift: Length) -> tuple[Length, Length]:
    """Return a point mirrored over the line x - y = shift."""
    return point[1] + shift, point[0] - shift


# ------------------------------------------------------------------------- methods that divide the copies


def blocks_of(copies: int, part: dict[str, Any]) -> dict[str, Any]:
    """Return a block with so many copies of a part in a row."""
    return {"block": {"row": [part] * copies}}


FABRICS = {**YARDAGE, "star": PRINTS}


@pytest.mark.parametrize(("copies", "chosen"), [(1, "triangles"), (2, "two"), (3, "triangles"), (4, "two"), (6, "two")])
def test_half_squares_of_a_print_are_sewn_two_at_a_time_only_if_a_block_takes_an_even_number(
    copies: int, chosen: str
) -> None:
    """A second half-square of the batch would have a print that no other block wants."""
    booklet = booklet_of(blocks_of(copies, half_square("star", "light", "2")), fabrics=FABRICS)
    (unit,) = (unit for unit in booklet.units if unit.how == "half-square")
    assert unit.method == chosen
    assert unit.batches * unit.makes == unit.count


@pytest.mark.parametrize(("copies", "chosen"), [(1, "flip"), (2, "flip"), (4, "four"), (6, "flip"), (8, "four")])
def test_geese_of_a_print_are_sewn_four_at_a_time_only_if_four_divides_those_of_a_block(
    copies: int, chosen: str
) -> None:
    booklet = booklet_of(blocks_of(copies, geese("light", "star", "2 x 1")), fabrics=FABRICS)
    (unit,) = (unit for unit in booklet.units if unit.how == "geese")
    assert unit.method == chosen


@pytest.mark.parametrize(
    ("part", "copies", "found"),
    [
        (
            half_square("star", "light", "2", method="two"),
            3,
            "'method: two' for 3 half-squares of one print in a block",
        ),
        (
            half_square("star", "light", "2", method="eight"),
            4,
            "'method: eight' for 4 half-squares of one print in a block",
        ),
        (
            geese("star", "light", "2 x 1", method="four"),
            6,
            "'method: four' for 6 flying geese of one print in a block",
        ),
    ],
)
def test_a_method_that_leaves_units_of_a_print_over_in_each_block_is_refused(
    part: dict[str, Any], copies: int, found: str
) -> None:
    (problem,) = refusals_of(blocks_of(copies, part), fabrics=FABRICS)
    assert problem.found == found
    assert problem.expected.startswith("a number of them that")


def test_yardage_is_sewn_in_batches_over_all_blocks_and_the_rest_is_left_over() -> None:
    """Three geese a block in 2 x 3 blocks: 18, in 5 batches of four."""
    booklet = booklet_of(blocks_of(3, geese("dark", "light", "2 x 1", method="four")), size="2 x 3")
    (unit,) = (unit for unit in booklet.units if unit.how == "geese")
    assert (unit.count, unit.batches) == (18, 5)
    assert Counter({patch.fabric: patch.count for patch in booklet.patches if patch.use == "block"}) == {
        "dark": 5,
        "light": 20,
    }


def test_the_method_of_a_unit_is_the_same_in_every_size_even_where_the_block_that_decides_it_is_not_placed() -> None:
    """And so is the label: halved squares in both sizes, because one block takes a single half-square."""
    blocks = {
        "pair": {"row": [half_square("star", "light", "2"), half_square("star", "light", "2")]},
        "wide": {"row": [half_square("star", "light", "2"), "dark 2 x 2"]},
    }
    pattern = {
        "tile": [["pair", "wide"]],
        "fabrics": FABRICS,
        "turns": "fixed",
    }
    small = booklet_of(blocks, size="1 x 1", **pattern)
    large = booklet_of(blocks, size="2 x 1", **pattern)
    shapes = [{patch.label: patch.shape for patch in booklet.patches} for booklet in (small, large)]
    assert {unit.method for booklet in (small, large) for unit in booklet.units if unit.how == "half-square"} == {
        "triangles"
    }
    assert shapes[0].items() <= shapes[1].items()


def test_unlike_quarters_are_not_sewn_two_at_a_time() -> None:
    """Two squares cut apart give quarters of which the opposite ones are alike (derived)."""
    part = {"quarter-square": ["dark", "light", "red", "light"], "finished": "4 x 4", "method": "two"}
    (problem,) = refusals_of({"a": part})
    assert (problem.found, problem.expected) == ("'method: two' for quarter-squares", "triangles")
