"""Lessons into sessions: the most that fits, with catch-up points at which every student is together again.

A lesson is planned for the middle of its range. At a catch-up the careful students get the time that the middle kept
from them, so none falls further behind than one stretch; the quick ones begin what comes next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from seamleaf.planning.class_records import Lesson, LessonKind
from seamleaf.planning.programme import FIXED, Course, Draft, fixed

STRETCH: Final = 90
"""Most planned minutes from one catch-up to the next (common practice: a pause every 75 to 90 min; no source)."""
PAUSE: Final = 10
"""Least minutes of a catch-up, since it is a pause as well (common practice, no source)."""
LUNCH: Final = 30
LONG_SESSION: Final = 300
"""Minutes from which a session has a lunch (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """The lessons of a class, and how many whole blocks they finish."""

    lessons: tuple[Lesson, ...]
    blocks: int


def plan_timeline(course: Course, sessions: Sequence[int]) -> Timeline:
    """Fit into the sessions, given in minutes: one block, then the extras, then more blocks.

    Where not even one block fits, the lessons stop where the time does, and the rest is work for home. Every session is
    filled to the minute.
    """
    if not sessions:
        return Timeline(lessons=(), blocks=0)
    first = 1 if course.block else 0
    lessons = _schedule(course.lessons(first, 0), sessions)
    if lessons is None:
        return _as_far_as_it_goes(course, sessions)
    extras = 0
    for count in range(1, len(course.extras()) + 1):
        more = _schedule(course.lessons(first, count), sessions)
        if more is None:
            break
        lessons, extras = more, count
    blocks = first
    while blocks and blocks < course.most_blocks:
        more = _schedule(course.lessons(blocks + 1, extras), sessions)
        if more is None:
            break
        lessons, blocks = more, blocks + 1
    return Timeline(lessons=lessons, blocks=blocks)


def _as_far_as_it_goes(course: Course, sessions: Sequence[int]) -> Timeline:
    """Leave lessons out from the last on, but not the plan for home; with no room for anything, leave all open."""
    *wanted, home = course.lessons(1 if course.block else 0, 0)
    for count in range(len(wanted) - 1, -1, -1):
        lessons = _schedule((*wanted[:count], home), sessions)
        if lessons is not None:
            return Timeline(lessons=lessons, blocks=0)
    return Timeline(lessons=tuple(_open(number, length) for number, length in enumerate(sessions, 1)), blocks=0)


def _open(number: int, length: int) -> Lesson:
    return Lesson(session=number, at="0:00", minutes=length, what="open", of="", counts={}, least=length, most=length)


def _schedule(drafts: Sequence[Draft], sessions: Sequence[int]) -> tuple[Lesson, ...] | None:
    """Place lessons in their order; ``None`` when the last session ends before they do."""
    *lessons, home = drafts
    left, placed = list(lessons), []
    for number, length in enumerate(sessions, 1):
        last = number == len(sessions)
        closing: LessonKind = home.what if last else "tidy"
        session = _Session(number=number, length=length - FIXED[closing], fed=length < LONG_SESSION)
        if session.length < 0:
            return None
        if number > 1:
            if session.length < FIXED["back"]:
                return None
            session.take(fixed("back"))
        while left and session.has_room_for(left[0]):
            session.take(left.pop(0))
        placed += session.closed(closing)
    return None if left else tuple(placed)


@dataclass(slots=True)
class _Session:
    number: int
    length: int
    """Minutes before it closes."""
    fed: bool
    """Whether lunch has been, or is not due in so short a session."""
    clock: int = 0
    owed: int = 0
    """Minutes that careful students lack since the last catch-up."""
    since: int = 0
    """Minutes since the last catch-up or the beginning."""
    given: list[Lesson] = field(default_factory=list)

    def has_room_for(self, draft: Draft) -> bool:
        """Return whether a lesson fits, with the pause before it and the time that is owed after it."""
        before, owed = self._before(draft), self.owed
        start = self.clock + sum(before)
        if before:
            owed = 0
        return start + owed + draft.most <= self.length

    def take(self, draft: Draft) -> None:
        """Place a lesson that has room."""
        before = self._before(draft)
        for what, minutes in zip(("catch-up", "lunch"), before, strict=False):
            self.give("lunch" if what == "lunch" else "catch-up", minutes)
        if before:
            self.owed = self.since = 0
            self.fed = self.fed or len(before) > 1
        self.give(draft.what, draft.planned, draft)
        self.owed += draft.most - draft.planned
        self.since += draft.planned

    def _before(self, draft: Draft) -> tuple[int, ...]:
        """Return the minutes of the catch-up before a lesson, and of lunch after it; nothing when neither is due."""
        catch_up = max(PAUSE, self.owed)
        if not self.fed and 2 * (self.clock + draft.planned) > self.length:
            return (catch_up, LUNCH)
        return (catch_up,) if self.since and self.since + draft.planned > STRETCH else ()

    def give(self, what: LessonKind, minutes: int, draft: Draft | None = None) -> None:
        """Add a part to the session."""
        self.given.append(
            Lesson(
                session=self.number,
                at=f"{self.clock // 60}:{self.clock % 60:02}",
                minutes=minutes,
                what=what,
                of=draft.of if draft else "",
                counts=draft.counts if draft else {},
                least=draft.least if draft else minutes,
                most=draft.most if draft else minutes,
            )
        )
        self.clock += minutes

    def closed(self, closing: LessonKind) -> list[Lesson]:
        """Return the session, filled up: what is left is a last catch-up, or lengthens the closing."""
        left = self.length - self.clock
        if left >= PAUSE or self.owed:
            self.give("catch-up", left)
            left = 0
        self.give(closing, FIXED[closing] + left)
        return self.given
