"""How blocks look when they are turned, by what their patches show."""

from __future__ import annotations

from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.plane import Polygon, add, subtract, turned
from seamleaf.proof.record import Unit
from seamleaf.proof.report import Findings
from seamleaf.proof.shapes import Shape, laid, polygon_of

SYMMETRY: Final = "symmetry"
TURNED: Final = "turned blocks"
VARIANTS: Final = "A and B units"

Look = tuple[str, int | None, frozenset[tuple[int, int, int, int]]]
"""A patch as the eye sees it: fabric, print and corners."""


def check_turns(book: Book, shapes: dict[str, Shape], findings: Findings) -> None:
    """Find which turns leave a unit looking the same; the pressing may turn a block by no other."""
    looks: dict[str, list[tuple[str, int | None, Polygon]]] = {}
    for unit in book.booklet.units:
        shape = shapes[unit.id]
        found: list[tuple[str, int | None, Polygon]] = []
        for take in unit.from_:
            if take.unit is not None:
                child, centre = shapes[take.unit], book.plane.point(take.x, take.y)
                found += (
                    (fabric, role, laid(child, outline, take.turn, take.mirror, centre))
                    for fabric, role, outline in looks[take.unit]
                )
        found += ((region.fabric, region.print, polygon_of(book.plane, region.outline)) for region in unit.regions)
        looks[unit.id] = found
        real = _symmetry(book, shape, found, unit.finished.w == unit.finished.h)
        findings.expect_equal(unit.symmetry, real, SYMMETRY, f"{unit.pointer}/symmetry", f"symmetry of {unit.id}")
    _check_turned(book, findings)
    _check_variants(book, findings)


def _symmetry(book: Book, shape: Shape, looks: list[tuple[str, int | None, Polygon]], square: bool) -> int:
    if any(_has_direction(book, fabric, outline) for fabric, _, outline in looks):
        return 360
    seen = {_look(each) for each in looks}
    for turn in (90, 180):
        if turn == 90 and not square:
            continue
        middle = shape.middle
        moved = (
            (fabric, role, tuple(add(turned(subtract(point, middle), turn // 45), middle) for point in outline))
            for fabric, role, outline in looks
        )
        if {_look(each) for each in moved} == seen:
            return turn
    return 360


def _look(patch: tuple[str, int | None, Polygon]) -> Look:
    fabric, role, outline = patch
    return fabric, role, frozenset(outline)


def _has_direction(book: Book, fabric: str, outline: Polygon) -> bool:
    """Rectangles of a directional print show its direction; triangles cut from squares lose it anyhow."""
    return book.fabrics[fabric].directional and len(outline) > 3


def _check_variants(book: Book, findings: Findings) -> None:
    """See that every A unit has a B unit that is sewn alike, and the other way round."""
    sewn: dict[tuple[object, ...], set[str | None]] = {}
    for unit in book.booklet.units:
        sewn.setdefault(_sewn_as(unit), set()).add(unit.variant)
    for unit in book.booklet.units:
        if unit.variant is not None:
            other = "B" if unit.variant == "A" else "A"
            message = f"{unit.id} is an {unit.variant} unit, and no {other} unit is sewn like it"
            findings.expect(other in sewn[_sewn_as(unit)], VARIANTS, f"{unit.pointer}/variant", message)


def _sewn_as(unit: Unit) -> tuple[object, ...]:
    patches = tuple((region.label, region.outline) for region in unit.regions)
    return unit.how, unit.method, unit.axis, unit.finished.sides, patches


def _check_turned(book: Book, findings: Findings) -> None:
    turned_blocks = [place for place in book.booklet.places if place.pressing_turn]
    findings.expect_equal(
        book.booklet.pressing.turned, len(turned_blocks), TURNED, "/pressing/turned", "blocks turned for the pressing"
    )
    for place in turned_blocks:
        symmetry = book.units[place.unit].symmetry
        message = f"a turn of {place.pressing_turn} shows in {place.unit}"
        good = symmetry > 0 and place.pressing_turn % symmetry == 0 and 0 < place.pressing_turn < 360
        findings.expect(good, TURNED, f"{place.pointer}/pressing_turn", message)
    straight = book.booklet.set.kind == "straight"
    for place in book.booklet.places:
        if place.kind == "block":
            message = f"a block turned by {place.turn} in a {book.booklet.set.kind} set"
            findings.expect(place.turn % 90 == (0 if straight else 45), TURNED, f"{place.pointer}/turn", message)
