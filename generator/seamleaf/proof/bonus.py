"""What stitch and flip cuts off, laid side by side again: which half-squares can be sewn from it, and how many.

The cut runs a seam allowance s beyond the seam, which halves a square of side S. What falls off is as deep as
S / sqrt 2 - s from its right angle to the cut, so S - s sqrt 2 on its short sides; the seam that joins the two takes
s off each depth.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length
from seamleaf.proof.book import Book
from seamleaf.proof.outlines import ROOT2
from seamleaf.proof.report import Findings, say

BONUS: Final = "bonus"
USEFUL: Final = {"in": (Fraction(1), Fraction(1, 4)), "cm": (Fraction(5, 2), Fraction(1, 2))}
"""The least finished side that is told, and the step that sizes are trimmed to."""


def check_bonus(book: Book, findings: Findings) -> None:
    """Count the corners that are cut off, and see that each half-square can be trimmed from them, no larger one."""
    least, step = USEFUL[book.booklet.unit]
    s = book.seam
    corners: dict[tuple[str, str, str], int] = {}
    for unit in book.booklet.units:
        if unit.method == "flip":
            for take in unit.from_[1:]:
                key = unit.id, unit.from_[0].label or "", take.label or ""
                corners[key] = corners.get(key, 0) + take.n * unit.batches
    told = {(each.unit, each.base, each.corner): each for each in book.booklet.bonus}
    twice = len(told) < len(book.booklet.bonus)
    findings.expect(not twice, BONUS, "/bonus", "the corners of one unit are listed twice")
    for key, count in corners.items():
        depth = book.patches[key[2]].w * ROOT2 / 2 - s
        raw, note = (depth - s) * ROOT2, told.pop(key, None)
        if note is None:
            message = f"half-squares of {say(raw)} can be sewn from the corners of {key[0]}, and nobody tells"
            findings.expect(raw < s * 2 + least, BONUS, "/bonus", message)
            continue
        findings.expect_equal(note.count, count, BONUS, f"{note.pointer}/count", f"corners cut off {key[0]}")
        findings.expect_equal(note.leg, depth * ROOT2, BONUS, f"{note.pointer}/leg", "short side of what is cut off")
        findings.expect_equal(note.apart, s * 2, BONUS, f"{note.pointer}/apart", "from seam to seam")
        message = f"{say(note.trim)} trimmed from {say(raw)}"
        good = note.trim <= raw < note.trim + step and (note.trim / step).round_up(Fraction(1)) == note.trim / step
        findings.expect(good, BONUS, f"{note.pointer}/trim", message)
        finished = note.trim - s * 2
        findings.expect_equal(note.finished, finished, BONUS, f"{note.pointer}/finished", "finished side")
        findings.expect(
            finished >= Length(least), BONUS, note.pointer, f"a half-square of {say(finished)} is too small"
        )
    for note in told.values():
        findings.add(BONUS, note.pointer, f"no corner {note.corner} is cut off {note.base} in {note.unit}")
