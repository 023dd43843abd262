"""Figures of units: the patches that a step or a block shows, and its arrows, against how the unit is sewn.

A joined unit is shown apart and whole, a strip set as strips, sewn, and cut; how often the stages of another method
show a patch follows from what is done in them.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import Book
from seamleaf.proof.drawn import Drawing, Way
from seamleaf.proof.measures import counts_in
from seamleaf.proof.record import Point, Seam, Unit
from seamleaf.proof.report import Findings

ARROWS: Final = "arrows of figures"
COUNTS: Final = "patches of figures"
_JOINED: Final = ("join", "strip-set")
_CROSSED: Final = ("quarter-square", "three-triangle")
"""Units whose last seam is the long one, across those before it."""
_STRAIGHT: Final = (*_JOINED, "around", "partial")
"""Units whose seams are upright or level."""
_STAGES: Final = {
    ("half-square", "two"): 8,
    ("half-square", "four"): 10,
    ("half-square", "eight"): 14,
    ("half-square", "triangles"): 4,
    ("half-rectangle", "triangles"): 8,
    ("quarter-square", "two"): 18,
    ("quarter-square", "triangles"): 12,
    ("three-triangle", "two"): 17,
    ("three-triangle", "triangles"): 9,
    ("geese", "four"): 16,
    ("geese", "flip"): 10,
    ("geese", "triangles"): 6,
}
"""Patches in all the stages of a method; halves that are sewn but not cut apart count as two."""
_CUT_INTO: Final = {"halved": 3, "quartered": 5}
_UNIT: Final = re.compile(r"[A-Z]{1,3}[0-9]{1,4}")
_WORDS: Final = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_PATCHES: Final = re.compile(r"\b(\w+) patch(?:es)?\b")
_NEST: Final = 6
"""How deep a block may be drawn apart."""


_Corner = tuple[bool, bool, Length]
"""A square on a corner: whether at the right, whether at the foot, and its side as cut."""


class Steps:
    """The figure of a unit with the booklet beside it."""

    def __init__(self, book: Book, drawing: Drawing, findings: Findings) -> None:
        self.book = book
        self.drawing = drawing
        self.findings = findings
        self.strips = {strip.unit for border in book.booklet.borders for strip in border.strips}

    def check_step(self, of: str) -> None:
        """Look at the figure of a step."""
        unit = self.book.units.get(of)
        if unit is None:
            self.findings.add(COUNTS, "", f"there is no unit {of}")
            return
        held = patches_of([unit.id], self.book)
        self._check_names(unit, held)
        wanted = self._drawn(unit, held.total())
        if wanted is not None and unit.id not in self.strips:  # the strip of a border is drawn with a gap in it
            message = f"the stages of {unit.id} are drawn with {self.drawing.patches} patches, they take {wanted}"
            self.findings.expect(self.drawing.patches == wanted, COUNTS, "", message)
        if unit.how == "strip-set":  # its strips lie level, the left part of a row uppermost
            ways = [way_of(self.book.seams[name]) for name in unit.seams]
            level = [way[::-1] if isinstance(way, tuple) and unit.axis == "row" else way for way in ways]
            self._compare([{way} for way in level])
        elif unit.how != "patch" and unit.id not in self.strips:
            self._compare(self._crossed_ways(unit) if unit.how in _CROSSED else self._own_ways(unit))

    def check_block(self, of: str) -> None:
        """Look at the figure of a block, apart or whole."""
        unit = self.book.units.get(of.removesuffix("-parts")) or self.book.units.get(of)
        if unit is None:
            return
        held = patches_of([unit.id], self.book)
        total, apart = held.total(), of.endswith("-parts") and of.removesuffix("-parts") == unit.id
        message = f"{unit.id} is drawn with {self.drawing.patches} patches, it has {total}"
        self.findings.expect(self.drawing.patches == total, COUNTS, "", message)
        shown = Counter(text for text in self.drawing.texts if text in self.book.patches)
        self.findings.expect(shown <= held, COUNTS, "", f"{unit.id} shows {listed(shown)}, it has {listed(held)}")
        counts = counts_in(self.drawing.title)
        message = f"the title of {unit.id} says to make {counts[-1:]}, it takes {unit.count}"
        self.findings.expect(apart or counts[-1:] == [unit.count], COUNTS, "", message)
        for said in _PATCHES.finditer(self.drawing.title):  # a block may be called "patch"
            count = _WORDS.index(said[1]) if said[1] in _WORDS else int(said[1]) if said[1].isdecimal() else total
            self.findings.expect(count == total, COUNTS, "", f"{said[0]} in the title, {unit.id} has {total}")
        if apart and unit.how in _JOINED:
            self._check_block_arrows(unit)
        elif apart:
            self._compare([{_turned(way, unit.lies, mirror=False) for way in ways} for ways in self._own_ways(unit)])

    def _drawn(self, unit: Unit, total: int) -> int | None:
        """Return how many patches the stages of a unit show; ``None`` where it has no stages."""
        added = sum(take.n for take in unit.from_) - 1
        if unit.how == "corners":
            return self._corner_stages(unit)
        if unit.how == "join":  # apart, and whole
            return 2 * total
        if unit.how == "strip-set":  # side by side, sewn, and cut
            return 3 * len(unit.from_)
        if unit.how == "partial":  # its centre four times: with one strip of the ring, and thrice with all four
            return 13 + 4 * (total - 4)
        if unit.how == "diamond":  # its centre four times, two corners and then all of them laid on and pressed
            return 12 + 4 * (total - 4)
        if unit.how == "around" and added % 4 == 0:  # after each round of four logs, and whole
            return sum(total - added + 4 * turn for turn in range(1, added // 4 + 1)) + total
        if unit.how == "patch":  # a square, and the triangles that it is cut into
            return _CUT_INTO.get(self.book.patches[unit.from_[0].label or ""].shape)
        stages = _STAGES.get((unit.how, unit.method or ""))
        if stages is not None and unit.how == "three-triangle" and unit.method == "two" and not unit.mirrored:
            return stages - total  # both halves are alike: no mirror image stands beside the finished one
        return stages

    def _corner_stages(self, unit: Unit) -> int:
        """Count the patches of flipped corners: the first laid on, sewn, pressed; then all that do not lap; and whole.

        The squares of two corners on one edge lap where they are together longer than that edge of the cut rectangle.
        """
        wide, high = unit.finished.sides
        groups: list[list[_Corner]] = []
        for region in unit.regions[1:]:
            xs, ys = zip(*region.outline, strict=True)
            at_right, at_foot = min(xs) + max(xs) > wide, min(ys) + max(ys) > high
            corner = at_right, at_foot, self.book.patches[region.label].w
            if len(groups) < 2 or any(_lap(corner, other, unit) for other in groups[-1]):
                groups.append([])
            groups[-1].append(corner)
        shown, done = 2 if len(groups) == 1 else 4, 0
        for group in groups:
            shown += 1 + done + len(group)
            done += len(group)
        return shown + len(unit.regions)

    def _check_names(self, unit: Unit, held: Counter[str]) -> None:
        """See that a step names the patches and units that it takes, and no other."""
        own = {*held, *unit.batch, unit.id}
        for text in self.drawing.texts:
            if text in self.book.patches or (text in self.book.units and _UNIT.fullmatch(text)):
                self.findings.expect(
                    text in own, COUNTS, "", f"the step of {unit.id} shows {text}, which it does not take"
                )

    # ----------------------------------------------------------------------------------------- arrows

    def _own_ways(self, unit: Unit) -> list[Collection[Way]]:
        """Return where the arrows of a unit's own seams may lead."""
        seams = [self.book.seams[name] for name in unit.seams]
        if unit.how in _STRAIGHT:
            return [{way_of(seam)} for seam in seams]
        return [_slanting_ways(seam, unit) for seam in seams]

    def _crossed_ways(self, unit: Unit) -> list[Collection[Way]]:
        """Return where the arrows of a step lead in which pairs are sewn to each other, or a pair to a half.

        Of two squares the pair is shown as a half-square, which lies as it comes, with the arrow of its first seam: it
        points at the patch that this is pressed to. Beside a unit of mirrored pairs stands its mirror image.
        """
        *short, long = self._own_ways(unit)
        if unit.method == "two":
            seam = self.book.seams[unit.seams[0]]
            if seam.press in ("before", "after"):
                to = seam.first if seam.press == "before" else seam.second
                pointed = self.drawing.ahead[:1]
                message = f"the first arrow points at {', '.join(pointed)}, the seam is pressed to {to}"
                self.findings.expect(pointed == [to], ARROWS, "", message)
                short = [{way for way in self.drawing.arrows[:1] if way in ((-1, -1), (1, 1))} or {(1, 1)}]
            else:
                short = [{seam.press}]
        mirrored = [{_turned(way, 0, mirror=True) for way in long}] if unit.mirrored else []
        return [*short, long, *mirrored]

    def _check_block_arrows(self, unit: Unit) -> None:
        """See that the arrows are those of the block's seams, or of its parts' as well, however deep it is drawn."""
        drawn = Counter(self.drawing.arrows)
        wanted = [
            Counter(_turned(way, unit.lies, mirror=False) for way in self._ways_of(unit, depth).elements())
            for depth in range(1, _NEST)
        ]
        self.findings.expect(drawn in wanted, ARROWS, "", f"the arrows of {unit.id} are not as its seams are pressed")

    def _ways_of(self, unit: Unit, depth: int) -> Counter[Way]:
        ways = Counter(way_of(self.book.seams[name]) for name in unit.seams)
        for take in unit.from_:
            inner = self.book.units[take.unit] if take.unit is not None else None
            if inner is not None and inner.how in _JOINED and depth > 1:
                for way, count in self._ways_of(inner, depth - 1).items():
                    ways[_turned(way, take.turn, mirror=take.mirror)] += count
        return ways

    def _compare(self, wanted: list[Collection[Way]]) -> None:
        """See that arrows lead where seams are pressed: those first that may lead one way alone."""
        drawn = Counter(self.drawing.arrows)
        chosen: Counter[Way] = Counter()
        for ways in sorted(wanted, key=len):
            left = drawn - chosen
            chosen[next((way for way in sorted(ways, key=str) if left[way]), min(ways, key=str))] += 1
        compare_arrows(drawn, chosen, self.findings)


