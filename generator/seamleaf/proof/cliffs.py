"""Cliffs: what a fabric would take if it gave a little less, or more, than is planned with.

The plans for such fabric are not published, so what they need is held between what any plan takes and what the
published sheets show: sheets that lie within other fabric as well are a plan for it too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.backing import least_backing, ways_of_panels
from seamleaf.proof.book import Book
from seamleaf.proof.cutting import TRIANGLES
from seamleaf.proof.form import Box
from seamleaf.proof.record import Fabric, Patch, Sheet
from seamleaf.proof.report import Findings, say

CLIFFS: Final = "cliffs"

YARDAGE_STEP: Final = {"in": Fraction(1), "cm": Fraction(5, 2)}
PIECE_STEP: Final = {"in": Fraction(1, 4), "cm": Fraction(1, 2)}
"""By how much fabric is smaller at the cliff, by unit (a convention of the format)."""
MOST_BESIDE: Final = 6
"""Up to so many patches side by side their heights are added up; of smaller ones the area says as much."""


def check_cliffs(book: Book, findings: Findings) -> None:
    """See that no fabric is said to need less than any plan, nor more than the sheets that are published."""
    for fabric in book.booklet.fabrics:
        cut = _Cut(book, fabric)
        cliff = _smaller(book, fabric)
        if cliff is not None:
            _check(cut, cliff, fabric.cliff, f"{fabric.pointer}/cliff", findings)
        for other in fabric.usables:
            if findings.expect(
                isinstance(other.usable, Length) == isinstance(fabric.usable, Length),
                CLIFFS,
                f"{other.pointer}/usable",
                "yardage has a width, a piece of a bundle two sides",
            ):
                sides = _sides(other.usable)
                _check(cut, sides, other.need, f"{other.pointer}/need", findings)
                findings.expect(
                    sides != cliff or other.need == fabric.cliff,
                    CLIFFS,
                    f"{fabric.pointer}/cliff",
                    f"not what the table says of fabric of {sides}",
                )


@dataclass(frozen=True, slots=True)
class _Sides:
    """What is sure of a fabric; the length of yardage has no end."""

    w: Length
    h: Length | None

    def holds(self, w: Length, h: Length) -> bool:
        return w <= self.w and (self.h is None or h <= self.h)

    def __str__(self) -> str:
        return say(self.w) if self.h is None else f"{say(self.w)} x {say(self.h)}"


def _sides(usable: Length | Box) -> _Sides:
    return _Sides(usable, None) if isinstance(usable, Length) else _Sides(usable.w, usable.h)


def _smaller(book: Book, fabric: Fabric) -> _Sides | None:
    """Return the fabric of the cliff, or ``None`` where nothing is left of it."""
    usable = _sides(fabric.usable)
    less = Length((YARDAGE_STEP if usable.h is None else PIECE_STEP)[book.measures.unit])
    smaller = _Sides(usable.w - less, None if usable.h is None else usable.h - less)
    return smaller if smaller.w > ZERO and (smaller.h is None or smaller.h > ZERO) else None


class _Cut:
    """What is cut from one fabric."""

    def __init__(self, book: Book, fabric: Fabric) -> None:
        self._book = book
        self.fabric = fabric
        self._sheets: Sequence[Sheet] = [sheet for sheet in book.booklet.cutting if sheet.fabric == fabric.id]
        self._patches = [
            patch
            for patch in book.booklet.patches
            if patch.fabric == fabric.id and patch.shape != "strip" and patch.use in ("block", "triangle")
        ]
        """Patches that are the same whatever fabric they come from; strips and panels are joined otherwise."""

    def lies_within(self, sides: _Sides) -> bool:
        """Tell whether every published sheet could be cut from other fabric as it is."""
        return all(
            sides.holds(part.x + part.w, sheet.sheet.h if sides.h is None else part.y + part.h)
            for sheet in self._sheets
            for part in sheet.parts
        )

    def too_large(self, sides: _Sides) -> Patch | None:
        """Return a patch that does not lie in other fabric, neither straight nor, where it may, turned."""
        for patch in self._patches:
            turned = not self.fabric.directional and sides.holds(patch.h, patch.w)
            if patch.count and not turned and not sides.holds(patch.w, patch.h):
                return patch
        return None

    def least(self, sides: _Sides) -> Length | int:
        """Return what every plan takes: the area, and the heights of patches of which few lie beside each other."""
        cut = [(patch, -(-patch.count // TRIANGLES[patch.shape])) for patch in self._patches]
        area = sum((patch.w * patch.h * count for patch, count in cut), ZERO)
        if sides.h is not None:
            return _pieces(area, sides.w * sides.h)
        return max(area / sides.w, *self._heights(cut, sides.w), *self._backs(sides.w))

    def _backs(self, width: Length) -> Iterator[Length]:
        """Yield what panels of the back take, where it is of this fabric alone."""
        back = self._book.booklet.backing
        if back.fabric == self.fabric.id and not back.insert_asked:
            yield min(least_backing(self._book, *sides, width) for sides in ways_of_panels(self._book))

    def _heights(self, cut: list[tuple[Patch, int]], width: Length) -> Iterator[Length]:
        """Yield bounds: a line across the fabric meets at most ``most`` of the patches wider than its next part."""
        for most in range(1, MOST_BESIDE + 1):
            heights = ZERO
            for patch, count in cut:
                across = patch.w if self.fabric.directional else min(patch.w, patch.h)
                if across * (most + 1) > width:
                    heights += (patch.h if self.fabric.directional else across) * count
            yield heights / most


def _pieces(area: Length, piece: Length) -> int:
    """Return the whole number of pieces that have an area."""
    pieces = int((area / piece).to_float())  # a guess, put right exactly
    while piece * pieces < area:
        pieces += 1
    while pieces and piece * (pieces - 1) >= area:
        pieces -= 1
    return pieces


def _check(cut: _Cut, sides: _Sides, need: Length | int | None, at: str, findings: Findings) -> None:
    fabric = cut.fabric
    within = cut.lies_within(sides)
    if need is None:
        message = f"{fabric.id} of {sides} is said not to do, but every published sheet comes out of it"
        findings.expect(not within, CLIFFS, at, message)
        return
    if isinstance(need, Length) != isinstance(fabric.need, Length):
        findings.add(CLIFFS, at, f"{say(need)}: yardage is a length, a bundle a number of pieces")
        return
    large = cut.too_large(sides)
    if large is not None:
        findings.add(CLIFFS, at, f"{fabric.id} of {sides} cannot give {large.label}, {say(large.w)} x {say(large.h)}")
        return
    message = f"{fabric.id} of {sides} would need {say(need)}, more than its published sheets, {say(fabric.need)}"
    findings.expect(not within or _at_most(need, fabric.need), CLIFFS, at, message)
    least = cut.least(sides)
    message = f"{fabric.id} of {sides} would need {say(need)}, less than any plan, {say(least)}"
    findings.expect(_at_most(least, need), CLIFFS, at, message)
    if not _is_wider(sides, fabric):
        message = f"{fabric.id} of {sides} would need {say(need)}, less than the bound of larger, {say(fabric.bound)}"
        findings.expect(_at_most(fabric.bound, need), CLIFFS, at, message)


def _is_wider(sides: _Sides, fabric: Fabric) -> bool:
    usable = _sides(fabric.usable)
    return sides.w > usable.w or (sides.h is not None and usable.h is not None and sides.h > usable.h)


def _at_most(one: Length | int, other: Length | int) -> bool:
    """Compare two needs of the same fabric."""
    if isinstance(one, Length):
        return isinstance(other, Length) and one <= other
    return not isinstance(other, Length) and one <= other
