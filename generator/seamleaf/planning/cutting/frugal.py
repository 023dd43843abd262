"""The search for the shortest strips, and for the proof that none are shorter.

In order: the bound of the linear program over all fillings; plans of just that length, then of the next that may be,
among few handfuls of fillings (``residues.py``). Where that does not find one, there are the bound with whole numbers
of strips; plans of the least lengths from a short list of good fillings; more handfuls; any shorter plan from the short
list, by an integer program. If few lengths are open they are ruled out one after the other by all the handfuls there
may be, the plans parted by their numbers of strips where they are too many; and last come all fillings that a still
shorter plan could use. Each step may end the search, and most fabrics of a quilt need only the first two.
"""

from __future__ import annotations

import bisect
import heapq
import operator
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from seamleaf.planning.cutting.dive import Cut
from seamleaf.planning.cutting.fillings import Near, near_best, simple_ones
from seamleaf.planning.cutting.firstfit import Plan
from seamleaf.planning.cutting.kinds import Kind, area_of
from seamleaf.planning.cutting.master import FINE, Branch, Knapsack, Master, Pool, Prices, SolverError
from seamleaf.planning.cutting.pricing import Filling, Model
from seamleaf.planning.cutting.program import shortest_of
from seamleaf.planning.cutting.residues import Effort, Found, search
from seamleaf.planning.cutting.search import Limits, Search, by_strips
from seamleaf.planning.cutting.strips import Column, strip_of
from seamleaf.planning.cutting.sums import Totals

_MOST_STEPS: Final = 4000
"""A valuation of more steps takes too long: sizes that no ruler shows. First fit has to do for them."""
_STRIP_BRANCHES: Final = 50
_SHORT_LIST: Final = 300
_LONG_LIST: Final = 5_000
_REACHES: Final = (1, 1, 2, 2, 4, 4, 8, 8, 16)
"""How many possible lengths to go on when no plan of one length is found."""
_SHORT_WORK: Final = 200_000
"""Work on the short list, counted as :class:`Limits` does, after which no further length is looked at."""
_QUICK: Final = Limits(work=60_000, settled=8)
_NODES: Final = 1
"""Nodes of the integer program: at the first one most of its plans are found already."""
_PROGRAM_WORK: Final = 1_600
"""What such a program takes, counted as :data:`MOST_WORK` is."""
_THOROUGH: Final = Limits(work=300_000, dives=2, choices=500)
_PART: Final = Limits(work=100_000, dives=2, choices=100)
_PART_BRANCHES: Final = 60
_PART_LISTS: Final = 4
_FEW: Final = Effort(fillings=5_000, listed=100_000, pairs=2_000_000, work=3_000_000)
_TO_BUY: Final = Effort(fillings=2_000, listed=30_000, pairs=300_000, work=1_000_000)
"""Where the length need not be the least: greater lengths have more plans, which are found among fewer."""
_MANY: Final = Effort(fillings=15_000, listed=800_000, pairs=50_000_000, work=25_000_000, wholly=True)
"""Of the least length: a part of so many led to no plan that few had not, in 120 made-up demands."""
_OF_PART: Final = Effort(fillings=8_000, listed=250_000, pairs=2_000_000, work=5_000_000, wholly=True)
_LISTING: Final = 120
"""What listing a filling takes, in handfuls."""
_FEW_WORK: Final = 4_000_000
_MANY_WORK: Final = 12_000_000
"""Handfuls, or what takes as long, after which no further length is looked at."""
_FEW_OPEN: Final = 4
"""Lengths between bound and plan: if more are open, it is of little use to rule one out."""
_TO_RULE_OUT: Final = 5_000_000
"""The same, after which a part is not parted any more."""
_HANDFULS_WORK: Final = 3_000
"""So many of them take one unit of work."""
_RELAXED_WORK: Final = 2
"""What a linear program takes."""
MOST_WORK: Final = 13_000
"""Work after which a search goes no further. A unit takes about as long whatever the step, as measured; what decides is
counted."""
_RECENT: Final = 32
"""Short searches that can be taken up again."""