def patches_of(units: Iterable[str], book: Book) -> Counter[str]:
    """Count the patches in units, by label."""
    held: Counter[str] = Counter()
    for unit in map(book.units.__getitem__, units):
        held.update(region.label for region in unit.regions)
        held += patches_of((take.unit for take in unit.from_ if take.unit is not None), book)
    return held


def compare_arrows(drawn: Counter[Way], wanted: Counter[Way], findings: Findings) -> None:
    """See that arrows lead where seams are pressed."""
    message = f"arrows lead {listed(drawn)}, the seams are pressed {listed(wanted)}"
    findings.expect(drawn == wanted, ARROWS, "", message)


def way_of(seam: Seam) -> Way:
    """Return where the arrow of an upright or level seam leads."""
    if seam.press not in ("before", "after"):
        return seam.press
    step = 1 if seam.press == "after" else -1
    return (step, 0) if seam.axis == "x" else (0, step)


def listed(counts: Counter[str] | Counter[Way]) -> str:
    """Write counts for a message."""
    return ", ".join(f"{count} {name}" for name, count in sorted(counts.items(), key=str)) or "nothing"


def _slanting_ways(seam: Seam, unit: Unit) -> Collection[Way]:
    """Return where the arrow of a slanting seam may lead: square to it, to the side of the patch that it is pressed to.

    Both ways where patches of either label lie on both sides.
    """
    if seam.press not in ("before", "after"):
        return {seam.press}
    to, away = (seam.first, seam.second) if seam.press == "before" else (seam.second, seam.first)
    (ax, ay), (bx, by) = seam.line
    for label, side in ((to, 1), (away, -1)):
        sides = {_side_of(region.outline, seam) for region in unit.regions if region.label == label} - {0}
        if len(sides) == 1 and to != away:
            sign = sides.pop() * side
            return {((ay - by).sign() * sign, (bx - ax).sign() * sign)}
    return {((ay - by).sign() * sign, (bx - ax).sign() * sign) for sign in (1, -1)}


