"""Problems as they are told: a line each, the place shown with a caret, or one JSON document for an editor."""

from __future__ import annotations

import json
import sys
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.reading.problems import Problem
from seamleaf.site.files.sources import printable

FINE: Final = 0
PROBLEMS: Final = 1
WRONG_USE: Final = 2
OWN_FAULT: Final = 70
INTERRUPTED: Final = 130

FORMAT: Final = "seamleaf-problems/1"
_BEFORE, _AFTER = 60, 40
"""Characters of a long line that are shown before and behind the place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What came of checking one file."""

    file: str
    sizes: tuple[str, ...] = ()
    """The sizes that could be planned; none where there is a problem."""
    unused: tuple[str, ...] = ()
    """Fabrics that no size uses: no fault, but perhaps forgotten."""
    problems: tuple[Problem, ...] = ()
    text: bytes = b""


def shown_lines(told: Told) -> list[str]:
    """Write each problem with the line of the file under it, and a caret under the place; both are indented."""
    rows = _rows(told.text)
    lines = []
    for problem in told.problems:
        lines.append(printable(problem.sentence(told.file)))
        lines += _pointed(rows, problem.where.line, problem.where.column)
    return lines


def as_json(checked: Sequence[Told]) -> str:
    """Write everything as one JSON document; lines and columns count from 1, a column is one character."""
    problems: list[Mapping[str, object]] = [
        {
            "file": told.file,
            "line": problem.where.line,
            "column": problem.where.column,
            "found": problem.found,
            "expected": problem.expected,
            "hint": problem.hint or None,
        }
        for told in checked
        for problem in told.problems
    ]
    files = [{"file": told.file, "sizes": list(told.sizes), "problems": len(told.problems)} for told in checked]
    return json.dumps({"format": FORMAT, "files": files, "problems": problems}, indent=2)


def _rows(text: bytes) -> list[str]:
    """Return the lines of a file as reading counts them."""
    decoded = text.decode("utf-8", errors="surrogateescape").removeprefix("\ufeff")
    return decoded.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _pointed(rows: Sequence[str], line: int, column: int) -> list[str]:
    """Return a line of the file and the caret, or nothing where the file has no such line."""
    if line > len(rows) or not rows[line - 1].strip():
        return []
    row, at = rows[line - 1], column - 1
    first, last = max(0, at - _BEFORE), at + _AFTER
    before = ("…" if first else "") + printable(row[first:at])
    after = printable(row[at:last]) + ("…" if last < len(row) else "")
    gutter = f"    {line} | "
    return [f"{gutter}{before}{after}", f"{' ' * (len(gutter) - 2)}| {' ' * _columns(before)}^"]


def _columns(text: str) -> int:
    """Count the columns that a terminal takes for a text: wide characters take two, accents set over others none."""
    return sum(
        0 if unicodedata.combining(mark) else 2 if unicodedata.east_asian_width(mark) in "WF" else 1 for mark in text
    )


def refuse(reason: object) -> int:
    """Say why something is not done, and return the exit status for it."""
    say(str(reason))
    return PROBLEMS


def say(message: str) -> None:
    """Say something in this program's name on standard error."""
    sys.stderr.write(f"seamleaf: {printable(message)}\n")
