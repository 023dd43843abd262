"""The list that every reader of this layer adds its problems to."""

from __future__ import annotations

from collections.abc import Iterable

from seamleaf.reading.pattern import Mark
from seamleaf.reading.problems import Problem


class Report:
    """Problems as they are met; reading goes on after each."""

    def __init__(self) -> None:
        self._problems: set[Problem] = set()

    def add(self, where: Mark, found: str, expected: str, hint: str = "") -> None:
        """Note one problem; the same one twice counts once."""
        self._problems.add(Problem(where=where, found=found, expected=expected, hint=hint))

    def extend(self, problems: Iterable[Problem]) -> None:
        """Note several problems."""
        self._problems.update(problems)

    def sorted(self) -> tuple[Problem, ...]:
        """Return the problems in the order of the file."""
        return tuple(sorted(self._problems))
