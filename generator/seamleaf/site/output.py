"""Files and folders that appear whole or not at all."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path


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


class LastSite:
    """The last good site, kept beside the folder into which MkDocs builds a new one, until that one is good."""

    def __init__(self, folder: Path) -> None:
        """Take the folder of the site and keep what is in it; the folder is then gone.

        A folder that cannot be moved, as where a disk is mounted, is left to MkDocs.
        """
        self._folder = folder.resolve()
        self._scratch: Path | None = None
        if not self._folder.is_dir() or not any(self._folder.iterdir()):
            return
        try:
            scratch = Path(tempfile.mkdtemp(prefix=f".{self._folder.name}-", dir=self._folder.parent))
        except OSError:
            return
        try:
            self._folder.rename(scratch / "last")
        except OSError:
            scratch.rmdir()
        else:
            self._scratch = scratch

    def give_back(self) -> None:
        """Put the last site back in the place of what was built since."""
        if self._scratch is not None:
            if self._folder.exists():
                self._folder.rename(self._scratch / "failed")
            (self._scratch / "last").rename(self._folder)
            self._forget()

    def let_go(self) -> None:
        """Forget the last site, but for its mode and names that begin with a dot: MkDocs leaves these as they are."""
        if self._scratch is not None:
            shutil.copymode(self._scratch / "last", self._folder)
            _keep_dotted(self._scratch / "last", self._folder)
            self._forget()

    def _forget(self) -> None:
        shutil.rmtree(self._scratch or "", ignore_errors=True)
        self._scratch = None


def is_replaceable(folder: Path) -> bool:
    """Tell whether a folder may be replaced by a new site: not there, empty, or holding a site already."""
    if not folder.exists():
        return True
    return folder.is_dir() and (not any(folder.iterdir()) or (folder / "sitemap.xml").is_file())


@contextlib.contextmanager
def replacing(folder: Path) -> Iterator[Path]:
    """Give a new empty folder beside ``folder``, and put it in its place when the block ends well.

    Names that begin with a dot move over from the old folder, as MkDocs leaves them alone when it cleans.
    """
    folder = folder.resolve()
    folder.parent.mkdir(parents=True, exist_ok=True)
    scratch = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    fresh, old = scratch / "new", scratch / "old"
    fresh.mkdir()  # not the scratch folder itself, which only its maker may read
    try:
        yield fresh
        if folder.exists():
            folder.rename(old)
            try:
                fresh.rename(folder)
            except OSError:
                old.rename(folder)
                raise
            _keep_dotted(old, folder)
        else:
            fresh.rename(folder)
    finally:
        shutil.rmtree(scratch, ignore_errors=True)


def _keep_dotted(old: Path, folder: Path) -> None:
    for item in old.iterdir():
        if item.name.startswith(".") and not os.path.lexists(folder / item.name):
            item.rename(folder / item.name)
