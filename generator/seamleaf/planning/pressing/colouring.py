"""Signed colouring: give every seam class a fold so that the fewest match points clash.

A fold is the pair of directions at a seam's two ends: (1, 1) or (-1, -1) to one side, (0, 0) open, and (-1, 1) or
(1, -1) for a seam that is spun round its only match point. Each match point asks two ends to be equal or opposite.

Costs are lexicographic: clashes, then open seams, then spun ones, then each list of wishes in turn, then classes that
are not folded like those they resemble. Components are solved exactly by depth-first search with the cost so far as
bound; one that can satisfy every point is found almost without branching.
A component that the search does not finish is solved by elimination, seam by seam, as long as few seams hang together
at any one place, and else by an integer program. Where none finds a plan, because so many spun seams cross each other,
the search begins anew with none that is spun: such a plan has no dead ends.
"""

from __future__ import annotations

import operator
from collections import defaultdict
from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import Final, Generic, TypeVar

from seamleaf.planning.pressing.elimination import Beside, cheapest
from seamleaf.planning.pressing.program import Fold, Pair, Program, solve

Key = TypeVar("Key", bound=Hashable)
BACK: Final[Fold] = (-1, -1)
FORTH: Final[Fold] = (1, 1)
OPEN: Final[Fold] = (0, 0)
SPUN: Final[tuple[Fold, Fold]] = ((-1, 1), (1, -1))

WORK_LIMIT: Final = 1_000
"""Search nodes a component before it is solved otherwise; no limit is on time, so the plan is always the same."""
TABLES_LIMIT: Final = 2_000_000
"""Entries of the tables of a component before the integer program is asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand(Generic[Key]):
    """``weight`` match points ask that direction(one) = sign * direction(other), at the given ends; open satisfies."""

    one: Key
    other: Key
    sign: int
    weight: int = 1
    one_end: int = 0
    other_end: int = 0

    def clashes(self, one: Fold, other: Fold) -> bool:
        """Whether the two folds disagree."""
        return one[self.one_end] * other[self.other_end] == -self.sign


@dataclass(frozen=True, slots=True, kw_only=True)
class Link(Generic[Key]):
    """What a spun seam asks of a seam that it crosses: direction(crossed) = sign * direction(spun at end 1)."""

    spun: Key
    crossed: Key
    crossed_end: int
    sign: int

    def breaks(self, spun: Fold, crossed: Fold) -> bool:
        """Whether the spin cannot be made so."""
        return spun[0] != spun[1] and crossed[self.crossed_end] != self.sign * spun[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question(Generic[Key]):
    """A colouring to find."""

    keys: Sequence[Key]
    """Every seam class, in an order that decides ties."""
    demands: Sequence[Demand[Key]]
    fixed: Mapping[Key, Fold]
    wishes: Sequence[Mapping[Key, int]] = ()
    """Directions that would be preferred, +1 or -1, what matters more first; none ever costs a clash."""
    links: Sequence[Link[Key]] = ()
    """A class may be spun if it has links."""
    may_open: Collection[Key] = ()
    alike: Sequence[tuple[Key, Key]] = ()
    """Classes that had better be folded alike, as in blocks A and B; what counts last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Colouring(Generic[Key]):
    """The folds, how many match points clash under them, and whether none can do better."""

    fold: dict[Key, Fold]
    clashes: int
    proven: bool

    def count(self, kind: Collection[Fold]) -> int:
        """Count the classes that are folded in one of the ways."""
        return sum(fold in kind for fold in self.fold.values())


def colour(question: Question[Key]) -> Colouring[Key]:
    """Choose a fold for each key, by the costs in their order."""
    search = _Search(question)
    clashes = sum(
        demand.weight
        for demand in question.demands
        if demand.one in question.fixed
        and demand.other in question.fixed
        and demand.clashes(question.fixed[demand.one], question.fixed[demand.other])
    )
    fold = dict(question.fixed)
    proven = True
    for key in question.keys:
        if key not in fold:
            found, cost, exact = search.component(key)
            fold.update(found)
            clashes += cost
            proven = proven and exact
    return Colouring(fold=fold, clashes=clashes, proven=proven)


