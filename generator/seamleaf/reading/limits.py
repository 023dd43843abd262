"""How much a pattern file may hold of each thing, so that every input is computable in bounded time."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

MAX_TITLE: Final = 200
"""Characters of a title."""
MAX_INCHES: Final = 400
"""Longest side of anything."""
MAX_FABRICS: Final = 60
MAX_PACK: Final = 1000
"""Pieces in a bundle."""
MAX_PRINT: Final = 99
MAX_STUDENTS: Final = 1000
MAX_COUNT: Final = 999_999
"""Largest count that a designer may state."""
MIN_SCALE: Final = Fraction(1, 8)
MAX_SCALE: Final = 8
MAX_PACE: Final = 100_000
"""Of anything in an hour."""