def shortest_strips(
    kinds: Sequence[Kind],
    usable: int,
    known: Sequence[Plan],
    heights: Sequence[int] = (),
    enough: Callable[[int, int], bool] = operator.eq,
    *,
    thorough: bool = True,
    most: int = MOST_WORK,
) -> tuple[Plan, int, int]:
    """Find the shortest strips for kinds that share them.

    Args:
        kinds: what is wanted.
        usable: the strips' width.
        known: plans to start from, not empty; the answer is never longer than the shortest of them.
        heights: strip heights beside those of the kinds: stacks may fill a strip as high as another patch.
        enough: whether a length, beside a bound, is good enough to end the search.
        thorough: whether to go on after the short list of fillings.
        most: work after which it does not go on, counted as :data:`MOST_WORK` is.

    Returns:
        The strips; a length that no plan of strips of these heights, columns and stacks falls below; and the work done
        for it.

    """
    # What a short search has done is taken up again by a thorough one.
    asked = (tuple(kinds), usable, tuple(heights), most)
    hunt = _left_off.pop(asked, None) or _Hunt(Model(kinds, usable, heights), known, enough)
    hunt.most = most
    for step in _THOROUGH_STEPS if thorough else _SHORT_STEPS:
        is_done = hunt.gave_up or hunt.bound >= hunt.length or enough(hunt.length, hunt.bound)
        if is_done or (hunt.done and hunt.work >= most):
            break
        if step in hunt.done or (hunt.found_near and step in _WITHOUT_NEAR):
            continue
        try:
            step(hunt)
        except SolverError:
            hunt.gave_up = True
        hunt.done.append(step)
    if not thorough and enough is operator.eq:
        _left_off[asked] = hunt
        if len(_left_off) > _RECENT:
            _left_off.popitem(last=False)
    strips = [(strip_of(one.columns, hunt.model.heights[one.level]), times) for one, times in hunt.cut]
    return strips, min(hunt.bound, hunt.length), hunt.work


@dataclass(frozen=True, slots=True, eq=False, order=False)
class _Part:
    """A branch with its bound and prices."""

    bound: int
    branch: Branch
    prices: Prices
    parts: list[Branch]
    """The branches into which it parts by strips."""
    near: Near


