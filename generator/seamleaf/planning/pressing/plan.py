"""The pressing plan of a quilt: candidates, the best of them, and the count of what nests.

Candidates: all blocks alike, or every second block (on point: the inner grid) turned, where the block's own
symmetry lets it be. The one with the fewest clashes is taken; of equals, the one without turned blocks.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from seamleaf.lengths import Length
from seamleaf.planning.frames import Frame
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.pressing.colouring import Colouring, Demand, colour
from seamleaf.planning.pressing.meetings import Edge, End, Geometry, SeamKey
from seamleaf.planning.pressing.wishes import wishes_of
from seamleaf.planning.records import Clash, Nest, Press, Pressing
from seamleaf.reading.pattern import Pattern
from seamleaf.sizing import Quilt
from seamleaf.sizing.layout import Spot

MAX_PINS: Final = 200
Direction = Literal["before", "after"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A block of the centre: its unit and its turn in the frame of the lattice (on point 45 degrees less)."""

    spot: int
    unit: str
    turn: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PressingPlan:
    """Directions of every seam class, turns that the plan adds to blocks, and the published count."""

    press: dict[SeamKey, Press]
    added_turn: dict[int, int]
    """Degrees that the plan turns a block, by index of its spot; blocks that stay are left out."""
    rows: tuple[tuple[Direction, ...], ...]
    """For each row the direction of each of its seams, in sewing order."""
    report: Pressing


def plan_pressing(quilt: Quilt, drafts: dict[str, Draft], placed: Mapping[int, Placed]) -> PressingPlan:
    """Choose how every seam is pressed. ``placed`` holds the blocks by index of their spot."""
    geometry = Geometry(drafts)
    rows = tuple(_row_presses(quilt, row) for row in quilt.layout.rows)
    best: tuple[tuple[int, int], int, dict[int, int], Colouring[SeamKey]] | None = None
    for turn in _candidates(quilt.pattern, drafts, placed):
        added = _added_turns(quilt, drafts, placed, turn)
        if turn and not added:
            continue
        colouring = _colour(quilt.pattern, geometry, drafts, _copies(drafts, placed), _joins(quilt, placed, added))
        key = (colouring.clashes, len(added) > 0)
        if best is None or key < best[0]:
            best = (key, turn, added, colouring)
        if colouring.clashes == 0:
            break
    assert best is not None  # noqa: S101 -- the first candidate, all alike, is never skipped
    _, _, added, colouring = best
    report = _report(quilt, geometry, drafts, placed, added, colouring, rows)
    press: dict[SeamKey, Press] = {
        key: "after" if direction > 0 else "before" for key, direction in colouring.direction.items()
    }
    return PressingPlan(press=press, added_turn=added, rows=rows, report=report)


def nests(one: End, other: End, direction: Mapping[SeamKey, int]) -> bool:
    """Whether two allowances lie in opposite directions."""
    return direction[one.key] * one.sign == -direction[other.key] * other.sign


def _candidates(pattern: Pattern, drafts: dict[str, Draft], placed: Mapping[int, Placed]) -> tuple[int, ...]:
    """Return the turns to try on every second block: none first, then those that leave some block looking the same."""
    used = {block.unit for block in placed.values()}
    directional = any(pattern.fabrics[fabric].directional for unit in used for fabric in _fabrics(drafts, unit))
    if pattern.setting.turns == "fixed" or directional:
        return (0,)
    return (0, *(turn for turn in (90, 180) if any(turn % drafts[unit].symmetry == 0 for unit in used)))


def _fabrics(drafts: dict[str, Draft], unit: str) -> set[str]:
    found = {face.use.fabric for face in drafts[unit].faces}
    for child in drafts[unit].children:
        if child.ref.unit:
            found |= _fabrics(drafts, child.ref.unit)
    return found


def _added_turns(quilt: Quilt, drafts: dict[str, Draft], placed: Mapping[int, Placed], turn: int) -> dict[int, int]:
    spots = quilt.layout.spots
    return {
        index: turn
        for index, block in placed.items()
        if turn and spots[index].inner and drafts[block.unit].seams and turn % drafts[block.unit].symmetry == 0
    }


