"""Units drawn with their parts apart, so that the seams between them have room for press arrows.

A spread is laid out in page points in a frame of its own: a join's parts stand in a line with a gap at each seam, and a
part that is itself a join may be spread in turn, with smaller gaps.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from seamleaf.booklet.record import Press, Region, Seam, Take, Unit
from seamleaf.drawing.arrows import LENGTH, across, press_arrow
from seamleaf.drawing.colours import INK, PAPER
from seamleaf.drawing.drafting import LABEL, draw_patch, label_lines, scaled
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Placed, Room, centre_of, fit_first
from seamleaf.drawing.metrics import shortened
from seamleaf.drawing.outlines import box_of, moved
from seamleaf.drawing.pens import extent_of
from seamleaf.drawing.regions import Piece, spots_of
from seamleaf.drawing.scene import Anchor, Shape, Spot, Text

_FINE: Final = 70.0
"""Side of a patch whose hatch is as fine as it comes."""
_NAME: Final = 72.0
"""Room for a name beside a part of a column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One patch on the page."""

    label: str
    fabric: str
    print: int | None
    spots: tuple[Spot, ...]
    part: int = 0
    """Which part of the spread it belongs to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """The name of a unit, written beside it on the page."""

    at: Spot
    text: str
    anchor: Anchor


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """One press arrow on the page."""

    at: Spot
    toward_after: Spot
    press: Press


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Patches, arrows and names in a box of w by h points."""

    w: float
    h: float
    shown: tuple[Shown, ...]
    arrows: tuple[Arrow, ...]
    names: tuple[Name, ...] = ()


def whole(desk: Desk, unit_id: str, scale: float) -> Spread:
    """Return a sewn unit, its parts together."""
    unit = desk.units[unit_id]
    shown = tuple(_show(piece, scale) for piece in desk.pieces(unit_id))
    return Spread(w=unit.finished.w.to_float() * scale, h=unit.finished.h.to_float() * scale, shown=shown, arrows=())


def spread(desk: Desk, unit_id: str, scale: float, gaps: Sequence[float], *, names: bool = False) -> Spread:
    """Return a unit with its parts apart.

    Args:
        desk: the booklet.
        unit_id: the unit.
        scale: points for one unit of length.
        gaps: between the parts of the unit, of its parts' parts, and so on; what lies deeper stays whole.
        names: write the name of each part that is a unit beside it.

    """
    unit = desk.units[unit_id]
    if not gaps:
        return whole(desk, unit_id, scale)
    if unit.how in ("join", "strip-set"):
        return _spread_join(desk, unit, scale, gaps, names=names)
    if unit.how in ("around", "partial"):
        return _spread_rounds(desk, unit, scale, gaps[0])
    if len(unit.regions) > 1:
        return _burst(desk, unit, scale, gaps[0])
    return whole(desk, unit_id, scale)


def draw_spread(
    desk: Desk, laid: Spread, *, sizes: bool = False, length: float = LENGTH, marks: Sequence[Shape] = ()
) -> list[Shape]:
    """Draw a spread: patches with their labels, then the arrows and the names.

    Args:
        desk: the booklet.
        laid: the spread.
        sizes: write the cut size below the label of each patch that is a part by itself, where it fits.
        length: of the arrows.
        marks: what else stands on the patches; labels keep clear of it.

    """
    return label_spread(desk, laid, sizes=sizes, length=length, marks=marks).draw()


def label_spread(
    desk: Desk, laid: Spread, *, sizes: bool = False, length: float = LENGTH, marks: Sequence[Shape] = ()
) -> Labelled:
    """Find room for the labels of a spread, as :func:`draw_spread` draws them."""
    arrows = [press_arrow(arrow.at, arrow.toward_after, arrow.press, length=length) for arrow in laid.arrows]
    texts = _texts(desk, laid, [*arrows, *marks], sizes=sizes)
    return Labelled(desk=desk, laid=laid, arrows=arrows, marks=marks, texts=texts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Labelled:
    """A spread whose labels have their places, before it is drawn."""

    desk: Desk
    laid: Spread
    arrows: Sequence[Shape]
    marks: Sequence[Shape]
    texts: Sequence[Placed | None]
    """Of each patch that is shown."""

    @property
    def labels(self) -> int:
        """How many patches have theirs."""
        return sum(placed is not None for placed in self.texts)

    def draw(self) -> list[Shape]:
        """Draw it."""
        shown = zip(self.laid.shown, self.texts, strict=True)
        patches = [(self.desk.look(each.fabric, each.print), each, placed) for each, placed in shown]
        # Dark patches first: their pale edges then lie below the dark edges of light ones, and every seam is one line.
        patches.sort(key=lambda item: item[0].ink != PAPER)
        opened = _openness(self.laid)
        parts: list[Shape] = [
            draw_patch(each.spots, look, placed=placed, tag=f"patch {each.label}", openness=opened)
            for look, each, placed in patches
        ]
        names = [
            Text(x=name.at[0], y=name.at[1], text=name.text, size=LABEL, anchor=name.anchor, bold=True, colour=INK)
            for name in self.laid.names
        ]
        return [*parts, *self.arrows, *self.marks, *names]


def _openness(laid: Spread) -> float:
    """Return how far the hatches of all patches are opened up: the larger these are, the fewer lines they need."""
    boxes = [box_of(shown.spots) for shown in laid.shown]
    side = sum(math.sqrt((right - left) * (bottom - top)) for left, top, right, bottom in boxes) / len(boxes)
    return min(2.0, max(1.0, round(2 * side / _FINE) / 2))


def _texts(desk: Desk, laid: Spread, marks: Sequence[Shape], *, sizes: bool) -> list[Placed | None]:
    """Place the labels clear of the marks; a label is written on all its patches of a part, or on none."""
    room = Room()
    for mark in marks:
        room.take(extent_of((mark,)))
    alone = Counter(shown.part for shown in laid.shown)
    texts: list[Placed | None] = []
    for shown in laid.shown:
        lines = [label_lines(shown.label)]
        if sizes and alone[shown.part] == 1 and desk.patches[shown.label].shape == "rectangle":
            lines.insert(0, label_lines(shown.label, desk.cut_size(shown.label)))
        texts.append(fit_first(shown.spots, lines, room))
    known = list(zip(laid.shown, texts, strict=True))
    silent = {(shown.part, shown.label) for shown, placed in known if placed is None}
    return [None if (shown.part, shown.label) in silent else placed for shown, placed in known]


def seam_direction(seam: Seam, pieces: Sequence[Piece]) -> Spot:
    """Return the unit vector across a seam, from the side "before" to the side "after".

    Upright and level seams go by the axes. A sloping one goes from its first part: the piece of that label which has an
    edge on the seam's line.
    """
    if seam.axis != "d":
        return (1.0, 0.0) if seam.axis == "x" else (0.0, 1.0)
    line = spots_of(seam.line)
    normal = across((line[0], line[1]))
    on_line = [piece for piece in pieces if _touches(piece, seam)]
    for wanted, sign in ((seam.first, -1), (seam.second, 1)):
        sides = {side_of(piece.spots, line[0], normal) for piece in on_line if piece.label == wanted}
        if len(sides) == 1:
            side = sides.pop() * sign
            return (normal[0] * side, normal[1] * side)
    return normal


def middle_of(seam: Seam, scale: float) -> Spot:
    """Return the middle of a seam on the page."""
    (x1, y1), (x2, y2) = spots_of(seam.line)
    return ((x1 + x2) / 2 * scale, (y1 + y2) / 2 * scale)


def _show(piece: Piece | Region, scale: float) -> Shown:
    spots = piece.spots if isinstance(piece, Piece) else spots_of(piece.outline)
    return Shown(label=piece.label, fabric=piece.fabric, print=piece.print, spots=scaled(spots, scale))


def _spread_join(desk: Desk, unit: Unit, scale: float, gaps: Sequence[float], *, names: bool) -> Spread:
    """Lay the parts of a join in a line, a gap at each seam."""
    upright = unit.axis == "column"
    takes = sorted(unit.from_, key=lambda take: take.y if upright else take.x)
    parts = [_part(desk, unit, take, scale, gaps[1:]) for take in takes]
    deep = max(part.w if upright else part.h for part in parts)
    seams = sorted((s for s in desk.seams_of(unit) if s.at is not None), key=lambda s: s.at or 0)
    shown: list[Shown] = []
    arrows: list[Arrow] = []
    named: list[Name] = []
    along = 0.0
    for i, part in enumerate(parts):
        if i:
            at = (deep / 2, along + gaps[0] / 2) if upright else (along + gaps[0] / 2, deep / 2)
            if i <= len(seams):
                toward = (0.0, 1.0) if upright else (1.0, 0.0)
                arrows.append(Arrow(at=at, toward_after=toward, press=seams[i - 1].press))
            along += gaps[0]
        dx, dy = ((deep - part.w) / 2, along) if upright else (along, (deep - part.h) / 2)
        first = max((s.part for s in shown), default=-1) + 1
        shown += [replace(s, spots=moved(s.spots, dx, dy), part=first + s.part) for s in part.shown]
        unit_name = takes[i].unit
        if names and unit_name is not None:
            beside = (-5.0, dy + part.h / 2 + 4) if upright else (dx + part.w / 2, deep + 12)
            room = _NAME if upright else part.w + gaps[0] - 4
            text = shortened(unit_name, LABEL, room, bold=True)
            named.append(Name(at=beside, text=text, anchor="end" if upright else "middle"))
        arrows += [replace(a, at=(a.at[0] + dx, a.at[1] + dy)) for a in part.arrows]
        along += part.h if upright else part.w
    w, h = (deep, along) if upright else (along, deep)
    return Spread(w=w, h=h, shown=tuple(shown), arrows=tuple(arrows), names=tuple(named))


def _part(desk: Desk, unit: Unit, take: Take, scale: float, gaps: Sequence[float]) -> Spread:
    """Return one part of a join as it lies in the join, in a frame of its own."""
    if take.unit is not None:
        inner = gaps if desk.units[take.unit].how in ("join", "strip-set") else ()
        return turned_spread(spread(desk, take.unit, scale, inner), take.turn, mirror=take.mirror)
    region = next(r for r in unit.regions if r.label == take.label and _centred(r, take))
    shown = _show(region, scale)
    left, top = min(x for x, _ in shown.spots), min(y for _, y in shown.spots)
    right, bottom = max(x for x, _ in shown.spots), max(y for _, y in shown.spots)
    alone = replace(shown, spots=moved(shown.spots, -left, -top))
    return Spread(w=right - left, h=bottom - top, shown=(alone,), arrows=())


def _centred(region: Region, take: Take) -> bool:
    xs, ys = [x for x, _ in region.outline], [y for _, y in region.outline]
    return min(xs) + max(xs) == take.x * 2 and min(ys) + max(ys) == take.y * 2


def turned_spread(laid: Spread, turn: int, *, mirror: bool = False) -> Spread:
    """Mirror a spread if asked, and turn it clockwise, about the centre of its box; its names stay behind."""
    cosine, sine = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[turn % 360]
    flip = -1 if mirror else 1
    w, h = (laid.h, laid.w) if sine else (laid.w, laid.h)

    def swing(x: float, y: float) -> Spot:
        return (cosine * flip * x - sine * y, sine * flip * x + cosine * y)

    def move(spot: Spot) -> Spot:
        x, y = swing(spot[0] - laid.w / 2, spot[1] - laid.h / 2)
        return (x + w / 2, y + h / 2)

    shown = tuple(replace(s, spots=tuple(move(spot) for spot in s.spots)) for s in laid.shown)
    arrows = tuple(replace(a, at=move(a.at), toward_after=swing(*a.toward_after)) for a in laid.arrows)
    return Spread(w=w, h=h, shown=shown, arrows=arrows)


def _burst(desk: Desk, unit: Unit, scale: float, gap: float) -> Spread:
    """Move the patches of a unit with sloping seams away from its middle, and the arrows with the gaps."""
    pieces = desk.pieces(unit.id)
    middle = (unit.finished.w.to_float() * scale / 2, unit.finished.h.to_float() * scale / 2)
    drifts: dict[int, Spot] = {}
    shown: list[Shown] = []
    for piece in pieces:
        item = _show(piece, scale)
        x, y = centre_of(item.spots)
        dx, dy = x - middle[0], y - middle[1]
        size = max((dx * dx + dy * dy) ** 0.5, 1e-9)
        drift = (dx / size * gap / 2, dy / size * gap / 2) if size > 1e-6 else (0.0, 0.0)
        drifts[id(piece)] = drift
        shown.append(replace(item, spots=moved(item.spots, *drift), part=len(shown)))
    arrows = []
    for seam in desk.seams_of(unit):
        touching = [drifts[id(piece)] for piece in pieces if _touches(piece, seam)] or [(0.0, 0.0)]
        x, y = middle_of(seam, scale)
        dx = sum(d[0] for d in touching) / len(touching)
        dy = sum(d[1] for d in touching) / len(touching)
        arrows.append(Arrow(at=(x + dx, y + dy), toward_after=seam_direction(seam, pieces), press=seam.press))
    return Spread(w=2 * middle[0], h=2 * middle[1], shown=tuple(shown), arrows=tuple(arrows))


def _spread_rounds(desk: Desk, unit: Unit, scale: float, gap: float) -> Spread:
    """Move each patch of a log cabin or a ring straight out from its seam, one gap for each patch sewn below it."""
    pieces = desk.pieces(unit.id)
    drifts: dict[int, Spot] = {}
    arrows: list[Arrow] = []
    sewn: Counter[Spot] = Counter()
    for seam in desk.seams_of(unit):
        added = next(piece for piece in pieces if id(piece) not in drifts and _has_edge(piece, seam))
        toward = (1.0, 0.0) if seam.axis == "x" else (0.0, 1.0)
        side = side_of(added.spots, spots_of(seam.line)[0], toward)
        out = (toward[0] * side, toward[1] * side)
        x, y = middle_of(seam, scale)
        before = gap * (sewn[out] + 0.5)
        arrows.append(Arrow(at=(x + out[0] * before, y + out[1] * before), toward_after=toward, press=seam.press))
        sewn[out] += 1
        drifts[id(added)] = (out[0] * gap * sewn[out], out[1] * gap * sewn[out])
    shown: list[Shown] = []
    for piece in pieces:
        item = _show(piece, scale)
        part = len(shown) if id(piece) in drifts else -1
        shown.append(replace(item, spots=moved(item.spots, *drifts.get(id(piece), (0.0, 0.0))), part=part))
    w, h = unit.finished.w.to_float() * scale, unit.finished.h.to_float() * scale
    return Spread(w=w, h=h, shown=tuple(shown), arrows=tuple(arrows))


def _has_edge(piece: Piece, seam: Seam) -> bool:
    """Return whether a seam is one whole edge of a piece."""
    corners = piece.outline
    return any({a, b} == set(seam.line) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))


def _touches(piece: Piece, seam: Seam) -> bool:
    """Return whether a piece has an edge on the line of a seam, decided exactly."""
    (ax, ay), (bx, by) = seam.line
    on = [(bx - ax) * (y - ay) == (by - ay) * (x - ax) for x, y in piece.outline]
    return any(here and there for here, there in zip(on, (*on[1:], on[0]), strict=True))


def side_of(spots: Sequence[Spot], origin: Spot, normal: Spot) -> int:
    """Return 1 for what lies on the side of a line to which its normal points, -1 for the other."""
    x, y = sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots)
    return 1 if (x - origin[0]) * normal[0] + (y - origin[1]) * normal[1] > 0 else -1
