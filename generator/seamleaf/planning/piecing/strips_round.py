"""The strips of pieced borders as units: spacers and repeated units joined in a row, as they lie at the top edge.

The strips of left and right are one unit, those of top and bottom another, even where both are as long: what an edge is
called does not go with the size. Spacers have labels of their own, which every size reserves where there are several.
"""

from __future__ import annotations

from collections import Counter
from typing import Final, Literal

from seamleaf.planning.piecing.drafts import Workbench
from seamleaf.reading.part_records import FabricUse, Join, Part, Patch
from seamleaf.sizing import Quilt
from seamleaf.sizing.pieced import PiecedBorder

PAIRS: Final[tuple[Literal["sides", "ends"], ...]] = ("sides", "ends")
PAIR_OF: Final[dict[str, Literal["sides", "ends"]]] = {
    "left": "sides",
    "right": "sides",
    "top": "ends",
    "bottom": "ends",
}
TURN_OF: Final[dict[str, int]] = {"top": 0, "right": 90, "bottom": 180, "left": 270}
"""How a strip lies along each edge, clockwise, against how it lies along the top."""


def strip_name(order: int, pair: str) -> str:
    """Return the id of a strip's unit; ids of the pattern hold no dot."""
    return f"border{order}.{pair}"


def place_strips(bench: Workbench, quilt: Quilt) -> Counter[str]:
    """Make the strips of all pieced borders, sewing what they need first; return how many there are of each."""
    counts: Counter[str] = Counter()
    for pieced in quilt.pieced:
        for pair in PAIRS:
            counts[_place(bench, pieced, pair)] = 2
    return counts


def _place(bench: Workbench, pieced: PiecedBorder, pair: Literal["sides", "ends"]) -> str:
    fit = pieced.sides if pair == "sides" else pieced.ends
    border, name = pieced.border, strip_name(pieced.order, pair)
    spacer = Patch(
        use=FabricUse(fabric=border.fabric, print=None, where=border.where),
        w=fit.spacer or pieced.depth,
        h=pieced.depth,
        where=border.where,
        own=name,
    )
    if fit.spacer or len(bench.pattern.sizes) > 1:
        bench.reserve(spacer)
    ends: tuple[Part, ...] = (spacer,) if fit.spacer else ()
    parts = (*ends, *(bench.tree_of(pieced.block),) * fit.units, *ends)
    bench.place_strip(name, Join(axis="row", parts=parts, where=border.where))
    return name
