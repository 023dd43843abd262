"""The small parts of figures: hatches, looks, labels, widths of text, broken strips, words."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import cairocffi
import cairosvg  # noqa: F401 -- brings cairocffi, the reference for widths of text
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.geometry import box as rectangle

from drawing.sample import BOOKLET, D, box, inches
from drawing.seen import NAMES, extent, marks, overlap, seen_booklet, sketches, tags, texts
from patterns_for_tests import booklet_of, grid
from seamleaf.booklet.record import Cut, Sheet, SheetPart
from seamleaf.drawing import draw_figures, draw_sketches, scene
from seamleaf.drawing.colours import REQUIRED_CONTRAST, contrast, ink_on, mix
from seamleaf.drawing.cut_numbers import ASIDE, WAYS, draw_numbers, place_cuts
from seamleaf.drawing.figure import Sketch
from seamleaf.drawing.hatching import HATCHES, Family, hatch
from seamleaf.drawing.labels import Line, Room, fit, set_lines
from seamleaf.drawing.looks import looks_of
from seamleaf.drawing.measures import box_text, size_text
from seamleaf.drawing.metrics import text_width, wrap
from seamleaf.drawing.pens import text_extent
from seamleaf.drawing.windows import break_places, held_by, rests_of, windows
from seamleaf.drawing.wording import counted, ordinal
from seamleaf.lengths import ZERO, Length

COLOURS = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06x}")
SPOTS = st.tuples(st.integers(0, 200), st.integers(0, 200))


@given(COLOURS)
def test_text_on_any_fabric_reaches_the_required_contrast(colour: str) -> None:
    """4.5:1 for text of this size: WCAG 2.2, success criterion 1.4.3."""
    assert contrast(ink_on(colour), colour) >= REQUIRED_CONTRAST


def test_contrast_of_black_and_white_is_21() -> None:
    """WCAG 2.2, definition of contrast ratio: from 1 to 21."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#777777") == 1


@given(COLOURS, COLOURS)
def test_mixing_goes_from_one_colour_to_the_other(one: str, other: str) -> None:
    assert mix(one, other, 0) == one
    assert mix(one, other, 100) == other


@given(st.lists(SPOTS, min_size=3, max_size=3), st.sampled_from(["rising", "falling", "level", "upright"]))
def test_a_hatch_is_the_part_of_its_lines_that_lies_inside(spots: list[tuple[int, int]], name: str) -> None:
    """The reference is shapely's intersection of the polygon with the whole family of lines.

    The corners are set off the grid, so that no line runs along an edge, where both answers would be right.
    """
    corners = [(x + 0.37, y + 0.11) for x, y in spots]
    triangle = Polygon(corners)
    if triangle.area < 1:
        return
    (family,) = HATCHES[name]
    dx, dy = family.along
    lines = MultiLineString(
        [
            LineString([(-500 * dx - v * dy, -500 * dy + v * dx), (500 * dx - v * dy, 500 * dy + v * dx)])
            for v in (k * family.spacing for k in range(-120, 120))
        ]
    )
    expected = lines.intersection(triangle).length
    steps = hatch(corners, (family,))
    drawn = [LineString([start[1], end[1]]) for start, end in zip(steps[::2], steps[1::2], strict=True)]
    assert sum(line.length for line in drawn) == pytest.approx(expected, abs=0.01)
    assert all(line.within(triangle.buffer(0.001)) for line in drawn)


