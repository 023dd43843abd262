"""Strip sets: what is cut, sewn and sub-cut, how many sets it takes, and what cannot be sewn so."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns_for_tests import PRINTS, YARDAGE, booklet_of, booklets_of, grid, inches, refusals_of
from proved import findings_in
from seamleaf.booklet import to_json
from seamleaf.lengths import Length
from seamleaf.proof import prove

RAIL = {"row": ["dark 2 x 6", "light 2 x 6", "red 2 x 6"], "method": "strips"}
NINE = grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2") | {"method": "strips"}


def test_a_nine_patch_takes_dark_light_dark_and_light_dark_light_strips_of_2_1_2() -> None:
    """Two sub-cuts of the first set and one of the second make a block of 6 in; strips and sub-cuts are 2 1/2.

    A strip is finished width + 1/2 (D0.1: derived); an inch is lost to squaring (common practice, no source), so
    40 in give 15 sub-cuts: 40 blocks' worth of first sets, 2 x 20 = 40, come from 3 sets of 14.
    """
    booklet = booklet_of({"nine": NINE}, size="4 x 5")
    first, second, block = booklet.units
    assert [unit.how for unit in booklet.units] == ["strip-set", "strip-set", "join"]
    assert (first.method, first.count, first.makes, first.batches) == ("strips", 40, 14, 3)
    assert (second.method, second.count, second.makes, second.batches) == ("strips", 20, 10, 2)
    assert block.batch == {first.id: 2, second.id: 1}
    notes = {patch.label: patch for patch in booklet.patches}
    for unit in (first, second):
        assert (unit.made.w, unit.made.h) == (inches("6 1/2"), inches("2 1/2"))
        for label in unit.batch:
            assert notes[label].shape == "strip"
            assert notes[label].h == inches("2 1/2")
            assert notes[label].w == unit.makes * inches("2 1/2") + 1
    assert {notes[label].fabric: n for label, n in first.batch.items()} == {"dark": 2, "light": 1}
    assert {notes[label].fabric: n for label, n in second.batch.items()} == {"light": 2, "dark": 1}
    assert findings_in(to_json(booklet)) == []


@pytest.mark.parametrize(("count", "makes", "batches"), [(5, 5, 1), (6, 6, 1), (7, 4, 2), (12, 6, 2), (13, 5, 3)])
def test_rail_fence_blocks_are_shared_evenly_over_the_fewest_sets(count: int, makes: int, batches: int) -> None:
    """Six blocks of 6 in, 6 1/2 unfinished, from a set of 40 in, an inch of it squared (derived)."""
    booklet = booklet_of({"rail": RAIL}, size=f"{count} x 1")
    (unit,) = booklet.units
    assert (unit.how, unit.count, unit.makes, unit.batches) == ("strip-set", count, makes, batches)
    assert findings_in(to_json(booklet)) == []


def test_strips_of_one_label_are_as_long_as_each_size_takes_of_them(tmp_path: Path) -> None:
    """One set of 5 sub-cuts of 6 1/2 and an inch are 33 1/2 in; of seven, two sets of 4 are 27 in each (derived)."""
    booklets = booklets_of({"rail": RAIL}, sizes={"five": {"blocks": "5 x 1"}, "seven": {"blocks": "7 x 1"}})
    strips = [{p.label: (p.w, p.h) for p in each.patches if p.use == "block"} for each in booklets.values()]
    assert strips[0].keys() == strips[1].keys()
    assert [set(each.values()) for each in strips] == [
        {(inches("33 1/2"), inches("2 1/2"))},
        {(inches("27"), inches("2 1/2"))},
    ]
    for size, booklet in booklets.items():
        (tmp_path / "test" / size).mkdir(parents=True)
        (tmp_path / "test" / size / "booklet.json").write_text(to_json(booklet), encoding="utf-8")
    report = prove(tmp_path)
    assert report.holds, str(report)


def test_strips_are_cut_by_the_plan_and_none_is_wider_than_the_fabric() -> None:
    booklet = booklet_of({"rail": RAIL}, size="6 x 8")
    cut = {label: 0 for unit in booklet.units for label in unit.batch}
    for sheet in booklet.cutting:
        for part in sheet.parts:
            if part.label in cut:
                cut[part.label] += sheet.times
                assert part.w <= sheet.sheet.w == Length(40)
    taken = {label: sum(unit.batches * unit.batch.get(label, 0) for unit in booklet.units) for label in cut}
    assert all(cut[label] >= taken[label] > 0 for label in cut)


def test_a_set_may_be_as_long_as_one_unit_is_high() -> None:
    """Of 40 in an inch is lost to squaring (common practice): a unit of 39 in comes out once, no larger."""
    rail = {"row": ["dark 2 x 38 1/2", "light 2 x 38 1/2"], "method": "strips"}
    (unit,) = (each for each in booklet_of({"rail": rail}, size="3 x 1").units if each.how == "strip-set")
    assert (unit.makes, unit.batches) == (1, 3)
    wide = {"row": ["dark 2 x 38 3/4", "light 2 x 38 3/4"], "method": "strips"}
    assert refusals_of({"rail": wide}, size="3 x 1")


def test_a_column_of_unequal_rectangles_is_a_strip_set_too() -> None:
    column = {"column": ["dark 4 x 1", "light 4 x 3"], "method": "strips"}
    booklet = booklet_of({"block": column}, size="3 x 3", turns="fixed")
    unit = booklet.units[0]
    heights = {patch.fabric: patch.h for patch in booklet.patches if patch.shape == "strip"}
    assert (heights["dark"], heights["light"]) == (inches("1 1/2"), inches("3 1/2"))
    assert (unit.made.w, unit.made.h) == (inches("4 1/2"), inches("4 1/2"))
    assert findings_in(to_json(booklet)) == []


def test_labels_of_strips_are_the_same_in_every_size() -> None:
    sizes = {"small": {"blocks": "1 x 2"}, "large": {"blocks": "9 x 10"}}
    booklets = booklets_of({"nine": NINE}, sizes=sizes)
    labels = [[sorted(unit.batch) for unit in booklet.units] for booklet in booklets.values()]
    assert labels[0] == labels[1]


def test_a_metric_set_loses_2_1_2_cm_to_squaring() -> None:
    rail = {"row": ["dark 5 x 15", "light 5 x 15", "red 5 x 15"], "method": "strips"}
    booklet = booklet_of({"rail": rail}, size="1 x 2", unit="cm", turns="fixed")
    unit = booklet.units[0]
    (length,) = {patch.w for patch in booklet.patches if patch.label in unit.batch}
    assert length == Length(Fraction(165, 10) * unit.makes + Fraction(5, 2))
    assert findings_in(to_json(booklet)) == []


# --------------------------------------------------------------------------------------------- refusals


@pytest.mark.parametrize(
    ("part", "fabrics", "found"),
    [
        ({"row": [NINE, "dark 2 x 6"], "method": "strips"}, {}, "a part that is no patch in a strip set"),
        ({"row": ["star 2 x 6", "dark 2 x 6"], "method": "strips"}, {"star": PRINTS},
         "fabric 'star' from squares 10 in a strip set"),
        ({"row": ["tree 2 x 6", "dark 2 x 6"], "method": "strips"},
         {"tree": {"source": "yardage", "directional": "true"}}, "the directional fabric 'tree' in a strip set"),
        ({"row": ["dark 2 x 40", "light 2 x 40"], "method": "strips"}, {},
         "a strip set whose units are wider than its fabrics are usable"),
    ],
)  # fmt: skip
def test_what_no_strip_set_can_be_is_refused_by_name(part: Any, fabrics: Any, found: str) -> None:
    problems = refusals_of({"block": part}, fabrics={**YARDAGE, **fabrics})
    assert {problem.found for problem in problems} == {found}


# ------------------------------------------------------------------------------------------------ proof


def _shorten(value: dict[str, Any]) -> None:
    strip = next(patch for patch in value["patches"] if patch["shape"] == "strip" and patch["use"] == "block")
    strip["w"] = "2"


def _make_more(value: dict[str, Any]) -> None:
    value["units"][0]["makes"] += 30


def _widen(value: dict[str, Any]) -> None:
    strip = next(patch for patch in value["patches"] if patch["shape"] == "strip" and patch["use"] == "block")
    strip["h"] = "3"


@pytest.mark.parametrize(
    ("spoil", "said"),
    [(_shorten, "do not give"), (_make_more, "do not give"), (_widen, "do not finish")],
)
def test_the_proof_sews_the_strips_and_cuts_them_again(spoil: Callable[[Any], None], said: str) -> None:
    value: dict[str, Any] = json.loads(to_json(booklet_of({"nine": NINE}, size="4 x 5")))
    spoil(value)
    assert any(said in finding.message for finding in findings_in(json.dumps(value)))
