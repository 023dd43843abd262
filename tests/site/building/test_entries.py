"""What lies in the folder that is published: links to what belongs to the site, each folder once, and files alone."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from seamleaf.site.building.entries import unfit_entries
from seamleaf.site.building.plugin import SeamleafPlugin


@pytest.fixture
def docs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Lay out a site with a folder of pictures beside what is published, and a secret outside."""
    for folder in ("site/patterns/more", "site/pictures", "outside"):
        (tmp_path / folder).mkdir(parents=True)
    (tmp_path / "outside" / "secret.md").write_text("secret", encoding="utf-8")
    (tmp_path / "site" / "notes.md").write_text("notes", encoding="utf-8")
    monkeypatch.chdir(tmp_path / "site")
    return tmp_path / "site" / "patterns"


def problems(docs: Path) -> list[str]:
    return list(unfit_entries(docs, docs.parent).values())


def test_links_within_the_site_are_followed(docs: Path) -> None:
    (docs / "pictures").symlink_to("../pictures")
    (docs / "more" / "notes.md").symlink_to(docs.parent / "notes.md")
    (docs / "gone.yaml").symlink_to("nowhere")  # told of when it is read
    assert problems(docs) == []


@pytest.mark.parametrize("target", ["../../outside/secret.md", "../../outside", "/", "/dev/null"])
def test_a_link_out_of_the_site_is_refused(docs: Path, target: str) -> None:
    (docs / "more" / "page.md").symlink_to(target if target.startswith("/") else f"../{target}")
    what, right = "a link that leads out of the site", "a file or a folder of the site itself"
    assert problems(docs) == [f"patterns/more/page.md:1:1: found {what}, expected {right}"]


def test_a_folder_is_published_once(docs: Path) -> None:
    """MkDocs would walk round in the first two until the system stops it, and double the third at every level."""
    (docs / "self").symlink_to(".")
    (docs / "up").symlink_to("..")
    (docs / "one").symlink_to("../pictures")
    (docs / "two").symlink_to("../pictures")
    expected = ": found a link to a folder that is published already, expected each folder once"
    assert problems(docs) == [f"patterns/{name}:1:1{expected}" for name in ("self", "two", "up")]


def test_links_that_lead_to_each_other_end(docs: Path) -> None:
    (docs / "more" / "pictures").symlink_to("../../pictures")
    (docs.parent / "pictures" / "more").symlink_to("../patterns/more")
    assert len(problems(docs)) == 1


def test_a_site_may_lie_behind_a_link(docs: Path, tmp_path: Path) -> None:
    (tmp_path / "entry").symlink_to(docs)
    assert unfit_entries(tmp_path / "entry", docs.parent) == {}


def test_a_build_stops_before_anything_is_followed(docs: Path) -> None:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.exceptions import PluginError

    (docs / "page.md").symlink_to("../../outside/secret.md")
    config = MkDocsConfig(config_file_path=str(docs.parent / "mkdocs.yml"))
    config.docs_dir = str(docs)
    plugin = SeamleafPlugin()
    plugin.load_config({})
    with pytest.raises(PluginError, match=r"patterns/page\.md:1:1: found a link that leads out"):
        plugin.on_config(config)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
def test_what_is_no_file_is_refused_before_anyone_waits_for_it(docs: Path) -> None:
    os.mkfifo(docs / "more" / "pipe.md")
    os.mkfifo(docs / "pattern.yaml")  # told of when it is read
    os.mkfifo(docs / ".hidden")
    (docs / "lost.png").symlink_to("nowhere")
    (docs / ".#index.md").symlink_to("someone@somewhere.1")  # an editor's lock
    assert problems(docs) == [
        "patterns/lost.png:1:1: found a link that leads nowhere, expected a file or a folder",
        "patterns/more/pipe.md:1:1: found a pipe, a socket or a device, expected a file or a folder",
    ]


@pytest.mark.skipif(sys.platform != "linux", reason="names of files are text here")
def test_names_and_pages_are_in_utf_8(docs: Path) -> None:
    (docs / "page.md").write_bytes(b"\xef\xbb\xbf# Title\n\nSeams of \xbd inch\n")
    (docs / os.fsdecode(b"b\xfcro.png")).write_bytes(b"")
    assert problems(docs) == [
        "patterns/b\\udcfcro.png:1:1: found the name 'b\\udcfcro.png', which is not in UTF-8, expected a name in UTF-8",
        "patterns/page.md:3:10: found what is not in UTF-8, expected a page in UTF-8",
    ]
