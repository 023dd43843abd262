"""The data of a pattern beside its pages: the booklet of every size, and its schema."""

from __future__ import annotations

import functools
import json
from collections.abc import Mapping
from typing import Final

from seamleaf.booklet import Booklet, json_schema, to_json
from seamleaf.reading.pattern import Pattern

BOOKLET_FILE: Final = "booklet.json"
SCHEMA_FILE: Final = "booklet.schema.json"


def booklet_files(pattern_id: str, booklets: Mapping[str, Booklet]) -> dict[str, bytes]:
    """Return the data of every size: the booklet and, beside it, its schema."""
    files: dict[str, bytes] = {}
    for size, booklet in booklets.items():
        files[f"{pattern_id}/{size}/{BOOKLET_FILE}"] = to_json(booklet).encode("utf-8")
        files[f"{pattern_id}/{size}/{SCHEMA_FILE}"] = _schema()
    return files


@functools.cache
def _schema() -> bytes:
    return (json.dumps(json_schema(), ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def booklet_paths(pattern: Pattern) -> dict[str, str]:
    """Return where the booklet of each size stands among the published files."""
    return {size: f"{pattern.id}/{size}/{BOOKLET_FILE}" for size in pattern.sizes}
