"""The print page of a size on paper: what a reader gets from the browser's own print command."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pypdfium2
import pytest

from browsing import LAZY, ONE, opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser

PAPERS: Final = {"A4": (595, 842), "Letter": (612, 792)}
"""Width and height in points."""


def test_loose_sheets_can_be_put_in_order(browser: Browser, served: str, demo_site: Path) -> None:
    """Every sheet has the size of its paper and says which it is, of how many."""
    booklets = sorted(demo_site.glob(f"{ONE}/*/booklet.json"), key=lambda path: path.stat().st_size)
    address = (booklets[0].parent / "print/index.html").relative_to(demo_site).as_posix()
    with opened(browser, keeps=False) as (page, wrong):
        page.goto(served + address, wait_until="load")
        assert not page.evaluate(LAZY)
        printed = {paper: page.pdf(format=paper, print_background=True) for paper in PAPERS}
    assert not wrong
    for paper, size in PAPERS.items():
        sheets = pypdfium2.PdfDocument(printed[paper])
        assert len(sheets) > 5
        for number, sheet in enumerate(sheets, 1):
            assert sheet.get_size() == pytest.approx(size, abs=1)
            assert f"{number} / {len(sheets)}" in " ".join(sheet.get_textpage().get_text_range().split())
        sheets.close()