def _copies(drafts: dict[str, Draft], placed: Mapping[int, Placed]) -> Counter[str]:
    """Count every unit of the quilt; a unit's users all stand after it."""
    total = Counter(block.unit for block in placed.values())
    for draft in reversed(drafts.values()):
        for child in draft.children:
            if child.ref.unit:
                total[child.ref.unit] += total[draft.id]
    return total


def _colour(
    pattern: Pattern,
    geometry: Geometry,
    drafts: dict[str, Draft],
    copies: Counter[str],
    joins: Counter[_Join],
) -> Colouring[SeamKey]:
    weights: Counter[tuple[SeamKey, SeamKey, int]] = Counter()

    def ask(one: End, other: End, weight: int) -> None:
        weights[one.key, other.key, -one.sign * other.sign] += weight

    for unit in drafts:
        for meeting in geometry.own_meetings(unit):
            ask(meeting.one, meeting.other, copies[unit])
    for join, weight in joins.items():
        for one, other, _ in join.meetings(geometry):
            ask(one, other, weight)
    keys = [(unit, index) for unit, draft in drafts.items() for index in range(len(draft.seams))]
    fixed = {key: 1 for key in keys if drafts[key[0]].seams[key[1]].outward}
    demands = [Demand(one=a, other=b, sign=sign, weight=weight) for (a, b, sign), weight in weights.items()]
    return colour(keys, demands, fixed, wishes_of(pattern, drafts, geometry))


# ------------------------------------------------------------------------------ joins between placed blocks


@dataclass(frozen=True, slots=True, kw_only=True)
class _Join:
    """Two blocks, as they lie in the lattice, that share an edge."""

    first: tuple[str, int]
    first_edge: Edge
    second: tuple[str, int]
    second_edge: Edge

    def meetings(self, geometry: Geometry) -> list[tuple[End, End, Length]]:
        one = geometry.edges(*self.first)[self.first_edge]
        other = geometry.edges(*self.second)[self.second_edge]
        return [(end, other[at], at) for at, end in one.items() if at in other]


def _neighbours(quilt: Quilt, placed: Mapping[int, Placed]) -> list[tuple[int, int, Edge, Edge]]:
    """Return the pairs of blocks that share an edge: to the right and below, in the lattice's frame."""
    spots = quilt.layout.spots
    at = {(spots[index].column, spots[index].line): index for index in placed}
    pairs: list[tuple[int, int, Edge, Edge]] = []
    for (column, line), index in at.items():
        if (column + 1, line) in at:
            pairs.append((index, at[column + 1, line], "right", "left"))
        if (column, line + 1) in at:
            pairs.append((index, at[column, line + 1], "bottom", "top"))
    return pairs


def _joins(quilt: Quilt, placed: Mapping[int, Placed], added: Mapping[int, int]) -> Counter[_Join]:
    def lying(index: int) -> tuple[str, int]:
        return placed[index].unit, (placed[index].turn + added.get(index, 0)) % 360

    return Counter(
        _Join(first=lying(a), first_edge=edge, second=lying(b), second_edge=other)
        for a, b, edge, other in _neighbours(quilt, placed)
    )


# ------------------------------------------------------------------------------------------------- rows


def _row_presses(quilt: Quilt, row: Sequence[int]) -> tuple[Direction, ...]:
    """Return how a row's seams are pressed.

    On point toward the setting triangles and the blocks of the inner grid: then the seams of one row butt those
    of the next at every corner of a block (derived: along each line that crosses the rows the sides alternate).
    Straight: rows in turn one way and the other (grammilousgarden.blogspot.com 2015/04).
    """
    spots = [quilt.layout.spots[index] for index in row]
    if quilt.pattern.setting.set == "straight":
        direction: Direction = "after" if (spots[0].row or 0) % 2 else "before"
        return (direction,) * (len(spots) - 1)
    return tuple("after" if second.inner else "before" for _, second in pairwise(spots))


