"""What is wrong with a pattern file: records first, sentences last.

Reading, sizing and planning all report :class:`Problem`; whoever meets one goes on, so that one run lists all.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from seamleaf.reading.marks import Mark


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One fault: where it stands, what was found there and what was expected."""

    where: Mark
    found: str
    """What stands there, as a phrase that follows ``found``: ``"colour 'bleu'"``."""
    expected: str
    """What would be right, as a phrase that follows ``expected``."""
    hint: str = ""
    """One more sentence, for example the nearest valid word."""

    def sentence(self, file: str) -> str:
        """Return ``FILE:LINE:COLUMN: found ..., expected ...``, with the hint in brackets."""
        hint = f" ({self.hint})" if self.hint else ""
        return f"{file}:{self.where.line}:{self.where.column}: found {self.found}, expected {self.expected}{hint}"


class PatternError(Exception):
    """A pattern that cannot become a booklet, with every problem known, sorted by place."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = sorted(set(problems))
        super().__init__("; ".join(p.sentence("pattern") for p in self.problems))


class Report:
    """The list that the readers of this layer add to as they meet problems; reading goes on after each."""

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
