"""The records of a booklet that tell how a class goes through the work; see ``records``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from seamleaf.lengths import Length
from seamleaf.planning.records import Buy, Sheet

LessonKind = Literal[
    "welcome", "back", "seam", "prints", "cut", "unit", "block", "again", "layout", "triangle", "border", "binding",
    "catch-up", "lunch", "tidy", "home", "open",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PackShare:
    """Packs that fill the same number of kits each."""

    times: int
    kits: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassFabric:
    """What a class takes of one fabric, for all its kits."""

    fabric: str
    need: Annotated[Length | int, "yardage: length; bundles: pieces"]
    buy: Annotated[Buy, "need and margin rounded up; packs so that a kit's pieces come out of the same ones"]
    also: Annotated[Buy | None, "the purchase in metres, for a pattern in inches"]
    kits_a_pack: Annotated[int | None, "kits that one pack serves; null for yardage, pieces, or where a kit needs more"]
    packs: Annotated[
        tuple[PackShare, ...], "the kits split over the packs as evenly as can be; empty without kits_a_pack"
    ]
    deal: Annotated[
        tuple[tuple[int, ...], ...],
        "for each kit of the fullest pack the numbers of its pieces, the pack being sorted from light to dark and "
        "numbered from 1: one piece of each band of lightness",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCut:
    """Lengths over the whole width that are cut for all kits before the class."""

    fabric: str
    h: Length
    times: int
    panel: Annotated[bool, "whether they are panels of the back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPiece:
    """What is cut of one label of yardage for all kits, triangles as their whole squares."""

    label: str
    pieces: int
    bag: Annotated[int, "pieces that go into the bag of each kit; what all bags leave is spare"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """One part of a session."""

    session: Annotated[int, "from 1"]
    at: Annotated[str, "hours:minutes from the beginning of the session"]
    minutes: Annotated[int, "as planned: for work, the middle between least and most"]
    what: LessonKind
    of: Annotated[str, "the unit or block that is sewn; else empty"]
    counts: Annotated[dict[str, int], "work of one student: cuts, seams, presses; show: what the teacher shows first"]
    least: Annotated[int, "minutes that a quick student takes"]
    most: Annotated[int, "minutes that a careful student takes; a later catch-up gives what is missing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassNote:
    """A class that sews this size."""

    id: str
    title: str
    students: int
    kits: Annotated[int, "students + 1 + ceil(students / 10)"]
    sheets: Annotated[tuple[Sheet, ...], "cutting for all kits, strips shared over them"]
    fabrics: tuple[ClassFabric, ...]
    shop: tuple[ShopCut, ...]
    pieces: tuple[ClassPiece, ...]
    sessions: Annotated[tuple[int, ...], "minutes of each"]
    block: Annotated[str, "the block that is sewn in class; empty where no block is pieced"]
    blocks: Annotated[int, "blocks that a student is planned to finish in class"]
    lessons: tuple[Lesson, ...]
