"""What an unchanged build does not do again, and what it never believes."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from mkdocs.structure.pages import Page

from folders import files_below
from published import SMALL
from seamleaf.proof import checks, prove
from seamleaf.publishing import Gallery
from seamleaf.site.building.running import SiteError, build_site
from seamleaf.site.files.shelf import Shelf
from seamleaf.site.pages.keeping import Keeper
from seamleaf.site.pages.published import Published
from seamleaf.site.work.workshop import Workshop

CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
theme: mkdocs
plugins: [{seamleaf: {paper: [letter], processes: 1}}]
"""
POND = SMALL.replace("  runner: {title: Runner, blocks: 2 x 9}\n", "")
HOME = "# Home\n\n<!-- seamleaf: gallery -->\n"


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder whose site is built."""
    folder = tmp_path_factory.mktemp("kept")
    (folder / "patterns").mkdir()
    (folder / "patterns" / "small-pond.yaml").write_text(POND, encoding="utf-8")
    (folder / "patterns" / "index.md").write_text(HOME, encoding="utf-8")
    (folder / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    build_site(folder / "mkdocs.yml")
    return folder


@pytest.fixture
def rendered(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that notes every page that MkDocs renders."""
    done: list[str] = []
    render = Page.render

    def noting(self: Page, *given: Any) -> None:
        done.append(self.file.src_uri)
        render(self, *given)

    monkeypatch.setattr(Page, "render", noting)
    return done


def never(*_: object, **__: object) -> None:
    """Stand in for work that nothing asks for."""
    raise AssertionError("worked out again")


