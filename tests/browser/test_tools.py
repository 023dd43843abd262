"""What a reader does on the pages: tick, move by key, enlarge, recolour, and go on without a network."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from browsing import AXE, LAZY, RULES, RUN, opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

STEPS = ".sl-step, .sl-stop"
NOW = f"() => [...document.querySelectorAll('{STEPS}')].findIndex((step) => step.matches('.sl-now'))"
FETCHED = (
    "() => performance.getEntriesByType('resource').map((each) => each.initiatorType === 'fetch' ? each.name : '')"
)
TOP = "() => document.querySelector('.sl-now').getBoundingClientRect().top"


@pytest.fixture
def crib(browser: Browser, served: str) -> Iterator[tuple[Page, str]]:
    """Open a window; give the address of the smallest size of the demo's first pattern."""
    with opened(browser) as (page, wrong):
        yield page, f"{served}lamplight-crossing/crib/"
    assert wrong == []


def test_ticks_and_measures_outlive_a_reload_and_are_cleared_at_a_word(crib: tuple[Page, str]) -> None:
    page, home = crib
    page.goto(home + "finish/index.html")
    page.locator(".sl-tick input").first.check()
    page.locator(".sl-write input").first.fill("58 1/8")
    page.locator(".sl-write input").first.blur()
    page.reload()
    assert page.locator(".sl-tick input").first.is_checked()
    assert page.locator(".sl-write input").first.input_value() == "58 1/8"
    page.locator(".sl-clear").click()
    page.reload()
    assert not page.locator(".sl-tick input").first.is_checked()
    assert page.locator(".sl-write input").first.input_value() == ""
    assert page.locator(".sl-clear").is_hidden()


def test_what_is_made_is_counted_up_and_the_last_one_ticks_the_unit_as_done(crib: tuple[Page, str]) -> None:
    page, home = crib
    page.goto(home + "piece/index.html")
    step = page.locator(".sl-step", has=page.locator(".sl-count")).first
    count, done, more = step.locator(".sl-count input"), step.locator(".sl-done input"), step.locator(".sl-more")
    last = int(count.get_attribute("max") or 0)
    assert last > 1
    count.fill(str(last - 2))
    count.blur()
    more.click()
    page.reload()
    assert count.input_value() == str(last - 1)
    assert not done.is_checked()
    more.click()
    more.click()
    assert count.input_value() == str(last)
    page.reload()
    assert done.is_checked()


def test_arrow_keys_go_from_step_to_step_and_on_to_the_next_page(crib: tuple[Page, str]) -> None:
    page, home = crib
    page.goto(home + "piece/index.html")
    for expected in (0, 1, 2):
        page.keyboard.press("ArrowRight")
        assert page.evaluate(NOW) == expected
        assert 0 <= page.evaluate(TOP) < 120
    page.keyboard.press("ArrowLeft")
    assert page.evaluate(NOW) == 1
    page.goto(home + "index.html")
    page.get_by_role("link", name="Go on where you stopped: Sew the blocks").click()
    page.wait_for_url("**/piece/index.html#*")
    for _ in range(page.locator(STEPS).count() + 1):
        page.keyboard.press("ArrowRight")
    page.wait_for_url("**/layout/index.html")


def test_a_page_key_reads_a_long_step_to_its_end_first(crib: tuple[Page, str]) -> None:
    """Foot pedals send page keys; a step that is longer than the window must not be skipped."""
    page, home = crib
    page.set_viewport_size({"width": 1280, "height": 400})
    page.goto(home + "piece/index.html")
    page.keyboard.press("PageDown")
    assert page.evaluate(NOW) == 0
    page.keyboard.press("PageDown")
    assert page.evaluate(NOW) == 0
    assert page.evaluate(TOP) < 0


def test_keys_typed_into_a_field_stay_there(crib: tuple[Page, str]) -> None:
    page, home = crib
    page.goto(home + "finish/index.html")
    page.locator(".sl-write input").first.focus()
    page.keyboard.press("ArrowRight")
    assert page.locator(".sl-now").count() == 0


