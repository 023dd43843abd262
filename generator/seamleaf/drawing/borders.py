"""Border figures: the quilt so far in grey, one border in its fabric, its sides numbered in sewing order."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Booklet, BorderNote, Box
from seamleaf.drawing.arrows import across, press_arrow
from seamleaf.drawing.border_corners import border_seams, corner_panel, strip_label
from seamleaf.drawing.colours import INK, PALE, SOFT
from seamleaf.drawing.drafting import (
    EDGE,
    NUMBER_RADIUS,
    SEAM,
    Panel,
    circled,
    draw_patch,
    label_lines,
    lay_out,
    scaled,
)
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.looks import Look
from seamleaf.drawing.measures import box_text, size_text, unbroken, with_unit
from seamleaf.drawing.outlines import box_of
from seamleaf.drawing.pieced_strips import draw_strip, strip_unit
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Group, Ink, Polygon, Shape, Spot
from seamleaf.drawing.stamps import Stamps
from seamleaf.drawing.wording import say

_LARGEST: Final = 200.0
"""Longer side of the quilt."""
_WITH_STONES: Final = 300.0
_BESIDE_TEXT: Final = 300.0
"""Width of the figure, its corner below, so that paper has room for the steps beside it."""
_STONE: Final = 20.0
"""Longer side of a quilt whose cornerstones then are so large that they hold their label."""
_ARROW_AT: Final = 0.3
Sides = dict[str, tuple[Spot, ...]]


def border_sketches(desk: Desk) -> list[Sketch]:
    """Return ``border-1`` and so on."""
    return [_border(desk, border) for border in desk.booklet.borders]


def centre_corner(booklet: Booklet, scale: float, *, within: Box) -> Spot:
    """Return the top left corner of the joined centre on a page that begins at the corner of ``within``."""
    centre = booklet.set.centre
    return ((within.w - centre.w).to_float() / 2 * scale, (within.h - centre.h).to_float() / 2 * scale)


def strip_look(desk: Desk, border: BorderNote, name: str) -> Look:
    """Return the look of one of the outlines of :func:`border_sides`."""
    if name.startswith("corner") and border.corners is not None:
        return desk.look_of(border.corners)
    assert border.fabric is not None  # noqa: S101 -- the strips of a pieced border are drawn patch by patch
    return desk.look(border.fabric, None)


def border_sides(booklet: Booklet, border: BorderNote, scale: float, *, within: Box | None = None) -> Sides:
    """Return the finished outlines of a border's strips, in sewing order, and of its cornerstones.

    The page begins at the corner of ``within``, which is the whole quilt unless it is said.
    """
    outer = within or booklet.finished
    left, top = (outer.w - border.before.w).to_float() / 2, (outer.h - border.before.h).to_float() / 2
    right, bottom, b = left + border.before.w.to_float(), top + border.before.h.to_float(), border.width.to_float()
    # Four lines each way: outer edge, inner edge, inner edge, outer edge; every outline is named by them.
    xs, ys = (left - b, left, right, right + b), (top - b, top, bottom, bottom + b)
    outlines = _mitred(border) if border.corner == "mitred" else _straight(border)
    return {name: tuple((xs[i] * scale, ys[j] * scale) for i, j in corners) for name, corners in outlines.items()}


def _mitred(border: BorderNote) -> dict[str, list[tuple[int, int]]]:
    shapes = {
        "left": [(0, 0), (1, 1), (1, 2), (0, 3)], "right": [(3, 0), (3, 3), (2, 2), (2, 1)],
        "top": [(0, 0), (3, 0), (2, 1), (1, 1)], "bottom": [(0, 3), (1, 2), (2, 2), (3, 3)],
    }  # fmt: skip
    return {strip.edge: shapes[strip.edge] for strip in border.strips}


def _straight(border: BorderNote) -> dict[str, list[tuple[int, int]]]:
    """Return butted sides, the later ones over the ends of the earlier; or sides between cornerstones."""
    edges = [strip.edge for strip in border.strips]
    inner, outer = (1, 2), (0, 3)
    sides_first = edges[:1] in (["left"], ["right"])
    tall = inner if sides_first or border.corner == "cornerstone" else outer
    wide = outer if sides_first and border.corner != "cornerstone" else inner
    spans = {"left": ((0, 1), tall), "right": ((2, 3), tall), "top": (wide, (0, 1)), "bottom": (wide, (2, 3))}
    shapes: dict[str, tuple[tuple[int, int], tuple[int, int]]] = {edge: spans[edge] for edge in edges}
    if border.corner == "cornerstone":
        shapes |= {f"corner {i}{j}": ((i, i + 1), (j, j + 1)) for i, j in ((0, 0), (2, 0), (2, 2), (0, 2))}
    return {name: [(a, c), (b, c), (b, d), (a, d)] for name, ((a, b), (c, d)) in shapes.items()}


def _border(desk: Desk, border: BorderNote) -> Sketch:
    """Draw the quilt so far in grey, this border in its fabric, its strips numbered in sewing order; and a corner."""
    booklet = desk.booklet
    longer = max(border.after.w, border.after.h).to_float()
    stones = border.corner == "cornerstone" and border.width.to_float() * _WITH_STONES / longer >= _STONE
    scale = (_WITH_STONES if stones else _LARGEST) / longer
    parts = _quilt_so_far(desk, border, scale)
    sides = _sides_now(booklet, border, border, scale)
    for inner in booklet.borders[: border.order - 1]:
        if inner.order in border.together:
            sewn = _sides_now(booklet, inner, border, scale)
            look = desk.look(inner.fabric or "", None)
            parts += [draw_patch(spots, look, texts=[], tag=f"strip {name}") for name, spots in sewn.items()]
    for name, spots in sides.items():
        if strip_unit(border, name):
            parts.append(Group(parts=tuple(draw_strip(desk, border, name, spots, seams=True)), tag=f"strip {name}"))
            continue
        texts = [label_lines(border.corners)] if name.startswith("corner") and border.corners else []
        parts.append(draw_patch(spots, strip_look(desk, border, name), texts=texts, tag=f"strip {name}"))
    for spots in sides.values():
        parts.append(Polygon(points=spots, ink=Ink(stroke=INK, width=EDGE, rounded=True)))
    parts += (*_arrows(desk, border, scale), *_numbers(border, sides))
    told = [
        " ".join(filter(None, (str(i), edge, None if strip.unit else strip_label(border, strip.edge), size)))
        for i, strip in enumerate(border.strips, start=1)
        for edge, size in [(say(f"figure.edge.{strip.edge}"), box_text(booklet, strip.w, strip.length, unit=False))]
    ]
    order = ", ".join(say(f"figure.edge.{strip.edge}") for strip in border.strips)
    ends = {
        "mitred": _mitre_words(border),
        "cornerstone": f" {say('figure.border.stones', label=border.corners)}",
    }.get(border.corner, "")
    if border.fabric is None:
        what = say("figure.border.pieced")
    else:
        what = say("figure.border.fabric", letter=desk.fabrics[border.fabric].letter)
    width = with_unit(booklet, size_text(booklet, border.width))
    doing = "figure.border.wait" if is_waiting(border) else "figure.border.sew"
    title = say(doing, number=border.order, what=what, order=order)
    title += f"{ends} {say('figure.border.width', width=width)}"
    caption = say("figure.finished", size=unbroken(width))
    labels = _labels_of(border)
    if labels:
        caption = f"{', '.join(labels)}: {caption}"
    panels = [Panel(parts=tuple(parts), caption=caption)]
    if border.corner != "butted" and not is_waiting(border):
        panels.append(corner_panel(desk, border))
    return Sketch(
        id=f"border-{border.order}",
        kind="border",
        title=title,
        desc=say("figure.border.expected", sizes="; ".join(told)),
        scene=lay_out(panels, width=_BESIDE_TEXT),
        about={"border": str(border.order)} | ({"fabric": border.fabric} if border.fabric is not None else {}),
    )


def _labels_of(border: BorderNote) -> list[str]:
    """Return the labels of a border's strips; none for a pieced one."""
    named = (strip_label(border, strip.edge) for strip in border.strips)
    return list(dict.fromkeys(label for label in named if label is not None))


