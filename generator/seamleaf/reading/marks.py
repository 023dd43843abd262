"""Places in a pattern file."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A place in the pattern file, both counted from 1."""

    line: int
    column: int
