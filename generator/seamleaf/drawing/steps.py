"""Step figures: how each unit is sewn, stage by stage, ending with the finished unit and its unfinished size."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.drafting import STEP, Panel, lay_out, outline, scaled
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.geese import flip_stages, geese_four_stages
from seamleaf.drawing.half_squares import half_square_stages
from seamleaf.drawing.measures import box_text, unbroken, unfinished
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Shape
from seamleaf.drawing.spread import draw_spread, spread, whole
from seamleaf.drawing.triangles import triangle_sketch
from seamleaf.drawing.wording import count_word, counted, press_sentence

_GAP: Final = 28.0
_LARGE: Final = 120.0
_SQUARE_JOIN: Final = 150.0
_STRIP: Final = 230.0


_KINDS: Final = {
    "half-square": "half-squares", "geese": "flying geese", "quarter-square": "quarter-squares",
    "corners": "flipped corners", "diamond": "a square in a square", "around": "a log cabin",
    "partial": "a ring with a partial seam",
}  # fmt: skip


def step_sketches(desk: Desk) -> list[Sketch]:
    """Return one figure for each unit that is sewn or cut from a square, in sewing order."""
    sketches = []
    for unit in desk.booklet.units:
        if unit.how == "patch":
            patch = desk.patches[unit.regions[0].label] if unit.regions else None
            if patch is None or patch.shape not in ("halved", "quartered"):
                continue
            sketches.append(triangle_sketch(desk, unit))
        else:
            sketches.append(_unit_sketch(desk, unit))
    return sketches


def _unit_sketch(desk: Desk, unit: Unit) -> Sketch:
    stages = _stages(desk, unit)
    panels = [*stages, _finished_panel(desk, unit)]
    numbered = [
        Panel(parts=p.parts, caption=p.caption, number=i, tag=p.tag or f"stage {i}")
        for i, p in enumerate(panels, start=1)
    ]
    return Sketch(
        id=f"step-{unit.id}",
        kind="step",
        title=_title(desk, unit),
        desc=" ".join(panel.caption for panel in panels),
        scene=lay_out(numbered, width=STEP, least=150 if len(panels) <= 4 else 96),
        about={"unit": unit.id},
    )


def _stages(desk: Desk, unit: Unit) -> list[Panel]:
    if not _is_staged(unit):
        return [_apart_panel(desk, unit)]
    if unit.how == "half-square":
        return half_square_stages(desk, unit)
    return flip_stages(desk, unit) if unit.method == "flip" else geese_four_stages(desk, unit)


def _apart_panel(desk: Desk, unit: Unit) -> Panel:
    """Show the parts apart, with a press arrow on each seam and the names of those that are units."""
    laid = spread(desk, unit.id, _scale(unit), (_GAP,), names=True)
    return Panel(
        parts=tuple(draw_spread(desk, laid, sizes=True)), caption=f"Sew. {press_sentence(desk.seams_of(unit))}"
    )


def _finished_panel(desk: Desk, unit: Unit) -> Panel:
    """Show the finished unit with the size to measure; after stages, with the press arrows too."""
    scale = _scale(unit)
    staged = _is_staged(unit)
    laid = whole(desk, unit.id, scale)
    if staged:
        laid = replace(laid, arrows=spread(desk, unit.id, scale, (0.0,)).arrows)
    parts: list[Shape] = draw_spread(desk, laid, length=14)
    parts.append(outline(scaled(spots_of(unit.outline), scale)))
    measured = unit.trim or unit.made
    size = f"{unbroken(box_text(desk.booklet, measured.w, measured.h))} unfinished"
    told = [
        press_sentence(desk.seams_of(unit)) if staged else "",
        f"Trim to {size}." if unit.trim else f"Measure: {size}.",
        f"Makes {count_word(unit.makes)}." if unit.makes > 1 else "",
    ]
    return Panel(parts=tuple(parts), caption=" ".join(filter(None, told)), tag=f"finished {unit.id}")


def _is_staged(unit: Unit) -> bool:
    return unit.method in ("two", "four", "eight", "flip") and unit.how in ("half-square", "geese")


def _scale(unit: Unit) -> float:
    """Return points for one unit of length: units of a like kind come out alike, long rows longer."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    if unit.how != "join":
        return (90.0 if unit.how == "half-square" else _LARGE) / max(w, h)
    return (_STRIP if max(w, h) >= 2.5 * min(w, h) else _SQUARE_JOIN) / max(w, h)


def _title(desk: Desk, unit: Unit) -> str:
    """Compose the alternative text: what to sew to what, where to press, what to measure."""
    names = [take.label or take.unit or "" for take in unit.from_ for _ in range(take.n)]
    size = unfinished(desk.booklet, unit.trim or unit.made)
    pressing = press_sentence(desk.seams_of(unit))
    if unit.how == "join":
        way = "left to right" if unit.axis == "row" else "top to bottom"
        order = sorted(unit.from_, key=lambda take: take.x if unit.axis == "row" else take.y)
        told = ", ".join(take.label or take.unit or "" for take in order)
        return f"Sew {unit.id} from {told}, {way}. {pressing} It measures {size}."
    makes = f" Makes {count_word(unit.makes)}." if unit.makes > 1 else ""
    kind = _KINDS.get(unit.how, unit.how)
    manner = {
        "two": ", two at a time", "four": ", four at a time", "eight": ", eight at a time",
        "flip": ", by stitch and flip",
    }.get(unit.method or "", "")  # fmt: skip
    trim = "Trim to" if unit.trim else "Each measures"
    return f"Sew {counted(names)} into {kind} {unit.id}{manner}. {pressing} {trim} {size}.{makes}"
