"""Building a site: strict, whole or not at all, the same every time, and nothing written beside the patterns."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from folders import files_below
from published import SMALL, read_page
from seamleaf.site.output import is_replaceable, replacing

CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
theme: {name: material, font: false}
extra: {generator: false}
plugins: [search, seamleaf]
"""
INDEX = "# Home\n\n<!-- seamleaf: gallery -->\n"
BROKEN = SMALL.replace("reed 3 x 3", "reeds 3 x 3")


def run(site: Path, *arguments: str, module: str = "seamleaf.site") -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "SOURCE_DATE_EPOCH": "1700000000", "NO_MKDOCS_2_WARNING": "1"}
    return subprocess.run(
        [sys.executable, "-m", module, *arguments],
        cwd=site, env=environment, capture_output=True, text=True, timeout=180,
    )  # fmt: skip


def make_site(folder: Path, pattern: str = SMALL, config: str = CONFIG, index: str | None = INDEX) -> Path:
    (folder / "patterns").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(config, encoding="utf-8")
    (folder / "patterns" / "small-pond.yaml").write_text(pattern, encoding="utf-8")
    if index is not None:
        (folder / "patterns" / "index.md").write_text(index, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a site that was built once for the tests that only look at it."""
    site = make_site(tmp_path_factory.mktemp("site"))
    done = run(site, "build")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    return site


def test_a_build_says_nothing_and_warns_of_nothing(built: Path) -> None:
    """The fixture has asserted it: exit status 0, no line on either stream, in strict mode."""
    assert (built / "site" / "index.html").is_file()


def test_nothing_is_written_beside_the_patterns(built: Path) -> None:
    assert sorted(files_below(built / "patterns")) == ["index.md", "small-pond.yaml"]
    assert sorted(path.name for path in built.iterdir()) == ["mkdocs.yml", "patterns", "site"]


def test_two_builds_are_the_same_bytes_and_so_is_mkdocs_own(built: Path, tmp_path: Path) -> None:
    site = make_site(tmp_path / "again")
    assert run(site, "build", "--site-dir", "elsewhere").returncode == 0
    assert run(site, "build", "--strict", module="mkdocs").returncode == 0
    first = files_below(built / "site")
    assert files_below(site / "elsewhere") == first
    assert files_below(site / "site") == first


def test_the_site_holds_data_and_no_manuscript(built: Path) -> None:
    names = set(files_below(built / "site"))
    assert {f"small-pond/{size}/booklet.json" for size in ("mat", "runner")} <= names
    assert {f"small-pond/{size}/booklet.schema.json" for size in ("mat", "runner")} <= names
    assert not [name for name in names if name.endswith((".yaml", ".jinja"))]


def test_no_page_asks_anything_of_another_host(built: Path) -> None:
    pattern = re.compile(rb"""(?:src|href|action|content)=["']?(?:https?:)?//""")
    asking = [
        name
        for name, content in files_below(built / "site").items()
        if name.endswith(".html") and pattern.search(content)
    ]
    assert asking == []


def test_the_gallery_shows_the_patterns_with_numbers_that_lead_to_their_booklets(built: Path) -> None:
    page = read_page((built / "site" / "index.html").read_bytes())
    assert "small-pond/index.html" in page.links
    assert "small-pond/mat/booklet.json#/finished/w" in {shown.place for shown in page.shown}
    for image in page.images:
        assert (built / "site" / image["src"]).is_file()


def test_the_navigation_goes_by_pattern_size_and_stage(built: Path) -> None:
    page = (built / "site" / "small-pond" / "mat" / "cut" / "index.html").read_text(encoding="utf-8")
    navigation = page[page.index("md-nav--primary") : page.index("md-content")]
    order = [
        navigation.index(f">\n    {title}") if f">\n    {title}" in navigation else navigation.index(title)
        for title in ("Small Pond", "Mat", "Buy", "Cut", "Print", "Runner")
    ]
    assert order == sorted(order)


def test_generated_pages_have_no_edit_link(tmp_path: Path) -> None:
    config = CONFIG + "repo_url: https://git.example/studio\nedit_uri: edit/main/patterns/\n"
    config = config.replace("font: false}", "font: false, features: [content.action.edit]}")
    site = make_site(tmp_path / "site", config=config)
    assert run(site, "build").returncode == 0
    assert "edit/main/patterns/index.md" in (site / "site" / "index.html").read_text(encoding="utf-8")
    assert "edit/main" not in (site / "site" / "small-pond" / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("module", ["seamleaf.site", "mkdocs"])
def test_a_failed_build_leaves_the_last_good_site(tmp_path: Path, module: str) -> None:
    """All problems are told, each with its place, and not a byte of the site changes."""
    site = make_site(tmp_path / "site")
    assert run(site, "build", module=module).returncode == 0
    before = files_below(site / "site")
    (site / "patterns" / "small-pond.yaml").write_text(BROKEN, encoding="utf-8")
    (site / "patterns" / "other.yaml").write_text(BROKEN, encoding="utf-8")
    done = run(site, "build", module=module)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert len(re.findall(r"patterns/(?:small-pond|other)\.yaml:\d+:\d+: found", done.stderr)) == 2
    assert files_below(site / "site") == before
    assert sorted(path.name for path in site.iterdir()) == ["mkdocs.yml", "patterns", "site"]


def test_a_warning_of_mkdocs_fails_the_build_and_leaves_the_last_good_site(tmp_path: Path) -> None:
    site = make_site(tmp_path / "site")
    assert run(site, "build").returncode == 0
    before = files_below(site / "site")
    (site / "patterns" / "index.md").write_text("[broken](nowhere.md)\n", encoding="utf-8")
    done = run(site, "build")
    assert done.returncode == 1
    assert "nowhere.md" in done.stderr
    assert files_below(site / "site") == before


def test_a_template_with_a_fault_fails_the_build_with_its_line(tmp_path: Path) -> None:
    site = make_site(tmp_path / "site", config=CONFIG.replace("seamleaf]", "{seamleaf: {templates: mine}}]"))
    (site / "mine" / "stages").mkdir(parents=True)
    (site / "mine" / "stages" / "cut.md.jinja").write_text("\n{{ nonsense }}\n", encoding="utf-8")
    done = run(site, "build")
    assert done.returncode == 1
    assert "cut.md.jinja:2: 'nonsense' is undefined" in done.stderr
    assert not (site / "site").exists()


def test_a_site_without_a_front_page_gets_one(tmp_path: Path) -> None:
    site = make_site(tmp_path / "site", index=None)
    assert run(site, "build").returncode == 0
    assert "small-pond/index.html" in read_page((site / "site" / "index.html").read_bytes()).links


def test_an_authors_own_page_stands_before_the_generated_one(tmp_path: Path) -> None:
    site = make_site(tmp_path / "site")
    own = site / "patterns" / "small-pond" / "mat" / "finish" / "index.md"
    own.parent.mkdir(parents=True)
    own.write_text("# My own way to finish\n", encoding="utf-8")
    assert run(site, "build").returncode == 0
    assert "My own way" in (site / "site/small-pond/mat/finish/index.html").read_text(encoding="utf-8")


def test_a_folder_that_holds_something_else_is_not_replaced(tmp_path: Path) -> None:
    site = make_site(tmp_path / "site")
    (site / "letters").mkdir()
    (site / "letters" / "to-my-aunt.txt").write_text("Dear aunt", encoding="utf-8")
    done = run(site, "build", "--site-dir", "letters")
    assert done.returncode == 1
    assert "letters" in done.stderr
    assert (site / "letters" / "to-my-aunt.txt").read_text(encoding="utf-8") == "Dear aunt"


def test_what_begins_with_a_dot_stays_in_the_site(tmp_path: Path) -> None:
    """A checkout that is published from, for example: its .git lives in the site's folder."""
    site = make_site(tmp_path / "site")
    assert run(site, "build").returncode == 0
    (site / "site" / ".git").mkdir()
    (site / "site" / ".git" / "HEAD").write_text("ref", encoding="utf-8")
    (site / "site" / "stale.html").write_text("old", encoding="utf-8")
    assert run(site, "build").returncode == 0
    assert (site / "site" / ".git" / "HEAD").read_text(encoding="utf-8") == "ref"
    assert not (site / "site" / "stale.html").exists()


def test_a_written_navigation_keeps_its_order_and_takes_the_pattern_in(tmp_path: Path) -> None:
    config = CONFIG + "nav:\n  - index.md\n  - Our quilts:\n      - Pond: small-pond/index.md\n"
    site = make_site(tmp_path / "site", config=config)
    done = run(site, "build")
    assert (done.returncode, done.stderr) == (0, "")
    page = (site / "site" / "small-pond" / "mat" / "index.html").read_text(encoding="utf-8")
    navigation = page[page.index("md-nav--primary") : page.index("md-content")]
    assert navigation.index("Our quilts") < navigation.index("Pond") < navigation.index("Runner")


def test_replacing_puts_the_old_folder_back_when_the_block_fails(tmp_path: Path) -> None:
    folder = tmp_path / "site"
    folder.mkdir()
    (folder / "a").write_text("old", encoding="utf-8")

    def fail(fresh: Path) -> None:
        (fresh / "a").write_text("new", encoding="utf-8")
        raise RuntimeError("half way")

    with pytest.raises(RuntimeError, match="half way"), replacing(folder) as fresh:
        fail(fresh)
    assert files_below(tmp_path) == {"site/a": b"old"}


def test_a_new_folder_can_be_read_by_others(tmp_path: Path) -> None:
    with replacing(tmp_path / "site") as fresh:
        (fresh / "a").touch()
    umask = os.umask(0)
    os.umask(umask)
    assert (tmp_path / "site").stat().st_mode & 0o777 == 0o777 & ~umask


def test_only_an_empty_folder_or_a_site_is_replaceable(tmp_path: Path) -> None:
    assert is_replaceable(tmp_path / "new")
    assert is_replaceable(tmp_path)
    (tmp_path / "letter").touch()
    assert not is_replaceable(tmp_path)
    assert not is_replaceable(tmp_path / "letter")
