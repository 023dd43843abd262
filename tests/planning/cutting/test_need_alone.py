"""A need without sheets: what is said of fabric that is not bought is as long as the plan that nobody cuts."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from effort import tries
from seamleaf.lengths import INCHES, Length
from seamleaf.planning.cutting import PlanError, plan_yardage
from seamleaf.planning.cutting.strips import strip_of
from seamleaf.planning.cutting.tree import Patch
from seamleaf.planning.cutting.verify import verify_strips
from seamleaf.planning.demand import Demand
from strategies import cutting_demands


@given(cutting_demands(most_side=40))
@settings(deadline=None, max_examples=tries(20))
def test_a_need_is_the_same_with_and_without_its_sheets(demands: list[Demand]) -> None:
    whole, alone = (
        plan_yardage(demands, Length(42), INCHES, search="none", with_sheets=with_sheets)
        for with_sheets in (True, False)
    )
    assert (whole.need, whole.bound, whole.tightest) == (alone.need, alone.bound, alone.tightest)
    assert alone.sheets == ()


def test_strips_that_are_too_wide_too_low_or_too_few_are_a_fault_of_the_planner() -> None:
    column, low = (Patch(0, 4, 3),), (Patch(0, 4, 3), Patch(0, 4, 3))
    verify_strips([strip_of([column, column])], {0: 2}, 8)
    for strips, wanted, usable in (
        ([strip_of([column, column])], {0: 2}, 7),
        ([strip_of([low], 5)], {0: 2}, 8),
        ([strip_of([column, column])], {0: 3}, 8),
    ):
        with pytest.raises(PlanError):
            verify_strips(strips, wanted, usable)
