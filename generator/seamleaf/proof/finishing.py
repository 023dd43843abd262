"""Borders, binding, backing and batting, measured again from the finished centre outward."""

from __future__ import annotations

from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.backing import Sides, check_backing, check_beyond
from seamleaf.proof.book import Book
from seamleaf.proof.finish_record import Binding, Border, Strip
from seamleaf.proof.record import Patch
from seamleaf.proof.report import Findings, say

BORDERS: Final = "borders"
BINDING: Final = "binding"
BATTING: Final = "batting"
FINISHED: Final = "finished size"
COVER: Final = "bed"

PACKAGES: Final = {
    "craft": (34, 45),
    "crib": (45, 60),
    "twin": (72, 90),
    "full": (81, 96),
    "queen": (90, 108),
    "king": (120, 120),
}
"""Batting sizes of the trade, in inches, told in whole units, rounded down
(honeybegood.com 2012; primitivequiltsandprojects.com)."""

TURNS: Final = {"top": 0, "right": 90, "bottom": 180, "left": 270}
"""How a pieced strip lies, clockwise: its upper edge is the outer one of the border."""

MITRE_INCHES: Final = 4
"""The least that a mitred strip has beyond the outer edge."""


def check_finish(book: Book, findings: Findings) -> None:
    """Sew on the borders, bind and back the quilt."""
    sides = book.booklet.set.centre.sides
    for number, border in enumerate(book.booklet.borders, 1):
        sides = _check_border(book, border, number, sides, findings)
    finished = book.booklet.finished
    findings.expect_equal(finished.sides, sides, FINISHED, finished.pointer, "the quilt")
    _check_cover(book, sides, findings)
    _check_binding(book, sides, findings)
    check_backing(book, sides, findings)
    _check_batting(book, sides, findings)


def _check_cover(book: Book, sides: Sides, findings: Findings) -> None:
    """See that a quilt for a bed hangs down as far as is said, and at least as far as was asked."""
    cover = book.booklet.size.cover
    if cover is None:
        return
    hangs = (sides[0] - cover.mattress.w) / 2, sides[1] - cover.mattress.h - cover.tuck
    for said, real, name, where in zip(
        (cover.sides, cover.foot), hangs, ("sides", "foot"), ("each side", "the foot"), strict=True
    ):
        at = f"{cover.pointer}/{name}"
        findings.expect_equal(said, real, COVER, at, f"what hangs down at {where}")
        message = f"{say(real)} hangs down at {where}, {say(cover.drop)} is asked for"
        findings.expect(real >= cover.drop, COVER, at, message)


# -------------------------------------------------------------------------------------------- borders


def _check_border(book: Book, border: Border, number: int, before: Sides, findings: Findings) -> Sides:
    at = border.pointer
    findings.expect_equal(border.order, number, BORDERS, f"{at}/order", "place of the border from inside")
    findings.expect_equal(border.before.sides, before, BORDERS, border.before.pointer, "the quilt before the border")
    w, h = before
    after = w + border.width * 2, h + border.width * 2
    findings.expect_equal(border.after.sides, after, BORDERS, border.after.pointer, "the quilt after the border")
    findings.expect(border.width > 0, BORDERS, f"{at}/width", f"a border {say(border.width)} wide")
    cut = border.width + book.seam * 2
    edges = [strip.edge for strip in border.strips]
    message = f"strips for {', '.join(edges)}: each edge takes one, opposite edges one after the other"
    pairs = {frozenset(edges[:2]), frozenset(edges[2:])}
    good = pairs == {frozenset(("left", "right")), frozenset(("top", "bottom"))} and len(edges) == 4
    findings.expect(good, BORDERS, f"{at}/strips", message)
    for strip in border.strips:
        upright = strip.edge in ("left", "right")
        _check_strip(book, border, strip, h if upright else w, cut, findings)
        if border.corner == "butted":  # what is sewn on later runs over the ends of what is there
            w, h = (w + border.width, h) if upright else (w, h + border.width)
    _check_cornerstones(book, border, cut, findings)
    _check_together(book, border, findings)
    if border.label is None:
        nothing = border.pieces == 0 and border.joined == ZERO
        findings.expect(nothing, BORDERS, at, "no strips are joined for a border without a label")
        good = border.fabric is not None or (border.corner != "mitred" and not border.together)
        findings.expect(good, BORDERS, at, "a pieced border has no mitres")
        return after
    needed = sum((strip.length for strip in border.strips), ZERO)
    joined = _check_joined(book, border.label, cut, needed, border.pieces, BORDERS, f"{at}/pieces", findings)
    findings.expect_equal(border.joined, joined, BORDERS, f"{at}/joined", "length of the joined strips")
    return after


