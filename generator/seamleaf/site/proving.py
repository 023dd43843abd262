"""The proof of what is published, as the site and the command line run it.

The proof itself is a program of its own, :mod:`seamleaf.proof`, that sees nothing but files.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path

from seamleaf.booklet import Booklet
from seamleaf.proof import Finding, Summary, prove
from seamleaf.publishing import booklet_files
from seamleaf.site.output import write_all
from seamleaf.site.sources import printable


def prove_folder(folder: Path, *, below: bool = False) -> tuple[list[str], list[str]]:
    """Prove everything that is published below a folder.

    Args:
        below: whether paths are told below the folder, and not with it.

    Returns:
        One line a finding, and one line a booklet with what was proved of it.

    """
    report = prove(folder)
    home = f"{folder.as_posix()}/" if below else ""
    return [_finding(each, home) for each in report.findings], [_summary(each, home) for each in report.booklets]


def prove_booklets(pattern_id: str, booklets: Mapping[str, Booklet]) -> list[str]:
    """Prove the booklets of one pattern before anything is published.

    Returns:
        One line a finding; its path is that below the site.

    """
    with tempfile.TemporaryDirectory(prefix="seamleaf-") as scratch:
        folder = Path(scratch).resolve()
        write_all(folder, booklet_files(pattern_id, booklets))
        return prove_folder(folder, below=True)[0]


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
