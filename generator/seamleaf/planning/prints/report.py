"""What the booklet says of a layout of prints."""

from __future__ import annotations

from collections.abc import Sequence

from seamleaf.planning.print_records import FamilyNote, LayoutNote
from seamleaf.planning.prints.colour import FAMILIES
from seamleaf.planning.prints.floor import Floor
from seamleaf.planning.prints.pairs import Block, Print, has_contrast


def layout_note(floor: Floor, blocks: Sequence[Block], prints: Sequence[Print], bound: int) -> LayoutNote:
    """Report on a layout: the block at each cell, with a lower bound of its like neighbours."""
    edge, corner = (
        sum(len(set(blocks[a]) & set(blocks[b])) for a, b in pairs) for pairs in (floor.edges, floor.corners)
    )
    clear = sum(
        all(
            has_contrast(prints[one], prints[other]) and one != other
            for index, one in enumerate(block)
            for other in block[:index]
        )
        for block in blocks
    )
    families: list[FamilyNote] = []
    for family, name in enumerate(FAMILIES):
        cells = [cell for cell, block in enumerate(blocks) if any(prints[one].family == family for one in block)]
        if cells:
            top_left, top_right, bottom_left, bottom_right = map(
                sum, zip(*(floor.quarters[c] for c in cells), strict=True)
            )
            families.append(
                FamilyNote(
                    family=name,
                    blocks=len(cells),
                    quarters=(top_left, top_right, bottom_left, bottom_right),
                )
            )
    return LayoutNote(like_edge=edge, like_corner=corner, like_bound=bound, contrasting=clear, families=tuple(families))