def is_waiting(border: BorderNote) -> bool:
    """Tell whether the strips of a border are sewn to those of another before they are mitred with them."""
    return bool(border.together) and border.order != border.together[-1]


def _sides_now(booklet: Booklet, border: BorderNote, now: BorderNote, scale: float) -> Sides:
    """Return the outlines of a border when ``now`` is sewn: nothing is mitred while that waits for the next."""
    sides = border_sides(booklet, border, scale, within=now.after)
    return {name: _without_mitres(spots, name) for name, spots in sides.items()} if is_waiting(now) else sides


def _without_mitres(spots: tuple[Spot, ...], edge: str) -> tuple[Spot, ...]:
    """Return the rectangle within a mitred strip, as long as its inner edge."""
    left, top, right, bottom = box_of(spots)
    if edge in ("left", "right"):
        top, bottom = top + (right - left), bottom - (right - left)
    else:
        left, right = left + (bottom - top), right - (bottom - top)
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _mitre_words(border: BorderNote) -> str:
    if not border.together:
        return f" {say('figure.border.mitre')}"
    first, last = border.together[0], border.together[-1]
    return f" {say('figure.border.together', first=first, last=last)}"


def _quilt_so_far(desk: Desk, border: BorderNote, scale: float) -> list[Shape]:
    """Draw the centre and the earlier borders in grey."""
    booklet = desk.booklet
    parts: list[Shape] = []
    for earlier in booklet.borders[: border.order - 1]:
        ink = Ink(fill=PALE, stroke=SOFT, width=SEAM, rounded=True)
        sewn = border_sides(booklet, earlier, scale, within=border.after)
        parts += [Polygon(points=spots, ink=ink) for spots in sewn.values()]
    stamps = Stamps(desk, scale)
    left, top = centre_corner(booklet, scale, within=border.after)
    ink = Ink(fill=PALE, stroke="#c4c4cb", width=SEAM, rounded=True)
    for place in booklet.places:
        dx, dy = stamps.spot(place)
        parts.append(Group(parts=(Polygon(points=stamps.stamp(place).outline, ink=ink),), dx=left + dx, dy=top + dy))
    return parts


def _numbers(border: BorderNote, sides: Sides) -> list[Shape]:
    """Write the number of each strip in sewing order, just outside it."""
    away = NUMBER_RADIUS + 4
    numbers: list[Shape] = []
    for i, strip in enumerate(border.strips, start=1):
        left, top, right, bottom = box_of(sides[strip.edge])
        x, y = (left + right) / 2, (top + bottom) / 2
        spot = {"left": (left - away, y), "right": (right + away, y), "top": (x, top - away)}.get(strip.edge)
        numbers.append(circled(i, spot or (x, bottom + away), filled=True))
    return numbers


def _arrows(desk: Desk, border: BorderNote, scale: float) -> list[Shape]:
    """Draw the arrows of the long seams, away from the numbers."""
    left, top = centre_corner(desk.booklet, scale, within=border.after)
    arrows: list[Shape] = []
    for seam in border_seams(desk, border)[0]:
        (x1, y1), (x2, y2) = line = scaled(spots_of(seam.line), scale, left, top)
        at = (x1 + (x2 - x1) * _ARROW_AT, y1 + (y2 - y1) * _ARROW_AT)
        arrows.append(press_arrow(at, across((line[0], line[1])), seam.press))
    return arrows
