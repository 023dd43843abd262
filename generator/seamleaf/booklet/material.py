"""What is bought and cut: one plan a fabric, the patches by label, offcuts, and kits for classes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from seamleaf.booklet.classes import ClassKits, for_kits, kits_for
from seamleaf.booklet.finish import Finish
from seamleaf.booklet.sewn import Pieced, Sewn
from seamleaf.lengths import Length
from seamleaf.planning.demand import CuttingPlan, Search
from seamleaf.planning.fabrics import (
    PIECE_STEP,
    SMALLER_PIECES,
    WIDE,
    WIDTHS,
    YARDAGE_STEP,
    Asked,
    block_roles,
    cut_bundle,
    cut_yardage,
    given,
    left_over,
    metric_purchase,
    purchase,
    short_of,
)
from seamleaf.planning.finish_records import BackingNote, InsertNote
from seamleaf.planning.inserts import Leftover
from seamleaf.planning.labels import PatchKey
from seamleaf.planning.piecing.units import Piecing
from seamleaf.planning.records import Box, FabricNote, Offcut, PatchNote, Sheet, UsableNote
from seamleaf.reading.pattern import Fabric
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing import Quilt

Use = Literal["block", "triangle", "border", "binding", "backing"]
THOROUGH_WORK: Final = 4_000
"""Work on the fabrics of one size after which those that are left are looked at less thoroughly."""
SEARCH_WORK: Final = (13_000, 6_000)
"""Work on one fabric after which its search ends: in a pattern of one size, and in one of several."""
LEAST_WORK: Final = 750
"""The same, where the fabrics before it have taken as much."""
WARNING_WORK: Final = 7_000
"""Work after which fabric of other widths is planned without a search: what is said of it may be too much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """All fabrics of a quilt, planned."""

    fabrics: tuple[FabricNote, ...]
    patches: tuple[PatchNote, ...]
    cutting: tuple[Sheet, ...]
    backing: BackingNote
    offcuts: tuple[Offcut, ...]
    classes: tuple[ClassKits, ...]
    bundles: dict[str, tuple[CuttingPlan, dict[str, list[int]]]]
    """Bundle fabrics: their plan and the print roles of each block."""


def plan_material(sewn: Sewn, *, thorough: bool = True) -> Material:
    """Plan every fabric that the quilt uses; without ``thorough`` by a shorter search, and for its own width alone.

    Raises:
        PatternError: patches that a fabric cannot give, of all fabrics.

    """
    fabrics = sewn.fabrics
    store, plans = _planned(sewn, list(fabrics), thorough=thorough)
    backing = store.finish.panels.note(fabrics[store.finish.panels.fabric].usable[0])
    return Material(
        fabrics=tuple(
            store.note(fabrics[fabric], plan, sewn.labels.letter_of[fabric]) for fabric, plan in plans.items()
        ),
        patches=store.patches(plans),
        cutting=tuple(sheet for fabric, plan in plans.items() for sheet in _sheets(fabric, plan)),
        backing=backing,
        offcuts=_kept([offcut for fabric, plan in plans.items() for offcut in _offcuts(fabric, plan)], backing.insert),
        classes=store.classes(plans),
        bundles={
            fabric: (plan, block_roles(fabric, sewn.piecing.per_block, store.keys))
            for fabric, plan in plans.items()
            if not fabrics[fabric].is_yardage
        },
    )


def bounds_of(sewn: Sewn, wanted: Collection[str]) -> dict[str, Length | int]:
    """Return what the quilt takes of some fabrics at the least, as far as a shorter search proves it.

    Raises:
        PatternError: patches that a fabric cannot give.

    """
    _, plans = _planned(sewn, wanted, thorough=False)
    return {fabric: plan.bound for fabric, plan in plans.items()}


def _planned(sewn: Sewn, wanted: Collection[str], *, thorough: bool) -> tuple[_Store, dict[str, CuttingPlan]]:
    """Plan at least the fabrics wanted, so far as the quilt uses them; all where leftovers of the others go into one.

    Raises:
        PatternError: patches that a fabric cannot give, of all fabrics.

    """
    fabrics, store = sewn.fabrics, _Store.of(sewn, thorough=thorough)
    plans: dict[str, CuttingPlan] = {}
    problems: list[Problem] = []
    back = sewn.finish.panels.fabric
    leftovers = sewn.quilt.pattern.backing.insert and back in wanted
    for fabric in sorted(fabrics.values(), key=lambda each: each.id == back):  # the back last: leftovers may go into it
        if fabric.id == back and leftovers and not problems:
            store = store.with_leftovers(plans)
        try:
            plan = store.plan(fabric) if leftovers or fabric.id in wanted else None
        except PatternError as error:
            problems += error.problems
            continue
        if plan is not None:
            plans[fabric.id] = plan
    if problems:
        raise PatternError(problems)
    return store, {fabric: plans[fabric] for fabric in fabrics if fabric in plans}


