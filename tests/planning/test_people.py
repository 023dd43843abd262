"""Cutting plans that a person would want to follow; all of it common practice, no source, unless it says so."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from patterns_for_tests import PRINTS, YARDAGE, booklet_of, grid, half_square, inches
from seamleaf.lengths import CENTIMETRES, INCHES, Measures
from seamleaf.planning.likeness import nearly_alike
from seamleaf.planning.records import PatchNote
from seamleaf.publishing.cutting_view import cutting_view

STAR = grid(["SD", "DS"], S="star 4 x 4", D="dark 4 x 4")
WITH_STAR: dict[str, Any] = {**YARDAGE, "star": PRINTS}


def cut(label: str, w: str, h: str, fabric: str = "dark") -> PatchNote:
    return PatchNote(
        label=label, fabric=fabric, print=None, w=inches(w), h=inches(h), shape="rectangle", count=4, spare=0,
        use="block", per_block={},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("patches", "measures", "groups"),
    [
        ([cut("B1", "2 7/8", "2 7/8"), cut("B2", "3", "3")], INCHES, [("B1", "B2")]),
        ([cut("B1", "2 1/2", "4 1/2"), cut("B2", "4 3/4", "2 1/2")], INCHES, [("B1", "B2")]),  # one of them turned
        ([cut("B1", "3", "3"), cut("B2", "3 1/2", "3 1/2")], INCHES, []),  # half an inch can be told apart
        ([cut("B1", "3", "3"), cut("B2", "3 1/4", "5")], INCHES, []),  # another shape
        ([cut("B1", "3", "3"), cut("C1", "3 1/4", "3 1/4", "red")], INCHES, []),  # another fabric
        ([cut("B1", "3", "3"), cut("B2", "3", "3")], INCHES, []),  # one size may be mixed up
        ([cut("B1", "3", "3"), cut("B2", "5", "5"), cut("B3", "3 3/4", "3 3/4"), cut("B4", "3 3/8", "3 3/8")], INCHES,
         [("B1", "B3", "B4")]),
        ([cut("B1", "6", "6"), cut("B2", "7", "7")], CENTIMETRES, [("B1", "B2")]),
    ],
)  # fmt: skip
def test_sizes_less_than_half_an_inch_apart_are_kept_apart(
    patches: list[PatchNote], measures: Measures, groups: list[tuple[str, ...]]
) -> None:
    assert nearly_alike(patches, measures) == groups


def test_the_cutting_page_names_such_sizes_with_their_fabric() -> None:
    """Squares for half-squares of 3 in are cut 3 7/8 in, beside plain ones of 3 1/2 in."""
    booklet = booklet_of({"a": {"row": [half_square("dark", "light", "3", method="two"), "dark 3 x 3"]}})
    told = {part.fabric.letter: part.alike for part in cutting_view(booklet).fabrics}
    assert told["B"] == (("B1", "B2"),)
    assert told["A"] == ()


def test_long_strips_come_first_and_then_the_highest() -> None:
    booklet = booklet_of(
        {"a": {"row": ["dark 6 x 6", {"column": ["dark 2 x 3", "light 2 x 3"]}]}},
        size="4 x 5",
        borders=[{"fabric": "dark", "width": "2"}],
        binding={"fabric": "dark"},
    )
    uses = {patch.label: patch.use for patch in booklet.patches}
    sheets = [sheet for sheet in booklet.cutting if sheet.fabric == "dark"]
    kinds = [
        ("border" if {uses[label] for label in sheet.gives} <= {"border", "binding"} else "block") for sheet in sheets
    ]
    assert kinds == sorted(kinds, key=["border", "block"].index)
    assert {"border", "block"} == set(kinds)
    heights = [sheet.sheet.h for sheet, kind in zip(sheets, kinds, strict=True) if kind == "block"]
    assert heights == sorted(heights, reverse=True)


def test_nothing_is_cut_to_spare_but_triangles_of_the_last_square() -> None:
    booklet = booklet_of(
        {"a": {"row": [half_square("dark", "light", "4", method="triangles"), "dark 4 x 4"]}}, size="3 x 5"
    )
    spare = {patch.label: (patch.shape, patch.count, patch.spare) for patch in booklet.patches if patch.spare}
    assert spare
    assert all(shape == "halved" and count % 2 == spared == 1 for shape, count, spared in spare.values())


def test_every_piece_of_a_bundle_is_cut_alike_where_the_blocks_are() -> None:
    """One plan to learn, and pieces can be stacked and cut together."""
    booklet = booklet_of({"a": STAR}, size="3 x 4", fabrics=WITH_STAR)
    (sheet,) = [sheet for sheet in booklet.cutting if sheet.fabric == "star"]
    assert sheet.times > 1
    assert sheet.times * sheet.gives["D1"] == 24


def test_a_patch_of_directional_fabric_lies_as_it_is_sewn_even_if_that_takes_more() -> None:
    needs = []
    for directional in ("true", "false"):
        fabrics = YARDAGE | {"dark": {"source": "yardage", "directional": directional}}
        booklet = booklet_of({"a": {"row": ["dark 2 x 13", "light 2 x 13"]}}, size="9 x 2", fabrics=fabrics)
        patches = {patch.label: patch for patch in booklet.patches}
        parts = [part for sheet in booklet.cutting if sheet.fabric == "dark" for part in sheet.parts]
        upright = all((part.w, part.h) == (patches[part.label].w, patches[part.label].h) for part in parts)
        assert upright == (directional == "true")
        needs += [fabric.need for fabric in booklet.fabrics if fabric.id == "dark"]
    assert needs[0] > needs[1]


def test_the_test_block_comes_out_of_the_first_cuts_and_the_plan_stays_as_it_is() -> None:
    """Its patches are among the totals, and the first strip or piece of each label already gives those of one block."""
    booklet = booklet_of({"a": STAR}, size="3 x 4", fabrics=WITH_STAR)
    (test,) = cutting_view(booklet).tests
    counts = {patch.label: patch for patch in booklet.patches}
    listed = {view.label: counts[view.label].per_block[test.block] for view in test.patches}
    assert listed == {"B1": 2, "D1": 2}
    for label, wanted in listed.items():
        first = next(sheet for sheet in booklet.cutting if label in sheet.gives)
        assert first.gives[label] >= wanted
    given = Counter(dict.fromkeys(listed, 0))
    for sheet in booklet.cutting:
        for label in listed.keys() & sheet.gives.keys():
            given[label] += sheet.gives[label] * sheet.times
    assert given == {label: counts[label].count for label in listed}
