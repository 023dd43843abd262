"""The sheets of a class: one skill a sheet, gauges that measure true, and cautions once, where the work is."""

from __future__ import annotations

import ctypes
import functools
import io
import re

import pypdf
import pypdfium2
import pytest

from on_paper import assert_light, assert_tagged, grey_sheets
from proved import findings_in
from published import finished, published, read_page, text_of
from seamleaf.booklet import to_json
from seamleaf.publishing import EDITIONS, Edition, lay_papers, load_templates
from seamleaf.publishing.paper import set_paper

TAUGHT = """\
title: Small Pond
version: 1.0.0
fabrics:
  water: {title: Blue, source: yardage, colour: "#22334f"}
  reed: {title: Green, source: squares 10, pack: 42, colours: ["#6fb98f", "#b8c76f", "#e8d174"]}
blocks:
  ripple:
    column:
      - row: [{half-square: [water, reed.1], finished: 3 x 3}, reed.1 3 x 3]
      - row:
          - column: [water 3 x 1 1/2, {geese: {goose: water, sky: reed.1}, finished: 3 x 1 1/2}]
          - reed.1 3 x 3
setting: {set: on-point, blocks: [[ripple]], triangles: {fabric: water}}
borders: [{fabric: water, width: 2, corner: mitred}]
binding: {fabric: water}
sizes:
  mat: {title: Mat, blocks: 2 x 3}
  runner: {title: Runner, blocks: 2 x 5}
classes:
  winter: {title: 'Winter & <b>snow</b>', size: mat, students: 9, sessions: [4 h, 150 min]}
"""

PAGE = "pond/mat/class-winter/index.md"
HANDOUT = re.compile(r"Skill sheet: [a-z -]+")


@functools.cache
def set_class(edition: Edition) -> bytes:
    """Set the PDF of the class."""
    done = finished(TAUGHT, "pond")
    files = published(TAUGHT, "pond")
    papers = lay_papers(files, done.booklets, done.figures, load_templates(), [edition])
    return set_paper(papers[f"pond/mat/pond-mat-class-winter-{edition.id}.pdf"])


def sheets(edition: Edition) -> list[str]:
    """Return the text of every sheet."""
    return [each.extract_text() for each in pypdf.PdfReader(io.BytesIO(set_class(edition))).pages]


def test_the_class_proves_and_only_its_size_has_a_page() -> None:
    for booklet in finished(TAUGHT, "pond").booklets.values():
        assert findings_in(to_json(booklet).encode()) == []
    pages = [path for path in published(TAUGHT, "pond") if "class-" in path]
    assert pages == [PAGE]


def test_every_caution_of_the_work_stands_once() -> None:
    """Cutter, iron and needle, each on the sheet of its work."""
    text = text_of(read_page(published(TAUGHT, "pond")[PAGE]))
    wording = load_templates().wording
    for caution in ("rotary-cutter", "iron", "needle"):
        assert text.count(str(wording.say(f"caution.{caution}").unescape())) == 1


def test_a_title_of_a_class_does_nothing() -> None:
    page = published(TAUGHT, "pond")[PAGE].decode()
    assert "<b>snow" not in page
    assert "Winter & <b>snow</b>" in sheets(EDITIONS[0])[0]


def test_every_lesson_stands_in_the_timeline_with_its_time() -> None:
    (note,) = finished(TAUGHT, "pond").booklets["mat"].classes
    shown = read_page(published(TAUGHT, "pond")[PAGE]).shown
    places = {each.place: each.text for each in shown}
    for index, lesson in enumerate(note.lessons):
        assert places[f"/classes/0/lessons/{index}/at"] == lesson.at
        assert places[f"/classes/0/lessons/{index}/minutes"] == str(lesson.minutes)


def test_the_shop_and_the_kits_stand_on_the_page() -> None:
    (note,) = finished(TAUGHT, "pond").booklets["mat"].classes
    places = {each.place for each in read_page(published(TAUGHT, "pond")[PAGE]).shown}
    assert {f"/classes/0/shop/{index}/times" for index in range(len(note.shop))} <= places
    assert {f"/classes/0/fabrics/{index}/buy/amount" for index in range(len(note.fabrics))} <= places
    assert {"/classes/0/kits", "/classes/0/students", "/estimates/time/least", "/estimates/time/most"} <= places


@pytest.mark.parametrize("edition", EDITIONS[:2], ids=lambda edition: edition.id)
def test_each_skill_has_one_sheet_of_its_own(edition: Edition) -> None:
    found = [HANDOUT.findall(text) for text in sheets(edition)]
    first = next(number for number, titles in enumerate(found) if titles)
    own = found[first:-1]
    assert all(len(titles) == 1 for titles in own), own
    assert "Plan for home" in sheets(edition)[-1]
    # Seam, prints, cutting, half-square, geese, pressing, layout, triangles, borders, binding, words.
    assert len(own) == 11


