"""A site in German: no page says a word that is not of the German catalogue, of the theme's or of the pattern."""

from __future__ import annotations

import hashlib
import json
import re
from html import unescape
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from published import METRIC
from seamleaf.site.commands.command import main

if TYPE_CHECKING:
    import pytest

CONFIG = """\
site_name: Anleitungen
site_url: ""
docs_dir: patterns
theme: {name: material, font: false, language: de}
extra: {generator: false}
plugins: [search, seamleaf]
"""
WORD = re.compile(r"[A-Za-zÄÖÜäöüß]{2,}")
TITLES = "Anleitungen Small Pond Blue Green Mat Runner ripple Seamleaf ISO Not found"
"""Of the site and the pattern; the page for a wrong address has an English title in every language of the theme."""


def _words(text: str) -> set[str]:
    return set(WORD.findall(text))


def _told(page: str) -> list[str]:
    """Return what is read of a page or a figure, or read aloud."""
    page = re.sub(r"<(script|style|code)\b.*?</\1>", " ", page, flags=re.DOTALL)
    return [unescape(t) for t in (*re.findall(r'\b(?:alt|title|aria-label|placeholder)="([^"]*)"', page),
                                  *re.split(r"<[^>]*>", page))]  # fmt: skip


def test_no_page_and_no_figure_of_a_german_site_says_an_english_word(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "patterns").mkdir()
    (tmp_path / "patterns" / "index.md").write_text("# Anleitungen\n\n<!-- seamleaf: gallery -->\n", encoding="utf-8")
    (tmp_path / "patterns" / "pond.yaml").write_text(METRIC, encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(["build"]) == 0
    catalogue = files("seamleaf.site_templates").joinpath("wording.de.yaml").read_text(encoding="utf-8")
    theme = files("material").joinpath("templates/partials/languages/de.html").read_text(encoding="utf-8")
    known = _words(catalogue) | _words(theme) | _words(TITLES)
    site = tmp_path / "site"
    shown = [*site.rglob("*.html"), *site.glob("pond/**/*.svg")]
    assert len(shown) > 60
    strange = {
        (path.relative_to(site).as_posix(), text)
        for path in shown
        for text in _told(path.read_text(encoding="utf-8"))
        if _words(text) - known
    }
    assert strange == set()
    for report in _reports(site):
        assert _told_of(report) == _counted(report.parents[1]), report


def _reports(site: Path) -> list[Path]:
    """Return the reports of the proof, as the page of the pattern leads to them."""
    page = (site / "pond" / "index.html").read_text(encoding="utf-8")
    article = page.partition("<article")[2].partition("</article>")[0]
    found = [
        site / "pond" / each / "index.html" for each in re.findall(r'<a href="?(\w+/proof)/[^>]*>Bericht', article)
    ]
    assert len(found) == len(list(site.glob("pond/*/booklet.json"))) == 2
    assert all("Bericht der Probe" in each.read_text(encoding="utf-8") for each in found)
    return found


def _told_of(report: Path) -> dict[str, str]:
    said = re.findall(r'data-proved="?(\w+)"?>(.*?)</(?:td|code)>', report.read_text(encoding="utf-8"))
    return {key: re.sub(r"<[^>]*>", "", text) for key, text in said}


def _counted(size: Path) -> dict[str, str]:
    """Count the files of a size, and what its booklet lists."""
    content = (size / "booklet.json").read_bytes()
    booklet = json.loads(content)
    counts = {
        "sheets": sum(sheet["times"] for sheet in booklet["cutting"]),
        "patches": sum(patch["count"] for patch in booklet["patches"]),
        "units": sum(unit["count"] for unit in booklet["units"]),
        "blocks": sum(place["kind"] == "block" for place in booklet["places"]),
        "points": booklet["pressing"]["match_points"],
        "borders": sum(len(border["strips"]) for border in booklet["borders"]),
        "stops": len(booklet["gates"]),
        "purchases": len(booklet["fabrics"]),
        "pages": sum(1 for _ in size.rglob("index.html")),
        "figures": sum(1 for _ in size.glob("figures/*.svg")),
        "papers": sum(1 for _ in size.glob("*.pdf")),
    }
    shown = {key: str(count) for key, count in counts.items() if count}
    return shown | {"digest": hashlib.sha256(content).hexdigest()}
