"""The proof of what is published, as the site and the command line run it.

The proof itself is a program of its own, :mod:`seamleaf.proof`, that sees nothing but files.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from seamleaf.proof import Finding, Memory, ProofReport, Summary, prove
from seamleaf.site.files.output import write_all
from seamleaf.site.files.shelf import Shelf, key_for
from seamleaf.site.files.sources import printable
from seamleaf.site.work.workers import WORTH_A_POOL, stand_ready, worker_pool

if TYPE_CHECKING:
    from seamleaf.booklet import Booklet

_KIND: Final = b"proof"


@dataclass(frozen=True, slots=True)
class KeptProofs:
    """What the proof saw to hold, on a shelf under a digest of the bytes and of the program; any process may ask."""

    folder: Path

    def recall(self, key: str) -> bytes | None:
        """Return what was kept under a key."""
        return self._shelf.take(key_for(_KIND, key.encode()))

    def keep(self, key: str, said: bytes) -> None:
        """Keep an answer."""
        self._shelf.put(key_for(_KIND, key.encode()), said)

    @property
    def _shelf(self) -> Shelf:
        return Shelf(self.folder, lambda _: None)  # who builds has told already of a shelf that cannot be used


def prove_folder(
    folder: Path, *, below: bool = False, processes: int = 1, memory: Memory | None = None
) -> tuple[list[str], list[str]]:
    """Prove everything that is published below a folder.

    Args:
        folder: a built site, or what holds booklets.
        below: whether paths are told below the folder, and not with it.
        processes: how many may run at once.
        memory: what was seen to hold before of the very same bytes.

    Returns:
        One line a finding, and one line a booklet with what was proved of it.

    """
    report = _prove(folder, processes, memory)
    home = f"{folder.as_posix()}/" if below else ""
    return [_finding(each, home) for each in report.findings], [_summary(each, home) for each in report.booklets]


def prove_booklets(pattern_id: str, booklets: Mapping[str, Booklet], memory: Memory | None = None) -> list[str]:
    """Prove the booklets of one pattern before anything is published.

    Returns:
        One line a finding; its path is that below the site.

    """
    from seamleaf.publishing import booklet_files  # late: a site is proved without

    with tempfile.TemporaryDirectory(prefix="seamleaf-") as scratch:
        folder = Path(scratch).resolve()
        write_all(folder, booklet_files(pattern_id, booklets))
        return prove_folder(folder, below=True, memory=memory)[0]


def _prove(folder: Path, processes: int, memory: Memory | None) -> ProofReport:
    worth = WORTH_A_POOL if stand_ready() else 2 * WORTH_A_POOL
    if processes == 1 or sum(1 for _ in folder.rglob("booklet.json")) < worth:
        return prove(folder, memory=memory)
    try:
        with worker_pool(processes) as pool:
            return prove(folder, pool.map, memory)
    except BrokenProcessPool:
        return prove(folder, memory=memory)


def _finding(finding: Finding, home: str) -> str:
    return printable(str(finding).removeprefix(home))


def _summary(booklet: Summary, home: str) -> str:
    parts = [
        _counted(booklet.sheets, "sheet"),
        _counted(booklet.patches, "patch", "patches"),
        _counted(booklet.blocks, "block"),
        _counted(booklet.match_points, "match point"),
    ]
    return printable(f"{booklet.path.removeprefix(home)}: {', '.join(parts)}: all fit")


def _counted(count: int, one: str, several: str = "") -> str:
    return f"{count} {one if count == 1 else several or one + 's'}"