def _check_strip(book: Book, border: Border, strip: Strip, side: Length, cut: Length, findings: Findings) -> None:
    findings.expect_equal(strip.w, cut, BORDERS, f"{strip.pointer}/w", f"cut width of the {strip.edge} strip")
    if strip.label is not None:
        _check_strip_patch(book, book.patches[strip.label], cut, BORDERS, findings, length=strip.length)
    if border.corner == "mitred":
        least = side + _beyond_side(book, border) * 2 + book.measures.inch * MITRE_INCHES
        message = f"the {strip.edge} edge takes at least {say(least)} with its mitres, the strip is {say(strip.length)}"
        findings.expect(strip.length >= least, BORDERS, f"{strip.pointer}/length", message)
        return
    exact = side + book.seam * 2
    if strip.unit is not None:
        unit = book.units[strip.unit]
        sides = f"{say(side)} x {say(border.width)}"
        message = f"the {strip.edge} edge takes a strip of {sides}, {unit.id} finishes {say(unit.finished)}"
        findings.expect(unit.finished.sides == (side, border.width), BORDERS, f"{strip.pointer}/unit", message)
        message = f"a strip turned by {strip.turn} does not lie along the {strip.edge} edge, its outer edge outward"
        findings.expect(strip.turn == TURNS[strip.edge], BORDERS, f"{strip.pointer}/turn", message)
    message = f"the {strip.edge} edge takes {say(exact)}, the strip is {say(strip.length)}"
    enough = exact <= strip.length < exact + book.grid
    findings.expect(enough, BORDERS, f"{strip.pointer}/length", message)


def _beyond_side(book: Book, border: Border) -> Length:
    """Return how far all that is mitred with a border goes beyond the side that it is sewn to."""
    outside = [other for other in book.booklet.borders if other.order in border.together]
    return sum((other.width for other in outside if other.order > border.order), border.width)


def _check_together(book: Book, border: Border, findings: Findings) -> None:
    """See that borders mitred as one lie round each other, are all mitred, and name each other."""
    group = border.together
    if not group:
        return
    at = f"{border.pointer}/together"
    good = len(group) > 1 and border.order in group and list(group) == list(range(group[0], group[0] + len(group)))
    findings.expect(good, BORDERS, at, f"borders {', '.join(map(say, group))} do not lie round each other")
    others = [other for other in book.booklet.borders if other.order in group]
    alike = len(others) == len(group) and all(other.corner == "mitred" and other.together == group for other in others)
    findings.expect(alike, BORDERS, at, "borders that are mitred as one are all mitred, and each names the others")


def _check_cornerstones(book: Book, border: Border, cut: Length, findings: Findings) -> None:
    at = f"{border.pointer}/corners"
    if border.corner != "cornerstone":
        findings.expect(border.corners is None, BORDERS, at, f"a {border.corner} border has no cornerstones")
    elif border.corners is None:
        findings.add(BORDERS, at, "no patch for the cornerstones")
    else:
        patch = book.patches[border.corners]
        good = patch.shape == "rectangle" and (patch.w, patch.h) == (cut, cut)
        message = f"cornerstones {patch.label} are {say(patch.w)} x {say(patch.h)}, not squares of {say(cut)}"
        findings.expect(good, BORDERS, at, message)


def _check_joined(
    book: Book,
    label: str,
    width: Length,
    needed: Length,
    count: int,
    check: str,
    pointer: str,
    findings: Findings,
    *,
    along: bool = False,
) -> Length:
    """See that strips joined on the diagonal, which eats a strip's width a join, suffice, and one fewer would not.

    Strips ``along`` the fabric are cut as long as they have to be: a mark shorter, they would not do.

    Returns:
        How long they are when joined.

    """
    patch = book.patches[label]
    long = patch.h if along else patch.w
    _check_strip_patch(book, patch, width, check, findings, length=long if along else None)
    joined = long * count - width * (count - 1)
    if along:
        less = joined - book.grid * count
        message = (
            f"{count} strips of {label} {say(long - book.grid)} long would give {say(less)}, enough for {say(needed)}"
        )
        findings.expect(less < needed, check, pointer, message)
    message = f"{count} strips of {label} give {say(joined)} when joined, {say(needed)} are needed"
    if findings.expect(count > 0 and joined >= needed, check, pointer, message):
        fewer = joined - (long - width)
        message = f"{count - 1} strips of {label} would give {say(fewer)}, enough for {say(needed)}"
        findings.expect(count == 1 or fewer < needed, check, pointer, message)
    return joined


