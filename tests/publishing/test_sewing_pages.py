"""The sewing and layout pages: A and B blocks, spun seams, turned blocks, and what does not nest."""

from __future__ import annotations

import functools
import json
import re
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from published import SASHED, TWO_FABRICS, WAYS, published, read_page, text_of

NINE = "{grid: [DLD, LDL, DLD], key: {D: d 2 x 2, L: l 2 x 2}}"
A_AND_B = f"""{TWO_FABRICS}blocks: {{nine: {NINE}}}
setting: {{set: on-point, blocks: [[nine]], turns: fixed, triangles: {{fabric: l}}}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""
QUARTERS = A_AND_B.replace("turns: fixed", "turns: free")
SPUN = f"""{TWO_FABRICS}blocks: {{four: {{grid: [DL, LD], key: {{D: d 3 x 3, L: l 3 x 3}}}}}}
setting: {{set: straight, blocks: [[four]], turns: fixed}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""
HALVES = f"""{TWO_FABRICS}blocks:
  halves: {{column: [{{row: [d 2 x 2, l 2 x 2]}}, l 4 x 1, {{row: [l 2 x 2, d 2 x 2]}}]}}
setting: {{set: straight, blocks: [[halves]]}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""
CLASHING = f"""{TWO_FABRICS}blocks:
  snow: {{corners: {{base: d, top-left: l, top-right: l, bottom-left: l, bottom-right: l}}, corner: 2, finished: 6 x 6}}
setting: {{set: straight, blocks: [[snow]]}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""
"""Corners are always pressed outward, so that those of neighbours lie the same way."""

PRINTS = f"""\
title: Test
version: 1.0.0
fabrics:
  d: {{source: squares 10, colours: ["#224466", "#aa3333", "#117733"]}}
  l: {{source: yardage, colour: "#eeeedd"}}
blocks: {{nine: {NINE}}}
setting: {{set: straight, blocks: [[nine]]}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""

QUARTERED = f"""{TWO_FABRICS}  e: {{source: yardage, colour: "#aa3333"}}
blocks:
  four:
    row:
      - {{quarter-square: [d, l, d, l], finished: 3 x 3}}
      - {{quarter-square: [d, l, e, l], finished: 3 x 3}}
      - {{quarter-square: [d, l, l, d], finished: 3 x 3}}
setting: {{set: straight, blocks: [[four]], turns: fixed}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""


@functools.cache
def page_of(pattern: str, stage: str) -> str:
    """Return the text of a page of the pattern's only size."""
    return text_of(read_page(published(pattern, "test")[f"test/mat/{stage}index.md"]))


def booklet_of(pattern: str, name: str = "test/mat") -> dict[str, Any]:
    """Return the booklet of a pattern's only size."""
    parsed: dict[str, Any] = json.loads(published(pattern, name.split("/")[0])[f"{name}/booklet.json"])
    return parsed


def section(page: str, heading: str) -> str:
    """Return the part of a sewing page from one heading to the next."""
    return page.split(f"## {heading}")[1].split("## ")[0]


def test_a_and_b_units_tell_their_counts_what_differs_and_to_keep_them_apart() -> None:
    page, booklet = page_of(A_AND_B, "piece/"), booklet_of(A_AND_B)
    counts = {unit["id"]: unit["count"] for unit in booklet["units"]}
    assert (counts["nine"], counts["nine.B"]) == (6, 2)
    for unit in booklet["units"]:
        if unit["variant"] is not None:
            twin = unit["id"] + ".B" if unit["variant"] == "A" else unit["id"].removesuffix(".B")
            other = "A" if unit["variant"] == "B" else "B"
            known = f"{unit['id'].removesuffix('.B')} ({unit['variant']})"
            told = section(page, f"Block {known}" if unit["block"] else f"Unit {known}")
            like = f"{twin.removesuffix('.B')} ({other})"
            assert f"It is sewn like {like}, of which the quilt takes {counts[twin]}, and pressed its own way." in told
            assert "Keep the two stacks apart." in told
            assert ("goes the other way than in" in told) == (unit["variant"] == "B")


def test_a_and_b_blocks_are_counted_and_each_place_names_its_kind() -> None:
    layout = page_of(A_AND_B, "layout/")
    assert "Lay out 8 blocks as the figure shows. 6 × nine (A), 2 × nine (B)." in layout
    assert "A and B blocks look alike from the front." in layout
    places = [place for place in booklet_of(A_AND_B)["places"] if place["number"]]
    for place in places:
        kind = "nine (B)" if place["unit"].endswith(".B") else "nine (A)"
        assert re.search(rf"\b{re.escape(place['number'])} {re.escape(kind)}", layout)
    assert "A and B blocks are sewn alike and pressed their own way." in page_of(A_AND_B, "")


@pytest.mark.parametrize(("pattern", "unit", "count"), [(A_AND_B, "nine", 1), (SPUN, "four", 1), (QUARTERS, "", 0)])
def test_the_wrong_side_is_shown_once_where_it_teaches(pattern: str, unit: str, count: int) -> None:
    """Of an A block beside its B, and of a unit with a spun seam."""
    page = read_page(published(pattern, "test")["test/mat/piece/index.md"])
    pictures = [image["src"] for image in page.images if "wrong" in image["src"]]
    assert pictures == [f"../figures/wrong-{unit}.svg"] * count


def test_a_spun_seam_says_what_to_do_with_stitches_and_allowances() -> None:
    told = section(page_of(SPUN, "piece/"), "Block four")
    steps = [
        "Spin the last seam",
        "Take out the stitches of the seams that it crosses",
        "Fold all four allowances round",
    ]
    assert sorted(steps, key=told.index) == steps
    assert "Spin" not in section(page_of(SPUN, "piece/"), "Unit U1")


def test_turned_blocks_are_counted_and_marked_one_by_one() -> None:
    pressing = booklet_of(QUARTERS)["pressing"]
    assert pressing["turned"] > 0
    layout = page_of(QUARTERS, "layout/")
    assert f"Turn {pressing['turned']} blocks by a quarter" in layout
    assert layout.count("quarter turn") == pressing["turned"]
    assert f"{pressing['turned']} blocks are turned by a quarter, so that seams nest." in page_of(QUARTERS, "")


def test_blocks_turned_upside_down_are_not_called_turned_by_a_quarter() -> None:
    booklet = booklet_of(HALVES)
    assert {place["pressing_turn"] for place in booklet["places"]} == {0, 180}
    assert f"Turn {booklet['pressing']['turned']} blocks upside down" in page_of(HALVES, "layout/")
    assert page_of(HALVES, "layout/").count("half turn") == booklet["pressing"]["turned"]


@pytest.mark.parametrize(
    ("pattern", "sentence"),
    [
        (A_AND_B, "All {match_points} match points nest."),
        (SPUN, "Of {match_points} match points, {nested} nest and {spun} are spun."),
        (CLASHING, "{nested} of {match_points} match points nest. {clash} do not nest: pin at the ringed dots."),
    ],
)
def test_the_first_page_says_honestly_how_the_seams_meet(pattern: str, sentence: str) -> None:
    pressing = booklet_of(pattern)["pressing"]
    assert sentence.format(**pressing) in page_of(pattern, "")
    assert ("No pressing plan leaves fewer." in page_of(pattern, "")) == bool(pressing["clash"])
    assert ("All of them nest." in page_of(pattern, "layout/")) == (pressing["nested"] == pressing["match_points"])
    assert ("The seams do not nest there" in page_of(pattern, "layout/")) == bool(pressing["clash"])


def test_a_unit_without_match_points_on_its_own_seams_asks_for_no_pin() -> None:
    """Those inside the units that it is sewn from are butted already."""
    page = page_of(A_AND_B, "piece/")
    assert "Pin where seams meet" in section(page, "Block nine (A)")
    assert "Pin where seams meet" not in section(page, "Unit U1 (A)")


def test_each_log_and_corner_is_named_with_the_side_that_it_lies_on() -> None:
    """The side is that of the log's centre from the start's; a corner's is its quadrant."""
    files = published(WAYS, "many-ways")
    booklet = json.loads(files["many-ways/small/booklet.json"])
    page = text_of(read_page(files["many-ways/small/piece/index.md"]))
    seen: Counter[str] = Counter()
    for unit in booklet["units"]:
        if unit["how"] in ("around", "partial", "corners"):
            start, *added = unit["from"]
            told = []
            for take in added:
                dx, dy = (Fraction(take[axis]) - Fraction(start[axis]) for axis in ("x", "y"))
                across, down = ("left", "right")[dx > 0], ("top", "bottom")[dy > 0]
                side = f"{down} {across}" if unit["how"] == "corners" else across if abs(dx) > abs(dy) else down
                told.append(f"{take['label']} at the {side}")
            assert ", ".join(told) in page
            seen[unit["how"]] += 1
    assert set(seen) == {"around", "partial", "corners"}


def test_the_long_seam_of_a_quarter_square_names_the_half_that_it_is_pressed_to() -> None:
    """Half of the long seam's side to which the allowance lies holds the named patch; with like halves, the arrow."""
    booklet, page = booklet_of(QUARTERED), page_of(QUARTERED, "piece/")
    told = []
    for unit in (unit for unit in booklet["units"] if unit["how"] == "quarter-square"):
        part = section(page, f"Unit {unit['id']}: ")
        top, right, bottom, left = (region["label"] for region in unit["regions"])
        long = [seam for seam in booklet["seams"] if seam["of"] == unit["id"]][-1]
        half, other = ({top, right}, {bottom, left})[:: 1 if long["press"] == "after" else -1]
        names = re.findall(r"Press the long seam toward the half with (\w+)\.", part)
        assert len(names) + part.count("Press the long seam as its arrow shows.") == 1
        assert set(names) <= half - other
        told += names
    assert len(told) == 1  # the halves of the two others hold the same fabrics


def test_sashes_and_cornerstones_are_counted_and_named() -> None:
    booklet = booklet_of(SASHED, "sashed/mat")
    layout = text_of(read_page(published(SASHED, "sashed")["sashed/mat/layout/index.md"]))
    labels = {unit["id"]: unit["from"][0]["label"] for unit in booklet["units"]}
    for kind, several in (("sash", "sashes"), ("cornerstone", "cornerstones")):
        laid = Counter(labels[place["unit"]] for place in booklet["places"] if place["kind"] == kind)
        for label, count in laid.items():
            assert f"{count} {several} {label}" in layout


STRIPS = f"""{TWO_FABRICS}blocks:
  nine: {{grid: [DLD, LDL, DLD], key: {{D: d 2 x 2, L: l 2 x 2}}, method: strips}}
setting: {{set: straight, blocks: [[nine]]}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""
NESTED = f"""{TWO_FABRICS}blocks:
  squares: {{diamond: {{centre: {{diamond: {{centre: d, corners: l}}}}, corners: d}}, finished: 8 x 8}}
setting: {{set: straight, blocks: [[squares]]}}
sizes: {{mat: {{title: Mat, blocks: 2 x 3}}}}
"""


def test_a_strip_set_is_pressed_before_it_is_cut() -> None:
    """Six blocks take twelve sub-cuts of the first set, 2 1/2 in each: 31 in with the inch that squaring takes."""
    page = page_of(STRIPS, "piece/")
    steps = (
        "Sew the strips along their long edges",
        "Press",
        "Cut one end square",
        "Sub-cut 12 units from there, each 2 1/2 in",
    )
    places = [page.index(step) for step in steps]
    assert places == sorted(places)


def test_strips_that_end_before_the_fabric_does_are_not_kept_whole() -> None:
    assert "Keep them whole: A1" not in page_of(STRIPS, "cut/")


def test_a_square_that_no_ruler_shows_is_trimmed_by_the_points_of_its_centre() -> None:
    page = page_of(NESTED, "piece/")
    assert "beyond the points of the centre. That leaves about 6 1/8" in page


def test_mirrored_units_are_counted_apart_and_named_where_they_go() -> None:
    """One three-triangle square each way round in a block of four by four cells, two blocks."""
    files = published(WAYS, "many-ways")
    booklet = json.loads(files["many-ways/small/booklet.json"])
    (unit,) = (unit for unit in booklet["units"] if unit["mirrored"])
    page = text_of(read_page(files["many-ways/small/piece/index.md"]))
    part = section(page, f"Unit {unit['id']}: three-triangle square")
    assert "The quilt takes 4. 2 of them are mirror images of the others. Keep two stacks." in part
    half, right, bottom = (region["label"] for region in unit["regions"])
    assert f"Place {right} and {bottom} right sides together." in part
    assert f"Place {half} on one of them" in part
    (user,) = (other for other in booklet["units"] if unit["id"] in [take["unit"] for take in other["from"]])
    row = section(page, f"Unit {user['id']}: row")
    assert f"{unit['id']}, {unit['id']} (mirrored" in row


def test_a_three_triangle_square_says_where_its_two_seams_go() -> None:
    files = published(WAYS, "many-ways")
    booklet = json.loads(files["many-ways/small/booklet.json"])
    page = text_of(read_page(files["many-ways/small/piece/index.md"]))
    units = [unit for unit in booklet["units"] if unit["how"] == "three-triangle"]
    assert units
    for unit in units:
        part = section(page, f"Unit {unit['id']}: ")
        short, long = (seam for seam in booklet["seams"] if seam["of"] == unit["id"])
        for words, seam in (("this", short), ("the long", long)):
            if seam["press"] == "open":
                assert "open" in part
                continue
            target = seam["first"] if seam["press"] == "before" else seam["second"]
            assert f"Press {words} seam toward {target}." in part


def test_a_half_rectangle_says_how_it_is_cut_laid_and_trimmed() -> None:
    """The rectangles of the two hands lie the other way, so that each is cut from lower left to upper right."""
    files = published(WAYS, "many-ways")
    booklet = json.loads(files["many-ways/small/booklet.json"])
    page = text_of(read_page(files["many-ways/small/piece/index.md"]))
    cutting = text_of(read_page(files["many-ways/small/cut/index.md"]))
    units = [unit for unit in booklet["units"] if unit["how"] == "half-rectangle"]
    assert len(units) == 2
    for unit, wide, high in zip(units, ("2 7/8", "5 1/2"), ("5 1/2", "2 7/8"), strict=True):
        part = section(page, f"Unit {unit['id']}: half-rectangle")
        assert "until each sharp tip sticks out 5/8 in" in part
        assert "the seam crosses the allowance at two corners" in part
        for take in unit["from"]:
            assert (
                f"Lay each rectangle {take['label']} with its right side up, {wide} in wide and {high} in high"
                in cutting
            )


def test_a_block_of_few_patches_is_not_shown_twice_over() -> None:
    """The figure of its steps shows it exploded and whole already; one that takes units is shown with all of them."""
    plain = f"{TWO_FABRICS}blocks: {{half: {{half-square: [d, l], finished: 3 x 3}}}}\n"
    plain += "setting: {set: straight, blocks: [[half]]}\nsizes: {mat: {title: Mat, blocks: 2 x 3}}\n"
    for pattern, shown in ((plain, 0), (A_AND_B, 4)):
        page = read_page(published(pattern, "test")["test/mat/piece/index.md"])
        assert sum("/block-" in image["src"] for image in page.images) == shown


def test_the_layout_says_what_stands_under_a_number_and_which_way_a_block_is_turned() -> None:
    told = "Turns are clockwise, from the way a block lies in its own figure."
    assert told in page_of(QUARTERS, "layout/")
    assert told not in page_of(A_AND_B, "layout/")
    assert "numbers of its prints" not in page_of(A_AND_B, "layout/")
    assert "Under it stand the numbers of its prints." in page_of(PRINTS, "layout/")
