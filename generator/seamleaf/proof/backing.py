"""The back: panels, and a strip of leftovers among them, measured again from the finished quilt outward."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import Book
from seamleaf.proof.finish_record import Backing, Insert, InsertPiece
from seamleaf.proof.report import Findings, say

BACKING: Final = "backing"

JOIN_INCHES: Final = 1
"""What a join of backing panels loses."""

Sides = tuple[Length, Length]


def check_backing(book: Book, sides: Sides, findings: Findings) -> None:
    """See that the back goes equally beyond all edges, that its panels cover it, and none other would take less."""
    back, patch = book.booklet.backing, book.patches[book.booklet.backing.label]
    check_beyond(back.w, back.h, sides, BACKING, back.pointer, findings)
    panel = back.panel
    good = patch.shape == "strip" and (patch.w, patch.h) == panel.sides
    message = f"{patch.label} is cut {say(patch.w)} x {say(patch.h)} as {patch.shape}, not as a panel of {say(panel)}"
    findings.expect(good, BACKING, patch.pointer, message)
    usable = book.usable_width(back.fabric)
    message = f"a panel {say(panel.w)} wide of fabric of usable width {say(usable)}"
    findings.expect(panel.w == usable, BACKING, f"{panel.pointer}/w", message)
    lost, spared = back.allowance * 2, book.measures.inch * JOIN_INCHES
    message = f"joins with {say(back.allowance)} lose {say(lost)} each, of {say(spared)} that the panels have for them"
    findings.expect(ZERO < lost <= spared, BACKING, f"{back.pointer}/allowance", message)
    need = panel.h * back.panels
    findings.expect_equal(back.need, need, BACKING, f"{back.pointer}/need", "fabric for the back")
    if back.insert is not None:
        findings.expect(back.insert_asked, BACKING, back.insert.pointer, "a strip of leftovers that nobody asked for")
        _check_insert(book, back, back.insert, usable, findings)
        return
    if not _covers(book, back):
        message = f"{back.panels} panels of {say(panel)}, seams {back.seam}, do not cover {say(back)}"
        findings.add(BACKING, back.pointer, message)
        return
    least = min(least_backing(book, across, along, usable) for across, along in ways_of_panels(book))
    message = f"the back takes {say(need)} of fabric, which {say(least)} would do"
    findings.expect(need < least + book.grid * back.panels, BACKING, f"{back.pointer}/need", message)


def _covers(book: Book, back: Backing) -> bool:
    width = _width_of(book, back.panel.w, back.panels)
    upright = width >= back.w and back.panel.h >= back.h
    lying = width >= back.h and back.panel.h >= back.w and not book.fabrics[back.fabric].directional
    if back.seam == "none":
        return back.panels == 1 and (upright or lying)
    return back.panels > 1 and (upright if back.seam == "vertical" else lying)


def _width_of(book: Book, usable: Length, panels: int) -> Length:
    """Return the width of panels side by side, with what their joins lose."""
    return usable * panels - book.measures.inch * (panels - 1) * JOIN_INCHES


def ways_of_panels(book: Book) -> tuple[Sides, ...]:
    """Return what panels lie side by side across, and how long they are; a print with an up allows but one way."""
    back = book.booklet.backing
    upright = back.w, back.h
    return (upright,) if book.fabrics[back.fabric].directional else (upright, (back.h, back.w))


def least_backing(book: Book, across: Length, along: Length, usable: Length, grid: Fraction | None = None) -> Length:
    """Return the length of fabric for panels that lie side by side across one side of the back.

    It is exact, or with a ``grid`` that of panels which a ruler can cut.
    """
    join = book.measures.inch * JOIN_INCHES
    panels = 1
    if across > usable and usable > join:
        panels += ((across - usable) / (usable - join)).ceil()
    return (along if grid is None else along.round_up(grid)) * panels


# ------------------------------------------------------------------------------------- a strip of leftovers


def _check_insert(book: Book, back: Backing, insert: Insert, usable: Length, findings: Findings) -> None:
    """Sew the strip of leftovers, put it between the panels, and see what it saves."""
    at, panel = insert.pointer, back.panel
    if not findings.expect(bool(insert.pieces), BACKING, at, "a strip of no pieces"):
        return
    for piece in insert.pieces:
        _check_piece(book, back, insert, piece, findings)
    joins = sum(piece.count for piece in insert.pieces) - 1
    length = sum((piece.gives * piece.count for piece in insert.pieces), ZERO) - book.seam * 2 * joins
    findings.expect_equal(insert.length, length, BACKING, f"{at}/length", "length of the joined pieces")
    message = f"a strip {say(length)} long beside panels of {say(panel.h)}"
    findings.expect(length >= panel.h, BACKING, f"{at}/length", message)
    parts = back.panels + 1 if back.panels > 1 else 3  # a single panel is cut in two, and the strip lies between
    whole = usable * back.panels + insert.width - book.measures.inch * (parts - 1) * JOIN_INCHES
    upright = back.seam == "vertical"
    across, along = (back.w, back.h) if upright else (back.h, back.w)
    sideways = back.seam != "vertical" and book.fabrics[back.fabric].directional
    covers = back.seam != "none" and not sideways and whole >= across and panel.h >= along
    message = f"{back.panels} panels of {say(panel)} and a strip {say(insert.width)} wide do not cover {say(back)}"
    findings.expect(covers, BACKING, back.pointer, message)
    two = len(insert.parts) == 2 and min(insert.parts) > ZERO and sum(insert.parts, ZERO) == usable
    good = two if back.panels == 1 else not insert.parts
    findings.expect(good, BACKING, f"{at}/parts", "a single panel, and no other, is cut lengthwise in two parts")
    plain = min(least_backing(book, a, b, usable, book.grid) for a, b in ways_of_panels(book))
    findings.expect_equal(insert.saves, plain - back.need, BACKING, f"{at}/saves", "fabric that the strip saves")
    findings.expect(insert.saves > 0, BACKING, f"{at}/saves", "a strip that saves nothing")


def _check_piece(book: Book, back: Backing, insert: Insert, piece: InsertPiece, findings: Findings) -> None:
    """See that leftovers are as large as the strip takes them, and that there are as many."""
    at = piece.pointer
    wide = [other for other, long in ((piece.w, piece.h), (piece.h, piece.w)) if long == piece.gives]
    message = f"{say(piece.w)} x {say(piece.h)} gives no {say(piece.gives)} of a strip {say(insert.width)} wide"
    enough = any(other >= insert.width for other in wide)
    findings.expect(enough and piece.gives > book.seam * 2, BACKING, f"{at}/gives", message)
    findings.expect_equal(piece.sewn, piece.gives - book.seam * 2, BACKING, f"{at}/sewn", "what a piece adds")
    findings.expect(piece.count > 0, BACKING, f"{at}/count", "no piece")
    findings.expect(piece.fabric != back.fabric, BACKING, f"{at}/fabric", "the back's own fabric in its strip")
    if piece.spare:
        fabric = book.fabrics[piece.fabric]
        pack, need, bought = fabric.pack, fabric.need, fabric.buy
        left = int(bought.amount) * pack - need if pack and isinstance(need, int) and bought.unit == "pack" else 0
        taken = sum(each.count for each in insert.pieces if each.spare and each.fabric == piece.fabric)
        message = f"{taken} whole pieces of {piece.fabric} in the back, {left} are not needed"
        findings.expect(taken <= left, BACKING, f"{at}/count", message)
        sides = () if isinstance(fabric.usable, Length) else fabric.usable.sides
        message = f"a whole piece of {piece.fabric} is not {say(piece.w)} x {say(piece.h)}"
        findings.expect(sorted(sides) == sorted((piece.w, piece.h)), BACKING, at, message)


def rests_taken(book: Book) -> Counter[tuple[str, Length, Length]]:
    """Count the rests that the back's strip takes, by fabric, longer and shorter side."""
    insert = book.booklet.backing.insert
    taken: Counter[tuple[str, Length, Length]] = Counter()
    for piece in insert.pieces if insert is not None else ():
        if not piece.spare:
            taken[piece.fabric, max(piece.w, piece.h), min(piece.w, piece.h)] += piece.count
    return taken


def check_beyond(w: Length, h: Length, sides: Sides, check: str, pointer: str, findings: Findings) -> None:
    """See that something goes equally beyond all edges of the quilt."""
    beyond = w - sides[0], h - sides[1]
    message = f"{say(w)} x {say(h)} goes {say(beyond[0])} and {say(beyond[1])} beyond the quilt: unequal, or too little"
    findings.expect(beyond[0] == beyond[1] and beyond[0] >= 0, check, pointer, message)
