"""What stopped a maker who sewed the demo's patterns from their pages, step by step, and does not any more."""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from published import number_in, read_page, text_of
from seamleaf.publishing.paper.elements import Element, read_elements


@pytest.fixture(scope="module")
def sizes(demo_site: Path) -> dict[str, Path]:
    """Return the folders of all sizes of the demo."""
    return {path.parent.relative_to(demo_site).as_posix(): path.parent for path in demo_site.glob("*/*/booklet.json")}


def page(size: Path, stage: str) -> str:
    """Return what a reader reads of a page, from its heading on."""
    source = (size / stage / "index.html").read_bytes()
    article = re.search(rb"<article.*?</article>", source, re.DOTALL)
    assert article is not None
    return text_of(read_page(article[0]))


def booklet_of(size: Path) -> dict[str, Any]:
    booklet: dict[str, Any] = json.loads((size / "booklet.json").read_text(encoding="utf-8"))
    return booklet


def spoken(unit: str) -> str:
    """Return a unit as pages name it."""
    return f"{unit.removesuffix('.B')} (B)" if unit.endswith(".B") else unit


def in_order(text: str, *sentences: str) -> bool:
    places = [text.index(sentence) for sentence in sentences]
    return places == sorted(places)


def test_every_block_of_a_layout_was_sewn_or_cut_under_the_same_name(sizes: dict[str, Path]) -> None:
    listed = 0
    for size in sizes.values():
        booklet, layout = booklet_of(size), page(size, "layout")
        units = {unit["id"]: unit for unit in booklet["units"]}
        known = page(size, "piece") + page(size, "cut")
        for place in booklet["places"]:
            if place["number"] and len({each["unit"] for each in booklet["places"] if each["number"]}) > 1:
                unit = units[place["unit"]]
                name = unit["from"][0]["label"] if unit["how"] == "patch" else spoken(unit["id"])
                assert re.search(rf"[0-9] {re.escape(name)}[ ,(]", layout)
                assert f"Block {name}" in known or f": {name} ." in known or f": {name}." in known
                listed += 1
    assert listed > 100


def test_units_of_a_pieced_border_are_not_taken_for_blocks_of_the_centre(sizes: dict[str, Path]) -> None:
    told = 0
    for size in sizes.values():
        booklet, text = booklet_of(size), page(size, "piece")
        taken = {unit["id"]: unit["batch"] for unit in booklet["units"]}
        for border in booklet["borders"]:
            for name in {name for strip in border["strips"] if strip["unit"] for name in taken[strip["unit"]]}:
                if f"Block {name} Make" in text:
                    part = text.split(f"Block {name} Make")[1].split("For one")[0]
                    assert f"For border {border['order']}, not for the centre." in part
                    told += 1
    assert told


def test_rows_joined_to_an_unbroken_sash_are_pinned_at_its_marks_where_no_seams_meet(sizes: dict[str, Path]) -> None:
    unbroken = 0
    for size in sizes.values():
        booklet, text = booklet_of(size), page(size, "layout")
        kinds = [[booklet["places"][item]["kind"] for item in row["items"]] for row in booklet["rows"]]
        stones = any("cornerstone" in row for row in kinds)
        marked = ["sash"] in kinds and not stones and booklet["set"]["run"] == "across"
        assert ("Pin the ends, the middle and every mark. Sew row to row." in text) is marked
        assert not marked or ("where the blocks end" in text and "Pin where seams meet" not in text)
        unbroken += marked
    assert unbroken


def test_a_layout_of_several_kinds_of_blocks_can_be_compared_with_the_quilt(sizes: dict[str, Path]) -> None:
    for size in sizes.values():
        if len(booklet_of(size)["places"]) > 1:
            shown = [image.attributes["src"] for image in elements(size, "layout").within("img")]
            assert any(src.endswith("figures/quilt.svg") for src in shown)


def test_a_centre_of_one_block_asks_for_no_rows(sizes: dict[str, Path]) -> None:
    lone = [size for size in sizes.values() if len(booklet_of(size)["places"]) == 1]
    assert lone
    for size in lone:
        text = page(size, "layout")
        assert "This quilt has one block" in text
        assert re.search("[Rr]ow|Pin where", text.split("whole centre")[1].split("Back:")[0]) is None
        assert "Then sew the others" not in page(size, "piece").split("Block star")[1].split("Block ")[0]


