"""The cheapest choices for many variables, exactly, where few of them hang together at any one place.

One variable after the other is taken out: for all choices of those that it meets, its best choice and what that costs
are written into a table, which stands for it from then on (Bertele and Brioschi, Nonserial Dynamic Programming, 1972,
from memory). The seams of a quilt meet their neighbours, so the tables stay small where a search would try millions.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from math import prod
from typing import Any, Final

import numpy as np
import numpy.typing as npt

_WORD: Final = 1 << 62
_MOST_MET: Final = 20
"""Variables in one table; the library of arrays takes some more."""

Costs = npt.NDArray[Any]
"""Whole numbers: of a word where all sums fit into one, else of any size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What the choices of two variables cost beside each other."""

    one: int
    other: int
    costs: Sequence[Sequence[int]]
    """By the choice of the one, then of the other."""


@dataclass(frozen=True, slots=True)
class _Table:
    """Costs by the choices of some variables, an axis each."""

    of: tuple[int, ...]
    costs: Costs

    def along(self, wider: tuple[int, ...]) -> Costs:
        """Return the costs with an axis for each of ``wider``, which are in the same order."""
        shape = iter(self.costs.shape)
        return self.costs.reshape([next(shape) if each in self.of else 1 for each in wider])


def cheapest(alone: Sequence[Sequence[int]], beside: Sequence[Beside], most: int) -> list[int] | None:
    """Return the choice of each variable that costs least in all; of such choices always the same.

    Args:
        alone: what each choice of each variable costs by itself.
        beside: what pairs cost beside each other.
        most: entries that all tables may have together.

    Returns:
        The places of the choices; ``None`` when the tables would be larger.

    """
    sizes = [len(costs) for costs in alone]
    greatest = sum(max(map(abs, costs)) for costs in alone)
    greatest += sum(max(abs(cost) for row in pair.costs for cost in row) for pair in beside)
    kind = np.int64 if greatest < _WORD else object
    tables: dict[int, list[_Table]] = {at: [_Table((at,), np.array(costs, kind))] for at, costs in enumerate(alone)}
    """By variable: the tables with it that are not yet in another one."""
    for pair in beside:
        costs = np.array(pair.costs, kind)
        one, other = sorted((pair.one, pair.other))
        table = _Table((one, other), costs if one == pair.one else costs.T)
        tables[one].append(table)
        tables[other].append(table)

    def met(at: int) -> tuple[int, ...]:
        return tuple(sorted({other for table in tables[at] for other in table.of}))

    def size(at: int) -> int:
        return prod(sizes[other] for other in met(at))

    last: list[tuple[int, tuple[int, ...], Costs]] = []
    queue = [(size(at), at) for at in tables]
    heapq.heapify(queue)
    while queue:
        entries, at = heapq.heappop(queue)
        if at not in tables or entries != size(at):
            continue  # it is taken out, or stands in the queue again
        scope, most = met(at), most - entries
        if most < 0 or len(scope) > _MOST_MET:
            return None
        total = sum((table.along(scope) for table in tables[at]), np.zeros([sizes[other] for other in scope], kind))
        axis = scope.index(at)
        rest = (*scope[:axis], *scope[axis + 1 :])
        last.append((at, rest, total.argmin(axis=axis)))
        instead = _Table(rest, total.min(axis=axis))
        del tables[at]
        for other in rest:
            tables[other] = [*(table for table in tables[other] if at not in table.of), instead]
        for other in rest:
            heapq.heappush(queue, (size(other), other))
    chosen = [0] * len(alone)
    for at, rest, best in reversed(last):
        chosen[at] = int(best[tuple(chosen[other] for other in rest)])
    return chosen
