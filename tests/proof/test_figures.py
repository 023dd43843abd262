"""Errata of pages and figures: each is put into a published site, and the check that names it finds it."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest

from accepted import accepted, accepted_text
from folders import files_below, replace_folder
from misprints import ARROW, MISPRINTS, POND, SASH, Misprint, plant, turned, without_patch
from published import METRIC, SASHED, SMALL, WAYS, published
from seamleaf.drawing import draw_figures
from seamleaf.proof import prove
from seamleaf.proof.checks import look_at_figures
from seamleaf.proof.measures import measures_in
from seamleaf.proof.reading import as_booklet
from seamleaf.proof.report import Findings
from seamleaf.publishing import load_templates


def without_pages(text: str, name: str) -> dict[str, bytes]:
    """Return the published files of a pattern without the texts of its pages."""
    return {path: content for path, content in published(text, name).items() if not path.endswith(".md")}


@pytest.fixture(scope="module")
def pond() -> dict[str, bytes]:
    """Return the published files of a small pattern, with one page as HTML, and the report of the proof."""
    files = without_pages(SMALL, "pond")
    page = '<article><p>Buy <data value="8" data-from="/set/blocks">8</data></p>{}</article>'
    text = html.unescape(files[f"{POND}/figures/quilt.svg"].decode())
    picture = f'<img src="../figures/quilt.svg" alt="{text[text.index("Make ") : text.index("</title>")]}">'
    report = published(SMALL, "pond")[f"{POND}/proof/index.md"].decode().split("---\n", 2)[2]
    report = re.sub(r'<a [^>]*>|<tr>[^\n]*data-proved="pages"[^\n]*', "", report)  # of the other pages
    pages = {"buy": page.format(picture), "proof": report}
    return {**files, **{f"{POND}/{name}/index.html": content.encode() for name, content in pages.items()}}


@pytest.fixture(scope="module")
def sashed() -> dict[str, bytes]:
    """Return the published files of a pattern with sashes and borders, without pages."""
    return {path: content for path, content in published(SASHED, "sashed").items() if path.endswith((".json", ".svg"))}


def test_the_published_figures_hold(pond: dict[str, bytes], tmp_path: Path) -> None:
    """Whatever way there is to sew, sashed, in inches and in centimetres."""
    files = dict(pond)
    for text, name in ((WAYS, "ways"), (SASHED, "sashed"), (METRIC, "metric")):
        files |= without_pages(text, name)
    replace_folder(tmp_path / "site", files)
    report = prove(tmp_path / "site")
    assert report.holds, report


RINGS = """
title: Rings
version: 1.0.0
fabrics:
  dark: {source: yardage, colour: "#2b3a67"}
  light: {source: yardage, colour: "#f3ead7"}
blocks:
  ring: {partial: {centre: {finished: 3 x 3, half-square: [dark, light]}, ring: dark 3 x 6}}
setting: {set: straight, blocks: [[ring]]}
borders:
  - {fabric: light, width: 5, corner: butted}
  - {fabric: dark, width: 10, corner: mitred}
  - {fabric: light, width: 20, corner: cornerstone, cornerstone: dark}
binding: {fabric: dark, strip: 2 1/2}
sizes: {one: {title: One, blocks: 1 x 1}}
"""


def test_rings_round_sewn_centres_and_borders_wider_than_half_of_what_they_go_round_hold(tmp_path: Path) -> None:
    """Their figures were refused, or drawn without arrows: seams of such borders were taken for those of corners."""
    files = without_pages(RINGS, "rings")
    replace_folder(tmp_path / "site", files)
    report = prove(tmp_path / "site")
    assert report.holds, report
    assert any(path.endswith("border-3.svg") for path in files)


def test_numbers_in_the_designers_own_titles_are_no_misprint(tmp_path: Path) -> None:
    """A figure says "Make Pond 44 in size Half 7/8 metre", which a hasty reader takes for 44 inches."""
    text = SMALL.replace("Small Pond", "Pond 44").replace("title: Mat", 'title: "Half 7/8 metre"')
    files = without_pages(text, "pond")
    replace_folder(tmp_path / "site", files)
    assert prove(tmp_path / "site").holds
    name = f"{POND}/figures/quilt.svg"
    wrong = files[name].decode().replace("Pond 44", "Pond 4711")
    replace_folder(tmp_path / "site", {**files, name: wrong.encode()})
    assert not prove(tmp_path / "site").holds


MANY = """
title: Many
version: 1.0.0
fabrics:
  dark: {source: yardage, colour: "#2b3a67"}
  light: {source: yardage, colour: "#f3ead7"}
