"""Cutting, done again: every listed cut is made with a ruler from edge to edge, and the patches picked up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.backing import rests_taken
from seamleaf.proof.book import Book
from seamleaf.proof.record import Fabric, Sheet, SheetPart
from seamleaf.proof.report import Findings, say

SHEETS: Final = "sheets"
CUTS: Final = "cuts"
ROLES: Final = "print roles"
OFFCUTS: Final = "offcuts"

WORTH_KEEPING: Final = {"in": Fraction(3, 2), "cm": Fraction(4)}
"""Least side of a rest that is told, in inches or centimetres (a convention of the format)."""

TRIANGLES: Final = {"rectangle": 1, "strip": 1, "halved": 2, "quartered": 4}
"""Patches that one cut square or rectangle gives."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of fabric on the table, by the ranks of its edges."""

    left: int
    top: int
    right: int
    bottom: int


Sizes = Counter[tuple[Length, Length]]


def check_cutting(book: Book, findings: Findings) -> None:
    """Cut every sheet of the plan and count what is left over."""
    rests = check_sheets(book, book.booklet.cutting, findings)
    for (fabric, w, h), count in rests_taken(book).items():
        left = rests.get(fabric, Counter())[w, h]
        message = f"{count} rests of {say(w)} x {say(h)} of {fabric} in the back, {left} left"
        findings.expect(count <= left, OFFCUTS, f"{book.booklet.backing.pointer}/insert", message)
        rests.setdefault(fabric, Counter())[w, h] -= count
    for offcut in book.booklet.offcuts:
        size = max(offcut.w, offcut.h), min(offcut.w, offcut.h)
        left = rests.get(offcut.fabric, Counter())[size]
        message = f"{offcut.count} rests of {say(offcut.w)} x {say(offcut.h)} of {offcut.fabric} promised, {left} left"
        findings.expect(0 < offcut.count <= left, OFFCUTS, offcut.pointer, message)
        rests.setdefault(offcut.fabric, Counter())[size] -= offcut.count
    least = Length(WORTH_KEEPING[book.booklet.unit])
    for fabric, left_of in rests.items():
        for (w, h), left in left_of.items():
            message = f"{left} rests of {say(w)} x {say(h)} of {fabric} are left and not told"
            findings.expect(h < least or left <= 0, OFFCUTS, "/offcuts", message)


def check_sheets(book: Book, sheets: Sequence[Sheet], findings: Findings) -> dict[str, Sizes]:
    """Cut sheets, of the quilt or of a class; return the rests by fabric and size, the longer side first."""
    rests: dict[str, Sizes] = {}
    for sheet in sheets:
        fabric = book.fabrics[sheet.fabric]
        findings.expect(sheet.times > 0, SHEETS, f"{sheet.pointer}/times", f"a sheet cut {sheet.times} times")
        _check_size(sheet, fabric, findings)
        _check_roles(book, sheet, fabric, findings)
        for part in sheet.parts:
            _check_part(book, part, fabric, findings)
        gives = Counter(part.label for part in sheet.parts)
        findings.expect_equal(sheet.gives, dict(gives), SHEETS, f"{sheet.pointer}/gives", "parts of each label")
        for size, count in _Table(book, sheet).cut(findings).items():
            rests.setdefault(sheet.fabric, Counter())[size] += count * sheet.times
    return rests


def tightest_of(sheets: Sequence[Sheet]) -> Length | None:
    """Return the least by which any sheet could be smaller before a patch is lost; ``None`` when nothing is cut.

    A strip is as high as its highest patch, so across the strip only patches that lie above each other count.
    """
    left: list[Length] = []
    for sheet in sheets:
        w, h = sheet.sheet.sides
        if not sheet.cuts and len(sheet.parts) == 1:
            continue
        left += (w - part.x - part.w for part in sheet.parts)
        left += (h - part.y - part.h for part in sheet.parts if part.y > 0 or sheet.print is not None or sheet.mixed)
    return min(left, default=None)


def _check_size(sheet: Sheet, fabric: Fabric, findings: Findings) -> None:
    w, h = sheet.sheet.sides
    findings.expect(w > 0 and h > 0, SHEETS, sheet.sheet.pointer, f"a sheet of {say(sheet.sheet)}")
    usable = fabric.usable
    if isinstance(usable, Length):
        message = f"a strip {say(w)} across fabric of usable width {say(usable)}"
        findings.expect(w <= usable, SHEETS, f"{sheet.sheet.pointer}/w", message)
    else:
        message = f"a piece of {say(sheet.sheet)}, of which only {say(usable)} is sure"
        findings.expect(w <= usable.w and h <= usable.h, SHEETS, sheet.sheet.pointer, message)


def _check_roles(book: Book, sheet: Sheet, fabric: Fabric, findings: Findings) -> None:
    """See that a bundle piece serves one print role of its block, or is said to be mixed; yardage has no prints."""
    prints = {book.patches[part.label].print for part in sheet.parts}
    if isinstance(fabric.usable, Length):
        good = sheet.print is None and not sheet.mixed and prints <= {None}
        findings.expect(good, ROLES, sheet.pointer, "yardage has no print roles")
    elif sheet.mixed:
        good = sheet.print is None and None not in prints
        findings.expect(good, ROLES, sheet.pointer, "a mixed piece names no print, and its patches do")
    else:
        message = f"a piece for print {say(sheet.print)} gives patches of print {say(sorted(map(str, prints)))}"
        good = sheet.print is not None and prints == {sheet.print}
        findings.expect(good, ROLES, f"{sheet.pointer}/print", message)


