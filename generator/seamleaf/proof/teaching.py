"""Classes with their kits and purchases, and the cautions."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import Book
from seamleaf.proof.class_record import ClassFabric
from seamleaf.proof.cutting import TRIANGLES, check_sheets
from seamleaf.proof.ledger import check_length_bought, patches_given
from seamleaf.proof.record import ClassNote
from seamleaf.proof.report import Findings, say
from seamleaf.proof.timetable import check_timeline

CLASSES: Final = "classes"
CAUTIONS: Final = "cautions"

ALWAYS: Final = ("rotary-cutter", "iron", "needle")
INFANT: Final = "infant-sleep"
CRIB_INCHES: Final = 60
"""A quilt whose longest side is no longer may be laid over an infant, and carries the note (a convention)."""


def check_classes(book: Book, findings: Findings) -> None:
    """Count the kits of each class, cut and buy them, and go through the class by the clock."""
    for note in book.booklet.classes:
        findings.expect(note.students > 0, CLASSES, f"{note.pointer}/students", f"{note.students} students")
        kits = note.students + 1 + -(-note.students // 10)
        findings.expect_equal(note.kits, kits, CLASSES, f"{note.pointer}/kits", f"kits for {note.students} students")
        check_sheets(book, note.sheets, findings)
        given = patches_given(book, note.sheets)
        for patch in book.booklet.patches:
            message = f"{kits} kits take {kits * patch.count} of {patch.label}, {given[patch.label]} are cut"
            findings.expect(given[patch.label] >= kits * patch.count, CLASSES, f"{note.pointer}/sheets", message)
        _check_fabrics(book, note, kits, findings)
        _check_shop(book, note, findings)
        _check_pieces(book, note, findings)
        if note.sessions or note.lessons:
            check_timeline(book, note, findings)


def _check_fabrics(book: Book, note: ClassNote, kits: int, findings: Findings) -> None:
    """See that what is bought gives every sheet, and that packs give every kit its pieces."""
    at = f"{note.pointer}/fabrics"
    wanted = {fabric.id for fabric in book.booklet.fabrics}
    if not findings.expect_equal(sorted(each.fabric for each in note.fabrics), sorted(wanted), CLASSES, at, "fabrics"):
        return
    for each in note.fabrics:
        fabric = book.fabrics[each.fabric]
        sheets = [sheet for sheet in note.sheets if sheet.fabric == each.fabric]
        if isinstance(fabric.usable, Length):
            real: Length | int = sum((sheet.sheet.h * sheet.times for sheet in sheets), ZERO)
            findings.expect_equal(each.need, real, CLASSES, f"{each.pointer}/need", f"{each.fabric} for all kits")
            if isinstance(each.need, Length):
                check_length_bought(book, each.buy, each.also, each.need + fabric.margin, findings)
            packed = each.kits_a_pack is not None or each.packs or each.deal
            findings.expect(not packed, CLASSES, each.pointer, "yardage does not come in packs")
            continue
        real = sum(sheet.times for sheet in sheets)
        findings.expect_equal(each.need, real, CLASSES, f"{each.pointer}/need", f"{each.fabric} for all kits")
        if isinstance(fabric.need, int) and fabric.need > 0:
            _check_packs(each, fabric.need, fabric.pack, kits, findings)
            _check_deal(each, fabric.need, fabric.pack or 0, kits, findings)


def _check_packs(each: ClassFabric, one: int, pack: int | None, kits: int, findings: Findings) -> None:
    """See that every kit gets its pieces from packs that it does not share further than they go."""
    shared = pack // one if pack else 0
    findings.expect_equal(each.kits_a_pack, shared or None, CLASSES, f"{each.pointer}/kits_a_pack", "kits to a pack")
    amount = kits * one if not pack else -(-kits // shared) if shared else kits * -(-one // pack)
    if pack:
        findings.expect_equal(each.buy.amount, amount, CLASSES, f"{each.pointer}/buy/amount", f"packs of {each.fabric}")
        findings.expect_equal(each.buy.unit, "pack", CLASSES, f"{each.pointer}/buy/unit", "unit of packs")
    else:
        enough = each.buy.unit == "piece" and each.buy.amount == each.need
        findings.expect(enough, CLASSES, f"{each.pointer}/buy", f"pieces of {each.fabric} other than are cut")


def _check_deal(each: ClassFabric, one: int, pack: int, kits: int, findings: Findings) -> None:
    """See that packs serve like numbers of kits, and that kits of one pack get other pieces, as light and as dark."""
    served = [share.kits for share in each.packs for _ in range(min(share.times, kits + 1))]
    if not each.kits_a_pack:
        findings.expect(not served and not each.deal, CLASSES, each.pointer, "no pack is shared, and one is dealt")
        return
    message = f"packs that serve {served} kits are not {kits} split evenly over {each.buy.amount}"
    even = served and sum(served) == kits and max(served) - min(served) <= 1 and len(served) == each.buy.amount
    if not findings.expect(bool(even), CLASSES, f"{each.pointer}/packs", message):
        return
    at = f"{each.pointer}/deal"
    hands = [sorted(hand) for hand in each.deal]
    dealt = [piece for hand in hands for piece in hand]
    full = len(hands) == max(served) and all(len(hand) == one for hand in hands)
    if not findings.expect(full, CLASSES, at, f"not {one} pieces for each of {max(served)} kits are dealt"):
        return
    own = len(set(dealt)) == len(dealt) and min(dealt) >= 1 and max(dealt) <= pack
    findings.expect(own, CLASSES, at, f"a piece is dealt twice, or is none of the {pack} of the pack")
    bands = [[hand[place] for hand in hands] for place in range(one)]
    apart = all(max(band) < min(later) for band, later in pairwise(bands))
    findings.expect(apart, CLASSES, at, "some kit does not get one piece of each band of lightness")
    sums = [sum(hand) for hand in hands]
    findings.expect(max(sums) - min(sums) < len(hands), CLASSES, at, "one kit gets lighter pieces than another")


def _check_pieces(book: Book, note: ClassNote, findings: Findings) -> None:
    """See that what is counted of each label is what the sheets give, and fills every bag with whole squares."""
    cut: Counter[str] = Counter()
    for sheet in note.sheets:
        for part in sheet.parts:
            cut[part.label] += sheet.times
    at = f"{note.pointer}/pieces"
    wanted = [patch.label for patch in book.booklet.patches if isinstance(book.fabrics[patch.fabric].usable, Length)]
    if not findings.expect_equal([each.label for each in note.pieces], wanted, CLASSES, at, "labels of the shop list"):
        return
    for each in note.pieces:
        patch = book.patches[each.label]
        findings.expect_equal(each.pieces, cut[each.label], CLASSES, f"{each.pointer}/pieces", f"pieces {each.label}")
        bag = -(-patch.count // TRIANGLES[patch.shape])
        findings.expect_equal(each.bag, bag, CLASSES, f"{each.pointer}/bag", f"pieces {each.label} in a bag")
        message = f"{each.pieces} pieces {each.label} do not fill {note.kits} bags with {each.bag}"
        findings.expect(each.pieces >= note.kits * each.bag, CLASSES, f"{each.pointer}/pieces", message)


def _check_shop(book: Book, note: ClassNote, findings: Findings) -> None:
    """See that the shop cuts the strips and panels of all kits, no more and no fewer."""
    cut: Counter[tuple[str, Length, bool]] = Counter()
    for sheet in note.sheets:
        if isinstance(book.fabrics[sheet.fabric].usable, Length):
            panel = any(part.label == book.booklet.backing.label for part in sheet.parts)
            cut[sheet.fabric, sheet.sheet.h, panel] += sheet.times
    stated: Counter[tuple[str, Length, bool]] = Counter()
    for each in note.shop:
        stated[each.fabric, each.h, each.panel] += each.times
    message = "the shop cuts other strips than the kits take"
    findings.expect(stated == cut and len(stated) == len(note.shop), CLASSES, f"{note.pointer}/shop", message)


def check_cautions(book: Book, findings: Findings) -> None:
    """See that no caution is missing or given twice."""
    cautions = book.booklet.cautions
    for name in ALWAYS:
        findings.expect(name in cautions, CAUTIONS, "/cautions", f"the caution {name} is missing")
    small = max(book.booklet.finished.sides) <= CRIB_INCHES * book.measures.inch
    message = f"a quilt of {say(book.booklet.finished)} lacks the caution {INFANT}"
    findings.expect(not small or INFANT in cautions, CAUTIONS, "/cautions", message)
    findings.expect(len(set(cautions)) == len(cautions), CAUTIONS, "/cautions", "a caution stands twice")
