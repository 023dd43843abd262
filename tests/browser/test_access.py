"""Every kind of page against axe-core: WCAG 2.2 at level AA, on a desk in light and on a phone in dark."""

from __future__ import annotations

import importlib.resources
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import pytest

from browsing import kinds_of_pages, opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser

AXE = importlib.resources.files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")
RUN = """(rules) => axe.run(document, {resultTypes: ['violations'], runOnly: {type: 'tag', values: rules}})
    .then((found) => found.violations.map((each) => [each.id, each.nodes.map((node) => node.html.slice(0, 160))]))"""


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (390, "dark")])
def test_no_page_breaks_a_rule_of_wcag_2_2_aa(
    browser: Browser, served: str, demo_site: Path, width: int, scheme: Literal["light", "dark"]
) -> None:
    wrong: list[Any] = []
    with opened(browser, width, scheme) as (page, faults):
        for address in kinds_of_pages(demo_site):
            page.goto(served + address, wait_until="load")
            page.evaluate(AXE)
            wrong += [(address, rule, nodes) for rule, nodes in page.evaluate(RUN, list(RULES))]
    assert wrong + faults == []
