"""Lists of strip fillings: all that a plan shorter than some length could use, and the simple ones.

Every filling has a reduced cost under a set of values: its strip's height less what its patches are worth. A
plan's length is the bound plus the reduced costs of its strips, so a plan that is to be shorter than the best
one known uses only fillings of small reduced cost. Often they are few, and then the search over them is a
proof (Baldacci, Christofides and Mingozzi, Math. Program. 115, 2008, do so for routes of vehicles).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from seamleaf.planning.cutting.pricing import Filling, Ints, Model, Valuation
from seamleaf.planning.cutting.strips import Column
from seamleaf.planning.cutting.tree import Patch

_LOWEST: Final = -(1 << 60)
_A_LEVEL: Final = 240
"""What listing none for a height of strips takes, in fillings."""
_MIX: Final = 6_364_136_223_846_793_005
"""A factor of congruential generators (D. E. Knuth, The Art of Computer Programming 2, from memory)."""


def near_best(model: Model, worth: Ints, costs: Ints, gap: int, limit: int) -> list[Filling] | None:
    """Return every filling with a reduced cost up to ``gap`` that no other contains.

    Args:
        model: the kinds and the strips.
        worth: value of a patch, by kind.
        costs: what a strip costs, by height, in the unit of the values.
        gap: greatest reduced cost.
        limit: how many fillings, or partial ones at any time, are allowed.

    Returns:
        The fillings with counts up to what is wanted; ``None`` when there are too many.

    """
    valuation = model.value(worth)
    found: dict[tuple[int, ...], Filling] = {}
    for level, cost in enumerate(costs.tolist()):
        need = cost - gap
        if valuation.best[level] < need:
            continue
        stacks = _stacks(model, valuation, level, need, limit)
        fillings = None if stacks is None else _rows(model, stacks, level, worth, need, limit)
        if fillings is None:
            return None
        for filling in fillings:
            found.setdefault(filling.counts, filling)  # what a lower strip gives needs no higher one
        if len(found) > limit:
            return None
    return list(found.values())


class Near:
    """The fillings of small reduced cost under some prices, listed for greater and greater gaps."""

    def __init__(self, model: Model, worth: Ints, costs: Ints, step: int) -> None:
        self._model, self._worth, self._costs, self._step = model, worth, costs, step
        self._listed: list[tuple[int, Filling]] = []
        self._gap = -1
        self._too_many: dict[int, int] = {}
        """By limit: the gap for which there were more."""
        self.work = 0
        """Fillings listed, those listed in vain, and what a list takes however short it is, in as many."""

    def up_to(self, gap: int, limit: int, *, wholly: bool = False) -> tuple[list[tuple[int, Filling]], int]:
        """Return fillings whose reduced costs, named with them, are up to ``gap``, and how much of it they are for.

        If there are more than the limit, they are those up to a part of the gap, as great as was found by trying; no
        part is tried if they are of use ``wholly`` only.
        """
        some = gap
        if self._listed:  # their number is thought to double with each step, at least
            some = min(some, self._gap + (2 * limit // len(self._listed)).bit_length() * self._step)
        if some >= self._too_many.get(limit, some + 1):
            some = self._gap  # the greatest for which there were not
        while some > self._gap:
            found = near_best(self._model, self._worth, self._costs, some, limit)
            self.work += _A_LEVEL * len(self._costs)
            if found is not None:
                self._listed = sorted(((self._cost_of(one), one) for one in found), key=lambda one: one[0])
                self._gap = some
                break
            self.work += limit
            self._too_many[limit] = some
            some = some * 3 // 4 if some and not wholly else -1
        self.work += len(self._listed)
        return [one for one in self._listed if one[0] <= gap], min(gap, self._gap)

    def _cost_of(self, filling: Filling) -> int:
        return int(self._costs[filling.level]) - int(self._worth @ np.array(filling.counts))


def simple_ones(model: Model, worth: Ints, costs: Ints, gap: int, limit: int) -> list[Filling] | None:
    """Return the fillings of at most three sizes, each stacked with itself only, that :func:`near_best` would list.

    A maker likes to cut them, and they finish a plan that the best fillings have begun.
    """
    found: dict[tuple[int, ...], Filling] = {}
    for level, cost in enumerate(costs.tolist()):
        stacks = _plain_stacks(model, level)
        fillings = _rows(model, stacks, level, worth, cost - gap, limit, most_types=3)
        if fillings is None:
            return None
        for filling in fillings:
            found.setdefault(filling.counts, filling)
        if len(found) > limit:
            return None
    return list(found.values())


@dataclass(frozen=True, slots=True, eq=False)
class _Types:
    """Things to put side by side (or above one another): sizes, patches by kind, and what they are."""

    sizes: Sequence[int]
    counts: Ints
    columns: Sequence[Column]

    def picked(self, order: Sequence[int]) -> _Types:
        return _Types([self.sizes[at] for at in order], self.counts[list(order)], [self.columns[at] for at in order])


def _plain_stacks(model: Model, level: int) -> _Types:
    height = model.heights[level]
    best: dict[tuple[int, int], tuple[int, Patch]] = {}
    for kind, lay in model.lays:
        if lay.h <= height:
            many = min(height // lay.h, int(model.wanted[kind]))
            if best.get((kind, lay.w), (0, lay))[0] < many:
                best[kind, lay.w] = (many, lay)
    return _types_of(model, [(lay,) * many for many, lay in best.values()])


def _types_of(model: Model, columns: Sequence[Column]) -> _Types:
    counts = np.array([model.useful(model.filling(0, [column])).counts for column in columns], dtype=np.int64)
    sizes = [max(patch.w for patch in column) for column in columns]
    return _Types(sizes, counts.reshape(len(columns), len(model.kinds)), columns)


def _stacks(model: Model, valuation: Valuation, level: int, need: int, limit: int) -> _Types | None:
    """List the stacks that a filling of value ``need`` can have, by width; none that another one contains."""
    height = model.heights[level]
    found: dict[tuple[int, ...], tuple[int, Ints, Column]] = {}
    for at, width in enumerate(model.widths):
        least = need - valuation.row_within(level, model.usable - width)
        if valuation.stack_within(height, at) < least:
            continue
        lays = [(kind, lay) for kind, lay in model.lays if lay.w <= width and lay.h <= height]
        widest = sum(lay.w == width for _, lay in lays)
        if not widest:
            continue
        lays.sort(key=lambda one: (-one[1].w, -int(valuation.worth[one[0]]) / one[1].h, one[0]))
        single = np.zeros((len(lays), len(model.kinds)), dtype=np.int64)
        single[np.arange(len(lays)), [kind for kind, _ in lays]] = 1
        types = _Types([lay.h for _, lay in lays], single, [(lay,) for _, lay in lays])
        made = _multisets(types, height, valuation.worth, model.wanted, least, limit, lead=widest)
        if made is None:
            return None
        for counts, taken in made:
            column = tuple(lays[at][1] for at in taken)
            found.setdefault(tuple(counts), (width, np.array(counts, dtype=np.int64), column))
        if len(found) > limit:
            return None
    return _uncontained(list(found.values()), len(model.kinds))


def _uncontained(stacks: list[tuple[int, Ints, Column]], kinds: int) -> _Types:
    stacks.sort(key=lambda one: (one[0], -int(one[1].sum())))
    kept: list[tuple[int, Ints, Column]] = []
    table = np.zeros((len(stacks), kinds), dtype=np.int64)
    for width, counts, column in stacks:
        if not (table[: len(kept)] >= counts).all(axis=1).any():
            table[len(kept)] = counts
            kept.append((width, counts, column))
    return _Types([width for width, _, _ in kept], table[: len(kept)], [column for _, _, column in kept])


def _rows(
    model: Model, stacks: _Types, level: int, worth: Ints, need: int, limit: int, most_types: int | None = None
) -> list[Filling] | None:
    values = stacks.counts @ worth
    order = sorted(range(len(stacks.sizes)), key=lambda at: (-int(values[at]) / stacks.sizes[at], stacks.sizes[at], at))
    types = stacks.picked(order)
    made = _multisets(types, model.usable, worth, model.wanted, need, limit, most_types=most_types)
    if made is None:
        return None
    fillings = []
    for counts, taken in made:
        fillings.append(Filling(level, tuple(counts), tuple(types.columns[at] for at in taken)))
    return fillings


def _multisets(
    types: _Types,
    room: int,
    worth: Ints,
    wanted: Ints,
    need: int,
    limit: int,
    lead: int = 0,
    most_types: int | None = None,
) -> Iterator[tuple[list[int], list[int]]] | None:
    """List the multisets of types within ``room`` worth at least ``need``, to which nothing useful can be added.

    Patches above ``wanted`` are worth nothing. With ``lead``, one of the first ``lead`` types must be there; with
    ``most_types``, only so many different types may, and fuller multisets may exist.
    """
    if not len(types.sizes):
        return iter(())
    rest = _completions(types, room, types.counts @ worth)
    adding = _Adding(types, worth, wanted)
    state = adding.nothing(room)
    for at in range(len(types.sizes)):
        part = state if most_types is None else state.where(state.used < most_types)
        parts = [state]
        while len(part.left):
            part = adding.added(part, at, rest[at], need, again=len(parts) > 1)
            parts.append(part)
        state = _State.joined(parts)
        state = state.where(state.value + rest[at + 1].take(state.left) >= need)
        if lead and at == lead - 1:
            state = state.where(state.trail >= 0)
        if len(state.left) > 4 * limit:
            return None
        if len(parts) > 2:
            state = state.distinct()
        if len(state.left) > limit:
            return None
    if most_types is None:
        state = state.where(~adding.fits_more(state))
    return zip(state.counts.T.tolist(), adding.taken(state.trail), strict=True)


@dataclass(frozen=True, slots=True, eq=False)
class _State:
    """Partial multisets."""

    counts: npt.NDArray[np.int16]
    """Kinds x multisets."""
    mixed: Ints
    """The counts, mixed into one number, which may wrap around."""
    value: Ints
    left: Ints
    """Room."""
    used: Ints
    """How many different types."""
    trail: Ints
    """Where the last type is noted; -1: there is none yet."""

    def where(self, chosen: npt.NDArray[np.bool_]) -> _State:
        return self if chosen.all() else self.picked(np.nonzero(chosen)[0])

    def picked(self, at: Ints) -> _State:
        return _State(
            self.counts.take(at, axis=1), self.mixed.take(at), self.value.take(at), self.left.take(at),
            self.used.take(at), self.trail.take(at),
        )  # fmt: skip

    @staticmethod
    def joined(parts: Sequence[_State]) -> _State:
        parts = [part for part in parts if len(part.left)] or parts[:1]
        if len(parts) == 1:
            return parts[0]
        return _State(
            np.concatenate([part.counts for part in parts], axis=1),
            *(np.concatenate([getattr(part, name) for part in parts]) for name in _State.__slots__[1:]),
        )

    def distinct(self) -> _State:
        """Keep one of those that give the same patches and leave the same room."""
        # One number each sorts much faster than rows do; neighbours of one number are then compared whole.
        keys = self.mixed + self.left
        order: Ints = np.argsort(keys, kind="stable")
        ordered = keys.take(order)
        alike: Ints = np.nonzero(ordered[1:] == ordered[:-1])[0]
        one, next_ = order.take(alike), order.take(alike + 1)
        same = (self.counts.take(one, axis=1) == self.counts.take(next_, axis=1)).all(axis=0)
        again = next_[same & (self.left.take(one) == self.left.take(next_))]
        if not len(again):
            return self
        kept = np.ones(len(self.left), dtype=np.bool_)
        kept[again] = False
        return self.where(kept)


class _Adding:
    """Adds types to multisets, and notes in which order."""

    def __init__(self, types: _Types, worth: Ints, wanted: Ints) -> None:
        self._sizes = types.sizes
        self._kinds = [
            [(kind, n, int(wanted[kind]), int(worth[kind]), _mixed(kind)) for kind, n in enumerate(counts) if n]
            for counts in types.counts.tolist()
        ]
        self._wanted = wanted
        self._noted: list[tuple[Ints, Ints]] = []
        self._notes = 0

    def nothing(self, room: int) -> _State:
        """Return the one without any type."""
        zero: Ints = np.zeros(1, dtype=np.int64)
        return _State(np.zeros((len(self._wanted), 1), dtype=np.int16), zero, zero, zero + room, zero, zero - 1)

    def added(self, state: _State, at: int, rest: Ints, need: int, *, again: bool) -> _State:
        """Add a type to each that has room for it, gains by it, and with the ``rest`` may come to ``need``."""
        gains = np.zeros(len(state.left), dtype=np.bool_)
        for kind, _, wanted, _, _ in self._kinds[at]:
            gains |= state.counts[kind] < wanted
        places: Ints = np.nonzero(gains & (state.left >= self._sizes[at]))[0]
        left = state.left.take(places) - self._sizes[at]
        more = [
            np.minimum(wanted - state.counts[kind].take(places).astype(np.int64), n)
            for kind, n, wanted, _, _ in self._kinds[at]
        ]
        value = state.value.take(places)
        for (_, _, _, worth, _), some in zip(self._kinds[at], more, strict=True):
            value += worth * some
        worthy: Ints = np.nonzero(value + rest.take(left) >= need)[0]
        if len(worthy) < len(places):
            places, left, value = places.take(worthy), left.take(worthy), value.take(worthy)
            more = [some.take(worthy) for some in more]
        counts, mixed = state.counts.take(places, axis=1), state.mixed.take(places)
        for (kind, _, _, _, factor), some in zip(self._kinds[at], more, strict=True):
            counts[kind] += some.astype(np.int16)
            mixed += factor * some
        trail = np.arange(self._notes, self._notes + len(places))
        self._noted.append((state.trail.take(places), np.full(len(places), at)))
        self._notes += len(places)
        return _State(counts, mixed, value, left, state.used.take(places) + (not again), trail)

    def fits_more(self, state: _State) -> npt.NDArray[np.bool_]:
        """Tell for each whether some type has room and gains."""
        more = np.zeros(len(state.left), dtype=np.bool_)
        short = state.counts < self._wanted[:, None]
        for size, kinds in zip(self._sizes, self._kinds, strict=True):
            room = state.left >= size
            for kind, *_ in kinds:
                more |= room & short[kind]
        return more

    def taken(self, trails: Ints) -> Iterator[list[int]]:
        """Yield the types of the multisets that end where the trails do, in their order."""
        before = np.concatenate([one for one, _ in self._noted] or [trails[:0]]).tolist()
        types = np.concatenate([one for _, one in self._noted] or [trails[:0]]).tolist()
        for end in trails.tolist():
            found = []
            place = end
            while place >= 0:
                found.append(types[place])
                place = before[place]
            yield found[::-1]


def _mixed(kind: int) -> int:
    """Return the factor of a kind's counts."""
    return pow(_MIX, kind + 1, 1 << 63) - (1 << 62)


def _completions(types: _Types, room: int, values: Ints) -> list[Ints]:
    """Return, for each type on, the most that it and the later ones can add within every room: unbounded knapsacks."""
    rest: Ints = np.zeros(room + 1, dtype=np.int64)
    tables = [rest]
    for size, value in zip(reversed(types.sizes), reversed(values.tolist()), strict=True):
        rest = _with(rest, size, value)
        tables.append(rest)
    return tables[::-1]


def _with(rest: Ints, size: int, value: int) -> Ints:
    """Allow any number of one more type: along steps of its size, the running maximum less what copies cost."""
    if value <= 0:
        return rest
    pad = -len(rest) % size
    table = np.concatenate([rest, np.full(pad, _LOWEST, dtype=np.int64)]).reshape(-1, size)
    copies = np.arange(len(table), dtype=np.int64)[:, None] * value
    best: Ints = (np.maximum.accumulate(table - copies, axis=0) + copies).reshape(-1)[: len(rest)]
    return best
