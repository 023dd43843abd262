"""Edits of a site that is served: what they show is what a whole build would show, and only that is made anew."""

from __future__ import annotations

import html
import re
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from folders import files_below
from published import METRIC, SMALL
from seamleaf.site.building.plugin import SeamleafPlugin
from seamleaf.site.serve.watching import Watched
from seamleaf.site.work.jobs import Job, Outcome, try_job

CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
theme: mkdocs
plugins: [search, seamleaf]
"""
HOME = "# Home\n\n<!-- seamleaf: gallery -->\n"
NOTE = "# A note\n\n```pattern\nblocks:\n  one: {row: [light 2 x 2, dark 2 x 2]}\n```\n"
ADDRESS = "http://127.0.0.1/"
UNLIKE = re.compile(r"search/.*|sitemap\.xml.*|404\.html")
"""What waits for the next whole build."""


class Crew:
    """Does jobs at once, in this process."""

    def __init__(self) -> None:
        self.sizes: list[str] = []
        self.killed = False

    def begin(self, job: Job) -> Future[Outcome | Exception]:
        """Do a job, or die over it."""
        self.sizes.append(job.size)
        done: Future[Outcome | Exception] = Future()
        if self.killed:
            done.set_exception(BrokenProcessPool())
        else:
            done.set_result(try_job(job))
        return done

    def leave(self) -> None:
        """End."""


class Site:
    """A site as ``serve`` holds it, without a server."""

    def __init__(self, folder: Path, site_dir: Path) -> None:
        self.folder, self.site = folder, site_dir
        self.wholes = self.asked = 0
        config = load_config(config_file=str(folder / "mkdocs.yml"), site_dir=str(site_dir))
        config.plugins.on_startup(command="serve", dirty=False)
        config.site_url = ADDRESS
        build(config, serve_url=ADDRESS)
        (plugin,) = [each for each in config.plugins.values() if isinstance(each, SeamleafPlugin)]
        self.edits, self.crew = plugin._edits, Crew()
        self.edits._crew, self.edits._ask = self.crew, self._noting  # type: ignore[assignment]  # as much as is used
        roots = [config.docs_dir, str(config.config_file_path), *config.watch]
        self._builder = self.edits.builder(self._whole, lambda: roots)

    def _whole(self) -> None:
        self.wholes += 1

    def _noting(self) -> None:
        self.asked += 1

    def write(self, name: str, text: str) -> None:
        """Edit a file, and do what the server does when it sees that."""
        (self.folder / "patterns" / name).write_text(text, encoding="utf-8")
        self._builder()

    def get(self, page: str) -> str:
        """Return a page as it is served."""
        self.edits._make(f"{page}/" if page else "")
        return html.unescape((self.site / page / "index.html").read_text(encoding="utf-8"))

    def get_all(self) -> dict[str, bytes]:
        """Return every file of the site as it is served."""
        assert self.edits.shown is not None
        pages = [path for path in files_below(self.site) if path.endswith(".html")]
        for path in [*pages, *self.edits.shown.live._stale]:
            self.edits._make(path)
        return {path: content for path, content in files_below(self.site).items() if not UNLIKE.fullmatch(path)}


@pytest.fixture
def site(tmp_path: Path) -> Site:
    """Return a site of two patterns and a page with an example."""
    folder = tmp_path / "of"
    (folder / "patterns").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    for name, text in {"pond.yaml": SMALL, "other.yaml": METRIC, "index.md": HOME, "note.md": NOTE}.items():
        (folder / "patterns" / name).write_text(text, encoding="utf-8")
    return Site(folder, tmp_path / "site")


def test_what_an_edit_shows_is_what_a_whole_build_shows(site: Site, tmp_path: Path) -> None:
    """Titles, which stand on every page; the cloth; a page of the author's; a size that goes and one that comes."""
    edited = SMALL.replace("Small Pond", "Smaller Pond").replace("title: Mat", "title: Bath mat")
    site.write("pond.yaml", edited)
    site.write("note.md", NOTE.replace("2 x 2", "3 x 3").replace("A note", "Another"))
    assert "Smaller Pond" in site.get("")
    assert "Bath mat" in site.get("pond/mat")
    edited = edited.replace("runner: {title: Runner, blocks: 2 x 9}", "lap: {title: Lap, blocks: 3 x 4}")
    assert "Lap" in edited
    site.write("pond.yaml", edited)
    shown = site.get_all()
    assert site.wholes == 0
    again = Site(site.folder, tmp_path / "again").get_all()
    assert shown.keys() == again.keys()
    assert [path for path in again if _undated(shown[path]) != _undated(again[path])] == []


def _undated(page: bytes) -> bytes:
    """Leave out when the front page was built."""
    return re.sub(rb"Build Date UTC : .*", b"", page)


def test_the_size_that_was_looked_at_last_is_worked_out_first(site: Site) -> None:
    assert "Small Pond" in site.get("pond/runner/cut")
    site.write("pond.yaml", SMALL.replace("Small Pond", "Smaller Pond"))
    assert site.crew.sizes == ["runner", "mat"]


def test_problems_show_on_every_page_of_the_pattern_and_go_again(site: Site) -> None:
    site.write("pond.yaml", SMALL.replace("reed 3 x 3", "reeds 3 x 3"))
    for page in ("pond", "pond/mat/cut", "pond/runner"):
        assert "pond.yaml:10:9: found" in site.get(page)
    assert "pond.yaml:" not in site.get("other")
    site.write("pond.yaml", SMALL)
    assert "Small Pond" in site.get("pond/mat/cut")
    assert site.wholes == 0


def test_what_is_wrong_with_another_size_shows_once_it_is_known(site: Site) -> None:
    """The size that is looked at is right, but a size of the pattern is not what its designer states."""
    stated = SMALL + "stated:\n  runner: {finished: 1 x 1}\n"
    site.write("pond.yaml", stated)
    assert site.asked > 0, "the builder is to be called"
    site._builder()
    for page in ("pond", "pond/mat/cut", "pond/runner"):
        assert "/pond.yaml:" in site.get(page)
    assert site.wholes == 0


def test_a_process_that_is_killed_leaves_its_work_to_another(site: Site) -> None:
    site.crew.killed = True
    site.write("pond.yaml", SMALL.replace("Small Pond", "Smaller Pond"))
    assert "Smaller Pond" in site.get("pond/mat/cut")


def test_what_is_no_edit_of_a_pattern_or_page_is_left_to_mkdocs(site: Site) -> None:
    site.write(".pond.yaml.swp", "an editor's own")
    assert site.wholes == 0
    site.write("new.yaml", SMALL)
    assert site.wholes == 1


def test_changes_are_seen_where_someone_has_looked(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "x").write_text("1")
    (tmp_path / "b").write_text("1")
    roots = [str(tmp_path / "a"), str(tmp_path / "b")]
    watched = Watched()
    assert watched.changed(roots) is None
    assert watched.changed(roots) == set()
    (tmp_path / "a" / "x").write_text("12")
    (tmp_path / "a" / "y").write_text("1")
    (tmp_path / "b").unlink()
    assert watched.changed(roots) == {tmp_path / "a" / "x", tmp_path / "a" / "y", tmp_path / "b"}
