"""The charts that blocks are laid out by, and the grey picture."""

from __future__ import annotations

import pytest

from drawing.seen import NAMES, marks, seen_booklet, sketches, texts
from seamleaf.drawing.colours import INK, PAPER, grey_of, luminance


@pytest.mark.parametrize("colour", ["#000000", "#ffffff", "#d9593d", "#22334f", "#f2e3c2", "#3f9a94"])
def test_a_grey_is_the_one_of_all_that_is_as_light(colour: str) -> None:
    """Against all 256 greys by WCAG's relative luminance: the first that is no darker."""
    greys = [f"#{level:02x}{level:02x}{level:02x}" for level in range(256)]
    assert grey_of(colour) == next(grey for grey in greys if luminance(grey) >= luminance(colour) - 1e-9)


def test_a_grey_stays_itself() -> None:
    assert all(grey_of(grey) == grey for grey in (f"#{level:02x}{level:02x}{level:02x}" for level in range(256)))


def test_on_point_there_is_a_chart_by_level_rows_as_well() -> None:
    assert "layout-rows" in sketches("throw")
    straight = [name for name in NAMES if seen_booklet(name).set.kind == "straight"]
    assert straight
    assert not any("layout-rows" in sketches(name) for name in straight)


@pytest.mark.parametrize("name", sorted(NAMES))
def test_every_chart_marks_the_blocks_that_are_pressed_as_a_and_as_b(name: str) -> None:
    """A block's number is followed by A or B wherever its unit has a twin, on each chart of the layout."""
    booklet = seen_booklet(name)
    variants = {unit.id: unit.variant for unit in booklet.units}
    for sketch in sketches(name).values():
        if sketch.kind != "layout":
            continue
        told = [text.replace(" ", "") for text in texts(sketch)]
        for place in booklet.places:
            variant = variants[place.unit]
            if place.number and variant:
                short = place.number.rpartition(".")[2]
                assert {f"{place.number}{variant}", f"{short}{variant}"} & set(told), (name, place.number)


@pytest.mark.parametrize("name", ["two-winds cot", "window-seat lap"])
@pytest.mark.parametrize("chart", ["centre", "layout-rows"])
def test_the_numbers_of_sashed_rows_on_point_stand_in_order_outside_the_blocks(name: str, chart: str) -> None:
    """Rows of sashes end inside the centre; their numbers stand on the edge, between those of the rows beside them."""
    written = [(mark.text, mark.points[0]) for mark in marks(sketches(name)[chart]) if mark.text is not None]
    rows = sorted((int(text.text), spot) for text, spot in written if text.colour == PAPER)
    assert [number for number, _ in rows] == [row.row for row in seen_booklet(name).rows]
    blocks = {place.number for place in seen_booklet(name).places if place.number}
    numbers = [spot for text, spot in written if text.text in blocks and text.colour == INK]
    left, bottom = min(x for x, _ in numbers), max(y for _, y in numbers)
    level = chart == "layout-rows"
    assert level or all(x < left or y > bottom for _, (x, y) in rows)
    around = [y if level or x < left else bottom + x for _, (x, y) in rows]
    assert around == sorted(around)
