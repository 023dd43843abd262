"""The bundle planner: print roles of blocks to the fewest pieces of a bundle.

A role of one block comes from one piece, so that its patches are of one print; a piece may serve several roles
or blocks. Every choice of roles that comes out of one piece is found first, then the fewest pieces, with proof.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import add

from seamleaf.lengths import Measures
from seamleaf.planning.cutting.cover import Choice, fewest_pieces
from seamleaf.planning.cutting.fit import UNKNOWN, Fitter
from seamleaf.planning.cutting.kinds import Kind, kinds_of, size_key
from seamleaf.planning.cutting.scale import Scale
from seamleaf.planning.cutting.sheets import Labels, sheet_of
from seamleaf.planning.cutting.tree import Node, Patch, Slices, only
from seamleaf.planning.cutting.verify import verify_plan
from seamleaf.planning.demand import CuttingPlan, Demand, MisfitError, PlannedSheet, RoleDemand
from seamleaf.planning.records import Box

_FIT_WORK = 100_000
_SHORT_FIT_WORK = 20_000
"""Steps of all searches for what comes out of one piece; the bundles of real quilts take some dozens."""
_CHOICES = 2_000


def plan_bundle(roles: Sequence[RoleDemand], piece: Box, measures: Measures, *, thorough: bool = True) -> CuttingPlan:
    """Plan the fewest pieces, each of usable size ``piece``, that give every block its prints.

    Without ``thorough`` the search is shorter, and kinds of pieces are not saved. Where a search comes to its limit,
    the bound is that of the area, and may be less than the pieces.

    Raises:
        MisfitError: a patch is larger than a piece, or the patches of one role of one block are too many for one.

    """
    asked = [role for role in roles if role.copies > 0 and any(demand.count > 0 for demand in role.demands)]
    demands = [demand for role in asked for demand in role.demands]
    for demand in demands:
        if not _lies_in(demand, piece):
            raise MisfitError(demand.label, demand.w, demand.h, "too large")
    scale = Scale.of([piece.w, piece.h, *(side for demand in demands for side in (demand.w, demand.h))])
    size = scale.whole(piece.w), scale.whole(piece.h)
    search = _Search(asked, size, scale, _FIT_WORK if thorough else _SHORT_FIT_WORK)
    choices = search.choices()
    pieces, fewest = fewest_pieces(choices, [role.copies for role in asked], few_kinds=thorough)
    sheets = [search.sheet(choice, times, measures) for choice, times in pieces]
    plan = CuttingPlan(
        sheets=tuple(sheets),
        need=sum(times for _, times in pieces),
        bound=fewest if search.told_all else search.bound(),
        tightest=min((scale.length(search.slack(choice)) for choice, _ in pieces), default=None),
    )
    verify_plan(plan, asked, piece)
    return plan


def _lies_in(demand: Demand, piece: Box) -> bool:
    straight = demand.w <= piece.w and demand.h <= piece.h
    return straight or (demand.may_turn and demand.h <= piece.w and demand.w <= piece.h)


class _Search:
    """What comes out of one piece."""

    def __init__(self, roles: Sequence[RoleDemand], size: tuple[int, int], scale: Scale, work: int) -> None:
        self._roles = roles
        self._size = size
        self._scale = scale
        self._kinds = kinds_of([demand for role in roles for demand in role.demands], scale)
        self._fitter = Fitter(self._kinds, *size, work)
        index = {(kind.w, kind.h, kind.turns): kind.index for kind in self._kinds}
        self._takes = []
        for role in roles:
            take = [0] * len(self._kinds)
            for demand in role.demands:
                if demand.count > 0:
                    take[index[size_key(demand, scale)]] += demand.count
            self._takes.append(tuple(take))
        names = list(dict.fromkeys(role.block for role in roles))
        self._blocks = [names.index(role.block) for role in roles]
        """By role: the number of its block."""
        self._copies = [min(role.copies for role in roles if role.block == name) for name in names]
        self._full: list[Choice] = []
        self.told_all = True
        """Whether every choice was cut or ruled out; otherwise a plan may have fewer pieces than of those that were."""

    def node(self, choice: Choice) -> Node:
        """Return how one of the choices is cut, or what is left of one when nobody needs all of it."""
        counts = self._counts(choice)
        for full in (choice, *self._full):
            whole = self._fitter.fit(self._counts(full))
            if not isinstance(whole, str) and all(n <= most for n, most in zip(choice, full, strict=True)):
                node = None if whole is None else only(whole, dict(enumerate(counts)))
                if node is not None:
                    return node
        raise AssertionError(f"a choice that does not fit was planned: {choice}")

    def _counts(self, choice: Sequence[int]) -> tuple[int, ...]:
        """Return the patches of a choice, by kind."""
        taken = [(n, take) for n, take in zip(choice, self._takes, strict=True) if n]
        return tuple(sum(n * take[kind] for n, take in taken) for kind in range(len(self._kinds)))

    def _fit(self, counts: tuple[int, ...]) -> Node | None:
        found = self._fitter.fit(counts)
        if found == UNKNOWN:
            self.told_all = False
            return None
        return found

    def choices(self) -> list[Choice]:
        """Return the choices that fit and to which nothing can be added."""
        none = (0,) * len(self._roles)
        for at, role in enumerate(self._roles):
            if self._fit(self._counts(_plus(none, at))) is None:
                largest = max(role.demands, key=lambda demand: (demand.w * demand.h).a)
                raise MisfitError(largest.label, largest.w, largest.h, "too many for one piece")
        full: list[Choice] = []
        queue: list[tuple[Choice, int]] = [(none, 0)]
        for choice, start in queue:
            if len(queue) > _CHOICES:
                # Too many to tell them all: full pieces of mostly one role each, and those found so far.
                self.told_all = False
                full += [*(self._filled(at) for at in range(len(self._roles))), *(each for each, _ in queue[1:])]
                break
            more = self._more(choice)
            if not more:
                full.append(choice)
            queue += [(_plus(choice, at), at) for at in more if at >= start]
        self._full = sorted(set(full), reverse=True)
        return self._full

    def _filled(self, first: int) -> Choice:
        """Return a choice with as many copies as fit of one role, and then of the others in turn."""
        choice = [0] * len(self._roles)
        counts, served = self._counts(choice), [0] * len(self._copies)
        for at in sorted(range(len(self._roles)), key=lambda role: role != first):
            while served[self._blocks[at]] < self._copies[self._blocks[at]]:
                more = tuple(map(add, counts, self._takes[at]))
                if self._fit(more) is None:
                    break
                counts = more
                choice[at] += 1
                served[self._blocks[at]] += 1
        return tuple(choice)

    def _more(self, choice: Choice) -> list[int]:
        """Return the roles of which one more fits, without two prints of one block from the same piece."""
        counts, served = self._counts(choice), [0] * len(self._copies)
        for n, block in zip(choice, self._blocks, strict=True):
            served[block] += n
        return [
            at
            for at, (block, take) in enumerate(zip(self._blocks, self._takes, strict=True))
            if served[block] < self._copies[block] and self._fit(tuple(map(add, counts, take))) is not None
        ]

    def bound(self) -> int:
        """Return a lower bound of the pieces by their area."""
        area = sum(
            role.copies * n * kind.w * kind.h
            for role, take in zip(self._roles, self._takes, strict=True)
            for n, kind in zip(take, self._kinds, strict=True)
        )
        return -(-area // (self._size[0] * self._size[1]))

    def sheet(self, choice: Choice, times: int, measures: Measures) -> PlannedSheet:
        """Write down a piece cut for a choice."""
        demands = [
            Demand(label=d.label, w=d.w, h=d.h, count=d.count * n, may_turn=d.may_turn)
            for n, role in zip(choice, self._roles, strict=True)
            for d in role.demands
        ]
        kinds = kinds_of(demands, self._scale)
        labels = Labels(kinds)
        own = {kind.index: mine.index for kind in self._kinds for mine in kinds if _same(kind, mine)}
        node = self.node(choice)
        roles = tuple((role.block, role.role) for n, role in zip(choice, self._roles, strict=True) for _ in range(n))
        return sheet_of(_labelled(node, own, labels), self._size, times, labels.names, self._scale, measures, roles)

    def slack(self, choice: Choice) -> int:
        """Return by how much the piece could be smaller before the choice is lost."""
        node = self.node(choice)
        return min(self._size[0] - node.w, self._size[1] - node.h)


def _same(kind: Kind, other: Kind) -> bool:
    return (kind.w, kind.h, kind.turns) == (other.w, other.h, other.turns)


def _plus(choice: Choice, at: int) -> Choice:
    return (*choice[:at], choice[at] + 1, *choice[at + 1 :])


def _labelled(node: Node, own: dict[int, int], labels: Labels) -> Node:
    if isinstance(node, Patch):
        return labels.name(Patch(own[node.kind], node.w, node.h))
    return Slices(node.axis, tuple(_labelled(one, own, labels) for one in node.nodes))
