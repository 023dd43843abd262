"""Where the maker stops to measure, and labels that stay the same from size to size."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from typing import Any

import pytest

from accepted import accepted, accepted_names
from patterns_for_tests import booklet_of, booklets_of, half_square
from seamleaf.booklet import Booklet
from seamleaf.lengths import Length

BLOCK: dict[str, Any] = {"block": {"row": [half_square("dark", "light", "4"), "red 4 x 4"]}}
BORDERS = [{"fabric": "red", "width": "2"}, {"fabric": "dark", "width": "3", "corner": "mitred"}]


def stops(booklet: Booklet) -> list[tuple[str, str, Length | None, Length]]:
    return [(gate.after, gate.of, gate.w, gate.h) for gate in booklet.gates]


def test_the_first_unit_block_and_row_the_centre_and_each_border_are_measured_unfinished() -> None:
    """The list is that of the trade's stop-and-measure gates (common practice, no source); sizes are derived."""
    booklet = booklet_of(BLOCK, size="3 x 2", turns="fixed", borders=BORDERS)
    half = Length(1) / 2
    first = next(unit.id for unit in booklet.units if unit.how == "half-square")
    assert [stop for stop in stops(booklet) if stop[1] != "block.B"] == [
        ("unit", first, 4 + half, 4 + half),
        ("block", "block", 8 + half, 4 + half),
        ("row", "1", 24 + half, 4 + half),
        ("centre", "centre", 24 + half, 8 + half),
        ("border", "1", 28 + half, 12 + half),
        ("border", "2", 34 + half, 18 + half),
    ]


def test_the_first_row_that_holds_a_block_is_measured_not_the_sashes_above_it() -> None:
    sashing = {"fabric": "light", "width": "1", "cornerstone": "red", "outer": "true"}
    booklet = booklet_of(BLOCK, size="2 x 2", turns="fixed", sashing=sashing)
    (row,) = [stop for stop in stops(booklet) if stop[0] == "row"]
    assert row == ("row", "2", 2 * 8 + 3 + Length(1) / 2, 4 + Length(1) / 2)


def test_a_row_on_point_is_measured_across_since_its_ends_slant() -> None:
    block = {"block": {"column": [{"row": ["red 2 x 4", "dark 2 x 4"]}]}}
    booklet = booklet_of(block, size="2 x 2", on_point="1/2")
    (row,) = [stop for stop in stops(booklet) if stop[0] == "row"]
    assert row[2:] == (None, 4 + Length(1) / 2)


# ----------------------------------------------------------------------------------------------- labels


def long_sashes(booklet: Booklet) -> set[str | None]:
    """Return the labels of sashes that are rows of their own: they are as long as the quilt is wide."""
    rows = [booklet.places[row.items[0]] for row in booklet.rows if len(row.items) == 1]
    long = {place.unit for place in rows if place.kind == "sash"}
    return {take.label for unit in booklet.units if unit.id in long for take in unit.from_}


def assert_labels_agree(booklets: Mapping[str, Booklet]) -> None:
    """See that a label is one patch in all sizes; strips that go with the quilt, and scaled sizes, have their own."""
    for first, other in combinations(booklets.values(), 2):
        patches = {patch.label: patch for patch in first.patches}
        long = long_sashes(first) & long_sashes(other)
        for patch in other.patches:
            if patch.label in patches:
                same = patches[patch.label]
                sizes = other.size.id, first.size.id, patch.label
                assert (same.fabric, same.print, same.shape, same.use) == (
                    patch.fabric, patch.print, patch.shape, patch.use,
                ), sizes  # fmt: skip
                as_large = first.size.scale == other.size.scale
                if patch.use in ("block", "triangle") and patch.label not in long and as_large:
                    assert (same.w, same.h) == (patch.w, patch.h), sizes


@pytest.mark.parametrize("pattern", sorted({pattern for pattern, _ in accepted_names()}))
def test_a_label_of_the_demo_is_the_same_patch_in_every_size(pattern: str) -> None:
    assert_labels_agree({size: accepted(name, size) for name, size in accepted_names() if name == pattern})


@pytest.mark.parametrize(
    "sections",
    [
        {"sashing": {"fabric": "light", "width": "1", "cornerstone": "red"}},
        {"sashing": {"fabric": "light", "width": "1"}, "borders": BORDERS},
        {"tile": [["block", "other"], ["other", "block"]], "binding": {"fabric": "light"}},
    ],
    ids=["cornerstones", "long sashes", "two blocks"],
)
def test_labels_stay_where_a_size_is_too_small_for_some_of_the_parts(sections: dict[str, Any]) -> None:
    """A quilt of one block has no sash, no cornerstone and no second block; all that it has keeps its label."""
    blocks = {**BLOCK, "other": {"row": ["light 4 x 4", half_square("red", "dark", "4")]}}
    sizes = {
        "large": {"blocks": "3 x 3"},
        "one": {"blocks": "1 x 1"},
        "strip": {"blocks": "1 x 3"},
        "low": {"blocks": "3 x 1"},
    }
    assert_labels_agree(booklets_of(blocks, sizes=sizes, **sections))
