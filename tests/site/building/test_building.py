"""Building a site: strict, whole or not at all, proved, the same every time, and nothing written beside the patterns.

What needs only to be looked at is looked at in the demo site, which the whole run shares; what fails is built here.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from folders import files_below
from published import SMALL, read_page, text_of
from seamleaf.site.building import navigation
from seamleaf.site.commands.command import main

CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
theme: {name: material, font: false}
extra: {generator: false}
plugins: [search, {seamleaf: {paper: []}}]
"""
WITH_PAPER = CONFIG.replace("{seamleaf: {paper: []}}", "seamleaf")
OWN_TEMPLATES = CONFIG.replace("paper: []", "paper: [], templates: mine")
UNPROVED = OWN_TEMPLATES.replace("mine", "mine, proof: false")
OWN_HOOK = f"{CONFIG}hooks: [mine/hook.py]\n"
OWN_THEME = CONFIG.replace("font: false", "font: false, custom_dir: mine")
INDEX = "# Home\n\n<!-- seamleaf: gallery -->\n"
POND = SMALL.replace("  runner: {title: Runner, blocks: 2 x 9}\n", "")
BROKEN = POND.replace("reed 3 x 3", "reeds 3 x 3")
LAST = {"index.html": "the last good site", "sitemap.xml": "<urlset/>", ".git/HEAD": "ref"}
"""A site that stands there already; the name with a dot is a checkout that it is published from."""
WRONG = 'Knot by <data value="9" data-from="/set/blocks">9</data> hands.\n'
"""A template that types a number, and a wrong one."""

Build = Callable[..., tuple[int, str]]


@pytest.fixture
def build(capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Build:
    """Return a function that runs ``seamleaf build`` in a folder and gives its status and all that it says."""

    def run(site: Path, *arguments: str) -> tuple[int, str]:
        monkeypatch.chdir(site)
        status = main(["build", *arguments])
        return status, "".join(capfd.readouterr())

    return run


def mkdocs(site: Path, *arguments: str) -> tuple[int, str]:
    """Run MkDocs' own command in a folder."""
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", *arguments],
        cwd=site, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"}, capture_output=True, text=True, timeout=180,
    )  # fmt: skip
    return done.returncode, done.stdout + done.stderr


def make_site(
    folder: Path, pattern: str = POND, config: str = CONFIG, index: str | None = INDEX, *, last: bool = False
) -> Path:
    """Lay out a site of one pattern, with a site that was built before if ``last``."""
    files = {"mkdocs.yml": config, "patterns/small-pond.yaml": pattern}
    files |= {f"site/{name}": text for name, text in LAST.items()} if last else {}
    files |= {} if index is None else {"patterns/index.md": index}
    files |= {"mine/stages/glance.md.jinja": WRONG} if "mine" in config else {}
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def stands_as_it_was(site: Path) -> bool:
    """Whether the last good site is there, whole, and nothing lies beside it."""
    beside = {path.name for path in site.iterdir()} - {"mine", ".cache"}
    return (
        files_below(site / "site") == {name: text.encode() for name, text in sorted(LAST.items())}
        and beside == {"mkdocs.yml", "patterns", "site"}
    )  # fmt: skip


# ------------------------------------------------------------------------------------------- the demo site


def test_the_site_holds_data_and_no_manuscript(demo_site: Path) -> None:
    names = set(files_below(demo_site))
    for size in ("crib", "throw", "twin", "queen", "king"):
        assert {f"lamplight-crossing/{size}/booklet{end}" for end in (".json", ".schema.json")} <= names
    assert not [name for name in names if name.endswith((".yaml", ".jinja"))]


def test_no_page_asks_anything_of_another_host(demo_site: Path) -> None:
    pattern = re.compile(rb"""(?:src|href|action|content)=["']?(?:https?:)?//""")
    pages = {name: content for name, content in files_below(demo_site).items() if name.endswith(".html")}
    assert [name for name, content in pages.items() if pattern.search(content)] == []