blocks:
  many:
    grid: [DLDLDLDL, LDLDLDLD, DLDLDLDL, LDLDLDLD, DLDLDLDL, LDLDLDLD, DLDLDLDL, LDLDLDLD]
    key: {D: dark 1 x 1, L: light 1 x 1}
setting: {set: straight, blocks: [[many]]}
borders: [{fabric: dark, width: 4, corner: butted, cut: lengthwise}]
binding: {fabric: dark, strip: 2 1/2}
sizes: {mat: {title: Mat, blocks: 4 x 6}}
"""
"""A border along the fabric leaves room for 300 squares of one inch beside it, each with a cut of its own."""


def test_a_sheet_of_hundreds_of_cuts_numbers_each_repeats_one_or_tells_it_below(tmp_path: Path) -> None:
    files = without_pages(MANY, "many")
    replace_folder(tmp_path / "site", files)
    report = prove(tmp_path / "site")
    assert report.holds, report
    name = "many/mat/figures/cut-A-1.svg"
    sheet = files[name].decode()
    assert "A cut without a number repeats the one before it on its line." in sheet
    assert "Without room for its number: 6." in sheet
    shown = re.findall(r">([0-9]+)<", sheet)
    for wrong in (sheet.replace(f">{shown[0]}<", "><"), sheet.replace("number: 6.", "number: 7.")):
        replace_folder(tmp_path / "site", {**files, name: wrong.encode()})
        assert not prove(tmp_path / "site").holds


class Kept(dict[str, bytes]):
    """What was seen to hold, of which the next misprint changes nothing."""

    def recall(self, key: str) -> bytes | None:
        """Return what was kept."""
        return self.get(key)

    def keep(self, key: str, said: bytes) -> None:
        """Keep an answer."""
        self[key] = said


@pytest.fixture(scope="module")
def kept() -> Kept:
    return Kept()


@pytest.mark.parametrize("misprint", MISPRINTS, ids=lambda misprint: misprint.number)
def test_a_misprint_is_found_by_the_check_that_names_it(
    misprint: Misprint, pond: dict[str, bytes], sashed: dict[str, bytes], kept: Kept, tmp_path: Path
) -> None:
    replace_folder(tmp_path / "site", {**pond, **sashed})
    planted = [each for size in (POND, SASH) for each in plant(tmp_path / "site" / size, misprint)]
    path, wrong = planted[0]
    path.write_text(wrong, encoding="utf-8")
    found = {(Path(finding.path), finding.check) for finding in prove(tmp_path / "site", memory=kept).findings}
    assert found == {(path, misprint.check)}, misprint.says


def test_a_measure_that_is_right_elsewhere_is_found(pond: dict[str, bytes], tmp_path: Path) -> None:
    """The half-square of 3 1/2 in is told as the block of 6 1/2 in that it goes into."""
    name = f"{POND}/figures/step-U1.svg"
    wrong = pond[name].decode().replace("3½ ×", "6½ ×")
    replace_folder(tmp_path / "site", {**pond, name: wrong.encode()})
    assert {(Path(each.path).name, each.check) for each in prove(tmp_path / "site").findings} == {
        ("step-U1.svg", "numbers of figures")
    }


@pytest.fixture(scope="module")
def ways() -> dict[str, bytes]:
    """Return the published booklet and figures of a pattern with every way there is to sew."""
    return {path: content for path, content in published(WAYS, "ways").items() if path.endswith((".json", ".svg"))}


def units_of(files: dict[str, bytes], how: str, method: str) -> list[str]:
    """Return the figures of the steps of units that are sewn so."""
    units = json.loads(files["ways/small/booklet.json"])["units"]
    found = [unit["id"] for unit in units if (unit["how"], unit["method"]) == (how, method) and unit["count"]]
    return [f"ways/small/figures/step-{unit}.svg" for unit in found]


@pytest.mark.parametrize(
    ("how", "method", "arrows"),
    [
        ("quarter-square", "two", [0]),  # its long seam leads to like patches on both sides
        ("quarter-square", "triangles", [0, 1]),
        ("three-triangle", "two", [0, 1, 2]),
        ("three-triangle", "triangles", [0, 1]),
        ("corners", "flip", [0, 1]),
    ],
)
def test_every_arrow_of_a_step_of_triangles_that_leads_the_other_way_is_found(
    how: str, method: str, arrows: list[int], ways: dict[str, bytes], tmp_path: Path
) -> None:
    for name in units_of(ways, how, method)[:1]:
        for which in arrows:
            wrong = turned(which)(ways[name].decode())
            replace_folder(tmp_path / "site", {**ways, name: wrong.encode()})
            found = {(Path(each.path).name, each.check) for each in prove(tmp_path / "site").findings}
            assert found == {(Path(name).name, "arrows of figures")}
    assert units_of(ways, how, method)


def test_a_patch_that_is_missing_in_the_stages_of_flipped_corners_is_found(
    ways: dict[str, bytes], tmp_path: Path
) -> None:
    (name,) = units_of(ways, "corners", "flip")
    replace_folder(tmp_path / "site", {**ways, name: without_patch(ways[name].decode()).encode()})
    found = {(Path(each.path).name, each.check) for each in prove(tmp_path / "site").findings}
    assert found == {(Path(name).name, "patches of figures")}


def test_an_arrow_of_a_border_that_leads_inward_is_found(sashed: dict[str, bytes], tmp_path: Path) -> None:
    files = dict(sashed)
    name = f"{SASH}/figures/border-1.svg"
    arrows = len(ARROW.findall(files[name].decode()))
    text = files[name].decode()
    for which in range(arrows):
        text = turned(which)(text)
    replace_folder(tmp_path / "site", {**files, name: text.encode()})
    assert files_below(tmp_path / "site")[name] != files[name]
    assert {finding.check for finding in prove(tmp_path / "site").findings} <= {"arrows of figures"}


@pytest.mark.parametrize(
    ("text", "measures"),
    [
        ("Measure: 12½ × 12 in unfinished", [("12½", "25/2"), ("12", "12")]),
        ("2 1/2 in, 7⁄8 in and 3-1/2 in", [("2 1/2", "5/2"), ("7/8", "7/8"), ("3-1/2", "7/2")]),
        ("24.5 × 8 cm", [("24.5", "49/2"), ("8", "8")]),
        ("Make 8. Turn 2.2 by a quarter. Step 12 of 3 in all", []),
        ("¼ in", [("¼", "1/4")]),
        ("Block 1.1 in einem Stück; 2 in jeder Reihe", []),
        (
            "4 unten A3 5,5 × 122,7. Dann 5.5 × 122.7.",
            [(each, "1227/10" if "1" in each else "11/2") for each in ("5,5", "122,7", "5.5", "122.7")],
        ),
    ],
)
def test_a_measure_is_a_number_with_a_unit_a_fraction_or_a_side(text: str, measures: list[tuple[str, str]]) -> None:
    assert [(shown, str(value)) for shown, value in measures_in(text)] == measures


@pytest.mark.parametrize(
    ("pattern", "size"), [("kite-weather", "throw"), ("lamplight-crossing", "crib"), ("plough-lines", "wall")]
)
def test_figures_in_german_hold(pattern: str, size: str, tmp_path: Path) -> None:
    """Decimals with a comma at the end of a sentence, blocks turned by a quarter and by a half."""
    figures = draw_figures(accepted(pattern, size), load_templates(language="de").wording.words)
    (tmp_path / "figures").mkdir()
    for figure in figures:
        (tmp_path / "figures" / f"{figure.id}.svg").write_text(figure.svg, encoding="utf-8")
    booklet = as_booklet(json.loads(accepted_text(pattern, size)), Findings(""))
    assert booklet is not None
    looked = look_at_figures(booklet, tmp_path)
    assert len(looked) == len(figures) > 20
    assert [finding for each in looked for finding in each.found] == []