@dataclass(frozen=True, slots=True)
class Needed:
    """What a quilt needs of a fabric."""

    need: Length
    bound: Length
    """Proven least; a longer search may find a need down to it."""


def plan_needs(pieced: Pieced, wanted: Sequence[str], *, thorough: bool, most: int) -> tuple[dict[str, Needed], int]:
    """Return what the quilt needs of some yardage, and the work that it took to see; beyond ``most`` not of all.

    Without ``thorough`` the search is shorter, and they may need less.

    Raises:
        PatternError: patches that a fabric cannot give.

    """
    store = _Store.of(pieced, thorough=thorough)
    needs: dict[str, Needed] = {}
    for id_ in wanted:
        if store.spent.total() <= most:
            plan = store.plan(pieced.fabrics[id_])
            need, bound = (plan.need, plan.bound) if plan else (Length(0), Length(0))
            assert isinstance(need, Length)  # noqa: S101 -- as of all yardage
            assert isinstance(bound, Length)  # noqa: S101 -- as of all yardage
            needs[id_] = Needed(need, bound)
    return needs, store.spent.total()


@dataclass(frozen=True, slots=True)
class _Store:
    quilt: Quilt
    fabrics: Mapping[str, Fabric]
    piecing: Piecing
    blocks: Counter[str]
    finish: Finish
    keys: dict[str, PatchKey]
    thorough: bool
    spent: Counter[int] = field(default_factory=Counter)
    """Work on plans so far, by the number of kits that they are for."""

    @classmethod
    def of(cls, it: Pieced, *, thorough: bool) -> _Store:
        return cls(it.quilt, it.fabrics, it.piecing, it.blocks, it.finish, it.labels.keys(), thorough)

    def plan(self, fabric: Fabric, *, kits: int = 1, narrower: Length | None = None) -> CuttingPlan | None:
        """Plan one fabric, for several kits if asked, or for fabric that is narrower; ``None`` when nothing uses it.

        A plan for narrower (or, with less than nothing, wider) fabric is a warning, not what is cut: it is looked for
        less thoroughly, and only until nothing less can be bought. Where much was spent on the plans before, all are
        looked for less.
        """
        measures = self.quilt.pattern.measures
        less = narrower or Length(0)
        spent = self.spent[kits]
        thorough = self.thorough and narrower is None
        search: Search = "short" if narrower is None or spent < WARNING_WORK else "none"
        if thorough:
            search = "thorough" if spent < THOROUGH_WORK else "tidied"
        if fabric.is_yardage:
            usable = fabric.usable[0] - less
            asked = self._asked(fabric, usable, kits)
            if not asked:
                return None
            most = SEARCH_WORK[min(len(self.quilt.pattern.sizes), len(SEARCH_WORK)) - 1]
            if spent >= THOROUGH_WORK:
                most = max(most - spent, LEAST_WORK)
            plan = cut_yardage(fabric, asked, usable, measures, search=search, most=most, to_buy=narrower is not None)
            self.spent[kits] += plan.work
            return plan
        if not any(self.keys[label].fabric == fabric.id for label in self._counts()):
            return None
        piece = Box(w=fabric.usable[0] - less, h=fabric.usable[1] - less)
        copies = Counter({block: count * kits for block, count in self.blocks.items()})
        return cut_bundle(fabric, self.piecing.per_block, copies, self.keys, piece, measures, thorough=thorough)

    def with_leftovers(self, plans: Mapping[str, CuttingPlan]) -> _Store:
        """Return a store whose back may have a strip of what these plans leave: whole pieces first, then the longest.

        The back's own fabric is not among them: what it leaves depends on the back.
        """
        spare: list[Leftover] = []
        rests: list[Leftover] = []
        for id_, plan in plans.items():
            fabric = self.fabrics[id_]
            left = left_over(fabric, plan.need)
            if left:
                long, short = max(fabric.usable), min(fabric.usable)
                spare.append(Leftover(fabric=id_, w=long, h=short, count=left, spare=True))
            rests += [
                Leftover(fabric=id_, w=each.w, h=each.h, count=each.count, spare=False) for each in _offcuts(id_, plan)
            ]
        rests.sort(key=lambda each: each.w, reverse=True)
        panels = replace(self.finish.panels, leftovers=(*spare, *rests))
        usable = self.fabrics[panels.fabric].usable[0]
        asked = panels.asked(usable)
        keys = {**self.keys, panels.label: asked.key} if asked else self.keys
        return replace(self, finish=replace(self.finish, panels=panels), keys=keys)

    def note(self, fabric: Fabric, plan: CuttingPlan, letter: str) -> FabricNote:
        """Return what the booklet says of a fabric."""
        usable = fabric.usable[0] if fabric.is_yardage else Box(w=fabric.usable[0], h=fabric.usable[1])
        needs = self._needs(fabric, plan)
        measures = self.quilt.pattern.measures
        return FabricNote(
            id=fabric.id,
            letter=letter,
            title=fabric.title,
            source=fabric.source_text,
            usable=usable,
            margin=fabric.margin,
            need=plan.need,
            bound=plan.bound,
            buy=purchase(fabric, plan.need, measures),
            least=purchase(fabric, plan.bound, measures),
            also=metric_purchase(fabric, plan.need, measures),
            prints=1 if isinstance(plan.need, Length) else plan.need,
            pack=fabric.pack,
            left=left_over(fabric, plan.need),
            short=short_of(fabric, plan.need),
            pinked=fabric.edge == "pinked",
            directional=fabric.directional,
            colours=fabric.colours,
            tightest=plan.tightest,
            cliff=needs[self._step(fabric)],
            usables=tuple(self._usable(fabric, less, need) for less, need in needs.items()) if self.thorough else (),
        )

    def patches(self, plans: Mapping[str, CuttingPlan]) -> tuple[PatchNote, ...]:
        """Return every label that the quilt uses, in the order of first use."""
        cut: Counter[str] = Counter()
        for plan in plans.values():
            cut += given(plan, self.keys)
        notes: list[PatchNote] = []
        for label, (count, use) in self._counts().items():
            key = self.keys[label]
            per_block = {block: patches[label] for block, patches in self.piecing.per_block.items() if patches[label]}
            notes.append(
                PatchNote(
                    label=label,
                    fabric=key.fabric,
                    print=key.print,
                    w=key.w,
                    h=key.h,
                    shape=key.shape,
                    count=count,
                    spare=cut[label] - count,
                    use=use,
                    per_block=per_block,
                )
            )
        return tuple(notes)

    def classes(self, plans: Mapping[str, CuttingPlan]) -> tuple[ClassKits, ...]:
        """Return the classes that sew this size, each with the cutting for all its kits."""
        found: list[ClassKits] = []
        for plan in self.quilt.pattern.classes.values():
            if plan.size == self.quilt.size.id:
                kits = kits_for(plan.students)
                shared = {fabric: self.plan(self.fabrics[fabric], kits=kits) for fabric in plans}
                whole = {fabric: each for fabric, each in shared.items() if each is not None}
                sheets = tuple(sheet for fabric, each in whole.items() for sheet in _sheets(fabric, each))
                needs = {fabric: each.need for fabric, each in whole.items()}
                found.append(ClassKits(plan=plan, kits=kits, sheets=sheets, needs=needs))
        return tuple(found)

    def _step(self, fabric: Fabric) -> Length:
        """Return by how much less of it a fabric is looked at first."""
        return Length((YARDAGE_STEP if fabric.is_yardage else PIECE_STEP)[self.quilt.pattern.measures.unit])

    def _needs(self, fabric: Fabric, plan: CuttingPlan) -> dict[Length, Length | int | None]:
        """Return the need by how much less there is of the fabric: by a step, and by what makers meet besides.

        That are the usable widths of the trade, from the narrowest on, with that of fabric sold for backs where it is
        all that a fabric is used for; or smaller and smaller pieces until they fail. Without ``thorough``, nothing.
        """
        step, found = self._step(fabric), dict[Length, Length | int | None]()
        if not fabric.is_yardage:
            for times in range(1, SMALLER_PIECES + 1 if self.thorough else 2):
                found[step * times] = self._need(fabric, plan, step * times)
                if found[step * times] is None:
                    break
            return found
        usable, widths = fabric.usable[0], WIDTHS[self.quilt.pattern.measures.unit]
        others = {usable - width for width in widths if self.thorough and usable <= widths[-1]}
        if self.thorough and self._backs_alone(fabric) and usable < WIDE[self.quilt.pattern.measures.unit]:
            others.add(usable - WIDE[self.quilt.pattern.measures.unit])
        least: Length | int | None = None
        for less in sorted({step, Length(0), *others}, reverse=True):
            need = self._need(fabric, plan, less) if less else plan.need
            # What comes out of narrow fabric comes out of wider, so a later search is never believed to need more.
            least = need if least is None or (need is not None and _is_less(need, least)) else least
            found[less] = least
        del found[Length(0)]
        return found

    def _backs_alone(self, fabric: Fabric) -> bool:
        """Tell whether a fabric gives the back and nothing else, and the back is of nothing else."""
        panels = self.finish.panels
        used = {label for label in self._counts() if self.keys[label].fabric == fabric.id}
        return used == {panels.label} and not panels.leftovers

    def _need(self, fabric: Fabric, plan: CuttingPlan, narrower: Length) -> Length | int | None:
        """Return the need of fabric that is narrower; ``None`` when some patch does not come out of it.

        A plan that lies within such fabric is one for it too, and a shorter search is not believed to need more.
        """
        sides = [side - narrower for side in fabric.usable if side]
        if min(sides) <= 0:
            return None
        within = all(
            part.x + part.w <= sides[0] and (fabric.is_yardage or part.y + part.h <= sides[1])
            for sheet in plan.sheets
            for part in sheet.parts
        )
        if within and narrower > 0 and plan.need == plan.bound:
            return plan.need
        try:
            other = self.plan(fabric, narrower=narrower)
        except PatternError:
            return None
        if other is None:
            return None
        return plan.need if within and _is_less(plan.need, other.need) else other.need

    def _usable(self, fabric: Fabric, less: Length, need: Length | int | None) -> UsableNote:
        measures = self.quilt.pattern.measures
        w, h = fabric.usable[0] - less, fabric.usable[1] - less
        return UsableNote(
            usable=w if fabric.is_yardage else Box(w=w, h=h),
            need=need,
            buy=None if need is None else purchase(fabric, need, measures),
            also=None if need is None else metric_purchase(fabric, need, measures),
        )

    def _counts(self) -> dict[str, tuple[int, Use]]:
        """Return how many patches of each label the quilt takes, and for what."""
        counts: Counter[str] = Counter()
        for unit in self.piecing.units:
            for take in unit.from_:
                if take.label and unit.batches:
                    counts[take.label] += unit.batches * take.n
        found: dict[str, tuple[int, Use]] = {
            label: (count, "border" if self.keys[label].own else "block") for label, count in counts.items()
        }
        for triangle in self.finish.triangles:
            found[triangle.label] = (triangle.count, "triangle")
        for strips in self.finish.cut:
            asked = strips.asked(self.fabrics[strips.fabric].usable[0])
            if asked:
                found[strips.label] = (asked.count, strips.use)
        return {label: found[label] for label in self.keys if label in found}

    def _asked(self, fabric: Fabric, usable: Length, kits: int) -> list[Asked]:
        asked = [
            Asked(label=label, key=self.keys[label], count=for_kits(count, self.keys[label].shape, kits))
            for label, (count, use) in self._counts().items()
            if self.keys[label].fabric == fabric.id and (use in ("block", "triangle") or self.keys[label].own)
        ]
        for strips in self.finish.cut:
            if strips.fabric == fabric.id:
                each = strips.asked(usable)
                if each is None:
                    raise PatternError([Problem(fabric.where, "fabric too narrow to join strips of", "wider fabric")])
                asked.append(replace(each, count=each.count * kits))
        return asked


