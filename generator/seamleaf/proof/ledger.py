"""The ledger: what is cut, sewn, taken and bought must balance, label by label and unit by unit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final

from seamleaf.lengths import CENTIMETRES, ZERO, Length, Measures
from seamleaf.proof.book import Book
from seamleaf.proof.class_record import Buy
from seamleaf.proof.cutting import TRIANGLES, tightest_of
from seamleaf.proof.outlines import has_straight_base, setting_leg
from seamleaf.proof.record import Fabric, Sheet, Unit, Usable
from seamleaf.proof.report import Findings, say

CUT: Final = "cut and count"
USE: Final = "label identity"
COUNT: Final = "unit identity"
BATCHES: Final = "batches"
HANDS: Final = "hands"
PER_BLOCK: Final = "per block"
TOTALS: Final = "totals"
NEED: Final = "need"
BUY: Final = "buy"

MAKES: Final = {
    ("half-square", "two"): 2,
    ("half-square", "four"): 4,
    ("half-square", "eight"): 8,
    ("half-square", "triangles"): 1,
    ("quarter-square", "two"): 2,
    ("quarter-square", "triangles"): 1,
    ("three-triangle", "two"): 4,
    ("three-triangle", "triangles"): 1,
    ("half-rectangle", "triangles"): 1,
    ("geese", "four"): 4,
    ("geese", "flip"): 1,
    ("geese", "triangles"): 1,
    ("corners", "flip"): 1,
    ("diamond", "triangles"): 1,
}
"""Units that one batch makes, by kind and method; the names of the methods say it."""

PLAIN_KINDS: Final = ("patch", "join", "around", "partial")
"""Kinds that are sewn one by one, without a method."""


def check_ledger(book: Book, findings: Findings) -> None:
    """Balance labels, units and fabrics."""
    _check_labels(book, findings)
    _check_uses(book, findings)
    _check_totals(book, findings)
    _check_units(book, findings)
    _check_per_block(book, findings)
    for fabric in book.booklet.fabrics:
        _check_need(book, fabric, findings)
        _check_purchase(book, fabric, findings)


def patches_given(book: Book, sheets: Sequence[Sheet]) -> Counter[str]:
    """Count what sheets give, by label; of halved and quartered squares the triangles."""
    given: Counter[str] = Counter()
    for sheet in sheets:
        for part in sheet.parts:
            given[part.label] += sheet.times * TRIANGLES[book.patches[part.label].shape]
    return given


def _check_labels(book: Book, findings: Findings) -> None:
    booklet = book.booklet
    given = patches_given(book, booklet.cutting)
    used: Counter[str] = Counter()
    for unit in booklet.units:
        for take in unit.from_:
            if take.label is not None:
                used[take.label] += unit.batches * take.n
    for border in booklet.borders:
        if border.label is not None:
            used[border.label] += border.pieces
        used.update(strip.label for strip in border.strips if strip.label is not None)
        if border.corners is not None:
            used[border.corners] += 4
    if booklet.binding is not None:
        used[booklet.binding.label] += booklet.binding.strips
    used[booklet.backing.label] += booklet.backing.panels
    for patch in booklet.patches:
        at, label = patch.pointer, patch.label
        findings.expect(patch.count > 0, USE, f"{at}/count", f"patch {label} is not needed at all")
        message = f"the units, borders, binding and backing take {used[label]} of {label}, its count is {patch.count}"
        findings.expect(used[label] == patch.count, USE, f"{at}/count", message)
        message = f"{given[label]} of {label} are cut, {patch.count} needed"
        if findings.expect(given[label] >= patch.count, CUT, f"{at}/count", message):
            findings.expect_equal(patch.spare, given[label] - patch.count, CUT, f"{at}/spare", f"spare of {label}")


def _check_uses(book: Book, findings: Findings) -> None:
    """See that every label is used for one thing, and says so."""
    booklet = book.booklet
    uses: dict[str, set[str]] = {patch.label: set() for patch in booklet.patches}
    strips = book.strips()
    for unit in booklet.units:
        triangle = unit.how == "patch" and setting_leg(unit.outline) is not None
        for take in unit.from_:
            if take.label is not None:
                uses[take.label].add("border" if unit.id in strips else "triangle" if triangle else "block")
    for border in booklet.borders:
        for label in (border.label, border.corners, *(strip.label for strip in border.strips)):
            if label is not None:
                uses[label].add("border")
    if booklet.binding is not None:
        uses[booklet.binding.label].add("binding")
    uses[booklet.backing.label].add("backing")
    for patch in booklet.patches:
        real = sorted(uses[patch.label])
        findings.expect_equal([patch.use], real, USE, f"{patch.pointer}/use", f"use of {patch.label}")


def _check_totals(book: Book, findings: Findings) -> None:
    booklet, totals = book.booklet, book.booklet.totals
    for key, stated, real in (
        ("sheets", totals.sheets, sum(sheet.times for sheet in booklet.cutting)),
        ("patches", totals.patches, sum(patch.count for patch in booklet.patches)),
        ("units", totals.units, sum(unit.count for unit in booklet.units)),
    ):
        findings.expect_equal(stated, real, TOTALS, f"{totals.pointer}/{key}", f"all {key}")


def _check_units(book: Book, findings: Findings) -> None:
    taken: Counter[str] = Counter(place.unit for place in book.booklet.places) + Counter(book.strips())
    for unit in book.booklet.units:
        for take in unit.from_:
            findings.expect(take.n > 0, BATCHES, f"{take.pointer}/n", f"{take.n} are taken")
            if take.unit is not None:
                taken[take.unit] += unit.batches * take.n
    for unit in book.booklet.units:
        message = f"other units, the centre and borders take {taken[unit.id]} of {unit.id}, its count is {unit.count}"
        findings.expect(unit.count == taken[unit.id] > 0, COUNT, f"{unit.pointer}/count", message)
        _check_batches(unit, findings)
    _check_hands(book, findings)


def _check_hands(book: Book, findings: Findings) -> None:
    """Count the copies that lie mirrored; of a unit that is sewn in mirrored pairs they are half.

    Setting triangles are their own mirror images, until seams cut their tips off.
    """
    mirrored: Counter[str] = Counter(
        place.unit for place in book.booklet.places if place.mirror and place.kind != "side"
    )
    for unit in reversed(book.booklet.units):
        for take in unit.from_:
            if take.unit is not None:  # what lies mirrored in a mirrored unit lies as it was sewn
                mirrored[take.unit] += take.n * (unit.count - mirrored[unit.id] if take.mirror else mirrored[unit.id])
    for unit in book.booklet.units:
        real = mirrored[unit.id]
        findings.expect_equal(unit.mirrored, real, HANDS, f"{unit.pointer}/mirrored", f"mirrored copies of {unit.id}")
        if (unit.how, unit.method) == ("three-triangle", "two"):
            quarters = [region for region in unit.regions if has_straight_base(region.outline)]
            handed = len({region.label for region in quarters}) > 1
            message = f"{unit.count} of {unit.id} come in mirrored pairs, but {real} of them lie mirrored"
            findings.expect(not handed or real * 2 == unit.count, HANDS, f"{unit.pointer}/mirrored", message)


def _check_batches(unit: Unit, findings: Findings) -> None:
    batch: Counter[str] = Counter()
    for take in unit.from_:
        batch[take.label or take.unit or ""] += take.n
    findings.expect_equal(unit.batch, dict(batch), BATCHES, f"{unit.pointer}/batch", f"taken by a batch of {unit.id}")
    if (unit.how, unit.method) == ("strip-set", "strips"):  # sewing checks that the strips are long enough for them
        if findings.expect(unit.makes > 0, BATCHES, f"{unit.pointer}/makes", f"{unit.makes} made by one batch"):
            batches = -(-unit.count // unit.makes)
            findings.expect_equal(unit.batches, batches, BATCHES, f"{unit.pointer}/batches", f"batches of {unit.id}")
        return
    makes = 1 if unit.how in PLAIN_KINDS and unit.method is None else MAKES.get((unit.how, unit.method or ""))
    if makes is None:
        message = f"a {unit.how} sewn by method {say(unit.method)}, which this proof cannot sew"
        findings.add(BATCHES, f"{unit.pointer}/method", message)
        return
    if findings.expect_equal(unit.makes, makes, BATCHES, f"{unit.pointer}/makes", f"{unit.id} made by one batch"):
        batches = -(-unit.count // makes)
        findings.expect_equal(unit.batches, batches, BATCHES, f"{unit.pointer}/batches", f"batches of {unit.id}")


def _check_per_block(book: Book, findings: Findings) -> None:
    """Count units and patches in one copy of each block: patches by whole batches."""
    copies = book.copies()
    blocks = {place.unit for place in book.booklet.places if place.kind not in ("side", "corner")} | {*book.strips()}
    patches: dict[str, dict[str, int]] = {patch.label: {} for patch in book.booklet.patches}
    for unit in book.booklet.units:
        real = {block: copies[block][unit.id] for block in blocks if unit.id in copies[block]}
        findings.expect_equal(unit.per_block, real, PER_BLOCK, f"{unit.pointer}/per_block", f"{unit.id} in a block")
        for block, count in real.items():
            for take in unit.from_:
                if take.label is not None and unit.makes > 0:
                    here = patches[take.label]
                    here[block] = here.get(block, 0) + -(-count // unit.makes) * take.n
    for patch in book.booklet.patches:
        real, at = patches[patch.label], f"{patch.pointer}/per_block"
        findings.expect_equal(patch.per_block, real, PER_BLOCK, at, f"{patch.label} in a block")


# ------------------------------------------------------------------------------------ need and purchase


def _check_need(book: Book, fabric: Fabric, findings: Findings) -> None:
    at = fabric.pointer
    sheets = [sheet for sheet in book.booklet.cutting if sheet.fabric == fabric.id]
    real: Length | int
    if isinstance(fabric.usable, Length):
        real = sum((sheet.sheet.h * sheet.times for sheet in sheets), ZERO)
        kind: type[Length] | type[int] = Length
    else:
        real, kind = sum(sheet.times for sheet in sheets), int
    for key, value in (("need", fabric.need), ("bound", fabric.bound)):
        if not isinstance(value, kind):
            findings.add(NEED, f"{at}/{key}", f"{say(value)}: yardage is a length, a bundle a number of pieces")
            return
    findings.expect_equal(fabric.need, real, NEED, f"{at}/need", f"need of {fabric.id}")
    message = f"a tightest cut of {say(fabric.tightest)}, where {say(tightest_of(sheets))} is left"
    findings.expect(fabric.tightest == tightest_of(sheets), NEED, f"{at}/tightest", message)
    zero = real - real
    message = f"a lower bound of {say(fabric.bound)} for a need of {say(real)}"
    findings.expect(zero < fabric.bound <= real, NEED, f"{at}/bound", message)


def _check_purchase(book: Book, fabric: Fabric, findings: Findings) -> None:
    """See that the purchase covers need and margin, and is the least that a shop sells."""
    findings.expect(fabric.margin >= 0, BUY, f"{fabric.pointer}/margin", "a margin below 0")
    _check_bought(book, fabric, fabric, findings)
    _check_packs(fabric, findings)
    if isinstance(fabric.bound, Length):
        _check_sold_by_length(book, fabric.least, fabric.bound + fabric.margin, findings)
    else:
        _check_pieces(fabric, fabric.least, fabric.bound, findings)
    for other in fabric.usables:
        _check_bought(book, fabric, other, findings)


def _check_bought(book: Book, fabric: Fabric, one: Fabric | Usable, findings: Findings) -> None:
    at = one.pointer
    if one.need is None or one.buy is None:
        nothing = one.need is None and one.buy is None and one.also is None
        findings.expect(nothing, BUY, at, "a purchase is told just where there is a need")
    elif isinstance(one.need, Length):
        check_length_bought(book, one.buy, one.also, one.need + fabric.margin, findings)
    else:
        _check_pieces(fabric, one.buy, one.need, findings)
        findings.expect(one.also is None, BUY, f"{at}/also", "a bundle is not sold by length")


def _check_packs(fabric: Fabric, findings: Findings) -> None:
    """Open the packs: what stays whole, and what one pack fewer would lack."""
    left = short = None
    if isinstance(fabric.need, int) and fabric.pack:
        packs = -(-fabric.need // fabric.pack)
        left = packs * fabric.pack - fabric.need
        short = fabric.pack - left if packs > 1 else None
    findings.expect_equal(fabric.left, left, BUY, f"{fabric.pointer}/left", f"pieces of {fabric.id} that stay whole")
    findings.expect_equal(fabric.short, short, BUY, f"{fabric.pointer}/short", "what one pack fewer lacks")


def _check_pieces(fabric: Fabric, buy: Buy, need: int, findings: Findings) -> None:
    real, unit = (need, "piece") if not fabric.pack else (-(-need // fabric.pack), "pack")
    findings.expect_equal(buy.unit, unit, BUY, f"{buy.pointer}/unit", f"unit in which {fabric.id} is sold")
    findings.expect_equal(buy.amount, real, BUY, f"{buy.pointer}/amount", f"purchase of {fabric.id}")


def check_length_bought(book: Book, buy: Buy, also: Buy | None, wanted: Length, findings: Findings) -> None:
    """See that yardage covers what is wanted and is the least that a shop sells; beside yards, in metres too."""
    _check_sold_by_length(book, buy, wanted, findings)
    metric = book.booklet.unit == "in"
    if not findings.expect((also is not None) == metric, BUY, buy.pointer, "metres stand beside yards, and only there"):
        return
    if also is not None and findings.expect_equal(also.unit, "m", BUY, f"{also.pointer}/unit", "unit beside yards"):
        _check_amount(CENTIMETRES, also, wanted * CENTIMETRES.inch, findings)


def _check_sold_by_length(book: Book, buy: Buy, wanted: Length, findings: Findings) -> None:
    if findings.expect_equal(buy.unit, book.measures.buy_unit, BUY, f"{buy.pointer}/unit", "unit of yardage"):
        _check_amount(book.measures, buy, wanted, findings)


def _check_amount(measures: Measures, buy: Buy, wanted: Length, findings: Findings) -> None:
    step, at = measures.buy_grid, f"{buy.pointer}/amount"
    length = measures.buy_length
    findings.expect((buy.amount / step) % 1 == 0, BUY, at, f"{buy.amount} is not sold: shops sell in steps of {step}")
    message = f"{buy.amount} {buy.unit} do not cover need and margin, {say(wanted)}"
    if findings.expect(wanted <= Length(buy.amount * length), BUY, at, message):
        less = buy.amount - step
        message = f"{less} {buy.unit} would cover need and margin, {say(wanted)}"
        findings.expect(wanted > Length(less * length), BUY, at, message)