def test_borders_that_are_mitred_as_one_are_measured_for_once(sizes: dict[str, Path]) -> None:
    """Until the first of them is on, the quilt is as large as before it."""
    joined = 0
    for size in sizes.values():
        text = page(size, "finish")
        for border in booklet_of(size)["borders"]:
            part = text.split(f"Border {border['order']}:")[-1].split("Border ")[0]
            later = bool(border["together"]) and border["order"] != border["together"][0]
            assert ("Before this border" in part) is ("Near the left" in part) is not later
            joined += later
    assert joined


def test_who_makes_no_border_is_not_told_to_measure_for_one(sizes: dict[str, Path]) -> None:
    plain = [size for size in sizes.values() if not booklet_of(size)["borders"]]
    assert plain
    for size in plain:
        assert "cut a border" not in page(size, "finish")
        assert "cut borders" not in page(size, "layout")


def test_what_is_done_first_is_told_first(sizes: dict[str, Path]) -> None:
    """Pin before pressing, press short seams before the long one is sewn, and know of the corners before they go."""
    pinned = pressed = kept = 0
    for size in sizes.values():
        layout, piece = page(size, "layout"), page(size, "piece")
        if "The seams do not nest there" in layout:
            assert in_order(layout, "The seams do not nest there", "Press the seams ")
            pinned += 1
        for unit in booklet_of(size)["units"]:
            part = piece.partition(f"Block {unit['id']} ")[2] if unit["block"] else ""
            if unit["how"] in ("quarter-square", "three-triangle") and part:
                at_once = {"quarter-square": "the other diagonal", "three-triangle": "that crosses the seam below"}
                later = "Match the middle" if unit["method"] == "triangles" else at_once[unit["how"]]
                assert in_order(part, "Press ", later, "Press the long seam")
                pressed += 1
        if "Keep the corners that you cut off" in piece:
            assert in_order(piece, "Keep the corners that you cut off", "Sew on the line")
            kept += 1
    assert pinned
    assert pressed
    assert kept


def test_only_who_buys_a_bundle_reads_of_one(sizes: dict[str, Path]) -> None:
    seen = set()
    for size in sizes.values():
        bundle = any(fabric["source"] != "yardage" for fabric in booklet_of(size)["fabrics"])
        assert ("bundle of cut pieces" in page(size, "buy")) is bundle
        seen.add(bundle)
    assert seen == {True, False}


VERBS = frozenset({
    "Add", "Check", "Choose", "Close", "Compare", "Cut", "Do", "Fold", "Join", "Lay", "Mark", "Match",
    "Measure", "Number", "Pin", "Place", "Press", "Quilt", "Read", "Sew", "Slide", "Start", "Sub-cut",
    "Take", "Trim", "Turn", "Write",
})  # fmt: skip
"""What a step may begin with, on every page of a size."""
STAGES = ("prepare", "cut", "piece", "layout", "finish")


def elements(size: Path, stage: str) -> Element:
    return read_elements((size / stage / "index.html").read_text(encoding="utf-8"))


def of_class(element: Element, tag: str, name: str) -> list[Element]:
    return [each for each in element.within(tag) if name in each.classes]


def test_every_step_of_every_stage_begins_with_a_verb_and_can_be_ticked_where_it_is_done_once(
    sizes: dict[str, Path],
) -> None:
    """House grammar (common practice in instructions, no source): one action a step, its verb first."""
    beginnings: dict[str, str] = {}
    unticked = []
    for name, size in sizes.items():
        for stage in STAGES:
            page = elements(size, stage)
            steps = [step for done in of_class(page, "ol", "sl-do") for step in done.within("li")]
            for step in [*steps, *of_class(page, "p", "sl-step__do")]:
                beginnings.setdefault(step.text().split()[0], f"{name}/{stage}: {step.text()}")
            if stage != "piece":  # a unit is ticked and counted as a whole
                unticked += [step.text() for step in steps if not any(step.within("input"))]
    assert {word: where for word, where in beginnings.items() if word not in VERBS} == {}
    assert VERBS - beginnings.keys() == set()
    assert unticked == []


