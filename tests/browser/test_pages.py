"""Every page of the demo site in a real browser: on a desk and on a phone, in light and in dark."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal

import pytest

from browsing import AXE, HELD_ELSEWHERE, LAZY, ONE, RULES, RUN, TARGETS, kinds_of_pages, opened, pages_of
from effort import is_deep

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CONTRAST: Final = Path(__file__).with_name("contrast.js").read_text(encoding="utf-8")
GROUNDS: Final = "all => all.map((image) => getComputedStyle(image).backgroundColor)"
SWITCH: Final = "() => document.querySelector('[data-md-component=palette] label:not([hidden])').click()"
SCHEMES: Final = {"light": "default", "dark": "slate"}
TOUCHED: Final = {"scrollable-region-focusable": {"enabled": False}}
"""The theme lets code be reached by keys only where there is a pointer that hovers."""
DESK: Final = 1280
PHONE: Final = 390
SMALL: Final = 320
"""Pixels of a small phone, and of a desk's screen of 1280 enlarged to 400 % (WCAG 2.2, 1.4.10)."""


@pytest.mark.parametrize(("first", "scheme"), [(DESK, "light"), (SMALL, "dark")], ids=["desk", "phone"])
def test_every_kind_of_page_loads_whole_fits_and_can_be_used_and_read_by_everybody(
    browser: Browser, served: str, demo_site: Path, first: int, scheme: Literal["light", "dark"]
) -> None:
    """Each page is opened once for all that is held of it: half of them on a desk, the others on a phone in the dark.

    No error, no request to anywhere else, no broken or unnamed picture, one main heading. On a desk and on a phone: no
    scrolling sideways and on a screen that is touched no control under 44 pixels; no rule of WCAG 2.2 AA broken, and in
    light on the one, in dark on the other contrast as ``faint_texts`` asks for it.
    """
    seen = [(DESK, "light"), (SMALL, "dark")] if first == DESK else [(SMALL, "dark"), (DESK, "light")]
    with opened(browser, first, scheme, touch=True, keeps=False) as (page, wrong):
        page.emulate_media(reduced_motion="reduce")  # colours change at once
        for address in kinds_of_pages(demo_site)[first == SMALL :: 2]:
            page.set_viewport_size({"width": first, "height": 900})
            page.goto(served + address, wait_until="load")
            page.evaluate(AXE)
            whole = is_deep() or address.endswith(f"{ONE}/index.html")
            for width, each in seen:
                page.set_viewport_size({"width": width, "height": 900})
                wrong += misfits(page, address)
                if width == SMALL:
                    page.set_viewport_size({"width": PHONE, "height": 900})
                wrong += faint_texts(page, address, each)
                found = page.evaluate(RUN, [list(RULES), TOUCHED if whole else TOUCHED | HELD_ELSEWHERE])
                wrong += [f"{address}: {rule}" for rule in found]
                page.evaluate(SWITCH)
    assert wrong == []


def test_pages_with_code_keep_every_rule_on_a_narrow_screen_with_keys(
    browser: Browser, served: str, demo_site: Path
) -> None:
    """Code that is wider than the window can be reached, and so scrolled, by keys."""
    pages = [page for page in kinds_of_pages(demo_site) if b"<pre" in (demo_site / page).read_bytes()]
    assert len(pages) > 2
    held = {} if is_deep() else HELD_ELSEWHERE
    with opened(browser, PHONE, "dark", keeps=False) as (page, wrong):
        for address in pages:
            page.goto(served + address, wait_until="load")
            page.evaluate(AXE)
            wrong += [f"{address}: {found}" for found in page.evaluate(RUN, [list(RULES), held])]
    assert wrong == []


def test_every_other_page_loads_whole_and_fits_a_small_phone(browser: Browser, served: str, demo_site: Path) -> None:
    """Every page of one pattern, and of the others the sewing, which has the most figures."""
    pages = [*pages_of(demo_site, 0, of=ONE), *(page for page in pages_of(demo_site, 0) if "/piece/" in page)]
    with opened(browser, SMALL, touch=True, keeps=False) as (page, wrong):
        for address in sorted({*pages} - {*kinds_of_pages(demo_site)}):
            page.goto(served + address, wait_until="load")
            wrong += misfits(page, address)
    assert wrong == []


def misfits(page: Page, address: str) -> list[str]:
    """Say what is broken, unnamed, too wide or too small on a page."""
    wrong = [f"{address}: picture {source} is broken" for source in page.evaluate(LAZY)]
    wide: list[int] = page.evaluate("() => [document.documentElement.scrollWidth, innerWidth]")
    if wide[0] > wide[1]:
        wrong.append(f"{address}: is {wide[0]} wide in a window of {wide[1]}")
    unnamed = page.locator("img:not([alt]), figure img[alt='']").count()
    if unnamed:
        wrong.append(f"{address}: {unnamed} pictures without a text in their place")
    headings = page.locator("h1").count()
    if headings != 1:
        wrong.append(f"{address}: {headings} main headings")
    return wrong + [f"{address}: small: {each}" for each in page.evaluate(TARGETS)]


def faint_texts(page: Page, address: str, scheme: str) -> list[str]:
    """Say which texts have less contrast than 4.5 to 1, large text than 3 to 1 (WCAG 2.2, 1.4.3).

    Drawings stand on white in light and in dark.
    """
    page.locator(f"body[data-md-color-scheme={SCHEMES[scheme]}]").wait_for(state="attached")
    faint: list[Any] = page.evaluate(CONTRAST)
    grounds = set(page.locator("figure img").evaluate_all(GROUNDS)) - {"rgb(255, 255, 255)"}
    return [f"{address}: in {scheme}: {each}" for each in [*faint, *(f"drawings on {each}" for each in grounds)]]
