"""Serving: edits show, a broken pattern shows its problems, and the site comes back; every wait is bounded."""

from __future__ import annotations

import contextlib
import html
import os
import random
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from folders import files_below
from published import SMALL
from seamleaf.site.building import running as building
from seamleaf.site.commands.command import main

CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
theme: mkdocs
plugins: [{seamleaf: {templates: mine}}]
"""
"""A light theme and no search: what is served is the same, and an edit shows sooner."""
POND = SMALL.replace("  runner: {title: Runner, blocks: 2 x 9}\n", "")
BROKEN = POND.replace("reed 3 x 3", "reeds 3 x 3")
PATIENCE = 120.0
"""Seconds after which an edit must show, on the slowest machine."""


class Served:
    """A site that ``seamleaf serve`` serves in a process of its own."""

    def __init__(self, folder: Path, address: str) -> None:
        self.folder = folder
        self.address = address

    def get(self, path: str) -> str:
        """Return a page, or why all failed; an answer must come, and what is not there is empty."""
        try:
            with urllib.request.urlopen(f"{self.address}{path}", timeout=PATIENCE) as answer:  # noqa: S310 -- loopback only
                return html.unescape(answer.read().decode("utf-8"))
        except urllib.error.HTTPError as fault:
            return fault.read().decode("utf-8") if fault.code == 500 else ""
        except (urllib.error.URLError, ConnectionError):
            return ""

    def wait(self, path: str, holds: Callable[[str], bool]) -> str:
        """Ask for a page until it holds what is expected."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            page = self.get(path)
            if holds(page):
                return page
            time.sleep(0.2)
        pytest.fail(f"{path} did not come to hold what was expected within {PATIENCE} s", pytrace=False)

    def builds(self) -> int:
        """Return how often the whole site was built."""
        log = (self.folder.parent / "served.log").read_text(encoding="utf-8")
        return log.count("Building documentation")

    def write(self, name: str, text: str) -> None:
        """Edit a file of the site."""
        (self.folder / name).write_text(text, encoding="utf-8")


