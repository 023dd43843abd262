"""Any page printed from the browser: what is for the screen stays away, and nothing is cut off or torn apart."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pypdfium2
import pytest

from browsing import LAZY, ONE, opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser

SIZE: Final = f"{ONE}/crib"
PAGES: Final = (
    "index.html", "guide/keys.html", f"{ONE}/index.html", f"{SIZE}/index.html",
    *(f"{SIZE}/{kind}/index.html" for kind in ("buy", "cut", "piece", "layout", "finish", "words", "tester", "proof")),
    f"{SIZE}/class-autumn/index.html", "weir-flight/crib/piece/index.html",
)  # fmt: skip
CONTENT: Final = {"A4": {"width": 688, "height": 990}, "Letter": {"width": 718, "height": 946}}
"""Sheets within their margins, in pixels of CSS."""
LETTER: Final = (f"{SIZE}/finish/index.html", f"{ONE}/king/finish/index.html")
"""Letter is less high: what was fitted to A4 is torn there first, and the steps of borders are the tallest."""
STEPPED: Final = ("cut", "piece", "finish")
SHEETS: Final = [*(("A4", each) for each in PAGES), *(("Letter", each) for each in LETTER)]
FOR_THE_SCREEN: Final = """() => [...document.querySelectorAll(
  "header, nav, footer, button, select, dialog, [type=search], .md-button, .md-sidebar, .sl-tools"
)].filter((each) => each.checkVisibility({ checkVisibilityCSS: true }) && each.getBoundingClientRect().height > 1)
  .map((each) => each.outerHTML.slice(0, 80))"""
TOO_WIDE: Final = """() => [...document.querySelectorAll("img, svg, table, pre")]
  .filter((each) => each.checkVisibility())
  .filter((each) => each.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map((each) => each.outerHTML.slice(0, 80))"""
STEPS: Final = """() => [...document.querySelectorAll(".sl-step")].map((step) =>
  [...step.querySelectorAll("p, li")].filter((each) => each.checkVisibility() && !each.querySelector("p, li"))
    .map((each) => each.innerText))"""

FIGURES: Final = """() => [...document.querySelectorAll("figure img")].map((each) =>
  [new URL(each.src).pathname.slice(1), each.getBoundingClientRect().height / each.naturalHeight])"""
SMALLEST: Final = 6.0
"""Points of the smallest letters that are printed: common practice, no source."""


Printed = dict[tuple[str, str], tuple[list[str], list[list[str]], list[str]]]
"""By paper and address: faults found on a page, the texts of its steps, the texts of its sheets."""


@pytest.fixture(scope="module")
def printed(browser: Browser, served: str, demo_site: Path) -> Printed:
    """Print one page of each kind."""
    found: Printed = {}
    with opened(browser, keeps=False) as (page, wrong):
        page.emulate_media(media="print")
        for paper, address in SHEETS:
            assert (demo_site / address).exists()
            page.set_viewport_size(CONTENT[paper])
            page.goto(served + address, wait_until="load")
            faults = page.evaluate(LAZY) + page.evaluate(FOR_THE_SCREEN) + page.evaluate(TOO_WIDE)
            faults += [
                f"letters of {size:.1f} pt: {figure}"
                for figure, scale in page.evaluate(FIGURES)
                for size in letters(demo_site / figure)
                if size * scale < SMALLEST
            ]
            steps = page.evaluate(STEPS)
            sheets = pypdfium2.PdfDocument(page.pdf(format=paper))
            found[paper, address] = (faults, steps, [bare(sheet.get_textpage().get_text_range()) for sheet in sheets])
            sheets.close()
    assert not wrong
    return found


def letters(figure: Path) -> set[float]:
    """Return the sizes of letters in a figure, in points."""
    return {float(size) for size in re.findall(r'font-size="([\d.]+)"', figure.read_text(encoding="utf-8"))}


def bare(text: str) -> str:
    """Keep the letters alone, ligatures taken apart: spaces and the parts of fractions stand elsewhere in a PDF."""
    return "".join(filter(str.isalpha, unicodedata.normalize("NFKC", text)))


@pytest.mark.parametrize(("paper", "address"), SHEETS)
def test_nothing_for_the_screen_and_nothing_too_wide_or_too_small_is_printed(
    printed: Printed, paper: str, address: str
) -> None:
    faults, _, sheets = printed[paper, address]
    assert faults == []
    assert all(sheets), "an empty sheet"


@pytest.mark.parametrize(
    ("paper", "address"), [each for each in SHEETS if each[1].endswith(tuple(f"{kind}/index.html" for kind in STEPPED))]
)
def test_a_printed_step_stands_on_one_sheet(printed: Printed, paper: str, address: str) -> None:
    _, steps, sheets = printed[paper, address]
    torn = [step[0] for step in steps if not any(all(bare(line) in sheet for line in step) for sheet in sheets)]
    assert len(steps) > 2
    assert torn == []


def test_labels_that_fill_a_sheet_of_letter_leave_none_empty(browser: Browser, served: str) -> None:
    with opened(browser, keeps=False) as (page, _):
        page.emulate_media(media="print")
        page.goto(f"{served}two-winds/cot/print/index.html", wait_until="load")
        page.evaluate(LAZY)
        sheets = pypdfium2.PdfDocument(page.pdf(format="Letter"))
        assert all(bare(sheet.get_textpage().get_text_range()) for sheet in sheets)
        sheets.close()
