"""What a proof has seen before: an answer is kept for the very bytes that it was given of, and for no others.

A key is a digest of all that a check reads, so nothing is believed of a file that has changed by one byte. Only what
has no finding is kept; a fault is looked at each time.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path
from typing import Protocol


class Memory(Protocol):
    """Keeps answers for as long as the program that gave them is the same."""

    def recall(self, key: str) -> bytes | None:
        """Return what was kept under a key."""

    def keep(self, key: str, said: bytes) -> None:
        """Keep an answer."""


class NoMemory:
    """Looks at everything each time, as whoever does not trust a memory wants it."""

    def recall(self, key: str) -> bytes | None:
        """Return nothing."""

    def keep(self, key: str, said: bytes) -> None:
        """Keep nothing."""


def digest_of(what: str, paths: Iterable[Path], folder: Path) -> str:
    """Return a digest of files: what is asked of them, their paths below a folder, and every byte.

    Raises:
        OSError: one of them cannot be read.

    """
    digest = hashlib.sha256(what.encode())
    for path in paths:
        digest.update(b"\0" + path.relative_to(folder).as_posix().encode() + b"\0")
        digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()