def test_a_hatch_of_an_outline_with_a_bay_leaves_the_bay_free() -> None:
    bay = ((0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (20.0, 30.0), (20.0, 10.0), (10.0, 10.0), (10.0, 30.0), (0.0, 30.0))
    steps = hatch(bay, (Family(along=(1, 0), spacing=20),))
    assert [numbers for _, numbers in steps] == [(0, 0), (30, 0), (0, 20), (10, 20), (20, 20), (30, 20)]


def test_there_are_eight_hatches_and_no_two_are_alike() -> None:
    square = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
    assert len({hatch(square, families) for families in HATCHES.values()}) == len(HATCHES) == 8


@pytest.mark.parametrize("name", NAMES)
def test_no_two_fabrics_of_a_booklet_look_alike_without_colour(name: str) -> None:
    """Letter and print role tell them apart, and up to eight of them the hatch does too."""
    looks = {(look.fabric, look.print): look for look in looks_of(seen_booklet(name)).values()}
    assert len({look.name for look in looks.values()}) == len(looks)
    assert len({look.hatch for look in looks.values()}) == min(len(looks), 8)


def test_the_key_names_every_fabric_and_print_role() -> None:
    assert {tag for tag in tags(sketches("sample")["key"]) if tag.startswith("swatch")} == {
        "swatch A", "swatch B print 1", "swatch B print 2", "swatch C", "swatch D", "swatch E",
    }  # fmt: skip


# ------------------------------------------------------------------------------------------------- labels


@given(
    st.lists(SPOTS, min_size=3, max_size=3),
    st.text(alphabet="AB12", min_size=1, max_size=3),
)
def test_a_label_that_is_placed_lies_inside_its_patch(spots: list[tuple[int, int]], text: str) -> None:
    outline = Polygon(spots)
    if outline.area < 1:
        return
    placed = fit([(float(x), float(y)) for x, y in spots], (Line(text=text, size=10, bold=True),))
    if placed is not None:
        assert rectangle(*placed.extent).within(outline.buffer(0.001))


@given(st.integers(20, 120), st.integers(14, 120))
def test_a_label_is_placed_in_every_rectangle_that_holds_it(w: int, h: int) -> None:
    """``A1`` in bold 10 point is 14.7 points wide; with a little air on both sides 20 points hold it."""
    spots = ((0.0, 0.0), (float(w), 0.0), (float(w), float(h)), (0.0, float(h)))
    assert fit(spots, (Line(text="A1", size=10, bold=True),)) is not None


def test_a_label_moves_away_from_what_is_taken() -> None:
    room = Room()
    room.take((40, 0, 60, 100))
    placed = fit(((0, 0), (100, 0), (100, 100), (0, 100)), (Line(text="A1", size=10, bold=True),), room)
    assert placed is not None
    assert placed.extent[2] <= 40 or placed.extent[0] >= 60


def test_a_label_that_is_wider_than_its_strip_runs_along_it() -> None:
    strip = ((0, 0), (14, 0), (14, 90), (0, 90))
    line = Line(text="1½ × 46½", size=9, bold=False)
    assert fit(strip, (line,)) is None
    placed = fit(strip, (line,), turned=True)
    assert placed is not None
    (text,) = set_lines(placed, "#000000")
    left, top, right, bottom = text_extent(text)
    assert (left, top, right, bottom) == pytest.approx(placed.extent)
    assert right - left == pytest.approx(9)
    assert bottom - top == pytest.approx(text_width(line.text, 9, bold=False))


def test_numbers_that_have_no_room_on_their_cuts_stand_beside_them_on_leaders() -> None:
    """The trims of rows lower than a number: each finds waste beside its cut."""
    rows = [inches("3/2") * k for k in range(8)]
    parts = tuple(SheetPart(label="D1", x=ZERO, y=y, w=inches("6"), h=inches("3/2")) for y in rows)
    along = [Cut(n=n, axis="y", at=y, span=(ZERO, inches("12"))) for n, y in enumerate(rows[1:], start=1)]
    ends = [Cut(n=n, axis="x", at=inches("6"), span=(y, y + inches("3/2"))) for n, y in enumerate(rows, start=8)]
    sheet = Sheet(
        fabric="a", sheet=box(12, 12), times=1, print=None, mixed=False, parts=parts, cuts=(*along, *ends),
        gives={"D1": 8}, pieces=None,
    )  # fmt: skip
    (window,) = windows(sheet, break_places(sheet), 1, 132, 132)
    held = held_by(window, sheet, rests_of(sheet))
    placed = {}
    for way in WAYS:
        placed[way] = place_cuts(sheet.cuts, held, window.size, window.scale, Room(), way, whole=True)
        given_up = place_cuts(sheet.cuts, held, window.size, window.scale, Room(), way, whole=False)
        assert given_up == (placed[way] if way.aside else None)
    assert [way.aside for way, cuts in placed.items() if cuts is not None and cuts.clear] == [True]
    best = placed[ASIDE]
    assert best is not None
    leaders = [shape for shape in draw_numbers(best) if isinstance(shape, scene.Line)]
    assert {leader.start[0] for leader in leaders} == {66}
    assert leaders


def test_a_label_that_has_no_room_is_not_placed() -> None:
    room = Room()
    room.take((0, 0, 100, 100))
    spots = ((0, 0), (100, 0), (100, 100), (0, 100))
    assert fit(spots, (Line(text="A1", size=10, bold=True),), room) is None


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["A12", "4½ × 2⅞", "Press all seams toward B1.", "19¼ × 19¼ in unfinished", "6.11"])
def test_text_is_as_wide_as_the_first_font_of_the_family_sets_it(text: str, bold: bool) -> None:
    surface = cairocffi.ImageSurface(cairocffi.FORMAT_A8, 1, 1)
    context = cairocffi.Context(surface)
    weight = cairocffi.FONT_WEIGHT_BOLD if bold else cairocffi.FONT_WEIGHT_NORMAL
    context.select_font_face("DejaVu Sans", cairocffi.FONT_SLANT_NORMAL, weight)
    context.set_font_size(1000)
    if round(context.text_extents("%")[4]) != (1002 if bold else 950):
        pytest.skip("the font DejaVu Sans is not installed")
    assert text_width(text, 1000, bold=bold) == pytest.approx(context.text_extents(text)[4], rel=0.01)


