"""The seams of the centre and of the borders: found again from where places and strips meet.

Within a row a seam is pressed before, toward the start of the row, or after; a seam between rows before, toward the
lower row number; a corner triangle's before, toward the centre; a border's before, to smaller x or y.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.assembly import check_assembly
from seamleaf.proof.book import OF_ROW, OF_ROWS, Book
from seamleaf.proof.finish_record import Border
from seamleaf.proof.meeting import JOINS, Meeting, Stretch, by_ends, check_names, report_strays, toward
from seamleaf.proof.plane import (
    Polygon,
)
from seamleaf.proof.record import Point
from seamleaf.proof.report import Findings, say
from seamleaf.proof.shapes import Stitched

ROW_SEAMS: Final = "seams of rows"
BORDER_SEAMS: Final = "seams of borders"


def check_joins(book: Book, laid: list[Polygon], findings: Findings) -> list[Stitched]:
    """See that the seams of the centre are where its places meet; return them in sewing order."""
    meeting = Meeting(book, laid)
    if book.booklet.set.kind == "on-point" and any(place.kind == "sash" for place in book.booklet.places):
        sewn = check_assembly(book, meeting, findings)
        _check_halves(book, [each for each in sewn if each.seam.of == OF_ROWS], findings)
        return [*sewn, *_check_border_seams(book, findings)]
    for row in book.booklet.rows:
        message = "rows that are joined one by one, each whole, need none beside them and leave no seam open"
        findings.expect(row.beside is None and not row.left_open, JOINS, row.pointer, message)
    rows = _check_row_seams(book, meeting, findings)
    between = _check_row_joins(book, meeting, findings)
    return [*rows, *between, *_check_border_seams(book, findings)]


def _check_row_seams(book: Book, meeting: Meeting, findings: Findings) -> list[Stitched]:
    """One seam for each pair of neighbours of a row, where they share an edge, pressed as the row says."""
    at_ends = by_ends(book, OF_ROW, findings)
    found: list[Stitched] = []
    places = book.booklet.places
    for row in book.booklet.rows:
        for index, (a, b) in enumerate(pairwise(row.items)):
            shared = meeting.shared.get(frozenset((a, b)), [])
            at = f"{row.pointer}/items/{index + 1}"
            if len(shared) != 1:
                findings.add(ROW_SEAMS, at, f"places {a} and {b} share no edge, or more than one")
                continue
            stretch, out = shared[0]
            stitched = at_ends.pop(meeting.ends(stretch), None)
            if stitched is None:
                findings.add(ROW_SEAMS, at, f"no seam joins places {a} and {b}")
                continue
            seam = stitched.seam
            if index < len(row.press):
                findings.expect_equal(
                    seam.press, row.press[index], ROW_SEAMS, f"{seam.pointer}/press", f"press of row {row.row}"
                )
            names = places[a].unit, places[b].unit
            check_names(seam, names, ROW_SEAMS, findings)
            found.append(toward(stitched, out[b]))
    report_strays(at_ends, ROW_SEAMS, findings)
    return found


def _check_row_joins(book: Book, meeting: Meeting, findings: Findings) -> list[Stitched]:
    """One seam from row to row, along all edges that they share, and one for each corner triangle."""
    row_of = {item: row.row for row in book.booklet.rows for item in row.items}
    stretches: dict[tuple[str, str], list[tuple[Stretch, int]]] = defaultdict(list)
    for pair, shared in meeting.shared.items():
        low, high = sorted(pair, key=lambda place: (row_of.get(place, len(row_of) + 1), place))
        first, second = row_of.get(low), row_of.get(high)
        if first == second and first is not None:
            _check_neighbours(book, first, low, high, findings)
            continue
        names = (f"row {first}", f"row {second}") if second is not None else ("centre", f"{high}")
        if second is not None and first is not None and second - first != 1:
            findings.add(JOINS, book.booklet.places[high].pointer, f"rows {first} and {second} meet")
        stretches[names] += [(stretch, out[high]) for stretch, out in shared]
    at_ends = by_ends(book, OF_ROWS, findings)
    order = {seam.id: index for index, seam in enumerate(book.booklet.seams)}
    found: list[Stitched] = []
    for (one, other), parts in stretches.items():
        whole = _joined([stretch for stretch, _ in parts])
        stitched = at_ends.pop(meeting.ends(whole), None) if whole else None
        corner = not other.startswith("row")
        name = book.booklet.places[int(other)].unit if corner else other
        if stitched is None:
            findings.add(JOINS, "/seams", f"no single seam joins {one} and {name} where they meet")
            continue
        check_names(stitched.seam, (one, name), JOINS, findings)
        found.append(toward(stitched, parts[0][1]))
    report_strays(at_ends, JOINS, findings)
    found.sort(key=lambda each: order[each.seam.id])
    _check_halves(book, found, findings)
    return found


def _check_halves(book: Book, sewn: list[Stitched], findings: Findings) -> None:
    """See that rows are joined in their order, but the halves of a big quilt after all rows, and before its corners.

    Joins that side triangles wait for come before either.
    """
    half, rows = book.booklet.set.half, book.booklet.rows
    waited = {min(row.row, row.beside) for row in rows if row.beside is not None}
    late = sorted((row.row for row in rows[:-1] if row.row not in waited), key=lambda row: (row == half, row))
    message = f"rows cannot be joined in halves after row {say(half)}"
    findings.expect(half is None or half in late, JOINS, f"{book.booklet.set.pointer}/half", message)
    stated = "in the order of their numbers" if half is None else f"in halves, the seam after row {half} last"
    wanted = [f"row {row}" for row in late]
    order = [
        each.seam.first for each in sewn[: len(rows) - 1] if each.seam.first not in {f"row {row}" for row in waited}
    ]
    findings.expect(order == wanted, JOINS, "/seams", f"rows are not joined {stated}")


def _check_neighbours(book: Book, row: int, a: int, b: int, findings: Findings) -> None:
    items = book.booklet.rows[row - 1].items if 0 < row <= len(book.booklet.rows) else ()
    if a in items and b in items and abs(items.index(a) - items.index(b)) != 1:
        findings.add(ROW_SEAMS, book.booklet.places[b].pointer, f"places {a} and {b} of row {row} meet out of order")


def _joined(stretches: list[Stretch]) -> Stretch | None:
    """Return the one stretch that stretches end to end make; ``None`` when they do not."""
    ordered = sorted(stretches)
    line, low, high = ordered[0]
    for other, start, end in ordered[1:]:
        if other != line or start != high:
            return None
        high = end
    return line, low, high


# -------------------------------------------------------------------------------------------- borders


@dataclass(slots=True, kw_only=True)
class _Edges:
    """The quilt by its four edges, in the centre's frame."""

    left: Length
    top: Length
    right: Length
    bottom: Length

    def grow(self, edge: str, width: Length) -> None:
        """Sew a strip on."""
        setattr(self, edge, getattr(self, edge) + (-width if edge in ("left", "top") else width))

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Return top left, top right, bottom right and bottom left."""
        left, top, right, bottom = self.left, self.top, self.right, self.bottom
        return (left, top), (right, top), (right, bottom), (left, bottom)

    def line(self, edge: str) -> tuple[Point, Point]:
        """Return the ends of an edge."""
        a, b, c, d = self.corners()
        return {"left": (a, d), "top": (a, b), "right": (b, c), "bottom": (d, c)}[edge]


def _check_border_seams(book: Book, findings: Findings) -> list[Stitched]:
    """Sew the borders on, strip by strip, and find each seam where the quilt ends by then."""
    centre = book.booklet.set.centre
    quilt = _Edges(left=ZERO, top=ZERO, right=centre.w, bottom=centre.h)
    order = {seam.id: index for index, seam in enumerate(book.booklet.seams)}
    found: list[Stitched] = []
    for border in book.booklet.borders:
        at_ends = by_ends(book, f"border {border.order}", findings)
        sewn: list[Stitched] = []
        for line, names in _border_lines(border, quilt):
            stitched = at_ends.pop(frozenset(book.plane.point(x, y) for x, y in line), None)
            if stitched is None:
                message = f"no seam of border {border.order} joins {names[0]} to {names[1]} from {say(line[0])}"
                findings.add(BORDER_SEAMS, border.pointer, message)
            else:
                check_names(stitched.seam, names, BORDER_SEAMS, findings)
                sewn.append(stitched)
        report_strays(at_ends, BORDER_SEAMS, findings)
        found += sorted(sewn, key=lambda each: order[each.seam.id])
    return found


def strips_laid(book: Book) -> Iterator[tuple[str, int, Length, Length]]:
    """Yield the units of pieced strips with their turn and the centre of their box, in the centre's frame.

    Borders are as wide on all edges, so the middle of each edge is that of the centre.
    """
    centre = book.booklet.set.centre
    quilt = _Edges(left=ZERO, top=ZERO, right=centre.w, bottom=centre.h)
    for border in book.booklet.borders:
        half = border.width / 2
        for strip in border.strips:
            places = {
                "left": (quilt.left - half, centre.h / 2),
                "right": (quilt.right + half, centre.h / 2),
                "top": (centre.w / 2, quilt.top - half),
                "bottom": (centre.w / 2, quilt.bottom + half),
            }
            quilt.grow(strip.edge, border.width)
            if strip.unit is not None:
                yield strip.unit, strip.turn, *places[strip.edge]


def _border_lines(border: Border, quilt: _Edges) -> list[tuple[tuple[Point, Point], tuple[str, str]]]:
    """Return the seams of a border with the names on their two sides; the quilt has grown by it afterwards."""
    outer, inner = f"border {border.order}", "centre" if border.order == 1 else f"border {border.order - 1}"
    before = replace(quilt)
    lines: list[tuple[tuple[Point, Point], tuple[str, str]]] = []
    for strip in border.strips:
        names = (outer, inner) if strip.edge in ("left", "top") else (inner, outer)
        lines.append(((before if border.corner == "mitred" else quilt).line(strip.edge), names))
        quilt.grow(strip.edge, border.width)
    for near, far in zip(before.corners(), quilt.corners(), strict=True):
        if border.corner == "mitred":
            lines.append(((near, far), (outer, outer)))
        elif border.corner == "cornerstone":
            # It is sewn to the ends of the strips that come last, on the line of those that come first.
            first_upright = border.strips[0].edge in ("left", "right")
            end = (near[0], far[1]) if first_upright else (far[0], near[1])
            low = far[0] < near[0] if first_upright else far[1] < near[1]
            lines.append(((near, end), ("cornerstone", outer) if low else (outer, "cornerstone")))
    return lines
