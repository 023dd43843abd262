"""Estimates: the seams are walked again, copy by copy, and thread and time reckoned from what that gives.

By the tables of the thread trade a lockstitch takes two and a half times the length of its seam, and at most a fifth
more for ends and repairs. Hours come from counts and from the paces that the booklet gives.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from seamleaf.lengths import CENTIMETRES, ZERO, Length
from seamleaf.proof.book import OF_ROW, OF_ROWS, Book
from seamleaf.proof.estimate_record import Pace
from seamleaf.proof.record import Point, Seam, Unit
from seamleaf.proof.report import Findings, say

ESTIMATES: Final = "estimates"
THREAD: Final = Fraction(5, 2)
MOST_THREAD: Final = Fraction(3)
"""The same with a fifth more."""
DIAGONAL_CUTS: Final = {"rectangle": 0, "strip": 0, "halved": 1, "quartered": 2}

Run = tuple[str, int, Length]
"""Part of the work, how many seams, and how long each is sewn."""


def check_estimates(book: Book, findings: Findings) -> None:
    """See that seams, thread and time are what the booklet's own cuts and seams come to."""
    counts: Counter[str] = Counter()
    lengths: dict[str, Length] = {}
    for part, count, run in _runs(book):
        counts[part] += count
        lengths[part] = lengths.get(part, ZERO) + run * count
    stated = book.booklet.estimates
    at = stated.pointer
    findings.expect_equal(stated.cuts, _cuts(book), ESTIMATES, f"{at}/cuts", "ruler cuts")
    told = [each.of for each in stated.seams]
    done = [of for of in ("units", "rows", "borders", "binding", "backing") if counts[of]]
    if findings.expect_equal(told, done, ESTIMATES, f"{at}/seams", "parts that have seams"):
        for each in stated.seams:
            where, what = each.pointer, f"seams of {each.of}"
            findings.expect_equal(each.count, counts[each.of], ESTIMATES, f"{where}/count", what)
            findings.expect_equal(each.length, lengths[each.of], ESTIMATES, f"{where}/length", f"length of {what}")
    _check_thread(book, sum(lengths.values(), ZERO), findings)
    _check_time(book, counts, lengths, findings)


def _cuts(book: Book) -> int:
    cuts = 0
    for sheet in book.booklet.cutting:
        each = len(sheet.cuts) + (1 if sheet.pieces is None else 0)
        each += sum(DIAGONAL_CUTS[book.patches[part.label].shape] for part in sheet.parts)
        cuts += each * sheet.times
    return cuts


def _runs(book: Book) -> Iterator[Run]:
    """Yield everything that is sewn."""
    booklet, s = book.booklet, book.seam
    for unit in booklet.units:
        yield from _runs_of_unit(book, unit)
    for seam in booklet.seams:
        if seam.of in (OF_ROW, OF_ROWS):
            yield "rows", 1, _line(book, seam) + s * 2
        elif seam.of.startswith("border "):
            yield "borders", 1, _line(book, seam) + s * 2
    for border in booklet.borders:
        if border.strips and border.label is not None:
            yield "borders", border.pieces - 1, border.strips[0].w.times_root2()
    binding = booklet.binding
    if binding is not None:
        yield "binding", 2, (booklet.finished.w + booklet.finished.h) * 2  # to the front, and the fold at the back
        yield "binding", binding.strips, binding.width.times_root2()
        if binding.square is not None:
            yield "binding", 2 * binding.strips, binding.square
    back = booklet.backing
    yield "backing", back.panels - 1, back.panel.h
    if back.insert is not None:
        yield "backing", 2 if back.insert.parts else 1, back.panel.h
        yield "backing", sum(piece.count for piece in back.insert.pieces) - 1, back.insert.width


def _runs_of_unit(book: Book, unit: Unit) -> Iterator[Run]:
    if unit.how == "strip-set":
        for take in unit.from_[1:]:  # each strip but the first is sewn to the one before it
            yield "units", unit.batches, book.patches[take.label or ""].w
        return
    w, h = unit.finished.sides
    root = book.seam.times_root2()
    for seam_id in unit.seams:
        seam = book.seams[seam_id]
        ends = [x in (ZERO, w) or y in (ZERO, h) for x, y in seam.line]
        allowance = sum((root if seam.axis == "d" and end else book.seam for end in ends), ZERO)
        yield "units", unit.batches * unit.makes, _line(book, seam) + allowance


