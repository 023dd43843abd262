"""Among plans of one length: few strip widths, then few settings of the ruler (a choice of ours, no source)."""

from __future__ import annotations

from hypothesis import given, settings

from effort import tries
from seamleaf.lengths import INCHES, Length
from seamleaf.planning.cutting import plan_yardage
from seamleaf.planning.cutting.firstfit import Plan, plan_by_filling, plan_by_label, total_height
from seamleaf.planning.cutting.firstfit import lay_as_asked as as_asked
from seamleaf.planning.cutting.kinds import Kind
from seamleaf.planning.cutting.strips import strip_of
from seamleaf.planning.cutting.tidy import Effort, effort_of, tidied
from seamleaf.planning.cutting.tree import Patch
from seamleaf.planning.demand import Demand
from strategies import cutting_demands


def kinds_of(*sizes: tuple[int, int, int]) -> list[Kind]:
    return [
        Kind(index=index, w=w, h=h, turns=False, count=count, labels=()) for index, (w, h, count) in enumerate(sizes)
    ]


def holds(plan: Plan, kinds: list[Kind], usable: int) -> bool:
    given = {kind.index: sum(strip.counts[kind.index] * times for strip, times in plan) for kind in kinds}
    wide = all(strip.width <= usable for strip, _ in plan)
    return wide and all(given[kind.index] >= kind.count for kind in kinds)


def test_effort_counts_strip_widths_then_measures_then_settings() -> None:
    """A strip of squares 4 is looked up and takes one setting; one with 3 x 2 stacked beside a 4 takes 4, 3 and 2."""
    plain = strip_of([(Patch(0, 4, 4),)] * 3)
    stacked = strip_of([(Patch(0, 4, 4),), (Patch(1, 3, 2), Patch(1, 3, 2))])
    assert effort_of([plain, plain]) == Effort(heights=1, measures=1, settings=2)
    assert effort_of([plain, stacked]) == Effort(heights=1, measures=3, settings=6)
    assert Effort(heights=1, measures=9, settings=9) < Effort(heights=2, measures=1, settings=1)


def test_mixed_strips_become_plain_ones_where_that_takes_no_more() -> None:
    """Six strips of two squares 5 and two of 4 hold what three strips of each alone hold, in as many inches."""
    kinds = kinds_of((5, 5, 12), (4, 5, 15))
    mixed = [(strip_of([(Patch(0, 5, 5),)] * 2 + [(Patch(1, 4, 5),)] * 2), 5), (strip_of([(Patch(0, 5, 5),)] * 2), 1)]
    mixed.append((strip_of([(Patch(1, 4, 5),)] * 5), 1))
    plan = tidied(mixed, kinds, 20)
    assert holds(plan, kinds, 20)
    assert total_height(plan) <= total_height(mixed)
    assert effort_of([strip for strip, _ in plan]).settings == 4  # two kinds of strips, one setting each


def test_a_strip_width_that_other_patches_take_anyway_costs_nothing() -> None:
    """Patches of 4 x 3 may lie in strips of 3 or, beside a border of 4, of 4 in; the length decides before that."""
    kinds = kinds_of((5, 4, 8), (4, 3, 10))
    plan = plan_by_label(kinds, 20, as_asked)
    tidy = tidied(plan, kinds, 20, there={4})
    assert holds(tidy, kinds, 20)
    assert total_height(tidy) <= total_height(plan)


@given(cutting_demands(most_side=12, most_count=12, most_kinds=5))
@settings(deadline=None, max_examples=tries(8))
def test_tidying_never_lengthens_a_plan_nor_loses_a_patch(demands: list[Demand]) -> None:
    kinds = [
        Kind(
            index=index,
            w=int(demand.w.a * 4),
            h=int(demand.h.a * 4),
            turns=demand.may_turn,
            count=demand.count,
            labels=(),
        )
        for index, demand in enumerate(demands)
    ]
    plan = plan_by_filling(kinds, 160, as_asked)
    tidy = tidied(plan, kinds, 160)
    assert holds(tidy, kinds, 160)
    assert total_height(tidy) <= total_height(plan)


def test_a_plan_is_tidied_and_keeps_its_proof() -> None:
    """24 squares 5 and 40 patches 4 x 5 from 20 in: ten settings' worth of mixtures, or two plain kinds of strips."""
    demands = [
        Demand(label="A1", w=Length(5), h=Length(5), count=24, may_turn=False),
        Demand(label="A2", w=Length(4), h=Length(5), count=40, may_turn=False),
    ]
    plan = plan_yardage(demands, Length(20), INCHES)
    assert plan.need == plan.bound == 70
    assert [(sheet.h, len({part.w for part in sheet.parts})) for sheet in plan.sheets] == [(5, 1), (5, 1)]
