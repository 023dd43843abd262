"""A stranger's pattern in Chromium, under a strict Content-Security-Policy: its text is shown and never run."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from browsing import LAZY, opened
from patterns_for_tests import YARDAGE, file_of
from seamleaf.publishing.escaping import plain_text
from serving import serving
from strictness import Inline, Strict

if TYPE_CHECKING:
    from playwright.sync_api import Browser

RUN = "window.hit=1"
HOSTILE = [
    f"<script>{RUN}</script>",
    f"<img src=x onerror={RUN}>",
    f"</title></svg><svg onload={RUN}>",
    f'" onmouseover="{RUN}" x="',
    f"[link](javascript:{RUN})",
    "{{ 7*7 }} {% raw %} ${7*7} #{7*7}",
    "`id` $(id) ; rm -rf ~ | cat && x",
    "&lt;b&gt; &amp;amp; <b>not bold</b> <!-- gone",
    "\u202ereversed\u202c \u2066alone \u2069\u2069 \u200bzero\u200dwidth \u05d0\u05d1\u05d2 12",
    "#set page(fill: red) $ x $ *bold* _slanted_ ~~struck~~ ^up^ ==marked==",
]
TITLES = ["title", "designer", "summary", "skill"]
PLAIN = "Plain words"


def hostile_file(words: list[str]) -> bytes:
    """Return a small pattern with these words in every field of text."""
    fields = iter(words * 9)
    part = {"row": ["light 2 x 4", {"half-square": ["red", "dark"], "finished": "4 x 4"}]}
    fabrics = {name: {**fabric, "title": next(fields)} for name, fabric in YARDAGE.items()}
    return file_of(
        {"one": part},
        **{name: next(fields) for name in TITLES},
        fabrics=fabrics,
        sizes={"small": {"title": next(fields), "blocks": "2 x 2"}},
        classes={"autumn": {"title": next(fields), "size": "small", "students": "3", "sessions": ["2 h"]}},
    )


def inline_scripts(site: Path, pattern: str) -> set[str]:
    scripts: set[str] = set()
    for path in sorted((site / pattern).rglob("*.html")):
        reader = Inline()
        reader.feed(path.read_text(encoding="utf-8"))
        scripts |= {re.sub(r'"(\.\./?)+"|"\."', '""', script) for script in reader.scripts}
    return scripts


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build a site of one pattern with plain and some with hostile text."""
    folder = tmp_path_factory.mktemp("hostile")
    (folder / "patterns").mkdir()
    config = {"site_name": "T", "site_url": "", "docs_dir": "patterns", "theme": {"name": "material", "font": False}}
    plugins = ["search", {"seamleaf": {"paper": ["a4"]}}]
    more = {"extra": {"generator": False}, "plugins": plugins, "use_directory_urls": False}
    (folder / "mkdocs.yml").write_text(json.dumps(config | more), encoding="utf-8")
    (folder / "patterns" / "index.md").write_text("# Home\n\n<!-- seamleaf: gallery -->\n", encoding="utf-8")
    (folder / "patterns" / "plain.yaml").write_bytes(hostile_file([PLAIN]))
    (folder / "patterns" / "hostile.yaml").write_bytes(hostile_file(HOSTILE))
    (folder / "patterns" / "turned.yaml").write_bytes(hostile_file(HOSTILE[::-1]))
    command = [Path(sys.executable).with_name("seamleaf"), "build"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=300)
    assert (done.returncode, done.stdout + done.stderr) == (0, "")
    return folder / "site"


@pytest.fixture(scope="module")
def strict(site: Path) -> Iterator[str]:
    """Serve the site with the policy and return its address."""
    with serving(site, Strict) as address:
        yield address


def test_hostile_text_adds_no_inline_script(site: Path) -> None:
    """What the policy allows by its hash is the theme's: a pattern with plain words has the same scripts."""
    plain = inline_scripts(site, "plain")
    assert plain
    assert inline_scripts(site, "hostile") == inline_scripts(site, "turned") == plain


@pytest.mark.parametrize("pattern", ["hostile", "turned"])
def test_hostile_text_is_shown_and_not_run(browser: Browser, strict: str, site: Path, pattern: str) -> None:
    """No page runs it, breaks the policy, or asks anything of another host; titles read as they were typed."""
    words = (HOSTILE if pattern == "hostile" else HOSTILE[::-1])[:8]  # the ninth is a class, which no page shows
    pages = sorted(path.relative_to(site).as_posix() for path in (site / pattern).rglob("*.html"))
    assert len(pages) > 5
    seen = ""
    with opened(browser) as (page, wrong):
        for address in ["index.html", *pages]:
            page.goto(strict + address, wait_until="load")
            wrong += page.evaluate(LAZY)
            assert page.evaluate("window.hit") is None, address
            assert page.locator("article [onerror], article [onload], article [onmouseover]").count() == 0
            assert page.locator("a[href^='javascript']").count() == 0
            seen += page.evaluate("document.body.innerText")
    assert wrong == []
    for word in words:
        assert letters(word) in letters(seen), word


def letters(text: str) -> str:
    """Leave out spaces and marks that are not seen."""
    return re.sub(r"[\s\u2066-\u2069\u202a-\u202e]", "", text)


def test_the_policy_would_stop_an_inline_script(browser: Browser, strict: str) -> None:
    with opened(browser) as (page, wrong):
        page.goto(strict + "index.html", wait_until="load")
        page.evaluate(f"document.body.append(Object.assign(document.createElement('script'), {{text: '{RUN}'}}))")
        assert page.evaluate("window.hit") is None
    assert any("Content Security Policy" in each for each in wrong)


TURNING = ["\u202equilt", "\u202a\u202equilt", "\u2069\u202equilt", "\u2067\u202equilt"]
"""Titles that turn what follows, where it is not kept apart."""


def test_a_title_that_never_ends_its_direction_turns_nothing_else(browser: Browser) -> None:
    page = browser.new_page()
    order = """() => [...document.querySelectorAll("p")].map((p) => {
        const text = p.firstChild, end = text.data.length, range = document.createRange();
        return [0, 1, 2, end - 3, end - 2, end - 1].map((at) => {
            range.setStart(text, at);
            range.setEnd(text, at + 1);
            return range.getBoundingClientRect().left;
        });
    })"""
    page.set_content("".join(f"<p>wxy {plain_text(title)} zkv</p>" for title in TURNING))
    apart = page.evaluate(order)
    page.set_content("".join(f"<p>wxy {title} zkv</p>" for title in TURNING))
    mixed = page.evaluate(order)
    page.close()
    assert [lefts == sorted(lefts) for lefts in apart] == [True] * len(TURNING)
    assert [lefts == sorted(lefts) for lefts in mixed] == [False] * len(TURNING)
