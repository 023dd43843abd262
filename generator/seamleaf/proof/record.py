"""The published booklet as the proof reads it: field names are the keys of ``booklet.json``.

Written down from the published format, not shared with the program that writes it. Every object knows its
JSON Pointer; keys that are not listed here are passed over, since the format may grow.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from seamleaf.lengths import Length
from seamleaf.proof.class_record import Buy, ClassFabric, ClassPiece, Lesson, ShopCut
from seamleaf.proof.estimate_record import Estimates
from seamleaf.proof.finish_record import Backing, Batting, Binding, Border
from seamleaf.proof.form import Box, Record
from seamleaf.proof.print_record import ColourNote, LayoutNote

Point = tuple[Length, Length]
Press = Literal["before", "after", "open", "spin"]
Axis = Literal["x", "y"]

RENAMED: Final = {"from_": "from"}
"""Keys that are words of Python."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternNote(Record):
    """Which pattern."""

    id: str
    title: str
    version: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover(Record):
    """A bed to cover."""

    mattress: Box
    drop: Length
    tuck: Length
    sides: Length
    foot: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeNote(Record):
    """Which size."""

    id: str
    title: str
    scale: Fraction | int
    cover: Cover | None
    bed: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamTest(Record):
    """Three strips sewn side by side."""

    strip: Length
    middle: Length
    whole: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals(Record):
    """How much there is of everything."""

    sheets: int
    patches: int
    units: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SetNote(Record):
    """How the blocks fill the centre."""

    kind: Literal["straight", "on-point"]
    across: int
    down: int
    block: Box
    blocks: int
    side_triangles: int
    corner_triangles: int
    rows: tuple[int, ...]
    run: Literal["across", "down"]
    half: int | None
    centre: Box
    float: Length
    trim_beyond: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Usable(Record):
    """The need of a fabric at another usable size."""

    usable: Length | Box
    need: Length | int | None
    buy: Buy | None
    also: Buy | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric(Record):
    """A fabric."""

    id: str
    letter: str
    title: str
    source: str
    usable: Length | Box
    margin: Length
    need: Length | int
    bound: Length | int
    buy: Buy
    least: Buy
    also: Buy | None
    prints: int
    pack: int | None
    left: int | None
    short: int | None
    pinked: bool
    directional: bool
    colours: tuple[str, ...]
    pieces: tuple[int, ...]
    choice: tuple[ColourNote, ...]
    tightest: Length | None
    cliff: Length | int | None
    usables: tuple[Usable, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch(Record):
    """What one label stands for."""

    label: str
    fabric: str
    print: int | None
    w: Length
    h: Length
    shape: Literal["rectangle", "halved", "quartered", "strip"]
    count: int
    spare: int
    use: Literal["block", "triangle", "border", "binding", "backing"]
    per_block: dict[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart(Record):
    """A patch in a sheet."""

    label: str
    x: Length
    y: Length
    w: Length
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut(Record):
    """A ruler cut."""

    n: int
    axis: Axis
    at: Length
    span: tuple[Length, Length]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet(Record):
    """A strip of yardage or a bundle piece, cut the same ``times``."""

    fabric: str
    sheet: Box
    times: int
    print: int | None
    mixed: bool
    parts: tuple[SheetPart, ...]
    cuts: tuple[Cut, ...]
    gives: dict[str, int]
    pieces: tuple[int, int] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Take(Record):
    """What a unit takes."""

    label: str | None
    unit: str | None
    n: int
    x: Length
    y: Length
    turn: int
    mirror: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Region(Record):
    """The finished outline of a patch in its unit."""

    label: str
    fabric: str
    print: int | None
    outline: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit(Record):
    """Sewn patches."""

    id: str
    how: Literal[
        "patch",
        "join",
        "half-square",
        "quarter-square",
        "three-triangle",
        "half-rectangle",
        "geese",
        "corners",
        "diamond",
        "around",
        "partial",
        "strip-set",
    ]
    method: Literal["two", "four", "eight", "triangles", "flip", "strips"] | None
    block: str | None
    variant: Literal["A", "B"] | None
    axis: Literal["row", "column"] | None
    finished: Box
    outline: tuple[Point, ...]
    from_: tuple[Take, ...]
    batch: dict[str, int]
    makes: int
    batches: int
    count: int
    per_block: dict[str, int]
    made: Box
    trim: Box | None
    seams: tuple[str, ...]
    regions: tuple[Region, ...]
    symmetry: int
    lies: int
    mirrored: int
    offset: Length | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam(Record):
    """A seam, once for all its copies."""

    id: str
    of: str
    axis: Literal["x", "y", "d"]
    at: Length | None
    span: tuple[Length, Length] | None
    line: tuple[Point, Point]
    press: Press
    first: str
    second: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest(Record):
    """Match points inside one copy of a unit."""

    match_points: int
    nested: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin(Record):
    """A match point that does not nest."""

    x: Length
    y: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressing(Record):
    """How the seams meet."""

    match_points: int
    nested: int
    open: int
    spun: int
    clash: int
    proven: bool
    inside: dict[str, Nest]
    turned: int
    pins: tuple[Pin, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place(Record):
    """A block, sash, cornerstone or triangle in the centre."""

    unit: str
    x: Length
    y: Length
    turn: int
    mirror: bool
    row: int | None
    prints: tuple[int, ...]
    number: str | None
    kind: str
    pressing_turn: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate(Record):
    """A stop to measure."""

    after: Literal["unit", "block", "row", "centre", "border"]
    of: str
    w: Length | None
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Row(Record):
    """A row."""

    row: int
    items: tuple[int, ...]
    press: tuple[Press, ...]
    beside: int | None
    left_open: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut(Record):
    """Rests of one fabric and size."""

    fabric: str
    w: Length
    h: Length
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bonus(Record):
    """Half-squares from the corners that stitch and flip cuts off."""

    unit: str
    base: str
    corner: str
    count: int
    leg: Length
    apart: Length
    trim: Length
    finished: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassNote(Record):
    """A class that sews this size."""

    id: str
    title: str
    students: int
    kits: int
    sheets: tuple[Sheet, ...]
    fabrics: tuple[ClassFabric, ...]
    shop: tuple[ShopCut, ...]
    pieces: tuple[ClassPiece, ...]
    sessions: tuple[int, ...]
    block: str
    blocks: int
    lessons: tuple[Lesson, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Booklet(Record):
    """Everything that is published of one pattern in one size."""

    format: Literal["seamleaf-booklet/1"]
    pattern: PatternNote
    size: SizeNote
    unit: Literal["in", "cm"]
    seam: Length
    seam_test: SeamTest
    finished: Box
    totals: Totals
    estimates: Estimates
    set: SetNote
    fabrics: tuple[Fabric, ...]
    patches: tuple[Patch, ...]
    cutting: tuple[Sheet, ...]
    units: tuple[Unit, ...]
    seams: tuple[Seam, ...]
    pressing: Pressing
    places: tuple[Place, ...]
    rows: tuple[Row, ...]
    gates: tuple[Gate, ...]
    borders: tuple[Border, ...]
    binding: Binding | None
    backing: Backing
    batting: Batting
    offcuts: tuple[Offcut, ...]
    classes: tuple[ClassNote, ...]
    cautions: tuple[str, ...]
    layout: LayoutNote | None
    bonus: tuple[Bonus, ...]
