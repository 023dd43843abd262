"""Every form of part, setting and value that a pattern file may hold is read as what it says."""

from __future__ import annotations

from fractions import Fraction

import pytest

from pattern_text import pattern_text
from seamleaf.lengths import Length
from seamleaf.reading import Mark, Pattern, read_pattern
from seamleaf.reading.part_records import (
    Around,
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    Join,
    Log,
    Part,
    Partial,
    Patch,
    QuarterSquare,
    ThreeTriangle,
    UseBlock,
)
from seamleaf.reading.pattern import Cell, Cover

HERE = Mark(1, 1)  # places take no part in comparisons
GROUND = FabricUse(fabric="ground", print=None, where=HERE)
STAR = FabricUse(fabric="star", print=1, where=HERE)
STAR_2 = FabricUse(fabric="star", print=2, where=HERE)


def read(**sections: str) -> Pattern:
    """Read the small pattern with some sections replaced; it must be without problems."""
    reading = read_pattern(pattern_text(**sections).encode(), "harbour-lights")
    assert [problem.sentence("") for problem in reading.problems] == []
    assert reading.pattern is not None
    return reading.pattern


def length(text: str) -> Length:
    return Length(Fraction(text))


def patch(use: FabricUse, w: str, h: str) -> Patch:
    return Patch(use=use, w=length(w), h=length(h), where=HERE)


def join(axis: str, *parts: Part) -> Join:
    return Join(axis="row" if axis == "row" else "column", parts=parts, where=HERE)


D, L = patch(STAR, "2", "2"), patch(GROUND, "2", "2")

PARTS: list[tuple[str, Part]] = [
    ("ground 2 x 6", patch(GROUND, "2", "6")),
    ("ground 2x6", patch(GROUND, "2", "6")),
    ("ground 2 X 6", patch(GROUND, "2", "6")),
    ("ground 2 × 6", patch(GROUND, "2", "6")),
    ("'  ground   2   x  6 '", patch(GROUND, "2", "6")),
    ("star.1 2 1/2 x 3-1/2", patch(STAR, "5/2", "7/2")),
    ("star 2½ x 0.5", patch(STAR, "5/2", "1/2")),
    ('ground 2 in x 2.54 cm', patch(GROUND, "2", "1")),
    ('ground 2" x 3 inches', patch(GROUND, "2", "3")),
    ("{row: [star.1 2 x 2, star.2 2 x 2]}", join("row", D, patch(STAR_2, "2", "2"))),
    ("{column: [star 2 x 2, {row: [ground 2 x 2]}]}", join("column", D, join("row", L))),
    (
        "{grid: [DL, LD], key: {D: star 2 x 2, L: ground 2 x 2}}",
        join("column", join("row", D, L), join("row", L, D)),
    ),
    (
        "{grid: [x1], key: {x: {use: dark}, 1: ground 2 x 2}}",
        join("column", join("row", UseBlock(block="dark", turn=0, mirror=False, where=HERE), L)),
    ),
    (
        "{row: [star 2 x 2, ground 2 x 2], method: strips}",
        Join(axis="row", parts=(D, L), method="strips", where=HERE),
    ),
    (
        "{half-square: [star, ground], finished: 3 x 3}",
        HalfSquare(first=STAR, second=GROUND, w=length("3"), h=length("3"), turn=0, method=None,
                   oversize=length("0"), where=HERE),
    ),
    (
        "{half-square: [star.2, star.1], finished: 3 x 3, turn: 270, method: eight, oversize: 1/8}",
        HalfSquare(first=STAR_2, second=STAR, w=length("3"), h=length("3"), turn=270, method="eight",
                   oversize=length("1/8"), where=HERE),
    ),
    (
        "{quarter-square: [star, ground, star, ground], finished: 3 x 3, turn: 90}",
        QuarterSquare(uses=(STAR, GROUND, STAR, GROUND), w=length("3"), h=length("3"), turn=90, method=None,
                      oversize=length("0"), where=HERE),
    ),
    (
        "{three-triangle: [ground, star.2, star], finished: 3 x 3, turn: 180, method: two, oversize: 1/4}",
        ThreeTriangle(half=GROUND, right=STAR_2, bottom=STAR, w=length("3"), h=length("3"), turn=180, method="two",
                      oversize=length("1/4"), where=HERE),
    ),
    (
        "{half-rectangle: [ground, star.2], finished: 2 x 4, turn: 270, method: triangles, oversize: 1/4}",
        HalfRectangle(first=GROUND, second=STAR_2, w=length("2"), h=length("4"), turn=270, oversize=length("1/4"),
                      where=HERE),
    ),
    (
        "{geese: {goose: ground, sky: star}, finished: 4 x 2}",
        Geese(goose=GROUND, sky=STAR, w=length("4"), h=length("2"), point="up", method=None,
              oversize=length("0"), where=HERE),
    ),
    (
        "{geese: {goose: ground, sky: star}, finished: 2 x 4, point: left, method: four}",
        Geese(goose=GROUND, sky=STAR, w=length("2"), h=length("4"), point="left", method="four",
              oversize=length("0"), where=HERE),
    ),
    (
        "{corners: {base: star, top-left: ground, bottom-right: ground}, corner: 2, finished: 6 x 6}",
        Corners(base=STAR, top_left=GROUND, top_right=None, bottom_right=GROUND, bottom_left=None,
                corner=length("2"), w=length("6"), h=length("6"), where=HERE),
    ),
    (
        "{diamond: {centre: star, corners: ground}, finished: 8 x 8}",
        Diamond(centre=STAR, corners=GROUND, w=length("8"), h=length("8"), oversize=length("0"), where=HERE),
    ),
    (
        "{diamond: {centre: {row: [star 2 x 2]}, corners: ground}, finished: 8 x 8, oversize: 1/4}",
        Diamond(centre=join("row", D), corners=GROUND, w=length("8"), h=length("8"), oversize=length("1/4"),
                where=HERE),
    ),
    (
        "{diamond: {centre: star 2 x 2, corners: ground}, finished: 8 x 8}",
        Diamond(centre=D, corners=GROUND, w=length("8"), h=length("8"), oversize=length("0"), where=HERE),
    ),
    (
        "{around: {centre: star 2 x 2, logs: [ground 1, star.2 1 1/2]}}",
        Around(centre=D, logs=(Log(use=GROUND, width=length("1"), where=HERE),
                               Log(use=STAR_2, width=length("3/2"), where=HERE)),
               start="right", direction="clockwise", where=HERE),
    ),
    (
        "{around: {centre: {use: dark}, logs: [ground 1], start: top, direction: opposite}}",
        Around(centre=UseBlock(block="dark", turn=0, mirror=False, where=HERE),
               logs=(Log(use=GROUND, width=length("1"), where=HERE),), start="top", direction="opposite", where=HERE),
    ),
    (
        "{partial: {centre: star 2 x 2, ring: ground 2 x 4, direction: anticlockwise}}",
        Partial(centre=D, ring=patch(GROUND, "2", "4"), direction="anticlockwise", where=HERE),
    ),
    (
        "{use: dark, turn: 90, mirror: true}",
        UseBlock(block="dark", turn=90, mirror=True, where=HERE),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "part"), PARTS, ids=[text for text, _ in PARTS])