def test_each_strip_says_what_it_gives_and_each_label_what_goes_into_a_bag() -> None:
    (note,) = finished(TAUGHT, "pond").booklets["mat"].classes
    places = {each.place for each in read_page(published(TAUGHT, "pond")[PAGE]).shown}
    for index, sheet in enumerate(note.sheets):
        if sheet.fabric == "water":
            assert {f"/classes/0/sheets/{index}/gives/{label}" for label in sheet.gives} <= places
    wanted = {f"/classes/0/pieces/{index}/{key}" for index in range(len(note.pieces)) for key in ("pieces", "bag")}
    assert wanted <= places


def test_a_row_of_the_deal_stands_for_each_kit_of_a_bundle() -> None:
    (note,) = finished(TAUGHT, "pond").booklets["mat"].classes
    index, reed = next((index, each) for index, each in enumerate(note.fabrics) if each.fabric == "reed")
    places = {each.place: each.text for each in read_page(published(TAUGHT, "pond")[PAGE]).shown}
    at = f"/classes/0/fabrics/{index}"
    shown = [[places[f"{at}/deal/{kit}/{place}"] for place in range(len(hand))] for kit, hand in enumerate(reed.deal)]
    assert shown == [[str(piece) for piece in hand] for hand in reed.deal]
    assert places[f"{at}/packs/0/kits"] == str(len(reed.deal))


def test_each_skill_is_checked_and_each_stage_stands_on_a_board() -> None:
    """Common practice of teachers, no source: what is looked at in a class, and what is shown in stages."""
    page = read_page(published(TAUGHT, "pond")[PAGE])
    text = " ".join(text_of(page).split())
    said = load_templates().wording.say
    for key in ("cut", "triangle", "border", "binding"):
        assert text.count(str(said(f"handout.{key}.check").unescape())) == 2, key  # on its sheet, and in the table
    assert "/seam" in {each.place for each in page.shown}
    assert str(said("class.geese").unescape()) in text
    for key in ("cut", "pair", "sewn", "pressed", "trimmed", "wrong", "half", "row", "trim", "border", "binding"):
        assert (str(said(f"class.board.{key}").unescape()) in text) == (key != "trimmed"), (
            key
        )  # nothing is trimmed here


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.id)
def test_a_gauge_measures_true_on_every_paper(edition: Edition) -> None:
    """Within 0.01 in: the half-square of 3 1/2 in, and the seam test of 3 1/2 in with its strip of 1 in."""
    document = pypdfium2.PdfDocument(set_class(edition))
    sizes: list[tuple[float, float]] = []
    for sheet in document:
        for thing in sheet.get_objects():
            left, bottom, right, top = thing.get_bounds()
            pen = ctypes.c_float()
            pypdfium2.raw.FPDFPageObj_GetStrokeWidth(thing, pen)
            sizes.append((right - left - 2 * pen.value, top - bottom - 2 * pen.value))
            sizes.append((right - left - pen.value, top - bottom - pen.value))
    document.close()
    assert any(abs(w - 3.5 * 72) < 0.72 and abs(h - 3.5 * 72) < 0.72 for w, h in sizes)
    assert any(abs(w - 3.5 * 72) < 0.72 and abs(h - 100) < 0.72 for w, h in sizes)


def test_the_same_class_gives_the_same_bytes() -> None:
    done = finished(TAUGHT, "pond")
    papers = lay_papers(published(TAUGHT, "pond"), done.booklets, done.figures, load_templates(), EDITIONS[:1])
    paper = papers["pond/mat/pond-mat-class-winter-a4.pdf"]
    assert set_paper(paper) == set_class(EDITIONS[0])


@pytest.mark.parametrize("edition", EDITIONS[:2], ids=lambda edition: edition.id)
def test_nothing_lies_where_a_printer_does_not_reach(edition: Edition) -> None:
    """Within 12 mm of an edge there is nothing (common practice, no source)."""
    edge = int(12 * 72 / 25.4)
    for sheet in grey_sheets(set_class(edition), 1):
        picture = sheet.copy()
        picture[edge:-edge, edge:-edge] = 255
        assert picture.min() > 250


def test_the_sheets_are_light_on_ink_and_tagged() -> None:
    pdf = set_class(EDITIONS[0])
    assert_light(pdf)
    kinds = assert_tagged(pdf, "Class: Winter & <b>snow</b>: Small Pond, Mat")
    assert kinds["/H1"] > 1
    assert kinds["/TH"] > 0
