"""The parts of blocks, as a pattern file names them; each is a frozen record of exact lengths.

``where`` is the record's place in the file; it takes no part in comparisons, so that equal parts are equal wherever
they stand.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from seamleaf.lengths import Length
from seamleaf.reading.marks import Mark

Turn = Literal[0, 90, 180, 270]
Point = Literal["up", "down", "left", "right"]
Method = Literal["two", "four", "eight", "triangles", "flip", "strips", "patches"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricUse:
    """A fabric named in a part: for a bundle the print role 1..k of the block, for yardage no print."""

    fabric: str
    print: int | None
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """``"star.1 2 x 6"``: one cut piece, by its finished width and height."""

    use: FabricUse
    w: Length
    h: Length
    where: Mark = field(compare=False)
    own: str = ""
    """What the patch alone is for, if it has a label of its own though others may be cut alike."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """``row: [...]`` (left to right) or ``column: [...]`` (top to bottom). A grid is read as a column of rows."""

    axis: Literal["row", "column"]
    parts: tuple[Part, ...]
    where: Mark = field(compare=False)
    method: Method | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfSquare:
    """Two triangles: ``first`` is the upper left half, the seam rises from lower left to upper right; then turned."""

    first: FabricUse
    second: FabricUse
    w: Length
    h: Length
    turn: Turn
    method: Method | None
    oversize: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuarterSquare:
    """Four triangles that meet in the middle: top, right, bottom, left; then turned."""

    uses: tuple[FabricUse, FabricUse, FabricUse, FabricUse]
    w: Length
    h: Length
    turn: Turn
    method: Method | None
    oversize: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreeTriangle:
    """A square of a half, at the upper left, and two quarters, at the right and the bottom; then turned.

    Its mirror image is no turn of it, unless the quarters are alike.
    """

    half: FabricUse
    right: FabricUse
    bottom: FabricUse
    w: Length
    h: Length
    turn: Turn
    method: Method | None
    oversize: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfRectangle:
    """Two triangles of a rectangle, w and h as it lies: ``first`` upper left at turn 0, upper right at 90 and so on.

    The seam rises at turns of 0 and 180 and falls at the others; one is the mirror image of the other.
    """

    first: FabricUse
    second: FabricUse
    w: Length
    h: Length
    turn: Turn
    oversize: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Geese:
    """Flying geese, twice as wide as high when the goose points up or down; w and h as the unit lies."""

    goose: FabricUse
    sky: FabricUse
    w: Length
    h: Length
    point: Point
    method: Method | None
    oversize: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """Stitch and flip: squares sewn across corners of a rectangle; absent corners are ``None``."""

    base: FabricUse
    top_left: FabricUse | None
    top_right: FabricUse | None
    bottom_right: FabricUse | None
    bottom_left: FabricUse | None
    corner: Length
    w: Length
    h: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Diamond:
    """Square in a square: ``centre`` stands on its point inside, ``corners`` fill up."""

    centre: FabricUse | Part
    corners: FabricUse
    w: Length
    h: Length
    oversize: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """One log of a log cabin: its fabric and finished width."""

    use: FabricUse
    width: Length
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """Log cabin: logs sewn round a centre, from side ``start``; ``opposite`` makes courthouse steps."""

    centre: Part
    logs: tuple[Log, ...]
    start: Literal["top", "right", "bottom", "left"]
    direction: Literal["clockwise", "anticlockwise", "opposite"]
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Partial:
    """Four equal rectangles round a centre, closed by a partial seam."""

    centre: Part
    ring: Patch
    direction: Literal["clockwise", "anticlockwise"]
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class UseBlock:
    """Another block as a part: mirrored left-right first, then turned clockwise."""

    block: str
    turn: Turn
    mirror: bool
    where: Mark = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A part that could not be read; its problem is reported already, and it fits anywhere."""

    where: Mark = field(compare=False)


Part = (
    Patch
    | Join
    | HalfSquare
    | QuarterSquare
    | ThreeTriangle
    | HalfRectangle
    | Geese
    | Corners
    | Diamond
    | Around
    | Partial
    | UseBlock
    | Broken
)