def _crossings(quilt: Quilt, rows: Sequence[tuple[Direction, ...]]) -> tuple[int, list[tuple[int, int]]]:
    """Return how many seams of neighbouring rows meet, and those that do not nest as (row, index of the seam)."""
    layout = quilt.layout

    def boundaries(row: int) -> dict[int, int]:
        """Index of the seam that ends at each corner of the lattice along the row."""
        found: dict[int, int] = {}
        for index, spot in enumerate(layout.rows[row][1:]):
            found[_along(quilt, layout.spots[spot])] = index
        return found

    total = 0
    clashing: list[tuple[int, int]] = []
    for row in range(len(layout.rows) - 1):
        upper, lower = boundaries(row), boundaries(row + 1)
        for at in upper.keys() & lower.keys():
            total += 1
            if rows[row][upper[at]] == rows[row + 1][lower[at]]:
                clashing.append((row, upper[at]))
    return total, sorted(clashing)


def _along(quilt: Quilt, spot: Spot) -> int:
    return spot.column if quilt.pattern.setting.set == "straight" else -spot.line


# ----------------------------------------------------------------------------------------------- report


def _report(
    quilt: Quilt,
    geometry: Geometry,
    drafts: dict[str, Draft],
    placed: Mapping[int, Placed],
    added: Mapping[int, int],
    colouring: Colouring[SeamKey],
    rows: Sequence[tuple[Direction, ...]],
) -> Pressing:
    direction = colouring.direction
    used = _copies(drafts, placed)
    inside = {unit: geometry.all_meetings(unit) for unit in drafts if used[unit]}
    nested_inside = {
        unit: sum(nests(each.one, each.other, direction) for each in meetings) for unit, meetings in inside.items()
    }
    copies = Counter(block.unit for block in placed.values())
    total = sum(copies[unit] * len(inside[unit]) for unit in copies)
    nested = sum(copies[unit] * nested_inside[unit] for unit in copies)
    for join, weight in _joins(quilt, placed, added).items():
        meetings = join.meetings(geometry)
        total += weight * len(meetings)
        nested += weight * sum(nests(one, other, direction) for one, other, _ in meetings)
    crossings, clashing_rows = _crossings(quilt, rows)
    total += crossings
    nested += crossings - len(clashing_rows)
    return Pressing(
        match_points=total,
        nested=nested,
        open=0,
        spun=0,
        clash=total - nested,
        proven=colouring.proven and not clashing_rows,
        inside={
            unit: Nest(match_points=len(meetings), nested=nested_inside[unit]) for unit, meetings in inside.items()
        },
        turned=len(added),
        pins=_pins(quilt, geometry, drafts, placed, added, direction)[:MAX_PINS],
    )


def _pins(
    quilt: Quilt,
    geometry: Geometry,
    drafts: dict[str, Draft],
    placed: Mapping[int, Placed],
    added: Mapping[int, int],
    direction: Mapping[SeamKey, int],
) -> tuple[Clash, ...]:
    """Return where blocks do not nest, inside and along shared edges, in reading order."""
    tilt = 45 if quilt.pattern.setting.set == "on-point" else 0

    def frame(index: int) -> Frame:
        spot, block = quilt.layout.spots[index], placed[index]
        draft = drafts[block.unit]
        turn = (block.turn + tilt + added.get(index, 0)) % 360
        return Frame(w=draft.w, h=draft.h, x=spot.x, y=spot.y, turn=turn)

    points = []
    clashing = defaultdict(list)
    for unit in {block.unit for block in placed.values()}:
        clashing[unit] = [each.at for each in geometry.all_meetings(unit) if not nests(each.one, each.other, direction)]
    for index, block in placed.items():
        points += [frame(index).point(at) for at in clashing[block.unit]]
    for a, b, edge, other in _neighbours(quilt, placed):
        turn_a, turn_b = ((placed[i].turn + added.get(i, 0)) % 360 for i in (a, b))
        join = _Join(
            first=(placed[a].unit, turn_a), first_edge=edge, second=(placed[b].unit, turn_b), second_edge=other
        )  # fmt: skip
        spot = quilt.layout.spots[a]
        level = Frame(w=quilt.block_w, h=quilt.block_h, x=spot.x, y=spot.y, turn=tilt)
        for one, two, at in join.meetings(geometry):
            if not nests(one, two, direction):
                points.append(level.point((quilt.block_w, at) if edge == "right" else (at, quilt.block_h)))
    return tuple(Clash(x=x, y=y) for x, y in sorted(set(points), key=lambda point: (point[1], point[0])))