def test_the_gallery_shows_the_patterns_with_numbers_that_lead_to_their_booklets(demo_site: Path) -> None:
    page = read_page((demo_site / "index.html").read_bytes())
    assert "lamplight-crossing/index.html" in page.links
    assert "lamplight-crossing/crib/booklet.json#/finished/w" in {shown.place for shown in page.shown}
    for image in page.images:
        assert (demo_site / image["src"]).is_file()


def test_the_navigation_goes_by_pattern_size_and_stage(demo_site: Path) -> None:
    page = (demo_site / "lamplight-crossing" / "crib" / "cut" / "index.html").read_text(encoding="utf-8")
    navigation = page[page.index("md-nav--primary") : page.index("md-content")]
    order = [
        navigation.index(f">\n    {title}") if f">\n    {title}" in navigation else navigation.index(title)
        for title in ("Lamplight Crossing", "Crib", "Buy", "Cut", "Print", "Throw")
    ]
    assert order == sorted(order)


# ------------------------------------------------------------------------------------------- a site of one's own


def test_mkdocs_own_command_builds_the_same_bytes(build: Build, tmp_path: Path) -> None:
    """In strict mode both say nothing, and write nothing beside the patterns."""
    site = make_site(tmp_path, config=WITH_PAPER)
    assert build(site, "--site-dir", "elsewhere") == (0, "")
    status, said = mkdocs(site, "--strict", "--quiet")
    assert (status, said) == (0, "")
    dated = {"sitemap.xml", "sitemap.xml.gz"}  # carries the day of the build
    here, there = files_below(site / "elsewhere"), files_below(site / "site")
    assert here.keys() == there.keys()
    assert [name for name in here if name not in dated and here[name] != there[name]] == []
    assert sorted(files_below(site / "patterns")) == ["index.md", "small-pond.yaml"]
    assert sorted(path.name for path in site.iterdir()) == [".cache", "elsewhere", "mkdocs.yml", "patterns", "site"]


def test_generated_pages_have_no_edit_link_and_a_site_without_a_front_page_gets_one(
    build: Build, tmp_path: Path
) -> None:
    config = CONFIG + "repo_url: https://git.example/studio\nedit_uri: edit/main/patterns/\n"
    config = config.replace("font: false}", "font: false, features: [content.action.edit]}")
    site = make_site(tmp_path, config=config, index=None)
    (site / "patterns" / "about.md").write_text("# About\n", encoding="utf-8")
    assert build(site) == (0, "")
    assert "small-pond/index.html" in read_page((site / "site" / "index.html").read_bytes()).links
    edited = [
        name
        for name, content in files_below(site / "site").items()
        if name.endswith(".html") and b"edit/main/patterns" in content
    ]
    assert edited == ["about/index.html"]


def test_an_authors_own_page_and_navigation_stand_before_the_generated_ones(build: Build, tmp_path: Path) -> None:
    config = CONFIG + "nav:\n  - index.md\n  - Our quilts:\n      - Pond: small-pond/index.md\n"
    site = make_site(tmp_path, SMALL, config)
    own = site / "patterns" / "small-pond" / "mat" / "finish" / "index.md"
    own.parent.mkdir(parents=True)
    own.write_text("# My own way to finish\n", encoding="utf-8")
    assert build(site) == (0, "")
    assert "My own way" in (site / "site/small-pond/mat/finish/index.html").read_text(encoding="utf-8")
    page = (site / "site" / "small-pond" / "mat" / "index.html").read_text(encoding="utf-8")
    navigation = page[page.index("md-nav--primary") : page.index("md-content")]
    assert navigation.index("Our quilts") < navigation.index("Pond") < navigation.index("Runner")


