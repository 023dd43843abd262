"""The pages of a class: its sessions, what its kits hold, hand-outs by skill, and what is checked with a gauge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import ClassNote, Lesson, ShopCut
from seamleaf.publishing.cutting_view import FabricCutting, SheetView, cutting_view
from seamleaf.publishing.fabric_view import FabricView, fabric_views
from seamleaf.publishing.finishing_view import BorderView, finishing_view
from seamleaf.publishing.piecing_view import UnitView, unit_views
from seamleaf.publishing.pointer import pointer

_SHOWN: Final = ("seam", "prints", "cut", "unit", "block", "layout", "triangle", "border", "binding")
"""Lessons in which the teacher shows something."""
_LATER: Final = ("triangle", "border", "binding", "backing")
"""What patches are for that are not cut before class."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonView:
    """One line of the timeline; ``at`` is its pointer."""

    at: str
    what: str
    of: str
    work: bool
    """Whether its time depends on the student."""
    shows: bool
    """Whether the teacher shows a way of working first."""
    more: bool
    """Whether it goes on with what the lesson before it began."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionView:
    """One session."""

    minutes: str
    number: str
    lessons: tuple[LessonView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCutView:
    """Strips of one height, or panels."""

    at: str
    panel: bool
    ways: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    """How they are sub-cut: a pointer to how many are cut so, then labels with a pointer to how many one gives."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopView:
    """What a shop cuts and sells of one fabric for all kits."""

    at: str
    """Pointer to the purchase of the class."""
    fabric: FabricView
    shared: str | None
    """Pointer to how many kits one pack serves."""
    packs: tuple[str, ...]
    """Pointers to packs that fill the same number of kits."""
    deal: tuple[tuple[str, ...], ...]
    """For each kit of a pack, pointers to the numbers of its pieces."""
    cuts: tuple[ShopCutView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutView:
    """One sheet for one skill."""

    skill: str
    """Key below ``handout.`` in the wording."""
    unit: UnitView | None
    """The unit by which a way of sewing is taught."""
    border: BorderView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassView:
    """Everything that the pages of one class show."""

    at: str
    id: str
    title: str
    whole: bool
    """Whether the sessions hold at least one whole block."""
    sessions: tuple[SessionView, ...]
    shop: tuple[ShopView, ...]
    handouts: tuple[HandoutView, ...]
    cut: tuple[FabricCutting, SheetView] | None
    """The sheet by which cutting is taught: of a bundle if there is one."""
    boards: tuple[str, ...]
    """What is shown on boards: keys below ``class.board.``."""
    counted: dict[str, str]
    """Pointer to what is cut of a label for all kits."""
    later: tuple[str, ...]
    """Labels that wait until the quilt is measured."""
    ways: tuple[UnitView, ...]
    """The first unit of each way of sewing."""


def class_views(booklet: Booklet) -> tuple[ClassView, ...]:
    """Return the classes that sew this size."""
    return tuple(_class(booklet, index, note) for index, note in enumerate(booklet.classes))


def ways_of_sewing(units: tuple[UnitView, ...]) -> tuple[UnitView, ...]:
    """Return the first unit of each way of sewing other than plain joins, then the block."""
    found: dict[tuple[str, str], UnitView] = {}
    for unit in units:
        if unit.what not in ("row", "column", "block") and unit.steps:
            found.setdefault((unit.what, unit.steps[0]), unit)
    return tuple(found.values())


def _class(booklet: Booklet, index: int, note: ClassNote) -> ClassView:
    at = pointer("classes", index)
    units = unit_views(booklet)
    ways = ways_of_sewing(units)
    block = next((unit for unit in units if unit.id == note.block), None)
    return ClassView(
        at=at,
        id=note.id,
        title=note.title,
        whole=note.blocks > 0,
        sessions=_sessions(at, note),
        shop=_shop(booklet, at, note),
        handouts=_handouts(booklet, ways, block),
        cut=_first_cut(booklet),
        boards=_boards(booklet, bool(ways), block),
        counted={each.label: f"{at}/pieces/{number}" for number, each in enumerate(note.pieces)},
        later=tuple(patch.label for patch in booklet.patches if patch.use in _LATER),
        ways=ways,
    )


def _sessions(at: str, note: ClassNote) -> tuple[SessionView, ...]:
    found: list[SessionView] = []
    for number in range(1, len(note.sessions) + 1):
        places = [index for index, lesson in enumerate(note.lessons) if lesson.session == number]
        found.append(
            SessionView(
                minutes=f"{at}/sessions/{number - 1}",
                number=f"{at}/lessons/{places[0]}/session",
                lessons=tuple(_lesson(at, index, note.lessons) for index in places),
            )
        )
    return tuple(found)


def _lesson(at: str, index: int, lessons: tuple[Lesson, ...]) -> LessonView:
    lesson = lessons[index]
    before = [each for each in lessons[:index] if (each.what, each.of) == (lesson.what, lesson.of)]
    return LessonView(
        at=f"{at}/lessons/{index}",
        what=lesson.what,
        of=lesson.of,
        work=bool(lesson.counts),
        shows=lesson.what in _SHOWN and (not lesson.counts or "show" in lesson.counts),
        more=bool(before) and lesson.what in ("unit", "block"),
    )


def _shop(booklet: Booklet, at: str, note: ClassNote) -> tuple[ShopView, ...]:
    views = {view.id: view for view in fabric_views(booklet)}
    found: list[ShopView] = []
    for index, each in enumerate(note.fabrics):
        own = f"{at}/fabrics/{index}"
        found.append(
            ShopView(
                at=own,
                fabric=views[each.fabric],
                shared=None if each.kits_a_pack is None else f"{own}/kits_a_pack",
                packs=tuple(f"{own}/packs/{number}" for number in range(len(each.packs))),
                deal=tuple(
                    tuple(f"{own}/deal/{kit}/{place}" for place in range(len(hand)))
                    for kit, hand in enumerate(each.deal)
                ),
                cuts=tuple(
                    ShopCutView(at=f"{at}/shop/{number}", panel=cut.panel, ways=_ways(at, note, cut))
                    for number, cut in enumerate(note.shop)
                    if cut.fabric == each.fabric
                ),
            )
        )
    return tuple(found)


def _ways(at: str, note: ClassNote, cut: ShopCut) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    found: list[tuple[str, tuple[tuple[str, str], ...]]] = []
    for index, sheet in enumerate(note.sheets):
        if (sheet.fabric, sheet.sheet.h) == (cut.fabric, cut.h):
            own = f"{at}/sheets/{index}"
            found.append((f"{own}/times", tuple((label, own + pointer("gives", label)) for label in sheet.gives)))
    return tuple(found)


def _handouts(booklet: Booklet, ways: tuple[UnitView, ...], block: UnitView | None) -> tuple[HandoutView, ...]:
    def sheet(skill: str, unit: UnitView | None = None, border: BorderView | None = None) -> HandoutView:
        return HandoutView(skill=skill, unit=unit, border=border)

    borders = finishing_view(booklet).borders
    return (
        sheet("seam"),
        *([sheet("colour")] if any(view.bundle for view in fabric_views(booklet)) else []),
        sheet("cut"),
        *(sheet("sew", unit) for unit in ways),
        *([sheet("press", block)] if block else []),
        sheet("layout"),
        *([sheet("triangle")] if booklet.set.side_triangles else []),
        *([sheet("border", border=borders[0])] if borders else []),
        *([sheet("binding")] if booklet.binding is not None else []),
    )


def _first_cut(booklet: Booklet) -> tuple[FabricCutting, SheetView] | None:
    cuts = [(part, sheet) for part in cutting_view(booklet).fabrics for sheet in part.sheets if not sheet.whole]
    return next((each for each in cuts if each[0].fabric.bundle), cuts[0] if cuts else None)


def _boards(booklet: Booklet, ways: bool, block: UnitView | None) -> tuple[str, ...]:
    wanted = (
        ("cut", True),
        ("pair", ways),
        ("sewn", ways),
        ("pressed", True),
        ("trimmed", any(unit.trim is not None and unit.trim != unit.made for unit in booklet.units)),
        ("wrong", True),
        ("half", block is not None),
        ("variants", any(unit.variant == "B" for unit in booklet.units)),
        ("row", True),
        ("trim", booklet.set.side_triangles > 0),
        ("border", bool(booklet.borders)),
        ("binding", booklet.binding is not None),
    )
    return tuple(key for key, holds in wanted if holds)
