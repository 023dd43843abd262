"""The print page of a size on paper: what a reader gets from the browser's own print command."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader

from browsing import LAZY, ONE, opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.mark.parametrize(("paper", "width", "height"), [("A4", 595, 842), ("Letter", 612, 792)])
def test_loose_sheets_can_be_put_in_order(
    browser: Browser, served: str, demo_site: Path, paper: str, width: int, height: int
) -> None:
    """Every sheet has the size of its paper and says which it is, of how many."""
    booklets = sorted(demo_site.glob(f"{ONE}/*/booklet.json"), key=lambda path: path.stat().st_size)
    address = (booklets[0].parent / "print/index.html").relative_to(demo_site).as_posix()
    with opened(browser) as (page, wrong):
        page.goto(served + address, wait_until="load")
        assert not page.evaluate(LAZY)
        sheets = PdfReader(io.BytesIO(page.pdf(format=paper, print_background=True))).pages
    assert not wrong
    assert len(sheets) > 5
    for number, sheet in enumerate(sheets, 1):
        assert (float(sheet.mediabox.width), float(sheet.mediabox.height)) == pytest.approx((width, height), abs=1)
        assert f"{number} / {len(sheets)}" in " ".join(sheet.extract_text().split())
