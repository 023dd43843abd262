"""Whole plans near the linear program's, found or ruled out by what remains when its basis is divided out.

A plan that is at most so much longer than the bound uses, beside the few fillings of the program's basis, only a
handful of others: each costs something, and together they may cost no more than the gap. How often the basic ones
are cut then follows by solving the equations of the patches, and is whole only if the residues of the others add up
to that of the demand (R. E. Gomory, Linear Algebra and its Applications 2, 1969, from memory). Handfuls are listed in
two halves, and the halves matched by their residues, so that far more of them are looked at than are listed
(E. Horowitz and S. Sahni, J. ACM 21, 1974, from memory). If nothing was left off a list, this proves that there is no
such plan. Everything counts in whole numbers.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from seamleaf.planning.cutting.dive import Cut
from seamleaf.planning.cutting.master import FINE, Branch, Prices
from seamleaf.planning.cutting.pricing import Filling, Ints, Model

_PRIME: Final = (1 << 61) - 1
_MOST_CLASSES: Final = 1 << 38
_MOST_KEY: Final = 1 << 62
"""Residues and costs are sorted as one number."""
_EXACT: Final = 1 << 53
"""Whole numbers below are exact as floats, whose products are fast."""
_PAIRS: Final = 1_000_000
"""Pairs of halves that are looked at."""
_DEAR: Final = 200
"""What costs less than this part of the budget is not counted."""
_MOST_ENTRY: Final = 30_000
_AT_ONCE: Final = 100_000
_FIRST_LISTED: Final = 4_000

Small = npt.NDArray[np.int16]


@dataclass(frozen=True, slots=True)
class Found:
    """A plan, if one was found, and whether the search was complete: without a plan there is none then."""

    cut: Cut | None
    complete: bool
    work: int = 0
    """Handfuls and pairs of them that were looked at."""


@dataclass(frozen=True, slots=True)
class _Row:
    """An equation: so many patches of a kind, or strips at least as high as a level, and what one to spare costs."""

    of_kind: bool
    at: int
    """Place of the kind, or of the level."""
    wanted: int
    price: int
    spare: int
    """What one to spare adds: -1 where there may be more than wanted, 1 where there may be fewer."""

    def of(self, filling: Filling) -> int:
        """Return what a filling gives."""
        return filling.counts[self.at] if self.of_kind else int(filling.level >= self.at)


@dataclass(frozen=True, slots=True, eq=False)
class _Column:
    """A filling, or (``filling`` ``None``) what one patch or strip too many or too few does to the equations."""

    filling: Filling | None
    entries: tuple[int, ...]
    cost: int
    height: int = 0


def search(
    model: Model, branch: Branch, prices: Prices, fillings: Sequence[Filling], longest: int, listed: int
) -> Found:
    """Look for a plan of a branch that is not longer than ``longest``.

    Args:
        model: what is wanted.
        branch: bounds of the numbers of strips.
        prices: of the branch's linear program.
        fillings: all that such a plan may use: those whose reduced cost is within the gap.
        longest: the greatest length asked for.
        listed: about how many handfuls either half may hold.

    """
    budget = longest * FINE - prices.bound
    rows = _rows(model, branch, prices, budget // _DEAR)
    frame = _Frame.of(_columns(model, prices, fillings, rows, budget), [row.wanted for row in rows])
    if frame is None or frame.whole * (budget + 1) >= _MOST_KEY:
        return Found(None, complete=False)
    if frame.contradicts:
        return Found(None, complete=True)
    most = np.minimum([row.wanted + budget // row.price for row in rows], _MOST_ENTRY).astype(np.int16)
    return _Matching(model, frame, most, budget, longest).found(listed)


def _rows(model: Model, branch: Branch, prices: Prices, cheap: int) -> list[_Row]:
    """Return the equations: patches by kind, and strips by level where their number has a price.

    What costs next to nothing is left out: too many of it would be too cheap to be ruled out.
    """
    rows = [
        _Row(True, kind, wanted, price, -1)
        for kind, (wanted, price) in enumerate(zip(model.wanted.tolist(), prices.worth.tolist(), strict=True))
    ]
    for level, fee in enumerate(prices.fees.tolist()):
        bound = branch.least if fee > 0 else branch.most
        rows.append(_Row(False, level, int(bound[level]), abs(fee), -1 if fee > 0 else 1))
    return [row for row in rows if row.price > cheap]


def _columns(
    model: Model, prices: Prices, fillings: Sequence[Filling], rows: Sequence[_Row], budget: int
) -> list[_Column]:
    """Return the columns that the budget allows, the cheapest first."""
    columns = []
    for filling in fillings:
        cost = int(prices.costs[filling.level]) - int(prices.worth @ np.array(filling.counts))
        entries = tuple(row.of(filling) for row in rows)
        columns.append(_Column(filling, entries, max(cost, 0), model.heights[filling.level]))
    for place, row in enumerate(rows):
        columns.append(_Column(None, _unit(place, row.spare, len(rows)), row.price))
    return sorted((one for one in columns if one.cost <= budget), key=lambda one: one.cost)


def _unit(place: int, value: int, size: int) -> tuple[int, ...]:
    return tuple(value if at == place else 0 for at in range(size))


def _independent(vectors: Iterable[Sequence[int]], most: int) -> list[int]:
    """Return the places of the first vectors of which none is a sum of others.

    It is counted modulo a prime: whoever leaves vectors out because of it looks whether they are sums indeed.
    """
    reduced: list[tuple[int, list[int]]] = []
    chosen: list[int] = []
    for at, vector in enumerate(vectors):
        left = [value % _PRIME for value in vector]
        for pivot, row in reduced:
            if factor := left[pivot]:
                left = [(a - factor * b) % _PRIME for a, b in zip(left, row, strict=True)]
        pivot = next((place for place, value in enumerate(left) if value), -1)
        if pivot < 0:
            continue
        inverse = pow(left[pivot], -1, _PRIME)
        reduced.append((pivot, [value * inverse % _PRIME for value in left]))
        chosen.append(at)
        if len(chosen) == most:
            break
    return chosen


@dataclass(frozen=True, slots=True, eq=False)
class _Frame:
    """The basis, and what the other columns leave of it."""

    basis: list[_Column]
    others: list[_Column]
    wanted: Ints
    """What is wanted, by equation."""
    entries: Small
    """Of the others: columns x equations."""
    whole: int
    inverse: npt.NDArray[np.float64]
    """Equations x basis: what is wanted, times it, is how often each of the basis is cut, in parts of ``whole``."""
    residues: Ints
    """One number for the residues of each of the others; whole plans have those that add up to ``target``."""
    target: int
    contradicts: bool
    """Whether the equations contradict each other whatever is cut."""

    @classmethod
    def of(cls, columns: Sequence[_Column], wanted: Sequence[int]) -> _Frame | None:
        """Divide the basis out of all columns; ``None`` when the numbers are too large for it."""
        chosen = _independent((column.entries for column in columns), len(wanted))
        basis = [columns[at] for at in chosen]
        # Where the columns leave equations open, those that they do settle are kept. The others follow from them, or
        # contradict them.
        rows = _independent(zip(*(column.entries for column in basis), strict=True), len(basis))
        whole, inverse = _adjugate([[column.entries[row] for column in basis] for row in rows])
        within = set(chosen)
        others = [column for at, column in enumerate(columns) if at not in within]
        entries: Small = np.array([column.entries for column in others], dtype=np.int16).reshape(-1, len(wanted))
        if max(wanted, default=0) > _MOST_ENTRY:
            return None
        greatest = max((abs(value) for row in inverse for value in row), default=0)
        most = max(*map(abs, wanted), int(np.abs(entries).max(initial=1)))
        if not 0 < whole < _MOST_CLASSES or greatest * most * len(wanted) ** 2 >= _EXACT:
            return None
        turned = [[0] * len(basis) for _ in wanted]
        for place, row in enumerate(rows):
            turned[row] = [line[place] for line in inverse]
        asked = [sum(a * line[at] for a, line in zip(wanted, turned, strict=True)) for at in range(len(basis))]
        contradicts = any(
            sum(column.entries[row] * n for column, n in zip(basis, asked, strict=True)) != whole * wanted[row]
            for row in range(len(wanted))
        )
        into: Ints = np.array(turned, dtype=np.int64).reshape(len(wanted), len(basis))
        back: Ints = np.array([column.entries for column in basis], dtype=np.int64).reshape(len(basis), len(wanted))
        full = entries.astype(np.int64)
        if (full @ into @ back != whole * full).any():
            return None
        weights = [pow(7919, at + 1, whole) for at in range(len(basis))]
        each = [sum(a * b for a, b in zip(weights, line, strict=True)) % whole for line in turned]
        residues = [sum(a * b for a, b in zip(each, line, strict=True)) % whole for line in entries.tolist()]
        target = sum(a * b for a, b in zip(each, wanted, strict=True)) % whole
        return cls(
            basis, others, np.array(wanted, dtype=np.int64), entries, whole, into.astype(np.float64),
            np.array(residues, dtype=np.int64), target, contradicts,
        )  # fmt: skip


def _adjugate(matrix: list[list[int]]) -> tuple[int, list[list[int]]]:
    """Return the determinant, made positive, and the inverse times it, in whole numbers (Bareiss' elimination)."""
    size = len(matrix)
    rows = [[*row, *(int(at == place) for place in range(size))] for at, row in enumerate(matrix)]
    last = 1
    for at in range(size):
        place = next((place for place in range(at, size) if rows[place][at]), None)
        if place is None:
            return 0, []
        rows[at], rows[place] = rows[place], rows[at]
        pivot = rows[at][at]
        for other in range(size):
            if other != at:
                factor = rows[other][at]
                rows[other] = [(pivot * a - factor * b) // last for a, b in zip(rows[other], rows[at], strict=True)]
        last = pivot
    sign = 1 if last > 0 else -1
    return sign * last, [[sign * value for value in row[size:]] for row in rows]


@dataclass(frozen=True, slots=True, eq=False)
class _Handfuls:
    """Multisets of columns: costs, heights, residues and sums of entries; which each extends, and by what column."""

    costs: Ints
    heights: Ints
    residues: Ints
    entries: Small
    before: Ints
    last: Ints

    @classmethod
    def none(cls, equations: int) -> _Handfuls:
        """Return the one without any column."""
        zero = np.zeros(1, dtype=np.int64)
        return cls(zero, zero, zero, np.zeros((1, equations), dtype=np.int16), zero - 1, zero - 1)

    @classmethod
    def joined(cls, parts: Sequence[_Handfuls]) -> _Handfuls:
        """Return all of the parts, one after the other."""
        return cls(*(np.concatenate([getattr(one, name) for one in parts]) for name in cls.__slots__))

    def __len__(self) -> int:
        return len(self.costs)

    def columns(self, at: int) -> list[int]:
        """Return the columns of one."""
        found = []
        while self.last[at] >= 0:
            found.append(int(self.last[at]))
            at = int(self.before[at])
        return found


class _Matching:
    """Handfuls of the columns outside the basis: those of the cheap ones and those of the dear ones, to be matched."""

    def __init__(self, model: Model, frame: _Frame, most: Small, budget: int, longest: int) -> None:
        self._model, self._frame = model, frame
        self._budget, self._longest = budget, longest
        self._costs: Ints = np.array([column.cost for column in frame.others], dtype=np.int64)
        self._tall: Ints = np.array([column.height for column in frame.others], dtype=np.int64)
        self._most = most
        """Greatest entries: more cost too much."""
        self._work = 0

    def found(self, listed: int) -> Found:
        """Match the halves, lists of about so many each."""
        few, many, is_all = self._halves(listed)
        frame, budget = self._frame, self._budget
        keys = few.residues * (budget + 1) + few.costs
        order: Ints = np.argsort(keys, kind="stable")
        keys = keys[order]
        asked = (frame.target - many.residues) % frame.whole * (budget + 1)
        first: Ints = np.searchsorted(keys, asked, side="left")
        numbers: Ints = np.searchsorted(keys, asked + (budget - many.costs), side="right") - first
        some: Ints = np.nonzero(numbers)[0]
        ends: Ints = np.cumsum(numbers[some])
        at = done = 0
        while at < len(some) and done < _PAIRS:
            upto = max(int(np.searchsorted(ends, done + _AT_ONCE, side="right")), at + 1)
            chosen = some[at:upto]
            n = numbers[chosen]
            right: Ints = np.repeat(chosen, n)
            left = order[_ranges(first[chosen], n)]
            rest = frame.wanted - few.entries[left] - many.entries[right]
            basic = rest.astype(np.float64) @ frame.inverse
            for hit in np.nonzero((basic >= 0).all(axis=1))[0].tolist():
                others = [*few.columns(int(left[hit])), *many.columns(int(right[hit]))]
                cut = self._cut(basic[hit].astype(np.int64), others)
                if cut is not None:
                    return Found(cut, complete=True, work=self._work + done)
            at, done = upto, int(ends[upto - 1])
        return Found(None, complete=is_all and at == len(some), work=self._work + done)

    def _halves(self, listed: int) -> tuple[_Handfuls, _Handfuls, bool]:
        """List the handfuls of the cheap columns and those of the dear ones, and tell whether these are all.

        The lists begin short, since few are needed where the budget is small.
        """
        length = min(_FIRST_LISTED, listed)
        while True:
            few, split = self._of_cheap(length)
            many = self._of_dear(split, self._budget, 2 * length)
            if many is not None:
                return few, many, True
            if length == listed:
                break
            length = min(length * 8, listed)
        most = self._budget
        while many is None and most:
            most = most * 4 // 5
            many = self._of_dear(split, most, 2 * length)
        return few, _Handfuls.none(len(self._frame.wanted)) if many is None else many, False

    def _of_cheap(self, listed: int) -> tuple[_Handfuls, int]:
        """List the handfuls of the cheapest columns, of as many as make a list of that length, and tell how many."""
        kept = _Handfuls.none(len(self._frame.wanted))
        for at in range(len(self._costs)):
            parts, tip, first = [kept], kept, 0
            while len(tip):
                places = np.arange(len(tip))
                tip = self._extended(tip, places, np.full(len(tip), at), self._budget, first)
                first = sum(map(len, parts))
                self._work += len(tip)
                if first + len(tip) > listed:
                    return kept, at
                parts.append(tip)
            kept = _Handfuls.joined(parts)
        return kept, len(self._costs)

    def _of_dear(self, start: int, most: int, listed: int) -> _Handfuls | None:
        """List the handfuls of the columns from ``start`` on that cost at most so much; ``None`` if too many."""
        costs = self._costs[start:]
        tip = _Handfuls.none(len(self._frame.wanted))
        parts, total, first = [tip], 1, 0
        while len(tip):
            self._work += len(tip)
            last = np.maximum(tip.last - start, 0)
            numbers: Ints = np.maximum(np.searchsorted(costs, most - tip.costs, side="right") - last, 0)
            if total + int(numbers.sum()) > 4 * listed:
                return None
            places: Ints = np.repeat(np.arange(len(tip)), numbers)
            tip = self._extended(tip, places, start + _ranges(last, numbers), most, first)
            first = total
            total += len(tip)
            if total > listed:
                return None
            parts.append(tip)
        return _Handfuls.joined(parts)

    def _extended(self, tip: _Handfuls, places: Ints, added: Ints, most: int, first: int) -> _Handfuls:
        """Add a column to some handfuls, and keep those that a plan may use; ``first`` is the number of the first."""
        costs = tip.costs[places] + self._costs[added]
        heights = tip.heights[places] + self._tall[added]
        fits = (costs <= most) & (heights <= self._longest)
        places, added, costs, heights = places[fits], added[fits], costs[fits], heights[fits]
        entries = tip.entries[places] + self._frame.entries[added]
        few: npt.NDArray[np.bool_] = np.all(entries <= self._most, axis=1)
        places, added = places[few], added[few]
        residues = (tip.residues[places] + self._frame.residues[added]) % self._frame.whole
        return _Handfuls(costs[few], heights[few], residues, entries[few], first + places, added)

    def _cut(self, basic: Ints, others: Sequence[int]) -> Cut | None:
        """Return the plan, counted once more; ``None`` if it is not whole, too long, or does not give all."""
        frame = self._frame
        times, rest = np.divmod(basic, frame.whole)
        if rest.any():
            return None
        used = [*zip(frame.basis, times.tolist(), strict=True), *((frame.others[at], 1) for at in others)]
        cut = [(column.filling, number) for column, number in used if column.filling is not None and number]
        given = np.zeros(len(self._model.kinds), dtype=np.int64)
        for filling, number in cut:
            given += number * np.array(filling.counts, dtype=np.int64)
        length = sum(self._model.heights[filling.level] * number for filling, number in cut)
        return cut if (given >= self._model.wanted).all() and length <= self._longest else None


def _ranges(first: Ints, numbers: Ints) -> Ints:
    """Return ``first``, ``first + 1`` ... for each, so many as its number, one after the other."""
    return np.arange(int(numbers.sum())) - np.repeat(np.cumsum(numbers) - numbers - first, numbers)
