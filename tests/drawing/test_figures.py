"""Every figure of the hand-made booklet and of all demo sizes: it can be read, and it shows what the booklet says."""

from __future__ import annotations

import re

import pytest

from drawing.recording import Mark
from drawing.seen import NAMES, extent, marks, overlap, seen_booklet, sketches, tags
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Row
from seamleaf.drawing.colours import REQUIRED_CONTRAST, contrast
from seamleaf.drawing.figure import Desk, Sketch

EVERY_BOOKLET = pytest.mark.parametrize("name", NAMES)


def below(mark: Mark, earlier: list[Mark]) -> str:
    """Return the colour on which the middle of a text stands: of the last filled shape whose box holds it.

    Boxes serve: labels stand on plates, or in the middle of patches that nothing else covers.
    """
    left, top, right, bottom = extent(mark)
    x, y = (left + right) / 2, (top + bottom) / 2
    for shape in reversed(earlier):
        if shape.ink is None or shape.ink.fill is None or not holds(shape, x, y):
            continue
        return shape.ink.fill
    return "#ffffff"


def holds(shape: Mark, x: float, y: float) -> bool:
    left, top, right, bottom = extent(shape)
    if not (left <= x <= right and top <= y <= bottom):
        return False
    if shape.kind != "polygon":
        return True
    inside = False
    for (x1, y1), (x2, y2) in zip(shape.points, (*shape.points[1:], shape.points[0]), strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside


@EVERY_BOOKLET
def test_no_text_is_under_nine_points(name: str) -> None:
    small = {
        (stem, mark.text.text)
        for stem, sketch in sketches(name).items()
        for mark in marks(sketch)
        if mark.text is not None and mark.text.size < 9
    }
    assert small == set()


@EVERY_BOOKLET
def test_no_two_texts_overlap(name: str) -> None:
    clashes = []
    for stem, sketch in sketches(name).items():
        shown = [(mark.text.text, extent(mark)) for mark in marks(sketch) if mark.text is not None]
        clashes += [
            (stem, one[0], other[0]) for i, one in enumerate(shown) for other in shown[:i] if overlap(one[1], other[1])
        ]
    assert clashes == []


@EVERY_BOOKLET
def test_no_number_in_a_circle_and_no_press_arrow_covers_a_label(name: str) -> None:
    clashes = []
    for stem, sketch in sketches(name).items():
        drawn = [(mark, mark.tags[-1].split()[0] if mark.tags else "") for mark in marks(sketch)]
        labels = [mark for mark, kind in drawn if mark.text is not None and kind != "number"]
        covers = [mark for mark, kind in drawn if mark.text is None and kind in ("number", "press")]
        clashes += [
            (stem, label.text, cover.tags[-1])
            for label in labels
            for cover in covers
            if overlap(extent(label), extent(cover), slack=1)
        ]
    assert clashes == []


@EVERY_BOOKLET
def test_every_text_contrasts_with_what_it_stands_on(name: str) -> None:
    weak = []
    for stem, sketch in sketches(name).items():
        drawn = marks(sketch)
        for i, mark in enumerate(drawn):
            if mark.text is not None:
                ground = below(mark, drawn[:i])
                if contrast(mark.text.colour, ground) < REQUIRED_CONTRAST:
                    weak.append((stem, mark.text.text, mark.text.colour, ground))
    assert weak == []


@EVERY_BOOKLET
def test_all_that_is_drawn_lies_on_the_page(name: str) -> None:
    outside = []
    for stem, sketch in sketches(name).items():
        page = (-0.01, -0.01, sketch.scene.w + 0.01, sketch.scene.h + 0.01)
        for mark in marks(sketch):
            left, top, right, bottom = extent(mark)
            if left < page[0] or top < page[1] or right > page[2] or bottom > page[3]:
                outside.append((stem, mark.kind))
    assert outside == []


@EVERY_BOOKLET
def test_no_figure_is_larger_than_a_printed_page_takes(name: str) -> None:
    """170 mm by 215 mm fit with a line of what to do into the margins of both A4 and Letter, nothing made smaller."""
    large = {
        stem: (sketch.scene.w, sketch.scene.h)
        for stem, sketch in sketches(name).items()
        if sketch.scene.w > 170 / 25.4 * 72 or sketch.scene.h > 215 / 25.4 * 72
    }
    assert large == {}


@EVERY_BOOKLET
def test_every_title_is_a_sentence_that_says_what_to_do(name: str) -> None:
    verbs = r"(Sew|Cut|Join|Lay|Compare|Make|Colour in|Know|Read) [^ ].*[^ .]\."
    odd = [sketch.title for sketch in sketches(name).values() if not re.fullmatch(verbs, sketch.title)]
    assert odd == []


@EVERY_BOOKLET
def test_figure_ids_are_unique_and_safe_as_file_names(name: str) -> None:
    stems = list(sketches(name))
    assert len(stems) == len(set(stems))
    assert all(re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]*", stem) for stem in stems)


def sewn_rows(booklet: Booklet) -> list[Row]:
    """Return the rows that have a figure: all but those of one long sash or strip, in which nothing is sewn."""
    return [row for row in booklet.rows if len(row.items) > 1 or booklet.places[row.items[0]].kind == "block"]


@EVERY_BOOKLET
def test_every_part_of_a_booklet_has_its_figure(name: str) -> None:
    booklet, shown = seen_booklet(name), sketches(name)
    expected = {"quilt", "bed", "grey", "lines", "layout", "key", "legend", "centre", "backing", "binding"}
    expected |= {"layout-rows"} if booklet.set.kind == "on-point" else set()
    expected |= {"wrong-pinwheel"} if name == "spun" else set()
    expected |= {f"wrong-{unit.id}" for unit in booklet.units if unit.block is not None and unit.variant == "A"}
    expected |= {f"border-{border.order}" for border in booklet.borders}
    expected |= {f"row-{row.row}" for row in sewn_rows(booklet)}
    expected |= {f"step-{unit.id}" for unit in booklet.units if unit.how != "patch" or unit.id in ("T1", "T2")}
    sewn = [unit.id for unit in booklet.units if unit.block and unit.how != "patch"]
    expected |= {f"block-{unit}{view}" for unit in sewn for view in ("", "-parts")}
    expected |= {"gauge-seam", "gauge-U1", "gauge-U4"} if booklet.classes else set()  # a unit of each way of sewing
    assert {stem for stem in shown if not stem.startswith("cut-")} == expected
    assert [shown[s].about["sheet"] for s in shown if s.startswith("cut-")] == [
        str(index) for index in range(len(booklet.cutting))
    ]


@EVERY_BOOKLET
def test_each_cutting_figure_shows_the_patches_and_the_cuts_of_its_sheet(name: str) -> None:
    booklet = seen_booklet(name)
    for sketch in sketches(name).values():
        if sketch.kind == "cut":
            sheet = booklet.cutting[int(sketch.about["sheet"])]
            shown = tags(sketch)
            for label in {part.label for part in sheet.parts}:
                assert shown[f"patch {label}"] == sum(part.label == label for part in sheet.parts)
            numbers = {tag: n for tag, n in shown.items() if tag.startswith("number ")}
            # A cut across a break of the drawing is numbered in both lines.
            assert set(numbers) == {f"number {cut.n}" for cut in sheet.cuts}
            assert all(numbers[f"number {cut.n}"] == 1 for cut in sheet.cuts if cut.axis == "x")


@EVERY_BOOKLET
def test_every_patch_of_a_cutting_figure_carries_its_label(name: str) -> None:
    for sketch in sketches(name).values():
        if sketch.kind == "cut":
            shown = tags(sketch)
            labelled = {tag for tag in shown if tag.startswith("patch ")}
            written = [m for m in marks(sketch) if m.text is not None and m.tags and m.tags[-1] in labelled]
            for tag in labelled:
                label = tag.removeprefix("patch ")
                assert sum(m.text is not None and m.text.text == label for m in written) == shown[tag], sketch.id


@EVERY_BOOKLET
def test_each_whole_block_shows_all_its_patches_with_their_labels(name: str) -> None:
    desk = Desk(seen_booklet(name))
    for unit in desk.booklet.units:
        if unit.block and unit.how != "patch":
            shown = sketches(name)[f"block-{unit.id}"]
            patches = {tag: n for tag, n in tags(shown).items() if tag.startswith("patch ")}
            written = [mark.text.text for mark in marks(shown) if mark.text is not None]
            assert sum(patches.values()) == len(desk.pieces(unit.id)) > 1
            assert all(written.count(tag.removeprefix("patch ")) == n for tag, n in patches.items())


@EVERY_BOOKLET
def test_quilt_and_lines_show_every_place_of_the_centre(name: str) -> None:
    booklet = seen_booklet(name)
    for stem in ("quilt", "lines"):
        shown = tags(sketches(name)[stem])
        assert sum(n for tag, n in shown.items() if tag.startswith("place ")) == len(booklet.places)


@EVERY_BOOKLET
def test_layout_and_rows_name_every_block_once(name: str) -> None:
    booklet = seen_booklet(name)
    numbers = sorted(place.number for place in booklet.places if place.number)

    def named(*shown: Sketch) -> list[str]:
        """Return the numbers of blocks; A and B may stand after them."""
        texts = [m.text.text for s in shown for m in marks(s) if m.text is not None]
        return sorted(text.split()[0] for text in texts if "." in text)

    for sketch in sketches(name).values():
        if sketch.kind in ("layout", "centre"):
            assert named(sketch) == numbers
    assert named(*(sketch for sketch in sketches(name).values() if sketch.kind == "row")) == numbers


@EVERY_BOOKLET
def test_each_row_figure_has_one_arrow_a_seam(name: str) -> None:
    for row in sewn_rows(seen_booklet(name)):
        shown = tags(sketches(name)[f"row-{row.row}"])
        for press in ("before", "after", "open"):
            assert shown[f"press {press}"] == row.press.count(press)
