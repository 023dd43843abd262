"""Questions about prints that more than one view asks of a booklet."""

from __future__ import annotations

from seamleaf.booklet.record import Booklet, FabricNote


def piece_colour(fabric: FabricNote, piece: int) -> str:
    """Return the colour that a piece of a bundle shows; pieces are numbered from 1."""
    if fabric.pieces:
        return fabric.colours[fabric.pieces[piece - 1]]
    return fabric.colours[(piece - 1) % len(fabric.colours)]


def used_colours(fabric: FabricNote) -> tuple[str, ...]:
    """Return the colours that are cut, in the order of the pattern; of yardage its one colour."""
    return tuple(fabric.colours[index] for index in sorted(set(fabric.pieces))) or fabric.colours


def print_roles(booklet: Booklet) -> dict[str, tuple[tuple[str, int], ...]]:
    """Return the print roles of each block unit, as (fabric, role), in the order in which places list their prints."""
    order = {fabric.id: index for index, fabric in enumerate(booklet.fabrics)}
    found: dict[str, set[tuple[str, int]]] = {}
    for patch in booklet.patches:
        for block, count in patch.per_block.items():
            if patch.print is not None and count:
                found.setdefault(block, set()).add((patch.fabric, patch.print))
    return {block: tuple(sorted(roles, key=lambda role: (order[role[0]], role[1]))) for block, roles in found.items()}


def role_piece(booklet: Booklet, fabric: FabricNote, role: int) -> int:
    """Return the first piece of a bundle that is cut for a print role; the role's own number if none is told."""
    piece = 0
    for sheet in booklet.cutting:
        if sheet.fabric == fabric.id:
            if sheet.print == role:
                return piece + 1
            piece += sheet.times
    return role
