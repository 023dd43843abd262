"""Places in a pattern file, its schema's name and its greatest length: what can be said of one without reading it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A place in the pattern file, both counted from 1."""

    line: int
    column: int


SCHEMA_FILE: Final = "pattern.schema.json"
"""The schema of pattern files, beside them and at the top of a site."""
MAX_BYTES: Final = 1 << 20
"""Bytes of a pattern file at most."""
