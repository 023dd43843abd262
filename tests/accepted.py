"""The accepted booklets of the demo, each read once by a process; tests/golden holds them to the patterns."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

from seamleaf.booklet import Booklet, from_json

ACCEPTED: Final = Path(__file__).parent / "golden"


def accepted_text(pattern: str, size: str) -> str:
    """Return a booklet as it is published."""
    return (ACCEPTED / pattern / size / "booklet.json").read_text(encoding="utf-8")


@cache
def accepted(pattern: str, size: str) -> Booklet:
    """Return a booklet of the demo."""
    return from_json(accepted_text(pattern, size))


def accepted_names() -> list[tuple[str, str]]:
    """Return pattern and size of every booklet of the demo."""
    return [(path.parent.parent.name, path.parent.name) for path in sorted(ACCEPTED.glob("*/*/booklet.json"))]
