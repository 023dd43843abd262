"""The booklet: everything computed for one pattern in one size. Pages, figures and the JSON are views of it.

Its parts are the records that planning fills, re-exported here for the layers that only look at booklets.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from seamleaf.lengths import Length
from seamleaf.planning.class_records import ClassFabric, ClassNote, ClassPiece, Lesson, PackShare, ShopCut
from seamleaf.planning.estimate_records import (
    Estimates,
    Pace,
    PaceNote,
    SeamSum,
    ThreadNote,
    ThreadRange,
    TimeNote,
    WorkTime,
)
from seamleaf.planning.finish_records import (
    BackingNote,
    BattingNote,
    BindingNote,
    BorderNote,
    BorderStrip,
    InsertNote,
    Package,
)
from seamleaf.planning.print_records import ColourNote, FamilyNote, LayoutNote, PrintsTask, RoleNote, ServeNote
from seamleaf.planning.records import (
    Bonus,
    Box,
    Buy,
    Clash,
    Cut,
    FabricNote,
    Gate,
    Nest,
    Offcut,
    Outline,
    PatchNote,
    PatternNote,
    Place,
    Point,
    Press,
    Pressing,
    Region,
    Row,
    Seam,
    SeamTest,
    SetNote,
    Sheet,
    SheetPart,
    SizeNote,
    Take,
    Totals,
    Unit,
)

FORMAT: Final = "seamleaf-booklet/1"

__all__ = [
    "FORMAT",
    "BackingNote",
    "BattingNote",
    "BindingNote",
    "Bonus",
    "Booklet",
    "BorderNote",
    "BorderStrip",
    "Box",
    "Buy",
    "Clash",
    "ClassFabric",
    "ClassNote",
    "ClassPiece",
    "ColourNote",
    "Cut",
    "Estimates",
    "FabricNote",
    "FamilyNote",
    "Gate",
    "InsertNote",
    "LayoutNote",
    "Lesson",
    "Nest",
    "Offcut",
    "Outline",
    "Pace",
    "PaceNote",
    "PackShare",
    "Package",
    "PatchNote",
    "PatternNote",
    "Place",
    "Point",
    "Press",
    "Pressing",
    "PrintsTask",
    "Region",
    "RoleNote",
    "Row",
    "Seam",
    "SeamSum",
    "SeamTest",
    "ServeNote",
    "SetNote",
    "Sheet",
    "SheetPart",
    "ShopCut",
    "SizeNote",
    "Take",
    "ThreadNote",
    "ThreadRange",
    "TimeNote",
    "Totals",
    "Unit",
    "WorkTime",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Booklet:
    """The one record of a pattern in one size."""

    format: Literal["seamleaf-booklet/1"]
    pattern: PatternNote
    size: SizeNote
    unit: Annotated[Literal["in", "cm"], "unit of every length in this booklet"]
    seam: Annotated[Length, "seam allowance"]
    seam_test: SeamTest
    finished: Annotated[Box, "the quilt, exact"]
    set: SetNote
    fabrics: tuple[FabricNote, ...]
    patches: tuple[PatchNote, ...]
    cutting: tuple[Sheet, ...]
    units: tuple[Unit, ...]
    seams: tuple[Seam, ...]
    pressing: Pressing
    places: tuple[Place, ...]
    rows: tuple[Row, ...]
    gates: Annotated[tuple[Gate, ...], "where to stop and measure, in the order of the work"]
    borders: tuple[BorderNote, ...]
    binding: BindingNote | None
    backing: BackingNote
    batting: BattingNote
    offcuts: tuple[Offcut, ...]
    classes: tuple[ClassNote, ...]
    totals: Totals
    estimates: Estimates
    cautions: Annotated[tuple[str, ...], "ids of the cautions that the pages show"]
    layout: Annotated[LayoutNote | None, "how prints are laid out; null when no block has prints of a bundle"] = None
    prints: Annotated[PrintsTask | None, "what prints are laid out from; null when no fabric comes from a bundle"] = (
        None
    )
    bonus: Annotated[tuple[Bonus, ...], "offcuts of stitch and flip from which half-squares can be sewn"] = ()
