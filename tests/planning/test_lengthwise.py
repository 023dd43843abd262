"""Borders and binding cut lengthwise: in one piece along the fabric, beside what else comes out of that length.

The trade prefers it for borders, since fabric stretches least along the selvedge and nothing has to be joined
(allpeoplequilt.com, border-and-corner-blocks, a magazine; jacquelynnesteves.com on diagonal seams).
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from patterns_for_tests import YARDAGE, booklet_of, booklets_of, inches, refusals_of
from seamleaf.booklet import Booklet, to_json
from seamleaf.lengths import INCHES, Length
from seamleaf.planning.finishing import lengthwise_strips
from seamleaf.proof import prove
from seamleaf.proof.report import Finding

PLAIN = {"a": "dark 6 x 6"}


def quilt(*borders: dict[str, str], **sections: Any) -> Booklet:
    """Return a quilt of 24 x 36 in, before its borders of red fabric."""
    along = [{"fabric": "red", "cut": "lengthwise", **border} for border in borders]
    return booklet_of(PLAIN, size="4 x 6", borders=along, **sections)


def findings(booklet: Booklet | dict[str, Any], folder: Path) -> tuple[Finding, ...]:
    where = folder / "test" / "one"
    where.mkdir(parents=True, exist_ok=True)
    text = json.dumps(booklet) if isinstance(booklet, dict) else to_json(booklet)
    (where / "booklet.json").write_text(text, encoding="utf-8")
    return prove(folder).findings


@pytest.mark.parametrize(
    ("border", "side", "end"),
    [
        ({"width": "3"}, "36 1/2", "30 1/2"),
        ({"width": "3", "corner": "cornerstone", "cornerstone": "light"}, "36 1/2", "24 1/2"),
        ({"width": "3", "corner": "mitred"}, "46", "34"),
    ],
    ids=["butted", "cornerstone", "mitred"],
)
def test_each_strip_is_one_patch_as_long_as_its_edge_takes_and_lies_along_the_fabric(
    tmp_path: Path, border: dict[str, str], side: str, end: str
) -> None:
    """Lengths before they are measured: finished side + 1/2 in (allpeoplequilt.com, border-and-corner-blocks)."""
    booklet = quilt(border)
    (note,) = booklet.borders
    assert (note.label, note.pieces, note.joined) == (None, 0, 0)
    patches = {patch.label: patch for patch in booklet.patches if patch.use == "border" and patch.fabric == "red"}
    assert [(patch.w, patch.h, patch.count) for patch in patches.values()] == [
        (inches("3 1/2"), inches(side), 2),
        (inches("3 1/2"), inches(end), 2),
    ]
    assert [(strip.edge, patches[strip.label or ""].h) for strip in note.strips] == [
        ("left", inches(side)), ("right", inches(side)), ("top", inches(end)), ("bottom", inches(end)),
    ]  # fmt: skip
    lying = [part for sheet in booklet.cutting for part in sheet.parts if part.label in patches]
    assert Counter(part.label for part in lying) == dict.fromkeys(patches, 2)
    assert all(part.h == patches[part.label].h for part in lying)
    assert findings(booklet, tmp_path) == ()


def test_strips_that_lie_beside_each_other_take_the_length_of_the_longest() -> None:
    """Four strips of 6 1/2 in lie across 40 in: 36 1/2 in are needed for all of them (derived)."""
    booklet = quilt({"width": "6"})
    (red,) = [fabric for fabric in booklet.fabrics if fabric.id == "red"]
    assert red.need == red.bound == inches("36 1/2")
    across = quilt({"width": "6", "cut": "crosswise"})
    (red,) = [fabric for fabric in across.fabrics if fabric.id == "red"]
    assert red.need == inches("6 1/2") * 5  # 146 in are joined; four strips would give 4 x 40 - 3 x 6 1/2 in


def test_what_else_is_cut_of_the_fabric_comes_out_of_the_rest_beside_them(tmp_path: Path) -> None:
    booklet = booklet_of(
        {"a": {"grid": ["DR", "RD"], "key": {"D": "dark 3 x 3", "R": "red 3 x 3"}}},
        size="4 x 6",
        borders=[{"fabric": "red", "width": "4", "cut": "lengthwise"}],
        binding={"fabric": "red"},
    )
    label = booklet.borders[0].strips[0].label
    (first, *_) = [sheet for sheet in booklet.cutting if sheet.fabric == "red"]
    assert first.sheet.h == inches("36 1/2")  # the longest first
    assert label in first.gives
    assert {patch.use for patch in booklet.patches if patch.label in first.gives} == {"border", "block"}
    assert findings(booklet, tmp_path) == ()


def test_nothing_is_joined_so_nothing_of_it_is_sewn() -> None:
    """Besides the four long seams, a border that is cut crosswise has a join between every two strips."""
    counts = []
    for cut in ("lengthwise", "crosswise"):
        booklet = quilt({"width": "3", "cut": cut})
        counts += [each.count for each in booklet.estimates.seams if each.of == "borders"]
    assert counts == [4, 4 + 3]


def test_labels_of_opposite_strips_are_the_same_in_every_size() -> None:
    booklets = booklets_of(
        PLAIN,
        borders=[{"fabric": "red", "width": "2", "cut": "lengthwise"}],
        binding={"fabric": "red", "cut": "lengthwise"},
        sizes={"mat": {"blocks": "2 x 2"}, "lap": {"blocks": "6 x 8"}},
    )
    for booklet in booklets.values():
        assert [strip.label for strip in booklet.borders[0].strips] == ["C1", "C1", "C2", "C2"]
        assert booklet.binding is not None
        assert booklet.binding.label == "C3"


# ------------------------------------------------------------------------------------------------ binding


@pytest.mark.parametrize(
    ("need", "longest", "count", "length"),
    [
        ("150", "40", 4, "39 3/8"),
        ("152 1/2", "40", 4, "40"),
        ("152 5/8", "40", 5, "32 5/8"),
        ("39", "40", 1, "39"),
    ],
)
def test_strips_along_the_fabric_are_as_few_as_do_and_no_longer_than_they_must(
    need: str, longest: str, count: int, length: str
) -> None:
    """Each join eats one strip width, as across the fabric (quiltingboard.com t109880)."""
    found, each = lengthwise_strips(inches(need), inches(longest), inches("2 1/2"), INCHES)
    assert (found, each) == (count, inches(length))
    assert each * found - inches("2 1/2") * (found - 1) >= inches(need)


def test_a_binding_lies_beside_the_borders_that_are_cut_so_from_its_fabric(tmp_path: Path) -> None:
    booklet = quilt({"width": "4"}, binding={"fabric": "red", "strip": "2 1/4", "cut": "lengthwise"})
    note = booklet.binding
    assert note is not None
    (patch,) = [patch for patch in booklet.patches if patch.use == "binding"]
    assert (patch.w, patch.count, patch.shape) == (inches("2 1/4"), note.strips, "strip")
    assert patch.h <= inches("36 1/2")
    assert note.length == patch.h * note.strips - note.width * (note.strips - 1)
    assert note.need <= note.length < note.need + INCHES.cut_grid * note.strips
    (red,) = [fabric for fabric in booklet.fabrics if fabric.id == "red"]
    assert red.need == red.bound == inches("36 1/2")  # the binding costs nothing more: 4 x 4 1/2 + 5 x 2 1/4 < 40
    assert findings(booklet, tmp_path) == ()


def test_a_binding_alone_is_no_longer_than_the_quilt(tmp_path: Path) -> None:
    booklet = booklet_of(PLAIN, size="4 x 6", binding={"fabric": "red", "cut": "lengthwise"})
    (patch,) = [patch for patch in booklet.patches if patch.use == "binding"]
    assert patch.h <= booklet.finished.h
    assert findings(booklet, tmp_path) == ()


def test_centimetres_are_cut_lengthwise_too(tmp_path: Path) -> None:
    booklet = booklet_of(
        {"a": "dark 15 x 15"},
        unit="cm",
        size="5 x 6",
        borders=[{"fabric": "red", "width": "9", "cut": "lengthwise"}],
        binding={"fabric": "red", "cut": "lengthwise"},
    )
    assert findings(booklet, tmp_path) == ()


def test_directional_fabric_keeps_its_strips_along_the_fabric(tmp_path: Path) -> None:
    fabrics = YARDAGE | {"red": {"source": "yardage", "directional": "true"}}
    booklet = quilt({"width": "3"}, fabrics=fabrics)
    (note,) = booklet.borders
    lying = [part for sheet in booklet.cutting for part in sheet.parts if part.label == note.strips[0].label]
    assert [(part.w, part.h) for part in lying] == [(inches("3 1/2"), inches("36 1/2"))] * 2
    assert findings(booklet, tmp_path) == ()


def test_a_strip_as_wide_as_the_fabric_is_refused() -> None:
    (problem,) = refusals_of(PLAIN, borders=[{"fabric": "red", "width": "40", "cut": "lengthwise"}])
    assert "cut 40 1/2 wide" in problem.found


# -------------------------------------------------------------------------------------------- the proof sees


def _patch(booklet: dict[str, Any], label: str) -> dict[str, Any]:
    found: dict[str, Any] = next(patch for patch in booklet["patches"] if patch["label"] == label)
    return found


@pytest.mark.parametrize(
    ("spoil", "check"),
    [
        (lambda booklet: _patch(booklet, "C1").update(h="36"), "borders"),
        (lambda booklet: _patch(booklet, "C1").update(w="9/2"), "borders"),
        (lambda booklet: booklet["borders"][0]["strips"][2].update(label="C1"), "label identity"),
        (lambda booklet: booklet["borders"][0]["strips"][0].update(label=None), "names"),
        (lambda booklet: booklet["borders"][0]["strips"][0].update(label="A1"), "names"),
        (lambda booklet: booklet["borders"][0].update(joined="36"), "borders"),
        (lambda booklet: booklet["binding"].update(strips=6), "binding"),
        (lambda booklet: booklet["binding"].update(length="200"), "binding"),
        (lambda booklet: _patch(booklet, "C3").update(h="36"), "binding"),
        (lambda booklet: _patch(booklet, "C3").update(h="33"), "binding"),
    ],
    ids=["short", "wide", "end-for-side", "no-label", "other-fabric", "joined", "more-strips", "says-more", "too-long",
         "too-short"],
)  # fmt: skip
def test_the_proof_sees_a_strip_that_does_not_go_round(
    tmp_path: Path, spoil: Callable[[dict[str, Any]], None], check: str
) -> None:
    booklet: dict[str, Any] = json.loads(to_json(quilt({"width": "3"}, binding={"fabric": "red", "cut": "lengthwise"})))
    assert findings(booklet, tmp_path) == ()
    spoil(booklet)
    assert check in {finding.check for finding in findings(booklet, tmp_path)}


def test_strips_of_a_length_that_no_ruler_shows_go_up() -> None:
    """The edge of a quilt on point is irrational: 8 sqrt 2 a block."""
    booklet = booklet_of(
        {"a": "dark 8 x 8"}, size="2 x 3", on_point="0", borders=[{"fabric": "red", "width": "2", "cut": "lengthwise"}]
    )
    for strip, exact in zip(booklet.borders[0].strips, (booklet.set.centre.h, booklet.set.centre.h), strict=False):
        assert exact + inches("1/2") <= strip.length < exact + inches("1/2") + Length(INCHES.cut_grid)
