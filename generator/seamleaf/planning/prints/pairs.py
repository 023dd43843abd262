"""Which prints meet in a block: at least cost, every print as often as it is cut for, none with itself if it can be.

Blocks are filled role by role. What the roles before hold is one side of a minimum-cost assignment, the prints of the
next role the other; with two roles, as most blocks of prints have, that is the best there is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.planning.prints.colour import Lab, difference, family_of
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.transport import Transport

Block = tuple[int, ...]
"""The prints of a block, by number, one a role."""

_WORK: Final = 400_000
"""Blocks times pairs of prints up to which the assignment is solved; beyond, every block takes the best print left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """What pairing and layout know of a print."""

    lab: Lab
    family: int


def print_of(lab: Lab) -> Print:
    """Return the print of a colour."""
    return Print(lab=lab, family=family_of(lab))


def pair_cost(one: Print, other: Print, *, same: bool) -> int:
    """Return what it costs that two prints meet in a block; less, the more they differ."""
    if same:
        return CONVENTIONS.pair_same
    light, apart = abs(one.lab[0] - other.lab[0]), difference(one.lab, other.lab)
    lack = min(max(0, CONVENTIONS.pair_light - light), max(0, CONVENTIONS.pair_difference - apart))
    family = CONVENTIONS.pair_family if one.family == other.family else 0
    return lack + family + max(0, CONVENTIONS.pair_vivid - apart) // 100


def has_contrast(one: Print, other: Print) -> bool:
    """Whether two prints stand out from each other, by lightness or by colour."""
    if abs(one.lab[0] - other.lab[0]) >= CONVENTIONS.pair_light:
        return True
    return difference(one.lab, other.lab) >= CONVENTIONS.pair_difference


def pair_prints(
    roles: Sequence[Mapping[int, int]], prints: Sequence[Print], locked: Sequence[Mapping[int, int]] = ()
) -> list[Block]:
    """Return the blocks: those that are locked in their order, then all others in order of their prints.

    Args:
        roles: for each role how often each print serves in it, by number; all roles sum to the blocks.
        prints: all prints, by number.
        locked: for each locked block the prints that it has for sure, by role; its other roles get the best left.

    """
    if locked:
        left = [Counter(role) for role in roles]
        done = _complete(left, prints, locked)
        return done + (pair_prints(left, prints) if any(left[0].values()) else [])
    costs: dict[tuple[int, int], int] = {}
    blocks: Counter[Block] = Counter({(number,): times for number, times in sorted(roles[0].items()) if times})
    for role in roles[1:]:
        numbers = [number for number, times in sorted(role.items()) if times]
        for block in blocks:
            for one in block:
                for other in numbers:
                    if (one, other) not in costs:
                        costs[one, other] = pair_cost(prints[one], prints[other], same=one == other)
        sources = sorted(blocks)
        meet = [[sum(costs[one, other] for one in block) for other in numbers] for block in sources]
        supply, room = [blocks[block] for block in sources], [role[number] for number in numbers]
        sent = _assign(supply, room, meet)
        blocks = Counter()
        for block, row in zip(sources, sent, strict=True):
            for number, times in zip(numbers, row, strict=True):
                if times:
                    blocks[(*block, number)] += times
    return [block for block in sorted(blocks) for _ in range(blocks[block])]


def _complete(
    left: Sequence[Counter[int]], prints: Sequence[Print], locked: Sequence[Mapping[int, int]]
) -> list[Block]:
    """Fill the open roles of locked blocks, and take what they hold from what is left."""
    for block in locked:
        for role, number in block.items():
            left[role][number] -= 1
    done: list[Block] = []
    for block in locked:
        whole = dict(block)
        for role, of_role in enumerate(left):
            if role not in whole:
                costs = {
                    number: sum(
                        pair_cost(prints[number], prints[other], same=number == other) for other in whole.values()
                    )
                    for number, times in of_role.items()
                    if times
                }
                whole[role] = min(costs, key=lambda number: (costs[number], number))
                of_role[whole[role]] -= 1
        done.append(tuple(whole[role] for role in range(len(left))))
    return done


def _assign(supply: Sequence[int], room: Sequence[int], meet: Sequence[Sequence[int]]) -> list[list[int]]:
    if sum(supply) * len(supply) * len(room) <= _WORK:
        return Transport(
            supply=supply,
            room=room,
            cost=lambda block, number, before: meet[block][number] + before * CONVENTIONS.pair_twin,
            sink_cost=lambda _number, _before: 0,
        ).solve()
    left = list(room)
    sent = [[0] * len(room) for _ in supply]
    for block, times in enumerate(supply):
        for _ in range(times):
            free = [number for number, rest in enumerate(left) if rest]
            best = min(free, key=lambda number: meet[block][number] + sent[block][number] * CONVENTIONS.pair_twin)
            sent[block][best] += 1
            left[best] -= 1
    return sent
