"""Which rows of equal rectangles are sewn as strip sets without being asked for.

A row or column of patches of yardage becomes a strip set if, in every size that has it,

* the quilt takes at least ``LEAST`` of it: fewer are sewn sooner one by one (common practice, no source);
* strips and sub-cuts are fewer than the patches that would be cut and joined; and
* no fabric needs more, to the last eighth of an inch, than without.

Where it takes too long to see that, nothing is chosen. ``method:`` in the pattern overrules it. It is asked over
all sizes at once, since labels mean the same in all. Where the back takes leftovers nothing is chosen, since what is
left decides what the back needs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, Generic, TypeVar

from seamleaf.booklet.material import plan_needs
from seamleaf.booklet.sewn import Pieced, Sewn, copies_of, piece_size, sew_size
from seamleaf.planning.piecing.drafts import copies_in
from seamleaf.reading.part_records import Around, Diamond, FabricUse, Join, Part, Partial, Patch
from seamleaf.reading.pattern import Pattern
from seamleaf.reading.problems import PatternError
from seamleaf.sizing.blocks import walk
from seamleaf.sizing.turning import turned

Size = TypeVar("Size", bound=Pieced)
LEAST: Final = 30
MOST_WORK: Final = 1_500
"""Linear programs for one size, on average, after which the choice is given up."""


@dataclass(frozen=True, slots=True)
class _Kind:
    """One unit, in all four ways that it may lie."""

    joins: frozenset[Part]
    fabrics: frozenset[str]


@dataclass(frozen=True, slots=True)
class Chosen:
    """The pattern with ``method: strips`` wherever it is less work and takes no more fabric."""

    pattern: Pattern
    sewn: dict[str, Sewn] = field(default_factory=dict)
    """Its sizes that were sewn for the choice."""

    def size(self, size_id: str) -> Sewn:
        """Return one size of it, sewn.

        Raises:
            PatternError: what cannot be sewn so.

        """
        return self.sewn.get(size_id) or sew_size(self.pattern, size_id)


_last: Final[list[tuple[Pattern, Chosen]]] = []
"""What was chosen last: the sizes of a pattern are mostly planned one after the other."""


def with_strip_sets(pattern: Pattern) -> Chosen:
    """Choose what is sewn as strip sets; of the very pattern that was asked of last the choice is known."""
    for known, chosen in _last:
        if known is pattern:
            return chosen
    chosen = _choose(pattern)
    _last[:] = [(pattern, chosen)]
    return chosen


def _choose(pattern: Pattern) -> Chosen:
    if pattern.backing.insert:
        return Chosen(_rewritten(pattern, []))
    try:
        kinds = _often_used(pattern, _kinds(pattern))
        alike = _Tries(pattern, piece_size)
        for thorough in (False, True):  # most are sorted out by the shorter search
            kinds = _frugal(alike, kinds, thorough=thorough)
        if not kinds:
            return Chosen(_rewritten(pattern, []))
        pressed = _Tries(pattern, sew_size)
        if any(draft.variant for size in pressed.made(kinds).values() for draft in size.pressing.drafts.values()):
            kinds = _frugal(pressed, kinds, thorough=True)  # A and B blocks have batches of their own
        return Chosen(_rewritten(pattern, kinds), pressed.made(kinds))
    except PatternError:  # whatever it is, the plan of the pattern as it is tells it
        return Chosen(_rewritten(pattern, []))


def _kinds(pattern: Pattern) -> list[_Kind]:
    """Return every row or column that could be a strip set."""
    joins: list[Join] = []
    for block in pattern.blocks.values():
        walk(block.part, lambda part: joins.append(part) if isinstance(part, Join) and not part.method else None)
    kinds: dict[_Kind, None] = {}
    for join in joins:
        patches = [part for part in join.parts if isinstance(part, Patch)]
        fabrics = {patch.use.fabric for patch in patches}
        plain = all(pattern.fabrics[each].is_yardage and not pattern.fabrics[each].directional for each in fabrics)
        if plain and len(patches) == len(join.parts) > 1:
            ways = frozenset(turned(join, turn) for turn in (0, 90, 180, 270))
            kinds[_Kind(ways, frozenset(fabrics))] = None
    return list(kinds)


def _often_used(pattern: Pattern, kinds: list[_Kind]) -> list[_Kind]:
    """Leave out what some size takes a few of, and what no size takes any of."""
    used: set[_Kind] = set()
    for size_id in pattern.sizes if kinds else ():
        bench, blocks = copies_of(pattern, size_id)
        total: Counter[str] = Counter()
        for block, copies in blocks.items():
            for unit, inside in copies_in(block, bench.drafts).items():
                total[unit] += inside * copies
        counts = [sum(total[draft.id] for draft in bench.drafts.values() if draft.tree in kind.joins) for kind in kinds]
        used |= {kind for kind, count in zip(kinds, counts, strict=True) if count}
        kinds = [kind for kind, count in zip(kinds, counts, strict=True) if not 0 < count < LEAST]
    return [kind for kind in kinds if kind in used]


class _Tries(Generic[Size]):
    """The sizes of a pattern, with some of its rows as strip sets; the last such choice is kept, and that of none.

    The longer search mostly asks for the choice with which the shorter one ended.
    """

    def __init__(self, pattern: Pattern, make: Callable[[Pattern, str], Size]) -> None:
        self._pattern = pattern
        self._make = make
        self._plain: dict[str, Size] | None = None
        self._last: tuple[list[_Kind], dict[str, Size]] = [], {}

    def plain(self) -> dict[str, Size]:
        """Return the sizes without strip sets."""
        if self._plain is None:
            self._plain = {size: self._make(self._pattern, size) for size in self._pattern.sizes}
        return self._plain

    def made(self, kinds: list[_Kind]) -> dict[str, Size]:
        """Return the sizes with these kinds as strip sets."""
        if self._last[0] != kinds:
            tried = _rewritten(self._pattern, kinds)
            self._last = kinds, {size: self._make(tried, size) for size in tried.sizes}
        return self._last[1]


def _frugal(tries: _Tries[Size], kinds: list[_Kind], *, thorough: bool) -> list[_Kind]:
    """Leave out what is no less work, or takes more of a fabric, in some size.

    Work is compared first, which takes no cutting plan. Fabric is compared size by size, and no more of what is left
    out already; without ``thorough`` what the shorter search finds is believed.
    """
    left = MOST_WORK * len(tries.plain()) if kinds else 0
    while kinds:
        made = tries.made(kinds)
        good = [kind for kind in kinds if all(_is_less_work(kind, each) for each in made.values())]
        if len(good) == len(kinds):
            for size, each in made.items():
                fabrics = sorted(frozenset[str]().union(*(kind.fabrics for kind in good)))
                dear, left = _dearer(tries.plain()[size], each, fabrics, left, thorough=thorough)
                if left < 0:
                    return []
                good = [kind for kind in good if not kind.fabrics & dear]
        if len(good) == len(kinds):
            break
        kinds = good
    return kinds


def _dearer(plain: Pieced, made: Pieced, fabrics: Sequence[str], left: int, *, thorough: bool) -> tuple[set[str], int]:
    """Return of which fabrics a size takes more with strip sets, and the work that is left; below 0 not of all.

    The longer search looks at nothing where the bounds of the shorter one decide.
    """
    dear: set[str] = set()
    for search in (False, True) if thorough else (False,):
        without, work = plan_needs(plain, fabrics, thorough=search, most=left)
        left -= work
        if left >= 0:
            with_, work = plan_needs(made, fabrics, thorough=search, most=left)
            left -= work
        if left < 0:
            break
        last = search == thorough
        dear |= {each for each in fabrics if (with_[each].need if last else with_[each].bound) > without[each].need}
        fabrics = [each for each in fabrics if each not in dear and with_[each].need > without[each].bound]
    return dear, left


def _is_less_work(kind: _Kind, size: Pieced) -> bool:
    """Compare strips and sub-cuts with the patches of as many units sewn one by one."""
    strips = patches = 0
    for unit in size.piecing.units:
        tree = size.piecing.drafts[unit.id].tree
        if isinstance(tree, Join) and replace(tree, method=None) in kind.joins:
            strips += unit.batches * (len(unit.from_) + unit.makes + 1)
            patches += unit.count * len(unit.from_)
    return strips < patches or not patches


def _rewritten(pattern: Pattern, kinds: list[_Kind]) -> Pattern:
    """Return the pattern with these sewn as strip sets, and all that is no strip set sewn patch by patch."""
    chosen = frozenset[Part]().union(*(kind.joins for kind in kinds))
    blocks = {id_: replace(block, part=_rewrite(block.part, chosen)) for id_, block in pattern.blocks.items()}
    return replace(pattern, blocks=blocks)


def _rewrite(part: Part, chosen: frozenset[Part]) -> Part:
    match part:
        case Join():
            if part in chosen:
                return replace(part, method="strips")
            method = part.method if part.method == "strips" else None
            return replace(part, parts=tuple(_rewrite(each, chosen) for each in part.parts), method=method)
        case Diamond():
            return part if isinstance(part.centre, FabricUse) else replace(part, centre=_rewrite(part.centre, chosen))
        case Around() | Partial():
            return replace(part, centre=_rewrite(part.centre, chosen))
        case _:
            return part
