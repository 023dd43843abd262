"""Which handed units are sewn in pairs: those of which every block takes as many as of their mirror image.

A square of three triangles that is made two at a time comes with its mirrored twin. Where a block has use for both,
the two are one unit, half of whose copies lie mirrored; where it has not, they are units of their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from seamleaf.planning.piecing.drafts import Draft, copies_in
from seamleaf.reading.part_records import Part, ThreeTriangle
from seamleaf.sizing.turning import turned


def find_pairs(drafts: Mapping[str, Draft], blocks: Iterable[str]) -> frozenset[Part]:
    """Return the trees of units that are sewn with their mirror image, the one that comes first of each pair.

    Args:
        drafts: with mirrored twins as units of their own.
        blocks: unit ids of every block that the quilt may hold.

    """
    inside = [copies_in(block, dict(drafts)) for block in dict.fromkeys(blocks)]
    unit_of = {draft.tree: draft.id for draft in drafts.values()}
    pairs: set[Part] = set()
    for tree, unit in unit_of.items():
        if not isinstance(tree, ThreeTriangle) or tree.method not in (None, "two"):
            continue
        # A unit is drawn unturned, and the mirror image of such a one turns on.
        twin = turned(turned(tree, 0, mirror=True), 270)
        other = unit_of.get(twin)
        if other in (None, unit) or twin in pairs:
            continue
        if all(copies[unit] == copies[other] for copies in inside):
            pairs.add(tree)
    return frozenset(pairs)
