"""The pressing plan of a quilt: the arrangement and folds that nest best, and the count of what nests.

The choice is lexicographic: fewest clashes, then fewest seams open, then fewest extra instructions (turned blocks,
B blocks, spun seams), then allowances toward the simpler side, then toward the darker, then units pressed alike.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.pressing.arrangement import Arrangement, Placed, arrangements
from seamleaf.planning.pressing.colouring import (
    BACK,
    FORTH,
    OPEN,
    SPUN,
    Colouring,
    Demand,
    Link,
    Question,
    colour,
)
from seamleaf.planning.pressing.edges import Edges, edges_of
from seamleaf.planning.pressing.meetings import End, Geometry, Meeting, SeamKey
from seamleaf.planning.pressing.program import Fold
from seamleaf.planning.pressing.rows import Direction, crossings, press_row
from seamleaf.planning.pressing.wishes import sewn_alike, wishes_of
from seamleaf.planning.records import Clash, Nest, Press, Pressing
from seamleaf.sizing import Quilt

MAX_PINS: Final = 200

_PRESS: Final[dict[Fold, Press]] = {FORTH: "after", BACK: "before", OPEN: "open", SPUN[0]: "spin", SPUN[1]: "spin"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PressingPlan:
    """How every seam is pressed, and how the blocks lie for it."""

    press: dict[SeamKey, Press]
    """By seam class; ``after`` is toward the second part of its draft."""
    drafts: dict[str, Draft]
    """All units; those of B blocks, where they differ, are added at the end."""
    placed: dict[int, Placed]
    added_turn: dict[int, int]
    """Degrees that the plan turns a block, by index of its spot; blocks that stay are left out."""
    rows: tuple[tuple[Direction, ...], ...]
    report: Pressing


@dataclass(frozen=True, slots=True, kw_only=True)
class _Candidate:
    arrangement: Arrangement
    geometry: Geometry
    edges: Edges
    colouring: Colouring[SeamKey]

    def cost(self) -> tuple[int, int, int]:
        """Return what is compared between candidates: clashes, open seams, extra instructions."""
        extra = self.colouring.count(SPUN) + (not self.arrangement.is_plain)
        return self.colouring.clashes, self.colouring.count((OPEN,)), extra


def plan_pressing(
    quilt: Quilt, drafts: dict[str, Draft], placed: Mapping[int, Placed], strips: Counter[str]
) -> PressingPlan:
    """Choose how every seam is pressed.

    ``placed`` holds the blocks by index of their spot, ``strips`` counts the strips of pieced borders by unit.
    """
    rows = tuple(press_row(quilt, row) for row in quilt.layout.rows)
    choices: list[tuple[Arrangement, Geometry, Edges]] = []
    for each in arrangements(quilt, drafts, placed, strips):
        geometry = Geometry(each.drafts)
        choices.append((each, geometry, edges_of(quilt, each, geometry, rows)))
    candidates: list[_Candidate] = []
    for may_open in (False, True):
        candidates += (_fold(quilt, *choice, may_open=may_open) for choice in choices)
        if any(not candidate.colouring.clashes for candidate in candidates):
            break
    best = min(candidates, key=_Candidate.cost)
    # Without a clash and without an open seam nothing can be better; else every choice must have been seen through.
    proven = best.cost()[:2] == (0, 0) or all(candidate.colouring.proven for candidate in candidates)
    arrangement = _merge_twins(best)
    final = best
    if arrangement is not best.arrangement:
        geometry = Geometry(arrangement.drafts)
        edges = edges_of(quilt, arrangement, geometry, rows)
        final = replace(best, arrangement=arrangement, geometry=geometry, edges=edges)
    return PressingPlan(
        press={
            (unit, index): _PRESS[best.colouring.fold[unit, index]]
            for unit, draft in arrangement.drafts.items()
            for index in range(len(draft.seams))
        },
        drafts=arrangement.drafts,
        placed=arrangement.placed,
        added_turn=arrangement.added,
        rows=rows,
        report=_report(quilt, final, rows, proven=proven),
    )


def _fold(quilt: Quilt, arrangement: Arrangement, geometry: Geometry, edges: Edges, *, may_open: bool) -> _Candidate:
    """Find the best folds of one arrangement."""
    drafts = arrangement.drafts
    demands, links = _demands(quilt, arrangement, geometry, edges)
    keys = [(unit, index) for unit, draft in drafts.items() for index in range(len(draft.seams))]
    outward = {key for key in keys if drafts[key[0]].seams[key[1]].outward}
    question = Question(
        keys=[*keys, *edges.fixed],
        demands=demands,
        fixed={**dict.fromkeys(outward, FORTH), **edges.fixed},
        wishes=wishes_of(quilt.pattern, drafts, geometry),
        links=links,
        may_open=frozenset(keys) - outward if may_open else (),
        alike=[
            *sewn_alike({unit: draft for unit, draft in drafts.items() if unit not in arrangement.twins}),
            *(((b, index), (a, index)) for b, a in arrangement.twins.items() for index in range(len(drafts[a].seams))),
            # A strip round the quilt has many seams between like units: one sentence should do for them.
            *(((unit, i), (unit, i + 1)) for unit in arrangement.round for i in range(len(drafts[unit].seams) - 1)),
        ],
    )
    return _Candidate(arrangement=arrangement, geometry=geometry, edges=edges, colouring=colour(question))


def _demands(
    quilt: Quilt, arrangement: Arrangement, geometry: Geometry, edges: Edges
) -> tuple[list[Demand[SeamKey]], list[Link[SeamKey]]]:
    """Return what the match points ask of the seam classes, equal ones counted together."""
    weights: Counter[Demand[SeamKey]] = Counter()
    links: list[Link[SeamKey]] = []
    copies = arrangement.copies()

    def ask(one: End, other: End, weight: int) -> None:
        sign = -one.sign * other.sign
        weights[Demand(one=one.key, one_end=one.end, other=other.key, other_end=other.end, sign=sign, weight=1)] += (
            weight
        )

    for unit in arrangement.drafts:
        meetings = geometry.own_meetings(unit)
        for meeting in meetings:
            ask(meeting.one, meeting.other, copies[unit])
        crossed = Counter(meeting.on for meeting in meetings)
        for meeting in meetings:
            outward = arrangement.drafts[unit].seams[meeting.on[1]].outward
            if crossed[meeting.on] == 1 and not outward:
                links += _spin(meeting)
    for join, weight in arrangement.joins(quilt).items():
        for one, other, _ in join.meetings(geometry):
            ask(one, other, weight)
    for meeting in edges.meetings:
        ask(meeting.one, meeting.other, 1)
    return [replace(demand, weight=weight) for demand, weight in weights.items() if weight], links


def _spin(meeting: Meeting) -> list[Link[SeamKey]]:
    """Return what spinning a seam round its only match point asks of the two seams that meet there.

    All four folds turn the same way round: if the far half (toward end 1) is folded clockwise, the crossing seam
    on the other side is folded along the spun seam, and the one on the clockwise side against it.
    """
    return [
        Link(
            spun=meeting.on,
            crossed=end.key,
            crossed_end=end.end,
            sign=way * meeting.facing * end.sign,
        )
        for end, way in ((meeting.one, -1), (meeting.other, 1))
    ]


def _merge_twins(candidate: _Candidate) -> Arrangement:
    """Drop the B copies that came out pressed like their A unit."""
    arrangement, fold = candidate.arrangement, candidate.colouring.fold
    same: dict[str, str] = {}
    for twin, unit in arrangement.twins.items():  # in sewing order, so what a unit is sewn from is settled before it
        draft = arrangement.drafts[twin]
        inner = [child.ref.unit for child in draft.children if child.ref.unit]
        pressed_alike = all(fold[twin, index] == fold[unit, index] for index in range(len(draft.seams)))
        if pressed_alike and all(each in same for each in inner):
            same[twin] = unit
    if not arrangement.twins:
        return arrangement
    twins = {twin: unit for twin, unit in arrangement.twins.items() if twin not in same}
    drafts: dict[str, Draft] = {}
    for unit, draft in arrangement.drafts.items():
        if unit not in same:
            children = tuple(
                replace(child, ref=replace(child.ref, unit=same.get(child.ref.unit or "", child.ref.unit)))
                for child in draft.children
            )
            variant: Literal["A", "B"] | None = "B" if unit in twins else "A" if unit in twins.values() else None
            drafts[unit] = replace(draft, children=children, variant=variant)
    placed = {
        index: replace(block, unit=same.get(block.unit, block.unit)) for index, block in arrangement.placed.items()
    }
    return Arrangement(drafts=drafts, placed=placed, added=arrangement.added, twins=twins, round=arrangement.round)


# ----------------------------------------------------------------------------------------------- report


@dataclass(slots=True)
class _Tally:
    """Match points by how they come out."""

    fold: Mapping[SeamKey, Fold]
    nested: int = 0
    open: int = 0
    spun: int = 0
    clash: int = 0

    def add(self, one: End, other: End, on: SeamKey | None, weight: int) -> None:
        """Count a match point, on a seam of a unit or across an edge."""
        product = self.fold[one.key][one.end] * one.sign * self.fold[other.key][other.end] * other.sign
        if on is not None and self.fold[on] in SPUN:
            self.spun += weight
        elif product == 0:
            self.open += weight
        elif product < 0:
            self.nested += weight
        else:
            self.clash += weight

    @property
    def total(self) -> int:
        """All match points."""
        return self.nested + self.open + self.spun + self.clash


def _report(quilt: Quilt, candidate: _Candidate, rows: tuple[tuple[Direction, ...], ...], *, proven: bool) -> Pressing:
    arrangement, geometry, fold = candidate.arrangement, candidate.geometry, candidate.colouring.fold
    tally = _Tally(fold)
    inside: dict[str, Nest] = {}
    copies = Counter(block.unit for block in arrangement.placed.values()) + arrangement.round
    for unit, count in arrangement.copies().items():
        own = _Tally(fold)
        for meeting in geometry.all_meetings(unit):
            own.add(meeting.one, meeting.other, meeting.on, 1)
            tally.add(meeting.one, meeting.other, meeting.on, copies[unit])
        if count:
            inside[unit] = Nest(match_points=own.total, nested=own.nested + own.spun)
    for join, weight in arrangement.joins(quilt).items():
        for one, other, _ in join.meetings(geometry):
            tally.add(one, other, None, weight)
    for meeting in candidate.edges.meetings:
        tally.add(meeting.one, meeting.other, None, 1)
    crossing, butting = crossings(quilt, rows)
    tally.nested += butting
    tally.clash += crossing - butting

    def clashing(one: End, other: End) -> bool:
        point = _Tally(fold)
        point.add(one, other, None, 1)
        return point.clash > 0

    pins = arrangement.pins(quilt, geometry, clashing) if tally.clash else set()
    pins |= {meeting.at for meeting in candidate.edges.meetings if clashing(meeting.one, meeting.other)}
    return Pressing(
        match_points=tally.total,
        nested=tally.nested,
        open=tally.open,
        spun=tally.spun,
        clash=tally.clash,
        proven=proven and crossing == butting,
        inside={unit: inside[unit] for unit in arrangement.drafts if unit in inside},
        turned=len(arrangement.added),
        pins=tuple(Clash(x=x, y=y) for x, y in sorted(pins, key=lambda point: (point[1], point[0])))[:MAX_PINS],
    )
