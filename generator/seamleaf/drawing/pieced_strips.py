"""Strips of pieced borders: as they lie round the quilt, and how one is sewn, unit by unit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from seamleaf.booklet.record import Booklet, BorderNote, Take, Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.colours import INK, mix
from seamleaf.drawing.drafting import EDGE, LABEL, PAGE, SMALLEST, Panel, label_lines, lay_out
from seamleaf.drawing.figure import Desk, Laid, Sketch, Use
from seamleaf.drawing.labels import fit, set_lines
from seamleaf.drawing.outlines import box_of
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.rows import break_lines
from seamleaf.drawing.scene import Group, Ink, Polygon, Shape, Spot, Text
from seamleaf.drawing.stages import measured
from seamleaf.drawing.wording import count_word, press_sentence, say, spoken

_GAP: Final = 16.0
_LINE: Final = 440.0
_MOST: Final = 600.0
_LINE_GAP: Final = 18.0
_UNIT: Final = 60.0
"""Most height of a unit in the figure of its strip."""


def strip_unit(border: BorderNote, edge: str) -> tuple[str, int] | None:
    """Return the unit that lies along an edge of a pieced border, and how it is turned."""
    for strip in border.strips:
        if strip.edge == edge and strip.unit is not None:
            return strip.unit, strip.turn
    return None


def strip_patches(desk: Desk, border: BorderNote, edge: str, spots: Sequence[Spot]) -> list[tuple[Use, list[Spot]]]:
    """Return the patches of a pieced strip, by fabric, where its outline lies on the page; none of any other strip."""
    lying = strip_unit(border, edge)
    if lying is None:
        return []
    left, top, right, bottom = box_of(spots)
    x, y = (left + right) / 2, (top + bottom) / 2
    laid = desk.laid(lying[0], lying[1], False)
    low, _, high, _ = box_of(laid.outline)
    scale = (right - left) / (high - low)
    return [(use, [(x + a * scale, y + b * scale) for a, b in outline]) for use, outline in laid.patches]


def draw_strip(desk: Desk, border: BorderNote, edge: str, spots: Sequence[Spot], *, seams: bool) -> list[Shape]:
    """Draw the patches of a pieced strip in their colours, with or without the lines of their seams."""
    shapes: list[Shape] = []
    for use, outline in strip_patches(desk, border, edge, spots):
        look = desk.look(*use)
        stroke = mix(look.colour, look.ink, 45) if seams else look.colour
        shapes.append(Polygon(points=tuple(outline), ink=Ink(fill=look.colour, stroke=stroke, width=0.5, rounded=True)))
    return shapes


@dataclass(frozen=True, slots=True, kw_only=True)
class _Item:
    """One part of a strip, about its own centre."""

    name: str
    is_patch: bool
    laid: Laid

    @property
    def sides(self) -> tuple[float, float]:
        left, top, right, bottom = box_of(self.laid.outline)
        return right - left, bottom - top


def strip_sketch(desk: Desk, unit: Unit) -> Sketch:
    """Return the step figure of a strip: its parts in a line, broken where it is long, an arrow at each seam."""
    items = [_item(desk, unit, take) for take in unit.from_]
    widths, heights = zip(*(item.sides for item in items), strict=True)
    block = max(heights)
    scale, lines = break_lines(widths, block, _LINE, _MOST, _UNIT)
    seams = desk.seams_of(unit)
    shapes: list[Shape] = []
    start, y = 0, 0.0
    for count in lines:
        x = 0.0
        for index in range(start, start + count):
            item, wide = items[index], widths[index] * scale
            shapes.append(Group(parts=tuple(_draw(desk, item, scale)), dx=x + wide / 2, dy=y))
            x += wide
            if index < len(seams):
                shapes.append(press_arrow((x + _GAP / 2, y), (1.0, 0.0), seams[index].press, length=_GAP - 1))
            x += _GAP
        y += block * scale + _LINE_GAP
        start += count
    told = ", ".join(_told(run[0], len(run)) for run in _runs(items))
    sewn = say("figure.step.strip", id=strip_name(desk.booklet, unit.id), told=told)
    title = f"{sewn} {press_sentence(seams)} {measured(desk, unit)}"
    scene = lay_out([Panel(parts=tuple(shapes), tag=f"strip {unit.id}")], width=PAGE, least=0)
    return Sketch(id=f"step-{unit.id}", kind="step", title=title, scene=scene, about={"unit": unit.id})


def strip_name(booklet: Booklet, unit_id: str) -> str:
    """Return a strip of a pieced border as it is said: ``the side strips of border 2``."""
    border, edge = next(
        (border, strip.edge) for border in booklet.borders for strip in border.strips if strip.unit == unit_id
    )
    return say("figure.strip.sides" if edge in ("left", "right") else "figure.strip.ends", n=border.order)


def _runs(items: Sequence[_Item]) -> list[list[_Item]]:
    return [list(run) for _, run in groupby(items, key=lambda item: (item.name, item.is_patch))]


def _told(item: _Item, count: int) -> str:
    name = spoken(item.name)
    if count == 1:
        return name
    return (
        f"{count_word(count)} {name}" if item.is_patch else say("figure.step.units", count=count_word(count), name=name)
    )


def _item(desk: Desk, unit: Unit, take: Take) -> _Item:
    if take.unit is not None:
        return _Item(name=take.unit, is_patch=False, laid=desk.laid(take.unit, take.turn, take.mirror))
    return _Item(name=take.label or "", is_patch=True, laid=next(_patch(unit, take)))


def _patch(unit: Unit, take: Take) -> Iterator[Laid]:
    """Yield the region of a spacer about its own centre."""
    x, y = take.x.to_float(), take.y.to_float()
    for region in unit.regions:
        left, top, right, bottom = box_of(spots_of(region.outline))
        if region.label == take.label and left < x < right and top < y < bottom:
            outline = tuple((a - x, b - y) for a, b in spots_of(region.outline))
            yield Laid(outline=outline, patches=(((region.fabric, region.print), outline),))


def _draw(desk: Desk, item: _Item, scale: float) -> Iterator[Shape]:
    for use, outline in item.laid.patches:
        look = desk.look(*use)
        ink = Ink(fill=look.colour, stroke=mix(look.colour, look.ink, 45), width=0.5, rounded=True)
        yield Polygon(points=tuple((x * scale, y * scale) for x, y in outline), ink=ink)
    outline = tuple((x * scale, y * scale) for x, y in item.laid.outline)
    yield Polygon(points=outline, ink=Ink(stroke=INK, width=EDGE, rounded=True))
    if item.is_patch:
        lines = label_lines(item.name)
        placed = fit(outline, lines)
        if placed is not None:
            yield from set_lines(placed, desk.look_of(item.name).ink)
        else:
            _, top, _, _ = box_of(outline)
            yield Text(x=0, y=top - LABEL / 3, text=item.name, size=SMALLEST, colour=INK)
