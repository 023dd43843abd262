"""Patterns to booklets and figures: on several processors at once, and the same thing never twice."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from importlib.metadata import version
from itertools import takewhile
from typing import Final, TypeVar

from seamleaf.booklet import Booklet, compare_stated
from seamleaf.drawing import Figure
from seamleaf.publishing.paper import Paper, set_paper
from seamleaf.reading.pattern import Pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.site.files.shelf import Shelf, key_for, key_of
from seamleaf.site.work.cluster import cluster, on_any_machine
from seamleaf.site.work.jobs import Job, Outcome, packed, try_job, unpacked
from seamleaf.site.work.pipeline import read_checked
from seamleaf.site.work.progress import Progress, Silent
from seamleaf.site.work.workers import FEW, TO_START, WORTH_A_POOL, stand_ready, standing_pool, worker_pool
from seamleaf.words import Words, english

PAPERS_A_POOL: Final = 64
"""PDF files that the same processes set: typst remembers all that it ever set, so they are then replaced."""

LARGE_PAPER: Final = 4 * 2**20
"""Bytes of what a PDF is set from beyond which a process of its own sets it: for 30 MB it takes 750, and keeps most."""

_AT_ONCE: Final = 2
"""How many states of a pattern are remembered: a fault comes and goes."""

_Given = TypeVar("_Given")
_Done = TypeVar("_Done")


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished:
    """A pattern with its booklets and figures, by size."""

    pattern: Pattern
    booklets: dict[str, Booklet]
    figures: dict[str, tuple[Figure, ...]]
    findings: tuple[str, ...] = ()
    """What the proof finds in the booklets."""


class Workshop:
    """Works patterns out and remembers what came of them."""

    def __init__(
        self,
        shelf: Shelf | None = None,
        processes: int = 1,
        *,
        prove: bool = True,
        machines: str | None = None,
        progress: Progress | None = None,
    ) -> None:
        """Set up a workshop.

        Args:
            shelf: where results are kept for the next time.
            processes: how many may run at once; with 1 everything is done in this process.
            prove: whether booklets are sewn again by the proof.
            machines: address of a cluster that does the work in place of processes here.
            progress: hears of what is done.

        """
        self._machines, self._progress = machines, progress or Silent()
        self._shelf, self._processes, self._prove = shelf, processes, prove
        self._words = english()
        self._known: dict[tuple[str, bytes], Finished] = {}
        self._has_pressed = False

    def speak(self, words: Words) -> None:
        """Draw all figures from now on in these words; what is known in others is forgotten."""
        if words != self._words:
            self._words = words
            self._known.clear()

    def finish(self, texts: Sequence[tuple[str, bytes]]) -> Iterator[Finished | Exception]:
        """Work out patterns, given by id and text, and return what came of each, in their order.

        A pattern with problems gives a ``PatternError``; any other exception is a fault of the program itself.
        """
        read: list[Pattern | Exception | None] = [self._read(*each) for each in texts]
        jobs = [
            self.job(pattern_id, text, size)
            for (pattern_id, text), pattern in zip(texts, read, strict=True)
            if isinstance(pattern, Pattern)
            for size in pattern.sizes
        ]
        outcomes = iter(self._outcomes(jobs))
        for key, pattern in zip(texts, read, strict=True):
            if isinstance(pattern, Pattern):
                done = put_together(pattern, {size: next(outcomes) for size in pattern.sizes})
                if isinstance(done, Finished):
                    self.remember(*key, done)
                yield done
            else:
                yield self._known[key] if pattern is None else pattern

    def job(self, pattern_id: str, text: bytes, size: str) -> Job:
        """Return the job of working out one size of a pattern that reads without problems."""
        shelf = None if self._shelf is None or self._machines else self._shelf.folder  # other machines have it not
        return Job(text=text, pattern=pattern_id, size=size, prove=self._prove, words=self._words, shelf=shelf)

    def remember(self, pattern_id: str, text: bytes, done: Finished) -> None:
        """Remember what came of a pattern."""
        for key in [key for key in self._known if key[0] == pattern_id][: 1 - _AT_ONCE]:
            del self._known[key]
        self._known[pattern_id, text] = done

    def forget(self) -> None:
        """Forget what came of all patterns; what lies on the shelf is found there."""
        self._known.clear()

    def press(self, papers: Sequence[Paper]) -> list[bytes]:
        """Set PDFs, each once.

        Raises:
            TemplateError: the template for paper has a fault.

        """
        kept = {number: content for number, paper in enumerate(papers) if (content := self._pressed(paper)) is not None}
        todo = [number for number in range(len(papers)) if number not in kept]
        self._progress.stage("PDF files", len(todo))
        large = [number for number in todo if not self._machines and papers[number].size > LARGE_PAPER]
        fresh = dict(zip(large, self._each_apart([papers[number] for number in large]), strict=True))
        todo = [number for number in todo if number not in fresh]
        # The editions of a page follow each other and share their figures: one process converts each figure once.
        alike = sum(1 for _ in takewhile(lambda number: papers[number].files == papers[todo[0]].files, todo))
        for start in range(0, len(todo), PAPERS_A_POOL):
            numbers = todo[start : start + PAPERS_A_POOL]
            given = [papers[number] for number in numbers]
            fresh |= zip(numbers, self._each(set_paper, given, alike, fresh=self._has_pressed), strict=True)
            self._has_pressed = True
        if self._shelf is not None:
            for number, content in fresh.items():
                self._shelf.put(_paper_key(papers[number]), content)
        return [kept[number] if number in kept else fresh[number] for number in range(len(papers))]

    def _each_apart(self, papers: Sequence[Paper]) -> Iterator[bytes]:
        for paper in papers:
            yield _set_apart(paper)
            self._progress.step()

    def _pressed(self, paper: Paper) -> bytes | None:
        return None if self._shelf is None else self._shelf.take(_paper_key(paper))

    def tidy(self) -> None:
        """Throw away what no build has asked for in a long time."""
        if self._shelf is not None:
            self._shelf.tidy()

    def _read(self, pattern_id: str, text: bytes) -> Pattern | Exception | None:
        """Read a pattern; what is finished already need not be."""
        if (pattern_id, text) in self._known:
            return None
        try:
            return read_checked(text, pattern_id)
        except Exception as fault:  # told of with the others
            return fault

    def _outcomes(self, jobs: Sequence[Job]) -> Iterator[Outcome | Exception]:
        """Yield what comes of each job, in order, while those after it are still being done."""
        known: dict[Job, Outcome | Exception | None] = {job: self._kept(job) for job in jobs}
        todo = [job for job, outcome in known.items() if outcome is None]
        if jobs:
            self._progress.stage("booklets", len(todo))
        fresh = self._each(try_job, todo)
        for job in jobs:
            outcome = known[job]
            if outcome is None:
                outcome = known[job] = next(fresh)
                if self._shelf is not None and isinstance(outcome, Outcome) and outcome.booklet is not None:
                    self._shelf.put(_key(job), packed(outcome))
            yield outcome

    def _kept(self, job: Job) -> Outcome | None:
        content = None if self._shelf is None else self._shelf.take(_key(job))
        return None if content is None else unpacked(content)

    def _each(
        self, do: Callable[[_Given], _Done], things: Sequence[_Given], together: int = 1, *, fresh: bool = False
    ) -> Iterator[_Done]:
        """Do something with each of several things, on several processors or machines where that is worth it.

        What is done is yielded in order while the rest is being done. With the last of it nothing is left to do, so
        nobody needs to ask for more.

        Args:
            do: what is done.
            things: with what.
            together: so many that follow each other are done by the same process.
            fresh: whether by processes that have done nothing else.

        Raises:
            ClusterError: the machines cannot do it.

        """
        if len(things) < WORTH_A_POOL or (self._processes == 1 and not self._machines):
            done: Iterable[_Done] = map(do, things)
        elif self._machines:
            done = _on_machines(self._machines, do, things)
        else:
            done = _in_processes(self._processes, do, things, together, fresh=fresh)
        for each in _ended_with_the_last(done):
            self._progress.step()
            yield each


def _on_machines(machines: str, do: Callable[[_Given], _Done], things: Sequence[_Given]) -> Iterator[_Done]:
    with cluster(machines) as workers:
        yield from workers.map(on_any_machine(do), things)


def _in_processes(
    processes: int, do: Callable[[_Given], _Done], things: Sequence[_Given], together: int, *, fresh: bool
) -> Iterator[_Done]:
    done = 0
    if len(things) <= FEW and not stand_ready():
        for each in _soon_done(do, things):
            done += 1
            yield each
    left = things[done:]
    if not left:
        return
    try:
        with worker_pool(min(processes, len(left)), fresh=fresh) as pool:
            for each in pool.map(do, left, chunksize=together):
                done += 1
                yield each
    except BrokenProcessPool:  # one was killed, perhaps for its memory: alone they may go through
        yield from map(do, things[done:])


def _ended_with_the_last(results: Iterable[_Done]) -> Iterator[_Done]:
    """Yield results, each when the next is there: whatever makes them has ended when the last one is given."""
    last: list[_Done] = []
    for each in results:
        yield from last
        last = [each]
    yield from last


def _soon_done(do: Callable[[_Given], _Done], things: Iterable[_Given]) -> Iterator[_Done]:
    """Do things for as long as it takes to start processes: a small pattern is done by then, and needs none."""
    end = time.process_time() + TO_START
    for each in things:
        yield do(each)
        if time.process_time() > end:
            break


def _set_apart(paper: Paper) -> bytes:
    """Set a PDF in a process that ends then, one after the other, so that no two of them need their memory at once."""
    try:
        with standing_pool(1) as pool:
            return pool.submit(set_paper, paper).result()
    except BrokenProcessPool:  # a program that starts no processes; or this one has memory that the other had not
        return set_paper(paper)


def _key(job: Job) -> str:
    return key_for(job.text, job.pattern.encode(), job.size.encode(), bytes([job.prove]), job.words.digest.encode())


def _paper_key(paper: Paper) -> str:
    return key_of(f"typst {version('typst')}".encode(), paper.digested())


def put_together(
    pattern: Pattern, tried: Mapping[str, Outcome | Exception], *, whole: bool = True
) -> Finished | Exception:
    """Return a pattern with what came of its sizes, or what is wrong; ``whole`` where they are all of them."""
    outcomes: dict[str, Outcome] = {}
    for size, outcome in tried.items():
        if isinstance(outcome, Exception):
            return outcome
        outcomes[size] = outcome
    problems: list[Problem] = [problem for outcome in outcomes.values() for problem in outcome.problems]
    booklets = {size: outcome.booklet for size, outcome in outcomes.items() if outcome.booklet is not None}
    if not problems and whole:
        problems = compare_stated(pattern, booklets)
    if problems:
        return PatternError(problems)
    return Finished(
        pattern=pattern,
        booklets=booklets,
        figures={size: outcome.figures for size, outcome in outcomes.items()},
        findings=tuple(line for outcome in outcomes.values() for line in outcome.findings),
    )
