"""Folders that appear whole or not at all, and the last good site that waits beside a new one."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from folders import files_below
from seamleaf.site.files.output import LastSite, is_replaceable, replacing, write_one


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


def last_site(tmp_path: Path) -> Path:
    """Make a site with a name that begins with a dot."""
    (tmp_path / "site" / ".git").mkdir(parents=True)
    (tmp_path / "site" / ".git" / "HEAD").write_text("ref", encoding="utf-8")
    (tmp_path / "site" / "a").write_text("old", encoding="utf-8")
    return tmp_path / "site"


@pytest.mark.parametrize("begun", [True, False])
def test_the_last_site_comes_back_whether_a_new_one_was_begun_or_not(tmp_path: Path, begun: bool) -> None:
    folder = last_site(tmp_path)
    last = LastSite(folder)
    assert not folder.exists()
    if begun:
        folder.mkdir()
        (folder / "a").write_text("half", encoding="utf-8")
    last.give_back()
    assert files_below(tmp_path) == {"site/.git/HEAD": b"ref", "site/a": b"old"}
    assert list(tmp_path.iterdir()) == [folder]


def test_the_last_site_goes_but_for_names_with_a_dot(tmp_path: Path) -> None:
    folder = last_site(tmp_path)
    last = LastSite(folder)
    folder.mkdir()
    (folder / "b").write_text("new", encoding="utf-8")
    last.let_go()
    assert files_below(tmp_path) == {"site/.git/HEAD": b"ref", "site/b": b"new"}
    assert list(tmp_path.iterdir()) == [folder]


def test_a_linked_folder_stays_a_link(tmp_path: Path) -> None:
    """The site may lie elsewhere; its link is the author's."""
    folder = last_site(tmp_path / "elsewhere")
    (tmp_path / "site").symlink_to(folder)
    last = LastSite(tmp_path / "site")
    folder.mkdir()
    last.let_go()
    assert (tmp_path / "site").is_symlink()
    assert files_below(folder) == {".git/HEAD": b"ref"}


def test_a_link_round_in_a_circle_is_no_place_for_a_site(tmp_path: Path) -> None:
    (tmp_path / "site").symlink_to("site")
    LastSite(tmp_path / "site").give_back()
    with pytest.raises(OSError), replacing(tmp_path / "site"):  # noqa: PT011 -- worded by the system
        pass
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("method", ["give_back", "let_go"])
def test_where_there_is_nothing_to_keep_nothing_happens(tmp_path: Path, method: str) -> None:
    (tmp_path / "empty").mkdir()
    for name in ("missing", "empty"):
        getattr(LastSite(tmp_path / name), method)()
    assert [path.name for path in tmp_path.iterdir()] == ["empty"]


def test_a_folder_that_cannot_be_moved_is_left_where_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As where a disk is mounted: MkDocs then cleans it as it always does."""
    folder = last_site(tmp_path)

    def refuse(self: Path, target: Path) -> Path:
        raise OSError(16, "busy", str(self), None, str(target))

    monkeypatch.setattr(Path, "rename", refuse)
    last = LastSite(folder)
    assert files_below(tmp_path) == {"site/.git/HEAD": b"ref", "site/a": b"old"}
    last.give_back()
    last.let_go()
    assert list(tmp_path.iterdir()) == [folder]


def test_one_file_is_written_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A link stays one; with no room for the new file, the old one is still there."""
    (tmp_path / "real").write_bytes(b"old")
    (tmp_path / "link").symlink_to("real")
    write_one(tmp_path / "link", b"new")
    assert ((tmp_path / "real").read_bytes(), (tmp_path / "link").is_symlink()) == (b"new", True)

    def full(*_: object) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space"):
        write_one(tmp_path / "real", b"newer")
    assert (tmp_path / "real").read_bytes() == b"new"
    assert {path.name for path in tmp_path.iterdir()} == {"real", "link"}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
def test_what_is_no_file_takes_the_bytes_as_they_come(tmp_path: Path) -> None:
    """``--out /dev/stdout`` puts no file in the place of a device."""
    os.mkfifo(tmp_path / "pipe")
    reader = os.open(tmp_path / "pipe", os.O_RDWR)  # both ends, so that nobody waits
    write_one(tmp_path / "pipe", b"anything")
    assert os.read(reader, 100) == b"anything"
    os.close(reader)
    assert (tmp_path / "pipe").is_fifo()