def free_port() -> int:
    """Return a port that nobody has, below those that systems give out, or another test might get it meanwhile."""
    for port in random.Random(os.getpid()).sample(range(20_000, 30_000), 50):
        with socket.socket() as probe, contextlib.suppress(OSError):
            probe.bind(("127.0.0.1", port))
            return port
    pytest.fail("found no port that is free")


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Serve a site of one good and one broken pattern.

    Several processes may share the tests of this file, each with a site of its own: any of them may come first.
    """
    folder = tmp_path_factory.mktemp("served")
    (folder / "patterns").mkdir()
    (folder / "mine" / "stages").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    (folder / "patterns" / "good.yaml").write_text(POND, encoding="utf-8")
    (folder / "patterns" / "bad.yaml").write_text(BROKEN, encoding="utf-8")
    port = free_port()
    with (folder.parent / "served.log").open("w") as log:
        process = subprocess.Popen(
            [sys.executable, "-m", "seamleaf.site", "serve", "--dev-addr", f"127.0.0.1:{port}"],
            cwd=folder, stdout=log, stderr=log, env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )  # fmt: skip
        try:
            site = Served(folder, f"http://127.0.0.1:{port}/")
            site.wait("", bool)
            yield site
        finally:
            process.send_signal(signal.SIGINT)
            try:
                process.wait(timeout=20)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait(timeout=20)
    assert "Traceback" not in (folder.parent / "served.log").read_text(encoding="utf-8")


def test_a_pattern_that_is_broken_from_the_start_shows_its_problem_and_the_other_its_pages(served: Served) -> None:
    page = served.get("bad/")
    assert "patterns/bad.yaml:10:9: found" in page
    assert "Small Pond" in served.get("good/mat/cut/")


def test_an_edit_shows_and_a_new_pattern_appears(served: Served) -> None:
    served.write("patterns/new.yaml", POND.replace("Small Pond", "Newest Pond"))
    served.write("patterns/good.yaml", POND.replace("title: Mat", "title: Bath mat"))
    served.wait("new/mat/", lambda page: "Newest Pond" in page)
    served.wait("good/mat/", lambda page: "Bath mat" in page)


def test_an_edit_of_a_pattern_shows_without_another_build(served: Served) -> None:
    """A title, which stands in the navigation of every page; what only the proof of the last size could tell; back."""
    before = served.builds()
    text = (served.folder / "patterns" / "good.yaml").read_text(encoding="utf-8")
    served.write("patterns/good.yaml", text.replace("Small Pond", "Quick Pond"))
    served.wait("good/mat/cut/", lambda page: "Quick Pond" in page)
    for page in ("", "good/", "bad/"):
        assert "Quick Pond" in served.get(page)
    served.write("patterns/good.yaml", text + "stated:\n  mat: {finished: 1 x 1}\n")
    served.wait("good/mat/cut/", lambda page: "patterns/good.yaml:" in page)
    served.write("patterns/good.yaml", text)
    served.wait("good/mat/cut/", lambda page: "Small Pond" in page)
    assert served.builds() == before


def test_a_configuration_with_a_fault_leaves_the_site_as_it_was(served: Served) -> None:
    served.write("mkdocs.yml", CONFIG.replace("theme: mkdocs", "theme: [mkdocs"))
    end = time.monotonic() + PATIENCE
    while "shown as it was" not in (served.folder.parent / "served.log").read_text(encoding="utf-8"):
        assert time.monotonic() < end
        time.sleep(0.2)
    assert "Small Pond" in served.get("good/mat/cut/")
    served.write("mkdocs.yml", CONFIG)


def test_patterns_that_break_show_their_problems_and_come_back(served: Served) -> None:
    """A name that is not there, bytes that are no text, and a file that is gone, each beside the others."""
    served.write("patterns/new.yaml", POND.replace("Small Pond", "Newest Pond"))
    served.wait("new/mat/", lambda page: "Newest Pond" in page)
    (served.folder / "patterns" / "new.yaml").unlink()
    (served.folder / "patterns" / "bad.yaml").write_bytes(b"\xff\xfe")
    served.write("patterns/good.yaml", POND.replace("reed 3 x 3", "reeds 3 x 3"))
    served.wait("good/", lambda page: "patterns/good.yaml:10:9: found" in page)
    assert "patterns/good.yaml:10:9: found" in served.get("good/mat/cut/"), "told on the page that is being read"
    served.wait("bad/", lambda page: "patterns/bad.yaml:1:1: found" in page)
    served.wait("new/mat/", lambda page: "Newest Pond" not in page)
    served.write("patterns/bad.yaml", BROKEN)
    served.write("patterns/good.yaml", POND)
    served.wait("good/mat/cut/", lambda page: "Small Pond" in page)
    served.wait("bad/", lambda page: "patterns/bad.yaml:10:9: found" in page)


def test_an_own_template_and_a_page_of_the_author_show_and_a_fault_does_too(served: Served) -> None:
    own = served.folder / "mine" / "stages" / "finish.md.jinja"
    served.write("patterns/note.md", "# A note\n\nFirst.\n")
    served.write("mine/stages/finish.md.jinja", "Tie a bow.\n")
    served.wait("good/mat/finish/", lambda page: "Tie a bow." in page)
    served.wait("note/", lambda page: "First." in page)
    served.write("mine/stages/finish.md.jinja", "{{ bow }}\n")
    served.wait("good/", lambda page: "finish.md.jinja:1:" in page and "bow" in page)
    own.unlink()
    (served.folder / "patterns" / "note.md").unlink()
    served.wait("good/mat/finish/", lambda page: "Sew on a label" in page)


def test_what_fails_the_whole_build_is_said_to_whoever_asks_until_it_is_mended(served: Served) -> None:
    """Nobody waits for an answer meanwhile; and what cannot be published at all is passed over."""
    (served.folder / "patterns" / "lost.md").symlink_to("nowhere")
    served.write("patterns/odd.md", "---\ntemplate: nowhere.html\n---\n")
    served.wait("good/mat/", lambda page: page.startswith("'nowhere.html' not found"))
    (served.folder / "patterns" / "odd.md").unlink()
    served.wait("good/mat/", lambda page: "At a glance" in page)
    (served.folder / "patterns" / "lost.md").unlink()


def test_own_words_with_a_fault_show_as_a_problem_everywhere_and_come_back(served: Served) -> None:
    own = served.folder / "mine" / "wording.yaml"
    for key in ("bye", "hullo"):  # when the second shows, the watcher has seen the file, and not only the build
        served.write("mine/wording.yaml", f"page: {{{key}: x}}\n")
        served.wait("good/", lambda page, key=key: f"page.{key}" in page)
    own.unlink()
    served.wait("good/mat/", lambda page: "page.hullo" not in page and "At a glance" in page)


def test_a_pdf_is_set_when_it_is_asked_for(served: Served) -> None:
    with urllib.request.urlopen(f"{served.address}good/mat/good-mat-a4.pdf", timeout=60) as answer:  # noqa: S310 -- loopback only
        assert answer.headers["Content-Type"] == "application/pdf"
        assert answer.read().startswith(b"%PDF-")
    assert served.get("good/mat/other.pdf") == ""


def test_serving_writes_nothing_beside_the_patterns(served: Served) -> None:
    assert served.get("good/mat/") != ""
    (served.folder / "patterns" / "new.yaml").unlink(missing_ok=True)  # of a test before this one, if any was here
    written = [name for name in sorted(files_below(served.folder)) if not name.startswith(".cache/")]
    assert written == ["mkdocs.yml", "patterns/bad.yaml", "patterns/good.yaml"]


def test_an_address_in_use_is_told_of_before_anything_is_built(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "patterns").mkdir()
    (tmp_path / "mine").mkdir()
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(building, "serve", lambda **_: pytest.fail("the site is built"))
    with socket.create_server(("127.0.0.1", 0)) as taken:
        assert main(["serve", "--dev-addr", f"127.0.0.1:{taken.getsockname()[1]}"]) == 1
    told = capsys.readouterr().err
    assert "cannot serve: Address already in use" in told
    assert "--dev-addr" in told
    assert main(["serve", "--dev-addr", "127.0.0.1:65536"]) == 1
    assert "expected 0 to 65535" in capsys.readouterr().err