def test_a_part_is_read_as_what_it_says(text: str, part: Part) -> None:
    # A second print is in use beside the part, so that prints run without a gap whatever the part uses.
    blocks = f"blocks:\n  light: {{row: [star.1 1 x 1, star.2 1 x 1, {text}]}}\n  dark: ground 4 x 4"

    light = read(blocks=blocks).blocks["light"].part

    assert isinstance(light, Join)
    assert light.parts[2] == part


@pytest.mark.parametrize("text", [text for text, part in PARTS if isinstance(part, (Join, HalfSquare, Geese, Diamond))])
def test_a_block_is_any_part_and_may_state_its_finished_size(text: str) -> None:
    text = text.replace("star.2", "star")
    if "finished" not in text:
        text = text[:-1] + ", finished: 8 x 8}"

    block = read(blocks=f"blocks:\n  light: {text}\n  dark: ground 4 x 4").blocks["light"]

    assert block.finished is not None
    assert block.finished[0] in (length("2"), length("3"), length("4"), length("8"))


def test_a_part_stands_where_it_is_written() -> None:
    pattern = read(blocks="blocks:\n  dark: ground 4 x 4\n  light:\n    row:\n    - ground 2 x 4\n    - {use: dark}")

    light = pattern.blocks["light"]
    assert isinstance(light.part, Join)
    assert (light.where, light.part.where) == (Mark(9, 3), Mark(10, 5))
    assert [part.where for part in light.part.parts] == [Mark(11, 7), Mark(12, 7)]


def test_a_cell_of_a_grid_stands_at_its_row_and_its_inner_parts_at_the_key() -> None:
    text = "blocks:\n  light: {grid: [D, D], key: {D: {row: [ground 2 x 4]}}}\n  dark: ground 4 x 4"

    light = read(blocks=text).blocks["light"].part

    assert isinstance(light, Join)
    rows = [row for row in light.parts if isinstance(row, Join)]
    cells = [row.parts[0] for row in rows]
    assert [row.where for row in rows] == [cell.where for cell in cells] == [Mark(8, 18), Mark(8, 21)]
    assert isinstance(cells[1], Join)
    assert cells[1].parts[0].where == Mark(8, 41)


