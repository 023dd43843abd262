"""Which units are one: the same after a turn is one unit, a mirrored twin another, directional cloth is not turned."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from effort import tries
from patterns_for_tests import YARDAGE, booklet_of, geese, half_square, use
from quilt_for_tests import Laid, fabric_at, moved, patches_of_centre, placing, units_by_id
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Unit
from strategies import parts, prints_from_1
from traditional_blocks import bears_paw, friendship_star, pinwheel

HAND = {"column": [{"row": [half_square("light", "dark", "2"), "light 2 x 2"]}, "light 4 x 1"]}
"""A part that is no mirror image of itself, whichever way it is turned."""

DIRECTIONAL = {**YARDAGE, "dark": {**YARDAGE["dark"], "directional": "true"}}


def counted(blocks: dict[str, Any], **sections: Any) -> dict[str, int]:
    """Return the units of one block by id, with how many the block takes."""
    sections.setdefault("tile", [["block"]])
    sections.setdefault("size", "1 x 1")
    return {unit.id: unit.count for unit in booklet_of(blocks, **sections).units}


def of_kind(booklet: Booklet, how: str) -> list[Unit]:
    return [unit for unit in booklet.units if unit.how == how]


def test_the_four_vanes_of_a_pinwheel_are_one_unit_and_its_two_halves_too() -> None:
    booklet = booklet_of(pinwheel("3"), tile=[["block"]], size="1 x 1")
    assert {unit.id: unit.count for unit in booklet.units} == {"vane": 4, "U1": 2, "block": 1}
    (block,) = (unit for unit in booklet.units if unit.block == "block")
    assert sorted(take.turn for take in block.from_) == [0, 180]


def test_half_squares_are_one_unit_however_they_are_turned_or_their_fabrics_are_named_first() -> None:
    ways = [half_square("light", "dark", "2", turn) for turn in (0, 90, 180, 270)]
    ways += [half_square("dark", "light", "2", turn) for turn in (0, 90, 180, 270)]
    booklet = booklet_of({"block": {"row": ways}}, size="1 x 1")
    assert [unit.count for unit in of_kind(booklet, "half-square")] == [8]


def test_a_friendship_star_and_its_mirror_image_are_two_blocks_of_the_same_vanes() -> None:
    """A half-square is its own mirror image; the star that turns the other way is not."""
    blocks = {**friendship_star("3"), "mirrored": use("block", mirror=True), "turned": use("block", 90)}
    booklet = booklet_of(blocks, tile=[["block", "mirrored"], ["turned", "block"]], turns="fixed")
    assert Counter(place.unit.removesuffix(".B") for place in booklet.places) == {"block": 3, "mirrored": 1}
    assert [unit.count for unit in of_kind(booklet, "half-square")] == [16]


def test_the_claws_of_a_bears_paw_are_mirrored_twins_and_counted_apart() -> None:
    """Each paw takes a pair of claws from above and its mirror image from the side: four of each in a block."""
    booklet = booklet_of(bears_paw("2"), tile=[["block"]], size="1 x 1")
    units = units_by_id(booklet)
    claws = [unit for unit in booklet.units if [units[t.unit].how for t in unit.from_ if t.unit] == ["half-square"] * 2]
    assert [unit.count for unit in claws] == [4, 4]
    assert units["paw"].count == 4
    assert [unit.count for unit in of_kind(booklet, "half-square")] == [16]


def test_handed_units_come_in_lefts_and_rights() -> None:
    row = [use("hand"), use("hand", mirror=True), use("hand", 180), use("hand", 180, mirror=True), use("hand")]
    booklet = booklet_of({"hand": HAND, "block": {"row": row}}, tile=[["block"]], size="1 x 1")
    hands = {unit.block: unit.count for unit in booklet.units if (unit.finished.w, unit.finished.h) == (4, 3)}
    assert hands == {"hand": 3, None: 2}


def test_geese_are_their_own_mirror_image() -> None:
    ways = {"flight": geese("dark", "light", "4 x 2"), "block": {"row": [use("flight"), use("flight", mirror=True)]}}
    assert counted(ways) == {"flight": 2, "block": 1}


def test_a_part_that_is_another_block_turned_takes_that_blocks_name() -> None:
    rail = {"row": ["light 2 x 4", "dark 2 x 4"]}
    blocks = {"rail": rail, "block": {"row": [use("rail", 90), use("rail"), {"column": ["dark 4 x 2", "light 4 x 2"]}]}}
    assert counted(blocks) == {"rail": 3, "block": 1}


def test_units_of_a_directional_fabric_are_not_turned_so_each_way_round_is_its_own() -> None:
    rail = {"row": ["light 2 x 4", "dark 2 x 4"]}
    blocks = {"rail": rail, "block": {"row": [use("rail", 90), use("rail"), use("rail", 90)]}}
    booklet = booklet_of(blocks, tile=[["block"]], size="1 x 1", fabrics=DIRECTIONAL)
    assert {unit.id: unit.count for unit in booklet.units} == {"U1": 2, "rail": 1, "block": 1}
    assert {take.turn for unit in booklet.units for take in unit.from_} == {0} | light_turns(booklet)


def light_turns(booklet: Booklet) -> set[int]:
    """Return how the patches of the fabric without a direction are turned."""
    label = {patch.label for patch in booklet.patches if patch.fabric == "light"}
    return {take.turn for unit in booklet.units for take in unit.from_ if take.label in label}


def test_patches_of_a_directional_fabric_that_stand_and_lie_have_labels_of_their_own() -> None:
    """As many are cut upright as lying (common practice, no source); without a direction they are one label."""
    blocks = {"block": {"row": ["dark 2 x 4", {"column": ["dark 4 x 2", "dark 4 x 2"]}]}}

    def dark(fabrics: dict[str, Any]) -> list[tuple[str, int, int, int]]:
        booklet = booklet_of(blocks, size="1 x 1", fabrics=fabrics)
        return [
            (patch.label, int(patch.w.a * 2), int(patch.h.a * 2), patch.count)
            for patch in booklet.patches
            if patch.fabric == "dark" and patch.use == "block"
        ]

    assert dark(DIRECTIONAL) == [("B1", 9, 5, 2), ("B2", 5, 9, 1)]
    assert dark(YARDAGE) == [("B1", 9, 5, 3)]


@pytest.mark.parametrize(
    "part",
    [
        {"around": {"centre": "light 2 x 2", "logs": ["dark 1", "light 1"]}},
        {"corners": {"base": "dark", "top-left": "light"}, "corner": "1", "finished": "4 x 4"},
    ],
    ids=["logs", "base"],
)
def test_logs_and_bases_of_a_directional_fabric_are_not_turned_either(part: dict[str, Any]) -> None:
    blocks = {"part": part, "block": {"row": [use("part"), use("part", 180)]}}
    assert counted(blocks) == {"part": 2, "block": 1}
    assert sorted(counted(blocks, fabrics=DIRECTIONAL).values()) == [1, 1, 1]


def test_no_block_is_turned_for_pressing_when_a_fabric_has_a_direction() -> None:
    blocks = {"block": {"column": [{"row": [f"{a} 2 x 2", f"{b} 2 x 2"]} for a, b in (("dark", "light"),) * 2]}}
    booklet = booklet_of(blocks, size="3 x 3", fabrics=DIRECTIONAL)
    assert booklet.pressing.turned == 0
    assert {place.turn for place in booklet.places} == {0}


def test_a_block_called_row_rows_or_corner_keeps_its_seams_apart_from_those_of_the_centre() -> None:
    blocks = {name: {"row": [f"{name_of} 2 x 4", "dark 2 x 4"]} for name, name_of in NAMES.items()}
    booklet = booklet_of(blocks, tile=[list(NAMES)], on_point="0", size="4 x 2", turns="fixed")
    assert len({seam.id for seam in booklet.seams}) == len(booklet.seams)
    assert not {"row", "rows"} & {unit.id for unit in booklet.units}
    assert {unit.block for unit in booklet.units if unit.block} == set(NAMES)


NAMES = {"row": "light", "rows": "red", "corner": "dark"}
"""Blocks by name, with the fabric that makes each another block."""


# -------------------------------------------------------------------------- turned and mirrored as pictures


def test_a_turn_is_clockwise_and_comes_after_the_mirror() -> None:
    """Light left, red right: turned by 90 light comes to the top; mirrored first, to the bottom."""
    blocks = {
        "pair": {"row": ["light 2 x 4", "red 2 x 4"]},
        "turned": use("pair", 90),
        "mirrored": use("pair", mirror=True),
        "both": use("pair", 90, mirror=True),
    }
    lies_at = {"pair": (1, 2), "turned": (2, 1), "mirrored": (3, 2), "both": (2, 3)}
    for block, (x, y) in lies_at.items():
        laid = patches_of_centre(booklet_of(blocks, tile=[[block]], size="1 x 1", turns="fixed"))
        assert (fabric_at(laid, x, y), fabric_at(laid, 4 - x, 4 - y)) == ("light", "red"), block


@given(parts(3, 2, Fraction(2)).map(prints_from_1), st.sampled_from([0, 90, 180, 270]), st.booleans())
@settings(max_examples=tries(20), deadline=None)
def test_a_block_used_mirrored_and_turned_shows_its_picture_mirrored_and_then_turned(
    part: Any, turn: int, mirror: bool
) -> None:
    fabrics = {**YARDAGE, "prints": {"source": "fat quarters"}}
    blocks = {"first": part, "used": use("first", turn, mirror=mirror)}
    first, used = (booklet_of(blocks, tile=[[block]], size="1 x 1", fabrics=fabrics, turns="fixed") for block in blocks)
    box = used.set.block
    there = placing(first.set.block, box.w.to_float() / 2, box.h.to_float() / 2, turn, mirror=mirror)
    assert picture(moved(iter(patches_of_centre(first)), there)) == picture(iter(patches_of_centre(used)))


def picture(patches: Iterator[Laid]) -> Counter[tuple[str, frozenset[tuple[float, float]]]]:
    """Return every patch as its fabric and corners."""
    return Counter(
        (patch.fabric, frozenset((round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in patch.polygon.exterior.coords))
        for patch in patches
    )
