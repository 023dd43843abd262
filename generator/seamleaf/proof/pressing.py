"""Match points, found again over the whole top, every copy of every seam laid out.

A match point is a point inside a seam where a seam ends from each side. Of several that end there from one side the
one sewn last governs: its allowance is the one that the maker butts. The point nests when the two allowances lie in
opposite directions along the seam that they end on.

A seam is spun round its only match point: seen from there all four allowances lie clockwise of their seams, or all
anticlockwise, as the two seams that end there say. So its two halves are folded to different sides, and each end
has its own direction.

All seams are laid out as stretches of lines; for every point where seams end, the lines through it are looked up.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from seamleaf.proof.book import MAX_SEAMS, Book
from seamleaf.proof.joining import strips_laid
from seamleaf.proof.plane import Plane, Spot, Vector, add, subtract, turned
from seamleaf.proof.record import Press
from seamleaf.proof.report import Findings, say
from seamleaf.proof.shapes import Shape, Stitched

MATCH: Final = "match points"
INSIDE: Final = "match points inside"
PINS: Final = "pins"
MAX_PINS: Final = 200

Verdict = Literal["nested", "open", "spun", "clash"]


@dataclass(frozen=True, slots=True)
class Laid:
    """One copy of a seam."""

    start: Vector
    end: Vector
    way: int
    press: Press
    toward: tuple[int, int]
    """Directions of the allowance at the start and at the end; of no account when it is open."""


@dataclass(frozen=True, slots=True)
class _Match:
    """A match point: indexes of the seam that it lies in and of those that govern it, and which end of theirs."""

    on: int
    along: int
    """Direction of the line that it lies on."""
    one: tuple[int, int]
    """On the clockwise side."""
    other: tuple[int, int]


def check_pressing(book: Book, shapes: dict[str, Shape], joins: list[Stitched], findings: Findings) -> int | None:
    """Compare the match points of every unit and of the whole top; return how many seams the top has."""
    stitched = _Stitched(book, shapes, findings)
    if not stitched.fits():
        findings.add(MATCH, "/units", f"more than {MAX_SEAMS} seams")
        return None
    _check_inside(book, stitched, findings)
    seams: list[Laid] = []
    for place in book.booklet.places:
        centre = book.plane.point(place.x, place.y)
        seams += stitched.copies(place.unit, place.turn, place.mirror, centre)
    for unit, turn, x, y in strips_laid(book):
        seams += stitched.copies(unit, turn, False, book.plane.point(x, y))
    seams += (_as_sewn(book.plane, each) for each in joins)
    found = verdicts(book.plane, seams)
    counts = Counter(found.values())
    note = book.booklet.pressing
    for key, stated, real in (
        ("match_points", note.match_points, len(found)),
        ("nested", note.nested, counts["nested"]),
        ("open", note.open, counts["open"]),
        ("spun", note.spun, counts["spun"]),
        ("clash", note.clash, counts["clash"]),
    ):
        findings.expect_equal(stated, real, MATCH, f"/pressing/{key}", f"{key.replace('_', ' ')} of the top")
    findings.expect(note.clash > 0 or note.proven, MATCH, "/pressing/proven", "none can clash less than none")
    total = note.nested + note.open + note.spun + note.clash
    message = f"nested, open, spun and clash add up to {total}, not to {note.match_points}"
    findings.expect(total == note.match_points, MATCH, "/pressing", message)
    _check_pins(book, [point for point, verdict in found.items() if verdict == "clash"], findings)
    return len(seams)


def _check_inside(book: Book, stitched: _Stitched, findings: Findings) -> None:
    inside = book.booklet.pressing.inside
    for unit in book.booklet.units:
        note = inside.get(unit.id)
        found = verdicts(book.plane, stitched.of(unit.id))
        if note is None:
            # Units that are one patch, as setting triangles are, may be left out.
            findings.expect(not unit.seams, INSIDE, "/pressing/inside", f"nothing said of unit {unit.id}")
            continue
        nested = sum(verdict in ("nested", "spun") for verdict in found.values())  # a spin lies flat too
        findings.expect_equal(
            note.match_points, len(found), INSIDE, f"{note.pointer}/match_points", f"match points of {unit.id}"
        )
        findings.expect_equal(note.nested, nested, INSIDE, f"{note.pointer}/nested", f"nested inside {unit.id}")


def _check_pins(book: Book, clashing: list[Vector], findings: Findings) -> None:
    """See that the match points that do not nest are listed, 200 of them at most."""
    pins = [book.plane.point(pin.x, pin.y) for pin in book.booklet.pressing.pins]
    real = set(clashing)
    for pin, point in zip(book.booklet.pressing.pins, pins, strict=True):
        message = f"a pin at {say(pin.x)}, {say(pin.y)}, where all nests"
        findings.expect(point in real, PINS, pin.pointer, message)
    wanted = min(len(real), MAX_PINS)
    findings.expect_equal(len(set(pins)), wanted, PINS, "/pressing/pins", "points to pin")


# -------------------------------------------------------------------------------- laying the seams out


def _as_sewn(plane: Plane, seam: Stitched) -> Laid:
    toward = seam.before if seam.seam.press == "before" else plane.turned_way(seam.before, 4)
    return Laid(seam.start, seam.end, seam.way, seam.seam.press, (toward, toward))


@dataclass(slots=True)
class _Stitched:
    """The seams inside units, in sewing order: in each unit's frame, measured from the middle of its box."""

    book: Book
    shapes: dict[str, Shape]
    findings: Findings
    _of: dict[str, list[Laid]] = field(default_factory=dict)
    _turned: dict[tuple[str, int, bool], list[Laid]] = field(default_factory=dict)

    def fits(self) -> bool:
        """Whether the seams are few enough to lay them all out."""
        copies = self.book.copies()
        inside = {
            unit: sum(len(self.book.units[name].seams) * count for name, count in held.items())
            for unit, held in copies.items()
        }
        top = sum(inside[place.unit] for place in self.book.booklet.places)
        top += sum(inside[unit] * count for unit, count in self.book.strips().items())
        return max(top, *inside.values()) <= MAX_SEAMS

    def of(self, unit: str) -> list[Laid]:
        """Return the seams inside a unit: first those of what it takes, then its own."""
        if unit not in self._of:
            plane, shape = self.book.plane, self.shapes[unit]
            found: list[Laid] = []
            for take in self.book.units[unit].from_:
                if take.unit is not None:
                    centre = subtract(plane.point(take.x, take.y), shape.middle)
                    found += self.copies(take.unit, take.turn, take.mirror, centre)
            for each in (_as_sewn(plane, seam) for seam in shape.seams):
                start, end = subtract(each.start, shape.middle), subtract(each.end, shape.middle)
                found.append(Laid(start, end, each.way, each.press, each.toward))
            self._spin(unit, found)
            self._of[unit] = found
        return self._of[unit]

    def _spin(self, unit: str, seams: list[Laid]) -> None:
        """Give the spun seams of a unit the directions of their two ends."""
        own = self.shapes[unit].seams
        for index, stitched in enumerate(own, len(seams) - len(own)):
            if seams[index].press != "spin":
                continue
            seam = stitched.seam
            on = [match for match in match_points(self.book.plane, seams).values() if match.on == index]
            clockwise = _rotation(self.book.plane, seams, on[0]) if len(on) == 1 else None
            if clockwise is None:
                message = f"seam {seam.id} cannot be spun: that takes one match point, whose seams turn one way round"
                self.findings.add(MATCH, f"{seam.pointer}/press", message)
                continue
            way = seams[index].way
            plane, step = self.book.plane, 2 if clockwise else 6
            toward = plane.turned_way(way, 4 + step), plane.turned_way(way, step)
            seams[index] = replace(seams[index], toward=toward)

    def copies(self, unit: str, turn: int, mirror: bool, centre: Vector) -> Iterable[Laid]:
        """Return the seams inside a unit as it lies."""
        key = unit, turn // 45, mirror
        if key not in self._turned:
            self._turned[key] = [_turned(self.book.plane, seam, turn // 45, mirror) for seam in self.of(unit)]
        for seam in self._turned[key]:
            yield Laid(add(seam.start, centre), add(seam.end, centre), seam.way, seam.press, seam.toward)


def _turned(plane: Plane, seam: Laid, eighths: int, mirror: bool) -> Laid:
    start, end = turned(seam.start, eighths, mirror), turned(seam.end, eighths, mirror)
    way = plane.turned_way(seam.way, eighths, mirror)
    at_start, at_end = (plane.turned_way(toward, eighths, mirror) for toward in seam.toward)
    return Laid(start, end, way, seam.press, (at_start, at_end))


# ----------------------------------------------------------------------------------------- match points


def verdicts(plane: Plane, seams: list[Laid]) -> dict[Vector, Verdict]:
    """Return every match point of seams that stand in sewing order, with how it comes out."""
    return {point: _verdict(plane, seams, match) for point, match in match_points(plane, seams).items()}


def match_points(plane: Plane, seams: list[Laid]) -> dict[Vector, _Match]:
    """Return every match point of seams that stand in sewing order."""
    ends: dict[Vector, list[tuple[int, int, int]]] = defaultdict(list)
    lines: dict[Spot, list[tuple[int, int, int]]] = defaultdict(list)
    rank = plane.rank
    for index, seam in enumerate(seams):
        ends[seam.start].append((index, 0, seam.way))
        ends[seam.end].append((index, 1, plane.turned_way(seam.way, 4)))
        line, one = plane.spot_on(seam.way, seam.start)
        _, other = plane.spot_on(seam.way, seam.end)
        a, b = rank(one), rank(other)
        lines[line].append((a, b, index) if a < b else (b, a, index))
    for stretches in lines.values():
        stretches.sort()
    known = {line[0] for line in lines}
    forward = [way for way in plane.forward_ways() if way in known]
    found: dict[Vector, _Match] = {}
    for point, incident in ends.items():
        if len(incident) < 2:
            continue
        for way in forward:
            line, along = plane.spot_on(way, point)
            stretches_on = lines.get(line)
            on = None if stretches_on is None else _holding(stretches_on, rank(along))
            governing = None if on is None else _governing(plane, incident, way)
            if on is not None and governing is not None:
                found[point] = _Match(on, way, *governing)
                break
    return found


def _holding(stretches: list[tuple[int, int, int]], at: int) -> int | None:
    """Return which seam of a line holds a place strictly inside; the seams of a line do not overlap."""
    index = bisect_left(stretches, (at,)) - 1
    if index >= 0 and stretches[index][0] < at < stretches[index][1]:
        return stretches[index][2]
    return None


def _governing(
    plane: Plane, incident: list[tuple[int, int, int]], along: int
) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """Return the last sewn of the seams that end here from each side of a line, with their ends; clockwise first."""
    last: dict[bool, tuple[int, int]] = {}
    for index, end, way in incident:
        side = (way - along) % (8 * plane.eighth)
        if side % (4 * plane.eighth):
            clockwise = side < 4 * plane.eighth
            last[clockwise] = max((index, end), last.get(clockwise, (-1, 0)))
    return (last[True], last[False]) if len(last) == 2 else None


def _verdict(plane: Plane, seams: list[Laid], match: _Match) -> Verdict:
    if seams[match.on].press == "spin" and _rotation(plane, seams, match) is not None:
        return "spun"
    if "open" in (seams[match.one[0]].press, seams[match.other[0]].press):
        return "open"
    one, other = _leans(plane, seams, match.one, match.along), _leans(plane, seams, match.other, match.along)
    return "clash" if one == other else "nested"


def _leans(plane: Plane, seams: list[Laid], end: tuple[int, int], along: int) -> bool:
    """Whether an allowance lies forward along a line; it cannot lie square to it, since its seam crosses the line."""
    ahead = (seams[end[0]].toward[end[1]] - along) % (8 * plane.eighth)
    return ahead < 2 * plane.eighth or ahead > 6 * plane.eighth


def _rotation(plane: Plane, seams: list[Laid], match: _Match) -> bool | None:
    """Whether the two seams that end at a match point are folded clockwise round it; ``None`` when neither way."""
    if "open" in (seams[match.one[0]].press, seams[match.other[0]].press):
        return None
    one, other = _leans(plane, seams, match.one, match.along), _leans(plane, seams, match.other, match.along)
    return None if one == other else other