def test_a_figure_opens_large_by_click_and_by_key(crib: tuple[Page, str]) -> None:
    page, home = crib
    page.goto(home + "piece/index.html")
    link = page.locator(".sl-figure a").first
    small = link.locator("img").bounding_box()
    link.focus()
    page.keyboard.press("Enter")
    large = page.locator(".sl-large img").bounding_box()
    assert small is not None
    assert large is not None
    assert large["height"] > 1.5 * small["height"]
    page.keyboard.press("Escape")
    assert page.locator(".sl-large").is_hidden()
    link.click()
    page.get_by_role("button", name="Close").click()
    assert page.locator(".sl-large").is_hidden()


def test_larger_type_holds_on_every_page(crib: tuple[Page, str]) -> None:
    page, home = crib
    width = "() => parseFloat(getComputedStyle(document.querySelector('article p')).fontSize)"
    page.goto(home + "piece/index.html")
    before = page.evaluate(width)
    page.get_by_role("button", name="Larger type").click()
    page.goto(home + "cut/index.html")
    assert page.evaluate(width) > 1.15 * before


def test_the_readers_colours_show_in_every_figure_of_the_size_and_can_be_taken_back(crib: tuple[Page, str]) -> None:
    page, home = crib
    page.goto(home + "index.html")
    page.get_by_role("button", name="Your own colours").click()
    page.locator("dialog input").first.fill("#123456")
    page.get_by_role("button", name="Close").last.click()
    recoloured = page.locator("figure.sl-figure--quilt img[src*='123456']")
    recoloured.wait_for()
    page.goto(home + "piece/index.html")
    page.locator("figure img[src*='123456']").first.wait_for()
    page.get_by_role("button", name="Your own colours").click()
    page.get_by_role("button", name="Back to the colours of the pattern").click()
    assert page.locator("figure img[src^='data:']").count() == 0


def test_the_first_opening_fetches_a_size_once_and_it_can_be_read_without_a_network(
    crib: tuple[Page, str], demo_site: Path
) -> None:
    page, home = crib
    page.goto(home + "index.html")
    page.locator("[data-shows='kept']").wait_for()
    assert sum(each.endswith(".html") for each in page.evaluate(FETCHED)) > 5
    with page.expect_navigation(wait_until="load"):
        page.locator(".sl-stages a").nth(1).click()
    page.locator("[data-shows='kept']").wait_for()
    assert [each for each in page.evaluate(FETCHED) if each.endswith(".html")] == []
    page.locator(".sl-tick input").first.check()
    page.context.set_offline(True)
    page.reload()
    assert page.locator(".sl-tick input").first.is_checked()
    for stage in ("piece", "layout"):
        page.goto(home + f"{stage}/index.html")
        assert page.locator("figure img").count() > 0
        assert [source for source in page.evaluate(LAZY) if source] == []
    assert (demo_site / "seamleaf-worker.js").is_file()


def test_without_a_network_a_page_that_was_never_opened_says_what_to_do_and_what_is_kept(
    browser: Browser, served: str
) -> None:
    home, missing = f"{served}lamplight-crossing/crib/", f"{served}lamplight-crossing/king/cut/index.html"
    with opened(browser) as (page, _):
        page.goto(home + "index.html")
        page.locator("[data-shows='kept']").wait_for()
        page.context.set_offline(True)
        page.goto(missing)
        heading = page.get_by_role("heading", level=1)
        assert heading.inner_text() == "There is no network"
        assert page.locator("ul a").all_inner_texts() == ["Lamplight Crossing, Crib - Millpond Thread Room"]
        page.evaluate(AXE)
        assert page.evaluate(RUN, [list(RULES), {}]) == []
        with page.expect_navigation(wait_until="load"):
            page.locator("ul a").click()
        assert heading.inner_text() == "Lamplight Crossing, Crib"
        page.goto(missing)
        page.context.set_offline(False)
        page.get_by_role("link", name="Try again").click()
        page.wait_for_url(missing)
        page.locator(".sl-stages").wait_for()
        assert heading.inner_text() == "Cut"
