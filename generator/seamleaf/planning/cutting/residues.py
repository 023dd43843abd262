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

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from seamleaf.planning.cutting.dive import Cut
from seamleaf.planning.cutting.handfuls import Columns, Lister, Small
from seamleaf.planning.cutting.master import FINE, Branch, Prices
from seamleaf.planning.cutting.matching import MOST_CLASSES, Matching
from seamleaf.planning.cutting.pricing import Filling, Ints, Model

_PRIME: Final = (1 << 31) - 1
"""Products of two numbers below fit into a word."""
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
    wholly: bool = False
    """Whether a part of the handfuls is of no use."""


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
class _Columns:
    """Fillings, and (``None``) what one patch or strip too many or too few does to the equations."""

    fillings: list[Filling | None]
    entries: Ints
    """Columns x equations."""
    costs: Ints
    heights: Ints

    def picked(self, at: Sequence[int]) -> _Columns:
        """Return some of them."""
        fillings = [self.fillings[place] for place in at]
        return _Columns(fillings, self.entries.take(at, axis=0), self.costs.take(at), self.heights.take(at))


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
    others = frame.others
    columns = Columns(frame.entries, others.costs, others.heights, frame.residues, frame.uses).picked(usable)
    lister = Lister(columns, most, frame.whole, budget, longest)
    rests, starts, is_all = lister.halves(effort.listed, effort.work, wholly=effort.wholly)
    if effort.wholly and not is_all:
        return Found(None, complete=False, work=work + lister.work // _LISTED)
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
    used = [*zip(frame.basis.fillings, times.tolist(), strict=True), *((frame.others.fillings[at], 1) for at in others)]
    cut = [(filling, number) for filling, number in used if filling is not None and number]
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


def _columns(model: Model, fillings: Sequence[tuple[int, Filling]], rows: Sequence[_Row], budget: int) -> _Columns:
    """Return the columns that the budget allows, the cheapest first."""
    chosen = [(max(cost, 0), filling) for cost, filling in fillings if cost <= budget]
    spare = [place for place, row in enumerate(rows) if row.price <= budget]
    counts: Ints = np.array([one.counts for _, one in chosen], dtype=np.int64).reshape(-1, len(model.kinds))
    levels: Ints = np.array([one.level for _, one in chosen], dtype=np.int64)
    entries: Ints = np.zeros((len(chosen) + len(spare), len(rows)), dtype=np.int64)
    for place, row in enumerate(rows):
        entries[: len(chosen), place] = counts[:, row.at] if row.of_kind else levels >= row.at
    entries[np.arange(len(chosen), len(entries)), spare] = [rows[place].spare for place in spare]
    costs: Ints = np.array([cost for cost, _ in chosen] + [rows[place].price for place in spare], dtype=np.int64)
    heights: Ints = np.append(model.tall.take(levels), np.zeros(len(spare), dtype=np.int64))
    columns = _Columns([*(one for _, one in chosen), *(None for _ in spare)], entries, costs, heights)
    return columns.picked(np.argsort(costs, kind="stable").tolist())


def _independent(vectors: Ints, most: int) -> list[int]:
    """Return the places of the first vectors of which none is a sum of others, ``most`` of them if there are so many.

    It is counted modulo a prime: whoever leaves vectors out because of it looks whether they are sums indeed.
    """
    left: Ints = vectors.T % _PRIME
    chosen: list[int] = []
    while len(chosen) < most:
        open_ = np.nonzero(left.any(axis=0))[0]
        if not len(open_):
            break
        at = int(open_[0])
        row = int(np.nonzero(left[:, at])[0][0])
        pivot = left[row] * pow(int(left[row, at]), -1, _PRIME) % _PRIME
        left = np.delete(left, row, axis=0)
        left = (left - left[:, at, None] * pivot) % _PRIME
        chosen.append(at)
    return chosen


@dataclass(frozen=True, slots=True, eq=False)
class _Frame:
    """The basis, and what the other columns leave of it."""

    basis: _Columns
    others: _Columns
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
    def of(cls, columns: _Columns, wanted: Sequence[int]) -> _Frame | None:
        """Divide the basis out of all columns; ``None`` when the numbers are too large for it."""
        chosen = _independent(columns.entries, len(wanted))
        basis, others = (
            columns.picked(chosen),
            columns.picked(np.delete(np.arange(len(columns.costs)), chosen).tolist()),
        )
        # Where the columns leave equations open, those that they do settle are kept. The others follow from them, or
        # contradict them.
        rows = _independent(basis.entries.T, len(chosen))
        whole, inverse = _adjugate(basis.entries[:, rows].T.tolist())
        greatest = max((abs(value) for row in inverse for value in row), default=0)
        most = max(*map(abs, wanted), int(np.abs(others.entries).max(initial=1)))
        if max(most, *wanted) > _MOST_ENTRY or not 0 < whole < MOST_CLASSES:
            return None
        if greatest * most * len(wanted) ** 2 >= _EXACT:
            return None
        turned = [[0] * len(chosen) for _ in wanted]
        for place, row in enumerate(rows):
            turned[row] = [line[place] for line in inverse]
        into: Ints = np.array(turned, dtype=np.int64).reshape(len(wanted), len(chosen))
        asked: Ints = np.array(wanted, dtype=np.int64) @ into
        contradicts = bool((asked @ basis.entries != whole * np.array(wanted, dtype=np.int64)).any())
        uses: Ints = others.entries @ into
        if (uses @ basis.entries != whole * others.entries).any():
            return None
        weights = [pow(7919, at + 1, whole) for at in range(len(chosen))]
        each: Ints = np.array(
            [sum(a * b for a, b in zip(weights, line, strict=True)) % whole for line in turned], dtype=np.int64
        )
        residues: Ints = (others.entries * each % whole).sum(axis=1) % whole
        target = sum(a * b for a, b in zip(each.tolist(), wanted, strict=True)) % whole
        return cls(
            basis, others, asked, others.entries.astype(np.int16), whole, uses, residues, target, contradicts
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
