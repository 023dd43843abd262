"""Wrong sides, pins, corners of borders and maps of rows: what lies where, by what the booklet says of each seam."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

import pytest
from shapely.geometry import Point, Polygon

from drawing.recording import Mark, RecordingPen
from drawing.sample import BOOKLET, D
from drawing.seen import NAMES, marks, seen_booklet, sketches, tags, texts
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Clash
from seamleaf.drawing import draw_sketches
from seamleaf.drawing import rows as rows_module
from seamleaf.drawing.backs import Back, Backs
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.rows import row_sketches
from seamleaf.drawing.scene import Group, Path
from seamleaf.drawing.wrong_side import draw_back
from seamleaf.lengths import Length

WIDTH = 0.25


def back(booklet: Booklet, unit: str) -> Back:
    return Backs(Desk(booklet), WIDTH).of(unit)


def figure(booklet: Booklet, stem: str) -> Sketch:
    return next(sketch for sketch in draw_sketches(booklet) if sketch.id == stem)


def shapes(panel: list[Mark], tag: str) -> list[Polygon]:
    return [Polygon(m.points) for m in panel if m.kind == "polygon" and m.tags[-1:] == (tag,)]


# ----------------------------------------------------------------------------------------- allowances


@pytest.mark.parametrize(("press", "expected"), [("before", (1.75, 2.0)), ("after", (2.0, 2.25))])
def test_an_allowance_lies_on_the_side_that_its_seam_is_pressed_to(press: str, expected: tuple[float, float]) -> None:
    """S4 of the row U3 runs upright at 2, between U2 at the left and U1 at the right."""
    seams = tuple(replace(s, press=press) if s.id == "S4" else s for s in BOOKLET.seams)
    found = back(replace(BOOKLET, seams=seams), "U3")
    (index,) = [i for i, fold in enumerate(found.folds) if {x for x, _ in fold.line} == {2.0}]
    flaps = [Polygon(flap.spots) for flap in found.flaps if flap.fold == index]
    xs = {bound for flap in flaps for bound in (flap.bounds[0], flap.bounds[2])}
    assert (min(xs), max(xs)) == pytest.approx(expected)
    assert sum(flap.area for flap in flaps) == pytest.approx(2 * WIDTH)


def test_an_allowance_shows_the_fabric_that_it_is_pressed_away_from() -> None:
    """The half-square U2, A2 above C1, is pressed to A2: over it lies the edge of C1, wrong side up."""
    (flap,) = back(BOOKLET, "U2").flaps
    assert flap.use == ("lamp", None)
    assert not flap.turned_up
    assert Polygon(flap.spots).within(Polygon([(0, 0), (2, 0), (0, 2)]).buffer(1e-9))


def test_an_open_seam_shows_the_right_sides_of_both() -> None:
    """S9 of the block is open: along its whole length, 8 in, an allowance lies on each side."""
    found = back(BOOKLET, "star")
    (index,) = [i for i, fold in enumerate(found.folds) if {y for _, y in fold.line} == {6.0} and fold.lean is None]
    flaps = [flap for flap in found.flaps if flap.fold == index]
    assert all(flap.turned_up for flap in flaps)
    assert sum(Polygon(flap.spots).area for flap in flaps) == pytest.approx(2 * 8 * WIDTH)


def test_a_unit_that_lies_turned_takes_its_allowances_with_it() -> None:
    """U3 lies at the top of the block as it is and at its bottom upside down: its folds come twice, turned by half."""
    row, block = back(BOOKLET, "U3"), back(BOOKLET, "star")
    upright = [fold.lean for fold in row.folds]
    turned = [None if lean is None else (-lean[0], -lean[1]) for lean in upright]
    leans = [fold.lean for fold in block.folds]
    n = len(upright)
    assert leans[:n] == [pytest.approx(lean) for lean in upright]
    assert leans[-2 - n : -2] == [pytest.approx(lean, abs=1e-9) for lean in turned]


@pytest.mark.parametrize("name", NAMES)
def test_every_seam_of_a_unit_is_covered_by_allowances_along_its_whole_length(name: str) -> None:
    """Pressed to one side the allowances are as long as the fold; open, twice as long."""
    desk = Desk(seen_booklet(name))
    backs = Backs(desk, 0.01)  # so narrow that no slope takes anything off its ends worth counting
    for unit in desk.booklet.units:
        found = backs.of(unit.id)
        for index, fold in enumerate(found.folds):
            area = sum(Polygon(flap.spots).area for flap in found.flaps if flap.fold == index)
            sides = 2 if fold.lean is None else 1
            assert area / 0.01 == pytest.approx(sides * math.dist(*fold.line), abs=0.03), unit.id


# ------------------------------------------------------------------------------------------ spun seams


def test_all_allowances_turn_the_same_way_round_a_spun_middle() -> None:
    """Seen from the middle, each of the four lies clockwise of its own seam, or each the other way."""
    found = back(seen_booklet("spun"), "pinwheel")
    (opening,) = found.openings
    middle = Polygon(opening).centroid
    assert (middle.x, middle.y) == pytest.approx((3, 3))
    ways = []
    for fold in found.folds:
        for end, other in (fold.line, fold.line[::-1]):
            if math.dist(end, (3, 3)) < 1e-6 and fold.lean is not None:
                arm = (other[0] - end[0], other[1] - end[1])
                ways.append(arm[0] * fold.lean[1] - arm[1] * fold.lean[0] > 0)
    assert len(ways) == 4
    assert len(set(ways)) == 1


def test_the_little_square_is_two_allowances_wide() -> None:
    (opening,) = back(seen_booklet("spun"), "pinwheel").openings
    assert Polygon(opening).area == pytest.approx((2 * WIDTH) ** 2)


def test_the_wrong_side_is_mirrored_left_to_right() -> None:
    """A2 lies at the upper left of the half-square U2; seen from the wrong side it lies at the upper right."""
    desk = Desk(BOOKLET)
    pen = RecordingPen()
    for shape in draw_back(desk, desk.units["U2"], Backs(desk, WIDTH), 10):
        shape.draw(pen)
    (upper,), (lower,) = (shapes(pen.marks, f"patch {label}") for label in ("A2", "C1"))
    assert upper.centroid.x > lower.centroid.x
    assert upper.centroid.y < lower.centroid.y
    assert upper.union(lower).bounds == pytest.approx((-2.5, -2.5, 22.5, 22.5))  # 1/4 in beyond the finished 2 x 2


def test_the_figure_shows_every_allowance_and_the_little_square() -> None:
    sketch = sketches("spun")["wrong-pinwheel"]
    assert tags(sketch)["flap"] == len(back(seen_booklet("spun"), "pinwheel").flaps) >= 8
    assert tags(sketch)["opening"] == 1
    assert sketch.about == {"unit": "pinwheel"}


def test_a_booklet_without_spun_seams_and_b_blocks_has_no_wrong_side() -> None:
    assert not [stem for stem in sketches("crib") if stem.startswith("wrong")]
    assert "wrong side of the fabric" in texts(sketches("crib")["legend"])
    assert not [text for text in texts(sketches("crib")["legend"]) if "as it lies" in text]


# --------------------------------------------------------------------------------------------- A and B


def test_the_allowances_with_a_heavy_edge_lie_on_opposite_sides_in_a_and_b() -> None:
    """Each has its counterpart, moved across its seam by its own width and no further."""
    sketch = sketches("a and b")["wrong-nine"]
    assert sketch.about == {"unit": "nine", "other": "nine.B"}
    heavy: dict[str, list[Polygon]] = {}
    frames: dict[str, Polygon] = {}
    for mark in marks(sketch):
        if mark.kind == "polygon" and mark.ink:
            if mark.tags[-1:] == ("flap",) and mark.ink.width == 2.0:
                heavy.setdefault(mark.tags[0], []).append(Polygon(mark.points))
            if mark.tags[-1].startswith("wrong ") and mark.ink.fill is None:
                frames[mark.tags[0]] = Polygon(mark.points)
    a, b = (heavy[f"wrong {unit}"] for unit in ("nine", "nine.B"))
    origin = [frames[f"wrong {unit}"].bounds[:2] for unit in ("nine", "nine.B")]
    assert len(a) == len(b) == 12
    spots_a = [(p.centroid.x - origin[0][0], p.centroid.y - origin[0][1]) for p in a]
    spots_b = [(p.centroid.x - origin[1][0], p.centroid.y - origin[1][1]) for p in b]
    width = min(min(p.bounds[2] - p.bounds[0], p.bounds[3] - p.bounds[1]) for p in a)
    for spot in spots_a:
        assert min(math.dist(spot, other) for other in spots_b) == pytest.approx(width, rel=0.02)


# ------------------------------------------------------------------------------------------------ pins


def test_pins_stand_where_the_booklet_says() -> None:
    booklet = seen_booklet("pinned")
    shown = sketches("pinned")["centre"]
    pins = [m for m in marks(shown) if m.kind == "circle" and m.tags[-1:] == ("pin",)]
    assert len(pins) == 2 * len(booklet.pressing.pins) > 0
    spots = sorted(((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in (m.points for m in pins))
    xs = [pin.x.to_float() for pin in booklet.pressing.pins]
    scale = (spots[-1][0] - spots[0][0]) / (max(xs) - min(xs))
    expected = sorted((pin.x.to_float() * scale, pin.y.to_float() * scale) for pin in booklet.pressing.pins)
    shift = (spots[0][0] - expected[0][0], spots[0][1] - expected[0][1])
    assert [(x - shift[0], y - shift[1]) for x, y in spots[::2]] == [pytest.approx(spot) for spot in expected]
    assert any(text.startswith("pin here") for text in texts(sketches("pinned")["legend"]))


def test_where_all_nests_nothing_is_pinned() -> None:
    for stem, sketch in sketches("crib").items():
        assert tags(sketch)["pin"] == 0, stem
    assert not any(text.startswith("pin here") for text in texts(sketches("crib")["legend"]))


def test_a_pin_inside_a_block_stands_on_the_block_in_its_own_frame() -> None:
    """Block 2.2 lies in the middle of the centre, turned by 135 degrees: its right edge looks to the lower left."""
    step = Length(0, 1)  # sqrt 2: 2 in along a diagonal are sqrt 2 each way
    inside = Clash(x=D - step, y=D + step)
    between = Clash(x=D, y=D + D / 2)  # a corner of the block: between blocks
    pressing = replace(BOOKLET.pressing, clash=2, pins=(inside, between))
    shown = figure(replace(BOOKLET, pressing=pressing), "block-star")
    assert tags(shown)["pin"] == 1
    pin = next(m for m in marks(shown) if m.kind == "circle" and m.tags[-1] == "pin")
    ((x1, y1), (x2, y2)) = pin.points
    block = next(Polygon(m.points) for m in marks(shown) if m.kind == "polygon" and m.ink and m.ink.fill is None)
    left, top, right, bottom = block.bounds
    spot = Point((x1 + x2) / 2 - left, (y1 + y2) / 2 - top)
    assert (spot.x / (right - left) * 8, spot.y / (bottom - top) * 8) == pytest.approx((6, 4))
    assert "Pin at the ringed dots" in shown.title


# ----------------------------------------------------------------------------------- corners of borders


def test_a_mitre_is_shown_large_and_pressed_open() -> None:
    sketch = sketches("sashed")["border-2"]
    corner = [m for m in marks(sketch) if m.tags[:1] == ("corner",)]
    assert sum(m.tags[-1] == "press open" for m in corner) == 2  # the arrow and its halo
    assert sum(m.tags[-1] == "press before" for m in corner) == 4
    lines = [m.points for m in corner if m.kind == "line"]
    slopes = [line for line in lines if line[0][0] != line[1][0] and line[0][1] != line[1][1]]
    assert len(slopes) == 1
    assert "Mitre the corners." in sketch.title


def test_cornerstones_carry_their_label_and_are_pressed_to_the_strip() -> None:
    booklet = seen_booklet("sashed")
    border = booklet.borders[0]
    sketch = sketches("sashed")["border-1"]
    corner = [m for m in marks(sketch) if m.tags[:1] == ("corner",)]
    assert texts(sketch).count(border.corners) >= 2
    assert sum(m.tags[-1] == "press after" for m in corner) == 2
    numbers = sorted(tag for tag in tags(sketch) if tag.startswith("number "))
    assert numbers == ["number 1", "number 2", "number 3", "number 4"]


def test_a_butted_border_has_no_corner_to_explain() -> None:
    assert not [m for m in marks(sketches("crib")["border-1"]) if m.tags[:1] == ("corner",)]


# ----------------------------------------------------------------------------------------- sashed sets


def test_sash_rows_hold_their_sashes_and_cornerstones_by_label() -> None:
    """Three blocks across with sashing all round: four cornerstones and three sashes a sash row."""
    booklet = seen_booklet("sashed")
    row = next(row for row in booklet.rows if booklet.places[row.items[0]].kind == "cornerstone")
    kinds = [booklet.places[index].kind for index in row.items]
    assert (kinds.count("cornerstone"), kinds.count("sash")) == (4, 3)
    sketch = sketches("sashed")[f"row-{row.row}"]
    desk = Desk(booklet)
    labels = [desk.pieces(booklet.places[index].unit)[0].label for index in row.items]
    assert sorted(text for text in texts(sketch) if text in labels) == sorted(labels)


def test_a_long_sash_is_a_row_by_itself_and_has_no_figure() -> None:
    """There is nothing in it to sew."""
    booklet = seen_booklet("long sashes")
    assert [row.row for row in booklet.rows if len(row.items) == 1] == [2]
    assert [stem for stem in sketches("long sashes") if stem.startswith("row-")] == ["row-1", "row-3"]


# ------------------------------------------------------------------------------------- maps of rows


@pytest.mark.parametrize("name", ["king", "market-day lap", "sashed"])
def test_the_map_of_a_very_large_quilt_shows_the_same_places_as_whole_rows(
    monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """Of rows, columns, and rows on the diagonal between two corners, what is dark, grey and pale has the same area."""
    places = painted(name)
    monkeypatch.setattr(rows_module, "MOST_PLACES", 0)
    rows = painted(name)
    assert rows.keys() == places.keys()
    for fill, outlines in rows.items():
        assert sum(map(area, outlines)) == pytest.approx(sum(map(area, places[fill])))
    booklet = seen_booklet(name)
    apart = sum(place.row is None for place in booklet.places)
    assert sum(map(len, rows.values())) == len(booklet.rows) + apart < len(booklet.places)


def painted(name: str) -> dict[str, list[list[tuple[float, ...]]]]:
    """Return the outlines on the map of the second row, by colour."""
    sketch = row_sketches(Desk(seen_booklet(name)))[1]
    found: dict[str, list[list[tuple[float, ...]]]] = {}
    for group in groups(sketch.scene.parts):
        if group.tag == "map":
            for path in group.parts:
                assert isinstance(path, Path)
                outlines = found.setdefault(path.ink.fill or "", [])
                for code, numbers in path.steps:
                    if code == "M":
                        outlines.append([])
                    if numbers:
                        outlines[-1].append(numbers)
    return found


def groups(shapes: Iterable[object]) -> Iterator[Group]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield shape
            yield from groups(shape.parts)


def area(outline: list[tuple[float, ...]]) -> float:
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in pairs)) / 2