def _side_of(outline: Sequence[Point], seam: Seam) -> int:
    """Return on which side of a seam a patch lies that has an edge on it; 0 for others."""
    (ax, ay), (bx, by) = seam.line
    dx, dy = bx - ax, by - ay

    def is_on(x: Length, y: Length) -> bool:
        along = dx * (x - ax) + dy * (y - ay)
        return dx * (y - ay) == dy * (x - ax) and ZERO <= along <= dx * dx + dy * dy

    if sum(is_on(x, y) for x, y in outline) < 2:
        return 0
    # Twice the sum of the areas that its corners span with the seam tells the side.
    return sum((dx * (y - ay) - dy * (x - ax) for x, y in outline), ZERO).sign()


def _lap(one: _Corner, other: _Corner, unit: Unit) -> bool:
    """Tell whether two squares on corners of a cut rectangle lie on each other."""
    both = one[2] + other[2]
    wide, high = unit.made.sides
    return (one[0] == other[0] or both > wide) and (one[1] == other[1] or both > high)


def _turned(way: Way, turn: int, *, mirror: bool) -> Way:
    if isinstance(way, str):
        return way
    x, y = (-way[0], way[1]) if mirror else way
    for _ in range(turn % 360 // 90):
        x, y = -y, x
    return x, y
