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
        for counts, copies in made:
            column = tuple(lay for (_, lay), n in zip(lays, copies, strict=True) for _ in range(n))
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
    for counts, copies in made:
        columns = tuple(types.columns[at] for at, n in enumerate(copies) if n for _ in range(n))
        fillings.append(Filling(level, tuple(counts), columns))
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
    state = _State(
        np.zeros((1, len(wanted)), dtype=np.int64), np.array([room]), np.zeros((1, len(types.sizes)), dtype=np.int16)
    )
    for at, size in enumerate(types.sizes):
        parts = [state]
        part = state
        if most_types is not None:
            types_used: Ints = np.count_nonzero(state.copies, axis=1)
            part = state.where(types_used < most_types)
        while len(part.left):
            part = part.where(part.left >= size).plus(at, size, types.counts[at], wanted)
            part = part.where(part.counts @ worth + rest[at][part.left] >= need)
            parts.append(part)
        state = _State.joined(parts)
        state = state.where(state.counts @ worth + rest[at + 1][state.left] >= need)
        if lead and at == lead - 1:
            state = state.where(state.counts.sum(axis=1) > 0)
        if len(state.left) > 4 * limit:
            return None
        state = state.distinct()
        if len(state.left) > limit:
            return None
    if most_types is None:
        state = state.where(~_extensible(state, types, wanted))
    return zip(state.counts.tolist(), state.copies.tolist(), strict=True)


@dataclass(frozen=True, slots=True, eq=False)
class _State:
    """Partial multisets: patches by kind, room left, copies by type."""

    counts: Ints
    left: Ints
    copies: npt.NDArray[np.int16]

    def where(self, chosen: npt.NDArray[np.bool_]) -> _State:
        return _State(self.counts[chosen], self.left[chosen], self.copies[chosen])

    def plus(self, at: int, size: int, counts: Ints, wanted: Ints) -> _State:
        """Add a type to each; those that gain nothing are left out."""
        more = np.minimum(self.counts + counts, wanted)
        gains = (more != self.counts).any(axis=1)
        copies = self.copies[gains].copy()
        copies[:, at] += 1
        return _State(more[gains], self.left[gains] - size, copies)

    @staticmethod
    def joined(parts: Sequence[_State]) -> _State:
        return _State(
            np.concatenate([part.counts for part in parts]),
            np.concatenate([part.left for part in parts]),
            np.concatenate([part.copies for part in parts]),
        )

    def distinct(self) -> _State:
        """Keep one of those that give the same patches and leave the same room."""
        # One number a row sorts much faster than rows do; neighbours of one number are then compared whole.
        keys = self.counts @ _mixed(self.counts.shape[1]) + self.left
        order: Ints = np.argsort(keys, kind="stable")
        keys, counts, left = keys[order], self.counts[order], self.left[order]
        again = (keys[1:] == keys[:-1]) & (left[1:] == left[:-1]) & (counts[1:] == counts[:-1]).all(axis=1)
        first = np.sort(order[np.concatenate([[True], ~again])[: len(order)]])
        return _State(self.counts[first], self.left[first], self.copies[first])


def _mixed(many: int) -> Ints:
    """Return factors that mix the counts of a row into one number, which may wrap around."""
    return np.array([pow(_MIX, at, 1 << 63) for at in range(1, many + 1)], dtype=np.int64)


def _extensible(state: _State, types: _Types, wanted: Ints) -> npt.NDArray[np.bool_]:
    extensible = np.zeros(len(state.left), dtype=np.bool_)
    for size, counts in zip(types.sizes, types.counts, strict=True):
        gains = (np.minimum(state.counts + counts, wanted) != state.counts).any(axis=1)
        extensible |= gains & (state.left >= size)
    return extensible


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