# ---------------------------------------------------------------------------------------------- the rest


def test_lengths_without_unit_are_in_the_unit_of_the_pattern_and_names_in_inches() -> None:
    """One inch is 2.54 cm, exact since 1959 (NBS Circular 572, addendum of 1960)."""
    pattern = read(
        unit="unit: cm",
        fabrics="fabrics: {ground: {source: yardage, usable: 110}, star: {source: squares 10}, "
        "edge: {source: strips 2 1/2, usable: 40 in}}",
    )

    assert pattern.measures.unit == "cm"
    assert pattern.seam == length("3/4")
    assert pattern.fabrics["ground"].usable == (length("110"), length("0"))
    assert pattern.fabrics["star"].source_size == length("25.4")
    assert pattern.fabrics["star"].usable == (length("25.4"), length("25.4"))
    assert pattern.fabrics["edge"].usable == (length("101.6"), length("6.35"))
    assert pattern.backing.usable == length("105")
    assert pattern.batting_extra == length("10")


def test_what_is_left_out_has_the_documented_default() -> None:
    pattern = read(
        fabrics="fabrics: {ground: {source: yardage}, star: {source: fat quarters}, edge: {source: fat eighths}}",
        setting="setting: {set: on-point, blocks: [[light]], triangles: {fabric: ground}, "
        "sashing: {fabric: star, width: 1}}",
        borders="borders: [{fabric: ground, width: 2}]",
        binding="binding: {fabric: ground}",
    )

    ground, star, edge = pattern.fabrics.values()
    assert pattern.seam == length("1/4")
    assert (ground.title, ground.usable, ground.margin) == ("ground", (length("40"), length("0")), length("2"))
    assert (ground.colours, ground.directional, ground.edge) == (("#b8b8b8",), False, "straight")
    assert (star.usable, star.margin, star.pack) == ((length("18"), length("20")), length("0"), None)
    assert edge.usable == (length("9"), length("20"))
    triangles, sashing = pattern.setting.triangles, pattern.setting.sashing
    assert triangles is not None
    assert (triangles.oversize, triangles.float) == (length("1/2"), length("0"))
    assert sashing is not None
    assert (sashing.fabric, sashing.cornerstone, sashing.outer) == (STAR, None, True)
    assert (pattern.setting.turns, pattern.setting.between) == ("free", None)
    assert pattern.borders[0].corner == "butted"
    assert pattern.binding is not None
    assert (pattern.binding.strip, pattern.binding.cut, pattern.binding.extra) == (
        length("5/2"), "crosswise", length("12"),
    )  # fmt: skip
    assert (pattern.backing.usable, pattern.backing.extra, pattern.backing.insert) == (length("40"), length("4"), False)
    assert pattern.batting_extra == length("4")
    assert (pattern.designer, pattern.summary, pattern.skill) == ("", "", "")
    assert pattern.sizes["crib"].title == "Crib"
    assert read().binding is None


def test_metric_patterns_have_round_metric_defaults_where_the_trade_has_them() -> None:
    pattern = read(unit="unit: cm", setting="setting: {set: on-point, blocks: [[light]], triangles: {fabric: ground}}")

    assert pattern.setting.triangles is not None
    assert pattern.setting.triangles.oversize == length("1")
    assert pattern.fabrics["ground"].usable[0] == length("105")
    assert pattern.fabrics["ground"].margin == length("5")
    assert (pattern.backing.extra, pattern.batting_extra) == (length("10"), length("10"))


def test_sashing_has_no_outer_strips_in_a_straight_set_unless_asked_for() -> None:
    setting = "setting: {{set: straight, blocks: [[light]], sashing: {{fabric: ground, width: 1{}}}}}"

    default, asked = read(setting=setting.format("")), read(setting=setting.format(", outer: true"))

    assert default.setting.sashing is not None
    assert asked.setting.sashing is not None
    assert (default.setting.sashing.outer, asked.setting.sashing.outer) == (False, True)


def test_a_tile_holds_turned_blocks_and_plain_fabrics() -> None:
    pattern = read(setting="setting: {set: straight, blocks: [[light, light@90], [ground, star.2], [star, dark@0]]}")

    def cell(block: str | None, plain: FabricUse | None, turn: int = 0) -> Cell:
        return Cell(block=block, plain=plain, turn=90 if turn else 0, where=HERE)

    assert pattern.setting.blocks == (
        (cell("light", None), cell("light", None, 90)),
        (cell(None, GROUND), cell(None, STAR_2)),
        (cell(None, STAR), cell("dark", None)),
    )


