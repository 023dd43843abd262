"""The plugin object: what it computes once, and where pages stand in a navigation."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
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


@pytest.mark.parametrize(("maker", "command", "plugins", "left", "html_left"), [
    ("seamleaf", "build", ["search"], "", ""), ("seamleaf", "build", ["search", "tags"], "", "<h1>A</h1>"),
    ("seamleaf", "serve", ["search"], "# A", "<h1>A</h1>"),
    (None, "build", ["search"], "# A", "<h1>A</h1>"), ("other", "build", ["search"], "# A", "<h1>A</h1>"),
])  # fmt: skip
def test_a_build_lets_go_of_our_pages_alone_and_has_them_whole_when_they_are_written(
    tmp_path: Path, maker: str | None, command: Any, plugins: list[str], left: str, html_left: str
) -> None:
    """Of what they hold only where no other plugin may ask for it."""
    config, plugin = MkDocsConfig(), SeamleafPlugin()
    config.load_dict({"site_name": "A", "docs_dir": str(tmp_path), "theme": "material", "plugins": plugins})
    assert config.validate()[0] == []
    plugin.on_startup(command=command, dirty=False)
    file = File("a.md", None, "site", use_directory_urls=False)
    file.generated_by = maker
    page = Page(None, file, config)
    page.markdown = "# A"
    page.content = plugin.on_page_content("<h1>A</h1>", page=page, config=config, files=Files([file]))
    assert (page.markdown, page.content) == (left, html_left)
    nav = Navigation([], [page])
    plugin.on_page_context(get_context(nav, [file], config, page), page=page, config=config, nav=nav)
    assert page.content == "<h1>A</h1>"
    assert plugin.on_post_page("<html>", page=page, config=config) == "<html>"
    assert page.content == html_left


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
