"""What the work takes: the length of every seam, thread for it, and time by counts.

A seam is sewn from raw edge to raw edge, so it is longer than its finished line: by one allowance at each end, and by
the slope of one where a slanting seam runs out at the edge of its unit. What a method sews beside that, before a trim,
is left to the waste.

Thread: a lockstitch, class 301, takes two and a half times the length of seam, needle and bobbin together, half from
each (ratio in the tables of the thread trade, for example melgeecrafts.com, thread consumption; the formula 2 + 2 x
thickness x stitches an inch, textilecalculations.com, gives as much for thick seams). Waste of 15 to 20 % comes on
top for starts, ends and repairs (scribd.com 75439238, estimating thread consumption).

Time: common practice, no source; so it is told as a range, and a designer gives paces of their own.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from seamleaf.lengths import CENTIMETRES, ZERO, Length, Measures
from seamleaf.planning.estimate_records import (
    Estimates,
    Pace,
    PaceNote,
    SeamSum,
    Sewn,
    ThreadNote,
    ThreadRange,
    TimeNote,
    Work,
    WorkTime,
)
from seamleaf.planning.finish_records import BackingNote, BindingNote, BorderNote
from seamleaf.planning.records import Box, PatchNote, Point, Seam, Sheet, Unit
from seamleaf.reading.pace_record import Paces

RATIO: Final = Fraction(5, 2)
WASTE: Final = Fraction(1, 5)
_STEP: Final = 10
_HALF: Final = Fraction(1, 2)
_DIAGONALS: Final = {"halved": 1, "quartered": 2}
"""Cuts from corner to corner that one square takes."""


def plan_estimates(
    measures: Measures,
    seam: Length,
    paces: Paces,
    *,
    cutting: Sequence[Sheet],
    patches: Sequence[PatchNote],
    units: Sequence[Unit],
    seams: Sequence[Seam],
    borders: Sequence[BorderNote],
    binding: BindingNote | None,
    backing: BackingNote,
) -> Estimates:
    """Return what the work of a quilt takes, from the records that are published of it."""
    sums = [_unit_seams(units, seams, patches, seam, measures), _row_seams(seams, seam, measures)]
    if borders:
        sums.append(_border_seams(borders, seams, seam, measures))
    if binding is not None:
        sums.append(_binding_seams(binding))
    sums.append(_backing_seams(backing))
    cuts = _cuts(cutting, patches)
    return Estimates(
        cuts=cuts,
        seams=tuple(each for each in sums if each.count),
        thread=_thread(sum((each.length for each in sums), ZERO), measures),
        paces=PaceNote(**{key: Pace(least=low, most=high) for key, (low, high) in paces.by_key().items()}),
        time=_time(cuts, sums, paces),
    )


def _cuts(cutting: Sequence[Sheet], patches: Sequence[PatchNote]) -> int:
    """Count ruler cuts; a strip or a panel is one more, as it comes off the fabric."""
    diagonals = {patch.label: _DIAGONALS.get(patch.shape, 0) for patch in patches}
    return sum(
        sheet.times
        * (len(sheet.cuts) + (sheet.pieces is None) + sum(diagonals[label] * n for label, n in sheet.gives.items()))
        for sheet in cutting
    )


def _unit_seams(
    units: Sequence[Unit], seams: Sequence[Seam], patches: Sequence[PatchNote], seam: Length, measures: Measures
) -> SeamSum:
    by_id = {each.id: each for each in seams}
    long = {patch.label: patch.w for patch in patches}
    count, length = 0, ZERO
    for unit in units:
        if unit.how == "strip-set":  # sewn as long as the strips are, once for all the units of a set
            count += unit.batches * len(unit.seams)
            length += long[unit.from_[0].label or ""] * (unit.batches * len(unit.seams))
            continue
        sewn = unit.batches * unit.makes
        count += sewn * len(unit.seams)
        for seam_id in unit.seams:
            length += _in_unit(by_id[seam_id].line, unit.finished, seam, measures) * sewn
    return SeamSum(of="units", count=count, length=length)


def _in_unit(line: tuple[Point, Point], box: Box, seam: Length, measures: Measures) -> Length:
    """Return how long a seam of a unit is sewn."""
    length = distance(*line, measures.cut_grid)
    slants = line[0][0] != line[1][0] and line[0][1] != line[1][1]
    for x, y in line:
        runs_out = x in (ZERO, box.w) or y in (ZERO, box.h)
        length += seam.times_root2() if slants and runs_out else seam
    return length


def distance(a: Point, b: Point, grid: Fraction) -> Length:
    """Return the distance of two points: exact where it is straight or at 45 degrees, else up to the grid."""
    across, down = abs(b[0] - a[0]), abs(b[1] - a[1])
    if not across or not down:
        return across + down
    if across == down:
        return across.times_root2()
    square = across * across + down * down
    most = ((across + down) / grid).ceil()
    steps = bisect_left(range(most), square, key=lambda n: Length(n * grid * n * grid))
    return Length(steps * grid)


def _row_seams(seams: Sequence[Seam], seam: Length, measures: Measures) -> SeamSum:
    return _all("rows", [each for each in seams if each.of in ("row", "rows")], seam, measures)


def _all(of: Sewn, seams: Sequence[Seam], seam: Length, measures: Measures) -> SeamSum:
    length = sum((distance(*each.line, measures.cut_grid) + seam * 2 for each in seams), ZERO)
    return SeamSum(of=of, count=len(seams), length=length)


def _border_seams(borders: Sequence[BorderNote], seams: Sequence[Seam], seam: Length, measures: Measures) -> SeamSum:
    """Add to the seams of the borders the sloping joins of their strips."""
    sewn = _all("borders", [each for each in seams if each.of.startswith("border ")], seam, measures)
    plain = [border for border in borders if border.pieces]  # the others have no strips that are joined
    joins = sum((border.strips[0].w.times_root2() * (border.pieces - 1) for border in plain), ZERO)
    count = sewn.count + sum(border.pieces - 1 for border in plain)
    return SeamSum(of="borders", count=count, length=sewn.length + joins)


def _binding_seams(binding: BindingNote) -> SeamSum:
    """Count the joins, the one that closes the ring among them, and both rounds: front, and the turned fold."""
    joins, round_ = binding.strips, binding.need - binding.extra
    length = round_ * 2 + binding.width.times_root2() * joins
    if binding.square is None:
        return SeamSum(of="binding", count=2 + joins, length=length)
    return SeamSum(of="binding", count=2 + joins + binding.strips * 2, length=length + binding.square * 2 * joins)


def _backing_seams(backing: BackingNote) -> SeamSum:
    count = backing.panels - 1
    length = backing.panel.h * count
    insert = backing.insert
    if insert is not None:
        beside, joins = (2 if insert.parts else 1), sum(piece.count for piece in insert.pieces) - 1
        count += beside + joins
        length += backing.panel.h * beside + insert.width * joins
    return SeamSum(of="backing", count=count, length=length)


def _thread(seams: Length, measures: Measures) -> ThreadNote:
    """Return the thread for a length of seam in the pattern's unit, and for inches in metres as well."""
    units = [(measures.buy_unit, seams / measures.buy_length)]
    if measures.unit == "in":
        units.append((CENTIMETRES.buy_unit, seams * CENTIMETRES.inch / CENTIMETRES.buy_length))
    return ThreadNote(
        ratio=RATIO,
        waste=WASTE,
        amounts=tuple(
            ThreadRange(unit=unit, least=_tens(length * RATIO), most=_tens(length * RATIO * (1 + WASTE)))
            for unit, length in units
        ),
    )


