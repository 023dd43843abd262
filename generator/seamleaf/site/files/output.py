"""Files and folders that appear whole or not at all."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

from seamleaf.site.files.swapping import WAITING, Scratch, keep_dotted, take_place


def write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write every file below ``folder``; what was there under other names stays.

    All bytes are on disk before the first file takes its place, so a full disk or a forbidden folder changes nothing.

    Raises:
        OSError: something cannot be written.

    """
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=".seamleaf-", dir=folder) as scratch:
        for number, data in enumerate(files.values()):
            Path(scratch, str(number)).write_bytes(data)
        for name in files:
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            if target.is_dir():
                raise IsADirectoryError(21, "is a folder", str(target))
        for number, name in enumerate(files):
            Path(scratch, str(number)).replace(folder / name)


def write_one(path: Path, data: bytes) -> None:
    """Write one file, whole or not at all; what is no file, as a device, takes it as it comes.

    Raises:
        OSError: it cannot be written.

    """
    if path.exists() and not path.is_file():
        path.write_bytes(data)
    else:
        target = _place_of(path)  # a link stays one
        target.parent.stat()  # for it must be there
        write_all(target.parent, {target.name: data})


class LastSite:
    """The last good site, kept beside the folder into which MkDocs builds a new one, until that one is good."""

    def __init__(self, folder: Path) -> None:
        """Take the folder of the site and keep what is in it; the folder is then gone.

        A folder that cannot be moved, as where a disk is mounted, is left to MkDocs.
        """
        self._folder = _place_of(folder)
        self._scratch: Scratch | None = None
        is_new = self._folder.is_dir() and not any(self._folder.iterdir())  # ours: its parent is locked already
        if is_new or not self._folder.parent.is_dir():
            return
        try:
            scratch = Scratch(self._folder)  # first, since it brings back what a killed build has put aside
        except OSError:
            return
        try:
            if self._folder.is_dir():
                self._folder.rename(scratch.path / WAITING)
                self._scratch = scratch
        except OSError:
            pass  # stays where it is
        finally:
            if self._scratch is None:
                scratch.close()

    def give_back(self) -> None:
        """Put the last site back in the place of what was built since."""
        if self._scratch is not None:
            if self._folder.exists():
                self._folder.rename(self._scratch.path / "failed")
            (self._scratch.path / WAITING).rename(self._folder)
            self._forget()

    def let_go(self) -> None:
        """Forget the last site, but for its mode and names that begin with a dot: MkDocs leaves these as they are."""
        if self._scratch is not None:
            shutil.copymode(self._scratch.path / WAITING, self._folder)
            keep_dotted(self._scratch.path / WAITING, self._folder)
            self._forget()

    def _forget(self) -> None:
        if self._scratch is not None:
            self._scratch.close()
        self._scratch = None


def _place_of(path: Path) -> Path:
    """Return where links lead; one that leads round in a circle, which ``Path.resolve`` may not take, stays."""
    return Path(os.path.realpath(path))


def is_replaceable(folder: Path) -> bool:
    """Tell whether a folder may be replaced by a new site: not there, empty, or holding a site already."""
    if not folder.exists():
        return True
    return folder.is_dir() and (not any(folder.iterdir()) or (folder / "sitemap.xml").is_file())


@contextlib.contextmanager
def replacing(folder: Path) -> Iterator[Path]:
    """Give a new empty folder beside ``folder``, and put it in its place in one step when the block ends well.

    Names that begin with a dot move over from the old folder, as MkDocs leaves them alone when it cleans. A build that
    is killed leaves the old folder where it is, and the next one clears its scratch folder up.
    """
    folder = _place_of(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    scratch = Scratch(folder)
    fresh = scratch.path / "new"
    try:
        fresh.mkdir()  # not the scratch folder itself, which only its maker may read
        yield fresh
        take_place(fresh, folder, scratch.path / WAITING)
    finally:
        scratch.close()
