"""The back: how its panels lie, the strip of leftovers in it, and the quilt upon them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from typing import Final

from seamleaf.booklet.record import BackingNote
from seamleaf.drawing.colours import INK, PALE, PAPER, SOFT
from seamleaf.drawing.drafting import CUT, DASH, EDGE, SEAM, STEP, Panel, draw_patch, label_lines, lay_out
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.labels import Room, fit, set_lines
from seamleaf.drawing.measures import box_text, size_text, unbroken, with_unit
from seamleaf.drawing.scene import Ink, Polygon, Rect, Shape, Spot
from seamleaf.drawing.wording import count_word, say

_TALL: Final = 240.0
_EDGE: Final = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Area:
    """A part of the back, by its ends across and along the seams, as shares of the whole."""

    across: tuple[float, float]
    along: tuple[float, float]
    fabric: str
    texts: tuple[str, ...]
    """Its label, and its size where there is room."""
    tag: str


def backing_sketch(desk: Desk) -> Sketch:
    """Return ``backing``: the panels with their seams, and the quilt lying on them."""
    booklet, back = desk.booklet, desk.booklet.backing
    w, h = back.w.to_float(), back.h.to_float()
    scale = min(_TALL / h, STEP / w * 0.9)
    width, height = w * scale, h * scale
    quilt_w, quilt_h = booklet.finished.w.to_float() * scale, booklet.finished.h.to_float() * scale
    inner = {"x": (width - quilt_w) / 2, "y": (height - quilt_h) / 2, "w": quilt_w, "h": quilt_h}
    room = Room()
    for x in (inner["x"], inner["x"] + quilt_w):  # no label under the quilt's edge
        room.take((x - _EDGE, inner["y"], x + _EDGE, inner["y"] + quilt_h))
    for y in (inner["y"], inner["y"] + quilt_h):
        room.take((inner["x"], y - _EDGE, inner["x"] + quilt_w, y + _EDGE))
    parts = [shape for area in _areas(desk) for shape in _draw(desk, area, width, height, room)]
    parts.append(Rect(**inner, ink=Ink(stroke=PAPER, width=2.5)))
    parts.append(Rect(**inner, ink=Ink(stroke=INK, width=CUT, dash=DASH)))
    parts.append(Rect(x=0, y=0, w=width, h=height, ink=Ink(stroke=INK, width=EDGE)))
    size = box_text(booklet, back.w, back.h)
    panels = say("figure.back.panels", n=back.panels, count=count_word(back.panels))
    if back.insert is not None:
        strip = with_unit(booklet, size_text(booklet, back.insert.width))
        join, title = say("figure.back.strip", width=strip), say("figure.back.with", panels=panels, label=back.label)
    else:
        join = "" if back.seam == "none" else say(f"figure.back.{back.seam}", n=back.panels - 1)
        title = f"{panels} {back.label}{join}"
    return Sketch(
        id="backing",
        kind="backing",
        title=say("figure.back.title", size=size, what=title),
        scene=lay_out(
            [
                Panel(
                    parts=tuple(parts),
                    caption=say("figure.back.caption", size=unbroken(size), panels=f"{panels}{join}"),
                )
            ],
            width=STEP,
        ),
        about={"fabric": back.fabric},
    )


def _areas(desk: Desk) -> list[_Area]:
    """Return panels and pieces in the order in which they lie."""
    booklet, back = desk.booklet, desk.booklet.backing
    panel = (back.label, box_text(booklet, back.panel.w, back.panel.h, unit=False))
    slots = _slots(back)
    whole = sum(slots)
    ends = list(accumulate((slot / whole for slot in slots), initial=0.0))
    areas: list[_Area] = []
    for number, across in enumerate(pairwise(ends)):
        if back.insert is not None and number == 1:
            areas += _pieces(desk, across)
        else:
            texts = panel if back.insert is None or not back.insert.parts else panel[:1]
            areas.append(_Area(across=across, along=(0, 1), fabric=back.fabric, texts=texts, tag=f"panel {back.label}"))
    return areas


def _slots(back: BackingNote) -> list[float]:
    """Return how wide panels and strip are across the seams."""
    panel = back.panel.w.to_float()
    if back.insert is None:
        return [panel] * back.panels
    strip = back.insert.width.to_float()
    if back.insert.parts:
        first, second = (part.to_float() for part in back.insert.parts)
        return [first, strip, second]
    return [panel, strip, *[panel] * (back.panels - 1)]


def _pieces(desk: Desk, across: tuple[float, float]) -> list[_Area]:
    """Return the pieces of the strip; what is longer than the panels is cut off the last."""
    insert = desk.booklet.backing.insert
    assert insert is not None  # noqa: S101 -- the caller looked
    length = desk.booklet.backing.panel.h.to_float()
    areas: list[_Area] = []
    at = 0.0
    for piece in insert.pieces:
        for _ in range(piece.count):
            end = at + piece.sewn.to_float() / length
            texts = (desk.fabrics[piece.fabric].letter,)
            areas.append(_Area(across=across, along=(at, end), fabric=piece.fabric, texts=texts, tag="piece"))
            at = end
    return [*areas[:-1], replace(areas[-1], along=(areas[-1].along[0], 1.0))]


def _draw(desk: Desk, area: _Area, width: float, height: float, room: Room) -> list[Shape]:
    upright = desk.booklet.backing.seam != "horizontal"
    (left, right), (top, bottom) = (area.across, area.along) if upright else (area.along, area.across)
    spots: tuple[Spot, ...] = (
        (left * width, top * height), (right * width, top * height),
        (right * width, bottom * height), (left * width, bottom * height),
    )  # fmt: skip
    texts = [label_lines(*area.texts), label_lines(area.texts[0])]
    if area.fabric in desk.fabrics:
        return [draw_patch(spots, desk.look(area.fabric, None), texts=texts, tag=area.tag, room=room)]
    placed = next((p for p in (fit(spots, lines, room) for lines in texts) if p is not None), None)
    outline = Polygon(points=spots, ink=Ink(fill=PALE, stroke=SOFT, width=SEAM))
    return [outline, *(set_lines(placed, INK) if placed is not None else [])]