class _Hunt:
    """One search; ``cut``, ``length`` and ``bound`` are the best known at any time."""

    def __init__(self, model: Model, known: Sequence[Plan], enough: Callable[[int, int], bool] = operator.eq) -> None:
        self.model = model
        self._enough = enough
        cuts = [[(self._filling(strip.height, strip.columns), times) for strip, times in plan] for plan in known]
        self.cut: Cut = min(cuts, key=self._length)
        self.length = self._length(self.cut)
        least = [min(lay.h for at, lay in model.lays if at == kind) for kind in range(len(model.kinds))]
        self._totals = Totals(model.heights, self.length, tall=max(least))
        self.bound = self._totals.least_from(-(-area_of(model.kinds) // model.usable))
        self._all = Knapsack(model, [filling for cut in cuts for filling, _ in cut])
        self._parts: list[tuple[int, int, _Part]] = []
        self._count = 0
        self._masters: list[Master | Search] = []
        self._programs = 0
        self._handfuls = 0
        self.found_near = False
        """Whether a plan was found among handfuls: one not much longer than the bound."""
        self.done: list[Callable[[_Hunt], None]] = []
        """Steps of the search."""
        self.gave_up = False
        self.most = MOST_WORK
        """Work that the search may come to."""

    @property
    def work(self) -> int:
        """Work done so far."""
        others = self._programs * _PROGRAM_WORK + self._handfuls // _HANDFULS_WORK
        return _RELAXED_WORK * sum(each.solved for each in self._masters) + others

    def _filling(self, height: int, columns: Sequence[Column]) -> Filling:
        return self.model.filling(self.model.heights.index(height), columns)

    def _length(self, cut: Cut) -> int:
        return sum(self.model.heights[filling.level] * times for filling, times in cut)

    def _keep(self, cut: Cut, length: int) -> None:
        if length < self.length:
            self.cut, self.length = cut, length

    @property
    def _highest(self) -> int:
        """The greatest length that would still be shorter."""
        return self._totals.greatest_below(self.length)

    def _place(self, length: int) -> int:
        """Return how many lengths there may be that are shorter."""
        return bisect.bisect_left(self._totals.all, length)

    def _as_good_as(self, target: int) -> int:
        """Return the greatest length that is good enough where the bound is a target, and still shorter."""
        shorter, first = self._place(self.length), self._place(target)
        none = bisect.bisect_left(
            range(first, shorter), True, key=lambda at: not self._enough(self._totals.all[at], target)
        )
        return max(self._totals.all[first + none - 1], target)

    def by_linear_program(self) -> None:
        """Bound the length by fractions of strips."""
        if self.model.size > _MOST_STEPS:
            raise SolverError
        self._master = Master(self.model, self._all, range(len(self._all.fillings)))
        self._masters.append(self._master)
        levels = len(self.model.heights)
        most = np.array([self.length // height for height in self.model.heights], dtype=np.int64)
        self._root = Branch(np.zeros(levels, dtype=np.int64), most)
        self._open(0, self._root)
        if self._parts:
            self._whole = self._parts[0][2]
        self.bound = max(self.bound, self._least_open())

    def _open(self, bound: int, branch: Branch) -> None:
        """Take a branch among the parts of the search, unless it can hold no shorter plan."""
        relaxed = self._master.solve(branch, 0, self._highest)
        if relaxed is None:
            return
        bound = max(bound, self._totals.least_from(-(-relaxed.prices.bound // FINE)))
        if bound < self.length:
            self._count += 1
            parts = [] if relaxed.short else by_strips(branch, relaxed)
            near = Near(self.model, relaxed.prices.worth, relaxed.prices.costs, FINE)
            part = _Part(bound, branch, relaxed.prices, parts, near)
            heapq.heappush(self._parts, (bound, -self._count, part))

    def _least_open(self) -> int:
        return min(self._parts[0][0], self.length) if self._parts else self.length

    def by_few_handfuls(self) -> None:
        """Look for a plan of the least length that may be, then of the next ones, for a short while."""
        self._among_handfuls(_FEW if self._enough is operator.eq else _TO_BUY, min(_FEW_WORK, self._left))

    def by_many_handfuls(self) -> None:
        """Do the same for longer, if the handfuls for the least length can all be listed."""
        self._among_handfuls(_MANY, min(_MANY_WORK, self._left))

    def _among_handfuls(self, effort: Effort, most: int) -> None:
        target, proven, last = self.bound, True, self._handfuls + most
        reaches = iter(_REACHES)
        while target < self.length:
            target = self._as_good_as(target)
            found = self._of(self._whole, target, effort)
            if found.cut is not None:
                self._keep(found.cut, self._length(found.cut))
                self.found_near = True
                return
            proven = proven and found.complete
            if effort.wholly and not proven:
                return
            effort = replace(effort, wholly=False)  # greater lengths have more plans
            far = 1 if proven else next(reaches, 0)
            if self._handfuls >= last or not far:
                return
            for _ in range(far):
                target = self._totals.least_from(target + 1)
            if proven:
                self.bound = min(target, self.length)

    @property
    def _left(self) -> int:
        """Handfuls that may still be looked at."""
        return max(self.most - self.work, 0) * _HANDFULS_WORK

    def _of(self, part: _Part, target: int, effort: Effort) -> Found:
        """Search the handfuls of a part; where its fillings are too many, those of the cheaper ones, or none."""
        gap = target * FINE - part.prices.bound
        before = part.near.work
        near, some = part.near.up_to(gap, effort.fillings, wholly=effort.wholly)
        self._handfuls += (part.near.work - before) * _LISTING
        found = Found(None, complete=False)
        if (some == gap or not effort.wholly) and self._left:
            within = replace(effort, work=min(effort.work, self._left))
            found = search(self.model, part.branch, part.prices, near, target, within)
        self._handfuls += found.work
        return Found(found.cut, found.complete and some == gap)

    def by_ruling_out(self) -> None:
        """Rule out one length after the other; where that is not done at once, part the plans by numbers of strips."""
        if self._place(self.length) - self._place(self.bound) > _FEW_OPEN:
            return
        last = self._handfuls + min(_TO_RULE_OUT, self._left)
        while self.bound < self.length and self._none_of(self.bound, last):
            self.bound = min(self._totals.least_from(self.bound + 1), self.length)

    def _none_of(self, target: int, last: int) -> bool:
        """Tell whether it is proven that no plan is as short as that; keep one that is found."""
        done: list[tuple[int, int, _Part]] = []
        proven = True
        while proven and self._parts and self._parts[0][0] <= target:
            bound, order, part = heapq.heappop(self._parts)
            found = self._of(part, target, _OF_PART)
            if found.cut is not None:
                self._keep(found.cut, self._length(found.cut))
                self.found_near = True
            if found.complete and found.cut is None:
                done.append((target + 1, order, part))
            elif found.cut is None and part.parts and self._handfuls < last:
                for branch in part.parts:
                    self._open(bound, branch)
            else:
                done.append((bound, order, part))
                proven = False
        for one in done:
            heapq.heappush(self._parts, one)
        return proven

    def by_whole_strips(self) -> None:
        """Bound the length by whole strips of fractional fillings."""
        for _ in range(_STRIP_BRANCHES):
            if not self._parts or not self._parts[0][2].parts:
                break
            bound, _, part = heapq.heappop(self._parts)
            for branch in part.parts:
                self._open(bound, branch)
        self.bound = max(self.bound, self._least_open())

    def by_short_list(self) -> None:
        """Look for plans of the least length that may be, then of greater ones, in a short list of fillings."""
        worth, costs, proven = self._whole.prices.worth, self._whole.prices.costs, self._whole.prices.bound
        gap = self._highest * FINE - proven
        near, reach = _up_to(gap, lambda some: near_best(self.model, worth, costs, some, _SHORT_LIST))
        simple, _ = _up_to(gap, lambda some: simple_ones(self.model, worth, costs, some, _SHORT_LIST))
        self._short = self._with_own([*near, *simple])
        search = self._search(self._short)
        target = self.bound
        for far in _REACHES:
            if target >= self.length or search.work >= _SHORT_WORK:
                return
            first, target = target, self._as_good_as(target)
            found = search.run(self._root, first, target, _QUICK)
            if found.cut is not None:
                self._keep(found.cut, found.length)
                return
            if found.bound > target and first == self.bound and target * FINE - proven <= reach:
                self.bound = self._totals.least_from(target + 1)  # the list held all that such a plan can use
            for _ in range(far):
                target = self._totals.least_from(target + 1)

    def by_program(self) -> None:
        """Look for any shorter plan in that list, if it may still be worked for so long."""
        if self.work + _PROGRAM_WORK > self.most:
            return
        self._programs += 1
        found = shortest_of(self.model, self._short, self.bound, _NODES)
        if found is not None:
            self._keep(found, self._length(found))

    def _with_own(self, fillings: Sequence[Filling]) -> list[Filling]:
        """Return the fillings and those that the linear program and the best plan have used, each once."""
        own = [self.model.useful(filling) for filling in [*self._all.fillings, *(one for one, _ in self.cut)]]
        return list({(filling.level, filling.counts): filling for filling in [*fillings, *own]}.values())

    def _search(self, fillings: Sequence[Filling]) -> Search:
        """Return a search over the fillings, which starts from those that the linear program has used."""
        used = {(one.level, one.counts) for one in map(self.model.useful, self._all.fillings)}
        start = [at for at, one in enumerate(fillings) if (one.level, one.counts) in used]
        search = Search(self.model, self._totals, Pool(fillings, len(self.model.kinds)), start)
        self._masters.append(search)
        return search

    def by_all_fillings(self) -> None:
        """Search all fillings that a shorter plan can use, if they are not too many."""
        bound = self._settled(self._root, self._whole.prices, _LONG_LIST, _THOROUGH)
        if bound is not None:  # below the length it proves nothing yet: the parts stay open for the next step
            self.bound = max(self.bound, bound)

    def _settled(self, branch: Branch, prices: Prices, most: int, limits: Limits) -> int | None:
        """Search all fillings that a shorter plan of a branch can use; return its bound, ``None`` if too many."""
        highest = self._highest
        near = near_best(self.model, prices.worth, prices.costs, highest * FINE - prices.bound, most)
        if near is None:
            return None
        if not near:
            return self.length
        found = self._search(self._with_own(near)).run(branch, 0, highest, limits)
        if found.cut is not None:
            self._keep(found.cut, found.length)
        return min(found.bound, self.length)

    def by_parts(self) -> None:
        """Do the same for one part of the plans after the other: the better the bound, the fewer the fillings."""
        given_up: list[int] = []
        worth_listing = (self._highest * FINE - self._whole.prices.bound) * 4 // 5
        opened = lists = 0
        while self._parts and self._parts[0][0] < self.length:
            if opened >= _PART_BRANCHES or lists >= _PART_LISTS:
                break
            _, _, part = heapq.heappop(self._parts)
            gap = self._highest * FINE - part.prices.bound
            bound = None
            if gap <= worth_listing:
                bound = self._settled(part.branch, part.prices, _LONG_LIST, _PART)
                lists += 1
                if bound is None:
                    worth_listing = max(gap * 3 // 4, FINE // 2)
            if bound is not None:
                given_up.append(max(bound, part.bound))
            elif not part.parts:
                given_up.append(part.bound)
            else:
                for branch in part.parts:
                    self._open(part.bound, branch)
                    opened += 1
        self.bound = max(self.bound, min([self._least_open(), *given_up]))


def _up_to(gap: int, make: Callable[[int], list[Filling] | None]) -> tuple[list[Filling], int]:
    """Return what ``make`` lists for the greatest gap, up to ``gap``, for which it does not find too many, and it."""
    made: list[Filling] = []
    held, some = -1, FINE // 2
    while held < gap and (more := make(min(some, gap))) is not None:
        made, held = more, min(some, gap)
        some = some * 3 // 2
    return made, held


_SHORT_STEPS: Final = (_Hunt.by_linear_program, _Hunt.by_few_handfuls, _Hunt.by_whole_strips, _Hunt.by_short_list)
_THOROUGH_STEPS: Final = (
    *_SHORT_STEPS,
    _Hunt.by_many_handfuls, _Hunt.by_program, _Hunt.by_ruling_out, _Hunt.by_all_fillings, _Hunt.by_parts,
)  # fmt: skip
_WITHOUT_NEAR: Final = (*_SHORT_STEPS[2:], _Hunt.by_program, _Hunt.by_all_fillings, _Hunt.by_parts)
"""What is done where handfuls do not find a plan."""
_left_off: OrderedDict[tuple[tuple[Kind, ...], int, tuple[int, ...], int], _Hunt] = OrderedDict()
