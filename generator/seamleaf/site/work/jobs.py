"""One size of one pattern, worked out as a pure function of its text, so that any process may do it."""

from __future__ import annotations

import functools
import json
import traceback
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Final

from seamleaf.booklet import Booklet, from_json, plan_booklets, to_json
from seamleaf.drawing import Drawn, Figure, draw_figures
from seamleaf.planning.memory import remembering
from seamleaf.reading import Pattern, read_pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.site.files.shelf import Shelf
from seamleaf.site.work.plans import KeptPlans
from seamleaf.site.work.proving import KeptProofs, prove_booklets
from seamleaf.words import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What is to be worked out: a size of a pattern that reads without problems."""

    text: bytes
    pattern: str
    size: str
    prove: bool
    """Whether the booklet is sewn again by the proof."""
    words: Words
    """What the figures say."""
    served: bool = False
    """Whether the process will be asked for the same pattern again and again, with few changes."""
    shelf: Path | None = None
    """Folder in which cutting plans are kept; what comes of a job does not depend on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of a job: the booklet with its figures, or problems."""

    booklet: Booklet | None = None
    figures: tuple[Figure, ...] = ()
    findings: tuple[str, ...] = ()
    """What the proof finds, one line each."""
    problems: tuple[Problem, ...] = ()


def work_out(job: Job) -> Outcome:
    """Plan a size, draw its figures and sew it again."""
    pattern = _read(job.text, job.pattern)
    try:
        with remembering(KeptPlans(Shelf(job.shelf, lambda _: None)) if job.shelf else None):
            booklet = plan_booklets(pattern, [job.size])[job.size]
    except PatternError as error:
        return Outcome(problems=tuple(error.problems))
    kept = KeptProofs(job.shelf) if job.shelf else None
    findings = prove_booklets(pattern.id, {job.size: booklet}, kept) if job.prove else []
    figures = draw_figures(booklet, job.words, _drawn if job.served else None)
    return Outcome(booklet=booklet, figures=figures, findings=tuple(findings))


_drawn: Final = Drawn()
"""What this process has drawn of sites that are served."""


@functools.lru_cache(maxsize=2)
def _read(text: bytes, pattern_id: str) -> Pattern:
    """Read a pattern once for all sizes that a process works out one after the other."""
    pattern = read_pattern(text, pattern_id).pattern
    if pattern is None:
        raise ValueError(f"{pattern_id} does not read")
    return pattern


def try_job(job: Job) -> Outcome | Exception:
    """Do a job; a fault of the program comes back with its traceback, from whatever process."""
    try:
        return work_out(job)
    except Exception as fault:  # raised or shown by whoever asked for the pattern
        fault.add_note(traceback.format_exc())
        return fault


def packed(outcome: Outcome) -> bytes:
    """Write an outcome that has a booklet, to be kept."""
    assert outcome.booklet is not None  # noqa: S101 -- problems are not kept
    figures = [asdict(figure) for figure in outcome.figures]
    kept = {"booklet": to_json(outcome.booklet), "figures": figures, "findings": outcome.findings}
    return json.dumps(kept, ensure_ascii=False).encode("utf-8")


def unpacked(content: bytes) -> Outcome:
    """Read what :func:`packed` wrote."""
    kept = json.loads(content)
    return Outcome(
        booklet=from_json(kept["booklet"]),
        figures=tuple(Figure(**figure) for figure in kept["figures"]),
        findings=tuple(kept["findings"]),
    )
