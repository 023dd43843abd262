"""Turn and mirror parts by rewriting the tree, so that a turned block is again a plain tree of parts.

Mirroring (left-right) comes first, then the turn clockwise, as ``{use: ..., turn: ..., mirror: ...}`` says.
Two parts that look and are sewn alike after turning become equal trees; that is how twins are found.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal, TypeVar, cast

from seamleaf.reading.part_records import (
    Around,
    Broken,
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    Join,
    Part,
    Partial,
    Patch,
    Point,
    QuarterSquare,
    ThreeTriangle,
    Turn,
    UseBlock,
)
from seamleaf.reading.pattern import Pattern

T = TypeVar("T")

Side = Literal["top", "right", "bottom", "left"]
Ring = Literal["clockwise", "anticlockwise"]

_SIDES: Final[tuple[Side, ...]] = ("top", "right", "bottom", "left")
_MIRRORED_SIDE: Final[dict[Side, Side]] = {"top": "top", "right": "left", "bottom": "bottom", "left": "right"}
_MIRRORED_POINT: Final[dict[Point, Point]] = {"up": "up", "right": "left", "down": "down", "left": "right"}
_MIRRORED_SPIN: Final[dict[Ring | Literal["opposite"], Ring | Literal["opposite"]]] = {
    "clockwise": "anticlockwise",
    "anticlockwise": "clockwise",
    "opposite": "opposite",
}
_POINTS: Final[tuple[Point, ...]] = ("up", "right", "down", "left")


def expand(part: Part, pattern: Pattern) -> Part:
    """Replace every use of a block by the block's own tree, turned and mirrored as the use says.

    The tree is finite: reading has refused blocks that use themselves.
    """
    match part:
        case UseBlock():
            return turned(expand(pattern.blocks[part.block].part, pattern), part.turn, mirror=part.mirror)
        case Join():
            return replace(part, parts=tuple(expand(each, pattern) for each in part.parts))
        case Diamond():
            return part if isinstance(part.centre, FabricUse) else replace(part, centre=expand(part.centre, pattern))
        case Around() | Partial():
            return replace(part, centre=expand(part.centre, pattern))
        case HalfSquare() | HalfRectangle():
            return _settle_half(part)
        case QuarterSquare():
            return _settle_quarter_square(part)
        case _:
            return part


def turned(part: Part, turn: int, *, mirror: bool = False) -> Part:
    """Return the part mirrored if asked, then turned clockwise by ``turn`` degrees (a multiple of 90)."""
    if mirror:
        part = _mirrored(part)
    return _turned(part, turn % 360) if turn % 360 else part


def add_turns(*turns: int) -> Turn:
    """Add turns, modulo a full turn."""
    return cast("Turn", sum(turns) % 360)


def _settle_half(part: HalfSquare | HalfRectangle) -> HalfSquare | HalfRectangle:
    """Of the two ways to write two halves (swap the fabrics, add a half turn), take the first by name."""
    if _name(part.second) < _name(part.first):
        return replace(part, first=part.second, second=part.first, turn=add_turns(part.turn, 180))
    return part


def _settle_quarter_square(part: QuarterSquare) -> QuarterSquare:
    """Write the turn of a quarter-square into the order of its fabrics."""
    return replace(part, uses=_roll(part.uses, part.turn // 90), turn=add_turns(0))


def _name(use: FabricUse) -> tuple[str, int]:
    return (use.fabric, use.print or 0)


def _roll(items: tuple[T, T, T, T], quarters: int) -> tuple[T, T, T, T]:
    """Move top to right, right to bottom and so on, ``quarters`` times."""
    k = -quarters % 4
    return cast("tuple[T, T, T, T]", items[k:] + items[:k])


def _swapped_ends(part: Join) -> tuple[Part, ...]:
    return tuple(reversed(part.parts))


def _mirrored(part: Part) -> Part:
    match part:
        case Join():
            parts = _swapped_ends(part) if part.axis == "row" else part.parts
            return replace(part, parts=tuple(_mirrored(each) for each in parts))
        case HalfSquare() | HalfRectangle():
            return _settle_half(replace(part, turn=add_turns(90, -part.turn)))
        case QuarterSquare():
            top, right, bottom, left = part.uses
            return replace(part, uses=(top, left, bottom, right))
        case ThreeTriangle():
            return replace(part, right=part.bottom, bottom=part.right, turn=add_turns(90, -part.turn))
        case Geese():
            return replace(part, point=_MIRRORED_POINT[part.point])
        case Corners():
            return replace(
                part,
                top_left=part.top_right,
                top_right=part.top_left,
                bottom_right=part.bottom_left,
                bottom_left=part.bottom_right,
            )
        case Diamond():
            # The centre's frame is the unit's turned by 45 degrees: mirroring the unit mirrors it and turns it on.
            return (
                part
                if isinstance(part.centre, FabricUse)
                else replace(part, centre=turned(part.centre, 270, mirror=True))
            )
        case Around():
            return replace(
                part,
                centre=_mirrored(part.centre),
                start=_MIRRORED_SIDE[part.start],
                direction=_MIRRORED_SPIN[part.direction],
            )
        case Partial():
            spin: Ring = "anticlockwise" if part.direction == "clockwise" else "clockwise"
            return replace(part, centre=_mirrored(part.centre), direction=spin)
        case UseBlock():
            raise AssertionError("uses are expanded before they are turned")
        case Patch() | Broken():
            return part


def _turned(part: Part, turn: int) -> Part:
    upended = turn in (90, 270)
    quarters = turn // 90
    match part:
        case Patch():
            return replace(part, w=part.h, h=part.w) if upended else part
        case Join():
            # The left end of a row turns to the top, the top of a column to the right.
            backwards = turn == 180 or (turn == 90) == (part.axis == "column")
            parts = _swapped_ends(part) if backwards else part.parts
            axis = ("column" if part.axis == "row" else "row") if upended else part.axis
            return replace(part, axis=axis, parts=tuple(_turned(each, turn) for each in parts))
        case HalfSquare() | ThreeTriangle() | HalfRectangle():
            w, h = (part.h, part.w) if upended else (part.w, part.h)
            return replace(part, turn=add_turns(part.turn, turn), w=w, h=h)
        case QuarterSquare():
            return replace(part, uses=_roll(part.uses, quarters))
        case Geese():
            point = _POINTS[(_POINTS.index(part.point) + quarters) % 4]
            w, h = (part.h, part.w) if upended else (part.w, part.h)
            return replace(part, point=point, w=w, h=h)
        case Corners():
            corners = (part.top_left, part.top_right, part.bottom_right, part.bottom_left)
            top_left, top_right, bottom_right, bottom_left = _roll(corners, quarters)
            w, h = (part.h, part.w) if upended else (part.w, part.h)
            return replace(
                part,
                top_left=top_left,
                top_right=top_right,
                bottom_right=bottom_right,
                bottom_left=bottom_left,
                w=w,
                h=h,
            )
        case Diamond():
            return part if isinstance(part.centre, FabricUse) else replace(part, centre=_turned(part.centre, turn))
        case Around():
            start = _SIDES[(_SIDES.index(part.start) + quarters) % 4]
            return replace(part, centre=_turned(part.centre, turn), start=start)
        case Partial():
            return replace(part, centre=_turned(part.centre, turn))
        case UseBlock():
            raise AssertionError("uses are expanded before they are turned")
        case Broken():
            return part
