"""Sewing every unit again: what the cut sizes of its patches really give, against what the booklet says.

All from the seam allowance s. A rectangle loses s on each side. A triangle that is half a square of side L has, once
sewn on its long edge, a finished leg of L - s(2 + sqrt 2); a quarter of a square of side L has a finished long edge
of L - s(2 + 2 sqrt 2).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import Book
from seamleaf.proof.half_rectangles import check_half_rectangle, lies_so
from seamleaf.proof.ledger import MAKES, PLAIN_KINDS
from seamleaf.proof.outlines import (
    ROOT2,
    box_of,
    has_straight_base,
    is_box,
    is_triangle,
    leg_of,
    right_angle,
    setting_leg,
)
from seamleaf.proof.record import Patch, Region, Take, Unit
from seamleaf.proof.report import Findings, say

SEAM_TEST: Final = "seam test"
TAKES: Final = "patches of units"
REGIONS: Final = "regions"
MADE: Final = "made"
TRIM: Final = "trim"

TRIANGLES_ONLY: Final = ("half-square", "quarter-square", "three-triangle", "half-rectangle", "geese")
Sides = tuple[Length, Length]


def check_sewing(book: Book, findings: Findings) -> None:
    """Sew the seam test and every unit."""
    test, s = book.booklet.seam_test, book.seam
    findings.expect(test.strip > s * 2, SEAM_TEST, test.pointer, f"strips of {say(test.strip)} vanish in their seams")
    middle, whole = test.strip - s * 2, test.strip * 3 - s * 4
    findings.expect_equal(test.middle, middle, SEAM_TEST, f"{test.pointer}/middle", "middle strip of the seam test")
    findings.expect_equal(test.whole, whole, SEAM_TEST, f"{test.pointer}/whole", "whole of the seam test")
    for unit in book.booklet.units:
        bench = _Bench(book, unit, findings)
        if bench.check_takes():
            bench.check_regions()
            bench.check_sizes()


def unfinished(book: Book, take: Take) -> Sides:
    """Return the unfinished width and height of what is taken, as it lies."""
    if take.unit is not None:
        unit = book.units[take.unit]
        sides = (unit.trim or unit.made).sides
    else:
        patch = book.patches[take.label or ""]
        sides = patch.w, patch.h
    return sides[::-1] if take.turn % 180 == 90 else sides


@dataclass(slots=True)
class _Bench:
    """One unit at the machine."""

    book: Book
    unit: Unit
    findings: Findings

    # ------------------------------------------------------------------------------------- patches

    def check_takes(self) -> bool:
        """See that the batch takes as many patches of each label, in the right shape, as its regions need."""
        unit, findings = self.unit, self.findings
        before = len(findings.found)
        wanted: Counter[str] = Counter()
        for region in unit.regions:
            if unit.how in TRIANGLES_ONLY and not is_triangle(region.outline):
                findings.add(REGIONS, region.pointer, f"a {unit.how} is sewn of triangles")
                return False
            patch = self.book.patches[region.label]
            shape, gives = self._cut(region)
            message = f"{region.label} is {patch.shape}, but {unit.id} is sewn from {shape} patches there"
            findings.expect(patch.shape == shape, TAKES, f"{region.pointer}/label", message)
            findings.expect_equal(region.print, patch.print, REGIONS, f"{region.pointer}/print", "print of the patch")
            # Counted in eighths of a patch, since a square may serve several regions of a batch.
            wanted[region.label] += 8 * unit.makes // gives
        taken: Counter[str] = Counter()
        for take in unit.from_:
            if take.label is not None:
                taken[take.label] += 8 * take.n
            else:
                findings.expect(take.n == 1, TAKES, f"{take.pointer}/n", f"{take.n} units in one place")
        for label in sorted(wanted.keys() | taken.keys()):
            message = f"a batch of {unit.id} takes {_eighths(taken[label])} of {label}, {_eighths(wanted[label])} fit"
            findings.expect(wanted[label] == taken[label], TAKES, f"{unit.pointer}/from", message)
        if unit.how == "patch":
            good = len(unit.from_) == 1 and unit.from_[0].unit is None
            findings.expect(good, TAKES, f"{unit.pointer}/from", f"{unit.id} is one patch, but takes more")
        return len(findings.found) == before

    def _cut(self, region: Region) -> tuple[str, int]:
        """Return the shape of the patch that a region is sewn from, and how many such regions it gives."""
        how, method = self.unit.how, self.unit.method
        if how == "patch" and setting_leg(region.outline) is not None:
            shape = self.book.patches[region.label].shape
            return (shape if shape in ("halved", "quartered") else "halved"), 1
        if how == "half-square":
            return ("halved", 1) if method == "triangles" else ("rectangle", MAKES.get((how, method or ""), 1))
        if how == "quarter-square":
            return ("quartered", 1) if method == "triangles" else ("rectangle", 4)
        if how == "half-rectangle":
            return "halved", 1
        if how == "three-triangle":
            quarter = has_straight_base(region.outline)
            if method == "triangles":
                return ("quartered" if quarter else "halved"), 1
            return "rectangle", 4 if quarter else 2
        if how == "geese":
            return self._cut_geese(region)
        if how == "diamond":
            return ("halved", 1) if is_triangle(region.outline) else ("rectangle", 1)
        if how == "strip-set":
            return "strip", max(self.unit.makes, 1)
        return "rectangle", 1

    def _cut_geese(self, region: Region) -> tuple[str, int]:
        goose = has_straight_base(region.outline)
        if self.unit.method == "triangles":
            return ("quartered" if goose else "halved"), 1
        return "rectangle", (4 if goose else 2) if self.unit.method == "four" else 1

    # ------------------------------------------------------------------------------------- regions

    def check_regions(self) -> None:
        """See that every patch that has a place of its own lies where its region is."""
        for take in self.unit.from_:
            if take.label is None:
                continue
            patch = self.book.patches[take.label]
            if patch.shape in ("halved", "quartered"):
                self._check_triangle(take)
            elif self.unit.how == "strip-set":
                self._check_strip(take, patch)
            elif self.unit.how in PLAIN_KINDS:
                self._check_rectangle(take, patch)
            else:
                self._check_centre(take)

    def _own_regions(self, label: str) -> list[Region]:
        return [region for region in self.unit.regions if region.label == label]

    def _check_triangle(self, take: Take) -> None:
        """See that a triangle lies where its region is: right angle top left, its box centred on the long edge."""
        plane = self.book.plane
        for region in self._own_regions(take.label or ""):
            leg = setting_leg(region.outline) if self.unit.how == "patch" else None
            if leg is not None:
                corner, middle = (ZERO, ZERO), (leg / 2, leg / 2)
            elif is_triangle(region.outline):
                corner, middle = right_angle(region.outline)
            else:
                continue
            if middle == (take.x, take.y):
                across, down = corner[0] - middle[0], corner[1] - middle[1]
                way = plane.direction(plane.point(across, down))
                square = way == (5 + take.turn // 45) % 8 * plane.eighth
                if lies_so(take.turn, across, down) if self.unit.how == "half-rectangle" else square:
                    return
        message = f"no region of {take.label} lies where the triangle is sewn in {self.unit.id}"
        self.findings.add(REGIONS, take.pointer, message)

    def _check_rectangle(self, take: Take, patch: Patch) -> None:
        for region in self._own_regions(take.label or ""):
            (left, top), (right, bottom) = box_of(region.outline)
            if ((left + right) / 2, (top + bottom) / 2) == (take.x, take.y):
                finished = right - left, bottom - top
                sides = (patch.h, patch.w) if take.turn % 180 == 90 else (patch.w, patch.h)
                message = (
                    f"{patch.label} is cut {_by(sides)}, which does not finish {_by(finished)} with a seam of "
                    f"{say(self.book.seam)}"
                )
                good = all(map(self._fits, sides, finished)) and take.turn % 90 == 0 and is_box(region.outline)
                self.findings.expect(good, MADE, take.pointer, message)
                return
        message = f"no region of {take.label} lies where the patch is sewn in {self.unit.id}"
        self.findings.add(REGIONS, take.pointer, message)

    def _check_strip(self, take: Take, patch: Patch) -> None:
        """See that a strip is wide enough for its region, and long enough for every unit that is cut from the set."""
        unit, around = self.unit, self.book.seam * 2
        for region in self._own_regions(patch.label):
            (left, top), (right, bottom) = box_of(region.outline)
            if ((left + right) / 2, (top + bottom) / 2) == (take.x, take.y) and is_box(region.outline):
                wide, across = (right - left, bottom - top) if unit.axis == "row" else (bottom - top, right - left)
                message = f"strips {patch.label} of {say(patch.h)} do not finish {say(wide)}"
                findings, upright = self.findings, 90 if unit.axis == "row" else 0
                findings.expect(self._fits(patch.h, wide) and take.turn % 180 == upright, MADE, take.pointer, message)
                length = (across + around) * unit.makes
                message = f"strips {patch.label} of {say(patch.w)} do not give {unit.makes} units, {say(length)}"
                findings.expect(patch.w >= length, MADE, take.pointer, message)
                return
        message = f"no region of {take.label} lies where the strip is sewn in {unit.id}"
        self.findings.add(REGIONS, take.pointer, message)

    def _check_centre(self, take: Take) -> None:
        """See that what is cut up after sewing lies in the middle of its unit, or on the box of its own region."""
        boxes = [box_of(region.outline) for region in self._own_regions(take.label or "")]
        w, h = self.unit.finished.sides
        good = {((left + right) / 2, (top + bottom) / 2) for (left, top), (right, bottom) in boxes} | {(w / 2, h / 2)}
        message = f"{take.label} lies neither in the middle of {self.unit.id} nor where its region is"
        self.findings.expect((take.x, take.y) in good, REGIONS, take.pointer, message)

    def _fits(self, cut: Length, finished: Length) -> bool:
        """Whether a cut size is the finished size with both allowances, up to the ruler if no ruler shows that."""
        exact = finished + self.book.seam * 2
        return cut == exact or (not exact.is_rational and exact < cut < exact + self.book.grid)

    # --------------------------------------------------------------------------------------- sizes

    def check_sizes(self) -> None:
        """Compare the size that comes off the machine with the size said, and that with the trim."""
        unit, findings, around = self.unit, self.findings, self.book.seam * 2
        leg = setting_leg(unit.outline) if unit.how == "patch" else None
        if leg is not None:
            self._check_setting_triangle(leg)
            return
        sewn = _SEWN[unit.how](self)
        if sewn is None:
            return
        for key, real, made in zip("wh", sewn, unit.made.sides, strict=True):
            message = f"{unit.id} comes out {say(real)}, which is not the {say(made)} that is said"
            findings.expect(made <= real < made + self.book.grid, MADE, f"{unit.made.pointer}/{key}", message)
        wanted = unit.finished.w + around, unit.finished.h + around
        if unit.trim is not None:
            message = f"{unit.id} is trimmed to {say(unit.trim)}, but {_by(wanted)} finishes {say(unit.finished)}"
            findings.expect(unit.trim.sides == wanted, TRIM, unit.trim.pointer, message)
            message = f"{unit.id} comes out {say(unit.made)} and cannot be trimmed to {say(unit.trim)}"
            enough = unit.made.w >= unit.trim.w and unit.made.h >= unit.trim.h
            findings.expect(enough, TRIM, unit.trim.pointer, message)
        elif unit.made.sides != wanted:
            message = f"{unit.id} comes out {say(unit.made)}; nothing trims it to {_by(wanted)}"
            findings.add(TRIM, f"{unit.pointer}/trim", message)

    def _check_setting_triangle(self, finished: Length) -> None:
        unit, findings = self.unit, self.findings
        patch = self.book.patches[unit.from_[0].label or ""]
        leg = patch.w if patch.shape == "halved" else patch.w * ROOT2 / 2
        findings.expect_equal(unit.made.sides, (leg, leg), MADE, unit.made.pointer, f"legs of {unit.id} as cut")
        least = finished + self.book.seam * Length(2, 1)
        message = f"{unit.id} needs legs of {say(least)}, but {patch.label} gives {say(leg)}"
        findings.expect(leg >= least, MADE, f"{patch.pointer}/w", message)
        findings.expect(patch.w == patch.h, MADE, f"{patch.pointer}/h", f"{patch.label} is not a square")
        findings.expect(unit.trim is None, TRIM, f"{unit.pointer}/trim", "triangles are trimmed on the quilt's edge")

    def joined(self) -> Sides | None:
        """Return the size of parts joined in a line: every seam eats two allowances."""
        unit, around = self.unit, self.book.seam * 2
        along = {"row": 0, "column": 1}.get(unit.axis or "")
        if along is None or len(unit.from_) < 1:
            self.findings.add(TAKES, f"{unit.pointer}/axis", f"{unit.id} is joined neither in a row nor in a column")
            return None
        sides = [unfinished(self.book, take) for take in unit.from_]
        total = sum((each[along] for each in sides), Length(0)) - around * (len(sides) - 1)
        across = min(each[1 - along] for each in sides)
        if any(each[1 - along] != across for each in sides):
            message = f"parts of {unit.id} of unequal size across, {', '.join(say(each[1 - along]) for each in sides)}"
            self.findings.add(MADE, f"{unit.pointer}/from", message)
        return (total, across) if along == 0 else (across, total)

    def strip_set(self) -> Sides | None:
        """Sew the strips of a set along their long edges, and cut units of one width from it."""
        unit, around = self.unit, self.book.seam * 2
        if unit.axis is None:
            self.findings.add(TAKES, f"{unit.pointer}/axis", f"{unit.id} is neither a row nor a column")
            return None
        high = sum((self.book.patches[take.label or ""].h for take in unit.from_), Length(0))
        high = high - around * (len(unit.from_) - 1)
        width = (unit.finished.h if unit.axis == "row" else unit.finished.w) + around  # what the sub-cut is told to be
        return (high, width) if unit.axis == "row" else (width, high)

    def plain(self) -> Sides:
        """Return the size of a unit all of whose patches were seen to be cut with plain allowances."""
        around = self.book.seam * 2
        return self.unit.finished.w + around, self.unit.finished.h + around

    def one_patch(self) -> Sides:
        """Return the size of a single patch."""
        return unfinished(self.book, self.unit.from_[0])

    def squares(self) -> list[Length]:
        """Return the sides of the squares that a unit is sewn from; reports what is not square."""
        found: list[Length] = []
        for take in self.unit.from_:
            patch = self.book.patches[take.label or ""]
            self.findings.expect(patch.w == patch.h, MADE, f"{patch.pointer}/h", f"{patch.label} is not a square")
            found.append(patch.w)
        return found

    def half_square(self) -> Sides | None:
        """Return the size of a half-square by its method."""
        s, sides = self.book.seam, self.squares()
        if len(set(sides)) != 1:
            self.findings.add(MADE, f"{self.unit.pointer}/from", f"{self.unit.id} is sewn from unequal squares")
            return None
        side = sides[0]
        if self.unit.method == "four":  # sewn round the edge, cut along both diagonals
            made = (side - s * 2) * ROOT2 / 2
        else:
            made = (side / 2 if self.unit.method == "eight" else side) - s * ROOT2
        return made, made

    def quarter_square(self) -> Sides | None:
        """Return the size of a quarter-square: its long edges lose s(2 + 2 sqrt 2), and it gains 2s."""
        sides = self.squares()
        if len(set(sides)) != 1:
            self.findings.add(MADE, f"{self.unit.pointer}/from", f"{self.unit.id} is sewn from unequal squares")
            return None
        made = sides[0] - self.book.seam * ROOT2 * 2
        return made, made

    def three_triangle(self) -> Sides | None:
        """Return the size of a three-triangle square: the smaller of what its half and its quarters give.

        The half is half a square, which loses s(2 + sqrt 2) and gains 2s; the quarters together are half of a
        half-square, cut across its seam, and lose s(2 + 2 sqrt 2).
        """
        s = self.book.seam
        self.squares()
        quarters = {region.label for region in self.unit.regions if has_straight_base(region.outline)}
        given = {
            self.book.patches[region.label].w - s * ROOT2 * (2 if region.label in quarters else 1)
            for region in self.unit.regions
        }
        if max(given) - min(given) >= self.book.grid:
            message = f"the half and the quarters of {self.unit.id} are cut for squares of unlike size"
            self.findings.add(MADE, f"{self.unit.pointer}/from", message)
        return min(given), min(given)

    def half_rectangle(self) -> Sides | None:
        """Return the size of a half-rectangle as it is said, which is proved by what can be trimmed from it."""
        check_half_rectangle(self.book, self.unit, MADE, self.findings)
        return self.unit.made.sides

    def geese(self) -> Sides | None:
        """Return the size of flying geese."""
        s, unit = self.book.seam, self.unit
        goose = {region.label for region in unit.regions if has_straight_base(region.outline)}
        large = [take for take in unit.from_ if take.label in goose]
        small = [take for take in unit.from_ if take.label not in goose]
        if len(large) != 1 or not small:
            self.findings.add(TAKES, f"{unit.pointer}/from", f"{unit.id} needs one goose patch, and sky patches")
            return None
        base, sky = unfinished(self.book, large[0]), unfinished(self.book, small[0])
        self.findings.expect(sky[0] == sky[1], MADE, small[0].pointer, f"{small[0].label} is not a square")
        upright = unit.finished.w >= unit.finished.h
        if unit.method == "flip":
            high = min(base)
            message = f"squares of {say(sky[0])} do not reach the corners of a rectangle {_by(base)}"
            self.findings.expect(sky[0] == high, MADE, small[0].pointer, message)
            return base
        self.findings.expect(base[0] == base[1], MADE, large[0].pointer, f"{large[0].label} is not a square")
        # The sky's right angle lies sky/sqrt 2 - s beyond the seam, which runs at 45 degrees: what the unit gains
        # in width it loses in height. The goose's base lies goose/2 - s sqrt 2 below the tip of the seams.
        wide = base[0] - s * ROOT2 * 2
        stated = unit.made.w if upright else unit.made.h
        deep = sky[0] + (base[0] - stated) / 2 - s * ROOT2 * 2
        return (wide, deep) if upright else (deep, wide)

    def corners(self) -> Sides | None:
        """Return the size of stitch-and-flip corners: that of the rectangle, if the squares cut off what is wanted."""
        unit, s = self.unit, self.book.seam
        base = unfinished(self.book, unit.from_[0])
        over = (base[0] - unit.finished.w - s * 2 + base[1] - unit.finished.h - s * 2) / 2
        for take in unit.from_[1:]:
            patch = self.book.patches[take.label or ""]
            legs = [leg_of(each.outline) for each in self._own_regions(patch.label) if is_triangle(each.outline)]
            message = f"a square of {say(patch.w)} turns down no corner of {say(legs)}"
            good = patch.w == patch.h and all(patch.w - s * 2 - over == leg for leg in legs)
            self.findings.expect(good and bool(legs), MADE, take.pointer, message)
        return base

    def diamond(self) -> Sides | None:
        """Return the size of a square in a square: half the centre's diagonal, and the corner triangle's height.

        From the middle to a raw corner it is c/2 + L/sqrt 2 - s, with c the centre's finished side and L the
        corner square's side; that is half the diagonal of the unit.
        """
        unit, s = self.unit, self.book.seam
        centre, corners = unit.from_[0], unit.from_[1:]
        patches = [self.book.patches[take.label or ""] for take in corners if take.label]
        sides = {side for patch in patches for side in (patch.w, patch.h)}
        inner = unfinished(self.book, centre)
        if len(sides) != 1 or inner[0] != inner[1] or centre.turn % 90 != 45:
            message = f"{unit.id} needs a square centre on its point, and four alike corners"
            self.findings.add(TAKES, f"{unit.pointer}/from", message)
            return None
        exact = unit.finished.w * ROOT2 / 2
        message = f"a centre of {say(inner[0])} does not finish {say(exact)}"
        self.findings.expect(self._fits(inner[0], exact), MADE, centre.pointer, message)
        made = (inner[0] - s * 2) * ROOT2 / 2 + sides.pop() - s * ROOT2
        return made, made

    def unknown(self) -> None:
        """Refuse what this proof cannot sew."""
        self.findings.add(MADE, f"{self.unit.pointer}/how", f"a {self.unit.how}, which this proof cannot sew")


_SEWN: Final[dict[str, Callable[[_Bench], Sides | None]]] = {
    "patch": _Bench.one_patch,
    "join": _Bench.joined,
    "around": _Bench.plain,
    "partial": _Bench.plain,
    "half-square": _Bench.half_square,
    "quarter-square": _Bench.quarter_square,
    "three-triangle": _Bench.three_triangle,
    "half-rectangle": _Bench.half_rectangle,
    "geese": _Bench.geese,
    "corners": _Bench.corners,
    "diamond": _Bench.diamond,
    "strip-set": _Bench.strip_set,
}


def _by(sides: Sides) -> str:
    return f"{say(sides[0])} x {say(sides[1])}"


def _eighths(count: int) -> str:
    return str(Fraction(count, 8))
