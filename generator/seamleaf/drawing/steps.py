"""Step figures: how each unit is sewn, stage by stage, ending with the finished unit and its unfinished size."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Unit
from seamleaf.drawing.arrows import press_arrow
from seamleaf.drawing.colours import INK
from seamleaf.drawing.drafting import DASH, Panel, draw_patch, label_lines, lay_out, outline, scaled
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.measures import unfinished
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.scene import Group, Ink, Line, Shape
from seamleaf.drawing.spread import draw_spread, spread, whole
from seamleaf.drawing.stages import flip_stages, geese_four_stages, half_square_stages, square_of
from seamleaf.drawing.wording import count_word, counted, press_sentence

STEP_WIDTH: Final = 360.0
"""Of a step figure: narrow enough that its text can be read on a phone too."""
_GAP: Final = 28.0
_LARGE: Final = 120.0
_STRIP: Final = 250.0


def step_sketches(desk: Desk) -> list[Sketch]:
    """Return one figure for each unit that is sewn or cut from a square, in sewing order."""
    sketches = []
    for unit in desk.booklet.units:
        if unit.how == "patch":
            patch = desk.patches[unit.regions[0].label] if unit.regions else None
            if patch is None or patch.shape not in ("halved", "quartered"):
                continue
            sketches.append(_triangle_sketch(desk, unit))
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
        scene=lay_out(numbered, width=STEP_WIDTH),
        about={"unit": unit.id},
    )


def _stages(desk: Desk, unit: Unit) -> list[Panel]:
    if unit.how == "half-square" and unit.method in ("two", "four", "eight"):
        return half_square_stages(desk, unit)
    if unit.how == "geese" and unit.method == "four":
        return geese_four_stages(desk, unit)
    if unit.how == "geese" and unit.method == "flip":
        return flip_stages(desk, unit)
    return [_apart_panel(desk, unit)]


def _apart_panel(desk: Desk, unit: Unit) -> Panel:
    """Show the parts apart, outlined as the new pieces, with a press arrow on each seam."""
    laid = spread(desk, unit.id, _scale(unit), (_GAP,))
    seams = desk.seams_of(unit)
    return Panel(parts=tuple(draw_spread(desk, laid, sizes=True)), caption=f"Sew. {press_sentence(seams)}")


def _finished_panel(desk: Desk, unit: Unit) -> Panel:
    """Show the finished unit with the size to measure."""
    laid = whole(desk, unit.id, _scale(unit))
    staged = unit.method in ("two", "four", "eight", "flip")
    arrows = spread(desk, unit.id, _scale(unit), (0.0,)).arrows if staged else ()
    parts: list[Shape] = draw_spread(desk, laid)
    parts.append(outline(scaled(spots_of(unit.outline), _scale(unit))))
    parts += [press_arrow(arrow.at, arrow.toward_after, arrow.press, length=14) for arrow in arrows]
    size = unfinished(desk.booklet, unit.trim or unit.made)
    verb = "Trim to" if unit.trim else "Measure:"
    makes = f" Makes {count_word(unit.makes)}." if unit.makes > 1 else ""
    press = ""
    if staged and desk.seams_of(unit):
        press = f"{press_sentence(desk.seams_of(unit)[:1])} "
    return Panel(parts=tuple(parts), caption=f"{press}{verb} {size}.{makes}", tag=f"finished {unit.id}")


def _triangle_sketch(desk: Desk, unit: Unit) -> Sketch:
    """Show how setting triangles come from a square: cut once or twice on the diagonal."""
    label = unit.regions[0].label
    patch, look = desk.patches[label], desk.look_of(label)
    twice = patch.shape == "quartered"
    square = square_of(0, 0, _LARGE)
    a, b, c, d = square
    ink = Ink(stroke=INK, width=1.0, dash=DASH)
    halo = Ink(stroke="#ffffff", width=2.5)
    cuts = [(d, b), (a, c)] if twice else [(d, b)]
    lines: list[Shape] = [Line(start=s, end=e, ink=i) for s, e in cuts for i in (halo, ink)]
    size = desk.cut_size(label)
    name = "side triangle" if twice else "corner triangle"
    m = (_LARGE / 2, _LARGE / 2)
    triangles = [(a, b, m), (b, c, m), (c, d, m), (d, a, m)] if twice else [(a, b, d), (b, c, d)]
    apart: list[Shape] = []
    for triangle in triangles:
        x, y = sum(p[0] for p in triangle) / 3 - m[0], sum(p[1] for p in triangle) / 3 - m[1]
        moved = tuple((px + x * 0.35, py + y * 0.35) for px, py in triangle)
        apart.append(draw_patch(moved, look, texts=[label_lines(label)], tag=f"patch {label}"))
    count = len(triangles)
    how = "twice, corner to corner" if twice else "once, corner to corner"
    panels = [
        Panel(
            parts=(draw_patch(square, look, tag=f"square {label}"), *lines),
            caption=f"Cut the {size} square {how}.",
            number=1,
        ),
        Panel(parts=(Group(parts=tuple(apart)),), caption=f"Makes {count_word(count)} {name}s {label}.", number=2),
    ]
    return Sketch(
        id=f"step-{unit.id}",
        kind="step",
        title=f"Cut each {size} {desk.booklet.unit} square {label} {how}, into {count_word(count)} {name}s.",
        scene=lay_out(panels, width=STEP_WIDTH),
        about={"unit": unit.id},
    )


def _scale(unit: Unit) -> float:
    """Return points for one unit of length: units of a like size come out alike, strips longer."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    large = _STRIP if max(w, h) >= 2.5 * min(w, h) and unit.how == "join" else _LARGE
    return large / max(w, h)


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
    kind = {"half-square": "half-squares", "geese": "flying geese"}.get(unit.how, unit.how)
    manner = {
        "two": ", two at a time", "four": ", four at a time", "eight": ", eight at a time",
        "flip": ", by stitch and flip",
    }.get(unit.method or "", "")  # fmt: skip
    trim = "Trim to" if unit.trim else "Each measures"
    return f"Sew {counted(names)} into {kind} {unit.id}{manner}. {pressing} {trim} {size}.{makes}"
