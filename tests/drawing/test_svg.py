"""The serialiser: the small subset, sorted attributes, rounded numbers, and the same bytes everywhere."""

from __future__ import annotations

import doctest
import io
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import cairosvg
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageChops, ImageStat

from drawing.kinds import PLANS
from drawing.sample import BOOKLET
from drawing.seen import seen_booklet
from seamleaf.drawing import draw_figures
from seamleaf.drawing import figure as figure_module
from seamleaf.drawing import svg as svg_module
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.rows import row_sketches
from seamleaf.drawing.scene import Circle, Group, Ink, Line, Polygon, Rect, Scene, Text, closed
from seamleaf.drawing.scene import Path as Outline
from seamleaf.drawing.svg import number, write_svg
from seamleaf.proof.drawn import read_drawing
from seamleaf.proof.report import Findings

SVG = "{http://www.w3.org/2000/svg}"
ALLOWED = {
    "svg": {"aria-labelledby", "height", "role", "viewBox", "width"},
    "title": {"id"},
    "desc": {"id"},
    "g": {"transform"},
    "path": {"d"},
    "polygon": {"points"},
    "rect": {"x", "y", "width", "height", "rx"},
    "line": {"x1", "y1", "x2", "y2"},
    "circle": {"cx", "cy", "r"},
    "text": {"transform", "x", "y", "font-family", "font-size", "font-weight", "text-anchor"},
}
PAINT = {
    "fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap", "stroke-linejoin",
}  # fmt: skip
FIGURES = {figure.id: figure for figure in draw_figures(BOOKLET)}
EVERY_FIGURE = pytest.mark.parametrize("stem", list(FIGURES))


def test_a_scene_of_every_shape_is_written_like_this() -> None:
    scene = Scene(
        w=60,
        h=40.5,
        parts=(
            Rect(x=1, y=2, w=10, h=10, corner=1.5, ink=Ink(fill="#aabbcc", opacity=0.5)),
            Group(
                parts=(
                    Polygon(points=((0, 0), (4, 0), (0, 4)), ink=Ink(fill="#000000", stroke="#ffffff", width=0.75)),
                    Line(start=(0, 0), end=(5, 5), ink=Ink(stroke="#1b1b1f", width=1, dash=(4, 2.5))),
                ),
                dx=20,
                dy=0,
                tag="not published",
            ),
            Circle(centre=(30, 30), radius=7.5, ink=Ink(stroke="#1b1b1f", width=1, rounded=True)),
            Outline(steps=(*closed(((0, 0), (1, 0), (1, 1))), ("M", (0.005, -0.001))), ink=Ink(fill="#010203")),
            Text(x=30, y=38, text="A1 & <B2>", size=9, bold=True, colour="#1b1b1f"),
        ),
    )

    written = write_svg(scene, prefix="quilt-crib-key", title='Sew "A1" & B2.', desc="Two patches.")

    assert written == (
        '<svg aria-labelledby="quilt-crib-key-title quilt-crib-key-desc" height="40.5pt" role="img"'
        ' viewBox="0 0 60 40.5" width="60pt" xmlns="http://www.w3.org/2000/svg">\n'
        ' <title id="quilt-crib-key-title">Sew "A1" &amp; B2.</title>\n'
        ' <desc id="quilt-crib-key-desc">Two patches.</desc>\n'
        ' <rect fill="#ffffff" height="40.5" width="60" x="0" y="0"/>\n'
        ' <rect fill="#aabbcc" fill-opacity="0.5" height="10" rx="1.5" width="10" x="1" y="2"/>\n'
        ' <g transform="translate(20 0)">\n'
        '  <polygon fill="#000000" points="0,0 4,0 0,4" stroke="#ffffff" stroke-width="0.75"/>\n'
        '  <line fill="none" stroke="#1b1b1f" stroke-dasharray="4 2.5" stroke-width="1" x1="0" x2="5" y1="0" y2="5"/>\n'
        " </g>\n"
        ' <circle cx="30" cy="30" fill="none" r="7.5" stroke="#1b1b1f" stroke-linecap="round"'
        ' stroke-linejoin="round" stroke-width="1"/>\n'
        ' <path d="M0 0 L1 0 L1 1 Z M0.01 0" fill="#010203"/>\n'
        ' <text fill="#1b1b1f" font-family="DejaVu Sans, Verdana, sans-serif" font-size="9" font-weight="bold"'
        ' text-anchor="middle" x="30" y="38">A1 &amp; &lt;B2&gt;</text>\n'
        "</svg>\n"
    )