@dataclass(frozen=True, slots=True)
class _Step:
    """The choice of one key's fold after those of the keys before it."""

    folds: Sequence[Fold]
    alone: Sequence[int]
    """What each of them costs by itself and beside the fixed keys."""
    beside: Sequence[tuple[int, Mapping[Fold, Sequence[int]]]]
    """By the place of an earlier key, and by its fold: what each of them costs beside it."""

    def costs(self, chosen: Sequence[Fold]) -> Sequence[int]:
        """Return what each of the folds adds to those chosen before."""
        costs = self.alone
        for at, table in self.beside:
            costs = list(map(operator.add, costs, table[chosen[at]]))
        return costs


@dataclass(slots=True)
class _Search(Generic[Key]):
    question: Question[Key]
    order: dict[Key, int] = field(default_factory=dict)
    demands: dict[Key, list[Demand[Key]]] = field(default_factory=lambda: defaultdict(list))
    points: dict[Key, dict[Key, list[tuple[int, int, int, int]]]] = field(default_factory=dict)
    """Demands as a key meets another: the ends of both, the product that clashes, and what that costs."""
    own: dict[Key, list[tuple[Fold, int]]] = field(default_factory=dict)
    """The folds that a key may take, and what each costs by itself."""
    links: dict[Key, list[Link[Key]]] = field(default_factory=lambda: defaultdict(list))
    alike: dict[Key, list[Key]] = field(default_factory=lambda: defaultdict(list))
    wish_weights: tuple[int, ...] = ()
    spun_weight: int = 0
    open_weight: int = 0
    clash_weight: int = 0
    barred: int = 0
    """More than any plan costs."""

    def __post_init__(self) -> None:
        question = self.question
        self.order = {key: index for index, key in enumerate(question.keys)}
        for demand in question.demands:
            for key in {demand.one, demand.other}:
                self.demands[key].append(demand)
        for link in question.links:
            for key in {link.spun, link.crossed}:
                self.links[key].append(link)
        for one, other in question.alike:
            self.alike[one].append(other)
            self.alike[other].append(one)
        # Each weight outweighs everything that is lighter, over all keys.
        weight = len(question.alike) + 1
        weights: list[int] = []
        for _ in range(len(question.wishes) + 3):
            weights.append(weight)
            weight *= len(question.keys) + 1
        *wishes, self.spun_weight, self.open_weight, self.clash_weight = weights
        self.wish_weights = tuple(reversed(wishes))
        self.barred = self.clash_weight * (sum(demand.weight for demand in question.demands) + 1)
        self.points = {key: defaultdict(list) for key in question.keys}
        for demand in question.demands:
            cost = demand.weight * self.clash_weight
            ends = demand.one_end, demand.other_end
            self.points[demand.one][demand.other].append((*ends, -demand.sign, cost))
            if demand.one != demand.other:
                self.points[demand.other][demand.one].append((*ends[::-1], -demand.sign, cost))
        for key in question.keys:
            self.own[key] = [(fold, self._alone(key, fold)) for fold in self._folds(key)]

    def component(self, start: Key) -> tuple[dict[Key, Fold], int, bool]:
        """Return the best folds of all that hangs together with a key, their clashes, and whether the search ended."""
        keys = self._connected(start)
        best, best_cost, proven = self._search(keys, self.own)
        if not proven and (exact := self._eliminated(keys)) is not None:
            best, best_cost, proven = exact, self._total(exact), True
        if not proven:
            better = solve(self._program(keys))
            if better is not None:
                folds = dict(zip(keys, better[0], strict=False))  # those of the fixed keys round it come after
                total = self._total(folds)
                if total is not None and (best_cost is None or total <= best_cost):
                    best, best_cost, proven = folds, total, better[1]
        if best_cost is None:
            plain = {key: [(fold, own) for fold, own in self.own[key] if fold not in SPUN] for key in keys}
            best, best_cost, proven = *self._search(keys, plain)[:2], False
        return best, (best_cost or 0) // self.clash_weight, proven

    def _search(
        self, keys: list[Key], own: Mapping[Key, list[tuple[Fold, int]]]
    ) -> tuple[dict[Key, Fold], int | None, bool]:
        """Return the best folds that so many nodes show, what they cost, and whether none is better."""
        steps = self._steps(keys, own)
        chosen = [OPEN] * len(keys)
        """The folds so far, as deep as the search is."""
        best: dict[Key, Fold] = {}
        best_cost: int | None = None
        stack = [(cost, 0, fold) for cost, fold in self._options(steps[0], chosen)]
        for _ in range(max(WORK_LIMIT, len(keys))):
            if not stack:
                break
            cost, depth, fold = stack.pop()
            if best_cost is not None and cost >= best_cost:
                continue
            chosen[depth] = fold
            if depth + 1 == len(keys):
                best, best_cost = dict(zip(keys, chosen, strict=True)), cost
            else:
                options = self._options(steps[depth + 1], chosen)
                stack += [(cost + more, depth + 1, each) for more, each in options]
        return best, best_cost, not stack

    def _eliminated(self, keys: Sequence[Key]) -> dict[Key, Fold] | None:
        """Return the best folds, even where a spin in them cannot be made; ``None`` if it would take too long."""
        steps = self._steps(keys, self.own)
        pairs = [
            Beside(one=earlier, other=at, costs=[table[there] for there in steps[earlier].folds])
            for at, step in enumerate(steps)
            for earlier, table in step.beside
        ]
        chosen = cheapest([step.alone for step in steps], pairs, TABLES_LIMIT)
        if chosen is None:
            return None
        return {key: step.folds[at] for key, step, at in zip(keys, steps, chosen, strict=True)}

    def _steps(self, keys: Sequence[Key], own: Mapping[Key, list[tuple[Fold, int]]]) -> list[_Step]:
        """Prepare the choice of each key's fold after those of the keys before it."""
        places = {key: at for at, key in enumerate(keys)}
        steps: list[_Step] = []
        for at, key in enumerate(keys):
            folds = [fold for fold, _ in own[key]]
            alone = [cost + self._between(key, fold, key, fold) for fold, cost in own[key]]
            beside: list[tuple[int, dict[Fold, list[int]]]] = []
            links = (end for link in self.links[key] for end in (link.spun, link.crossed))
            for other in dict.fromkeys((*self.points[key], *links, *self.alike[key])):
                if other in self.question.fixed:
                    there = self.question.fixed[other]
                    alone = [
                        cost + self._between(key, fold, other, there) for fold, cost in zip(folds, alone, strict=True)
                    ]
                elif places.get(other, at) < at:
                    table = {
                        there: [self._between(key, fold, other, there) for fold in folds] for there, _ in own[other]
                    }
                    beside.append((places[other], table))
            steps.append(_Step(folds, alone, beside))
        return steps

    def _between(self, key: Key, fold: Fold, other: Key, there: Fold) -> int:
        """Return what two folds cost beside each other, or for one key what it costs beside itself."""
        points = self.points[key].get(other, ())
        cost = sum(weight for end, far, clashing, weight in points if fold[end] * there[far] == clashing)
        cost += self.alike[key].count(other) * (there != fold)
        for link in self.links[key]:
            if {link.spun, link.crossed} == {key, other}:
                ends = (fold, there) if link.spun == key else (there, fold)
                cost += self.barred * link.breaks(*ends)
        return cost

    def _options(self, step: _Step, chosen: Sequence[Fold]) -> list[tuple[int, Fold]]:
        """Return what each fold of a key adds to the cost, the cheapest last, where the stack pops it."""
        options = [each for each in zip(step.costs(chosen), step.folds, strict=True) if each[0] < self.barred]
        return sorted(options, key=lambda option: (-option[0], option[1]))

    def _connected(self, start: Key) -> list[Key]:
        """Return the free keys that hang together with ``start``, breadth first, so that each is bound."""
        seen, queue = {start}, [start]
        for key in queue:
            near = {each for demand in self.demands[key] for each in (demand.one, demand.other)}
            near |= {each for link in self.links[key] for each in (link.spun, link.crossed)} | set(self.alike[key])
            for other in sorted(near, key=self.order.__getitem__):
                if other not in seen and other not in self.question.fixed:
                    seen.add(other)
                    queue.append(other)
        return queue

    def _total(self, folds: Mapping[Key, Fold]) -> int | None:
        """Count what a plan costs; ``None`` if a spin in it cannot be made."""
        own = {key: [(fold, self._alone(key, fold))] for key, fold in folds.items()}
        chosen = list(folds.values())
        total = sum(step.costs(chosen)[0] for step in self._steps(list(folds), own))
        return total if total < self.barred else None

    def _folds(self, key: Key) -> list[Fold]:
        """Return the folds that a key may take."""
        if key in self.question.fixed:
            return [self.question.fixed[key]]
        folds: list[Fold] = [BACK, FORTH]
        if any(link.spun == key for link in self.links[key]):
            folds += SPUN
        if key in self.question.may_open:
            folds.append(OPEN)
        return folds

    def _program(self, keys: list[Key]) -> Program:
        """Write a component with the fixed keys round it as an integer program.

        Its costs: clashes, open seams, spun ones, one for each list of wishes, classes that are not folded alike.
        """
        here = set(keys)
        near = {end for key in keys for demand in self.demands[key] for end in (demand.one, demand.other)}
        near |= {end for key in keys for link in self.links[key] for end in (link.spun, link.crossed)}
        near |= {twin for key in keys for twin in self.alike[key]}
        order = [*keys, *sorted(near - here, key=self.order.__getitem__)]
        index = {key: at for at, key in enumerate(order)}
        folds = [self._folds(key) for key in order]
        own: list[dict[tuple[int, Fold], int]] = [{} for _ in range(4 + len(self.question.wishes))]
        for at, key in enumerate(order):
            own[1][at, OPEN] = 1
            own[2] |= {(at, fold): 1 for fold in SPUN}
            for cost, wishes in enumerate(self.question.wishes, 3):
                own[cost] |= {(at, fold): 1 for fold in (BACK, FORTH) if wishes.get(key, fold[0]) != fold[0]}
        pairs: list[Pair] = []
        for demand in self.question.demands:
            if demand.one not in here and demand.other not in here:
                continue
            one, other = index[demand.one], index[demand.other]
            if one == other:
                for fold in folds[one]:
                    own[0][one, fold] = own[0].get((one, fold), 0) + demand.weight * demand.clashes(fold, fold)
                continue
            against = frozenset(pair for pair in product(folds[one], folds[other]) if demand.clashes(*pair))
            pairs.append(Pair(one=one, other=other, against=against, cost=0, weight=demand.weight))
        for link in dict.fromkeys(each for key in keys for each in self.links[key]):
            spun, crossed = index[link.spun], index[link.crossed]
            against = frozenset(pair for pair in product(folds[spun], folds[crossed]) if link.breaks(*pair))
            pairs.append(Pair(one=spun, other=crossed, against=against, cost=-1, weight=0))
        for key in keys:
            for twin in self.alike[key]:
                if index[key] < index[twin]:
                    differ = frozenset((a, b) for a, b in product(folds[index[key]], folds[index[twin]]) if a != b)
                    pairs.append(Pair(one=index[key], other=index[twin], against=differ, cost=len(own) - 1, weight=1))
        return Program(folds=folds, own=own, pairs=pairs)

    def _alone(self, key: Key, fold: Fold) -> int:
        """Return what a fold costs whatever the others are."""
        if fold == OPEN:
            return self.open_weight
        if fold[0] != fold[1]:
            return self.spun_weight
        wishes = zip(self.question.wishes, self.wish_weights, strict=True)
        return sum(weight for wish, weight in wishes if wish.get(key, fold[0]) != fold[0])
