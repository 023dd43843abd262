"""Handfuls of columns beside a basis, listed in two halves whose pairs are all the handfuls there may be.

A handful is a multiset of columns. Each is kept as a few numbers: its residue, its cost, the room that it leaves under
what is wanted (packed into two words, a field for each equation), and the handful that it extends by what column. So
a million of them are listed in a moment, and what they hold is looked up only where two halves match
(``matching.py``).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from seamleaf.planning.cutting.pricing import Ints

Small = npt.NDArray[np.int16]
Places = npt.NDArray[np.int32]
Flags = npt.NDArray[np.bool_]

_WORD: Final = 62
"""Bits of a word in use."""
_FIRST_LISTED: Final = 4_000
_LONGER: Final = 8
_SPILL: Final = 16
"""So many times as many as a list may hold are looked at for their room."""
_PARTS: Final = 1024
"""Parts of the budget in which rests are counted."""
_AT_ONCE: Final = 200_000
_LOOK: Final = 4
"""So many that are looked at for their room take as long as one that is kept."""
_PASS: Final = 200
"""What it takes to add a column to however few, in handfuls."""


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """What handfuls are made of, the cheapest first; at least one."""

    entries: Small
    """Columns x equations."""
    costs: Ints
    heights: Ints
    residues: Ints
    uses: Ints
    """Columns x basis: how much less of it is needed, in parts."""

    def picked(self, at: Ints) -> Columns:
        """Return some of them."""
        return Columns(*(getattr(self, name)[at] for name in Columns.__slots__))


@dataclass(frozen=True, slots=True, eq=False)
class Handfuls:
    """Handfuls; each after the one that it extends by its last column."""

    residues: Ints
    costs: Ints
    room: Ints
    more: Ints
    """Room in the second word."""
    before: Places
    last: Places
    """-1: there is no column."""
    top: Places
    """Of a rest, the dearest column; of a start, the dearest that a rest of it may have (-1: it has none)."""

    def __len__(self) -> int:
        return len(self.residues)

    def between(self, start: int, stop: int) -> Handfuls:
        """Return a view of some."""
        return Handfuls(*(getattr(self, name)[start:stop] for name in Handfuls.__slots__))

    def sums(self, places: Ints, each: Ints) -> Ints:
        """Add up, for the handfuls at some places, what each of their columns has (a number, or a row of them)."""
        total = np.zeros((len(places), *each.shape[1:]), dtype=np.int64)
        at, rows = places, np.arange(len(places))
        while True:
            last = self.last.take(at)
            some: Ints = np.nonzero(last >= 0)[0]
            if not len(some):
                return total
            rows = rows.take(some)
            total[rows] += each.take(last.take(some), axis=0)
            at = self.before.take(at.take(some)).astype(np.int64)

    def sums_of_all(self, each: Ints) -> Ints:
        """Do so for all of a list, whose first has no column."""
        # Each adds the sum of the one before it, then of the one before that sum's first: twice as far every time.
        total: Ints = np.append(each, 0).take(self.last)
        before = np.maximum(self.before, 0).astype(np.int64)
        while before.any():
            total = total + total.take(before)
            before = before.take(before)
        return total

    def columns(self, at: int) -> list[int]:
        """Return the columns of one."""
        found = []
        while self.last[at] >= 0:
            found.append(int(self.last[at]))
            at = int(self.before[at])
        return found


class _Growing:
    """A list that others are added to."""

    def __init__(self, start: Handfuls) -> None:
        self._held = start
        self._many = len(start)

    def __len__(self) -> int:
        return self._many

    def so_far(self) -> Handfuls:
        """Return a view of the list."""
        return self._held.between(0, self._many)

    def add(self, more: Handfuls) -> None:
        """Put some at the end."""
        end = self._many + len(more)
        if end > len(self._held):
            more_room = Handfuls(*(np.empty(2 * end, getattr(more, name).dtype) for name in Handfuls.__slots__))
            for name in Handfuls.__slots__:
                getattr(more_room, name)[: self._many] = getattr(self._held, name)[: self._many]
            self._held = more_room
        for name in Handfuls.__slots__:
            getattr(self._held, name)[self._many : end] = getattr(more, name)
        self._many = end


class Room:
    """What there is room for under what is wanted, with a field of a word for each equation, as far as they go.

    Each field has one more bit, which is set as long as no more is taken than there is.
    """

    def __init__(self, entries: Ints, most: Ints) -> None:
        entries = np.maximum(entries, 0).astype(np.int64)
        greatest = entries.max(axis=0, initial=0)
        fields = [at for at in range(len(most)) if greatest[at]]
        fields.sort(key=lambda at: (-(int(greatest[at]) << 20) // (int(most[at]) + 1), at))  # the soonest filled first
        used, guards, whole = [0, 0], [0, 0], [0, 0]
        takes: Ints = np.zeros((2, len(entries)), dtype=np.int64)
        for at in fields:
            limit = int(most[at])
            bits = limit.bit_length()
            word = next((word for word in range(2) if used[word] + bits + 1 <= _WORD), None)
            if word is not None:
                takes[word] += np.minimum(entries[:, at], limit) << used[word]
                whole[word] += (limit << used[word]) + (1 << (used[word] + bits))
                guards[word] += 1 << (used[word] + bits)
                used[word] += bits + 1
        self.takes, self.takes_more = takes
        self._guards, self._guards_more = guards
        self.whole, self.whole_more = whole

    def is_left(self, room: Ints, more: Ints) -> Flags:
        """Tell for each pair of words whether every field has held."""
        left: Flags = (room & self._guards == self._guards) & (more & self._guards_more == self._guards_more)
        return left


class Lister:
    """Lists the handfuls of columns.

    Args:
        columns: what they are made of.
        most: the greatest sum of each equation's entries; more is of no use.
        classes: number of residues.
        budget: the greatest cost.
        longest: the greatest height.

    """

    def __init__(self, columns: Columns, most: Ints, classes: int, budget: int, longest: int) -> None:
        self._classes, self._budget = classes, budget
        self._columns = columns
        self._room = Room(np.column_stack([columns.entries, columns.heights]), np.append(most, longest))
        zero: Ints = np.zeros(1, dtype=np.int64)
        none: Places = np.full(1, -1, dtype=np.int32)
        self._nothing = Handfuls(zero, zero, zero + self._room.whole, zero + self._room.whole_more, none, none, none)
        self.work = 0
        """Handfuls listed, and others of those that were looked at for their room."""

    def halves(self, listed: int, work: int, *, wholly: bool = False) -> tuple[Handfuls, Handfuls, bool]:
        """List rests of handfuls and starts of them, and tell whether their pairs are all that there may be.

        A handful's columns are taken from the dearest on. Where those taken have left so little of the budget that
        few rests are possible, these are looked up in their list. The lists begin short, since little is needed where
        the budget is small. After so much ``work`` no other lists are tried, nor are smaller budgets if the pairs are
        of use ``wholly`` only.
        """
        length = min(_FIRST_LISTED, listed)
        budget = self._budget
        while True:
            rests, reach = self._rests(budget, length)
            starts = self._starts(reach, budget, 2 * length, max(work - self.work, 0))
            if starts is not None:
                return rests, starts, budget == self._budget
            if self.work >= work:
                return rests, self._nothing, False
            if length < listed:
                length = min(length * _LONGER, listed)
            elif budget and not wholly:
                budget = budget * 4 // 5
            else:
                return rests, self._nothing, False

    def _rests(self, budget: int, length: int) -> tuple[Handfuls, Ints]:
        """List about ``length`` rests; return, by the dearest column of a rest, the cost up to which all are listed."""
        kept = _Growing(self._nothing)
        costs = self._columns.costs
        reach: Ints = np.full(len(costs), budget, dtype=np.int64)
        numbers: Ints = np.zeros(_PARTS, dtype=np.int64)
        most = budget
        open_: Ints = np.zeros(1, dtype=np.int64)  # places of those that can take a column as dear as the next
        of_open: Ints = np.zeros(1, dtype=np.int64)
        for at, cost in enumerate(costs.tolist()):
            if cost > most:
                break
            some: Ints = np.nonzero(of_open <= most - cost)[0]
            open_, of_open = open_.take(some), of_open.take(some)
            tip, first, places = kept.so_far(), 0, open_
            while len(places) and len(kept) <= 2 * length:
                tip = self._extended(tip, places, np.full(len(places), at), first)
                first = len(kept)
                kept.add(tip)
                self.work += len(tip) + _PASS
                numbers += np.bincount(tip.costs * _PARTS // (budget + 1), minlength=_PARTS)
                places = np.nonzero(tip.costs <= most - cost)[0]
                open_ = np.concatenate([open_, first + places])
                of_open = np.concatenate([of_open, tip.costs.take(places)])
            if len(places):  # what holds this column is not all listed
                most = cost - 1
            if len(kept) > length // 2:
                part = int(np.searchsorted(numbers.cumsum(), length // 8, side="right"))
                most = min(most, -(-part * (budget + 1) // _PARTS) - 1)
            reach[at:] = most
        return kept.so_far(), reach

    def _starts(self, reach: Ints, budget: int, listed: int, work: int) -> Handfuls | None:
        """List the shortest handfuls, from the dearest column on, that leave a rest within reach; ``None`` if too many.

        With them are those on the way to them.
        """
        costs = self._columns.costs
        kept = _Growing(self._nothing)
        first, tip, looked = 0, self._nothing, 0
        reach, cheaper = np.append(reach, -1), np.append(np.arange(1, len(costs) + 1), len(costs))  # -1: of nothing
        while len(tip):
            left = budget - tip.costs
            goes_on: Flags = left > reach[tip.last]
            tip.top[:] = np.where(goes_on, -1, tip.last)
            numbers: Ints = np.minimum(np.searchsorted(costs, left, side="right"), cheaper[tip.last]) * goes_on
            looked += int(numbers.sum())
            self.work += int(numbers.sum()) // _LOOK
            if looked > min(_SPILL * listed, _LOOK * work):
                return None
            ends: Ints = np.cumsum(numbers)
            start, done, end = 0, 0, len(kept)
            while start < len(numbers):
                stop = max(int(np.searchsorted(ends, done + _AT_ONCE, side="right")), start + 1)
                some = numbers[start:stop]
                places = np.repeat(np.arange(start, stop), some)
                kept.add(self._extended(tip, places, ranges(np.zeros_like(some), some), first))
                if len(kept) > listed:
                    return None
                start, done = stop, int(ends[stop - 1])
            first, tip = end, kept.so_far().between(end, len(kept))
        return kept.so_far()

    def _extended(self, tip: Handfuls, places: Ints, added: Ints, first: int) -> Handfuls:
        """Add a column to some handfuls, and keep those for which there is room; the first has the number ``first``."""
        room = tip.room.take(places) - self._room.takes.take(added)
        more = tip.more.take(places) - self._room.takes_more.take(added)
        fits: Ints = np.nonzero(self._room.is_left(room, more))[0]
        if len(fits) < len(places):
            places, added, room, more = places.take(fits), added.take(fits), room.take(fits), more.take(fits)
        residues = tip.residues.take(places) + self._columns.residues.take(added)
        np.subtract(residues, self._classes, out=residues, where=residues >= self._classes)
        costs = tip.costs.take(places) + self._columns.costs.take(added)
        last = added.astype(np.int32)
        return Handfuls(residues, costs, room, more, (first + places).astype(np.int32), last, last.copy())


def ranges(first: Ints, numbers: Ints) -> Ints:
    """Return ``first``, ``first + 1`` ... for each, so many as its number, one after the other."""
    return np.arange(int(numbers.sum())) - np.repeat(np.cumsum(numbers) - numbers - first, numbers)