@given(st.floats(-1e5, 1e5))
def test_a_number_is_the_nearest_hundredth_in_its_shortest_form(value: float) -> None:
    text = number(value)
    assert re.fullmatch(r"-?(0|[1-9]\d*)(\.\d?[1-9])?", text)
    assert text != "-0"
    assert abs(float(text) - value) <= 0.005 + 1e-9


@EVERY_FIGURE
def test_only_the_small_subset_of_elements_and_attributes_is_used(stem: str) -> None:
    for element in ET.fromstring(FIGURES[stem].svg).iter():  # noqa: S314 -- our own text
        name = element.tag.removeprefix(SVG)
        assert set(element.attrib) <= ALLOWED[name] | (PAINT if name not in ("svg", "title", "desc", "g") else set())


@EVERY_FIGURE
def test_colours_are_six_hex_digits(stem: str) -> None:
    painted = re.findall(r' (?:fill|stroke)="([^"]*)"', FIGURES[stem].svg)
    assert all(colour == "none" or re.fullmatch(r"#[0-9a-f]{6}", colour) for colour in painted)


@EVERY_FIGURE
def test_attributes_stand_in_alphabetical_order(stem: str) -> None:
    for element in re.findall(r"<[a-z]+ ([^>]*?)/?>", FIGURES[stem].svg):
        names = re.findall(r'([\w:-]+)="', element)
        assert names == sorted(names)


@EVERY_FIGURE
def test_the_figure_is_an_image_named_by_its_own_title(stem: str) -> None:
    root = ET.fromstring(FIGURES[stem].svg)  # noqa: S314 -- our own text
    named = {element.get("id"): element.text for element in root if element.tag in (f"{SVG}title", f"{SVG}desc")}
    prefix = f"small-star-wall-{stem}-"
    assert root.get("role") == "img"
    assert root.get("aria-labelledby", "").split() == list(named)
    assert named[f"{prefix}title"] == FIGURES[stem].title
    assert all(name is not None and name.startswith(prefix) for name in named)


def test_ids_are_unique_over_all_figures_of_a_size() -> None:
    ids = [name for figure in FIGURES.values() for name in re.findall(r' id="([^"]*)"', figure.svg)]
    assert len(ids) == len(set(ids))


@EVERY_FIGURE
def test_a_plain_converter_draws_it(stem: str) -> None:
    figure = FIGURES[stem]
    png = cairosvg.svg2png(bytestring=figure.svg.encode())
    width, height = int.from_bytes(png[16:20]), int.from_bytes(png[20:24])
    assert abs(width - figure.width * 96 / 72) <= 1
    assert abs(height - figure.height * 96 / 72) <= 1


@pytest.mark.parametrize("name", list(PLANS))
def test_every_kind_of_sewing_and_setting_keeps_to_the_subset_and_is_drawn(name: str) -> None:
    figures = draw_figures(seen_booklet(name))
    for figure in figures:
        for element in ET.fromstring(figure.svg).iter():  # noqa: S314 -- our own text
            tag = element.tag.removeprefix(SVG)
            assert set(element.attrib) <= ALLOWED[tag] | (PAINT if tag not in ("svg", "title", "desc", "g") else set())
        painted = re.findall(r' (?:fill|stroke)="([^"]*)"', figure.svg)
        assert all(colour == "none" or re.fullmatch(r"#[0-9a-f]{6}", colour) for colour in painted)
    for figure in figures:
        if figure.kind in ("step", "wrong", "border", "legend"):
            png = cairosvg.svg2png(bytestring=figure.svg.encode())
            assert abs(int.from_bytes(png[16:20]) - figure.width * 96 / 72) <= 1


