"""Prints of bundles: every block gets its patches of one print from one piece, and no piece gives more than it has."""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.cutting import TRIANGLES
from seamleaf.proof.record import Fabric, Sheet
from seamleaf.proof.report import Findings

PRINTS: Final = "prints"
MAX_PIECES: Final = 100_000
"""No quilt takes so many; more are damage, and would cost time to number."""

Role = tuple[str, int]
"""Fabric and print."""


def check_prints(book: Book, findings: Findings) -> None:
    """Hand out the bundle pieces block by block and see that each lasts."""
    roles = print_roles(book)
    given: dict[tuple[str, int], Counter[str]] = defaultdict(Counter)
    used: dict[str, set[int]] = defaultdict(set)
    for place in book.booklet.places:
        wanted = roles.get(place.unit, [])
        message = f"{len(place.prints)} prints for {len(wanted)} print roles of {place.unit}"
        if not findings.expect(len(place.prints) == len(wanted), PRINTS, f"{place.pointer}/prints", message):
            continue
        for (name, role), piece in zip(wanted, place.prints, strict=True):
            used[name].add(piece)
            for patch in book.booklet.patches:
                if patch.fabric == name and patch.print == role and place.unit in patch.per_block:
                    given[name, piece][patch.label] += patch.per_block[place.unit]
        _check_apart(place.prints, wanted, f"{place.pointer}/prints", findings)
    for fabric in book.booklet.fabrics:
        _check_fabric(book, fabric, given, used[fabric.id], findings)
    _check_batches(book, roles, findings)


def _check_apart(prints: tuple[int, ...], roles: list[Role], pointer: str, findings: Findings) -> None:
    """Two print roles of one fabric in a block are two different prints."""
    pairs = [(fabric, piece) for (fabric, _), piece in zip(roles, prints, strict=True)]
    findings.expect(len(set(pairs)) == len(pairs), PRINTS, pointer, "one piece serves two print roles of a block")


def print_roles(book: Book) -> dict[str, list[Role]]:
    """Return the print roles of each unit that is placed, fabric by fabric."""
    order = {fabric.id: index for index, fabric in enumerate(book.booklet.fabrics)}
    found: dict[str, set[Role]] = defaultdict(set)
    for patch in book.booklet.patches:
        if patch.print is not None:
            for block in patch.per_block:
                found[block].add((patch.fabric, patch.print))
    return {block: sorted(roles, key=lambda role: (order[role[0]], role[1])) for block, roles in found.items()}


def _check_fabric(
    book: Book,
    fabric: Fabric,
    given: dict[tuple[str, int], Counter[str]],
    used: set[int],
    findings: Findings,
) -> None:
    at = f"{fabric.pointer}/prints"
    if not isinstance(fabric.need, int):
        findings.expect_equal(fabric.prints, 1, PRINTS, at, f"prints of {fabric.id}")
        for sheet in book.booklet.cutting:
            if sheet.fabric == fabric.id:
                findings.expect(sheet.pieces is None, PRINTS, f"{sheet.pointer}/pieces", "strips have no numbers")
        return
    findings.expect_equal(fabric.prints, len(used), PRINTS, at, f"pieces of {fabric.id} that the blocks use")
    sheet_of = _numbered(book, fabric, findings)
    for piece in sorted(used):
        if piece not in sheet_of:
            findings.add(PRINTS, at, f"blocks use piece {piece} of {fabric.id}, which is not cut")
            continue
        sheet = sheet_of[piece]
        holds: Counter[str] = Counter()
        for part in sheet.parts:
            holds[part.label] += TRIANGLES[book.patches[part.label].shape]
        for label, count in given[fabric.id, piece].items():
            if count > holds[label]:
                message = f"piece {piece} of {fabric.id} gives {holds[label]} of {label}, the blocks take {count}"
                findings.add(PRINTS, f"{sheet.pointer}/parts", message)


def _numbered(book: Book, fabric: Fabric, findings: Findings) -> dict[int, Sheet]:
    """Return the sheet that each numbered piece is cut by; every piece has a number of its own."""
    found: dict[int, Sheet] = {}
    for sheet in book.booklet.cutting:
        if sheet.fabric != fabric.id:
            continue
        first, last = sheet.pieces or (1, 0)
        message = f"pieces {first} to {last} are cut {sheet.times} times"
        right = last - first + 1 == sheet.times <= MAX_PIECES
        if findings.expect(right, PRINTS, f"{sheet.pointer}/pieces", message):
            numbers = dict.fromkeys(range(first, last + 1), sheet)
            apart = not found.keys() & numbers.keys()
            findings.expect(apart, PRINTS, f"{sheet.pointer}/pieces", "a piece that is cut twice")
            found |= numbers
    return found


def _check_batches(book: Book, roles: dict[str, list[Role]], findings: Findings) -> None:
    """See that batches of prints come out even in every block, since a batch serves one block."""
    for unit in book.booklet.units:
        bound = any(take.label is not None and book.patches[take.label].print is not None for take in unit.from_)
        for block, count in unit.per_block.items():
            if bound and block in roles and unit.makes > 0:
                message = f"{count} of {unit.id} in {block} do not come out of batches of {unit.makes} of one print"
                findings.expect(count % unit.makes == 0, PRINTS, f"{unit.pointer}/makes", message)
