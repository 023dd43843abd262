"""Every page of the demo site in a real browser: on a desk and on a phone, in light and in dark, and from a folder."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CONTRAST = (Path(__file__).parent / "contrast.js").read_text(encoding="utf-8")
LAZY = """() => Promise.all([...document.images].map(async (image) => {
    image.loading = "eager";
    await image.decode().catch(() => null);
    return image.naturalWidth > 0 ? null : image.getAttribute("src");
})).then((broken) => broken.filter(Boolean))"""
"""Loads what a page would load only when it is scrolled to, and returns the pictures that cannot be shown."""

GROUNDS = "all => all.map((image) => getComputedStyle(image).backgroundColor)"


def pages_of(site: Path, *ends: int) -> list[str]:
    """Return the pages by their addresses: those of some sizes of each pattern, and all that belong to none.

    ``ends`` are indexes into the sizes in order of their booklets' length: 0 for the shortest, -1 for the longest.
    """
    booklets = sorted(site.glob("*/*/booklet.json"), key=lambda path: path.stat().st_size)
    by_pattern: dict[Path, list[Path]] = {}
    for path in booklets:
        by_pattern.setdefault(path.parent.parent, []).append(path.parent)
    left_out = {size for sizes in by_pattern.values() for size in sizes if size not in {sizes[end] for end in ends}}
    pages = [path for path in sorted(site.rglob("*.html")) if not left_out & set(path.parents)]
    assert len(pages) > 10
    return [page.relative_to(site).as_posix() for page in pages]


@contextmanager
def opened(
    browser: Browser, width: int = 1280, scheme: Literal["light", "dark"] = "light", home: str = "http://127.0.0.1:"
) -> Iterator[tuple[Page, list[str]]]:
    """Open a window with nothing in its memory; what it complains of and asks of elsewhere comes into the list."""
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
    context.set_default_timeout(20_000)
    page = context.new_page()
    wrong: list[str] = []
    page.on("console", lambda message: wrong.append(f"{page.url}: {message.text}") if message.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(f"{page.url}: {error}"))
    page.on("response", lambda r: wrong.append(f"{page.url}: {r.status} for {r.url}") if r.status >= 400 else None)
    page.on("requestfailed", lambda request: wrong.extend(_failure(page.url, request.url, request.failure)))
    page.on(
        "request",
        lambda request: (
            None if request.url.startswith((home, "data:", "blob:")) else wrong.append(f"{page.url} asks {request.url}")
        ),
    )
    yield page, wrong
    context.close()


def _failure(page: str, address: str, reason: str | None) -> list[str]:
    """Say what could not be loaded; what leaving the page cut short is no fault of the page."""
    return [] if reason == "net::ERR_ABORTED" else [f"{page}: cannot load {address}: {reason}"]


@pytest.mark.parametrize("width", [1280, 390])
def test_every_page_loads_whole_and_fits_the_window(browser: Browser, served: str, demo_site: Path, width: int) -> None:
    """No error, no request to anywhere else, no broken or unnamed picture, no scrolling sideways, one main heading."""
    with opened(browser, width) as (page, wrong):
        for address in pages_of(demo_site, 0, -1):
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
    assert wrong == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 390])
def test_every_text_can_be_read_in_light_and_in_dark(
    browser: Browser, served: str, demo_site: Path, scheme: Literal["light", "dark"], width: int
) -> None:
    """Contrast of at least 4.5 to 1, large text 3 to 1 (WCAG 2.2, 1.4.3); drawings stand on white in both."""
    expected = {"light": "default", "dark": "slate"}[scheme]
    with opened(browser, width, scheme) as (page, wrong):
        for address in pages_of(demo_site, 0):
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
