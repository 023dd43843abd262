"""Classes with their kits, and the cautions."""

from __future__ import annotations

from typing import Final

from seamleaf.proof.book import Book
from seamleaf.proof.cutting import check_sheets
from seamleaf.proof.ledger import patches_given
from seamleaf.proof.report import Findings, say

CLASSES: Final = "classes"
CAUTIONS: Final = "cautions"

ALWAYS: Final = ("rotary-cutter", "iron", "needle")
INFANT: Final = "infant-sleep"
CRIB_INCHES: Final = 60
"""A quilt whose longest side is no longer may be laid over an infant, and carries the note (a convention)."""


def check_classes(book: Book, findings: Findings) -> None:
    """Count the kits of each class and cut them."""
    for note in book.booklet.classes:
        findings.expect(note.students > 0, CLASSES, f"{note.pointer}/students", f"{note.students} students")
        kits = note.students + 1 + -(-note.students // 10)
        findings.expect_equal(note.kits, kits, CLASSES, f"{note.pointer}/kits", f"kits for {note.students} students")
        check_sheets(book, note.sheets, findings)
        given = patches_given(book, note.sheets)
        for patch in book.booklet.patches:
            message = f"{kits} kits take {kits * patch.count} of {patch.label}, {given[patch.label]} are cut"
            findings.expect(given[patch.label] >= kits * patch.count, CLASSES, f"{note.pointer}/sheets", message)


def check_cautions(book: Book, findings: Findings) -> None:
    """See that no caution is missing or given twice."""
    cautions = book.booklet.cautions
    for name in ALWAYS:
        findings.expect(name in cautions, CAUTIONS, "/cautions", f"the caution {name} is missing")
    small = max(book.booklet.finished.sides) <= CRIB_INCHES * book.measures.inch
    message = f"a quilt of {say(book.booklet.finished)} lacks the caution {INFANT}"
    findings.expect(not small or INFANT in cautions, CAUTIONS, "/cautions", message)
    findings.expect(len(set(cautions)) == len(cautions), CAUTIONS, "/cautions", "a caution stands twice")
