"""From prints to the pieces that show them: every block gets its pieces, never one piece twice.

Pieces are handed out by number. Where a block would get one piece in two roles, which happens only when a bundle has
hardly more than one print, the pieces of some blocks are exchanged along an alternating path. That always works out: a
piece serves no more roles than there are blocks, and the edges of a bipartite graph need no more colours than its
largest degree (König 1916; here an edge is a piece in a role, and a colour is a block).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from seamleaf.planning.prints.pairs import Block


def even_uses(
    capacity: Mapping[int, int],
    blocks: int,
    others: Mapping[int, int],
    print_of_piece: Mapping[int, int],
    locked: Mapping[int, int],
) -> dict[int, int]:
    """Return how often each piece serves a role, as equally often as can be and ``blocks`` times in all.

    Args:
        capacity: how often each piece can serve it.
        blocks: how often it is wanted.
        others: how often each piece serves other roles, so that no piece is left unused that can be used.
        print_of_piece: the print that each piece shows.
        locked: how often a print serves this role for sure.

    """
    uses = dict(capacity)
    shown: Counter[int] = Counter()
    for piece, times in uses.items():
        shown[print_of_piece[piece]] += times
    for _ in range(sum(uses.values()) - blocks):
        free = [
            piece
            for piece, times in uses.items()
            if times and shown[print_of_piece[piece]] > locked.get(print_of_piece[piece], 0)
        ]
        spare = [piece for piece in free if uses[piece] + others.get(piece, 0) > 1]
        most = max(spare or free, key=lambda piece: (uses[piece], piece))
        uses[most] -= 1
        shown[print_of_piece[most]] -= 1
    return {piece: times for piece, times in uses.items() if times}


def hand_out(
    blocks: Sequence[Block], uses: Sequence[Mapping[int, int]], print_of_piece: Mapping[int, int]
) -> list[tuple[int, ...]]:
    """Return the pieces of each block, one a role.

    Args:
        blocks: the prints of each block, one a role.
        uses: for each role how often each piece serves it.
        print_of_piece: the print that each piece shows.

    """
    left = [dict(of_role) for of_role in uses]
    dealt: list[list[int]] = []
    for block in blocks:
        pieces: list[int] = []
        for role, number in enumerate(block):
            fit = [piece for piece, times in left[role].items() if times and print_of_piece[piece] == number]
            # The fresh ones first; among several pieces of one print in a block, the one that has most to give.
            fresh = [piece for piece in fit if piece not in pieces] or fit
            again = block.count(number) > 1
            chosen = min(fresh, key=lambda piece: (-_rest(left, piece) if again else 0, piece))
            left[role][chosen] -= 1
            pieces.append(chosen)
        dealt.append(pieces)
    _part_twins(dealt)
    return [tuple(pieces) for pieces in dealt]


def _rest(left: Sequence[Mapping[int, int]], piece: int) -> int:
    return sum(of_role.get(piece, 0) for of_role in left)


def _part_twins(dealt: list[list[int]]) -> None:
    """Take the second one of a piece that a block has twice out of it, and put it where it is not."""
    table: list[list[int | None]] = [list(pieces) for pieces in dealt]
    out: list[tuple[int, int]] = []
    for index, pieces in enumerate(dealt):
        for role, piece in enumerate(pieces):
            if piece in pieces[:role]:
                table[index][role] = None
                out.append((role, piece))
    for role, piece in out:
        here = next(row for row in table if row[role] is None)
        if piece in here:
            there = next(row for row in table if piece not in row)
            _free_role(here, there, role)
            here = there
        here[role] = piece
    for index, row in enumerate(table):
        dealt[index] = [piece for piece in row if piece is not None]


def _free_role(here: list[int | None], there: list[int | None], role: int) -> None:
    """Move the piece in a role of one block to the other, whose role is free, and back what stands in its way there."""
    path = [role]
    moving = there[role]
    while moving is not None and moving in here:
        path.append(here.index(moving))
        moving = there[path[-1]]
    for at in path:
        here[at], there[at] = there[at], here[at]
