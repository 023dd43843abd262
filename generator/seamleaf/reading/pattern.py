"""The model of a pattern file: what the designer wrote, checked for form, before any arithmetic.

Every record is frozen. Lengths are exact, in the pattern's unit. ``where`` is the record's place in the
file; it takes no part in comparisons, so that equal parts are equal wherever they stand.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from seamleaf.lengths import Length, Measures
from seamleaf.reading.marks import Mark
from seamleaf.reading.pace_record import Paces
from seamleaf.reading.part_records import FabricUse, Part, Turn
from seamleaf.reading.stated_records import StatedSize

SourceKind = Literal["yardage", "squares", "strips", "fat quarters", "fat eighths"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """A fabric role with its source."""

    id: str
    title: str
    source: SourceKind
    source_size: Length | None
    """Side of bundle squares or width of bundle strips, in the pattern's unit; ``None`` for the others."""
    source_text: str
    """The source as it is written, for example ``squares 10``."""
    usable: tuple[Length, Length]
    """Yardage: (usable width, 0). Bundles: width and height that a piece is sure to yield."""
    pack: int | None
    edge: Literal["straight", "pinked"]
    colours: tuple[str, ...]
    """``#rrggbb`` each, at least one; a yardage fabric has exactly one."""
    directional: bool
    margin: Length
    where: Mark = field(compare=False)

    @property
    def is_yardage(self) -> bool:
        """Whether the fabric is bought by length, and so has no prints."""
        return self.source == "yardage"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A named block; ``finished`` is what the designer says its size is, if anything."""

    id: str
    part: Part
    finished: tuple[Length, Length] | None
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell of a tile: a block with a turn, or a plain patch of a fabric."""

    block: str | None
    plain: FabricUse | None
    turn: Turn
    where: Mark = field(compare=False)


Tile = tuple[tuple[Cell, ...], ...]
"""Rows of cells; column i, row j of the grid takes ``tile[j mod rows][i mod columns]``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sashing:
    """Strips between the blocks."""

    fabric: FabricUse
    width: Length
    cornerstone: FabricUse | None
    outer: bool
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Triangles:
    """Setting triangles of an on-point set; ``oversize`` is added to the squares' sides, ``float`` to the edge."""

    fabric: str
    oversize: Length
    float: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How blocks fill the centre; a strippy set is a straight one whose rows run down, with its strips as sashing."""

    set: Literal["straight", "on-point"]
    blocks: Tile
    between: Tile | None
    turns: Literal["free", "fixed"]
    sashing: Sashing | None
    triangles: Triangles | None
    where: Mark = field(compare=False)
    run: Literal["across", "down"] = "across"
    """Which way a straight set's rows run: down where columns of blocks stand between strips as long as they are."""


Widths = tuple[Length, ...]
"""The widths that a border may have, from the least: one, or the steps of a range (``2 to 6 by 1/2``)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """One border, from the inside out; a size may give it other widths."""

    fabric: str
    widths: Widths
    corner: Literal["butted", "mitred", "cornerstone"]
    cornerstone: str | None
    where: Mark = field(compare=False)
    pieced: str | None = None
    """The block that is repeated round the quilt, as it lies at the top; ``fabric`` is then that of its spacers, and
    its height the border's width: ``widths`` holds nothing but 0."""
    joined: bool = False
    """Whether its strips are sewn to those of the border inside it first, and both are mitred as one."""
    cut: Literal["crosswise", "lengthwise"] = "crosswise"
    """Whether its strips are joined from strips across the fabric, or each is cut along it in one piece."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """The binding strip as cut, and what is added to the perimeter."""

    fabric: str
    strip: Length
    cut: Literal["crosswise", "lengthwise", "bias"]
    extra: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing:
    """The back; without ``fabric`` it is a fabric of its own."""

    fabric: str | None
    usable: Length
    extra: Length
    insert: bool
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """A bed to cover: mattress, drop over the sides and the foot, tuck under the pillow."""

    mattress: tuple[Length, Length]
    drop: Length
    tuck: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size: block counts, or a bed to cover; ``borders`` are this size's widths, ``None`` for the pattern's.

    Of a range a bed takes what covers it with the smallest quilt; a size by block counts takes the least width, or
    inside a pieced border the least that suits its units.
    """

    id: str
    title: str
    blocks: tuple[int, int] | None
    cover: Cover | None
    borders: tuple[Widths, ...] | None
    where: Mark = field(compare=False)
    scale: Fraction | None = None
    """What blocks and set are multiplied by in this size."""
    finished: tuple[Length, Length] | None = None
    """The block's finished size in this size, from which the scale follows; not with ``scale``."""
    scale_where: Mark | None = field(default=None, compare=False)
    locks: tuple[Lock, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LockedPrint:
    """One print of a block that shows a certain colour of its bundle."""

    fabric: str
    print: int
    colour: int
    """Index into the colours of the fabric."""
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """A block of the layout whose prints, or some of them, are decided."""

    block: str
    """Its number in the layout: row.position."""
    prints: tuple[LockedPrint, ...]
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPlan:
    """A class that sews one size; ``sessions`` in hours."""

    id: str
    title: str
    size: str
    students: int
    sessions: tuple[Fraction, ...]
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A whole pattern file."""

    id: str
    title: str
    version: str
    designer: str
    summary: str
    skill: str
    measures: Measures
    seam: Length
    fabrics: dict[str, Fabric]
    """In the order of the file, which is the order of the letters."""
    blocks: dict[str, Block]
    setting: Setting
    borders: tuple[Border, ...]
    binding: Binding | None
    backing: Backing
    batting_extra: Length
    sizes: dict[str, Size]
    classes: dict[str, ClassPlan]
    paces: Paces
    versions: dict[str, str] = field(default_factory=dict)
    """What the designer says of a version, by version: for the correction notes."""
    stated: tuple[StatedSize, ...] = ()
    version_where: Mark = field(default=Mark(1, 1), compare=False)