def _check_strip_patch(
    book: Book, patch: Patch, width: Length, check: str, findings: Findings, *, length: Length | None = None
) -> None:
    """See that a patch is a strip across the fabric, or one of some length along it."""
    across = patch.h == width if length is None else (patch.w, patch.h) == (width, length)
    long = "" if length is None else f" and {say(length)} long"
    message = f"{patch.label} is cut {say(patch.w)} x {say(patch.h)} as {patch.shape}, not as a strip {say(width)} wide"
    good = patch.shape == "strip" and across and patch.w <= book.usable_width(patch.fabric)
    findings.expect(good, check, patch.pointer, message + long)


# ---------------------------------------------------------------------------- binding, backing, batting


def _check_binding(book: Book, sides: Sides, findings: Findings) -> None:
    binding = book.booklet.binding
    if binding is None:
        return
    at = binding.pointer
    findings.expect(binding.extra >= 0, BINDING, f"{at}/extra", "less than nothing is added")
    need = (sides[0] + sides[1]) * 2 + binding.extra
    findings.expect_equal(binding.need, need, BINDING, f"{at}/need", "perimeter with what is added")
    if binding.cut == "bias":
        _check_bias(book, binding, need, findings)
        return
    nothing = binding.square is None and binding.rounds is None
    findings.expect(nothing, BINDING, at, "strips across or along the fabric are not cut from a square")
    joined = _check_joined(
        book,
        binding.label,
        binding.width,
        need,
        binding.strips,
        BINDING,
        f"{at}/strips",
        findings,
        along=binding.cut == "lengthwise",
    )
    findings.expect_equal(binding.length, joined, BINDING, f"{at}/length", "length of the joined strips")


def _check_bias(book: Book, binding: Binding, need: Length, findings: Findings) -> None:
    """Sew the tube: the squares give the strip, and squares one unit smaller would not."""
    at, patch, width = binding.pointer, book.patches[binding.label], binding.width
    side = binding.square
    if side is None or not findings.expect(width > 0 and binding.strips > 0, BINDING, at, "nothing to cut round"):
        findings.expect(side is not None, BINDING, f"{at}/square", "a bias strip without its square")
        return
    good = patch.shape == "rectangle" and (patch.w, patch.h) == (side, side)
    message = f"{patch.label} is {say(patch.w)} x {say(patch.h)}, not a square of {say(side)}"
    findings.expect(good, BINDING, patch.pointer, message)
    rounds, _ = _tube(side, width, book.seam)
    findings.expect_equal(binding.rounds, rounds, BINDING, f"{at}/rounds", "strips beside each other on the panel")
    length, less = (
        _tube(each, width, book.seam)[1] * binding.strips - width * (binding.strips - 1) for each in (side, side - 1)
    )
    findings.expect_equal(binding.length, length, BINDING, f"{at}/length", "length of the bias strip")
    message = f"{say(length)} of bias strip, {say(need)} are needed"
    findings.expect(length >= need, BINDING, f"{at}/length", message)
    findings.expect(less < need, BINDING, f"{at}/square", f"squares of {say(side - 1)} would give {say(less)}")


def _tube(side: Length, width: Length, seam: Length) -> tuple[int, Length]:
    """Return the strips on a square's slanting panel, and their length: each of its two seams takes two allowances."""
    edge = side - seam * 2
    rounds = max((edge / width.times_root2()).floor(), 0)
    return rounds, edge.times_root2() * rounds


def _check_batting(book: Book, sides: Sides, findings: Findings) -> None:
    batting = book.booklet.batting
    check_beyond(batting.w, batting.h, sides, BATTING, batting.pointer, findings)
    inch = book.measures.inch
    sold = {
        name: (Length(Length(a * inch).floor()), Length(Length(b * inch).floor())) for name, (a, b) in PACKAGES.items()
    }
    holding = [name for name, (a, b) in sold.items() if _holds(a, b, batting.w, batting.h)]
    least = min(holding, key=lambda name: PACKAGES[name][0] * PACKAGES[name][1], default=None)
    package = batting.package
    at = f"{batting.pointer}/package"
    if package is None:
        findings.expect(least is None, BATTING, at, f"no package, where {least} holds {say(batting)}")
        return
    message = f"the package {package.id} of {say(package)} does not hold {say(batting)}"
    if findings.expect(_holds(package.w, package.h, batting.w, batting.h), BATTING, at, message):
        good = package.id == least and sold[least] == (package.w, package.h)
        findings.expect(good, BATTING, at, f"{package.id} of {say(package)}, where {least} is the least that holds it")


def _holds(a: Length, b: Length, w: Length, h: Length) -> bool:
    return (w <= a and h <= b) or (w <= b and h <= a)
