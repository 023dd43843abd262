"""The records of what is sewn after the centre: borders, binding, back and batting; see :mod:`records`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from seamleaf.lengths import Length
from seamleaf.planning.records import Box


@dataclass(frozen=True, slots=True, kw_only=True)
class BorderStrip:
    """One side of a border, as cut."""

    edge: Literal["left", "right", "top", "bottom"]
    length: Annotated[Length, "expected cut length; the maker measures the quilt"]
    w: Annotated[Length, "cut width; of a pieced strip its unfinished width"]
    unit: Annotated[str | None, "unit that is this strip of a pieced border; null for a strip of one fabric"] = None
    turn: Annotated[int, "how that unit lies, in degrees clockwise about its centre: 0 at the top"] = 0
    label: Annotated[
        str | None, "label of the patch that is this strip, cut along the fabric in one piece; null for any other strip"
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BorderNote:
    """One border, from the inside out."""

    label: Annotated[
        str | None, "label of the strips that are joined; null where each strip is a unit or a patch of its own"
    ]
    fabric: Annotated[str | None, "fabric of its strips; null for a pieced border"]
    width: Annotated[Length, "finished width"]
    corner: Literal["butted", "mitred", "cornerstone"]
    order: Annotated[int, "from 1, the innermost"]
    pieces: Annotated[int, "strips across the usable width that are joined; 0 without a label"]
    joined: Annotated[Length, "length that the joined strips give after what the joins eat; 0 without a label"]
    together: Annotated[
        tuple[int, ...], "borders whose strips are sewn together first and mitred as one; empty for one of its own"
    ]
    strips: Annotated[tuple[BorderStrip, ...], "in sewing order"]
    corners: Annotated[str | None, "label of the cornerstones"]
    before: Annotated[Box, "finished size of the quilt before this border, exact"]
    after: Annotated[Box, "finished size of the quilt after this border, exact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BindingNote:
    """The binding strip."""

    label: str
    fabric: str
    need: Annotated[Length, "perimeter + extra, exact"]
    extra: Length
    length: Annotated[Length, "what the joined strips give after what the joins eat"]
    strips: Annotated[int, "strips that are joined; on the bias: squares that are made into strips"]
    width: Annotated[Length, "cut width of the strip"]
    cut: Annotated[
        Literal["crosswise", "lengthwise", "bias"],
        "lengthwise: along the fabric; bias: in one piece from a square that is sewn into a tube",
    ]
    square: Annotated[Length | None, "bias: side of each square; null for strips across or along the fabric"]
    rounds: Annotated[int | None, "bias: strips that lie beside each other on the panel of one square"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertPiece:
    """Leftovers of one size in the pieced strip of a back."""

    fabric: str
    w: Annotated[Length, "longer side of the rest, or of the bundle piece"]
    h: Annotated[Length, "shorter side"]
    spare: Annotated[bool, "a whole piece of the bundle that the quilt does not need; otherwise a rest of the cutting"]
    count: int
    gives: Annotated[Length, "the side that lies along the strip; the other is cut to the width of the strip"]
    sewn: Annotated[Length, "what one piece adds to the strip between two others"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertNote:
    """A strip of leftovers that is sewn into the back."""

    width: Annotated[Length, "cut width of the strip"]
    length: Annotated[Length, "what the pieces give when joined, as cut; at least the length of a panel"]
    pieces: Annotated[tuple[InsertPiece, ...], "in sewing order"]
    parts: Annotated[
        tuple[Length, ...],
        "widths of the two parts of a single panel, which is cut lengthwise; empty for several panels",
    ]
    saves: Annotated[Length, "length of fabric that the back would take more without it"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BackingNote:
    """The back."""

    label: str
    fabric: str
    w: Annotated[Length, "finished width of the quilt + 2 * extra, exact"]
    h: Length
    panels: int
    seam: Annotated[Literal["none", "vertical", "horizontal"], "direction of the seams between panels"]
    need: Annotated[Length, "length of fabric"]
    panel: Annotated[Box, "cut size of one panel: the usable width by its length"]
    allowance: Annotated[Length, "seam allowance of the joins, each of which loses two: 1/2 in, or 1.25 cm"]
    insert_asked: Annotated[bool, "whether the pattern asks for a strip of leftovers"]
    insert: Annotated[InsertNote | None, "strip of leftovers that stands in for a panel; null for a plain back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Package:
    """A batting size that the trade sells."""

    id: str
    w: Length
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class BattingNote:
    """The batting."""

    w: Length
    h: Length
    package: Annotated[Package | None, "smallest trade size that holds it; null when none does"]