def _line(book: Book, seam: Seam) -> Length:
    (ax, ay), (bx, by) = seam.line
    return _hypotenuse((abs(bx - ax), abs(by - ay)), book.grid)


def _hypotenuse(legs: Point, grid: Fraction) -> Length:
    """Return the exact distance, or the least mark that is not below it."""
    a, b = legs
    if a == b:
        return a.times_root2()
    if ZERO in legs:
        return a + b
    low, high = 0, ((a + b) / grid).ceil()
    while low < high:
        middle = (low + high) // 2
        if Length((middle * grid) ** 2) < a * a + b * b:
            low = middle + 1
        else:
            high = middle
    return Length(low * grid)


def _check_thread(book: Book, seams: Length, findings: Findings) -> None:
    thread = book.booklet.estimates.thread
    at = thread.pointer
    findings.expect_equal(thread.ratio, THREAD, ESTIMATES, f"{at}/ratio", "thread for a length of seam")
    most = THREAD * (1 + thread.waste)
    findings.expect_equal(most, MOST_THREAD, ESTIMATES, f"{at}/waste", "thread with waste")
    metre = CENTIMETRES.buy_length / (CENTIMETRES.inch if book.booklet.unit == "in" else 1)
    ways = {"yd": Fraction(36), "m": metre} if book.booklet.unit == "in" else {"m": metre}
    units = [each.unit for each in thread.amounts]
    if findings.expect_equal(units, list(ways), ESTIMATES, f"{at}/amounts", "units of thread"):
        for each in thread.amounts:
            for key, stated, ratio in (("least", each.least, THREAD), ("most", each.most, MOST_THREAD)):
                exact = seams * ratio / ways[each.unit]
                message = f"{stated} {each.unit} of thread, where {say(exact)} are sewn"
                holds = stated % 10 == 0 and stated - 10 < exact <= stated
                findings.expect(holds, ESTIMATES, f"{each.pointer}/{key}", message)


def _check_time(book: Book, counts: Counter[str], lengths: dict[str, Length], findings: Findings) -> None:
    stated, paces = book.booklet.estimates.time, book.booklet.estimates.paces
    named = {"cuts": paces.cuts, "seams": paces.seams, "presses": paces.presses, "pinned": paces.pinned}
    good = True
    for name, pace in named.items():
        good &= findings.expect(0 < pace.least <= pace.most, ESTIMATES, pace.pointer, f"no pace for {name}")
    if not good:
        return
    works: dict[str, tuple[Length, Pace]] = {
        "cut": (Length(_cuts(book)), paces.cuts),
        "sew": (Length(counts["units"]), paces.seams),
        "press": (Length(counts["units"] + counts["rows"] + counts["borders"]), paces.presses),
        "join": (lengths.get("rows", ZERO), paces.pinned),
        "borders": (lengths.get("borders", ZERO), paces.pinned),
        "finish": (lengths.get("binding", ZERO) + lengths.get("backing", ZERO), paces.pinned),
    }
    done = {work: (amount / pace.most, amount / pace.least) for work, (amount, pace) in works.items() if amount > 0}
    told = [each.work for each in stated.works]
    if findings.expect_equal(told, list(done), ESTIMATES, f"{stated.pointer}/works", "works that take time"):
        for each in stated.works:
            quick, slow = done[each.work]
            least, most = Fraction((quick * 2).floor(), 2) or Fraction(1, 2), Fraction((slow * 2).ceil(), 2)
            findings.expect_equal(each.least, least, ESTIMATES, f"{each.pointer}/least", f"hours to {each.work}")
            findings.expect_equal(each.most, most, ESTIMATES, f"{each.pointer}/most", f"hours to {each.work}")
    least_of_all = max(1, sum((quick for quick, _ in done.values()), ZERO).floor())
    most_of_all = sum((slow for _, slow in done.values()), ZERO).ceil()
    findings.expect_equal(stated.least, least_of_all, ESTIMATES, f"{stated.pointer}/least", "hours at the quick pace")
    findings.expect_equal(stated.most, most_of_all, ESTIMATES, f"{stated.pointer}/most", "hours at the slow pace")
