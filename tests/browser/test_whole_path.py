"""A reader's whole path from the front page to the last stage: by touch, by mouse from a folder, and by keys alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from browsing import LAZY, ONE, opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

STAGES = ("buy", "prepare", "cut", "piece", "layout", "finish", "print")
FOCUSED = """() => {
    const at = document.activeElement, style = getComputedStyle(at);
    return [at.getAttribute("href") || "", style.outlineStyle !== "none" || style.boxShadow !== "none"];
}"""


@pytest.mark.parametrize("way", ["phone", "folder"])
def test_from_the_front_page_through_every_stage_to_the_print_page(
    browser: Browser, served: str, demo_site: Path, way: str
) -> None:
    """Each stage leads on to the next, shows its figures, and keeps the reader's first tick over a reload.

    A folder is a shop's computer without a network; what the print page gives on paper stands in test_paper.py.
    """
    home = demo_site.as_uri() if way == "folder" else served.rstrip("/")
    touch = way == "phone"
    ticked: list[str] = []
    with opened(browser, 390 if touch else 1280, home=home, touch=touch) as (page, wrong):
        page.goto(f"{home}/index.html", wait_until="load")
        follow(page, f"article h2 a[href*='{ONE}']", touch=touch)
        follow(page, ".sl-cards a[href*='crib']", touch=touch)
        for stage in STAGES:
            follow(page, ".sl-next .md-button--primary", touch=touch)
            assert page.url.endswith(f"{ONE}/crib/{stage}/index.html")
            assert page.locator(".sl-stages [aria-current]").count() == 1
            wrong += page.evaluate(LAZY)
            tick = page.locator("article .sl-tick input").first
            if stage != "print" and tick.count():
                tick.check()
                page.reload(wait_until="load")
                assert page.locator("article .sl-tick input").first.is_checked(), stage
                ticked.append(stage)
            if stage == "buy":
                assert page.locator(".sl-shop__item").first.inner_text().rstrip().endswith(" m")  # sold by the metre
    assert wrong == []
    assert ticked == ["buy", "prepare", "cut", "piece", "layout", "finish"]


def follow(page: Page, link: str, *, touch: bool) -> None:
    """Tap or click a link and wait for its page."""
    found = page.locator(link).first
    with page.expect_navigation(wait_until="load"):
        if touch:
            found.tap()
        else:
            found.click()


def test_a_reader_without_a_mouse_comes_to_the_cutting_and_sees_where_the_focus_is(
    browser: Browser, served: str
) -> None:
    """The tab key reaches the pattern, its size and the stages, Enter follows them, and the space bar ticks."""
    with opened(browser) as (page, wrong):
        page.goto(served + "index.html", wait_until="load")
        for end in (f"{ONE}/index.html", "crib/index.html", "cut/index.html"):
            for _ in range(120):
                page.keyboard.press("Tab")
                href, seen = page.evaluate(FOCUSED)
                if href.endswith(end):
                    assert seen, end
                    break
            with page.expect_navigation(wait_until="load"):
                page.keyboard.press("Enter")
            assert page.url.endswith(end)
        for _ in range(120):
            page.keyboard.press("Tab")
            if page.evaluate("() => document.activeElement.type") == "checkbox":
                break
        page.keyboard.press("Space")
        assert page.locator("article .sl-tick input").first.is_checked()
    assert wrong == []
