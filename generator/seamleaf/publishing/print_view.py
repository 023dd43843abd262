"""Which print role each number of a block's prints stands for."""

from __future__ import annotations

from seamleaf.booklet import Booklet

Role = tuple[str, int]
"""A bundle fabric and one of its print roles."""


def roles_of_blocks(booklet: Booklet) -> dict[str, tuple[Role, ...]]:
    """Return the print roles of each block unit, in the order in which its places list their prints.

    That order is fabric by fabric, and role by role within a fabric.
    """
    order = [fabric.id for fabric in booklet.fabrics]
    found: dict[str, set[Role]] = {}
    for patch in booklet.patches:
        if patch.print is not None:
            for block in patch.per_block:
                found.setdefault(block, set()).add((patch.fabric, patch.print))
    return {
        block: tuple(sorted(roles, key=lambda role: (order.index(role[0]), role[1]))) for block, roles in found.items()
    }