@pytest.mark.parametrize(
    ("written", "others"), [("", False), ("nav: [index.md, small-pond/index.md, small-lake/index.md]\n", True)]
)
def test_beside_the_pages_of_one_of_many_patterns_stand_its_own_unless_the_author_says_otherwise(
    build: Build, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, written: str, *, others: bool
) -> None:
    monkeypatch.setattr(navigation, "MOST_BESIDE", 1)
    site = make_site(tmp_path, config=CONFIG + written)
    lake = POND.replace("title: Small Pond", "title: Small Lake")
    (site / "patterns" / "small-lake.yaml").write_text(lake, encoding="utf-8")
    assert build(site) == (0, "")
    assert {"Small Pond", "Small Lake"} <= beside(site / "site" / "index.html")
    found = beside(next((site / "site" / "small-pond").glob("*/cut/index.html")))
    assert {"Home", "Small Pond", "Cut"} <= found
    assert ("Small Lake" in found) == others


def beside(page: Path) -> set[str]:
    """Return what the navigation beside a page says."""
    html = page.read_text(encoding="utf-8")
    shown = html[html.index("md-nav--primary") : html.index("md-content")]
    return {" ".join(each.split()) for each in re.findall(r">([^<>]+)<", shown)}


def test_what_begins_with_a_dot_stays_in_the_site_and_all_else_of_the_last_goes(build: Build, tmp_path: Path) -> None:
    site = make_site(tmp_path, last=True)
    (site / "site" / "stale.html").write_text("old", encoding="utf-8")
    assert build(site) == (0, "")
    assert (site / "site" / ".git" / "HEAD").read_text(encoding="utf-8") == "ref"
    assert not (site / "site" / "stale.html").exists()
    assert "last good" not in (site / "site" / "index.html").read_text(encoding="utf-8")


def test_mkdocs_own_command_leaves_names_with_a_dot_as_well(tmp_path: Path) -> None:
    site = make_site(tmp_path, last=True)
    (site / "site").chmod(0o750)
    assert mkdocs(site, "--quiet") == (0, "")
    assert (site / "site" / ".git" / "HEAD").read_text(encoding="utf-8") == "ref"
    assert "last good" not in (site / "site" / "index.html").read_text(encoding="utf-8")
    assert (site / "site").stat().st_mode & 0o777 == 0o750
    assert sorted(path.name for path in site.iterdir()) == [".cache", "mkdocs.yml", "patterns", "site"]


# ------------------------------------------------------------------------------------------- what fails


@pytest.mark.parametrize("own_command", [True, False])
def test_a_failed_build_leaves_the_last_good_site(build: Build, tmp_path: Path, own_command: bool) -> None:
    """All problems are told, each with its place, and not a byte of the site changes."""
    site = make_site(tmp_path, BROKEN, last=True)
    (site / "patterns" / "other.yaml").write_text(BROKEN, encoding="utf-8")
    status, said = build(site) if own_command else mkdocs(site)
    assert status == 1
    assert "Traceback" not in said
    assert len(re.findall(r"patterns/(?:small-pond|other)\.yaml:\d+:\d+: found", said)) == 2
    assert stands_as_it_was(site)


@pytest.mark.parametrize("own_command", [True, False])
def test_a_finding_of_the_proof_leaves_the_last_good_site(build: Build, tmp_path: Path, own_command: bool) -> None:
    """A template of a designer's own types a number; the proof looks it up in the booklet and finds another."""
    site = make_site(tmp_path, config=OWN_TEMPLATES, last=True)
    status, said = build(site) if own_command else mkdocs(site)
    assert status == 1
    assert "Traceback" not in said
    assert re.search(r"^small-pond/mat/index\.html:/set/blocks: the page says 9, the booklet 8", said, re.MULTILINE)
    assert stands_as_it_was(site)


def test_the_proof_can_be_left_out_and_no_page_then_speaks_of_it(build: Build, tmp_path: Path) -> None:
    site = make_site(tmp_path, config=UNPROVED)
    assert build(site) == (0, "")
    page = text_of(read_page((site / "site" / "small-pond" / "index.html").read_bytes()))
    assert "8 of 3 × 6 in" in page or "8 of 6 × 3 in" in page
    assert "all fit" not in page
    assert list((site / "site").glob("small-pond/**/proof")) == []


