"""The stops to measure: each one that a maker needs is there, and expects what is really sewn."""

from __future__ import annotations

from typing import Final

from seamleaf.lengths import Length
from seamleaf.proof.book import Book
from seamleaf.proof.record import Gate
from seamleaf.proof.report import Findings, say

GATES: Final = "stop and measure"

Sides = tuple[Length | None, Length]


def check_gates(book: Book, findings: Findings) -> None:
    """See that the first unit, each kind of block, the first row, the centre and each border are measured."""
    booklet = book.booklet
    around = book.seam * 2
    expected: dict[tuple[str, str], Sides] = {}
    units = {unit.id: unit for unit in booklet.units}
    placed = {place.unit for place in booklet.places if place.kind == "block"}
    sewn = [unit.id for unit in booklet.units if unit.how != "patch"]
    gated = [gate.of for gate in booklet.gates if gate.after in ("unit", "block")]
    for id_ in dict.fromkeys([*sewn[:1], *(id_ for id_ in sewn if id_ in placed), *gated]):
        if id_ in units:
            size = units[id_].trim or units[id_].made
            expected["unit", id_] = size.sides
    row = _first_row(book)
    if row is not None:
        number, block = row
        if booklet.set.run == "down":
            expected["row", number] = (block[0] + around, booklet.set.centre.h + around)
        else:
            length = booklet.set.centre.w + around if booklet.set.kind == "straight" else None
            expected["row", number] = (length, block[1] + around)
    expected["centre", "centre"] = (booklet.set.centre.w + around, booklet.set.centre.h + around)
    for border in booklet.borders:
        expected["border", str(border.order)] = (border.after.w + around, border.after.h + around)
    found = {_key(gate): gate for gate in booklet.gates}
    findings.expect(len(found) == len(booklet.gates), GATES, "/gates", "something is measured twice")
    for key, sides in expected.items():
        if findings.expect(key in found, GATES, "/gates", f"nothing is measured after {key[0]} {key[1]}"):
            gate = found.pop(key)
            message = f"{say(gate.w)} x {say(gate.h)} after {key[0]} {key[1]}, which measures "
            message += f"{say(sides[0])} x {say(sides[1])}"
            findings.expect((gate.w, gate.h) == sides, GATES, gate.pointer, message)
    for key, gate in found.items():
        findings.add(GATES, gate.pointer, f"{key[0]} {key[1]} is measured, which nobody sews")


def _key(gate: Gate) -> tuple[str, str]:
    return ("unit" if gate.after == "block" else gate.after, gate.of)


def _first_row(book: Book) -> tuple[str, tuple[Length, Length]] | None:
    """Return the first row of several pieces that holds a block, and the block's finished sides as it lies."""
    places, units = book.booklet.places, {unit.id: unit for unit in book.booklet.units}
    for row in book.booklet.rows:
        blocks = [places[item] for item in row.items if places[item].kind == "block"]
        if blocks and len(row.items) > 1 and blocks[0].unit in units:
            w, h = units[blocks[0].unit].finished.sides
            return str(row.row), (h, w) if blocks[0].turn % 180 in (90, 135) else (w, h)
    return None
