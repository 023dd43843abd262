"""Cut lists and areas of traditional blocks, in two sizes each.

The lists follow from the rules that test_units.py holds against published tables; for the log cabin they are derived.
"""

from __future__ import annotations

from collections import Counter, defaultdict

import pytest

from patterns_for_tests import booklet_of, inches, refusals_of
from proved import findings_in
from seamleaf.booklet import Booklet, to_json
from seamleaf.booklet.record import Unit
from seamleaf.lengths import Length
from traditional_blocks import (
    Blocks,
    bears_paw,
    bright_hopes,
    churn_dash,
    dutchmans_puzzle,
    economy,
    log_cabin,
    nine_patch,
    ohio_star,
    pinwheel,
    rail_fence,
    sawtooth_star,
    snowball,
)

TWO, FOUR, FLIP = ({"method": method} for method in ("two", "four", "flip"))
LARGER = {"method": "two", "oversize": "1/8"}
LARGER_QUARTERS = {"method": "two", "oversize": "1/4"}

# Finished side; patches of each fabric as count @ cut size; finished area of each fabric.
CUT_LISTS: list[tuple[str, Blocks, str, dict[str, str], dict[str, str]]] = [
    ("nine patch", nine_patch("2"), "6",
     {"dark": "5 @ 2 1/2", "light": "4 @ 2 1/2"}, {"dark": "20", "light": "16"}),
    ("nine patch", nine_patch("3"), "9",
     {"dark": "5 @ 3 1/2", "light": "4 @ 3 1/2"}, {"dark": "45", "light": "36"}),
    ("rail fence", rail_fence("2"), "6",
     dict.fromkeys(("dark", "light", "red"), "1 @ 2 1/2 x 6 1/2"), dict.fromkeys(("dark", "light", "red"), "12")),
    ("rail fence", rail_fence("3"), "9",
     dict.fromkeys(("dark", "light", "red"), "1 @ 3 1/2 x 9 1/2"), dict.fromkeys(("dark", "light", "red"), "27")),
    ("pinwheel", pinwheel("3", **TWO), "6",
     {"dark": "2 @ 3 7/8", "light": "2 @ 3 7/8"}, {"dark": "18", "light": "18"}),
    ("pinwheel, trimmed", pinwheel("3", **LARGER), "6",
     {"dark": "2 @ 4", "light": "2 @ 4"}, {"dark": "18", "light": "18"}),
    ("pinwheel", pinwheel("4", **TWO), "8",
     {"dark": "2 @ 4 7/8", "light": "2 @ 4 7/8"}, {"dark": "32", "light": "32"}),
    ("pinwheel, trimmed", pinwheel("4", **LARGER), "8",
     {"dark": "2 @ 5", "light": "2 @ 5"}, {"dark": "32", "light": "32"}),
    ("churn dash", churn_dash("3", **TWO), "9",
     {"dark": "2 @ 3 7/8, 4 @ 2 x 3 1/2", "light": "2 @ 3 7/8, 4 @ 2 x 3 1/2, 1 @ 3 1/2"},
     {"dark": "36", "light": "45"}),
    ("churn dash", churn_dash("4", **TWO), "12",
     {"dark": "2 @ 4 7/8, 4 @ 2 1/2 x 4 1/2", "light": "2 @ 4 7/8, 4 @ 2 1/2 x 4 1/2, 1 @ 4 1/2"},
     {"dark": "64", "light": "80"}),
    ("sawtooth star, flipped", sawtooth_star("2", **FLIP), "8",
     {"dark": "1 @ 4 1/2, 8 @ 2 1/2", "light": "4 @ 2 1/2 x 4 1/2, 4 @ 2 1/2"}, {"dark": "32", "light": "32"}),
    ("sawtooth star, four at a time", sawtooth_star("2", **FOUR), "8",
     {"dark": "1 @ 4 1/2, 4 @ 2 7/8", "light": "1 @ 5 1/4, 4 @ 2 1/2"}, {"dark": "32", "light": "32"}),
    ("sawtooth star, flipped", sawtooth_star("3", **FLIP), "12",
     {"dark": "1 @ 6 1/2, 8 @ 3 1/2", "light": "4 @ 3 1/2 x 6 1/2, 4 @ 3 1/2"}, {"dark": "72", "light": "72"}),
    ("sawtooth star, four at a time", sawtooth_star("3", **FOUR), "12",
     {"dark": "1 @ 6 1/2, 4 @ 3 7/8", "light": "1 @ 7 1/4, 4 @ 3 1/2"}, {"dark": "72", "light": "72"}),
    ("ohio star", ohio_star("3", **TWO), "9",
     {"dark": "2 @ 4 1/4, 1 @ 3 1/2", "light": "2 @ 4 1/4, 4 @ 3 1/2"}, {"dark": "27", "light": "54"}),
    ("ohio star, trimmed", ohio_star("3", **LARGER_QUARTERS), "9",
     {"dark": "2 @ 4 1/2, 1 @ 3 1/2", "light": "2 @ 4 1/2, 4 @ 3 1/2"}, {"dark": "27", "light": "54"}),
    ("ohio star", ohio_star("4", **TWO), "12",
     {"dark": "2 @ 5 1/4, 1 @ 4 1/2", "light": "2 @ 5 1/4, 4 @ 4 1/2"}, {"dark": "48", "light": "96"}),
    ("snowball", snowball("2"), "6",
     {"dark": "1 @ 6 1/2", "light": "4 @ 2 1/2"}, {"dark": "28", "light": "8"}),
    ("snowball", snowball("3"), "9",
     {"dark": "1 @ 9 1/2", "light": "4 @ 3 1/2"}, {"dark": "63", "light": "18"}),
    # Triangles are counted, by their squares. A centre of 4 takes squares of 3 3/4, and 12 in take 6 7/8:
    # quilterscache.com/S/SquareinSquareBlock_Page2.html and slideblast.com Lesson 5.
    ("economy", economy("4"), "8",
     {"dark": "1 @ 4 1/2", "light": "4 @ 3 3/4", "red": "4 @ 4 7/8"}, {"dark": "16", "light": "16", "red": "32"}),
    ("economy", economy("6"), "12",
     {"dark": "1 @ 6 1/2", "light": "4 @ 5 1/8", "red": "4 @ 6 7/8"}, {"dark": "36", "light": "36", "red": "72"}),
    ("bright hopes", bright_hopes("2"), "6",
     {"dark": "1 @ 2 1/2", "light": "4 @ 2 1/2 x 4 1/2"}, {"dark": "4", "light": "32"}),
    ("bright hopes", bright_hopes("3"), "9",
     {"dark": "1 @ 3 1/2", "light": "4 @ 3 1/2 x 6 1/2"}, {"dark": "9", "light": "72"}),
    ("log cabin", log_cabin("2", "1"), "8",
     {"red": "1 @ 2 1/2",
      "light": "1 @ 1 1/2 x 2 1/2, 1 @ 1 1/2 x 3 1/2, 1 @ 1 1/2 x 4 1/2, 1 @ 1 1/2 x 5 1/2, 1 @ 1 1/2 x 6 1/2,"
               " 1 @ 1 1/2 x 7 1/2",
      "dark": "1 @ 1 1/2 x 3 1/2, 1 @ 1 1/2 x 4 1/2, 1 @ 1 1/2 x 5 1/2, 1 @ 1 1/2 x 6 1/2, 1 @ 1 1/2 x 7 1/2,"
              " 1 @ 1 1/2 x 8 1/2"},
     {"red": "4", "light": "27", "dark": "33"}),
    ("log cabin", log_cabin("3", "1 1/2"), "12",
     {"red": "1 @ 3 1/2",
      "light": "1 @ 2 x 3 1/2, 1 @ 2 x 5, 1 @ 2 x 6 1/2, 1 @ 2 x 8, 1 @ 2 x 9 1/2, 1 @ 2 x 11",
      "dark": "1 @ 2 x 5, 1 @ 2 x 6 1/2, 1 @ 2 x 8, 1 @ 2 x 9 1/2, 1 @ 2 x 11, 1 @ 2 x 12 1/2"},
     {"red": "9", "light": "60 3/4", "dark": "74 1/4"}),
    ("dutchman's puzzle, four at a time", dutchmans_puzzle("2", **FOUR), "8",
     {"dark": "2 @ 5 1/4", "light": "8 @ 2 7/8"}, {"dark": "32", "light": "32"}),
    ("dutchman's puzzle, flipped", dutchmans_puzzle("2", **FLIP), "8",
     {"dark": "8 @ 2 1/2 x 4 1/2", "light": "16 @ 2 1/2"}, {"dark": "32", "light": "32"}),
    ("dutchman's puzzle, four at a time", dutchmans_puzzle("3", **FOUR), "12",
     {"dark": "2 @ 7 1/4", "light": "8 @ 3 7/8"}, {"dark": "72", "light": "72"}),
    ("dutchman's puzzle, flipped", dutchmans_puzzle("3", **FLIP), "12",
     {"dark": "8 @ 3 1/2 x 6 1/2", "light": "16 @ 3 1/2"}, {"dark": "72", "light": "72"}),
    ("bear's paw", bears_paw("1 1/2", **TWO), "10 1/2",
     {"dark": "4 @ 3 1/2, 8 @ 2 3/8, 1 @ 2", "light": "8 @ 2 3/8, 4 @ 2, 4 @ 2 x 5"},
     {"dark": "56 1/4", "light": "54"}),
    ("bear's paw", bears_paw("2", **TWO), "14",
     {"dark": "4 @ 4 1/2, 8 @ 2 7/8, 1 @ 2 1/2", "light": "8 @ 2 7/8, 4 @ 2 1/2, 4 @ 2 1/2 x 6 1/2"},
     {"dark": "100", "light": "96"}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("blocks", "side", "cut", "area"),
    [row[1:] for row in CUT_LISTS],
    ids=[f"{row[0]}, {row[2]} in" for row in CUT_LISTS],
)
def test_the_cut_list_and_the_areas_of_one_block(
    blocks: Blocks, side: str, cut: dict[str, str], area: dict[str, str]
) -> None:
    booklet = booklet_of(blocks, tile=[["block"]], size="1 x 1")
    assert cuts(booklet) == {fabric: listed(line) for fabric, line in cut.items()}
    assert areas(booklet) == {fabric: inches(number) for fabric, number in area.items()}
    assert sum(areas(booklet).values(), Length(0)) == inches(side) * inches(side)
    assert booklet.set.block.w == booklet.set.block.h == inches(side)
    assert findings_in(to_json(booklet)) == []  # all joins are equal: the patches sew up to the block


@pytest.mark.parametrize(("u", "exact", "larger"), [("3", "7 3/4", "8"), ("4", "9 3/4", "10")])
def test_two_pinwheels_come_from_one_pair_of_squares_eight_at_a_time(u: str, exact: str, larger: str) -> None:
    """2 (f + 7/8) exactly, or 2 (f + 1) and a trim."""
    for side, oversize in ((exact, "0"), (larger, "1/4")):
        blocks = pinwheel(u, method="eight", oversize=oversize)
        booklet = booklet_of(blocks, tile=[["block"]], size="2 x 1")
        assert cuts(booklet) == {fabric: listed(f"1 @ {side}") for fabric in ("dark", "light")}


def cuts(booklet: Booklet) -> dict[str, Counter[tuple[Length, Length]]]:
    """Count the patches of the blocks by fabric and cut size, the shorter side first."""
    found: dict[str, Counter[tuple[Length, Length]]] = defaultdict(Counter)
    for patch in booklet.patches:
        if patch.use == "block":
            short, long = sorted((patch.w, patch.h))
            found[patch.fabric][short, long] += patch.count
    return dict(found)


def listed(line: str) -> Counter[tuple[Length, Length]]:
    """Read ``2 @ 3 7/8, 4 @ 2 x 3 1/2``."""
    found: Counter[tuple[Length, Length]] = Counter()
    for item in line.split(", "):
        count, side = item.split(" @ ")
        short, long = (side.split(" x ") * 2)[:2]
        found[inches(short), inches(long)] += int(count)
    return found


def areas(booklet: Booklet) -> dict[str, Length]:
    """Return the finished area of each fabric in the one block of a booklet, exactly."""
    units = {unit.id: unit for unit in booklet.units}
    total: dict[str, Length] = defaultdict(Length)

    def add(unit: Unit) -> None:
        for region in unit.regions:
            turned = (*region.outline[1:], region.outline[0])
            double = sum((a[0] * b[1] - b[0] * a[1] for a, b in zip(region.outline, turned, strict=True)), Length(0))
            total[region.fabric] = total[region.fabric] + abs(double) / 2
        for take in unit.from_:
            if take.unit is not None:
                add(units[take.unit])

    (place,) = booklet.places
    add(units[place.unit])
    return dict(total)


def test_the_middle_square_of_an_economy_block_is_trimmed_to_what_the_outer_leaves_it() -> None:
    """8 / sqrt 2 finished and the seams; it comes out larger, since its corners are cut up to the ruler (derived)."""
    middle, block = booklet_of(economy("4"), tile=[["block"]], size="1 x 1").units
    assert middle.finished.w == Length(0, 4)
    assert middle.trim is not None
    assert middle.made.w > middle.trim.w == middle.finished.w + Length(1) / 2
    assert (block.made.w, block.trim) == (inches("8 1/2"), None)


def test_a_middle_square_that_states_another_size_is_refused() -> None:
    middle = {"diamond": {"centre": "dark", "corners": "light"}, "finished": "5 x 5"}
    (problem,) = refusals_of({"block": {"diamond": {"centre": middle, "corners": "red"}, "finished": "8 x 8"}})
    assert problem.found == "a centre of 5 x 5"
