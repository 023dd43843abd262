"""Plans that a careful maker would find alone: first fit, and strips filled one after the other.

They are the start of the search for fewer inches, and what its answer is never worse than.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
import numpy.typing as npt

from seamleaf.planning.cutting.kinds import Kind
from seamleaf.planning.cutting.strips import Column, Strip, column_width, strip_of
from seamleaf.planning.cutting.tree import Patch

Plan = list[tuple[Strip, int]]
"""Strips with the number of times that each is cut."""
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]
Lay = Callable[[Kind, int], Patch]
"""Chooses how a kind lies in a strip of its own, for a usable width."""


def total_height(plan: Plan) -> int:
    """Return the length of fabric that a plan takes."""
    return sum(strip.height * times for strip, times in plan)


def lay_as_asked(kind: Kind, usable: int) -> Patch:
    """Lay the patch as it is written, or turned where it only fits so."""
    return next(lay for lay in kind.lays if lay.w <= usable)


def lay_low(kind: Kind, usable: int) -> Patch:
    """Lay the patch so that its strip is low."""
    return min((lay for lay in kind.lays if lay.w <= usable), key=lambda lay: (lay.h, lay.w))


def lay_high(kind: Kind, usable: int) -> Patch:
    """Lay the patch so that its strip is high."""
    return max((lay for lay in kind.lays if lay.w <= usable), key=lambda lay: (lay.h, lay.w))


def lay_frugally(kind: Kind, usable: int) -> Patch:
    """Lay the patch so that strips of nothing else are shortest for all of them."""

    def length(lay: Patch) -> tuple[int, int]:
        return (-(-kind.count // (usable // lay.w)) * lay.h, lay.h)

    return min((lay for lay in kind.lays if lay.w <= usable), key=length)


LAYS: tuple[Lay, ...] = (lay_frugally, lay_low, lay_high, lay_as_asked)


def plan_by_label(kinds: Sequence[Kind], usable: int, lay: Lay) -> Plan:
    """Give each kind strips of its own: the usual arithmetic of printed patterns."""
    plan: Plan = []
    for kind in kinds:
        patch = lay(kind, usable)
        whole, rest = divmod(kind.count, usable // patch.w)
        if whole:
            plan.append((strip_of([(patch,)] * (usable // patch.w)), whole))
        if rest:
            plan.append((strip_of([(patch,)] * rest), 1))
    return plan


def plan_first_fit(kinds: Sequence[Kind], usable: int, lay: Lay) -> Plan:
    """Put each patch, highest first, into the first strip with room for it: first fit by decreasing height."""
    patches = sorted(
        ((lay(kind, usable), kind.count) for kind in kinds), key=lambda item: (-item[0].h, -item[0].w, item[0].kind)
    )
    strips: list[tuple[int, list[Column]]] = []
    rooms: list[int] = []
    for patch, count in patches:
        at = 0
        for _ in range(count):
            while at < len(rooms) and rooms[at] < patch.w:
                at += 1
            if at == len(rooms):
                strips.append((patch.h, []))
                rooms.append(usable)
            strips[at][1].append((patch,))
            rooms[at] -= patch.w
    return [(strip_of(columns, height), 1) for height, columns in strips]


def plan_by_filling(kinds: Sequence[Kind], usable: int, lay: Lay) -> Plan:
    """Fill one strip after the other: the highest patch left sets its height, a knapsack of columns its content."""
    return list(filled_one_by_one(kinds, usable, lay))


def filled_one_by_one(kinds: Sequence[Kind], usable: int, lay: Lay) -> Iterator[tuple[Strip, int]]:
    """Yield the strips of that plan, the highest first."""
    left = {kind.index: kind.count for kind in kinds}
    lays = [each for kind in kinds for each in kind.lays]
    order = sorted((lay(kind, usable) for kind in kinds), key=lambda patch: (-patch.h, -patch.w, patch.kind))
    for lead in order:
        while left[lead.kind]:
            strip = strip_of(_fill(lays, left, usable, lead), lead.h)
            counts = strip.counts
            times = min(left[kind] // n for kind, n in counts.items())
            for kind, n in counts.items():
                left[kind] -= n * times
            yield strip, times


def _fill(lays: Sequence[Patch], left: dict[int, int], usable: int, lead: Patch) -> list[Column]:
    """Choose columns of greatest area beside one ``lead``, within what is ``left``: a bounded knapsack."""
    columns: list[tuple[Column, int]] = []
    for patch in lays:
        have = left[patch.kind] - (patch.kind == lead.kind)
        if patch.h <= lead.h and patch.w <= usable and have > 0:
            columns += _columns_of(patch, lead.h, have, usable)
    room = dict(left)
    room[lead.kind] -= 1
    chosen: list[Column] = [(lead,)]
    for column in _largest(columns, usable - lead.w):
        if all(room[patch.kind] >= n for patch, n in _tally(column)):
            for patch in column:
                room[patch.kind] -= 1
            chosen.append(column)
    return chosen


def _largest(columns: Sequence[tuple[Column, int]], width: int) -> list[Column]:
    """Choose columns of greatest area within ``width``, each as often as it says."""
    best: Ints = np.zeros(width + 1, dtype=np.int64)  # area by width
    steps: list[tuple[Column, int, int, Bools]] = []
    for column, most in columns:
        across, area = column_width(column), sum(patch.w * patch.h for patch in column)
        for many in _powers(most):
            taken = across * many
            if taken > width:
                break
            with_it = best[: width + 1 - taken] + area * many
            better = with_it > best[taken:]
            np.copyto(best[taken:], with_it, where=better)
            steps.append((column, many, taken, better))
    chosen: list[Column] = []
    for column, many, taken, better in reversed(steps):
        if width >= taken and better[width - taken]:
            chosen += [column] * many
            width -= taken
    return chosen[::-1]


def _columns_of(patch: Patch, height: int, have: int, usable: int) -> Iterator[tuple[Column, int]]:
    stack = min(height // patch.h, have)
    yield (patch,) * stack, min(have // stack, usable // patch.w)
    if have % stack and stack > 1:
        yield (patch,) * (have % stack), 1


def _powers(most: int) -> Iterator[int]:
    """Yield 1, 2, 4 ... and a remainder, so that their sums give every number up to ``most``."""
    power = 1
    while power <= most:
        yield power
        most -= power
        power *= 2
    if most:
        yield most


def _tally(column: Column) -> list[tuple[Patch, int]]:
    return [(patch, column.count(patch)) for patch in dict.fromkeys(column)]
