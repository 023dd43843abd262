"""What holds for every plan, whatever is asked for."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from seamleaf.lengths import INCHES, ZERO, Length
from seamleaf.planning.cutting import plan_bundle, plan_yardage
from seamleaf.planning.demand import Demand, RoleDemand
from seamleaf.planning.records import Box
from strategies import cutting_demands

USABLE = Length(40)


@given(cutting_demands(most_side=40))
@settings(deadline=None, max_examples=30)
def test_a_yardage_plan_is_verified_and_no_shorter_than_its_bound(demands: list[Demand]) -> None:
    plan = plan_yardage(demands, USABLE, INCHES)  # verifies itself: overlaps, counts, cuts from edge to edge
    assert isinstance(plan.need, Length)
    assert plan.bound <= plan.need
    area = sum((demand.w * demand.h * demand.count for demand in demands), ZERO)
    assert plan.need * USABLE >= area


@given(cutting_demands(most_side=40))
@settings(deadline=None, max_examples=30)
def test_a_yardage_plan_is_the_same_in_whatever_order_it_is_asked(demands: list[Demand]) -> None:
    assert plan_yardage(demands[::-1], USABLE, INCHES).need == plan_yardage(demands, USABLE, INCHES).need


@given(cutting_demands(most_side=40), st.integers(2, 3))
@settings(deadline=None, max_examples=30)
def test_plans_do_not_depend_on_the_unit(demands: list[Demand], factor: int) -> None:
    def larger(length: Length) -> Length:
        return length * Fraction(factor, 7)

    scaled = [
        Demand(label=d.label, w=larger(d.w), h=larger(d.h), count=d.count, may_turn=d.may_turn, first=d.first)
        for d in demands
    ]
    plan = plan_yardage(demands, USABLE, INCHES)
    assert isinstance(plan.need, Length)
    assert plan_yardage(scaled, larger(USABLE), INCHES).need == larger(plan.need)


@given(cutting_demands(most_side=5, most_count=3, most_kinds=3), st.integers(1, 12))
@settings(deadline=None, max_examples=30)
def test_a_bundle_plan_is_verified_and_never_takes_more_than_a_piece_a_copy(demands: list[Demand], copies: int) -> None:
    roles = [
        RoleDemand(block="star", role=number, copies=copies, demands=(demand,))
        for number, demand in enumerate(demands, 1)
    ]
    plan = plan_bundle(roles, Box(w=Length(18), h=Length(20)), INCHES)
    assert plan.bound <= plan.need <= copies * len(roles)
