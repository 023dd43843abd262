"""Which print role, and which labels of it, each number of a block's prints stands for."""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.booklet import Booklet


@dataclass(frozen=True, slots=True, kw_only=True)
class Role:
    """A print role of a bundle fabric in one block."""

    fabric: str
    print: int
    labels: tuple[str, ...]
    """What one block is cut from it."""


def roles_of_blocks(booklet: Booklet) -> dict[str, tuple[Role, ...]]:
    """Return the print roles of each block unit, in the order in which its places list their prints.

    That order is fabric by fabric, and role by role within a fabric.
    """
    order = {fabric.id: index for index, fabric in enumerate(booklet.fabrics)}
    found: dict[str, dict[tuple[int, int], list[str]]] = {}
    for patch in booklet.patches:
        for block, count in patch.per_block.items():
            if patch.print is not None and count:
                role = (order[patch.fabric], patch.print)
                found.setdefault(block, {}).setdefault(role, []).append(patch.label)
    return {
        block: tuple(
            Role(fabric=booklet.fabrics[fabric].id, print=role, labels=tuple(labels))
            for (fabric, role), labels in sorted(roles.items())
        )
        for block, roles in found.items()
    }
