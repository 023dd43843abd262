"""The yardage planner: demands of one fabric to strips across its usable width."""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence
from typing import Final

from seamleaf.lengths import Length, Measures
from seamleaf.planning.cutting.firstfit import (
    LAYS,
    Plan,
    plan_by_filling,
    plan_by_label,
    plan_first_fit,
    total_height,
)
from seamleaf.planning.cutting.kinds import Kind, area_of, kinds_of
from seamleaf.planning.cutting.scale import Scale
from seamleaf.planning.cutting.sheets import labelled_strips, strip_sheets
from seamleaf.planning.cutting.strips import Strip, strip_of, without_surplus
from seamleaf.planning.cutting.tidy import effort_of, tidied
from seamleaf.planning.cutting.verify import verify_plan, verify_strips
from seamleaf.planning.demand import CuttingPlan, Demand, MisfitError, PlannedSheet, Search

TIDYING_WORK: Final = 200
"""What it takes to look for strips that are easier to cut, counted as the search's is."""


def plan_yardage(
    demands: Sequence[Demand],
    usable: Length,
    measures: Measures,
    *,
    search: Search = "thorough",
    most: int | None = None,
    same: Callable[[Length, Length], bool] = operator.eq,
    with_sheets: bool = True,
) -> CuttingPlan:
    """Plan the strips of one fabric, ``usable`` wide: the least length of fabric, and of such plans one easy to cut.

    Args:
        demands: the patches.
        usable: the fabric's width.
        measures: of the pattern.
        search: a short one ends earlier: the plan is good, but seldom proven where that is hard. With none, the best
            of first fit has to do.
        most: work after which the search does not go on; its own limit if not given.
        same: whether two lengths come to the same for whoever asks. The search ends when the need and its bound do.
        with_sheets: whether the sheets are wanted; without them the strips are checked as they are, not as cut.

    What is proven holds for strips that are each as high as some patch of the fabric, cut into columns of stacked
    patches. Freer cuts, such as strips of another height, may take less; nobody asks a maker for them.

    Raises:
        MisfitError: a patch is wider than the fabric, however it may lie.

    """
    asked = [demand for demand in demands if demand.count > 0]
    for demand in asked:
        if demand.w > usable and not (demand.may_turn and demand.h <= usable):
            raise MisfitError(demand.label, demand.w, demand.h, "too large")
    scale = Scale.of([usable, *(side for demand in asked for side in (demand.w, demand.h))])
    width = scale.whole(usable)
    kinds = kinds_of(asked, scale)
    whole = _whole_strips(kinds, width)
    taken = {strip.columns[0][0].kind for strip, _ in whole}
    heights = sorted({lay.h for kind in kinds for lay in kind.lays if lay.w <= width})
    shared = [kind for kind in kinds if kind.index not in taken]
    beside = total_height(whole)

    def enough(length: int, bound: int) -> bool:
        return bound >= length or same(scale.length(length + beside), scale.length(bound + beside))

    exact = same is operator.eq
    strips, bound, work = _plan_shared(shared, width, heights, operator.eq if exact else enough, search, most)
    bound += beside
    ways = [strips]
    if search in ("tidied", "thorough"):
        ways.append(tidied(strips, shared, width, {strip.height for strip, _ in whole}))
        work += TIDYING_WORK if len(strips) > 1 else 0
    single = min(
        (_single(whole + way, kinds, heights) for way in ways), key=lambda each: (_length(each), effort_of(each))
    )
    sheets: tuple[PlannedSheet, ...] = ()
    if with_sheets:
        first = {demand.label for demand in asked if demand.first}
        sheets = strip_sheets(labelled_strips(single, kinds, first), width, scale, measures)
    plan = CuttingPlan(
        sheets=sheets,
        need=scale.length(_length(single)),
        bound=scale.length(bound),
        tightest=min((scale.length(one.slack(width)) for one in single if not _is_whole(one, width)), default=None),
        work=work,
    )
    if with_sheets:
        verify_plan(plan, asked, usable)
    else:
        verify_strips(single, {kind.index: kind.count for kind in kinds}, width)
    return plan


def _single(plan: Plan, kinds: Sequence[Kind], heights: Sequence[int]) -> list[Strip]:
    """Return the strips one by one, the tallest first, without patches that nobody asked for."""
    return without_surplus(_tall_first(plan), {kind.index: kind.count for kind in kinds}, heights)


def _length(strips: Sequence[Strip]) -> int:
    return sum(strip.height for strip in strips)


def _whole_strips(kinds: Sequence[Kind], usable: int) -> Plan:
    """Return strips for the kinds that can only lie across the whole fabric: nothing finds room beside them.

    A patch that may also lie upright is left to the search: it may fill the rest of a taller strip.
    """
    plan: Plan = []
    for kind in kinds:
        lays = [lay for lay in kind.lays if lay.w <= usable]
        if lays and all(lay.w == usable for lay in lays):
            plan.append((strip_of([(lays[0],)]), kind.count))
    return plan


def _is_whole(strip: Strip, usable: int) -> bool:
    return len(strip.columns) == 1 and strip.width == usable


def _plan_shared(
    kinds: Sequence[Kind],
    usable: int,
    heights: Sequence[int],
    enough: Callable[[int, int], bool],
    search: Search,
    most: int | None,
) -> tuple[Plan, int, int]:
    """Return strips for kinds that may share them, a lower bound of their height, and the work that they took."""
    if not kinds:
        return [], 0, 0
    plans = [make(kinds, usable, lay) for lay in LAYS for make in (plan_by_label, plan_first_fit, plan_by_filling)]
    best = min(plans, key=total_height)
    bound = max(-(-area_of(kinds) // usable), *(_least_height(kind, usable) for kind in kinds))
    if search == "none" or bound >= total_height(best) or enough(total_height(best), bound):
        return best, bound, 0
    from seamleaf.planning.cutting import frugal  # here: it brings a solver, and few plans get so far

    most = frugal.MOST_WORK if most is None else most
    return frugal.shortest_strips(kinds, usable, plans, heights, enough, thorough=search == "thorough", most=most)


def _tall_first(plan: Plan) -> Plan:
    return sorted(plan, key=lambda item: -item[0].height)


def _least_height(kind: Kind, usable: int) -> int:
    """Return the height of the lowest strip that can hold the kind at all."""
    return min(lay.h for lay in kind.lays if lay.w <= usable)
