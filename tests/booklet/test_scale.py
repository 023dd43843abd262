"""A size in a scale of its own: the same blocks, larger or smaller, with the same labels."""

from __future__ import annotations

from typing import Any

import pytest

from patterns_for_tests import PRINTS, YARDAGE, booklets_of, geese, half_square, inches, refusals_of
from seamleaf.booklet import Booklet

BLOCK: dict[str, Any] = {
    "star": {
        "column": [
            {"row": ["light 2 x 2", geese("light", "dark", "4 x 2", "down", method="four"), "light 2 x 2"]},
            {"row": ["red 2 x 4", half_square("dark", "light", "4", method="two", oversize="1/4"), "red 2 x 4"]},
        ]
    }
}
BORDERS = [{"fabric": "red", "width": "2"}]


def sizes(*more: dict[str, Any], **sections: Any) -> list[Booklet]:
    """Plan the block as it is drawn, and in other sizes."""
    all_sizes = {
        "drawn": {"blocks": "2 x 2"},
        **{f"other-{n}": {"blocks": "2 x 2", **size} for n, size in enumerate(more)},
    }
    return list(booklets_of(BLOCK, sizes=all_sizes, borders=BORDERS, **sections).values())


def test_blocks_grow_by_the_scale_and_seams_trims_and_borders_do_not() -> None:
    """Doubled: a rectangle is cut 2f + 1/2, a half-square's square 2f + 7/8 and the trim's 1/4: derived."""
    drawn, doubled, by_block = sizes({"scale": "2"}, {"finished": "16 x 12"})
    assert (drawn.set.block.w, drawn.set.block.h) == (8, 6)
    assert (doubled.set.block.w, doubled.set.block.h) == (16, 12)
    assert (doubled.finished.w, doubled.finished.h) == (36, 28)
    before, after = ({patch.label: patch for patch in each.patches} for each in (drawn, doubled))
    (square,) = (label for label, patch in before.items() if (patch.w, patch.h) == (inches("2 1/2"), inches("2 1/2")))
    assert (after[square].w, after[square].h) == (inches("4 1/2"), inches("4 1/2"))
    halves = [patch for patch in doubled.patches if patch.w == 8 + inches("1 1/8")]
    assert {patch.fabric for patch in halves} == {"dark", "light"}
    assert after["C2"].h == inches("2 1/2")  # the border
    assert by_block.set == doubled.set
    assert by_block.patches == doubled.patches
    assert (drawn.size.scale, doubled.size.scale, by_block.size.scale) == (1, 2, 2)


def test_a_label_is_the_same_patch_in_every_scale() -> None:
    drawn, *others = sizes({"scale": "3/2"}, {"scale": "1/2"}, {"scale": "2", "blocks": "1 x 1"})
    takes = {unit.id: (unit.how, [take.label or take.unit for take in unit.from_]) for unit in drawn.units}
    for other in others:
        for unit in other.units:  # a size of one block has no second kind of it
            assert takes[unit.id] == (unit.how, [take.label or take.unit for take in unit.from_])
        kinds = {patch.label: (patch.fabric, patch.shape, patch.use) for patch in drawn.patches}
        assert {patch.label: (patch.fabric, patch.shape, patch.use) for patch in other.patches} == kinds


def test_sashing_grows_with_the_blocks() -> None:
    drawn, half = sizes({"scale": "1/2"}, sashing={"fabric": "light", "width": "1"})
    assert (drawn.set.centre.w, half.set.centre.w) == (17, inches("8 1/2"))


def refusal(size: dict[str, Any], blocks: dict[str, Any] = BLOCK, **sections: Any) -> str:
    (problem,) = refusals_of(blocks, sizes={"one": {"blocks": "2 x 2", **size}}, **sections)
    assert problem.where.line > 40  # at the size, which stands at the end of the file
    return f"{problem.found}; {problem.expected}"


@pytest.mark.parametrize(
    ("size", "says"),
    [
        ({"scale": "1/3"}, "2 in become 2/3 in; a scale at which every length stays a multiple of 1/8 in"),
        ({"finished": "16 x 16"}, "a block of other proportions"),
        ({"scale": "8", "blocks": "10 x 1"}, "with a side over 400 inches"),
    ],
)
def test_a_scale_that_does_not_come_out_is_refused_at_the_size(size: dict[str, Any], says: str) -> None:
    assert says in refusal(size)


def test_a_scale_that_would_part_what_shares_a_label_is_refused() -> None:
    """A rectangle of 2 7/8 and the square of a half-square of 2 1/2 are both cut 3 3/8: derived."""
    block = {
        "odd": {
            "row": [
                {"column": ["dark 2 7/8 x 2 7/8", "dark 2 7/8 x 5"]},
                {"column": [half_square("dark", "light", "2 1/2", method="two")] * 3 + ["dark 2 1/2 x 3/8"]},
            ]
        }
    }
    assert not refusals_of(block)
    assert "patches become alike that were not" in refusal({"scale": "2"}, block)


def test_a_scale_whose_patches_no_bundle_square_gives_is_refused_with_the_patch() -> None:
    fabrics = {**YARDAGE, "star": PRINTS}
    block = {"plain": {"row": ["star 4 x 8", "dark 4 x 8"]}}
    assert not refusals_of(block, fabrics=fabrics)
    says = refusal({"scale": "3/2"}, block, fabrics=fabrics)
    assert says.startswith("size 'one' at a scale of 3/2: fabric 'star' asked for patch D1, cut 6 1/2 x 12 1/2")
