"""The plugin object: what it computes once, and where pages stand in a navigation."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from folders import files_below
from seamleaf.site.building.navigation import navigation, pattern_section
from seamleaf.site.building.plugin import SeamleafPlugin

SECTION = {"Pond": ["pond/index.md", {"Mat": [{"Buy": "pond/mat/buy/index.md"}]}]}


def test_an_interrupted_build_gives_the_last_site_back(tmp_path: Path) -> None:
    """MkDocs then shuts its plugins down without a word of an error."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("the last good site", encoding="utf-8")
    config = MkDocsConfig()
    config.site_dir = str(tmp_path / "site")
    plugin = SeamleafPlugin()
    plugin.on_startup(command="build", dirty=False)
    plugin.on_pre_build(config=config)
    (tmp_path / "site").mkdir()
    plugin.on_shutdown()
    assert files_below(tmp_path) == {"site/index.html": b"the last good site"}


@pytest.mark.parametrize(("command", "dirty"), [("serve", False), ("build", True)])
def test_what_is_served_or_only_renewed_stays_where_it_is(tmp_path: Path, command: Any, dirty: bool) -> None:
    (tmp_path / "index.html").write_text("the last site", encoding="utf-8")
    config = MkDocsConfig()
    config.site_dir = str(tmp_path)
    plugin = SeamleafPlugin()
    plugin.on_startup(command=command, dirty=dirty)
    plugin.on_pre_build(config=config)
    assert files_below(tmp_path) == {"index.html": b"the last site"}


@pytest.mark.parametrize(("maker", "command", "left"), [
    ("seamleaf", "build", ""), ("seamleaf", "serve", "# A"), (None, "build", "# A"), ("other", "build", "# A"),
])  # fmt: skip
def test_a_build_lets_go_of_the_texts_of_our_pages_alone(maker: str | None, command: Any, left: str) -> None:
    config, plugin = MkDocsConfig(), SeamleafPlugin()
    plugin.on_startup(command=command, dirty=False)
    file = File("a.md", None, "site", use_directory_urls=False)
    file.generated_by = maker
    page = Page(None, file, config)
    page.markdown = "# A"
    assert plugin.on_page_content("<h1>A</h1>", page=page, config=config, files=Files([file])) == "<h1>A</h1>"
    assert page.markdown == left


def test_a_section_goes_by_size_and_stage() -> None:
    pages = [
        "pond/index.md",
        "pond/mat/index.md",
        "pond/mat/cut/index.md",
        "pond/rug/index.md",
        "pond/mat/booklet.json",
    ]
    assert pattern_section("Pond & <co>", pages, {"mat": "Mat", "rug": "Rug"}, {"": "At a glance", "cut": "Cut"}) == {
        "Pond &amp; ‹co›": [
            "pond/index.md",
            {"Mat": [{"At a glance": "pond/mat/index.md"}, {"Cut": "pond/mat/cut/index.md"}]},
            {"Rug": [{"At a glance": "pond/rug/index.md"}]},
        ]
    }


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (["index.md", "pond/index.md"], ["index.md", SECTION]),
        ([{"Quilts": ["pond/index.md"]}], [{"Quilts": [SECTION]}]),
        ([{"My pond": "pond/index.md"}], [{"My pond": SECTION["Pond"]}]),
        (["index.md", {"Away": "https://example.org/"}], ["index.md", {"Away": "https://example.org/"}]),
        (["other/index.md"], ["other/index.md"]),
    ],
)
def test_a_written_navigation_is_followed(written: Any, expected: Any) -> None:
    assert navigation(written, Files([]), {"pond": SECTION}) == expected


def test_an_open_navigation_gets_every_pattern() -> None:
    assert navigation(None, Files([]), {"pond": SECTION, "lake": {"Lake": []}}) == [SECTION, {"Lake": []}]
