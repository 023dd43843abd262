"""What of the docs_dir cannot be published: MkDocs follows every link, waits for pipes, and stops at other things."""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import Final

from mkdocs.utils import is_markdown_file

from seamleaf.reading.marks import Mark
from seamleaf.reading.problems import Problem
from seamleaf.site.files.sources import is_pattern_name, printable

_START: Final = Mark(1, 1)


def unfit_entries(docs_dir: Path, home: Path) -> dict[Path, str]:
    """Return what cannot be published, by name, each with a line that says why.

    Patterns are left to those who read them. Names that begin with a dot are not published, but links among them are
    followed, and looked at like all others.

    Args:
        docs_dir: what MkDocs publishes; it may be a link itself.
        home: the folder of the configuration; links may lead to anything in it.

    """
    inside = (docs_dir.resolve(), home.resolve())
    known = {inside[0]}
    waiting = [docs_dir]
    found: dict[Path, Problem] = {}
    while waiting:
        folder = waiting.pop()
        for path in sorted(_entries(folder)):
            problem = _link_problem(path, inside, known) if path.is_symlink() else None
            if problem is None and not path.name.startswith("."):
                problem = _problem(path, is_pattern=folder == docs_dir and is_pattern_name(path.name))
            if problem is not None:
                found[path] = problem
            elif path.is_dir():
                known.add(path.resolve())
                waiting.append(path)
    return {path: printable(found[path].sentence(os.path.relpath(path))) for path in sorted(found)}


def _link_problem(path: Path, inside: tuple[Path, Path], known: set[Path]) -> Problem | None:
    """Say whether a link would publish what does not belong to the site, or the same folder again."""
    try:
        target = path.resolve(strict=True)
    except (OSError, RuntimeError):  # to nothing, or in a circle of links
        return None
    if not any(target.is_relative_to(folder) for folder in inside):
        return _found("a link that leads out of the site", "a file or a folder of the site itself")
    if target.is_dir() and (target in known or any(folder.is_relative_to(target) for folder in known)):
        return _found("a link to a folder that is published already", "each folder once")
    return None


def _problem(path: Path, *, is_pattern: bool) -> Problem | None:
    try:
        path.name.encode()
    except UnicodeEncodeError:
        return _found(f"the name {path.name!r}, which is not in UTF-8", "a name in UTF-8")
    if is_pattern:
        return None
    try:
        mode = path.stat().st_mode
        if stat.S_ISREG(mode) and is_markdown_file(path.name):
            path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        before = fault.object[: fault.start].decode("utf-8-sig").split("\n")
        return Problem(Mark(len(before), len(before[-1]) + 1), "what is not in UTF-8", "a page in UTF-8")
    except FileNotFoundError:
        return _found("a link that leads nowhere", "a file or a folder")
    except OSError as fault:
        return _found(f"what cannot be read: {fault.strerror or fault}", "a file or a folder")
    if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):
        return _found("a pipe, a socket or a device", "a file or a folder")
    return None


def _found(what: str, expected: str) -> Problem:
    return Problem(where=_START, found=what, expected=expected)


def _entries(folder: Path) -> list[Path]:
    try:
        return list(folder.iterdir())
    except OSError:  # MkDocs will say so, or pass it over
        return []
