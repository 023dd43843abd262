"""The timeline of a class: sessions are full, times follow from the work, and nobody is left behind."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction
from itertools import groupby, pairwise
from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.class_record import Lesson
from seamleaf.proof.record import ClassNote, Unit
from seamleaf.proof.report import Findings

TIMELINE: Final = "timeline"
STRETCH: Final = 90
"""Most planned minutes without a pause; a lesson that is longer by itself stands alone (a convention)."""

SHOWN: Final = 5
"""Minutes in which a teacher shows a way of working (a convention)."""

_WORK: Final = ("cut", "unit", "block", "again")
_PAUSES: Final = ("catch-up", "lunch")
_ENDS: Final = ("tidy", "home", "open")


def check_timeline(book: Book, note: ClassNote, findings: Findings) -> None:
    """Go through a class by the clock, and count what one student sews."""
    at = f"{note.pointer}/lessons"
    numbers = [number for number, _ in groupby(lesson.session for lesson in note.lessons)]
    wanted = list(range(1, len(note.sessions) + 1))
    if not findings.expect_equal(numbers, wanted, TIMELINE, at, "sessions that have lessons"):
        return
    for number, given in groupby(note.lessons, key=lambda lesson: lesson.session):
        _check_session(list(given), note.sessions[number - 1], at, findings)
    for lesson in note.lessons:
        _check_lesson(book, lesson, findings)
    _check_work(book, note, findings)


def _check_session(lessons: list[Lesson], length: int, at: str, findings: Findings) -> None:
    clock = owed = since = 0
    for lesson in lessons:
        shown = f"{clock // 60}:{clock % 60:02}"
        findings.expect_equal(lesson.at, shown, TIMELINE, f"{lesson.pointer}/at", "begin of a lesson")
        findings.expect(lesson.minutes > 0 or lesson.what in _ENDS, TIMELINE, lesson.pointer, "a lesson without time")
        if lesson.what in _PAUSES:
            message = f"a catch-up of {lesson.minutes} min, where careful students are {owed} min behind"
            findings.expect(lesson.minutes >= owed, TIMELINE, f"{lesson.pointer}/minutes", message)
            owed = since = 0
        elif lesson.what not in _ENDS:
            message = f"{since + lesson.minutes} min without a pause"
            findings.expect(not since or since + lesson.minutes <= STRETCH, TIMELINE, lesson.pointer, message)
            owed += lesson.most - lesson.minutes
            since += lesson.minutes
        clock += lesson.minutes
    findings.expect_equal(clock, length, TIMELINE, at, f"minutes of session {lessons[0].session}")
    findings.expect(owed == 0, TIMELINE, at, f"session {lessons[0].session} leaves careful students {owed} min behind")
    closed = lessons[-1].what in _ENDS and all(lesson.what not in _ENDS for lesson in lessons[:-1])
    findings.expect(closed, TIMELINE, at, f"session {lessons[0].session} does not end with clearing up")


def _check_lesson(book: Book, lesson: Lesson, findings: Findings) -> None:
    if lesson.what in _WORK:
        real = _minutes(book, lesson.counts)
        findings.expect_equal(
            (lesson.least, lesson.most), real, TIMELINE, lesson.pointer, "minutes that the work takes"
        )
        middle = -(-sum(real) // 2)
        findings.expect_equal(lesson.minutes, middle, TIMELINE, f"{lesson.pointer}/minutes", "middle of the range")
    else:
        same = lesson.least == lesson.most == lesson.minutes
        findings.expect(same and not lesson.counts, TIMELINE, lesson.pointer, "a range for what takes one time for all")


def _minutes(book: Book, counts: dict[str, int]) -> tuple[int, int]:
    """Return the least and the most minutes of some work, begun ones whole; work without a pace takes none."""
    paces = book.booklet.estimates.paces
    known = {"cuts": paces.cuts, "seams": paces.seams, "presses": paces.presses}
    least = most = Fraction(SHOWN * counts.get("show", 0))
    for kind, pace in known.items():
        least += Fraction(60 * counts.get(kind, 0), max(1, pace.most))
        most += Fraction(60 * counts.get(kind, 0), max(1, pace.least))
    return math.ceil(least), math.ceil(most)


def _sewing(unit: Unit, copies: int) -> dict[str, int]:
    """Return the work of sewing copies of a unit: a strip set is sewn by the batch, a trim has four cuts."""
    sets = unit.how == "strip-set"
    lines = len(unit.seams) * (-(-copies // max(1, unit.makes)) if sets else copies)
    found = {"seams": lines, "presses": lines}
    trimmed = unit.trim is not None and unit.trim.sides != unit.made.sides
    if sets or trimmed:
        found["cuts"] = (copies if sets else 0) + (4 * copies if trimmed else 0)
    return found


def _check_work(book: Book, note: ClassNote, findings: Findings) -> None:
    """See that the lessons hold the work of as many blocks as are said, and the first block unit by unit."""
    at, copies = note.pointer, book.copies()
    if not findings.expect(not note.block or note.block in copies, TIMELINE, f"{at}/block", "no unit of the quilt"):
        return
    cuts = sum(patch.per_block.get(note.block, 0) for patch in book.booklet.patches)
    one: Counter[str] = Counter({"cuts": cuts})
    given: Counter[tuple[str, str]] = Counter()
    more: Counter[str] = Counter()
    for lesson in note.lessons:
        for kind, count in lesson.counts.items():
            if lesson.what in ("unit", "block"):
                given[lesson.of, kind] += count
            elif lesson.what == "again":
                more[kind] += count
    for name, count in copies.get(note.block, {}).items():
        unit = book.units[name]
        if unit.how == "patch":
            continue
        work = _sewing(unit, count)
        one.update(work)
        if note.blocks:
            real = {kind: given[name, kind] for kind in work}
            findings.expect_equal(real, work, TIMELINE, f"{at}/lessons", f"work on {name} for the first block")
    times = max(0, note.blocks - 1)
    wanted = {kind: count * times for kind, count in one.items() if count * times}
    findings.expect_equal(dict(more), wanted, TIMELINE, f"{at}/blocks", f"work on {times} more blocks")
    if note.block:
        whole = any(lesson.what == "block" for lesson in note.lessons)
        findings.expect(whole == (note.blocks > 0), TIMELINE, f"{at}/blocks", f"{note.blocks} whole blocks")
    order = [lesson.of for lesson in note.lessons if lesson.what in ("unit", "block")]
    rank = {unit.id: index for index, unit in enumerate(book.booklet.units)}
    in_order = all(rank.get(a, -1) <= rank.get(b, -1) for a, b in pairwise(order))
    findings.expect(in_order, TIMELINE, f"{at}/lessons", "a unit is sewn before what it takes")
