"""Colours of bundles: every piece that is cut shows one of them, and like prints touch as often as is said.

Who lies beside whom is found from the centres of the blocks alone: those of a straight set stand in columns and lines,
and on point every second one does, so that blocks along an edge are one step away both ways and blocks at a corner two
steps one way.
"""

from __future__ import annotations

from itertools import product
from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.print_record import LayoutNote
from seamleaf.proof.prints import PRINTS, print_roles
from seamleaf.proof.record import Fabric, Place
from seamleaf.proof.report import Findings

Print = tuple[str, int]
"""A bundle fabric and one of its colours; colours that pass for each other are the first of them."""
_EDGES: Final = {"straight": ((1, 0), (0, 1)), "on-point": ((1, 1), (-1, 1))}
_CORNERS: Final = {"straight": ((1, 1), (-1, 1)), "on-point": ((2, 0), (0, 2))}


def check_colours(book: Book, findings: Findings) -> None:
    """Check the colours of all bundles, then the layout of their prints."""
    sound = [_check_fabric(book, fabric, findings) for fabric in book.booklet.fabrics]
    layout = book.booklet.layout
    printed = any(place.prints for place in book.booklet.places)
    told = findings.expect(
        printed == (layout is not None), PRINTS, "/layout", "a layout of prints where blocks have any"
    )
    if told and layout is not None and all(sound):
        _check_layout(book, layout, findings)


def _check_fabric(book: Book, fabric: Fabric, findings: Findings) -> bool:
    """See that pieces and verdicts agree; return whether they can be used further."""
    if not isinstance(fabric.need, int):
        nothing = not fabric.pieces and not fabric.choice
        return findings.expect(nothing, PRINTS, f"{fabric.pointer}/pieces", "yardage has no pieces to choose")
    known = range(len(fabric.colours))
    cut = sum(sheet.times for sheet in book.booklet.cutting if sheet.fabric == fabric.id)
    right = findings.expect_equal(len(fabric.pieces), cut, PRINTS, f"{fabric.pointer}/pieces", "pieces with a colour")
    right &= findings.expect(
        all(colour in known for colour in fabric.pieces),
        PRINTS,
        f"{fabric.pointer}/pieces",
        f"a piece shows a colour that is none of the {len(known)}",
    )
    right &= findings.expect_equal(
        len(fabric.choice), len(known), PRINTS, f"{fabric.pointer}/choice", "colours with a verdict"
    )
    for index, note in enumerate(fabric.choice):
        message = f"colour {index} of {fabric.id} is {note.state}, but shown by {fabric.pieces.count(index)} pieces"
        findings.expect((note.state == "used") == (index in fabric.pieces), PRINTS, f"{note.pointer}/state", message)
        earlier = note.alike is None or (0 <= note.alike < index and fabric.choice[note.alike].alike is None)
        right &= findings.expect(earlier, PRINTS, f"{note.pointer}/alike", "no earlier colour that is its own print")
    return right


def _check_layout(book: Book, layout: LayoutNote, findings: Findings) -> None:
    """Count the prints that neighbours share."""
    shown = _shown(book)
    if shown is None:
        return  # a place or a piece at fault was reported before
    edge, corner = _shared(book, shown, _EDGES), _shared(book, shown, _CORNERS)
    fabrics = {fabric for prints in shown.values() for fabric, _ in prints}
    blocks_only = all(place.kind == "block" for place in book.booklet.places if place.prints)
    exact = len(fabrics) == 1 and blocks_only
    for found, said, name in ((edge, layout.like_edge, "like_edge"), (corner, layout.like_corner, "like_corner")):
        # Colours of two bundles may pass for each other, which only the eye or a colour formula can tell.
        message = f"{said} like prints are said to touch, {found} do"
        findings.expect(said == found if exact else said >= found, PRINTS, f"/layout/{name}", message)
    least = layout.like_bound <= layout.like_edge + layout.like_corner
    findings.expect(least, PRINTS, "/layout/like_bound", "a lower bound above what was reached")


def _shown(book: Book) -> dict[str, frozenset[Print]] | None:
    """Return the prints of each block by the pointer of its place."""
    roles = print_roles(book)
    fabrics = {fabric.id: fabric for fabric in book.booklet.fabrics}
    shown: dict[str, frozenset[Print]] = {}
    for place in book.booklet.places:
        wanted = roles.get(place.unit, [])
        if len(wanted) != len(place.prints):
            return None
        prints: set[Print] = set()
        for (name, _), piece in zip(wanted, place.prints, strict=True):
            fabric = fabrics[name]
            if not 1 <= piece <= len(fabric.pieces):
                return None
            colour = fabric.pieces[piece - 1]
            alike = fabric.choice[colour].alike
            prints.add((name, colour if alike is None else alike))
        shown[place.pointer] = frozenset(prints)
    return shown


def _shared(
    book: Book, shown: dict[str, frozenset[Print]], ways: dict[str, tuple[tuple[int, int], tuple[int, int]]]
) -> int:
    """Count the prints that are shared in these directions, block by block."""
    at = _grid(book)
    steps = ways[book.booklet.set.kind]
    return sum(
        len(shown[place.pointer] & shown[at[x + dx, y + dy].pointer])
        for ((x, y), place), (dx, dy) in product(at.items(), steps)
        if (x + dx, y + dy) in at
    )


def _grid(book: Book) -> dict[tuple[int, int], Place]:
    """Return the blocks by the numbers of the columns and lines in which their centres stand."""
    blocks = [place for place in book.booklet.places if place.kind == "block"]
    columns = {x: number for number, x in enumerate(sorted({place.x for place in blocks}))}
    lines = {y: number for number, y in enumerate(sorted({place.y for place in blocks}))}
    # On point a single column or line has no blocks between its own, which would stand on the odd numbers.
    single = book.booklet.set.kind == "on-point" and min(book.booklet.set.across, book.booklet.set.down) == 1
    step = 2 if single else 1
    return {(step * columns[place.x], step * lines[place.y]): place for place in blocks}
