"""Folders that change places in one step, and what a killed build left beside them.

A build works in a scratch folder beside the site and holds a lock on it for as long as it lives, so the next build can
tell a scratch folder that is in use from one whose build was killed.
"""

from __future__ import annotations

import contextlib
import ctypes
import errno
import os
import shutil
import stat
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Final

try:
    import fcntl
except ImportError:  # not on Windows: no locks, and nothing is cleared up
    fcntl = None  # type: ignore[assignment]  # the name says whether there are locks

WAITING: Final = "last"
"""Name in a scratch folder of a site that has been moved out of its place and must come back if nothing follows."""
_EXCHANGE: Final = 2  # RENAME_EXCHANGE of renameat2(2)
_HERE: Final = -100  # AT_FDCWD, as above


class Scratch:
    """A folder beside another one, for as long as something is built; gone when closed."""

    def __init__(self, beside: Path) -> None:
        """Make it, after clearing up what killed builds have left there.

        Raises:
            OSError: it cannot be made.

        """
        self._beside = beside
        with _locked(beside.parent):
            _clear_up(beside)
            self.path = Path(tempfile.mkdtemp(prefix=_prefix(beside), dir=beside.parent))
            self._lock = _lock(self.path)

    def close(self) -> None:
        """Throw the folder away with all that is in it."""
        shutil.rmtree(self.path, ignore_errors=True)
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None


def take_place(fresh: Path, folder: Path, waiting: Path) -> None:
    """Put a folder in the place of another, in one step where the system can do it.

    Names that begin with a dot move over from the old one before any other build may take the place in turn.

    Args:
        fresh: what comes; the old one, if there was any, lies here afterwards.
        folder: the place; there may be nothing yet.
        waiting: where the old one lies instead, where two steps are needed.

    Raises:
        OSError: it cannot be done; the old one is in its place.

    """
    with _locked(folder.parent):
        if not folder.exists():
            fresh.rename(folder)
        elif exchange(fresh, folder):
            _keep_dotted(fresh, folder)
        else:
            folder.rename(waiting)
            try:
                fresh.rename(folder)
            except OSError:
                waiting.rename(folder)
                raise
            _keep_dotted(waiting, folder)


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change their names in one step; return ``False`` where the system has no such step."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):  # another C library
        return False
    if call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in (errno.EINVAL, errno.ENOSYS, errno.ENOTSUP):  # a file system without it
        return False
    raise OSError(number, os.strerror(number), str(other))


def keep_dotted(old: Path, folder: Path) -> None:
    """Move names that begin with a dot over from an old folder; what has such a name already stays."""
    with _locked(folder.parent):  # or they go into a site that another build has just put aside, and with it
        _keep_dotted(old, folder)


def _keep_dotted(old: Path, folder: Path) -> None:
    for item in old.iterdir():
        if item.name.startswith(".") and not os.path.lexists(folder / item.name):
            item.rename(folder / item.name)


def _prefix(beside: Path) -> str:
    return f".{beside.name}-"


def _clear_up(beside: Path) -> None:
    """Bring back and throw away what builds that were killed have left: theirs are the scratch folders nobody holds."""
    for path in sorted(beside.parent.glob(f"{_prefix(beside)}????????")):
        lock = _lock(path) if path.is_dir() and not path.is_symlink() else None
        if lock is None:
            continue
        with contextlib.suppress(OSError):
            if _is_scratch(path):
                _bring_back(path, beside)
                shutil.rmtree(path)
        os.close(lock)


def _is_scratch(path: Path) -> bool:
    """Tell whether a folder is one of ours: only its owner may read it, and in it are the folders of a build alone."""
    names = {item.name for item in path.iterdir() if not item.name.startswith(_prefix(Path("new")))}
    return stat.S_IMODE(path.stat().st_mode) == 0o700 and names <= {"new", WAITING, "failed"}


def _bring_back(path: Path, folder: Path) -> None:
    waiting = path / WAITING
    if waiting.is_dir() and not folder.exists():
        waiting.rename(folder)
    for item in path.iterdir():
        if folder.is_dir():
            _keep_dotted(item, folder)


def _lock(folder: Path) -> int | None:
    """Lock a folder and return what holds the lock, or ``None`` where another holds it or there are no locks."""
    if fcntl is None:
        return None
    try:
        descriptor = os.open(folder, os.O_RDONLY)
    except OSError:
        return None
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(descriptor)
        return None
    return descriptor


@contextlib.contextmanager
def _locked(folder: Path) -> Iterator[None]:
    """Let one build at a time make, swap or clear up folders here; where there are no locks, go on without."""
    try:
        descriptor = os.open(folder, os.O_RDONLY)
    except OSError:  # as on Windows, or where the folder is not there, which whoever comes next will say
        yield
        return
    try:
        with contextlib.suppress(OSError):
            if fcntl is not None:
                fcntl.flock(descriptor, fcntl.LOCK_EX)
        yield
    finally:
        os.close(descriptor)
