"""Tech editing: what a designer states by hand, compared with the booklets, each difference with the arithmetic.

Squares that are cut into triangles are counted as squares, as cutting tables do.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from seamleaf.booklet.record import Booklet, FabricNote, PatchNote, Unit
from seamleaf.lengths import Length, Measures, format_rational
from seamleaf.reading.pattern import Pattern
from seamleaf.reading.problems import Problem
from seamleaf.reading.stated_records import StatedBuy, StatedCut, StatedCuts, StatedSize

_SQUARES: Final = {"halved": 2, "quartered": 4}
"""Triangles that one square gives."""

Sides = tuple[Length, Length]


def compare_stated(pattern: Pattern, booklets: Mapping[str, Booklet]) -> list[Problem]:
    """Return one problem for each stated value that is not what is computed."""
    problems: list[Problem] = []
    for stated in pattern.stated:
        if stated.size in booklets:
            problems += _Editor(booklets[stated.size], pattern.measures).compare(stated)
    return problems


class _Editor:
    """One size at the editor's desk."""

    def __init__(self, booklet: Booklet, measures: Measures) -> None:
        self._booklet = booklet
        self._measures = measures

    def compare(self, stated: StatedSize) -> Iterator[Problem]:
        """Yield every difference."""
        booklet = self._booklet
        if stated.finished is not None:
            yield from self._finished(stated)
        if stated.blocks is not None and stated.blocks.value != booklet.set.blocks:
            rows = " + ".join(map(str, booklet.set.rows))
            found = f"{stated.blocks.value} blocks"
            yield Problem(stated.blocks.where, found, f"{booklet.set.blocks}", f"by rows {rows}")
        if stated.binding is not None:
            yield from self._binding(stated)
        fabrics = {fabric.id: fabric for fabric in booklet.fabrics}
        for buy in stated.buy:
            fabric = fabrics.get(buy.fabric)
            if fabric is None:
                yield Problem(buy.where, f"{buy.text} of {buy.fabric}", "nothing of it in this size")
            else:
                yield from self._buy(buy, fabric)
        for cuts in stated.cut:
            yield from self._cuts(cuts)

    # ----------------------------------------------------------------------------------------- quilt

    def _finished(self, stated: StatedSize) -> Iterator[Problem]:
        assert stated.finished is not None  # noqa: S101 -- for the type checker
        finished, centre = self._booklet.finished, self._booklet.set.centre
        said = stated.finished.value
        right = tuple(self._measures.shown_size(side) for side in (finished.w, finished.h))
        if said in (right, (finished.w, finished.h)):
            return
        borders = "".join(f" + 2 x {self._say(border.width)}" for border in self._booklet.borders)
        sums = f"{self._say(centre.w)}{borders} by {self._say(centre.h)}{borders}"
        hint = f"the centre{' and its borders' if borders else ''}: {sums}"
        found = f"a finished size of {self._by(said)}"
        yield Problem(stated.finished.where, found, self._by((finished.w, finished.h)), hint)

    def _binding(self, stated: StatedSize) -> Iterator[Problem]:
        assert stated.binding is not None  # noqa: S101 -- for the type checker
        where, said, binding = stated.binding.where, stated.binding.value, self._booklet.binding
        if binding is None:
            yield Problem(where, f"{said} strips of binding", "none: the pattern has no binding")
        elif said != binding.strips:
            w, h = self._booklet.finished.w, self._booklet.finished.h
            hint = (
                f"2 x ({self._say(w)} + {self._say(h)}) + {self._say(binding.extra)} = {self._say(binding.need)}, and "
                f"{binding.strips} joined strips give {self._say(binding.length)}"
            )
            yield Problem(where, f"{said} strips of binding", f"{binding.strips}", hint)

    # -------------------------------------------------------------------------------------- purchase

    def _buy(self, stated: StatedBuy, fabric: FabricNote) -> Iterator[Problem]:
        right = fabric.buy
        if (stated.amount, stated.unit) == (right.amount, right.unit):
            return
        expected = f"{self._amount(Fraction(right.amount))} {right.unit}"
        yield Problem(stated.where, f"{stated.text} of {fabric.id}", expected, self._sum_of(fabric))

    def _sum_of(self, fabric: FabricNote) -> str:
        """Say how the purchase comes about."""
        if isinstance(fabric.need, int):
            pieces = f"{fabric.need} pieces are cut"
            return f"{pieces}, {fabric.pack} in a pack" if fabric.pack else pieces
        strips: dict[Length, int] = defaultdict(int)
        for sheet in self._booklet.cutting:
            if sheet.fabric == fabric.id:
                strips[sheet.sheet.h] += sheet.times
        cut = " + ".join(f"{times} x {self._say(h)}" for h, times in sorted(strips.items()))
        whole = self._say(fabric.need + fabric.margin)
        return f"strips {cut}, margin {self._say(fabric.margin)}: {whole} {self._measures.unit}, rounded up"

    # ----------------------------------------------------------------------------------------- cutting

    def _cuts(self, stated: StatedCuts) -> Iterator[Problem]:
        patches: dict[Sides, list[PatchNote]] = defaultdict(list)
        for patch in self._booklet.patches:
            if patch.fabric == stated.fabric:
                patches[_sorted(patch.w, patch.h)].append(patch)
        seen: set[Sides] = set()
        for cut in stated.cuts:
            sides = _sorted(*cut.sides)
            seen.add(sides)
            yield from self._cut(stated.fabric, cut, patches.get(sides, []), patches)
        if not stated.complete:
            return
        for sides, missing in patches.items():
            if sides not in seen and missing[0].use in ("block", "triangle"):
                found = f"no {self._by(sides)} of {stated.fabric}"
                expected = f"{sum(map(_pieces, missing))} of it"
                yield Problem(stated.where, found, expected, "; ".join(map(self._sort, missing)))

    def _cut(
        self, fabric: str, cut: StatedCut, same: list[PatchNote], patches: Mapping[Sides, list[PatchNote]]
    ) -> Iterator[Problem]:
        if not same:
            near = min(patches, key=lambda sides: _apart(sides, _sorted(*cut.sides)), default=None)
            if near is None:
                yield Problem(cut.where, f"{cut.text} of {fabric}", "nothing cut from it in this size")
            else:
                hint = "; ".join(map(self._sort, patches[near]))
                yield Problem(cut.where, f"{cut.text} of {fabric}", f"{self._by(near)}", hint)
        elif cut.count is not None and cut.count != sum(map(_pieces, same)):
            expected = f"{sum(map(_pieces, same))} of {self._by(cut.sides)}"
            yield Problem(cut.where, f"{cut.text} of {fabric}", expected, "; ".join(map(self._count, same)))

    def _sort(self, patch: PatchNote) -> str:
        """Say of which finished size a cut size comes: ``A1: half-square finished 2 x 2, 2 + 7/8 = 2 7/8``."""
        unit = next((u for u in self._booklet.units if any(take.label == patch.label for take in u.from_)), None)
        if unit is None:
            return f"{patch.label}: {patch.use}"
        if unit.how == "patch" and patch.shape in _SQUARES:
            return f"{patch.label}: setting triangles {unit.id}, squares {patch.shape}"
        finished = self._finished_sides(patch, unit)
        sums = []
        for cut in dict.fromkeys((patch.w, patch.h)):
            side = max((each for each in finished if each < cut), default=None)
            if side is not None:
                sums.append(f"{self._say(side)} + {self._say(cut - side)} = {self._say(cut)}")
        return f"{patch.label}: {unit.how} finished {self._by(finished)}, {', '.join(sums)}"

    @staticmethod
    def _finished_sides(patch: PatchNote, unit: Unit) -> Sides:
        if unit.how in ("join", "patch", "around", "partial", "strip-set"):
            for region in unit.regions:
                if region.label == patch.label:
                    xs, ys = [x for x, _ in region.outline], [y for _, y in region.outline]
                    return max(xs) - min(xs), max(ys) - min(ys)
        return unit.finished.w, unit.finished.h

    def _count(self, patch: PatchNote) -> str:
        """Say how many blocks take how many of a patch."""
        blocks = {unit.id: unit.count for unit in self._booklet.units}
        sums = [f"{n} in each of {blocks[block]} {block}" for block, n in patch.per_block.items() if block in blocks]
        whole = f"{patch.count} triangles" if patch.shape in _SQUARES else f"{patch.count}"
        return f"{patch.label}: {', '.join(sums)}, in all {whole}" if sums else f"{patch.label}: in all {whole}"

    # ------------------------------------------------------------------------------------------- words

    def _say(self, length: Length) -> str:
        shown = format_rational(self._measures.shown_size(length).a, self._measures.unit)
        return shown if length.is_rational else f"about {shown}"

    def _by(self, sides: Sides) -> str:
        return f"{self._say(sides[0])} x {self._say(sides[1])}"

    def _amount(self, amount: Fraction) -> str:
        return format_rational(amount, "cm" if self._measures.unit == "cm" else "in")


def _sorted(w: Length, h: Length) -> Sides:
    return (w, h) if w >= h else (h, w)


def _apart(a: Sides, b: Sides) -> Length:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _pieces(patch: PatchNote) -> int:
    return -(-patch.count // _SQUARES.get(patch.shape, 1))
