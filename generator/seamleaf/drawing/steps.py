"""Step figures: how each unit is sewn, stage by stage, ending with the finished unit and its unfinished size."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.corners import corner_stages
from seamleaf.drawing.diamonds import diamond_stages
from seamleaf.drawing.drafting import STEP, Panel, lay_out, outline, scaled
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.geese import flip_stages, geese_four_stages
from seamleaf.drawing.half_rectangles import half_rectangle_stages
from seamleaf.drawing.half_squares import half_square_stages
from seamleaf.drawing.measures import unfinished
from seamleaf.drawing.pieced_strips import strip_sketch
from seamleaf.drawing.quarter_squares import quarter_square_stages
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.rings import ring_stages
from seamleaf.drawing.rounds import log_cabin_stages
from seamleaf.drawing.scene import Shape
from seamleaf.drawing.spread import draw_spread, spread, whole
from seamleaf.drawing.stages import Stages, measured
from seamleaf.drawing.strip_sets import cut_sentence, strip_set_stages
from seamleaf.drawing.three_triangles import three_triangle_stages
from seamleaf.drawing.triangles import triangle_sketch
from seamleaf.drawing.wording import count_word, counted, press_sentence, say, spoken

_GAP: Final = 28.0
_FEW: Final = 4
"""Pictures that may take half the width each."""
_LARGE: Final = 120.0
_SIDES: Final = {"half-square": 90.0, "quarter-square": 96.0, "three-triangle": 96.0, "corners": 96.0}
"""Longer side of a finished unit, by how it is sewn."""
_SQUARE_JOIN: Final = 120.0
_STRIP: Final = 190.0


_MANNERS: Final = ("two", "four", "eight", "flip")


def step_sketches(desk: Desk) -> list[Sketch]:
    """Return one figure for each unit that is sewn or cut from a square, in sewing order."""
    sketches = []
    strips = {strip.unit for border in desk.booklet.borders for strip in border.strips}
    triangles: set[str] = set()
    for unit in desk.booklet.units:
        if unit.how == "patch":
            patch = desk.patches[unit.regions[0].label] if unit.regions else None
            if patch is None or patch.shape not in ("halved", "quartered") or patch.label in triangles:
                continue
            triangles.add(patch.label)
            sketches.append(triangle_sketch(desk, unit))
        elif unit.id in strips:
            sketches.append(strip_sketch(desk, unit))
        else:
            sketches.append(_unit_sketch(desk, unit))
    return sketches


def _unit_sketch(desk: Desk, unit: Unit) -> Sketch:
    stages = _stages(desk, unit)
    panels = [*stages.panels, stages.finished or _finished_panel(desk, unit, stages.told)]
    numbered = [replace(p, number=i, tag=p.tag or f"stage {i}") for i, p in enumerate(panels[:-1], start=1)]
    numbered.append(replace(panels[-1], number=len(panels), tag=f"finished {unit.id}"))
    gap, least = (24, 138) if len(panels) <= _FEW else (18, 96)
    return Sketch(
        id=f"step-{unit.id}",
        kind="step",
        title=_title(desk, unit),
        desc=" ".join(panel.caption for panel in panels),
        scene=lay_out(numbered, width=STEP, gap=gap, least=least),
        about={"unit": unit.id},
    )


def _stages(desk: Desk, unit: Unit) -> Stages:
    """Return the pictures before the finished unit: those of its method, or its parts apart."""
    match unit.how, unit.method:
        case "half-square", "two" | "four" | "eight":
            return half_square_stages(desk, unit)
        case "quarter-square", _:
            return quarter_square_stages(desk, unit, _scale(unit))
        case "half-rectangle", _:
            return half_rectangle_stages(desk, unit)
        case "three-triangle", _:
            return three_triangle_stages(desk, unit, _scale(unit))
        case "geese", "four":
            return geese_four_stages(desk, unit)
        case "geese", "flip":
            return flip_stages(desk, unit)
        case "corners", _:
            return corner_stages(desk, unit)
        case "diamond", _:
            return diamond_stages(desk, unit)
        case "around", _:
            return log_cabin_stages(desk, unit)
        case "strip-set", _:
            return strip_set_stages(desk, unit)
        case "partial", _:
            return ring_stages(desk, unit)
        case _:
            return _apart(desk, unit)


def _apart(desk: Desk, unit: Unit) -> Stages:
    """Show the parts apart, with a press arrow on each seam and the names of those that are units."""
    laid = spread(desk, unit.id, _scale(unit), (_GAP,), names=True)
    seams = desk.seams_of(unit)
    caption = f"{say('figure.step.sew')} {press_sentence(seams)}"
    return Stages(panels=(Panel(parts=tuple(draw_spread(desk, laid, sizes=True)), caption=caption),), told=len(seams))


def _finished_panel(desk: Desk, unit: Unit, told: int) -> Panel:
    """Show the finished unit with the size to measure, and how those seams are pressed that are not told yet."""
    scale = _scale(unit)
    laid = whole(desk, unit.id, scale)
    untold = desk.seams_of(unit)[told:]
    if untold:
        laid = replace(laid, arrows=spread(desk, unit.id, scale, (0.0,)).arrows[told:])
    parts: list[Shape] = draw_spread(desk, laid, length=14)
    parts.append(outline(scaled(spots_of(unit.outline), scale)))
    return Panel(parts=tuple(parts), caption=f"{press_sentence(untold)} {measured(desk, unit)}".strip())


def _scale(unit: Unit) -> float:
    """Return points for one unit of length: units of a like kind come out alike, long rows longer."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    if unit.how not in ("join", "strip-set"):
        return _SIDES.get(unit.how, _LARGE) / max(w, h)
    return (_STRIP if max(w, h) >= 2.5 * min(w, h) else _SQUARE_JOIN) / max(w, h)


def _title(desk: Desk, unit: Unit) -> str:
    """Compose the alternative text: what to sew to what, where to press, what to measure."""
    names = [take.label or take.unit or "" for take in unit.from_ for _ in range(take.n)]
    size = unfinished(desk.booklet, unit.trim or unit.made)
    pressing = press_sentence(desk.seams_of(unit))
    if unit.how in ("join", "strip-set"):
        order = sorted(unit.from_, key=lambda take: take.x if unit.axis == "row" else take.y)
        told = ", ".join(spoken(take.label or take.unit or "") for take in order)
        if unit.how == "strip-set":
            strips = say("figure.step.strips", told=told)
            return f"{strips} {pressing} {cut_sentence(desk, unit)} {say('figure.step.each', size=size)}"
        join = say(f"figure.step.{unit.axis}", id=spoken(unit.id), told=told)
        return f"{join} {pressing} {say('figure.step.it', size=size)}"
    kind = say(f"figure.kind.{unit.how}")
    manner = say(f"figure.manner.{unit.method}") if unit.method in _MANNERS else ""
    parts = [
        say("figure.step.into", parts=counted(names), kind=kind, id=spoken(unit.id), manner=manner),
        pressing,
        say("figure.trim-to" if unit.trim else "figure.step.each", size=size),
    ]
    if unit.makes > 1:
        parts.append(say("figure.makes", count=count_word(unit.makes)))
    if unit.mirrored:
        parts.append(say("figure.step.hands"))
    return " ".join(parts)