def _tens(length: Length) -> int:
    return (length / _STEP).ceil() * _STEP


def _time(cuts: int, sums: Sequence[SeamSum], paces: Paces) -> TimeNote:
    count = {each.of: each.count for each in sums}
    length: dict[Sewn, Length] = {each.of: each.length for each in sums}
    pressed = sum(count.get(of, 0) for of in ("units", "rows", "borders"))
    finish = length["backing"] + length.get("binding", ZERO)
    amounts: list[tuple[Work, Length, tuple[int, int]]] = [
        ("cut", Length(cuts), paces.cuts),
        ("sew", Length(count["units"]), paces.seams),
        ("press", Length(pressed), paces.presses),
        ("join", length["rows"], paces.pinned),
        ("borders", length.get("borders", ZERO), paces.pinned),
        ("finish", finish, paces.pinned),
    ]
    works = [(work, amount / pace[1], amount / pace[0]) for work, amount, pace in amounts if amount]
    return TimeNote(
        works=tuple(
            WorkTime(work=work, least=max(_halves((quick * 2).floor()), _HALF), most=_halves((slow * 2).ceil()))
            for work, quick, slow in works
        ),
        least=max(1, sum((quick for _, quick, _ in works), ZERO).floor()),
        most=sum((slow for _, _, slow in works), ZERO).ceil(),
    )


def _halves(count: int) -> Fraction | int:
    return count // 2 if count % 2 == 0 else Fraction(count, 2)
