"""Folders of files as plain values, for tests that compare or replace whole outputs."""

from __future__ import annotations

import shutil
from pathlib import Path


def files_below(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder by its path there; nothing for a folder that does not exist."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def replace_folder(folder: Path, files: dict[str, bytes]) -> None:
    """Make a folder hold these files and nothing else."""
    shutil.rmtree(folder, ignore_errors=True)
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