def test_a_warning_of_mkdocs_fails_the_build_and_leaves_the_last_good_site(build: Build, tmp_path: Path) -> None:
    site = make_site(tmp_path, index="[broken](nowhere.md)\n", last=True)
    status, said = build(site)
    assert status == 1
    assert "nowhere.md" in said
    assert stands_as_it_was(site)


def test_a_template_with_a_fault_fails_the_build_with_its_line(build: Build, tmp_path: Path) -> None:
    site = make_site(tmp_path, config=OWN_TEMPLATES)
    (site / "mine" / "stages" / "cut.md.jinja").write_text("\n{{ nonsense }}\n", encoding="utf-8")
    status, said = build(site)
    assert status == 1
    assert "cut.md.jinja:2: 'nonsense' is undefined" in said
    assert not (site / "site").exists()


def test_a_date_that_is_none_is_refused_as_that(build: Build, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Before anything is worked out; seconds are counted as in the format of the compressed sitemap."""
    site = make_site(tmp_path, last=True)
    for told in ("", "now", "-1", "1.5", "٣", str(2**32)):
        monkeypatch.setenv("SOURCE_DATE_EPOCH", told)
        status, said = build(site)
        assert (status, "SOURCE_DATE_EPOCH: found" in said) == (1, True), told
    assert stands_as_it_was(site)


@pytest.mark.parametrize(
    ("config", "name", "text", "place"),
    [
        (OWN_HOOK, "mine/hook.py", "def on_page_markdown(*_, **__):\n    return 1 / 0\n", "hook.py:2: "),
        (OWN_THEME, "mine/main.html", "\n{% block %}", "main.html:2: TemplateSyntaxError"),
        (OWN_THEME, "mine/main.html", "\n{{ 1 / 0 }}", "main.html:2: ZeroDivisionError"),
        (OWN_THEME, "mine/main.html", b"\xff", "in the theme: UnicodeDecodeError"),
    ],
)
def test_a_fault_of_the_authors_own_program_or_theme_is_told_of_as_theirs(
    build: Build, tmp_path: Path, config: str, name: str, text: str | bytes, place: str
) -> None:
    site = make_site(tmp_path, config=config, last=True)
    (site / name).write_bytes(text.encode() if isinstance(text, str) else text)
    status, said = build(site)
    assert status == 1
    assert place in said
    assert "a fault of seamleaf itself" not in said
    assert stands_as_it_was(site)


def test_a_folder_that_holds_something_else_is_not_replaced(build: Build, tmp_path: Path) -> None:
    site = make_site(tmp_path)
    (site / "letters").mkdir()
    (site / "letters" / "to-my-aunt.txt").write_text("Dear aunt", encoding="utf-8")
    status, said = build(site, "--site-dir", "letters")
    assert status == 1
    assert "letters" in said
    assert (site / "letters" / "to-my-aunt.txt").read_text(encoding="utf-8") == "Dear aunt"


@pytest.mark.parametrize("written", ["", "nav: [notes/index.md, notes/apron.md, notes/zip.md, small-pond/index.md]\n"])
def test_pages_of_a_folder_stand_as_its_index_leads_to_them_and_a_made_front_page_is_not_missed(
    build: Build, tmp_path: Path, written: str
) -> None:
    config = CONFIG + "validation: {nav: {omitted_files: warn}}\n" + written
    site = make_site(tmp_path, SMALL, config, index=None)
    notes = site / "patterns" / "notes"
    notes.mkdir()
    (notes / "index.md").write_text("# Notes\n\n[Zip](zip.md), [pond](../small-pond/index.md)\n", encoding="utf-8")
    (notes / "apron.md").write_text("# Apron\n", encoding="utf-8")
    (notes / "zip.md").write_text("# Zip\n", encoding="utf-8")
    assert build(site) == (0, "")
    page = (site / "site" / "notes" / "index.html").read_text(encoding="utf-8")
    side = page[page.index("md-nav--primary") : page.index("md-content")]
    assert (side.index("Zip") < side.index("Apron")) == (not written)
    assert (site / "site" / "index.html").is_file()
