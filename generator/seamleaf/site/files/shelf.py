"""What was worked out before, kept on disk under the digest of all that it follows from."""

from __future__ import annotations

import contextlib
import functools
import hashlib
import os
import sys
import tempfile
import time
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path
from typing import Final

import seamleaf

ROOM: Final = 256 * 1024 * 1024
"""Bytes that a shelf may hold; what has not been asked for longest goes first."""
SPARED: Final = 3600.0
"""Seconds for which nothing goes, however little room there is: a build, or another one, may be about to use it."""
_USED: Final = ("highspy", "numpy", "pypdfium2")
"""Programs whose answers are kept: the solvers, and what reads PDF files for the proof."""
_SEAL: Final = 64
"""Hexadecimal digits before the content of a file: its SHA-256, so that a damaged file is never believed."""


class Shelf:
    """A folder of results; it may be deleted at any time, and several builds may use it at once."""

    def __init__(self, folder: Path, tell: Callable[[str], None]) -> None:
        """Open a shelf; ``tell`` hears of files that cannot be believed and of a folder that cannot be used."""
        self.folder = folder
        self._tell = tell
        self._told = False

    def take(self, key: str) -> bytes | None:
        """Return what lies under a key, or ``None``; what is damaged is told of, thrown away and counts as missing."""
        path = self.folder / key
        try:
            sealed = path.read_bytes()
        except FileNotFoundError:
            return None
        except OSError as fault:
            self._cannot("read", fault)
            return None
        seal, content = sealed[:_SEAL], sealed[_SEAL:]
        if seal != _sealed(content):
            self._tell(f"{path}: damaged; it is worked out again")
            with contextlib.suppress(OSError):
                path.unlink()
            return None
        with contextlib.suppress(OSError):
            os.utime(path)  # asked for just now
        return content

    def put(self, key: str, content: bytes) -> None:
        """Keep a result; a reader sees it whole or not at all. A full disk is told of and does no harm."""
        self._write(key, _sealed(content) + content)

    def lay(self, content: bytes) -> Path | None:
        """Keep a file under the digest of its bytes and return where it lies; ``None`` where it cannot be kept."""
        path = self.folder / hashlib.sha256(content).hexdigest()
        with contextlib.suppress(OSError):  # what cannot be looked for is written, or told of
            if path.exists():
                return path
        return path if self._write(path.name, content) else None

    def find(self, digest: str) -> bytes | None:
        """Return the bytes of a file that was laid down, if they are still those."""
        path = self.folder / digest
        with contextlib.suppress(OSError):
            content = path.read_bytes()
            if hashlib.sha256(content).hexdigest() == digest:
                os.utime(path)
                return content
            path.unlink()
        return None

    def tidy(self, room: int = ROOM, spared: float = SPARED) -> None:
        """Throw away what has not been asked for longest, until the rest has room; not what was just asked for."""
        with contextlib.suppress(OSError):
            found = [(path.stat(), path) for path in self.folder.iterdir()]
            left = sum(stat.st_size for stat, _ in found) - room
            for stat, path in sorted(found, key=lambda each: (each[0].st_mtime_ns, each[1].name)):
                if left <= 0 or stat.st_mtime > time.time() - spared:
                    break
                path.unlink(missing_ok=True)
                left -= stat.st_size

    def _write(self, name: str, content: bytes) -> bool:
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            with tempfile.NamedTemporaryFile(dir=self.folder, prefix=".", delete=False) as file:
                try:
                    file.write(content)
                    file.close()
                    Path(file.name).replace(self.folder / name)
                except OSError:
                    Path(file.name).unlink(missing_ok=True)
                    raise
        except OSError as fault:
            self._cannot("write", fault)
            return False
        return True

    def _cannot(self, verb: str, fault: OSError) -> None:
        if not self._told:
            self._tell(f"{self.folder}: cannot {verb} what was worked out before: {fault.strerror or fault}")
            self._told = True


def shelf_folder(config_file: str | None, docs_dir: str) -> Path:
    """Return where a site keeps what was worked out: beside its configuration, or beside its pages without one."""
    return Path(config_file or docs_dir).parent / ".cache" / "seamleaf"


def key_for(*inputs: bytes) -> str:
    """Return the name of what follows from some inputs and from this version of the program."""
    return key_of(program_digest(), *inputs)


def key_of(*inputs: bytes) -> str:
    """Return the name of what follows from some inputs alone."""
    digest = hashlib.sha256()
    for each in inputs:
        digest.update(len(each).to_bytes(8, "big") + each)
    return digest.hexdigest()


@functools.cache
def program_digest() -> bytes:
    """Return a digest of the program: its own modules, the programs whose answers it keeps, and Python."""
    digest = hashlib.sha256()
    home = Path(seamleaf.__file__).parent
    for path in sorted(home.rglob("*.py")):
        digest.update(path.relative_to(home).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    used = [sys.implementation.cache_tag or "", *(f"{name} {version(name)}" for name in _USED)]
    digest.update("\0".join(used).encode())
    return digest.digest()


def _sealed(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()
