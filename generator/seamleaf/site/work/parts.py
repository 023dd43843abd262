"""Builds shared between machines that never meet: each works a part of the patterns out, one joins the parts.

A part holds what a build finds on its shelf, so the site that is built from all of them has the bytes that a single
machine gives it.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from seamleaf.site.files.shelf import program_digest

SHELF: Final = "shelf"
_NOTE: Final = "part.json"
_KEY: Final = re.compile(r"[0-9a-f]{64}")


class PartError(Exception):
    """Parts that do not join; the message says why."""


@dataclass(frozen=True, slots=True)
class Shard:
    """One part of several, counted from 1."""

    number: int
    of: int

    @classmethod
    def read(cls, text: str) -> Shard:
        """Read a part as it is written: ``3/16``.

        Raises:
            ValueError: it is no such part.

        """
        found = re.fullmatch(r"([1-9]\d{0,4})/([1-9]\d{0,4})", text)
        if found is None or int(found[1]) > int(found[2]):
            raise ValueError(f"found {text!r}, expected a part of several, as in 3/16")
        return cls(int(found[1]), int(found[2]))

    def of_all(self, patterns: Sequence[Path]) -> list[Path]:
        """Return the patterns of this part; neighbours go to different parts, so that all take about as long."""
        return list(patterns[self.number - 1 :: self.of])


def note_part(folder: Path, shard: Shard) -> None:
    """Write down beside its shelf which part a folder holds."""
    note = {"part": shard.number, "of": shard.of, "program": program_digest().hex()}
    (folder / _NOTE).write_text(json.dumps(note) + "\n", encoding="utf-8")


def join_parts(folders: Sequence[Path], shelf: Path) -> int:
    """Put all parts on one shelf.

    Returns:
        How many results they hold.

    Raises:
        PartError: a folder is no part, a part is missing or there twice, or another program made one.
        OSError: something cannot be read or written.

    """
    seen: dict[int, Path] = {}
    of = set()
    for folder in folders:
        number, count, program = _read(folder)
        if program != program_digest().hex():
            raise PartError(f"{folder}: made by another version of seamleaf, of its solvers or of Python")
        if number in seen:
            raise PartError(f"{folder}: part {number} again, as {seen[number]}")
        seen[number] = folder
        of.add(count)
    if len(of) != 1:
        raise PartError(f"parts of different builds: of {', '.join(map(str, sorted(of)))}")
    missing = sorted(set(range(1, of.pop() + 1)) - seen.keys())
    if missing:
        raise PartError(f"missing: part {', '.join(map(str, missing))}")
    shelf.mkdir(parents=True, exist_ok=True)
    found = [each for folder in folders for each in (folder / SHELF).glob("*") if _KEY.fullmatch(each.name)]
    for each in found:
        if not (shelf / each.name).exists():
            shutil.copyfile(each, shelf / f".{each.name}")
            (shelf / f".{each.name}").replace(shelf / each.name)
    return len(found)


def _read(folder: Path) -> tuple[int, int, str]:
    try:
        note = json.loads((folder / _NOTE).read_text(encoding="utf-8"))
        return int(note["part"]), int(note["of"]), str(note["program"])
    except (OSError, ValueError, KeyError, TypeError) as fault:
        raise PartError(f"{folder}: holds no part of a build") from fault
