"""Earlier versions that are kept beside the patterns: the page of corrections, and what may not be published again."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from folders import files_below
from published import SMALL, read_page
from seamleaf.proof import prove
from seamleaf.site.commands.command import main

CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
use_directory_urls: false
theme: {name: material, font: false}
plugins: [{seamleaf: {paper: []}}]
"""
POND = SMALL.replace("  runner: {title: Runner, blocks: 2 x 9}\n", "")
NEXT = POND.replace("1.0.0", "1.1.0").replace("{fabric: water}", "{fabric: water, strip: 2 1/4}")
NEXT += 'versions:\n  1.1.0: "The binding was *too* wide."\n'


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a working folder that keeps version 1.0.0 of the pattern."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "patterns").mkdir()
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    pattern = tmp_path / "patterns" / "small-pond.yaml"
    pattern.write_text(POND, encoding="utf-8")
    assert main(["booklet", str(pattern), "--out", "patterns/earlier/1.0.0"]) == 0
    return tmp_path


def test_a_new_version_gets_a_page_of_corrections(site: Path) -> None:
    (site / "patterns" / "small-pond.yaml").write_text(NEXT, encoding="utf-8")
    assert main(["build"]) == 0
    built = files_below(site / "site")
    assert not [name for name in built if name.startswith("earlier/")]
    page = read_page(built["small-pond/version_history/index.html"])
    text = " ".join("".join(page.words).split())
    assert "The binding was *too* wide. Read this if you have already" in text
    assert "Every size: borders and finishing" in text
    assert "Binding: width 2 1⁄4 in, was 2 1⁄2 in. Already cut: trim down to the new size. Pages: " in text
    assert "Borders and finishing." in text
    assert ("9/4", "../mat/booklet.json#/binding/width") in [(each.value, each.place) for each in page.shown]
    assert "version_history/index.html" in read_page(built["small-pond/index.html"]).links
    assert prove(site / "site").holds


def test_the_same_version_may_be_kept_and_published(site: Path) -> None:
    assert main(["build"]) == 0
    assert "The first version that is kept here." in (
        site / "site" / "small-pond" / "version_history" / "index.html"
    ).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (NEXT.replace("version: 1.1.0", "version: 1.0.0"), "found version '1.0.0', under which something else was"),
        (POND.replace("1.0.0", "0.9"), "found version '0.9', expected a version after '1.0.0'"),
    ],
)
def test_a_changed_booklet_needs_a_new_version(
    site: Path, capfd: pytest.CaptureFixture[str], text: str, says: str
) -> None:
    (site / "patterns" / "small-pond.yaml").write_text(text, encoding="utf-8")
    assert main(["build"]) == 1
    out = "".join(capfd.readouterr())
    assert "patterns/small-pond.yaml:2:1: " in out
    assert says in out
    assert not (site / "site").exists()


def test_two_kept_folders_of_one_version_are_refused(site: Path, capfd: pytest.CaptureFixture[str]) -> None:
    shutil.copytree(site / "patterns" / "earlier" / "1.0.0", site / "patterns" / "earlier" / "again")
    assert main(["build"]) == 1
    assert "booklet.json:/pattern/version: version 1.0.0 again, as in" in "".join(capfd.readouterr())
