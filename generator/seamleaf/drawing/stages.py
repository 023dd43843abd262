"""The stages of units that are sewn several at a time, in the order of the maker's hands: mark, sew, cut, press.

Each function returns the panels that come before the finished unit. Squares are drawn right sides together: the upper
one shows its pale wrong side, the lower one looks out by a margin.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.colours import INK, luminance
from seamleaf.drawing.drafting import CUT, STITCH, Panel, draw_patch, label_lines
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import Room, centre_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Ink, Line, Shape, Spot

_SIDE: Final = 92.0
"""Side on the page of the largest square of a stage."""
_PEEK: Final = 7.0
_APART: Final = 9.0
_MARKED: Final = Ink(stroke=INK, width=CUT)
_SEWN: Final = Ink(stroke=INK, width=CUT, dash=STITCH)
_ROOT: Final = math.sqrt(0.5)


def square_of(left: float, top: float, side: float) -> tuple[Spot, ...]:
    """Return the corners of an upright square, clockwise from the top left."""
    return ((left, top), (left + side, top), (left + side, top + side), (left, top + side))


def half_square_stages(desk: Desk, unit: Unit) -> list[Panel]:
    """Return the stages of half-squares two, four or eight at a time."""
    upper, lower = _lighter_first(desk, [take.label for take in unit.from_ if take.label is not None][:2])
    patch = desk.patches[upper]
    scale = _SIDE / patch.w.to_float()
    pair = _Pair(desk=desk, upper=upper, lower=lower, seam=desk.booklet.seam.to_float() * scale)
    rising = _rises(unit)
    diagonals = (rising,) if unit.method == "two" else (True, False)
    lay = f"{upper} on {lower}, right sides together"
    sew_at = f"{desk.allowance()}"
    if unit.method == "four":
        edges = tuple((s, e) for s, e in _inset_edges(pair.seam))
        return [
            Panel(parts=tuple(pair.draw(())), caption=f"{lay}."),
            Panel(parts=tuple(pair.draw(_dashes(edges))), caption=f"Sew all round, {sew_at} from the edge."),
            Panel(parts=tuple(pair.cut_apart(diagonals, edges)), caption="Cut on both diagonals."),
        ]
    marks = tuple(_diagonal(rising) for rising in diagonals)
    seams = tuple(side for mark in marks for side in _beside(mark, pair.seam))
    level: tuple[tuple[Spot, Spot], ...] = ()
    cut = "Cut on the marked line."
    if unit.method == "eight":
        half = _SIDE / 2
        level = (((half, 0), (half, _SIDE)), ((0, half), (_SIDE, half)))
        cut = "Cut upright, across, and on both marked lines."
    marked = [Line(start=s, end=e, ink=_MARKED) for s, e in marks]
    what = "the diagonal" if len(marks) == 1 else "both diagonals"
    return [
        Panel(parts=tuple(pair.draw(marked)), caption=f"{lay}. Mark {what}."),
        Panel(
            parts=tuple(pair.draw([*marked, *_dashes(seams)])), caption=f"Sew {sew_at} from the line, on both sides."
        ),
        Panel(parts=tuple(pair.cut_apart(diagonals, seams, level=bool(level))), caption=cut),
    ]


def geese_four_stages(desk: Desk, unit: Unit) -> list[Panel]:
    """Return the stages of flying geese four at a time: one large square, four small ones, no waste."""
    labels = list(dict.fromkeys(take.label for take in unit.from_ if take.label is not None))
    large, small = sorted(labels, key=lambda label: -desk.patches[label].w.to_float())[:2]
    scale = _SIDE / desk.patches[large].w.to_float()
    q = desk.patches[small].w.to_float() * scale
    s = desk.booklet.seam.to_float() * scale
    look_large, look_small = desk.look_of(large), desk.look_of(small)
    room = Room()
    mark = (((0.0, 0.0), (_SIDE, _SIDE)),)
    seams = _beside(mark[0], s)
    corners = (square_of(0, 0, q), square_of(_SIDE - q, _SIDE - q, q))

    def base(lines: list[Shape]) -> tuple[Shape, ...]:
        text_room = Room()
        smalls = [
            draw_patch(
                c, look_small, texts=[label_lines(small)], wrong=True, new=True, tag=f"patch {small}", room=text_room
            )
            for c in corners
        ]
        big = draw_patch(
            square_of(0, 0, _SIDE), look_large, texts=[label_lines(large)], tag=f"patch {large}", room=_taken(corners)
        )
        return (big, *smalls, *lines)

    marked: list[Shape] = [Line(start=a, end=b, ink=_MARKED) for a, b in mark]
    heart = _heart(q)
    small_corner = _corner_square(q)
    tip = (0.0, _SIDE * _ROOT)
    centre = ((0.0, 0.0), tip)
    heart_parts = [
        draw_patch(heart[0], look_large, texts=[label_lines(large)], tag=f"patch {large}", room=room),
        *(draw_patch(t, look_small, texts=[label_lines(small)], tag=f"patch {small}") for t in heart[1:]),
    ]
    covered: list[Shape] = [
        draw_patch(heart[0], look_large, tag=f"patch {large}"),
        *(draw_patch(t, look_small, texts=[label_lines(small)], tag=f"patch {small}") for t in heart[1:]),
        draw_patch(small_corner, look_small, wrong=True, new=True, tag=f"patch {small}"),
        Line(start=centre[0], end=centre[1], ink=_MARKED),
        *_dashes(_beside(centre, s)),
    ]
    lay = f"Two {small} on {large}, right sides together"
    return [
        Panel(parts=base(marked), caption=f"{lay}. Mark the diagonal."),
        Panel(parts=base([*marked, *_dashes(seams)]), caption=f"Sew {desk.allowance()} from the line, on both sides."),
        Panel(parts=tuple(heart_parts), caption=f"Cut on the line. Press {_toward(desk, unit, small)}. Makes two."),
        Panel(
            parts=tuple(covered),
            caption=f"Lay one {small} on the free corner. Mark, sew both sides of the line, cut on it.",
        ),
    ]


def flip_stages(desk: Desk, unit: Unit) -> list[Panel]:
    """Return the stages of flying geese by stitch and flip: a rectangle and two squares."""
    labels = list(dict.fromkeys(take.label for take in unit.from_ if take.label is not None))
    base_label, small = sorted(labels, key=lambda label: -desk.patches[label].w.to_float())[:2]
    patch = desk.patches[base_label]
    long, short = max(patch.w, patch.h).to_float(), min(patch.w, patch.h).to_float()
    scale = 1.25 * _SIDE / long
    w, h = long * scale, short * scale
    q = desk.patches[small].w.to_float() * scale
    s = desk.booklet.seam.to_float() * scale
    base = ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h))
    look, look_small = desk.look_of(base_label), desk.look_of(small)
    left, right = square_of(0, 0, q), square_of(w - q, 0, q)
    left_seam, right_seam = ((0.0, q), (q, 0.0)), ((w - q, 0.0), (w, q))
    left_flap = ((0.0, 0.0), (q, 0.0), (0.0, q))
    text, text_small = [label_lines(base_label)], [label_lines(small)]

    def sewn(flaps: list[tuple[Spot, ...]], over: tuple[Spot, ...], seam: tuple[Spot, Spot]) -> tuple[Shape, ...]:
        return (
            draw_patch(base, look, texts=text, tag=f"patch {base_label}", room=_taken((over, *flaps))),
            *(draw_patch(flap, look_small, texts=text_small, tag=f"patch {small}") for flap in flaps),
            draw_patch(over, look_small, texts=text_small, wrong=True, new=True, tag=f"patch {small}"),
            *_dashes((seam,)),
        )

    trim = _shifted(left_seam, -s)
    trimmed: list[Shape] = [
        draw_patch(base, look, texts=text, tag=f"patch {base_label}", room=_taken((left_flap,))),
        draw_patch(left_flap, look_small, texts=text_small, new=True, tag=f"patch {small}"),
    ]
    first = sewn([], left, left_seam)
    return [
        Panel(
            parts=(*first, Line(start=trim[0], end=trim[1], ink=_MARKED)),
            caption=(
                f"{small} on the end of {base_label}, right sides together. Sew on the diagonal. "
                f"Cut {desk.allowance()} outside the seam."
            ),
        ),
        Panel(parts=tuple(trimmed), caption=f"Press {_toward(desk, unit, small)}."),
        Panel(
            parts=sewn([left_flap], right, right_seam),
            caption=f"Sew the other {small} on the other end, cut and press.",
        ),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    """Two squares right sides together."""

    desk: Desk
    upper: str
    lower: str
    seam: float

    def draw(self, lines: list[Line] | tuple[Line, ...]) -> list[Shape]:
        """Draw the pair with lines on its wrong side."""
        look, below = self.desk.look_of(self.upper), self.desk.look_of(self.lower)
        taken = Room()
        for line in lines:
            _take_line(taken, line)
        return [
            draw_patch(square_of(_PEEK, _PEEK, _SIDE), below, tag=f"patch {self.lower}"),
            draw_patch(
                square_of(0, 0, _SIDE), look, texts=[label_lines(self.upper)], wrong=True, new=True,
                tag=f"patch {self.upper}", room=taken,
            ),
            *lines,
        ]  # fmt: skip

    def cut_apart(
        self, diagonals: tuple[bool, ...], seams: tuple[tuple[Spot, Spot], ...], *, level: bool = False
    ) -> list[Shape]:
        """Draw the pieces that the cuts leave, moved apart, with the seams on them."""
        look = self.desk.look_of(self.upper)
        shapes: list[Shape] = []
        for triangle in _triangles(diagonals, level=level):
            x, y = centre_of(triangle)
            dx, dy = x - _SIDE / 2, y - _SIDE / 2
            size = math.sqrt(dx * dx + dy * dy)
            dx, dy = dx / size * _APART, dy / size * _APART
            moved = tuple((px + dx, py + dy) for px, py in triangle)
            shapes.append(draw_patch(moved, look, wrong=True, tag=f"half of {self.upper} on {self.lower}"))
            for start, end in seams:
                clipped = _clip(start, end, triangle)
                if clipped is not None:
                    (x1, y1), (x2, y2) = clipped
                    shapes.append(Line(start=(x1 + dx, y1 + dy), end=(x2 + dx, y2 + dy), ink=_SEWN))
        return shapes


def _lighter_first(desk: Desk, labels: list[str]) -> tuple[str, str]:
    """Return the label to mark, which is the lighter, and the other; two alike stay as they are."""
    one, other = labels if len(labels) == 2 else (labels[0], labels[0])
    if luminance(desk.look_of(other).colour) > luminance(desk.look_of(one).colour):
        return other, one
    return one, other


def _rises(unit: Unit) -> bool:
    """Return whether the diagonal of the first patch rises from lower left to upper right."""
    corners = spots_of(unit.regions[0].outline)
    w = unit.finished.w.to_float()
    on = [(x < w / 2) == (y > unit.finished.h.to_float() / 2) for x, y in corners]
    return sum(on) == 2


def _toward(desk: Desk, unit: Unit, small: str) -> str:
    seams = desk.seams_of(unit)
    if not seams:
        return f"toward {small}"
    seam = seams[0]
    if seam.press == "open":
        return "open"
    return f"toward {seam.first if seam.press == 'before' else seam.second}"


def _diagonal(rising: bool) -> tuple[Spot, Spot]:
    return ((0, _SIDE), (_SIDE, 0)) if rising else ((0, 0), (_SIDE, _SIDE))


def _beside(line: tuple[Spot, Spot], offset: float) -> tuple[tuple[Spot, Spot], ...]:
    return (_shortened(_shifted(line, offset), offset), _shortened(_shifted(line, -offset), offset))


def _shifted(line: tuple[Spot, Spot], offset: float) -> tuple[Spot, Spot]:
    (x1, y1), (x2, y2) = line
    length = math.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2)
    nx, ny = -(y2 - y1) / length * offset, (x2 - x1) / length * offset
    return ((x1 + nx, y1 + ny), (x2 + nx, y2 + ny))


def _shortened(line: tuple[Spot, Spot], by: float) -> tuple[Spot, Spot]:
    (x1, y1), (x2, y2) = line
    length = math.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2)
    ux, uy = (x2 - x1) / length * by, (y2 - y1) / length * by
    return ((x1 + ux, y1 + uy), (x2 - ux, y2 - uy))


def _inset_edges(offset: float) -> tuple[tuple[Spot, Spot], ...]:
    a, b = offset, _SIDE - offset
    return (((0, a), (_SIDE, a)), ((b, 0), (b, _SIDE)), ((0, b), (_SIDE, b)), ((a, 0), (a, _SIDE)))


def _dashes(lines: tuple[tuple[Spot, Spot], ...]) -> list[Line]:
    return [Line(start=start, end=end, ink=_SEWN) for start, end in lines]


def _take_line(room: Room, line: Line) -> None:
    """Note a line as taken, by small boxes along it."""
    (x1, y1), (x2, y2) = line.start, line.end
    for i in range(24):
        x, y = x1 + (x2 - x1) * i / 23, y1 + (y2 - y1) * i / 23
        room.take((x - 1.5, y - 1.5, x + 1.5, y + 1.5))


def _taken(outlines: tuple[tuple[Spot, ...], ...]) -> Room:
    room = Room()
    for spots in outlines:
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        room.take((min(xs), min(ys), max(xs), max(ys)))
    return room


def _triangles(diagonals: tuple[bool, ...], *, level: bool) -> list[tuple[Spot, ...]]:
    side, half = _SIDE, _SIDE / 2
    a, b, c, d = square_of(0, 0, side)
    m = (half, half)
    if len(diagonals) == 1:
        return [(a, b, d), (b, c, d)] if diagonals[0] else [(a, b, c), (a, c, d)]
    if not level:
        return [(a, b, m), (b, c, m), (c, d, m), (d, a, m)]
    ring = [a, (half, 0.0), b, (side, half), c, (half, side), d, (0.0, half)]
    return [(ring[i], ring[(i + 1) % 8], m) for i in range(8)]


def _clip(start: Spot, end: Spot, triangle: tuple[Spot, ...]) -> tuple[Spot, Spot] | None:
    """Return the part of a line inside a convex outline that runs clockwise on the page."""
    low, high = 0.0, 1.0
    for (x1, y1), (x2, y2) in zip(triangle, (*triangle[1:], triangle[0]), strict=True):
        nx, ny = y1 - y2, x2 - x1  # points inward
        at_start = (start[0] - x1) * nx + (start[1] - y1) * ny
        change = (end[0] - start[0]) * nx + (end[1] - start[1]) * ny
        if abs(change) < 1e-9:
            if at_start < -1e-6:
                return None
            continue
        t = -at_start / change
        low, high = (max(low, t), high) if change > 0 else (low, min(high, t))
    if high - low < 0.02:
        return None
    (x1, y1), (x2, y2) = start, end
    return ((x1 + (x2 - x1) * low, y1 + (y2 - y1) * low), (x1 + (x2 - x1) * high, y1 + (y2 - y1) * high))


def _heart(q: float) -> list[tuple[Spot, ...]]:
    """Return a half of the large square, its right angle down, with the two small triangles pressed up."""
    half = _SIDE * _ROOT
    r = q * _ROOT
    big = ((-half, 0.0), (half, 0.0), (0.0, half))
    return [
        big,
        ((-half, 0.0), (-half + r, -r), (-half + 2 * r, 0.0)),
        ((half - 2 * r, 0.0), (half - r, -r), (half, 0.0)),
    ]


def _corner_square(q: float) -> tuple[Spot, ...]:
    """Return the small square on the right angle of the heart, standing on its point."""
    tip, r = _SIDE * _ROOT, q * _ROOT
    return ((0.0, tip - 2 * r), (r, tip - r), (0.0, tip), (-r, tip - r))
