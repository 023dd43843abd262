"""What a class does, in the order of teaching: lessons with their times, for as many blocks as the sessions hold."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from seamleaf.planning.class_records import LessonKind
from seamleaf.planning.records import PatchNote, Unit
from seamleaf.reading.pace_record import Paces

FIXED: Final[dict[LessonKind, int]] = {
    "welcome": 15,
    "back": 5,
    "seam": 25,
    "prints": 20,
    "layout": 30,
    "triangle": 15,
    "border": 20,
    "binding": 15,
    "tidy": 10,
    "home": 15,
}
"""Minutes of what does not depend on the quilt (common practice, no source)."""
SHOW: Final = 5
"""Minutes to show a way of working (common practice, no source)."""
TRIM_CUTS: Final = 4
"""Ruler cuts that trim a unit: its four edges."""
LONGEST: Final = 75
"""Most minutes of a lesson; a longer one is given in parts (a rule of this project; no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A lesson before it has a place in a session."""

    what: LessonKind
    of: str = ""
    counts: dict[str, int] = field(default_factory=dict)
    least: int
    most: int

    @property
    def planned(self) -> int:
        """Minutes in the timeline: the middle, rounded up."""
        return -(-(self.least + self.most) // 2)


def fixed(what: LessonKind) -> Draft:
    """Return a lesson that takes everybody the same time."""
    return Draft(what=what, least=FIXED[what], most=FIXED[what])


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What can be taught of one quilt."""

    block: str
    """The block that is sewn; empty where no block is pieced."""
    one: tuple[Draft, ...]
    """Cutting and sewing the first block."""
    again: tuple[Draft, ...]
    """Cutting and sewing one more."""
    prints: bool
    triangles: bool
    borders: bool
    binding: bool
    most_blocks: int
    """More are not in the quilt."""
    paces: Paces

    def lessons(self, blocks: int, extras: int) -> tuple[Draft, ...]:
        """Return the lessons for a number of blocks and the first so many of the extras, in the order of teaching."""
        begin = [fixed("welcome"), fixed("seam"), *([fixed("prints")] if self.prints else [])]
        sewn = [*self.one, *self.again * (blocks - 1)] if self.block and blocks else []
        return (*begin, *sewn, *self.extras()[:extras], fixed("home"))

    def extras(self) -> tuple[Draft, ...]:
        """Return what is taught after the blocks, in the order of the work."""
        shown: list[tuple[bool, LessonKind]] = [
            (self.triangles, "triangle"), (self.borders, "border"), (self.binding, "binding"),
        ]  # fmt: skip
        return (fixed("layout"), *(fixed(what) for holds, what in shown if holds))


def minutes(counts: Mapping[str, int], paces: Paces) -> tuple[int, int]:
    """Return the least and the most minutes for some work, rounded up once."""
    by_key = paces.by_key()
    known = [(count, by_key[kind]) for kind, count in counts.items() if kind != "show"]
    show = SHOW * counts.get("show", 0)
    least = sum((Fraction(count * 60, quick) for count, (_, quick) in known), Fraction(show))
    most = sum((Fraction(count * 60, slow) for count, (slow, _) in known), Fraction(show))
    return -int(-least // 1), -int(-most // 1)


def sewing_counts(unit: Unit, copies: int) -> dict[str, int]:
    """Count the work of sewing copies of a unit; a strip set is sewn once a batch and cut into its units."""
    seams = len(unit.seams) * (-(-copies // unit.makes) if unit.how == "strip-set" else copies)
    trims = TRIM_CUTS * copies if unit.trim is not None and unit.trim != unit.made else 0
    cuts = trims + (copies if unit.how == "strip-set" else 0)
    return {"seams": seams, "presses": seams} | ({"cuts": cuts} if cuts else {})


def plan_course(
    units: Sequence[Unit],
    patches: Sequence[PatchNote],
    placed: Sequence[str],
    *,
    prints: bool,
    triangles: bool,
    borders: bool,
    binding: bool,
    paces: Paces,
) -> Course:
    """Return what can be taught of a quilt: its first pieced block, unit by unit.

    Args:
        placed: the unit of every place of the centre.

    """
    block = next((u.id for u in units if u.block and u.how != "patch" and u.variant != "B" and u.id in placed), "")
    cuts = sum(patch.per_block.get(block, 0) for patch in patches)
    steps = [_lesson("cut", "", {"cuts": cuts, "show": 1}, paces)]
    shown: set[tuple[str, str | None]] = set()
    total = {"cuts": cuts}
    for unit in units:
        copies = unit.per_block.get(block, 0)
        if not copies or unit.how == "patch":
            continue
        counts = sewing_counts(unit, copies)
        for kind, count in counts.items():
            total[kind] = total.get(kind, 0) + count
        if (unit.how, unit.method) not in shown:
            shown.add((unit.how, unit.method))
            counts["show"] = 1
        steps += _in_parts("block" if unit.id == block else "unit", unit.id, counts, paces)
    return Course(
        block=block,
        one=tuple(steps),
        again=tuple(_in_parts("again", block, total, paces)),
        prints=prints,
        triangles=triangles,
        borders=borders,
        binding=binding,
        most_blocks=sum(unit == block for unit in placed),
        paces=paces,
    )


def _lesson(what: LessonKind, of: str, counts: dict[str, int], paces: Paces) -> Draft:
    least, most = minutes(counts, paces)
    return Draft(what=what, of=of, counts=counts, least=least, most=most)


def _in_parts(what: LessonKind, of: str, counts: dict[str, int], paces: Paces) -> list[Draft]:
    """Return a lesson, or several that share its work, none longer than a class sits still."""
    whole = _lesson(what, of, counts, paces)
    number = -(-whole.most // LONGEST)
    if number < 2:
        return [whole]
    parts: list[Draft] = []
    for index in range(number):
        share = {
            kind: count * (index + 1) // number - count * index // number
            for kind, count in counts.items()
            if kind != "show"
        }
        if index == 0 and "show" in counts:
            share["show"] = counts["show"]
        parts.append(_lesson(what, of, {kind: count for kind, count in share.items() if count}, paces))
    return parts
