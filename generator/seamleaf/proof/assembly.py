"""A sashed set on point, sewn again seam by seam in the booklet's order.

What is sewn so far lies in pieces. A seam must join two pieces along one straight line, the whole of the edge that
they share. Only a side triangle's seam may reach further: its end is left open, and the next join that brings
something to it must close it, so that what those two pieces share is their own seam and the open end, no more. At
last there is one piece.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from seamleaf.proof.book import OF_ROW, OF_ROWS, Book
from seamleaf.proof.meeting import JOINS, Meeting, Stretch, check_names, toward
from seamleaf.proof.plane import Spot
from seamleaf.proof.record import Row
from seamleaf.proof.report import Findings
from seamleaf.proof.shapes import Stitched, read_seam

ASSEMBLY: Final = "order of the joins"


@dataclass(frozen=True, slots=True)
class _Edge:
    """A stretch that two places share, with the direction out of each."""

    stretch: Stretch
    out: dict[int, int]


@dataclass(slots=True)
class _Table:
    """The pieces on the table: what each place is sewn into, and where pieces touch."""

    meeting: Meeting
    piece: list[int]
    members: dict[int, list[int]] = field(default_factory=dict)
    touching: dict[int, dict[int, list[_Edge]]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(list)))
    on: dict[Spot, list[_Edge]] = field(default_factory=lambda: defaultdict(list))

    def lay(self) -> None:
        """Lay every place out by itself."""
        self.members = {index: [index] for index in self.piece}
        for pair, shared in self.meeting.shared.items():
            a, b = sorted(pair)
            for stretch, out in shared:
                edge = _Edge(stretch, out)
                self.touching[a][b].append(edge)
                self.touching[b][a].append(edge)
                self.on[stretch[0]].append(edge)

    def beside(self, seam: Stretch) -> list[_Edge]:
        """Return what still lies apart on the two sides of a seam."""
        line, low, high = seam
        return [
            edge
            for edge in self.on[line]
            if low <= edge.stretch[1] and edge.stretch[2] <= high and len(self.pieces_of(edge)) == 2
        ]

    def pieces_of(self, edge: _Edge) -> set[int]:
        """Return the pieces on the two sides of an edge; one, when it is sewn."""
        return {self.piece[place] for place in edge.out}

    def join(self, a: int, b: int) -> None:
        """Make one piece of two."""
        if len(self.members[a]) < len(self.members[b]):
            a, b = b, a
        for place in self.members[b]:
            self.piece[place] = a
        self.members[a] += self.members.pop(b)
        for other, shared in self.touching.pop(b).items():
            del self.touching[other][b]
            if other != a:
                self.touching[a][other] += shared
                self.touching[other][a] += shared


def check_assembly(book: Book, meeting: Meeting, findings: Findings) -> list[Stitched]:
    """Sew the centre in the order of its seams, and return them so."""
    table = _Table(meeting, list(range(len(book.booklet.places))))
    table.lay()
    rows = _Rows(book)
    left_open: set[Stretch] = set()
    found: list[Stitched] = []
    for seam in book.booklet.seams:
        if seam.of not in (OF_ROW, OF_ROWS):
            continue
        stitched = read_seam(book, seam, findings)
        if stitched is None:
            continue
        whole = _stretch_of(book, stitched)
        edges = table.beside(whole)
        pair = rows.pair_of(stitched, edges)
        if pair is not None:  # a row's seam joins two neighbours, whatever else its open end will touch
            edges = [edge for edge in edges if table.pieces_of(edge) == {table.piece[place] for place in pair}]
        pieces = {frozenset(table.pieces_of(edge)) for edge in edges}
        if len(pieces) != 1:
            findings.add(ASSEMBLY, seam.pointer, f"seam {seam.id} joins {len(pieces)} pairs of pieces, not one")
            continue
        one, other = sorted(next(iter(pieces)))
        rest = _rest_of(whole, [edge.stretch for edge in edges])
        shared = {edge.stretch for edge in table.touching[one][other]} - {edge.stretch for edge in edges}
        closed = {stretch for stretch in left_open if any(_holds(stretch, each) for each in shared)}
        strays = [each for each in shared if not any(_holds(stretch, each) for stretch in closed)]
        if rest is None or strays:
            message = f"what seam {seam.id} joins does not share one straight edge, the whole of the seam"
            findings.add(ASSEMBLY, seam.pointer, message)
        elif rest:
            left_open |= set(rest)
            rows.leave_open(pair)
        left_open -= closed
        rows.check(stitched, pair, edges, findings)
        out = {place: way for edge in edges for place, way in edge.out.items()}
        later = max(out, key=rows.order_of)
        found.append(toward(stitched, out[pair[1] if pair else later]))
        table.join(one, other)
    apart = len(table.members)
    findings.expect(apart == 1, ASSEMBLY, "/seams", f"when all is sewn there are {apart} pieces")
    findings.expect(not left_open, ASSEMBLY, "/seams", "a seam whose end is left open is never closed")
    rows.check_open(findings)
    return found


def _stretch_of(book: Book, stitched: Stitched) -> Stretch:
    line, one = book.plane.spot_on(stitched.way, stitched.start)
    _, other = book.plane.spot_on(stitched.way, stitched.end)
    low, high = sorted((book.plane.rank(one), book.plane.rank(other)))
    return line, low, high


def _rest_of(whole: Stretch, parts: list[Stretch]) -> list[Stretch] | None:
    """Return what parts end to end leave over at the ends of a seam; ``None`` when there are gaps between them."""
    line, low, high = whole
    ordered = sorted((start, end) for _, start, end in parts)
    if any(a[1] != b[0] for a, b in pairwise(ordered)):
        return None
    first, last = ordered[0][0], ordered[-1][1]
    return [(line, start, end) for start, end in ((low, first), (last, high)) if start < end]


def _holds(stretch: Stretch, part: Stretch) -> bool:
    return stretch[0] == part[0] and stretch[1] <= part[1] and part[2] <= stretch[2]


class _Rows:
    """The rows, with what their records say of the order."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._row_of = {item: row for row in book.booklet.rows for item in row.items}
        self._joined: set[tuple[int, int]] = set()
        self._open: set[int] = set()
        self._sewn: set[frozenset[int]] = set()
        self._pressed = {
            frozenset(pair): (pair, row, index)
            for row in book.booklet.rows
            for index, pair in enumerate(pairwise(row.items))
        }

    def order_of(self, place: int) -> int:
        """Return which row a place is in; corner triangles come last."""
        row = self._row_of.get(place)
        return row.row if row else len(self._book.booklet.rows) + 1

    def pair_of(self, stitched: Stitched, edges: list[_Edge]) -> tuple[int, int] | None:
        """Return the neighbours of a row that a row's seam joins."""
        if stitched.seam.of != OF_ROW:
            return None
        for edge in edges:
            known = self._pressed.get(frozenset(edge.out))
            if known is not None:
                return known[0]
        return None

    def leave_open(self, pair: tuple[int, int] | None) -> None:
        """Note whose seam is left open; nothing but a side triangle's may be."""
        self._open |= {place for place in pair or () if self._book.booklet.places[place].kind == "side"} or {-1}

    def check(self, stitched: Stitched, pair: tuple[int, int] | None, edges: list[_Edge], findings: Findings) -> None:
        """See that a seam is what its row, or the two rows that it joins, say of it."""
        seam, places = stitched.seam, self._book.booklet.places
        if seam.of == OF_ROW:
            if pair is None:
                findings.add(ASSEMBLY, seam.pointer, f"seam {seam.id} joins no neighbours of a row")
                return
            _, row, index = self._pressed[frozenset(pair)]
            findings.expect(frozenset(pair) not in self._sewn, ASSEMBLY, seam.pointer, f"{seam.id} is sewn twice")
            self._sewn.add(frozenset(pair))
            if index < len(row.press):
                findings.expect_equal(
                    seam.press, row.press[index], ASSEMBLY, f"{seam.pointer}/press", "press of the row"
                )
            check_names(seam, (places[pair[0]].unit, places[pair[1]].unit), ASSEMBLY, findings)
            self._check_beside(row, pair, findings)
            return
        rows = sorted({self.order_of(place) for edge in edges for place in edge.out if places[place].kind != "side"})
        corner = next((place for edge in edges for place in edge.out if places[place].kind == "corner"), None)
        if corner is not None:
            check_names(seam, ("centre", places[corner].unit), JOINS, findings)
        elif len(rows) == 2 and rows[1] - rows[0] == 1:
            check_names(seam, (f"row {rows[0]}", f"row {rows[1]}"), JOINS, findings)
            self._joined.add((rows[0], rows[1]))
        else:
            findings.add(JOINS, seam.pointer, f"seam {seam.id} joins rows {', '.join(map(str, rows))}")

    def _check_beside(self, row: Row, pair: tuple[int, int], findings: Findings) -> None:
        """See that a triangle's seam comes after the row beside its own is joined, unless its end is left open."""
        side = [place for place in pair if self._book.booklet.places[place].kind == "side"]
        if side and side[0] not in row.left_open:
            joined = row.beside is not None and (min(row.row, row.beside), max(row.row, row.beside)) in self._joined
            message = f"a side triangle of row {row.row} before that is joined to the row beside it"
            findings.expect(joined, ASSEMBLY, f"{row.pointer}/beside", message)

    def check_open(self, findings: Findings) -> None:
        """Compare the seams that were left open with what the rows say."""
        for row in self._book.booklet.rows:
            real = {item for item in row.items if item in self._open}
            findings.expect_equal(set(row.left_open), real, ASSEMBLY, f"{row.pointer}/left_open", "seams left open")
            sides = any(self._book.booklet.places[item].kind == "side" for item in row.items)
            findings.expect(sides or row.beside is None, ASSEMBLY, f"{row.pointer}/beside", "no triangle needs it")
            pairs = {frozenset(pair) for pair in pairwise(row.items)}
            findings.expect(pairs <= self._sewn, ASSEMBLY, row.pointer, f"row {row.row} is not sewn together")
        findings.expect(-1 not in self._open, ASSEMBLY, "/seams", "a seam is left open that is no side triangle's")