def test_with_nothing_changed_nothing_is_worked_out_again_and_every_byte_is_the_same(
    built: Path, rendered: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only the author's own pages are rendered: their extensions may read what is not seen here."""
    before = files_below(built / "site")
    publishing = ("publisher.publish_size", "publisher.publish_overview", "publisher.lay_papers", "cards.publish_card")
    for work in ("work.jobs.plan_booklets", "work.workshop.set_paper", *(f"pages.{each}" for each in publishing)):
        monkeypatch.setattr(f"seamleaf.site.{work}", never)
    for check in ("prove_booklet", "look_at_figures", "check_papers"):
        monkeypatch.setattr(checks, check, never)
    build_site(built / "mkdocs.yml")
    after = files_below(built / "site")
    assert after.keys() == before.keys()
    assert {path for path in after if after[path] != before[path]} <= {"index.html"}, "it says when it was built"
    assert rendered == ["index.md"]


def test_an_edited_pattern_is_published_and_proved_anew(built: Path, rendered: list[str]) -> None:
    path = built / "patterns" / "small-pond.yaml"
    path.write_text(POND.replace("Small Pond", "Smaller Pond"), encoding="utf-8")
    try:
        build_site(built / "mkdocs.yml")
        assert "Smaller Pond" in (built / "site" / "small-pond" / "index.html").read_text(encoding="utf-8")
        assert "small-pond/index.md" in rendered
    finally:
        path.write_text(POND, encoding="utf-8")


def test_a_warning_of_a_page_is_told_each_time(built: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = built / "patterns" / "note.md"
    page.write_text("# Note\n\n[gone](nowhere.md)\n", encoding="utf-8")
    try:
        for _ in range(2):
            with pytest.raises(SiteError):
                build_site(built / "mkdocs.yml")
            assert "nowhere.md" in capsys.readouterr().err
    finally:
        page.unlink()


def test_a_kept_file_that_was_damaged_or_thrown_away_is_missed(tmp_path: Path) -> None:
    keeper = Keeper(Shelf(tmp_path, print), ("given",))
    made = Published(
        id="a", title="A", sizes={"mat": "Mat"}, files={"a/index.md": b"page", "a/x.svg": b"figure"}, gallery=None
    )
    key = keeper.key_of("a", b"text", ())
    assert key != keeper.key_of("a", b"text", ("earlier",))
    assert key != Keeper(keeper.shelf, ("other",)).key_of("a", b"text", ())
    kept = keeper.keep(made, key)
    found = keeper.take(key, never_asked)
    assert found is not None
    assert found.files == kept.files
    page = kept.files["a/index.md"]
    assert isinstance(page, Path)
    assert page.read_bytes() == b"page"
    at_hand = Keeper(keeper.shelf, ("given",), pages_at_hand=True)
    for each in (at_hand.take(key, never_asked), at_hand.keep(made, key)):
        assert each is not None
        assert each.files == kept.files | {"a/index.md": b"page"}
    figure = kept.files["a/x.svg"]
    assert isinstance(figure, Path)
    assert figure.read_bytes() == b"figure"
    figure.write_bytes(b"figurE")
    assert keeper.take(key, never_asked) is None
    assert keeper.keep(made, key).files == kept.files
    assert keeper.take(key, never_asked) is not None
    figure.unlink()
    assert keeper.take(key, never_asked) is None


def never_asked() -> Gallery:
    """Stand in for booklets that nobody asks for."""
    raise AssertionError("asked for")


class Remembering:
    """A memory of a proof that notes what it was asked."""

    def __init__(self) -> None:
        self.kept: dict[str, bytes] = {}

    def recall(self, key: str) -> bytes | None:
        """Return what was kept."""
        return self.kept.get(key)

    def keep(self, key: str, said: bytes) -> None:
        """Keep an answer."""
        self.kept[key] = said


def test_a_proof_holds_for_the_very_bytes_and_for_no_others(built: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    site, memory = built / "site", Remembering()
    first = prove(site, memory=memory)
    assert first.holds
    assert first == prove(site)
    with monkeypatch.context() as patched:
        patched.setattr(checks, "check_all", never)
        assert prove(site, memory=memory) == first
    for name, old, new in (
        ("booklet.json", b'"sheets": ', b'"sheets": 1'),
        ("cut/index.html", b'<data value="', b'<data value="9'),
        ("figures/quilt.svg", b"</title>", b" 9 1/8 in </title>"),
    ):
        path = site / "small-pond" / "mat" / name
        whole = path.read_bytes()
        assert old in whole
        path.write_bytes(whole.replace(old, new, 1))
        known = dict(memory.kept)
        found = prove(site, memory=memory).findings
        path.write_bytes(whole)
        assert found != ()
        assert set(found) <= set(prove_after(site, path, whole, old, new))
        assert prove(site, memory=memory) == first
        assert known.items() <= memory.kept.items()


def prove_after(site: Path, path: Path, whole: bytes, old: bytes, new: bytes) -> tuple[object, ...]:
    """Return what a proof without memory finds in the same damaged site."""
    path.write_bytes(whole.replace(old, new, 1))
    try:
        return prove(site).findings
    finally:
        path.write_bytes(whole)


def test_a_large_catalogue_is_published_in_parts_that_memory_lets_go_of(
    built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is let go of is found on the shelf by the gallery; the site is the same as when all is held at once."""
    (tmp_path / "patterns").mkdir()
    for name in ("index.md", "small-pond.yaml"):
        (tmp_path / "patterns" / name).write_bytes((built / "patterns" / name).read_bytes())
    (tmp_path / "patterns" / "other-pond.yaml").write_text(POND.replace("Small Pond", "Other Pond"), encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    known: list[int] = []
    forget = Workshop.forget

    def noting(self: Workshop) -> None:
        known.append(len(self._known))
        forget(self)

    monkeypatch.setattr(Workshop, "forget", noting)
    build_site(tmp_path / "mkdocs.yml", tmp_path / "whole")
    assert known == [], "a small one is held"
    shutil.rmtree(tmp_path / ".cache")
    monkeypatch.setattr("seamleaf.site.pages.publisher.AT_ONCE", 1)
    build_site(tmp_path / "mkdocs.yml", tmp_path / "parts")
    assert known == [1, 1]
    whole, parts = files_below(tmp_path / "whole"), files_below(tmp_path / "parts")
    assert parts.keys() == whole.keys()
    assert {path for path in parts if parts[path] != whole[path]} <= {"index.html"}, "it says when it was built"
