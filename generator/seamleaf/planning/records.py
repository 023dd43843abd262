"""The records that a booklet consists of, as planning fills them.

They *are* the published format: field names are the keys of ``booklet.json`` (``from_`` is written ``from``),
``Length`` is written in the exact notation, ``Fraction`` as a rational, and the notes in ``Annotated`` become
the descriptions of the JSON Schema.

Frames: x runs to the right and y down; a unit's frame has its origin at the top left of its finished box.
Placing a thing means: mirror it (x -> w - x) if ``mirror``, turn it clockwise by ``turn`` degrees about the
centre of its box, and move it so that this centre lies at (x, y).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Literal

from seamleaf.lengths import ZERO, Length
from seamleaf.planning.print_records import ColourNote

Press = Literal["before", "after", "open", "spin"]
Point = tuple[Length, Length]
Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A width and a height."""

    w: Annotated[Length, "width"]
    h: Annotated[Length, "height"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternNote:
    """What the designer says of the pattern."""

    id: Annotated[str, "stem of the pattern file"]
    title: str
    version: str
    designer: str
    summary: str
    skill: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverNote:
    """The bed that this size covers."""

    mattress: Annotated[Box, "top of the mattress"]
    drop: Annotated[Length, "what was asked to hang down on both sides and at the foot"]
    tuck: Annotated[Length, "what is tucked under the pillow"]
    sides: Annotated[Length, "what hangs down on each side, exact; never less than drop"]
    foot: Annotated[Length, "what hangs down at the foot when tuck is tucked, exact; never less than drop"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeNote:
    """Which size this booklet is."""

    id: str
    title: str
    scale: Annotated[Fraction | int, "what the blocks and the set are multiplied by in this size; 1 as they are drawn"]
    cover: Annotated[CoverNote | None, "the bed it was worked out for; null when its blocks are given"]
    bed: Annotated[Box, "mattress that it is shown on: of that bed, or the largest of the trade that it hangs over"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamTest:
    """Three strips sewn side by side: the middle one shows whether the seam allowance is right."""

    strip: Annotated[Length, "cut width of each strip: 6 seams"]
    middle: Annotated[Length, "what the middle strip then measures"]
    whole: Annotated[Length, "what all three measure across"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """How much there is of everything over the whole quilt, so that a page can say it and a proof count it again."""

    sheets: Annotated[int, "strips and bundle pieces that are cut"]
    patches: Annotated[int, "patches that the quilt takes; of halved and quartered squares their triangles"]
    units: Annotated[int, "units that are sewn, every copy, blocks and setting triangles among them"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetNote:
    """How the blocks fill the centre."""

    kind: Literal["straight", "on-point"]
    across: Annotated[int, "blocks across (on point: of the outer grid)"]
    down: Annotated[int, "blocks down (on point: of the outer grid)"]
    block: Annotated[Box, "finished size of one block"]
    blocks: Annotated[int, "all blocks, plain ones too"]
    side_triangles: int
    corner_triangles: int
    rows: Annotated[tuple[int, ...], "blocks in each row, in row order; sash rows left out"]
    run: Annotated[
        Literal["across", "down"],
        "down: the rows of a straight set are columns, numbered from the left and sewn from the top down, and each "
        "strip between them is a row of its own",
    ] = "across"
    half: Annotated[
        int | None,
        "row that ends the first half of a big quilt, whose halves are joined after all other rows",
    ] = None
    centre: Annotated[Box, "finished size of the joined rows, exact"]
    float: Annotated[Length, "how far the block points stay away from the edge of the joined rows"] = ZERO
    trim_beyond: Annotated[Length, "what is left beyond them when that edge is trimmed: the float and the seam"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy:
    """A purchase, rounded up."""

    amount: Annotated[Fraction | int, "yd and m: a rational; pack and piece: an integer"]
    unit: Literal["yd", "m", "pack", "piece"]


@dataclass(frozen=True, slots=True, kw_only=True)
class UsableNote:
    """What a fabric's plan takes when the fabric gives more or less than the pattern counts on."""

    usable: Annotated[Length | Box, "yardage: usable width; bundles: what one piece is sure to yield"]
    need: Annotated[Length | int | None, "as the fabric's need; null when some patch does not come out of it"]
    buy: Buy | None
    also: Annotated[Buy | None, "the same purchase in metres, for yardage of a pattern in inches"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricNote:
    """One fabric with its source, need and purchase."""

    id: str
    letter: Annotated[str, "letter of the fabric in labels and figures"]
    title: str
    source: Annotated[str, "yardage, or the bundle as the pattern names it: squares 10"]
    usable: Annotated[Length | Box, "yardage: usable width; bundles: what one piece is sure to yield"]
    margin: Annotated[Length, "straightening allowance added to the need before the purchase is rounded up"]
    need: Annotated[Length | int, "yardage: length of fabric that the cutting plan uses; bundles: pieces"]
    bound: Annotated[Length | int, "proven lower bound of need; the plan is called optimal only when both are equal"]
    buy: Buy
    least: Annotated[Buy, "what the bound would have a maker buy: where it equals buy, no such plan buys less"]
    also: Annotated[Buy | None, "the same purchase in metres, for yardage of a pattern in inches"]
    prints: Annotated[int, "how many different prints are needed; 1 for yardage"]
    pack: Annotated[int | None, "pieces in one bundle"]
    pinked: Annotated[bool, "whether the pieces have pinked edges and are measured valley to valley"]
    directional: bool
    colours: Annotated[tuple[str, ...], "#rrggbb, as the pattern lists them"]
    tightest: Annotated[Length | None, "smallest slack of a cut in the plan; null when nothing is cut"]
    cliff: Annotated[
        Length | int | None,
        "need at a usable size 1 in (bundles 1/4 in), or 2.5 cm (1/2 cm), smaller; null when that fails",
    ]
    left: Annotated[int | None, "pieces of the bundles bought that stay whole; null where a bundle has no count"] = None
    short: Annotated[int | None, "pieces that one bundle fewer would lack; null where one is enough"] = None
    pieces: Annotated[tuple[int, ...], "bundles: index of the colour that each piece shows, from piece 1 on"] = ()
    choice: Annotated[tuple[ColourNote, ...], "bundles: one a colour, in the order of colours"] = ()
    usables: Annotated[
        tuple[UsableNote, ...], "the need at usual widths (of a back extra-wide too), or of smaller pieces"
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PatchNote:
    """One label: patches of one fabric, print role and cut size."""

    label: str
    fabric: str
    print: Annotated[int | None, "print role of the block for a bundle; null for yardage"]
    w: Annotated[Length, "cut width; halved and quartered: of the square or rectangle that is cut"]
    h: Annotated[Length, "cut height"]
    shape: Annotated[
        Literal["rectangle", "halved", "quartered", "strip"],
        "halved: squares cut once diagonally, rectangles w wide and h high from lower left to upper right, face up; "
        "quartered: squares cut twice; strip: across the usable width or as long as it says",
    ]
    count: Annotated[int, "patches that the quilt takes (halved and quartered: triangles)"]
    spare: Annotated[int, "patches that the cutting plan gives beyond count"]
    use: Annotated[Literal["block", "triangle", "border", "binding", "backing"], "where the label goes"]
    per_block: Annotated[dict[str, int], "how many one block takes, by block unit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One ruler cut of a sheet, in the order of cutting."""

    n: int
    axis: Annotated[Literal["x", "y"], "x: along the line x = at; y: along y = at"]
    at: Length
    span: Annotated[tuple[Length, Length], "ends of the cut on the other axis"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """One patch (halved and quartered: its square) in a sheet, by its top left corner."""

    label: str
    x: Length
    y: Length
    w: Annotated[Length, "width as it lies in the sheet"]
    h: Annotated[Length, "height as it lies in the sheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A strip of yardage (w across the usable width, h along the length) or a bundle piece, cut the same ``times``."""

    fabric: str
    sheet: Box
    times: int
    print: Annotated[int | None, "print role that the sheet serves; null for yardage and mixed sheets"]
    mixed: Annotated[bool, "whether a bundle sheet serves several print roles"]
    parts: tuple[SheetPart, ...]
    cuts: Annotated[tuple[Cut, ...], "the ruler cuts in order; triangles are cut from their squares afterwards"]
    gives: Annotated[dict[str, int], "how many parts of each label one sheet gives"]
    pieces: Annotated[tuple[int, int] | None, "bundles: the first and the last number of the pieces cut so"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """What one batch of a unit takes: ``n`` of a patch or of an earlier unit, and where it lies."""

    label: str | None
    unit: str | None
    n: Annotated[int, "how many one batch takes"]
    x: Annotated[Length, "centre of its box in the unit's frame"]
    y: Length
    turn: Annotated[int, "degrees clockwise"]
    mirror: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """The finished outline, in the unit's frame, of a patch that the unit itself takes."""

    label: str
    fabric: str
    print: int | None
    outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """Sewn patches, in sewing order: every unit stands after those that it takes."""

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
    method: Annotated[
        Literal["two", "four", "eight", "triangles", "flip", "strips"] | None, "how many at a time, or how it is sewn"
    ]
    block: Annotated[str | None, "the pattern's block that this unit is, if it is a whole one"]
    variant: Annotated[Literal["A", "B"] | None, "A and B units are sewn alike but pressed their own way"]
    axis: Annotated[Literal["row", "column"] | None, "join: left to right or top to bottom"]
    finished: Box
    outline: Annotated[Outline, "finished outline; a setting triangle has its right angle at the origin"]
    from_: tuple[Take, ...]
    batch: Annotated[dict[str, int], "what one batch takes in all, by label or unit id"]
    makes: Annotated[int, "units one batch makes"]
    batches: Annotated[int, "ceil(count / makes)"]
    count: Annotated[int, "units that the quilt takes"]
    per_block: Annotated[dict[str, int], "how many one block takes, by block unit; a block itself: 1"]
    made: Annotated[Box, "unfinished size as sewn"]
    trim: Annotated[Box | None, "unfinished size after trimming; null when nothing is trimmed"]
    seams: Annotated[tuple[str, ...], "ids of its seams, in sewing order"]
    regions: Annotated[tuple[Region, ...], "finished outlines of the patches that it takes itself"]
    symmetry: Annotated[int, "smallest turn, of 90, 180 and 360 degrees, after which the unit looks the same"]
    mirrored: Annotated[int, "how many of count lie mirrored; one batch makes as many of these as of the others"] = 0
    lies: Annotated[int, "a whole block: how the pattern draws it, in degrees clockwise from the unit's frame"] = 0
    offset: Annotated[
        Length | None, "half-rectangle: how far each sharp tip sticks out where its triangles are laid together"
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """One seam of a unit (not of a copy), of a row, between rows, or of a border."""

    id: str
    of: Annotated[str, 'unit id, "row" (between places of a row), "rows" (between rows, and corners), "border N"']
    axis: Annotated[Literal["x", "y", "d"], "x: on the line x = at, joining left to right; y: likewise; d: sloping"]
    at: Length | None
    span: Annotated[tuple[Length, Length] | None, "ends on the other axis; null for d"]
    line: Annotated[tuple[Point, Point], "both ends, whatever the axis"]
    press: Annotated[Press, "before: to smaller x or y, for d to the first part"]
    first: Annotated[str, "what is sewn to what: label or unit id, row or border"]
    second: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """Match points inside one copy of a unit, its own seams and those of the units in it."""

    match_points: int
    nested: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """A match point of the joined centre that does not nest: pin there."""

    x: Annotated[Length, "in the centre's frame"]
    y: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressing:
    """How the seams meet, over the whole top and every copy. nested + open + spun + clash = match_points."""

    match_points: int
    nested: int
    open: int
    spun: int
    clash: int
    proven: Annotated[bool, "whether no plan of this kind has fewer clashes"]
    inside: Annotated[dict[str, Nest], "by unit id"]
    turned: Annotated[int, "blocks that the pressing turns by a quarter so that seams nest"]
    pins: Annotated[tuple[Clash, ...], "the match points that do not nest, at most 200 of them"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One block, sash, cornerstone or triangle in the centre's frame (origin its top left, before borders)."""

    unit: str
    x: Annotated[Length, "centre of the unit's box"]
    y: Length
    turn: Annotated[int, "degrees clockwise, a multiple of 45"]
    mirror: bool
    row: Annotated[int | None, "row from 1; null for the corner triangles, which are sewn last"]
    prints: Annotated[tuple[int, ...], "numbers of the bundle pieces used, one a print role"]
    number: Annotated[str | None, "row.position of a block, for its pin-on label; null for triangles"]
    kind: Literal["block", "side", "corner", "sash", "cornerstone"]
    pressing_turn: Annotated[int, "part of turn that the pressing added"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row; row 1 holds the top left corner of the quilt."""

    row: int
    items: Annotated[
        tuple[int, ...],
        "indexes into places, left to right (on point: lower left to upper right; where rows run down: top to bottom)",
    ]
    press: Annotated[tuple[Press, ...], "one a seam of the row, in sewing order: before is toward the start of the row"]
    beside: Annotated[int | None, "row of sashes that is joined to this one before its side triangles are sewn on"]
    left_open: Annotated[
        tuple[int, ...],
        "of items, the triangles that are sewn to the row alone: their seam stays open at its end, over the row of "
        "sashes that is joined next, and is closed then",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """A stop at which the maker measures before sewing on."""

    after: Literal["unit", "block", "row", "centre", "border"]
    of: Annotated[str, "unit id, number of the row or of the border, or centre"]
    w: Annotated[Length | None, "unfinished width expected, as it lies; null for a row with slanting ends"]
    h: Annotated[Length, "unfinished height expected, of a row with slanting ends its width"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """Rests of one fabric and size."""

    fabric: str
    w: Length
    h: Length
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bonus:
    """Half-squares that can be sewn from what stitch and flip cuts off, where they are large enough to be of use."""

    unit: Annotated[str, "id of the unit whose corners are cut off"]
    base: Annotated[str, "label of the patch whose corner is cut off"]
    corner: Annotated[str, "label of the square that is sewn across it"]
    count: Annotated[int, "half-squares, one a corner: each from a triangle of base and one of corner"]
    leg: Annotated[Length, "short side of both triangles, exact: what is cut off a seam beyond the seam line"]
    apart: Annotated[Length, "how far beyond the corner's seam a second seam joins both before they are cut off"]
    trim: Annotated[Length, "unfinished side that each half-square can be trimmed to"]
    finished: Annotated[Length, "finished side of it"]
