"""Pairs of handfuls that are whole plans: their residues add up to what is wanted, and no basic filling is undone.

Pairs of one residue are many more than plans. So what most often rules a pair out, its cost or the need of one basic
filling, is found on a sample first, and the lists are sorted by it: of each residue, only pairs that pass are met.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from seamleaf.planning.cutting.handfuls import Columns, Flags, Handfuls, ranges
from seamleaf.planning.cutting.pricing import Ints

MOST_CLASSES: Final = 1 << 44
_PARTS: Final = 1 << 17
"""What a pair is sorted by besides its residue is counted in such parts of its range, rounded down."""
_SAMPLE: Final = 20_000
_FEWEST: Final = 50
_TESTS: Final = 3
"""Limits that are looked at one by one, before all are."""
_AT_ONCE: Final = 50_000
_ADDED_UP: Final = 30
"""What it takes to add up how much of the basis a pair needs, in pairs looked at."""
LOOKED_UP: Final = 2_000
"""What it takes to look at a plan, in the same."""


@dataclass(frozen=True, slots=True, eq=False)
class _Limit:
    """A limit on what a rest and a start have together."""

    most: int
    of_rests: Ints
    of_starts: Ints


class Matching:
    """Rests and starts of handfuls, to be matched.

    Args:
        columns: what they are made of.
        rests: handfuls.
        starts: the same.
        classes: number of residues.
        target: the residue of what is wanted.
        budget: the greatest cost.
        needed: how much of the basis is needed without any handful, in parts.

    """

    def __init__(
        self,
        columns: Columns,
        rests: Handfuls,
        starts: Handfuls,
        *,
        classes: int,
        target: int,
        budget: int,
        needed: Ints,
    ) -> None:
        self._uses, self._rests, self._starts = columns.uses, rests, starts
        self._classes, self._target, self._needed = classes, target, needed
        self._open: Ints = np.nonzero(starts.top >= 0)[0]
        """Starts that have rests; the others are handfuls as they are."""
        each = np.column_stack([columns.costs, columns.uses])
        most = np.append(budget, needed)
        self._limits = [
            _Limit(int(most[at]), rests.sums_of_all(each[:, at]), starts.sums_of_all(each[:, at]))
            for at in self._telling(each, most)
        ]
        self.work = 0
        """Pairs looked at, and what they take that pass, in as many."""
        self.complete = False
        """Whether they are all."""

    def _telling(self, each: Ints, most: Ints) -> list[int]:
        """Return the few limits that rule out most of a sample of pairs, the best first."""
        rests = _spread(len(self._rests), 7919)
        starts = self._open[_spread(len(self._open), 104_729)] if len(self._open) else np.zeros_like(rests)
        passed: Flags = self._rests.sums(rests, each) + self._starts.sums(starts, each) <= most
        left = self._ordered(rests, starts)
        if np.count_nonzero(left) < _FEWEST:
            left = np.ones_like(left)
        chosen: list[int] = []
        while len(chosen) < min(_TESTS, len(most)) and (not chosen or np.count_nonzero(left) >= _FEWEST):
            chosen.append(int(np.argmin(np.count_nonzero(passed[left], axis=0))))
            left = left & passed[:, chosen[-1]]
        return chosen

    def _ordered(self, rests: Ints, starts: Ints) -> Flags:
        """Tell for each pair whether the one is a rest of the other: so no handful is met twice."""
        ordered: Flags = self._rests.top.take(rests) <= self._starts.top.take(starts)
        return ordered

    def plans(self, most: int) -> Iterator[tuple[Ints, list[int]]]:
        """Yield how often each of the basis is cut, and the columns beside it, of each plan there may be.

        After about ``most`` pairs it stops: :attr:`complete` tells then whether there are more.
        """
        alone: Ints = np.nonzero((self._starts.top < 0) & (self._starts.residues == self._target))[0]
        yield from self._among(np.zeros_like(alone), alone)
        best = self._limits[0]
        part = max(int(best.of_rests.max() - best.of_rests.min()) // _PARTS, 1)
        of_rests = best.of_rests // part
        least = int(of_rests.min())
        of_rests = of_rests - least
        span = int(of_rests.max()) + 1
        keys = self._rests.residues * span + of_rests
        order: Ints = np.argsort(keys, kind="stable")
        keys = keys[order]
        asked = (self._target - self._starts.residues[self._open]) % self._classes
        along: Ints = np.argsort(asked, kind="stable")
        asked, along = asked[along] * span, self._open[along]
        upto = np.clip((best.most - best.of_starts[along]) // part - least, -1, span - 1)
        first: Ints = np.searchsorted(keys, asked, side="left")
        numbers: Ints = np.maximum(np.searchsorted(keys, asked + upto, side="right") - first, 0)
        some: Ints = np.nonzero(numbers)[0]
        ends: Ints = np.cumsum(numbers[some])
        at = 0
        while at < len(some) and self.work < most:
            done = int(ends[at - 1]) if at else 0
            stop = max(int(np.searchsorted(ends, done + _AT_ONCE, side="right")), at + 1)
            chosen = some[at:stop]
            n = numbers[chosen]
            self.work += int(n.sum())
            yield from self._among(order[ranges(first[chosen], n)], np.repeat(along[chosen], n))
            at = stop
        self.complete = at == len(some)

    def _among(self, rests: Ints, starts: Ints) -> Iterator[tuple[Ints, list[int]]]:
        for one in self._limits:
            fits: Ints = np.nonzero(one.of_rests.take(rests) + one.of_starts.take(starts) <= one.most)[0]
            rests, starts = rests.take(fits), starts.take(fits)
        fits = np.nonzero(self._ordered(rests, starts))[0]
        rests, starts = rests.take(fits), starts.take(fits)
        if not len(rests):
            return
        self.work += _ADDED_UP * len(rests)
        needed = self._needed - self._rests.sums(rests, self._uses) - self._starts.sums(starts, self._uses)
        some: Ints = np.nonzero((needed >= 0).all(axis=1))[0]
        times, parts = np.divmod(needed[some], self._classes)
        for whole in np.nonzero(~parts.any(axis=1))[0].tolist():  # the number for its residues may stand for others too
            self.work += LOOKED_UP
            rest, start = int(rests[some[whole]]), int(starts[some[whole]])
            yield times[whole], [*self._rests.columns(rest), *self._starts.columns(start)]


def _spread(many: int, step: int) -> Ints:
    """Return some of so many places, spread over all."""
    return np.arange(_SAMPLE) * step % many
