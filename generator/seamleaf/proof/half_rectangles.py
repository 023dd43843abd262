"""Half-rectangles sewn again: two triangles along their long edges, and what can be trimmed from them.

Seen along the seam, with its middle M at 0: the raw long edge of a triangle with legs W and H lies a seam allowance s
beyond it, from -(C + t)/2 to (C - t)/2, where C is that edge's length and t how far its tip sticks out. The other
triangle is the same, turned by half a turn about M. The trimmed unit lies about M too, its finished diagonal c on the
seam. So it comes out if the half of it on one side, up to the raw edge, lies between the legs of one triangle.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length
from seamleaf.lengths.roots import sign_of
from seamleaf.proof.book import Book
from seamleaf.proof.record import Unit
from seamleaf.proof.report import Findings, say

OFFSET: Final = "offset of tips"
Pair = tuple[Fraction, Fraction]


def check_half_rectangle(book: Book, unit: Unit, check: str, findings: Findings) -> None:
    """See that the size that is said, and none that is a step of the ruler larger, can be trimmed with a centred seam.

    Args:
        book: the booklet.
        unit: of two triangles, each seen to lie where its region is.
        check: what a wrong size is reported as.
        findings: takes the findings.

    """
    upended = unit.from_[0].turn % 180 == 90
    cuts = {(patch.w, patch.h) for patch in (book.patches[take.label or ""] for take in unit.from_)}
    sides = [*unit.finished.sides, book.seam, *unit.made.sides, *(side for cut in cuts for side in cut)]
    if len(cuts) != 1 or len(unit.from_) != 2 or not all(side.is_rational for side in sides):
        message = f"{unit.id} is sewn from two triangles of one size that a ruler shows"
        findings.add(check, f"{unit.pointer}/from", message)
        return
    if unit.offset is None or not unit.offset.is_rational or unit.offset < 0:
        findings.add(OFFSET, f"{unit.pointer}/offset", f"tips of {unit.id} that stick out by {say(unit.offset)}")
        return
    w, h = cuts.pop()
    cut = (h.a, w.a) if upended else (w.a, h.a)
    tip = unit.offset.a if cut[1] > cut[0] else -unit.offset.a  # the lower left tip is the sharp one if it is high
    finished = unit.finished.w.a, unit.finished.h.a
    made = unit.made.w.a, unit.made.h.a
    larger = made[0] + book.grid, made[1] + book.grid
    message = f"triangles of {say(w)} x {say(h)} with tips out by {say(unit.offset)} do not give {say(unit.made)}"
    good = comes_out(cut, finished, book.seam.a, tip, made) and not comes_out(cut, finished, book.seam.a, tip, larger)
    findings.expect(good, check, unit.made.pointer, message)
    around = book.seam * 2
    over = unit.made.w - unit.finished.w, unit.made.h - unit.finished.h
    message = f"{unit.id} leaves {say(over[0] - around)} to trim across and {say(over[1] - around)} down"
    findings.expect(over[0] == over[1] > around, check, unit.made.pointer, message)


def comes_out(cut: Pair, finished: Pair, seam: Fraction, tip: Fraction, trimmed: Pair) -> bool:
    """Whether a unit of unfinished size ``trimmed`` comes out, its seam through the corners of the finished size."""
    (cut_w, cut_h), (w, h) = cut, finished
    right, low = trimmed[0] / 2, trimmed[1] / 2
    long, diagonal = cut_w * cut_w + cut_h * cut_h, w * w + h * h
    for x, y in ((-right, -low), (-right, low), (right, -low)):
        along, across = x * w - y * h, -x * h - y * w  # both times c
        left = sign_of(
            along * cut_w - across * cut_h, tip * cut_w / 2 - seam * cut_h, diagonal, cut_w / 2, long * diagonal
        )
        top = sign_of(
            -along * cut_h - across * cut_w, -tip * cut_h / 2 - seam * cut_w, diagonal, cut_h / 2, long * diagonal
        )
        if min(left, top) < 0:
            return False
    # Where the raw long edge runs out of the trimmed unit, at the bottom and at the right.
    ends = ((seam * w + tip * h / 2, h, low), (seam * h - tip * w / 2, w, right))
    return all(sign_of(start, side / 2, long, -reach, diagonal) >= 0 for start, side, reach in ends)


def lies_so(turn: int, across: Length, down: Length) -> bool:
    """Whether the right angle of a triangle that is turned so lies that way from the middle of its long edge."""
    signs = {0: (-1, -1), 90: (1, -1), 180: (1, 1), 270: (-1, 1)}
    return signs.get(turn % 360) == (across.sign(), down.sign())
