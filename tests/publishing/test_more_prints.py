"""A plan cuts few pieces of a bundle; who bought it for its many prints is told how to show more of them."""

from __future__ import annotations

import json
from collections import Counter

import pytest

from accepted import accepted, accepted_names
from published import published, read_page, text_of
from seamleaf.publishing.cutting_view import cutting_view
from seamleaf.publishing.pointer import pointer

QUARTERS = """\
title: Test
version: 1.0.0
fabrics:
  d: {source: fat quarters, pack: 12, colours: ["#c8553d", "#f2b134", "#2a9d8f", "#457b9d"]}
  l: {source: yardage, colour: "#eeeedd"}
blocks: {nine: {grid: [DLD, LDL, DLD], key: {D: d 2 x 2, L: l 2 x 2}}}
setting: {set: straight, blocks: [[nine]]}
sizes: {mat: {title: Mat, blocks: 3 x 3}}
"""


def test_the_pages_say_how_many_prints_show_and_what_a_piece_has_to_give_to_one_block() -> None:
    files = published(QUARTERS, "test")
    need = json.loads(files["test/mat/booklet.json"])["fabrics"][0]["need"]
    assert need < 9
    cut = text_of(read_page(files["test/mat/cut/index.md"]))
    assert f"so the quilt shows {'a single print' if need == 1 else f'at most {need} prints'}." in cut
    assert "Block nine, print 1: 5 × A1." in cut
    assert "For more prints in the quilt choose more." in text_of(read_page(files["test/mat/prepare/index.md"]))


@pytest.mark.parametrize("size", ["1 x 1", "3 x 3"])
def test_where_every_block_has_a_piece_of_its_own_nothing_is_said(size: str) -> None:
    pattern = QUARTERS.replace("3 x 3}}", f"{size}}}}}").replace("d 2 x 2", "d 6 x 6").replace("l 2 x 2", "l 6 x 6")
    files = published(pattern, "test")
    booklet = json.loads(files["test/mat/booklet.json"])
    assert booklet["fabrics"][0]["need"] >= booklet["set"]["blocks"]
    assert "You can show more" not in text_of(read_page(files["test/mat/cut/index.md"]))
    assert "For more prints" not in text_of(read_page(files["test/mat/prepare/index.md"]))


TRIANGLES = {"halved": 2, "quartered": 4}
"""From each square that a sheet gives."""


@pytest.mark.parametrize(("pattern", "size"), accepted_names())
def test_what_a_block_takes_of_a_print_is_given_by_one_piece_of_the_plan(pattern: str, size: str) -> None:
    """So a piece of its own for every block can be cut by a figure of the plan, less what others take."""
    booklet = accepted(pattern, size)
    patches = {patch.label: (index, patch) for index, patch in enumerate(booklet.patches)}
    for part in cutting_view(booklet).fabrics:
        for share in part.shares:
            own = [patches[view.label] for view in share.patches]
            assert share.at in [pointer("patches", index, "print") for index, _ in own]
            taken = Counter(
                {patch.label: -(-patch.per_block[share.block] // TRIANGLES.get(patch.shape, 1)) for _, patch in own}
            )
            assert any(taken <= Counter(sheet.gives) for sheet in booklet.cutting)


def test_the_few_pieces_that_a_bundle_has_to_spare_are_no_choice_of_prints() -> None:
    booklet = accepted("weir-flight", "crib")
    fabric = next(each for each in booklet.fabrics if each.id == "goose")
    assert (fabric.need, fabric.left) == (40, 2)
    assert [part.shares for part in cutting_view(booklet).fabrics if part.fabric.id == "goose"] == [()]
