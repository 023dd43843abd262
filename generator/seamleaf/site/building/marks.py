"""Marks on an author's page, ``<!-- seamleaf: gallery -->``, where something of the site shall stand.

A mark between fences is shown as it is written: that is how a page tells of marks.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

_FENCED: Final = r"^(?P<fence>`{3,}|~{3,})[^\n]*\n(?:.*?^(?P=fence)[`~]*[ ]*$|.*)"
_MARK: Final = re.compile(rf"{_FENCED}|<!-- seamleaf: (?P<name>[a-z]+) -->", re.MULTILINE | re.DOTALL)


def marks_of(page: str) -> set[str]:
    """Return what the marks of a page ask for."""
    return {mark["name"] for mark in _MARK.finditer(page) if mark["name"]}


def put_in_marks(page: str, text_of: Callable[[str], str | None]) -> str:
    """Put a text where each mark stands; one for which there is ``None`` stays."""

    def replaced(mark: re.Match[str]) -> str:
        text = text_of(mark["name"]) if mark["name"] else None
        return mark[0] if text is None else text

    return _MARK.sub(replaced, page)