def _sheets(fabric: str, plan: CuttingPlan) -> list[Sheet]:
    sheets: list[Sheet] = []
    cut = 0
    for planned in plan.sheets:
        roles = set(planned.roles)
        first, cut = cut + 1, cut + planned.times
        sheets.append(
            Sheet(
                fabric=fabric,
                sheet=Box(w=planned.w, h=planned.h),
                times=planned.times,
                print=next(iter(roles))[1] if len(roles) == 1 else None,
                mixed=len(roles) > 1,
                parts=planned.parts,
                cuts=planned.cuts,
                gives=dict(Counter(part.label for part in planned.parts)),
                pieces=(first, cut) if roles else None,
            )
        )
    return sheets


def _offcuts(fabric: str, plan: CuttingPlan) -> list[Offcut]:
    """Return the rests of a plan, the largest first, equal ones counted together."""
    total: Counter[tuple[Length, Length]] = Counter()
    for planned in plan.sheets:
        for rest in planned.rests:
            total[max(rest.w, rest.h), min(rest.w, rest.h)] += rest.count * planned.times
    largest_first = sorted(total, key=lambda size: (size[0] * size[1], size[0]), reverse=True)
    return [Offcut(fabric=fabric, w=w, h=h, count=total[w, h]) for w, h in largest_first]


def _is_less(one: Length | int, other: Length | int) -> bool:
    """Compare two needs of one fabric."""
    if isinstance(one, Length):
        return isinstance(other, Length) and one < other
    return isinstance(other, int) and one < other


def _kept(offcuts: list[Offcut], insert: InsertNote | None) -> tuple[Offcut, ...]:
    """Return the rests that are left when the strip in the back has taken some: none is promised twice."""
    taken = Counter(
        {(each.fabric, each.w, each.h): each.count for each in insert.pieces if not each.spare} if insert else {}
    )
    left = [(each, each.count - taken[each.fabric, each.w, each.h]) for each in offcuts]
    return tuple(replace(each, count=count) for each, count in left if count)
