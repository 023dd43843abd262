"""What holds for every plan, whatever is asked for."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from effort import tries
from seamleaf.lengths import INCHES, ZERO, Length
from seamleaf.planning.cutting import frugal, plan_bundle, plan_yardage
from seamleaf.planning.demand import Demand, RoleDemand
from seamleaf.planning.records import Box
from strategies import cutting_demands

USABLE = Length(40)


@given(cutting_demands(most_side=40))
@settings(deadline=None, max_examples=tries(5))
def test_a_yardage_plan_is_verified_and_no_shorter_than_its_bound(demands: list[Demand]) -> None:
    plan = plan_yardage(demands, USABLE, INCHES)  # verifies itself: overlaps, counts, cuts from edge to edge
    assert isinstance(plan.need, Length)
    assert plan.bound <= plan.need
    area = sum((demand.w * demand.h * demand.count for demand in demands), ZERO)
    assert plan.need * USABLE >= area


def test_a_patch_of_which_none_is_asked_is_no_misfit_however_large() -> None:
    one = Demand(label="A", w=Length(4), h=Length(4), count=10, may_turn=True)
    none = Demand(label="B", w=Length(50), h=Length(60), count=0, may_turn=True)
    assert plan_yardage([one, none], USABLE, INCHES) == plan_yardage([one], USABLE, INCHES)


@given(cutting_demands(most_side=40))
@settings(deadline=None, max_examples=tries(5))
def test_a_yardage_plan_is_the_same_in_whatever_order_it_is_asked(demands: list[Demand]) -> None:
    assert plan_yardage(demands[::-1], USABLE, INCHES).need == plan_yardage(demands, USABLE, INCHES).need


def _scaled(demands: list[Demand], factor: Fraction) -> list[Demand]:
    return [replace(each, w=each.w * factor, h=each.h * factor) for each in demands]


def _check_bounds_hold_in_any_unit(demands: list[Demand], factor: Fraction) -> None:
    """Hold that what is proven in one unit is not undercut in another, and that two proven plans are as short."""
    plan, other = plan_yardage(demands, USABLE, INCHES), plan_yardage(_scaled(demands, factor), USABLE * factor, INCHES)
    assert isinstance(plan.need, Length)
    assert isinstance(other.need, Length)
    assert plan.bound <= other.need / factor
    assert isinstance(other.bound, Length)
    assert other.bound / factor <= plan.need
    if plan.need == plan.bound and other.need == other.bound:
        assert other.need == plan.need * factor


@given(cutting_demands(most_side=40), st.integers(2, 3))
@settings(deadline=None, max_examples=tries(3))
def test_what_is_proven_holds_in_any_unit(demands: list[Demand], factor: int) -> None:
    """An unfinished search may end at another length, since steps of another size are tried in another order."""
    _check_bounds_hold_in_any_unit(demands, Fraction(factor, 7))


HARD = [("5/2", "17/2", 48), ("3", "7", 40), ("9/2", "9/2", 30), ("13/4", "6", 52), ("7/2", "21/2", 24), ("2", "5", 70)]


def test_a_search_that_is_taken_up_again_ends_as_one_that_was_never_left() -> None:
    asked = [
        Demand(label=f"A{at}", w=Length(Fraction(w)), h=Length(Fraction(h)), count=count, may_turn=True)
        for at, (w, h, count) in enumerate(HARD)
    ]
    frugal._left_off.clear()
    whole = plan_yardage(asked, USABLE, INCHES)
    short = plan_yardage(asked, USABLE, INCHES, search="short")
    assert len(frugal._left_off) == 1
    assert plan_yardage(asked, USABLE, INCHES) == whole
    assert not frugal._left_off
    assert 0 < short.work <= whole.work
    first = plan_yardage(asked, USABLE, INCHES, search="none")
    assert first.work == 0
    assert first.need >= short.need >= whole.need >= whole.bound >= short.bound >= first.bound


def test_an_unfinished_search_proves_nothing() -> None:
    """A search that gave up once said 197 1/2 in could not be undercut, while 197 1/4 in can be planned."""
    sizes = (
        ("141/4", "2", 23, True),
        ("9/2", "9/2", 26, False),
        ("13/2", "17/4", 22, False),
        ("23/4", "23/4", 5, False),
    )
    demands = [
        Demand(label=f"A{n}", w=Length(Fraction(w)), h=Length(Fraction(h)), count=count, may_turn=may_turn)
        for n, (w, h, count, may_turn) in enumerate(sizes, 1)
    ]
    assert plan_yardage(demands, USABLE, INCHES).bound <= Length(Fraction(309, 4))
    _check_bounds_hold_in_any_unit(demands, Fraction(3, 7))


def test_a_patch_as_wide_as_the_fabric_may_fill_the_rest_of_a_strip() -> None:
    """Beside a patch of 30 x 40 there is room for one of 40 x 2 that is turned: 40 in are enough for both."""
    demands = [
        Demand(label="A1", w=Length(30), h=Length(40), count=1, may_turn=False),
        Demand(label="A2", w=Length(40), h=Length(2), count=1, may_turn=True),
    ]
    assert plan_yardage(demands, USABLE, INCHES).need == Length(40)


@given(cutting_demands(most_side=5, most_count=3, most_kinds=3), st.integers(1, 12))
@settings(deadline=None, max_examples=tries(5))
def test_a_bundle_plan_is_verified_and_never_takes_more_than_a_piece_a_copy(demands: list[Demand], copies: int) -> None:
    roles = [
        RoleDemand(block="star", role=number, copies=copies, demands=(demand,))
        for number, demand in enumerate(demands, 1)
    ]
    plan = plan_bundle(roles, Box(w=Length(18), h=Length(20)), INCHES)
    assert plan.bound <= plan.need <= copies * len(roles)
