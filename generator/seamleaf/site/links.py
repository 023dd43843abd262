"""Links in the docs_dir: MkDocs follows them all, out of the site's folder and round in circles."""

from __future__ import annotations

import os
from pathlib import Path

from seamleaf.reading.marks import Mark
from seamleaf.reading.problems import Problem
from seamleaf.site.sources import printable

_INSIDE = "a file or a folder of the site itself"
_ONCE = "each folder once"


def link_problems(docs_dir: Path, home: Path) -> list[str]:
    """Return a line for each link that would publish what does not belong to the site, or the same folder again.

    Args:
        docs_dir: what MkDocs publishes; it may be a link itself.
        home: the folder of the configuration; links may lead to anything in it.

    """
    inside = (docs_dir.resolve(), home.resolve())
    known = {inside[0]}
    waiting = [docs_dir]
    found: list[tuple[str, str, str]] = []
    while waiting:
        for path in sorted(_entries(waiting.pop())):
            if not path.is_symlink():
                if path.is_dir():
                    known.add(path.resolve())
                    waiting.append(path)
                continue
            try:
                target = path.resolve(strict=True)
            except (OSError, RuntimeError):  # to nothing, or in a circle of links
                continue
            if not any(target.is_relative_to(folder) for folder in inside):
                found.append((os.path.relpath(path), "a link that leads out of the site", _INSIDE))
            elif target.is_dir():
                if target in known or any(folder.is_relative_to(target) for folder in known):
                    found.append((os.path.relpath(path), "a link to a folder that is published already", _ONCE))
                else:
                    known.add(target)
                    waiting.append(path)
    problem = [(path, Problem(where=Mark(1, 1), found=what, expected=right)) for path, what, right in sorted(found)]
    return [printable(each.sentence(path)) for path, each in problem]


def _entries(folder: Path) -> list[Path]:
    try:
        return list(folder.iterdir())
    except OSError:  # MkDocs will say so, or pass it over
        return []
