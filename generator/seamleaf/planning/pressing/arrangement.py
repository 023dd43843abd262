"""Blocks as they lie in the lattice, in the ways that pressing may try: alike, turned in turn, or A and B.

An arrangement knows the seams that meet inside units and across the edges of neighbouring blocks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from seamleaf.lengths import Length
from seamleaf.planning.frames import Frame
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.pressing.meetings import Edge, End, Geometry
from seamleaf.planning.records import Point
from seamleaf.reading.pattern import Pattern
from seamleaf.sizing import Quilt

B_MARK: Final = ".B"
"""Ends the ids of the units of B blocks; ids of the pattern hold no dot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A block of the centre: its unit and its turn in the frame of the lattice (on point 45 degrees less)."""

    unit: str
    turn: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Two blocks, as they lie in the lattice, that share an edge."""

    first: Placed
    first_edge: Edge
    second: Placed
    second_edge: Edge

    def meetings(self, geometry: Geometry) -> list[tuple[End, End, Length]]:
        """Return the seams that meet across the edge, with the position along it."""
        one = geometry.edges(self.first.unit, self.first.turn)[self.first_edge]
        other = geometry.edges(self.second.unit, self.second.turn)[self.second_edge]
        return [(end, other[at], at) for at, end in one.items() if at in other]


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """One way to lay the blocks."""

    drafts: dict[str, Draft]
    placed: dict[int, Placed]
    """Blocks by index of their spot, turned as the arrangement turns them."""
    added: dict[int, int]
    """Degrees that it adds to a block's turn; blocks that stay are left out."""
    twins: dict[str, str]
    """Units of B blocks, with the A unit that each is a copy of."""
    round: Counter[str] = field(default_factory=Counter)
    """How many there are of each strip of pieced borders."""

    @property
    def is_plain(self) -> bool:
        """Whether all blocks are alike."""
        return not self.added and not self.twins

    def copies(self) -> Counter[str]:
        """Count every unit of the quilt; a unit's users all stand after it."""
        total = Counter(block.unit for block in self.placed.values()) + self.round
        for draft in reversed(self.drafts.values()):
            for child in draft.children:
                if child.ref.unit:
                    total[child.ref.unit] += total[draft.id]
        return total

    def joins(self, quilt: Quilt) -> Counter[Join]:
        """Count the pairs of neighbours that share an edge."""
        return Counter(join for _, join in self.neighbours(quilt))

    def neighbours(self, quilt: Quilt) -> Iterator[tuple[int, Join]]:
        """Yield each block with its neighbour to the right and below, in the lattice's frame."""
        spots = quilt.layout.spots
        at = {(spots[index].column, spots[index].line): index for index in self.placed}
        ways: tuple[tuple[int, int, Edge, Edge], ...] = ((1, 0, "right", "left"), (0, 1, "bottom", "top"))
        for (column, line), index in at.items():
            for dx, dy, edge, facing in ways:
                other = at.get((column + dx, line + dy))
                if other is not None:
                    first, second = self.placed[index], self.placed[other]
                    yield index, Join(first=first, first_edge=edge, second=second, second_edge=facing)

    def pins(self, quilt: Quilt, geometry: Geometry, clashing: Callable[[End, End], bool]) -> set[Point]:
        """Return where in the centre's frame match points clash."""
        tilt = 45 if quilt.pattern.setting.set == "on-point" else 0
        points: set[Point] = set()
        for index, block in self.placed.items():
            draft, spot = self.drafts[block.unit], quilt.layout.spots[index]
            frame = Frame(w=draft.w, h=draft.h, x=spot.x, y=spot.y, turn=(block.turn + tilt) % 360)
            points |= {
                frame.point(each.at) for each in geometry.all_meetings(draft.id) if clashing(each.one, each.other)
            }
        for index, join in self.neighbours(quilt):
            spot = quilt.layout.spots[index]
            level = Frame(w=quilt.block_w, h=quilt.block_h, x=spot.x, y=spot.y, turn=tilt)
            for one, other, at in join.meetings(geometry):
                if clashing(one, other):
                    points.add(level.point((quilt.block_w, at) if join.first_edge == "right" else (at, quilt.block_h)))
        return points


def arrangements(
    quilt: Quilt, drafts: dict[str, Draft], placed: Mapping[int, Placed], strips: Counter[str]
) -> Iterator[Arrangement]:
    """Yield the arrangements to try, those that ask least of the maker first.

    All blocks alike; every second one (on point: the inner grid) turned, where it looks the same after the turn;
    every second one a B block, sewn alike but pressed its own way.
    """
    yield Arrangement(drafts=drafts, placed=dict(placed), added={}, twins={}, round=strips)
    every_second = [index for index in placed if quilt.layout.spots[index].inner and drafts[placed[index].unit].seams]
    if quilt.pattern.setting.turns == "free" and not _any_directional(quilt.pattern, drafts, placed):
        for turn in (90, 180):
            added = {index: turn for index in every_second if turn % drafts[placed[index].unit].symmetry == 0}
            if added:
                turned = {i: replace(at, turn=(at.turn + added.get(i, 0)) % 360) for i, at in placed.items()}
                yield Arrangement(drafts=drafts, placed=turned, added=added, twins={}, round=strips)
    others = {block.unit for index, block in placed.items() if not quilt.layout.spots[index].inner}
    to_twin = [index for index in every_second if placed[index].unit in others]
    if to_twin:
        twins: dict[str, str] = {}
        for index in to_twin:
            _twin(placed[index].unit, drafts, twins)
        b_drafts = {twin: _renamed(drafts[unit]) for twin, unit in twins.items()}
        there = dict(placed)
        for index in to_twin:
            there[index] = replace(placed[index], unit=placed[index].unit + B_MARK)
        yield Arrangement(drafts={**drafts, **b_drafts}, placed=there, added={}, twins=twins, round=strips)


def _twin(unit: str, drafts: Mapping[str, Draft], twins: dict[str, str]) -> None:
    """Note a B copy of a unit and of all that it is sewn from, in sewing order."""
    for child in drafts[unit].children:
        if child.ref.unit:
            _twin(child.ref.unit, drafts, twins)
    twins[unit + B_MARK] = unit


def _renamed(draft: Draft) -> Draft:
    """Return a B copy that is sewn from B copies."""
    children = tuple(
        replace(child, ref=replace(child.ref, unit=child.ref.unit + B_MARK)) if child.ref.unit else child
        for child in draft.children
    )
    return replace(draft, id=draft.id + B_MARK, children=children)


def _any_directional(pattern: Pattern, drafts: Mapping[str, Draft], placed: Mapping[int, Placed]) -> bool:
    fabrics = {fabric for unit in {block.unit for block in placed.values()} for fabric in _fabrics(drafts, unit)}
    return any(pattern.fabrics[fabric].directional for fabric in fabrics)


def _fabrics(drafts: Mapping[str, Draft], unit: str) -> set[str]:
    found = {face.use.fabric for face in drafts[unit].faces}
    for child in drafts[unit].children:
        if child.ref.unit:
            found |= _fabrics(drafts, child.ref.unit)
    return found