def test_lines_break_at_spaces_and_never_inside_a_size() -> None:
    assert wrap("Measure: 2½\u00a0×\u00a02½\u00a0in unfinished.", 9.5, 70) == (
        "Measure:", "2½\u00a0×\u00a02½\u00a0in", "unfinished.",
    )  # fmt: skip


# ------------------------------------------------------------------------------------------------- sizes


def test_sizes_are_written_with_glyph_fractions() -> None:
    assert size_text(BOOKLET, inches("2 7/8")) == "2⅞"
    assert size_text(BOOKLET, inches("1/4")) == "¼"
    assert size_text(BOOKLET, inches("3 3/16")) == "3 3/16"
    assert size_text(replace(BOOKLET, unit="cm"), Length(inches("2 1/2").a)) == "2.5"


def test_what_no_ruler_shows_is_called_about() -> None:
    """8 sqrt 2 is 11.3137: nearer to the mark 11 3/8 (11.375) than to 11 1/4 (11.25)."""
    assert box_text(BOOKLET, D, Length(8)) == "about 11⅜ × 8 in"


def test_counts_and_orders_are_words() -> None:
    assert counted(["A1", "B2", "A1"]) == "two A1 and one B2"
    assert [ordinal(n) for n in (1, 10, 11, 12, 21, 22)] == ["first", "tenth", "11th", "12th", "21st", "22nd"]


# ------------------------------------------------------------------------------------------------- sheets


@pytest.mark.parametrize("name", NAMES)
def test_patches_and_rests_make_up_the_sheet(name: str) -> None:
    for sheet in seen_booklet(name).cutting:
        parts = sum((part.w * part.h for part in sheet.parts), ZERO)
        rests = sum(((right - left) * (bottom - top) for left, top, right, bottom in rests_of(sheet)), ZERO)
        assert parts + rests == sheet.sheet.w * sheet.sheet.h


def _narrow_strip(width: str, height: str) -> Sheet:
    w, h = inches(width), inches(height)
    count = (Length(40) / w).floor()
    return Sheet(
        fabric="ground", sheet=box(40, h), times=1, print=None, mixed=False, gives={"A2": count}, pieces=None,
        parts=tuple(SheetPart(label="A2", x=w * i, y=ZERO, w=w, h=h) for i in range(count)),
        cuts=tuple(Cut(n=i, axis="x", at=w * i, span=(ZERO, h)) for i in range(1, count + 1)),
    )  # fmt: skip


