"""Where the places of the centre share edges, and the seams that the booklet has there."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.chain import edges
from seamleaf.proof.plane import Coordinate, Polygon, Spot, Vector, subtract
from seamleaf.proof.record import Seam
from seamleaf.proof.report import Findings
from seamleaf.proof.shapes import Stitched, read_seam

JOINS: Final = "seams between rows"

Stretch = tuple[Spot, int, int]
"""A part of a line, by the ranks of its ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One edge of a place, with the direction that leads out of it."""

    place: int
    low: int
    high: int
    out: int


class Meeting:
    """Where places of the centre share an edge."""

    def __init__(self, book: Book, laid: list[Polygon]) -> None:
        self._plane = plane = book.plane
        rank = plane.rank
        self._coordinates: dict[int, Coordinate] = {}
        lines: dict[Spot, list[_Side]] = defaultdict(list)
        for index, outline in enumerate(laid):
            for start, end in edges(outline):
                way = plane.direction(subtract(end, start))
                if way is None:
                    continue
                line, one = plane.spot_on(way, start)
                _, other = plane.spot_on(way, end)
                low, high = sorted((rank(one), rank(other)))
                self._coordinates |= {rank(one): one, rank(other): other}
                lines[line].append(_Side(place=index, low=low, high=high, out=plane.turned_way(way, 6)))
        self.shared: dict[frozenset[int], list[tuple[Stretch, dict[int, int]]]] = defaultdict(list)
        """By pair of places: the stretches along which they meet, and for each place the direction out of it."""
        for line, sides in lines.items():
            self._pair(line, sorted(sides, key=lambda side: side.low))

    def _pair(self, line: Spot, sides: list[_Side]) -> None:
        open_sides: list[_Side] = []
        for side in sides:
            open_sides = [other for other in open_sides if other.high > side.low]
            for other in open_sides:
                if other.out != side.out:
                    stretch = (line, side.low, min(side.high, other.high))
                    out = {side.place: side.out, other.place: other.out}
                    self.shared[frozenset((side.place, other.place))].append((stretch, out))
            open_sides.append(side)

    def ends(self, stretch: Stretch) -> frozenset[Vector]:
        """Return the two ends of a stretch."""
        line, low, high = stretch
        return frozenset(self._plane.point_on(line, self._coordinates[at]) for at in (low, high))


def by_ends(book: Book, of: str, findings: Findings) -> dict[frozenset[Vector], Stitched]:
    """Return the seams of one kind by their two ends."""
    found: dict[frozenset[Vector], Stitched] = {}
    for seam in book.booklet.seams:
        if seam.of == of:
            stitched = read_seam(book, seam, findings)
            if stitched is not None:
                ends = frozenset((stitched.start, stitched.end))
                findings.expect(ends not in found, JOINS, seam.pointer, f"seam {seam.id} is sewn twice")
                found[ends] = stitched
    return found


def check_names(seam: Seam, names: tuple[str, str], check: str, findings: Findings) -> None:
    """See that a seam names what it joins."""
    stated = seam.first, seam.second
    findings.expect(stated == names, check, seam.pointer, f"seam {seam.id} joins {names[0]} to {names[1]}")


def toward(seam: Stitched, before: int) -> Stitched:
    """Return a seam with the direction in which its allowances lie when they are pressed before."""
    return Stitched(seam=seam.seam, start=seam.start, end=seam.end, way=seam.way, before=before)


def report_strays(left: dict[frozenset[Vector], Stitched], check: str, findings: Findings) -> None:
    """Report the seams that were left over."""
    for stitched in left.values():
        findings.add(check, stitched.seam.pointer, f"seam {stitched.seam.id} joins nothing")