def test_in_a_tile_a_block_goes_before_a_fabric_of_the_same_name() -> None:
    pattern = read(blocks="blocks: {star: ground 4 x 4}", setting="setting: {set: straight, blocks: [[star, ground]]}")

    assert [(cell.block, cell.plain) for cell in pattern.setting.blocks[0]] == [("star", None), (None, GROUND)]


def test_colours_are_six_digits_in_small_letters() -> None:
    pattern = read(
        fabrics='fabrics: {ground: {source: yardage, colour: "#C8F"}, '
        'star: {source: squares 5, colours: ["#C8553D", "#f2b134"]}, edge: {source: yardage, colours: ["#000"]}}'
    )

    assert [fabric.colours for fabric in pattern.fabrics.values()] == [
        ("#cc88ff",), ("#c8553d", "#f2b134"), ("#000000",),
    ]  # fmt: skip


def test_values_are_the_text_that_was_written() -> None:
    """YAML 1.1 would make 1:30 ninety, 010 eight, 1.10 a decimal and no a truth value."""
    pattern = read(
        title="title: 010",
        version="version: 1.10",
        more="designer: no\nskill: 1:30\nsummary: 2024-01-01",
        fabrics="fabrics: {ground: {source: yardage, title: 1_000}, star: {source: squares 010}}",
    )

    assert (pattern.title, pattern.version, pattern.designer) == ("010", "1.10", "no")
    assert (pattern.skill, pattern.summary, pattern.fabrics["ground"].title) == ("1:30", "2024-01-01", "1_000")
    assert pattern.fabrics["star"].source_size == length("10")


def test_a_summary_is_one_paragraph_however_it_is_broken_into_lines() -> None:
    folded = read(more="summary: >\n  One paragraph\n  of text.\n")
    literal = read(more="summary: |\n  One paragraph\n  of text.\n")

    assert folded.summary == literal.summary == "One paragraph of text."


def test_borders_binding_backing_and_batting_are_read() -> None:
    pattern = read(
        borders="borders:\n- {fabric: edge, width: 1 1/2, corner: mitred}\n"
        "- {fabric: ground, width: 4, corner: cornerstone, cornerstone: edge}",
        binding="binding: {fabric: edge, strip: 2 1/4, cut: bias, extra: 15}",
        backing="backing: {fabric: edge, extra: 3, insert: true}",
        batting="batting: {extra: 0}",
        fabrics="fabrics: {ground: {source: yardage}, star: {source: squares 10}, edge: {source: yardage, usable: 42}}",
        sizes="sizes: {crib: {blocks: 2 x 3, borders: [1, 2 1/2]}, twin-bed: {cover: {mattress: 38 x 75, drop: 12}}}",
        classes="classes: {autumn: {title: Autumn, size: crib, students: 12, sessions: [3 h, 90 min, 2.5]}}",
    )

    first, second = pattern.borders
    assert (first.fabric, first.widths, first.corner, first.cornerstone) == ("edge", (length("3/2"),), "mitred", None)
    assert (second.corner, second.cornerstone) == ("cornerstone", "edge")
    assert pattern.binding is not None
    assert (pattern.binding.strip, pattern.binding.cut, pattern.binding.extra) == (length("9/4"), "bias", length("15"))
    # The back of a named fabric is as wide as that fabric.
    assert (pattern.backing.fabric, pattern.backing.usable) == ("edge", length("42"))
    assert (pattern.backing.extra, pattern.backing.insert) == (length("3"), True)
    assert pattern.batting_extra == length("0")
    crib, twin = pattern.sizes.values()
    assert (crib.blocks, crib.borders, crib.cover) == ((2, 3), ((length("1"),), (length("5/2"),)), None)
    assert (twin.title, twin.blocks, twin.borders) == ("Twin bed", None, None)
    assert twin.cover == Cover(mattress=(length("38"), length("75")), drop=length("12"), tuck=length("0"), where=HERE)
    autumn = pattern.classes["autumn"]
    assert (autumn.title, autumn.size, autumn.students) == ("Autumn", "crib", 12)
    assert autumn.sessions == (Fraction(3), Fraction(3, 2), Fraction(5, 2))


def test_prints_of_used_blocks_count_with_those_of_the_block_that_uses_them() -> None:
    """The claw alone would have a gap, but it is never sewn alone."""
    read(
        blocks="blocks:\n  light: {row: [star.1 2 x 2, {use: claw}]}\n  claw: star.2 2 x 2\n  dark: ground 4 x 4",
        setting="setting: {set: straight, blocks: [[light, dark]]}",
    )


def test_the_order_of_fabrics_and_sizes_is_that_of_the_file() -> None:
    pattern = read(sizes="sizes: {throw: {blocks: 4 x 5}, crib: {blocks: 2 x 3}}")

    assert list(pattern.fabrics) == ["ground", "star", "edge"]
    assert list(pattern.sizes) == ["throw", "crib"]
