"""Half-squares two, four or eight at a time: the stages before the finished unit."""

from __future__ import annotations

from seamleaf.booklet.record import Unit
from seamleaf.drawing.drafting import Panel
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.outlines import Segment, Spots
from seamleaf.drawing.pairs import FALLING, RISING, Pair, halves, lighter_first, whole_square
from seamleaf.drawing.regions import spots_of
from seamleaf.drawing.stages import SIDE, Stages, beside, labels_taken, marked, sewn, square_of
from seamleaf.drawing.wording import say


def half_square_stages(desk: Desk, unit: Unit) -> Stages:
    """Return the stages of half-squares two, four or eight at a time."""
    upper, lower = lighter_first(desk, labels_taken(unit))
    allowance = desk.booklet.seam.to_float() * SIDE / desk.patches[upper].w.to_float()
    pair = Pair(desk=desk, upper=whole_square(upper), lower=whole_square(lower))
    together = say("figure.half-square.together", first=upper, second=lower)
    if unit.method == "four":
        seams = _round_the_edge(allowance)
        return Stages(panels=(
            Panel(parts=pair.draw(()), caption=together),
            Panel(parts=pair.draw(sewn(seams)), caption=say("figure.half-square.round", seam=desk.allowance())),
            Panel(parts=pair.cut_apart(_quarters(), seams), caption=say("figure.half-square.quarters")),
        ))  # fmt: skip
    eight = unit.method == "eight"
    marks = (RISING, FALLING) if eight else (RISING if _rises(unit) else FALLING,)
    seams = tuple(seam for mark in marks for seam in beside(mark, allowance))
    pieces = _eighths() if eight else halves(marks[0])
    what = say("figure.half-square.mark-both" if eight else "figure.half-square.mark")
    cut = say("figure.half-square.eighths" if eight else "figure.half-square.halves")
    both = [*marked(marks), *sewn(seams)]
    return Stages(panels=(
        Panel(parts=pair.draw(marked(marks)), caption=f"{together} {what}"),
        Panel(parts=pair.draw(both), caption=say("figure.both-sides", seam=desk.allowance())),
        Panel(parts=pair.cut_apart(pieces, seams), caption=cut),
    ))  # fmt: skip


def _rises(unit: Unit) -> bool:
    """Return whether the diagonal of the first patch rises from lower left to upper right."""
    w, h = unit.finished.w.to_float(), unit.finished.h.to_float()
    corners = spots_of(unit.regions[0].outline)
    return sum((x < w / 2) == (y > h / 2) for x, y in corners) == 2


def _round_the_edge(offset: float) -> tuple[Segment, ...]:
    a, b = offset, SIDE - offset
    return (((0, a), (SIDE, a)), ((b, 0), (b, SIDE)), ((0, b), (SIDE, b)), ((a, 0), (a, SIDE)))


def _quarters() -> list[Spots]:
    ring = square_of(0, 0, SIDE)
    return [(ring[i], ring[(i + 1) % 4], (SIDE / 2, SIDE / 2)) for i in range(4)]


def _eighths() -> list[Spots]:
    a, b, c, d = square_of(0, 0, SIDE)
    half = SIDE / 2
    ring = (a, (half, 0.0), b, (SIDE, half), c, (half, SIDE), d, (0.0, half))
    return [(ring[i], ring[(i + 1) % 8], (half, half)) for i in range(8)]