def test_two_hash_seeds_give_the_same_bytes() -> None:
    program = (
        "import hashlib; from drawing.sample import BOOKLET; from drawing.kinds import booklet;"
        "from seamleaf.drawing import draw_figures; every = [BOOKLET, booklet('spun'), booklet('a and b')];"
        "text = ''.join(f.id + f.svg for booklet in every for f in draw_figures(booklet));"
        "print(hashlib.sha256(text.encode()).hexdigest())"
    )
    tests = str(Path(__file__).parent.parent)
    printed = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONPATH": tests, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
            timeout=60,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(printed) == 1


def test_nothing_of_the_machine_is_in_a_figure() -> None:
    """No path, no date: the figures of a demo size name neither."""
    text = "".join(figure.svg for figure in draw_figures(seen_booklet("crib")))
    assert str(Path(__file__).parent.parent.parent) not in text
    assert not re.search(r"\b20\d\d-\d\d-\d\d\b", text)


def test_of_very_many_patches_those_that_are_painted_alike_are_one_path_in_their_places() -> None:
    """Both pictures look the same; only the second has as few patches as inks. What is a line alone stays as it is."""
    red, blue = Ink(fill="#cc0000"), Ink(fill="#0000cc", opacity=0.5)
    block = tuple(
        Outline(steps=closed(((x, y), (x + 4, y), (x + 4, y + 4), (x, y + 4))), ink=ink)
        for x, y, ink in ((0, 0, red), (4, 0, blue), (0, 4, blue), (4, 4, red))
    )
    mark = Outline(steps=(("M", (2, 4)), ("L", (6, 4))), ink=Ink(stroke="#ffffff", width=1))
    places = tuple(Group(parts=(*block, mark), dx=8 * i, dy=8.25 * j) for i in range(3) for j in range(3))
    under = Rect(x=1, y=1, w=28, h=28, ink=Ink(fill="#eeeeee"))
    rim = Rect(x=2, y=2, w=24, h=24.5, ink=Ink(stroke="#1b1b1f", width=1))
    scene = Scene(w=30, h=30, parts=(under, Group(parts=(*places, rim), dx=2, dy=2.5)))
    each = write_svg(scene, prefix="a", title="Nine blocks.", desc="", most=1000)
    gathered = write_svg(scene, prefix="a", title="Nine blocks.", desc="", most=20)
    assert (each.count("<path"), gathered.count("<path")) == (9 * 5, 2 + 9)
    differing = differences(each, gathered).getextrema()  # edges between patches are mixed from other colours
    assert all(most < 32 for _, most in differing)


def test_the_examples_of_the_serialiser_hold() -> None:
    """Of numbers, and of a path with slanting lines and a curve in few letters."""
    held = doctest.testmod(svg_module)
    assert (held.failed, held.attempted) == (0, 3)


def differences(one: str, other: str) -> Image.Image:
    """Return where two figures look different, and how much."""
    seen = [Image.open(io.BytesIO(cairosvg.svg2png(svg.encode(), scale=4))).convert("RGB") for svg in (one, other)]
    return ImageChops.difference(*seen)


def row_figures() -> dict[tuple[str, str], str]:
    """Draw rows with turned blocks, columns with strips, and rows of sashes."""
    desks = {name: Desk(seen_booklet(name)) for name in ("crib", "market-day lap", "sashed")}
    rows = ((name, desk.finish(sketch)) for name, desk in desks.items() for sketch in row_sketches(desk)[-2:])
    return {(name, figure.id): figure.svg for name, figure in rows}


def test_the_row_of_a_very_large_quilt_looks_and_reads_as_any_other(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Its blocks are numbered, its seams have arrows and turned blocks their marks; patches of one ink are one path."""
    each = row_figures()
    monkeypatch.setattr(figure_module, "MOST_ELEMENTS", {"row": 20})
    gathered = row_figures()
    assert each.keys() == gathered.keys()
    fewer = 0
    for key, svg in gathered.items():
        fewer += svg.count("<path") < each[key].count("<path")
        # An edge between two patches has the colour of the one that is drawn later.
        assert max(ImageStat.Stat(differences(each[key], svg)).rms) < 8, key
        read = []
        for text in (each[key], svg):
            path = tmp_path / "row.svg"
            path.write_text(text, encoding="utf-8")
            drawing = read_drawing(path, Findings("row.svg"))
            assert drawing is not None
            read.append((drawing.texts, drawing.title, drawing.arrows, drawing.ahead))
        assert read[0] == read[1]
    assert fewer > 5
