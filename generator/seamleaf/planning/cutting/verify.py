"""The check that every plan passes before anyone sees it, made from the finished sheets alone."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence

from seamleaf.lengths import ZERO, Length
from seamleaf.planning.cutting.scale import Scale
from seamleaf.planning.cutting.strips import Strip, column_height
from seamleaf.planning.demand import CuttingPlan, Demand, PlannedSheet, RoleDemand
from seamleaf.planning.records import Box

Rect = tuple[int, int, int, int]
"""Left, top, right and lower edge, in whole steps."""


class PlanError(AssertionError):
    """A plan that does not hold: a fault of the planner, never of the pattern."""


def verify_plan(plan: CuttingPlan, asked: Sequence[Demand] | Sequence[RoleDemand], sheet: Length | Box) -> None:
    """Cut every sheet of a plan along its cuts and count what comes out.

    Args:
        plan: what a planner found.
        asked: the demands that it was found for.
        sheet: usable width of the yardage, or usable size of a bundle piece.

    Raises:
        PlanError: a cut does not go from edge to edge of one piece; a patch is not what its cuts leave, is of
            another size than its label, or lies outside; patches fall short; ``need`` is not the sum.

    """
    for one in plan.sheets:
        _check_sheet(one, sheet)
    if isinstance(sheet, Box):
        _check_roles(plan, [role for role in asked if isinstance(role, RoleDemand)])
        need: Length | int = sum(one.times for one in plan.sheets)
    else:
        demands = [demand for demand in asked if isinstance(demand, Demand)]
        _check_counts(plan, demands)
        need = sum((one.h * one.times for one in plan.sheets), ZERO)
    _demand(plan.need == need, f"need is {plan.need!r}, but its sheets take {need!r}")
    _demand(plan.bound <= plan.need, f"the bound {plan.bound!r} is above the need {plan.need!r}")


def verify_strips(strips: Sequence[Strip], wanted: Mapping[int, int], usable: int) -> None:
    """Check strips of yardage that nobody cuts, since only their length was asked for.

    Args:
        strips: each once, in whole steps.
        wanted: patches by kind.
        usable: width of the fabric.

    Raises:
        PlanError: a strip is too wide or too low for its patches, or patches fall short.

    """
    given: Counter[int] = Counter()
    for strip in strips:
        low = all(column_height(column) <= strip.height for column in strip.columns)
        _demand(low and strip.width <= usable, f"a strip of {strip.width} x {strip.height} of {usable} does not hold")
        given += strip.counts
    for kind, count in wanted.items():
        _demand(given[kind] >= count, f"kind {kind}: {given[kind]} of {count}")


def _demand(holds: bool, message: str) -> None:
    if not holds:
        raise PlanError(message)


def _check_sheet(one: PlannedSheet, sheet: Length | Box) -> None:
    _demand(one.times > 0, "a sheet is cut no times")
    if isinstance(sheet, Box):
        _demand(one.w == sheet.w and one.h == sheet.h, f"a piece is {one.w!r} x {one.h!r}")
    else:
        _demand(one.w == sheet and one.h > ZERO, f"a strip is {one.w!r} x {one.h!r}")
    steps = Scale.of(_lengths_of(one))
    left = _cut_up(one, steps)
    for part in one.parts:
        x, y = steps.whole(part.x), steps.whole(part.y)
        place = (x, y, x + steps.whole(part.w), y + steps.whole(part.h))
        if place not in left:
            raise PlanError(f"{part.label} is not cut free at {(part.x, part.y, part.w, part.h)!r}, or lies twice")
        left.remove(place)
    rests = Counter((right - x, below - y) for x, y, right, below in left)
    for rest in one.rests:
        many = rests[steps.whole(rest.w), steps.whole(rest.h)]
        _demand(many >= rest.count, f"no rest of {rest.w!r} x {rest.h!r} is left {rest.count} times")


def _lengths_of(one: PlannedSheet) -> Iterator[Length]:
    yield from (one.w, one.h)
    for part in one.parts:
        yield from (part.x, part.y, part.w, part.h)
    for cut in one.cuts:
        yield from (cut.at, *cut.span)
    for rest in one.rests:
        yield from (rest.w, rest.h)


def _cut_up(one: PlannedSheet, steps: Scale) -> set[Rect]:
    spans: dict[tuple[str, int, int], set[Rect]] = defaultdict(set)
    """The pieces by where a cut along an axis begins and ends that goes from edge to edge of them."""

    def put(piece: Rect) -> None:
        x, y, right, below = piece
        spans["x", y, below].add(piece)
        spans["y", x, right].add(piece)

    put((0, 0, steps.whole(one.w), steps.whole(one.h)))
    for number, cut in enumerate(one.cuts, 1):
        _demand(cut.n == number, f"cut {cut.n} stands at place {number}")
        at, start, end = steps.whole(cut.at), *map(steps.whole, cut.span)
        across = 0 if cut.axis == "x" else 1
        hit = [piece for piece in spans[cut.axis, start, end] if piece[across] < at < piece[across + 2]]
        _demand(len(hit) == 1, f"cut {number} goes through {len(hit)} pieces from edge to edge")
        x, y, right, below = hit[0]
        spans["x", y, below].remove(hit[0])
        spans["y", x, right].remove(hit[0])
        if cut.axis == "x":
            put((x, y, at, below))
            put((at, y, right, below))
        else:
            put((x, y, right, at))
            put((x, at, right, below))
    return set().union(*spans.values())


def _check_counts(plan: CuttingPlan, demands: Sequence[Demand]) -> None:
    """Compare yardage with its demands: a label has one size, and at least as many patches as asked."""
    sizes = {demand.label: demand for demand in demands}
    wanted: Counter[str] = Counter()
    for demand in demands:
        wanted[demand.label] += demand.count
    given: Counter[str] = Counter()
    for one in plan.sheets:
        for part in one.parts:
            _demand(part.label in sizes, f"nothing asks for {part.label}")
            _check_size(sizes[part.label], part.w, part.h)
            given[part.label] += one.times
    for label, count in wanted.items():
        _demand(given[label] >= count, f"{label}: {given[label]} of {count}")


def _check_size(demand: Demand, w: Length, h: Length) -> None:
    straight = (w, h) == (demand.w, demand.h)
    turned = demand.may_turn and (h, w) == (demand.w, demand.h)
    if not (straight or turned):
        raise PlanError(f"{demand.label} is cut {w!r} x {h!r} for {demand.w!r} x {demand.h!r}")


def _check_roles(plan: CuttingPlan, roles: Sequence[RoleDemand]) -> None:
    """Compare a bundle with its roles: a piece holds all patches of one block for every role that it serves."""
    by_key = {(role.block, role.role): role for role in roles}
    served: Counter[tuple[str, int]] = Counter()
    for one in plan.sheets:
        asked = [demand for key in one.roles for demand in by_key[key].demands]
        wanted: Counter[str] = Counter()
        for demand in asked:
            wanted[demand.label] += demand.count
        sizes = {demand.label: demand for demand in asked}
        for part in one.parts:
            _demand(part.label in sizes, f"no role of the piece asks for {part.label}")
            _check_size(sizes[part.label], part.w, part.h)
        given = Counter(part.label for part in one.parts)
        _demand(given == wanted, f"a piece for {one.roles!r} gives {dict(given)!r}")
        for key in one.roles:
            served[key] += one.times
        _check_blocks(one, by_key)
    for key, role in by_key.items():
        _demand(served[key] >= role.copies, f"{key!r}: {served[key]} of {role.copies} blocks")


def _check_blocks(one: PlannedSheet, roles: dict[tuple[str, int], RoleDemand]) -> None:
    """See that no piece must serve two roles of one copy of a block, which would give both the same print."""
    for block in {block for block, _ in one.roles}:
        copies = min(role.copies for (name, _), role in roles.items() if name == block)
        served = sum(name == block for name, _ in one.roles)
        _demand(served <= copies, f"a piece serves {served} roles of {copies} blocks {block}")
