"""Every PDF of the demo: one size alone, within what all printers reach, light on ink, and no sheet nearly empty."""

from __future__ import annotations

import html
import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium

REACHED: Final = 12 / 25.4
"""Inches from an edge; no printer of the trade reaches nearer (common practice, no source)."""
SCALE: Final = 1.5
"""Pixels a point: with fewer, hairlines count as wide as a pixel, and a sheet seems to take a quarter more ink."""
LEAST: Final = 0.05
"""Of a sheet's height: a heading or a line alone takes no more."""
SCANT: Final = 0.25
"""Of a sheet's height: what is filled no further is mostly white."""

READ: Final = 9.0
"""Points of the smallest letter."""


def papers(site: Path, pattern: str = "*.pdf", *, every: bool = True) -> list[Path]:
    """Return the PDF files of the demo, of every size or of the first and the last of each pattern."""
    found: list[Path] = []
    for folder in sorted({each.parent.parent for each in site.glob("*/*/booklet.json")}):
        sizes = sorted(each.parent for each in folder.glob("*/booklet.json"))
        found += [each for size in (sizes if every else {sizes[0], sizes[-1]}) for each in sorted(size.glob(pattern))]
    assert len(found) > 4
    return found


def sheets_of(path: Path) -> Iterator[Any]:
    """Yield the sheets of a PDF."""
    document = pypdfium2.PdfDocument(path)
    yield from document
    document.close()


def text_of(path: Path) -> str:
    """Return all text of a PDF."""
    return "\n".join(sheet.get_textpage().get_text_range() for sheet in sheets_of(path))


def bare(text: str) -> str:
    """Leave out tags, spaces, and how a fraction is written."""
    return re.sub(r"<[^>]+>|[\s\u2060]", "", html.unescape(text)).replace("\N{FRACTION SLASH}", "/")


def finished_sizes(site: Path) -> dict[Path, str]:
    """Return what the booklet of each size says of its finished quilt, by the folder of the size."""
    pages = {each.parent: each.parent / "print" / "index.html" for each in sorted(site.glob("*/*/booklet.json"))}
    both = re.compile(r'"/finished/w">(.*?</data>.*?"/finished/h">.*?)</data>')
    return {folder: bare(both.findall(page.read_text("utf-8"))[0]) for folder, page in pages.items()}


def test_no_paper_names_another_size(demo_site: Path) -> None:
    """Neither its title nor its finished size, unless both sizes share it."""
    seen = 0
    sizes = finished_sizes(demo_site)
    titles = {folder: json.loads((folder / "booklet.json").read_text("utf-8"))["size"]["title"] for folder in sizes}
    for folder, size in sizes.items():
        others = [each for each in sizes if each.parent == folder.parent and each != folder]
        measures = {sizes[each] for each in others} - {size}
        called = {titles[each] for each in others} - {titles[folder]}
        for paper in sorted(folder.glob("*-a4.pdf")):
            text = text_of(paper)
            said = bare(text)
            assert titles[folder] in text
            assert size in said or paper.stem != f"{folder.parent.name}-{folder.name}-a4"
            assert not [title for title in called if re.search(rf"\b{re.escape(title)}\b", text)], paper.name
            assert not [each for each in measures if each in said], paper.name
            seen += len(measures)
    assert seen > 40


def test_every_sheet_of_the_booklets_is_safe_light_and_well_used(demo_site: Path) -> None:
    """Under 8 % ink a sheet on average (a rule of this project; no source); both papers have one safe area."""
    edge = int(REACHED * 72 * SCALE)
    filled: list[float] = []
    for path in papers(demo_site):
        inks = []
        for number, sheet in enumerate(sheets_of(path), 1):
            picture = sheet.render(scale=SCALE, grayscale=True).to_numpy()
            assert picture[:edge].min() > 250, (path.name, number)
            assert picture[-edge:].min() > 250, (path.name, number)
            assert picture[:, :edge].min() > 250, (path.name, number)
            assert picture[:, -edge:].min() > 250, (path.name, number)
            inks.append(1 - picture.mean() / 255)
            height = picture.shape[0]
            body = picture[height * 7 // 100 : height * 93 // 100].min(axis=1) < 200
            filled.append(np.flatnonzero(body).max() / height)
            assert filled[-1] > LEAST, (path.name, number, "a sheet nearly empty")
        assert sum(inks) / len(inks) < 0.08, path.name
    assert sum(each < SCANT for each in filled) < 0.02 * len(filled)


def smallest_letter(path: Path) -> tuple[float, int]:
    """Return the size of the smallest letter as it is printed, figures included, in points, and its sheet."""
    found = []
    for number, sheet in enumerate(sheets_of(path), 1):
        text, matrix = sheet.get_textpage(), pdfium.FS_MATRIX()
        for at in range(text.count_chars()):
            if pdfium.FPDFText_IsGenerated(text.raw, at):  # a space that the reader thinks up
                continue
            pdfium.FPDFText_GetMatrix(text.raw, at, matrix)
            size = pdfium.FPDFText_GetFontSize(text.raw, at) * math.hypot(matrix.c, matrix.d)
            found.append((size, number))
    return min(found)


def test_no_letter_on_paper_is_under_nine_points(demo_site: Path) -> None:
    """Labels in the densest figure too: what is smaller is not read at arm's length (a rule of this project)."""
    tiny = {path.name: smallest_letter(path) for path in papers(demo_site, "*-a4.pdf", every=False)}
    assert {name: found for name, found in tiny.items() if found[0] < READ - 0.05} == {}
    assert min(size for size, _ in tiny.values()) < READ + 0.05  # figures are measured, not the text alone