@pytest.mark.parametrize(("width", "height"), [("3", "3"), ("1 1/2", "3"), ("1", "1 1/2"), ("3/4", "3/4")])
def test_every_patch_of_a_long_strip_carries_its_label(width: str, height: str) -> None:
    sheet = _narrow_strip(width, height)
    booklet = replace(BOOKLET, cutting=(sheet,))
    sketch = next(s for s in draw_sketches(booklet) if s.kind == "cut")
    assert texts(sketch).count("A2") == len(sheet.parts)
    assert sketch.scene.w <= 482


def test_a_strip_is_broken_only_where_no_patch_is_cut_through() -> None:
    sheet = _narrow_strip("1", "1 1/2")
    shown = windows(sheet, break_places(sheet), 3, 440, 300)
    assert len(shown) == 3
    assert (shown[0].start, shown[-1].end) == (ZERO, sheet.sheet.w)
    assert all(one.end == other.start for one, other in pairwise(shown))
    assert all(any(part.x == window.end for part in sheet.parts) for window in shown[:-1])


def test_a_strip_without_cuts_is_not_broken() -> None:
    sheet = Sheet(
        fabric="edge", sheet=box(40, 3), times=6, print=None, mixed=False, cuts=(), gives={"D1": 1}, pieces=None,
        parts=(SheetPart(label="D1", x=ZERO, y=ZERO, w=Length(40), h=Length(3)),),
    )  # fmt: skip
    assert len(windows(sheet, break_places(sheet), 4, 440, 300)) == 1


# --------------------------------------------------------------------------------------- other booklets


def test_a_quilt_without_borders_and_binding_has_all_its_other_figures() -> None:
    plain = replace(BOOKLET, borders=(), binding=None, finished=BOOKLET.set.centre)
    kinds = {figure.kind for figure in draw_figures(plain)}
    assert {"border", "binding"} & kinds == set()
    assert {"quilt", "lines", "cut", "step", "block", "row", "centre", "backing"} <= kinds


@pytest.mark.parametrize("corner", ["butted", "mitred", "cornerstone"])
def test_a_border_fills_the_frame_between_what_was_before_and_what_comes_after(corner: str) -> None:
    borders = (replace(BOOKLET.borders[0], corner=corner, corners="C1" if corner == "cornerstone" else None),)
    sketch = next(s for s in draw_sketches(replace(BOOKLET, borders=borders)) if s.id == "border-1")
    shown = [m for m in marks(sketch) if "corner" not in m.tags]  # a corner is shown again, large
    strips = [m for m in shown if m.kind == "polygon" and m.tags[-1:] and m.tags[-1].startswith("strip ")]
    outlines = [Polygon(m.points) for m in strips]
    inner, outer = BOOKLET.borders[0].before.w.to_float(), BOOKLET.borders[0].after.w.to_float()
    scale = max(o.bounds[2] for o in outlines) - min(o.bounds[0] for o in outlines)
    frame = (outer**2 - inner**2) * (scale / outer) ** 2
    assert sum(o.area for o in outlines) == pytest.approx(frame)
    assert all(a.intersection(b).area < 0.01 for i, a in enumerate(outlines) for b in outlines[:i])


@cache
def _many_blocks() -> dict[str, Sketch]:
    """Return the figures of 12 x 14 blocks on point, 299 with the inner grid."""
    nine = grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")
    return {sketch.id: sketch for sketch in draw_sketches(booklet_of({"nine": nine}, on_point="1/2", size="12 x 14"))}


def test_where_full_numbers_have_no_room_blocks_carry_their_place_in_the_row() -> None:
    written = [mark for mark in marks(_many_blocks()["layout"]) if mark.text is not None]
    starts = [m.text.text for m in written if m.tags and m.tags[-1].startswith("number ")]
    places = [m.text.text for m in written if not (m.tags and m.tags[-1].startswith("number "))]
    assert sorted(map(int, starts)) == list(range(1, 26))  # across + down - 1 rows
    assert len(places) == 12 * 14 + 11 * 13
    assert places.count("23") == 3  # the longest rows have 2 * 12 - 1 blocks, and there are 14 - 12 + 1 of them


def test_a_row_of_many_blocks_still_fits_on_a_page() -> None:
    for sketch in _many_blocks().values():
        assert sketch.scene.w <= 482
        assert sketch.scene.h <= 652


