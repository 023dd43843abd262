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
            for item in old.iterdir():
                if item.name.startswith(".") and not os.path.lexists(folder / item.name):
                    item.rename(folder / item.name)
        else:
            fresh.rename(folder)
    finally:
        shutil.rmtree(scratch, ignore_errors=True)
