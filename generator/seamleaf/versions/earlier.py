"""Published versions on disk: the booklets of each pattern below a folder, as plain JSON."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from seamleaf.versions.form import faults_of

BOOKLET: Final = "booklet.json"
FORMAT: Final = "seamleaf-booklet/1"
_CITED: Final = re.compile(r"""data-from=["']([^"'#]+)["']""")


class EditionError(Exception):
    """What was published and cannot be read as a version; one line a fault: ``PATH:POINTER: message``."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """All sizes of one pattern, as one version of it was published."""

    pattern: str
    version: str
    booklets: Mapping[str, Any]
    """JSON value of each size's booklet."""
    paths: Mapping[str, str]
    """Where each was found, for messages."""
    cited: Mapping[str, Mapping[str, frozenset[str]]]
    """By size and page (its folder below the size's), the pointers of the numbers on it; empty without pages."""


def editions_below(folder: Path) -> dict[str, Edition]:
    """Return the one version of each pattern that a folder holds: a built site, or what ``booklet`` wrote.

    Raises:
        EditionError: no booklet at all, files that are none, or several versions of one pattern.

    """
    documents: dict[str, dict[str, tuple[str, Any]]] = {}
    cited: dict[str, dict[str, dict[str, frozenset[str]]]] = {}
    faults: list[str] = []
    paths = [folder] if folder.is_file() else sorted(path for path in folder.rglob(BOOKLET) if path.is_file())
    if not paths:
        faults.append(f"{folder.as_posix()}: no {BOOKLET} here or in any folder below")
    for path in paths:
        try:
            document = json.loads(path.read_bytes())
            pattern, size = document["pattern"]["id"], document["size"]["id"]
            if document["format"] != FORMAT or not isinstance(document["pattern"]["version"], str):
                raise TypeError
            if not (isinstance(pattern, str) and isinstance(size, str)):
                raise TypeError
        except OSError as fault:
            faults.append(f"{path.as_posix()}: cannot be read: {fault.strerror or fault}")
        except (ValueError, RecursionError):
            faults.append(f"{path.as_posix()}: no JSON")
        except (KeyError, TypeError):
            faults.append(f"{path.as_posix()}: no booklet of the format {FORMAT}")
        else:
            faults += [f"{path.as_posix()}:{fault}" for fault in faults_of(document)]
            sizes = documents.setdefault(pattern, {})
            if size in sizes:
                faults.append(f"{path.as_posix()}:/size/id: {size} of {pattern} again, as in {sizes[size][0]}")
            sizes.setdefault(size, (path.as_posix(), document))
            cited.setdefault(pattern, {})[size] = _pages_beside(path)
    if faults:
        raise EditionError(faults)
    return {pattern: read_edition(sizes, cited[pattern]) for pattern, sizes in documents.items()}


def read_edition(
    sizes: Mapping[str, tuple[str, Any]], cited: Mapping[str, Mapping[str, frozenset[str]]] | None = None
) -> Edition:
    """Put the booklets of one pattern, each with its path, together.

    Raises:
        EditionError: they are not of one version.

    """
    first, document = next(iter(sizes.values()))
    version = document["pattern"]["version"]
    faults = [
        f"{path}:/pattern/version: version {other['pattern']['version']}, but {version} in {first}"
        for path, other in sizes.values()
        if other["pattern"]["version"] != version
    ]
    if faults:
        raise EditionError(faults)
    return Edition(
        pattern=document["pattern"]["id"],
        version=version,
        booklets={size: value for size, (_, value) in sizes.items()},
        paths={size: path for size, (path, _) in sizes.items()},
        cited=cited or {},
    )


def order_of(version: str) -> tuple[tuple[int, int | str], ...]:
    """Return what versions are sorted by: numbers as numbers, so that 1.10 comes after 1.9."""
    parts = re.findall(r"\d+|[^\d.\s]+", version)
    return tuple((1, int(part)) if part.isdecimal() else (0, part) for part in parts)


def pointers_on(page: str) -> frozenset[str]:
    """Return the pointers into the nearest booklet that the numbers of a page come from."""
    return frozenset(_CITED.findall(page))


def _pages_beside(booklet: Path) -> dict[str, frozenset[str]]:
    """Return the pointers on every page of a size, by the page's folder below the size's."""
    pages: dict[str, frozenset[str]] = {}
    for path in sorted(path for path in booklet.parent.rglob("*.html") if path.is_file()):
        name = path.relative_to(booklet.parent).parent.as_posix()
        try:
            pages["" if name == "." else name] = pointers_on(path.read_text(encoding="utf-8"))
        except (OSError, UnicodeDecodeError):  # the proof tells of such a page; here it only shows no number
            continue
    return pages