def test_a_long_name_of_a_block_is_cut_short_beside_its_part() -> None:
    name = "a_block_with_a_name_that_goes_on_and_on"
    units = tuple(
        replace(
            unit,
            id=name if unit.id == "U1" else unit.id,
            from_=tuple(replace(part, unit=name if part.unit == "U1" else part.unit) for part in unit.from_),
        )
        for unit in BOOKLET.units
    )
    sketch = next(s for s in draw_sketches(replace(BOOKLET, units=units)) if s.id == "step-U4")
    shown = [text for text in texts(sketch) if text.startswith("a_b")]
    assert len(shown) == 2
    assert all(text.endswith("…") for text in shown)
    assert sketch.scene.w <= 482


def test_numbers_of_hundreds_of_cuts_never_touch_and_those_without_room_are_listed() -> None:
    """Twenty columns of thirty pieces, no two cuts on one line: six hundred numbers have no room on a page."""
    parts, cuts = [], []
    for column in range(20):
        cuts.append(("x", Length(2 * column + 2), ZERO, Length(40)))
        for j in range(30):
            parts.append(
                SheetPart(
                    label="A2", x=Length(2 * column), y=Length(j) + inches("1/64") * column, w=Length(2), h=Length(1)
                )
            )
            cuts.append(("y", Length(j + 1) + inches("1/64") * column, Length(2 * column), Length(2 * column + 2)))
    cuts.sort(key=lambda cut: cut[0])
    sheet = Sheet(
        fabric="ground", sheet=box(40, 40), times=1, print=None, mixed=False, gives={"A2": len(parts)}, pieces=None,
        parts=tuple(parts),
        cuts=tuple(Cut(n=n, axis=axis, at=at, span=(a, b)) for n, (axis, at, a, b) in enumerate(cuts, 1)),
    )  # fmt: skip
    sketch = next(s for s in draw_sketches(replace(BOOKLET, cutting=(sheet,))) if s.kind == "cut")
    circles = [mark for mark in marks(sketch) if mark.text is None and mark.tags and mark.tags[-1].startswith("number")]
    numbers = [int(mark.text.text) for mark in marks(sketch) if mark.text is not None and mark.text.text.isdecimal()]
    below = " ".join(texts(sketch)).partition("Without room for its number: ")[2].partition(".")[0]
    assert numbers
    assert below
    assert sorted([*numbers, *map(int, below.split(", "))]) == list(range(1, len(cuts) + 1))
    boxes = [extent(mark) for mark in circles]
    assert not any(overlap(one, other) for i, one in enumerate(boxes) for other in boxes[:i])


def test_cuts_that_have_no_room_for_a_number_each_are_numbered_where_their_line_begins() -> None:
    """A border is cut along a fabric that gives many small squares too: 16 a row, 30 rows, in 75 in of length."""
    side, across, rows = inches("2 1/2"), 16, 30
    parts = [SheetPart(label="A2", x=side * i, y=side * j, w=side, h=side) for j in range(rows) for i in range(across)]
    along = [("y", side * j, ZERO, side * across) for j in range(1, rows)]
    down = [("x", side * i, side * j, side * (j + 1)) for j in range(rows) for i in range(1, across)]
    cuts = tuple(Cut(n=n, axis=axis, at=at, span=(a, b)) for n, (axis, at, a, b) in enumerate([*along, *down], 1))
    sheet = Sheet(
        fabric="ground", sheet=box(40, 75), times=1, print=None, mixed=False, gives={"A2": len(parts)}, pieces=None,
        parts=tuple(parts), cuts=cuts,
    )  # fmt: skip
    sketch = next(s for s in draw_sketches(replace(BOOKLET, cutting=(sheet,))) if s.kind == "cut")
    numbers = [mark for mark in marks(sketch) if mark.text is not None and mark.text.text.isdecimal()]
    assert [int(mark.text.text) for mark in numbers if mark.text] == list(range(1, rows + across - 1))
    assert not any(overlap(extent(one), extent(other)) for i, one in enumerate(numbers) for other in numbers[:i])
    told = " ".join(texts(sketch))
    assert "A cut without a number repeats the one before it on its line." in told
    assert texts(sketch).count("A2") == len(parts)
