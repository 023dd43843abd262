"""Every page of the demo site in a real browser: wide and narrow, in light and in dark, and from a folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest

from browsing import LAZY, ONE, kinds_of_pages, opened, pages_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser

HERE = Path(__file__).parent
CONTRAST = (HERE / "contrast.js").read_text(encoding="utf-8")
TARGETS = (HERE / "targets.js").read_text(encoding="utf-8")
GROUNDS = "all => all.map((image) => getComputedStyle(image).backgroundColor)"


@pytest.mark.parametrize("width", [1280, 320])
def test_every_page_loads_whole_and_fits_the_window(browser: Browser, served: str, demo_site: Path, width: int) -> None:
    """On a phone every page of one pattern, of the others the sewing, which has the most figures; on a desk each kind.

    No error, no request to anywhere else, no broken or unnamed picture, no scrolling sideways, one main heading, and
    on a screen that is touched no control under 44 pixels. 320 pixels are a small phone, and a desk's screen of 1280
    enlarged to 400 % (WCAG 2.2, 1.4.10).
    """
    every = pages_of(demo_site, 0, of=ONE) if width == 320 else kinds_of_pages(demo_site)
    others = [] if width == 1280 else [each for each in pages_of(demo_site, 0) if each.endswith("/piece/index.html")]
    with opened(browser, width, touch=True) as (page, wrong):
        for address in dict.fromkeys([*every, *others]):
            page.goto(served + address, wait_until="load")
            wrong += [f"{address}: picture {source} is broken" for source in page.evaluate(LAZY)]
            wide = page.evaluate("() => document.documentElement.scrollWidth")
            if wide > width:
                wrong.append(f"{address}: is {wide} wide in a window of {width}")
            unnamed = page.locator("img:not([alt]), figure img[alt='']").count()
            if unnamed:
                wrong.append(f"{address}: {unnamed} pictures without a text in their place")
            headings = page.locator("h1").count()
            if headings != 1:
                wrong.append(f"{address}: {headings} main headings")
            wrong += [f"{address}: small: {each}" for each in page.evaluate(TARGETS)]
    assert wrong == []


@pytest.mark.parametrize(("width", "scheme"), [(1280, "dark"), (390, "light")])
def test_every_text_can_be_read_in_light_and_in_dark(
    browser: Browser, served: str, demo_site: Path, scheme: Literal["light", "dark"], width: int
) -> None:
    """Contrast of at least 4.5 to 1, large text 3 to 1 (WCAG 2.2, 1.4.3); drawings stand on white in both.

    axe-core looks at the desk in light and at the phone in dark (test_access.py).
    """
    expected = {"light": "default", "dark": "slate"}[scheme]
    with opened(browser, width, scheme) as (page, wrong):
        for address in kinds_of_pages(demo_site):
            page.goto(served + address, wait_until="load")
            assert page.get_attribute("body", "data-md-color-scheme") == expected
            wrong += [f"{address}: {each}" for each in page.evaluate(CONTRAST)]
            grounds = page.locator("figure img").evaluate_all(GROUNDS)
            if set(grounds) - {"rgb(255, 255, 255)"}:
                wrong.append(f"{address}: drawings on {set(grounds)}")
    assert wrong == []


def test_the_site_opens_from_a_folder(browser: Browser, demo_site: Path) -> None:
    """A shop's computer without a network: the pages link, and show their pictures, from the disk."""
    with opened(browser, home="file://") as (page, wrong):
        page.goto((demo_site / "index.html").as_uri(), wait_until="load")
        for _ in range(2):  # the site's first page, a pattern, a size
            page.locator("article a[href$='index.html']").first.click()
            page.wait_for_load_state("load")
            wrong += page.evaluate(LAZY)
        assert page.locator("article img").count() > 0
    assert wrong == []
