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

from seamleaf.planning.cutting.dive import Cut
from seamleaf.planning.cutting.handfuls import Columns, Lister, Small
from seamleaf.planning.cutting.master import FINE, Branch, Prices
from seamleaf.planning.cutting.matching import MOST_CLASSES, Matching
from seamleaf.planning.cutting.pricing import Filling, Ints, Model

_PRIME: Final = (1 << 61) - 1
_EXACT: Final = 1 << 53
"""Whole numbers below are exact as floats, whose products are fast."""
_DEAR: Final = 200
"""What costs less than this part of the budget is not counted."""
_MOST_ENTRY: Final = 30_000
# What a search takes, in parts of a linear program, as measured: however small it is, for each entry of the equations,
# for how many handfuls looked at, for each that is kept to be matched, and for how many pairs.
_AT_LEAST: Final = 40_000
_DIVIDED: Final = 4
_LISTED: Final = 4
_MATCHED: Final = 5
_PAIRED: Final = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How long to look, by what is counted."""

    fillings: int
    """Most fillings to make handfuls of."""
    listed: int
    """About how many handfuls either half may hold."""
    pairs: int
    """Most pairs of halves to look at."""
    work: int
    """Handfuls looked at, about, after which they are not listed any further."""


@dataclass(frozen=True, slots=True)
class Found:
    """A plan, if one was found, and whether the search was complete: without a plan there is none then."""

    cut: Cut | None
    complete: bool
    work: int = 0
    """What it has taken, in parts of a linear program."""


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
    model: Model, branch: Branch, prices: Prices, fillings: Sequence[tuple[int, Filling]], longest: int, effort: Effort
) -> Found:
    """Look for a plan of a branch that is not longer than ``longest``.

    Args:
        model: what is wanted.
        branch: bounds of the numbers of strips.
        prices: of the branch's linear program.
        fillings: all that such a plan may use, with their reduced costs: those for which these are within the gap.
        longest: the greatest length asked for.
        effort: where to give up.

    """
    budget = longest * FINE - prices.bound
    rows = _rows(model, branch, prices, budget // _DEAR)
    frame = _Frame.of(_columns(model, fillings, rows, budget), [row.wanted for row in rows])
    work = _AT_LEAST + _DIVIDED * len(fillings) * len(rows)
    if frame is None:
        return Found(None, complete=False, work=work)
    if frame.contradicts:
        return Found(None, complete=True, work=work)
    most: Ints = np.array([row.wanted + budget // row.price for row in rows], dtype=np.int64)
    usable = np.nonzero((frame.entries <= most).all(axis=1))[0]
    columns = Columns(
        frame.entries,
        np.array([column.cost for column in frame.others], dtype=np.int64),
        np.array([column.height for column in frame.others], dtype=np.int64),
        frame.residues,
        frame.uses,
    ).picked(usable)
    lister = Lister(columns, most, frame.whole, budget, longest)
    rests, starts, is_all = lister.halves(effort.listed, effort.work)
    matching = Matching(
        columns, rests, starts, classes=frame.whole, target=frame.target, budget=budget, needed=frame.needed
    )
    kept = len(rests) + len(starts)
    work += lister.work // _LISTED + _MATCHED * kept
    for times, taken in matching.plans(min(effort.pairs, 2 * max(effort.work - lister.work - 2 * kept, 0))):
        cut = _cut(model, frame, times, [int(usable[at]) for at in taken], longest)
        if cut is not None:
            return Found(cut, complete=True, work=work + matching.work // _PAIRED)
    return Found(None, complete=is_all and matching.complete, work=work + matching.work // _PAIRED)


def _cut(model: Model, frame: _Frame, times: Ints, others: Sequence[int], longest: int) -> Cut | None:
    """Return the plan, counted once more; ``None`` if it is too long, or does not give all."""
    used = [*zip(frame.basis, times.tolist(), strict=True), *((frame.others[at], 1) for at in others)]
    cut = [(column.filling, number) for column, number in used if column.filling is not None and number]
    given = np.zeros(len(model.kinds), dtype=np.int64)
    for filling, number in cut:
        given += number * np.array(filling.counts, dtype=np.int64)
    length = sum(model.heights[filling.level] * number for filling, number in cut)
    return cut if (given >= model.wanted).all() and length <= longest else None


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


def _columns(model: Model, fillings: Sequence[tuple[int, Filling]], rows: Sequence[_Row], budget: int) -> list[_Column]:
    """Return the columns that the budget allows, the cheapest first."""
    columns = [
        _Column(filling, tuple(row.of(filling) for row in rows), max(cost, 0), model.heights[filling.level])
        for cost, filling in fillings
        if cost <= budget
    ]
    for place, row in enumerate(rows):
        if row.price <= budget:
            columns.append(_Column(None, _unit(place, row.spare, len(rows)), row.price))
    return sorted(columns, key=lambda one: one.cost)


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
    needed: Ints
    """How often each of the basis is cut if nothing else is, in parts of ``whole``."""
    entries: Small
    """Of the others: columns x equations."""
    whole: int
    uses: Ints
    """Columns x basis: how much less often each of the basis is cut for one of the others."""
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
        if not 0 < whole < MOST_CLASSES or greatest * most * len(wanted) ** 2 >= _EXACT:
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
            basis, others, np.array(asked, dtype=np.int64), entries, whole, full @ into,
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