def _check_part(book: Book, part: SheetPart, fabric: Fabric, findings: Findings) -> None:
    patch = book.patches[part.label]
    laid = part.w, part.h
    good = laid == (patch.w, patch.h)
    if not fabric.directional and patch.shape != "strip":
        good = good or laid == (patch.h, patch.w)
    if not good:
        turned = " and may not be turned" if fabric.directional else ""
        message = f"{part.label} lies as {say(part.w)} x {say(part.h)}, but is {say(patch.w)} x {say(patch.h)}{turned}"
        findings.add(SHEETS, part.pointer, message)


class _Table:
    """One sheet on the cutting table."""

    def __init__(self, book: Book, sheet: Sheet) -> None:
        self._sheet = sheet
        self._rank = book.plane.rank
        self._coordinate = book.plane.coordinate
        self._length_at: dict[int, Length] = {}
        self._whole = self._piece(ZERO, ZERO, *sheet.sheet.sides)
        self._parts = [self._piece(part.x, part.y, part.w, part.h) for part in sheet.parts]

    def _at(self, length: Length) -> int:
        rank = self._rank(self._coordinate(length))
        self._length_at[rank] = length
        return rank

    def _piece(self, x: Length, y: Length, w: Length, h: Length) -> _Piece:
        return _Piece(self._at(x), self._at(y), self._at(x + w), self._at(y + h))

    def cut(self, findings: Findings) -> Sizes:
        """Make the cuts in their order, take the patches away, and return the sizes of what is left."""
        pile = _Pile(self._whole)
        for number, cut in enumerate(self._sheet.cuts, 1):
            if cut.n != number:
                findings.add(CUTS, f"{cut.pointer}/n", f"cut {cut.n} stands at place {number}")
            at, start, end = self._at(cut.at), self._at(cut.span[0]), self._at(cut.span[1])
            if not pile.cut(cut.axis == "x", at, start, end):
                findings.add(CUTS, cut.pointer, f"cut {cut.n} does not run from edge to edge of one piece of fabric")
                break
        for index, piece in enumerate(self._parts):
            if not pile.take(piece):
                self._explain(index, findings)
        return Counter(map(self._size_of, pile.pieces))

    def _explain(self, index: int, findings: Findings) -> None:
        """Say why a patch is not there: it lies outside the sheet, or on another, or nothing cuts it free."""
        part, lies, whole = self._sheet.parts[index], self._parts[index], self._whole
        if not _holds(whole, lies):
            findings.add(SHEETS, part.pointer, f"{part.label} lies outside its sheet")
            return
        for other, piece in zip(self._sheet.parts, self._parts, strict=True):
            if other is not part and _overlap(lies, piece):
                findings.add(SHEETS, part.pointer, f"{part.label} lies on {other.label} ({other.pointer})")
                return
        findings.add(CUTS, part.pointer, f"the cuts do not set {part.label} free")

    def _size_of(self, piece: _Piece) -> tuple[Length, Length]:
        at = self._length_at
        w, h = at[piece.right] - at[piece.left], at[piece.bottom] - at[piece.top]
        return max(w, h), min(w, h)


def _holds(whole: _Piece, piece: _Piece) -> bool:
    across = whole.left <= piece.left and piece.right <= whole.right
    return across and whole.top <= piece.top and piece.bottom <= whole.bottom


def _overlap(a: _Piece, b: _Piece) -> bool:
    return a.left < b.right and b.left < a.right and a.top < b.bottom and b.top < a.bottom


class _Pile:
    """The pieces on the table, found by the edges that a cut must run between."""

    def __init__(self, whole: _Piece) -> None:
        self.pieces: set[_Piece] = set()
        self._between: dict[tuple[bool, int, int], set[_Piece]] = {}
        self._put(whole)

    def _put(self, piece: _Piece) -> None:
        self.pieces.add(piece)
        for key in _edges_of(piece):
            self._between.setdefault(key, set()).add(piece)

    def take(self, piece: _Piece) -> bool:
        """Take a piece away; ``False`` when it is not there."""
        if piece not in self.pieces:
            return False
        self.pieces.remove(piece)
        for key in _edges_of(piece):
            self._between[key].discard(piece)
        return True

    def cut(self, upright: bool, at: int, start: int, end: int) -> bool:
        """Cut the one piece that a cut runs through from edge to edge; ``False`` when there is none."""
        for piece in self._between.get((upright, start, end), ()):
            if upright and piece.left < at < piece.right:
                halves = replace(piece, right=at), replace(piece, left=at)
            elif not upright and piece.top < at < piece.bottom:
                halves = replace(piece, bottom=at), replace(piece, top=at)
            else:
                continue
            self.take(piece)
            for half in halves:
                self._put(half)
            return True
        return False


def _edges_of(piece: _Piece) -> tuple[tuple[bool, int, int], tuple[bool, int, int]]:
    return (True, piece.top, piece.bottom), (False, piece.left, piece.right)
