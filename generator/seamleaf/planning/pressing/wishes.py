"""Which way a seam would be pressed if nothing had to nest: to the simpler side, to the darker, and all alike.

Simple beats pieced, since allowances folded onto seams make lumps; dark under light would show through
(press to dark yields to bulk at joins: carolyngibbsquilts.co.uk). Last, units that are sewn alike in other fabrics are
pressed alike, which is less to keep in mind (common practice, no source). All are wishes: they never cost a clash.
"""

from __future__ import annotations

from collections.abc import Hashable

from seamleaf.planning.piecing.drafts import Draft, Ref
from seamleaf.planning.pressing.meetings import Edge, Geometry, SeamKey, is_inside
from seamleaf.reading.pattern import Pattern


def wishes_of(
    pattern: Pattern, drafts: dict[str, Draft], geometry: Geometry
) -> tuple[dict[SeamKey, int], dict[SeamKey, int]]:
    """Return the seam classes that wish to go to the simpler side, and to the darker: +1 toward the second part, -1."""
    simpler: dict[SeamKey, int] = {}
    darker: dict[SeamKey, int] = {}
    for unit, draft in drafts.items():
        for index, seam in enumerate(draft.seams):
            if seam.outward:
                continue
            if draft.children:
                first, second = draft.children[seam.first].ref, draft.children[seam.second].ref
                edges: tuple[Edge, Edge] = ("right", "left") if seam.axis == "x" else ("bottom", "top")
                bulk = _seams_at(first, edges[0], geometry) - _seams_at(second, edges[1], geometry)
                one, other = _fabric(first), _fabric(second)
            else:
                bulk = _seams_on(draft, index)
                one, other = draft.faces[seam.first].use.fabric, draft.faces[seam.second].use.fabric
            if bulk:
                simpler[unit, index] = 1 if bulk > 0 else -1
            # A pieced side has no one fabric to be darker than the other.
            light = _luminance(pattern, one) - _luminance(pattern, other) if one and other else 0
            if light:
                darker[unit, index] = 1 if light > 0 else -1
    return simpler, darker


def sewn_alike(drafts: dict[str, Draft]) -> list[tuple[SeamKey, SeamKey]]:
    """Return pairs of seam classes at one place of units that are sewn alike in other fabrics."""
    last: dict[Hashable, str] = {}
    pairs: list[tuple[SeamKey, SeamKey]] = []
    for unit, draft in drafts.items():
        shape = (type(draft.tree), draft.w, draft.h, *((seam.line, seam.toward) for seam in draft.seams))
        before = last.get(shape)
        if before is not None:
            pairs += (((before, i), (unit, i)) for i, seam in enumerate(draft.seams) if not seam.outward)
        last[shape] = unit
    return pairs


def _seams_at(ref: Ref, edge: Edge, geometry: Geometry) -> int:
    return len(geometry.edges(ref.unit, ref.turn, mirror=ref.mirror)[edge]) if ref.unit else 0


def _seams_on(draft: Draft, index: int) -> int:
    """Return how many more seams end on a seam from its first side than from its second, of those sewn before it."""
    seam, more = draft.seams[index], 0
    (ax, ay), (bx, by) = seam.line
    for before in draft.seams[:index]:
        for point, other in (before.line, before.line[::-1]):
            if is_inside(point, seam.line, bx - ax, by - ay):
                across = (other[0] - point[0]) * seam.toward[0] + (other[1] - point[1]) * seam.toward[1]
                more -= across.sign()
    return more


def _fabric(ref: Ref) -> str | None:
    return ref.patch.use.fabric if ref.patch else None


def _luminance(pattern: Pattern, fabric: str) -> int:
    """Return ten thousand times a rough relative luminance, averaged over the prints; whole numbers, so exact.

    The weights are those of WCAG's relative luminance, on the coded values: enough to tell dark from light.
    """
    colours = pattern.fabrics[fabric].colours
    total = 0
    for colour in colours:
        red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
        total += 2126 * red + 7152 * green + 722 * blue
    return total // len(colours)