def test_what_is_made_more_than_once_is_counted_up_to_its_batches(sizes: dict[str, Path]) -> None:
    counted = 0
    for size in sizes.values():
        page, paper = elements(size, "piece"), elements(size, "print")
        units = {spoken(unit["id"]): unit["batches"] for unit in booklet_of(size)["units"]}
        limits = {
            label.text().split(":")[0].removesuffix(" (A)").strip(): int(field.attributes["max"])
            for label in of_class(page, "label", "sl-write")
            for field in label.within("input")
            if field.attributes.get("type") == "number"
        }
        assert limits == {unit: units[unit] for unit in limits}
        counted += len(limits)
        boxes = [len(of_class(each, "span", "sl-box")) for each in of_class(paper, "p", "sl-boxes")]
        assert boxes == [n if n <= 60 else -(-n // 10) for n in limits.values()]
    assert counted > 100


def test_what_is_longer_than_a_ruler_is_cut_along_the_selvedge(sizes: dict[str, Path]) -> None:
    """A strip as wide as a sheet is long is no strip that anybody cuts across the fabric."""
    told = 0
    for size in sizes.values():
        text = page(size, "cut")
        for width, _ in re.findall(r"Cut \d+ strips? of fabric [A-Z]+, ([\d/ .]+) (in|cm) by the width", text):
            assert number_in(width) <= 60
        told += text.count("along the selvedge")
    assert told


def test_a_sash_row_with_cornerstones_is_not_measured_as_one_long_sash(sizes: dict[str, Path]) -> None:
    seen = set()
    for size in sizes.values():
        text = page(size, "layout")
        stones = any(place["kind"] == "cornerstone" for place in booklet_of(size)["places"])
        assert not (stones and "each long sash" in text)
        seen.add("each long sash" in text or "Trim the long sashes" in text)
    assert seen == {True, False}


def test_back_and_batting_are_trimmed_before_the_binding(sizes: dict[str, Path]) -> None:
    for size in sizes.values():
        text = page(size, "finish")
        assert in_order(text, "Trim the back to", "Cut the batting", "Trim the batting and the back even", "Binding")


def test_who_pieces_of_a_bundle_learns_of_the_prints_before_sewing(sizes: dict[str, Path]) -> None:
    seen = set()
    for size in sizes.values():
        roles = "Which block goes where" in page(size, "layout") and "number of its print" in page(size, "layout")
        assert ("each block takes its prints from the list" in page(size, "piece")) is roles
        seen.add(roles)
    assert seen == {True, False}


def test_what_lies_between_blocks_or_in_borders_is_not_said_to_be_for_blocks(sizes: dict[str, Path]) -> None:
    seen: Counter[str] = Counter()
    for size in sizes.values():
        booklet, html = booklet_of(size), (size / "cut" / "index.html").read_text(encoding="utf-8")
        between = {place["unit"] for place in booklet["places"] if place["kind"] in ("sash", "strip", "cornerstone")}
        strips = {strip["unit"] for border in booklet["borders"] for strip in border["strips"]}
        for patch in booklet["patches"]:
            units = set(patch["per_block"])
            use = "sashing" if units and units <= between else "borders" if units and units <= strips else ""
            if use:
                row = re.search(rf'<th scope="row"><b class="sl-label">{patch["label"]}</b>.*?</tr>', html, re.DOTALL)
                assert row is not None
                assert f"<td>{use}</td>" in row[0]
                seen[use] += 1
    assert min(seen["sashing"], seen["borders"]) > 5


def test_no_border_is_joined_whose_sides_come_out_of_whole_strips(sizes: dict[str, Path]) -> None:
    """North Light: two sides of 16 1/2 in from one strip of 40 in, two of 12 1/2 in from the other."""
    whole = {
        (name, border["order"])
        for name, size in sizes.items()
        for border in booklet_of(size)["borders"]
        if f"Take {border['pieces']} strips of {border['label']}. Cut each side" in page(size, "finish")
    }
    assert whole == {("north-light/wall", 1), ("kitchen-garden/table", 2)}
    first = booklet_of(sizes["north-light/wall"])["borders"][0]
    assert [(strip["edge"], strip["length"]) for strip in first["strips"]] == [
        ("left", "25/2"), ("right", "25/2"), ("top", "33/2"), ("bottom", "33/2"),
    ]  # fmt: skip


def test_a_border_is_measured_as_its_strip_is_cut_from_raw_edge_to_raw_edge(sizes: dict[str, Path]) -> None:
    """Such a measure is the length to cut (quiltsbyjen.ca, borders); a finished one lacks two seam allowances."""
    measured = 0
    for size in sizes.values():
        text = page(size, "finish")
        said = text.count("from raw edge to raw edge : through the middle") + text.count(
            "from raw edge to raw edge: through the middle"
        )
        assert said == text.count("a quarter way in from both sides")
        measured += said
    assert measured > 20
