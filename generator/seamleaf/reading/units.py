"""Parts that are made as units: triangles in squares, flying geese, flipped corners, logs, rings."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal, get_args

from seamleaf.lengths import ZERO, Length
from seamleaf.reading import keys
from seamleaf.reading.fields import Fields, open_fields, open_items
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import Names
from seamleaf.reading.nodes import Mapping, Node, Scalar
from seamleaf.reading.part_records import (
    Around,
    Broken,
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    Log,
    Part,
    Partial,
    Patch,
    Point,
    QuarterSquare,
    ThreeTriangle,
    Turn,
)
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.wording import found, quoted

_TURNS: Final[dict[str, Turn]] = {"0": 0, "90": 90, "180": 180, "270": 270}
_POINTS: Final[tuple[Point, ...]] = get_args(Point)
_SIDES: Final[tuple[Literal["top", "right", "bottom", "left"], ...]] = ("top", "right", "bottom", "left")
_RING_WAYS: Final[tuple[Literal["clockwise", "anticlockwise"], ...]] = ("clockwise", "anticlockwise")
_WAYS: Final[tuple[Literal["clockwise", "anticlockwise", "opposite"], ...]] = (*_RING_WAYS, "opposite")

_BEGINS_LIKE_A_NAME = re.compile(r"[^\W\d]")
_DECIMALS = re.compile(r"[0-9]+ *(?:[x×]|$)")
_A_PATCH: Final = "a patch such as 'ground 2 x 6': fabric, finished width x height"


def turn_of(node: Node | None, scalars: Scalars) -> Turn:
    """Read a quarter turn, clockwise; 0 when there is none."""
    return _TURNS[scalars.choice(node, tuple(_TURNS)) or "0"]


def patch_of(node: Scalar, names: Names, scalars: Scalars, report: Report) -> Patch | Broken:
    """Read ``FABRIC[.PRINT] W x H``."""
    text = node.text.strip()
    name, *size = text.split(maxsplit=1)
    if not _BEGINS_LIKE_A_NAME.match(name):
        hint = "a comma parts what is listed; a decimal takes a point" if _DECIMALS.match(text) else ""
        report.add(node.where, found(node), _A_PATCH, hint)
        return Broken(where=node.where)
    if not size:
        if name in names.blocks and not names.has_fabric(name):
            report.add(node.where, f"the block {quoted(name)} by its name alone", f"{{use: {name}}}, which may turn it")
            return Broken(where=node.where)
        bare = f"the fabric {quoted(text)} without a size" if names.has_fabric(text.partition(".")[0]) else found(node)
        report.add(node.where, bare, _A_PATCH)
        return Broken(where=node.where)
    use = names.use(name, node.where)
    pair = scalars.pair_of(size[0], node.where, _A_PATCH)
    if pair is None:
        return Broken(where=node.where)
    return Patch(use=use, w=pair[0], h=pair[1], where=node.where)


@dataclass(frozen=True, slots=True)
class UnitReader:
    """Reads one kind of unit a method; ``read_part`` reads the parts inside."""

    names: Names
    scalars: Scalars
    report: Report
    read_part: Callable[[Node, Mark], Part]

    # ------------------------------------------------------------------------------------- triangles

    def half_square(self, fields: Fields, where: Mark) -> Part:
        """Read ``half-square: [first, second]``."""
        uses = self._uses(fields["half-square"], 2, "two fabrics: upper left, lower right")
        size = self.scalars.pair(fields["finished"], None)
        turn = turn_of(fields["turn"], self.scalars)
        method = self.scalars.choice(fields["method"], keys.HALF_SQUARE_METHODS)
        oversize = self._oversize(fields)
        if uses is None or size is None:
            return Broken(where=where)
        first, second = uses
        w, h = size
        return HalfSquare(
            first=first, second=second, w=w, h=h, turn=turn, method=method, oversize=oversize, where=where
        )

    def quarter_square(self, fields: Fields, where: Mark) -> Part:
        """Read ``quarter-square: [top, right, bottom, left]``."""
        uses = self._uses(fields["quarter-square"], 4, "four fabrics: top, right, bottom, left")
        size = self.scalars.pair(fields["finished"], None)
        turn = turn_of(fields["turn"], self.scalars)
        method = self.scalars.choice(fields["method"], keys.PAIR_METHODS)
        oversize = self._oversize(fields)
        if uses is None or size is None:
            return Broken(where=where)
        top, right, bottom, left = uses
        w, h = size
        return QuarterSquare(
            uses=(top, right, bottom, left), w=w, h=h, turn=turn, method=method, oversize=oversize, where=where
        )

    def three_triangle(self, fields: Fields, where: Mark) -> Part:
        """Read ``three-triangle: [half, right, bottom]``."""
        uses = self._uses(fields["three-triangle"], 3, "three fabrics: upper left half, right and bottom quarters")
        size = self.scalars.pair(fields["finished"], None)
        turn = turn_of(fields["turn"], self.scalars)
        method = self.scalars.choice(fields["method"], keys.PAIR_METHODS)
        oversize = self._oversize(fields)
        if uses is None or size is None:
            return Broken(where=where)
        half, right, bottom = uses
        w, h = size
        return ThreeTriangle(
            half=half, right=right, bottom=bottom, w=w, h=h, turn=turn, method=method, oversize=oversize, where=where
        )

    def half_rectangle(self, fields: Fields, where: Mark) -> Part:
        """Read ``half-rectangle: [first, second]``."""
        uses = self._uses(fields["half-rectangle"], 2, "two fabrics: upper left, lower right")
        size = self.scalars.pair(fields["finished"], None)
        turn = turn_of(fields["turn"], self.scalars)
        self.scalars.choice(fields["method"], keys.HALF_RECTANGLE_METHODS)
        oversize = self._oversize(fields)
        if uses is None or size is None:
            return Broken(where=where)
        first, second = uses
        w, h = size
        return HalfRectangle(first=first, second=second, w=w, h=h, turn=turn, oversize=oversize, where=where)

    def geese(self, fields: Fields, where: Mark) -> Part:
        """Read ``geese: {goose: ..., sky: ...}``."""
        inner = open_fields(fields["geese"], fields.key("geese"), keys.GEESE, self.report)
        goose, sky = self._use(inner["goose"]), self._use(inner["sky"])
        size = self.scalars.pair(fields["finished"], None)
        point = self.scalars.choice(fields["point"], _POINTS) or "up"
        method = self.scalars.choice(fields["method"], keys.GEESE_METHODS)
        oversize = self._oversize(fields)
        if goose is None or sky is None or size is None:
            return Broken(where=where)
        w, h = size
        return Geese(goose=goose, sky=sky, w=w, h=h, point=point, method=method, oversize=oversize, where=where)

    # --------------------------------------------------------------------------- corners and diamonds

    def corners(self, fields: Fields, where: Mark) -> Part:
        """Read ``corners: {base: ..., top-left: ..., ...}`` with at least one corner."""
        inner = open_fields(fields["corners"], fields.key("corners"), keys.CORNERS, self.report)
        base = self._use(inner["base"])
        at = {name: self._use(inner[name]) for name in keys.CORNERS.optional}
        if inner.was_read and not any(name in inner for name in at):
            self.report.add(
                fields.key("corners"), "a base without corners", f"at least one of {', '.join(keys.CORNERS.optional)}"
            )
        self.scalars.choice(fields["method"], keys.CORNER_METHODS)
        corner = self.scalars.length(fields["corner"], None)
        size = self.scalars.pair(fields["finished"], None)
        if base is None or corner is None or size is None:
            return Broken(where=where)
        return Corners(
            base=base,
            top_left=at["top-left"],
            top_right=at["top-right"],
            bottom_right=at["bottom-right"],
            bottom_left=at["bottom-left"],
            corner=corner,
            w=size[0],
            h=size[1],
            where=where,
        )

    def diamond(self, fields: Fields, where: Mark) -> Part:
        """Read ``diamond: {centre: ..., corners: ...}``; the centre is a fabric or a part."""
        if "finished" not in fields:
            self.report.add(fields.where, "a square in a square without 'finished'", "'finished' as well")
        return self._diamond(fields, where, self.scalars.pair(fields["finished"], None))

    def _diamond(self, fields: Fields, where: Mark, size: tuple[Length, Length] | None) -> Part:
        inner = open_fields(fields["diamond"], fields.key("diamond"), keys.DIAMOND, self.report)
        node = inner["centre"]
        centre: FabricUse | Part | None
        if isinstance(node, Scalar) and len(node.text.split()) < 2:
            centre = self._use(node)
        elif isinstance(node, Mapping) and any(entry.key.text == "diamond" for entry in node.entries):
            # No ruler shows the side of a square that is the centre of another, so it follows if it is not stated.
            again = open_fields(node, node.where, keys.PARTS["diamond"], self.report)
            implied = None if size is None else (size[0].times_root2() / 2, size[1].times_root2() / 2)
            centre = self._diamond(again, node.where, self.scalars.pair(again["finished"], implied))
        else:
            centre = None if node is None else self.read_part(node, inner.key("centre"))
        corners = self._use(inner["corners"])
        self.scalars.choice(fields["method"], keys.DIAMOND_METHODS)
        oversize = self._oversize(fields)
        if centre is None or corners is None or size is None:
            return Broken(where=where)
        return Diamond(centre=centre, corners=corners, w=size[0], h=size[1], oversize=oversize, where=where)

    # --------------------------------------------------------------------------------- logs and rings

    def around(self, fields: Fields, where: Mark) -> Part:
        """Read ``around: {centre: part, logs: ["FABRIC WIDTH", ...]}``."""
        inner = open_fields(fields["around"], fields.key("around"), keys.AROUND, self.report)
        centre = self._centre(inner)
        nodes = open_items(inner["logs"], "a list of logs, each such as 'ground 1'", self.report)
        logs = [self._log(node) for node in nodes]
        start = self.scalars.choice(inner["start"], _SIDES) or "right"
        direction = self.scalars.choice(inner["direction"], _WAYS) or "clockwise"
        known = tuple(log for log in logs if log is not None)
        if centre is None or not known or len(known) < len(logs):
            return Broken(where=where)
        return Around(centre=centre, logs=known, start=start, direction=direction, where=where)

    def partial(self, fields: Fields, where: Mark) -> Part:
        """Read ``partial: {centre: part, ring: patch}``."""
        inner = open_fields(fields["partial"], fields.key("partial"), keys.PARTIAL, self.report)
        centre = self._centre(inner)
        text = self.scalars.text(inner["ring"], _A_PATCH)
        ring = None if text is None else patch_of(text, self.names, self.scalars, self.report)
        direction = self.scalars.choice(inner["direction"], _RING_WAYS) or "clockwise"
        if centre is None or not isinstance(ring, Patch):
            return Broken(where=where)
        return Partial(centre=centre, ring=ring, direction=direction, where=where)

    def _centre(self, inner: Fields) -> Part | None:
        node = inner["centre"]
        return None if node is None else self.read_part(node, inner.key("centre"))

    def _log(self, node: Node) -> Log | None:
        expected = "a log such as 'ground 1': fabric, finished width"
        text = self.scalars.text(node, expected)
        if text is None:
            return None
        name, *width = text.text.split(maxsplit=1)
        if not width:
            self.report.add(text.where, quoted(text.text), expected)
            return None
        use = self.names.use(name, text.where)
        length = self.scalars.length_of(width[0], text.where)
        return None if length is None else Log(use=use, width=length, where=text.where)

    # ---------------------------------------------------------------------------------------- fabrics

    def _oversize(self, fields: Fields) -> Length:
        node = fields["oversize"]
        if isinstance(node, Scalar) and node.text.lstrip().startswith("-"):
            told = f"an oversize below 0, {quoted(node.text)}, with which the unit is too small to be trimmed"
            self.report.add(node.where, told, "a length of 0 or more")
            return ZERO
        return self.scalars.length(fields["oversize"], ZERO, zero=True)

    def _use(self, node: Node | None) -> FabricUse | None:
        text = self.scalars.text(node, "a fabric")
        return None if text is None else self.names.use(text.text, text.where)

    def _uses(self, node: Node | None, count: int, what: str) -> tuple[FabricUse, ...] | None:
        nodes = open_items(node, f"a list of {what}", self.report)
        uses = tuple(use for use in map(self._use, nodes) if use is not None)
        if nodes and node is not None and len(nodes) != count:
            self.report.add(node.where, f"a list of {len(nodes)}", f"a list of {what}")
        return uses if len(uses) == count == len(nodes) else None
