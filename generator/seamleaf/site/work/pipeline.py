"""A pattern's text to its booklets, with every problem of every stage in one list."""

from __future__ import annotations

from seamleaf.booklet import Booklet, compare_stated, plan_booklets
from seamleaf.reading import read_pattern
from seamleaf.reading.pattern import Pattern
from seamleaf.reading.problems import PatternError
from seamleaf.sizing import check_pattern


def read_checked(text: bytes, pattern_id: str) -> Pattern:
    """Read a pattern and check its geometry.

    Raises:
        PatternError: with the problems of both stages.

    """
    reading = read_pattern(text, pattern_id)
    problems = list(reading.problems)
    if reading.pattern is not None:
        problems += check_pattern(reading.pattern)
    if problems or reading.pattern is None:
        raise PatternError(problems)
    return reading.pattern


def plan(text: bytes, pattern_id: str) -> tuple[Pattern, dict[str, Booklet]]:
    """Read, check and plan a pattern in all its sizes.

    Raises:
        PatternError: with every problem that the stages could still find.

    """
    pattern = read_checked(text, pattern_id)
    booklets = plan_booklets(pattern)
    differences = compare_stated(pattern, booklets)
    if differences:
        raise PatternError(differences)
    return pattern, booklets
