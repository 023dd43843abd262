"""A backing with a pieced strip of leftovers in it, where that saves fabric.

With one panel, it is cut lengthwise in two unequal parts and the strip sewn between them; with several, the strip goes
between the first panel and the rest. The panels and the strip cover what the plain back would take one panel more for.
Common practice, no source; the arithmetic is derived.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from seamleaf.lengths import Length, Measures
from seamleaf.planning.finish_records import InsertNote, InsertPiece
from seamleaf.planning.finishing import BACKING_JOIN_INCHES, Back, panels_across

LEAST_INCHES: Final = 2
"""The least that a piece of the strip measures, and the strip itself: less is all seam."""
PARTS: Final = 3
"""A single panel is cut at a third of its width, so that no seam runs down the middle, where a quilt is folded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """Rests, or whole bundle pieces that the quilt does not need, of one size; the longer side is ``w``."""

    fabric: str
    w: Length
    h: Length
    count: int
    spare: bool
    """Whether it is a whole piece of a bundle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BackWithInsert:
    """A back and the strip in it."""

    back: Back
    insert: InsertNote


def plan_insert(
    w: Length,
    h: Length,
    usable: Length,
    plain: Back,
    leftovers: Sequence[Leftover],
    seam: Length,
    measures: Measures,
    *,
    directional: bool = False,
) -> BackWithInsert | None:
    """Return the back that takes the least fabric with a strip of leftovers, or ``None`` where none saves any.

    Args:
        w: finished width of the back.
        h: its finished height.
        usable: usable width of its fabric.
        plain: the back without a strip.
        leftovers: what the strip may be pieced of, the most welcome first.
        seam: allowance of the seams inside the strip; those beside it take as much as a join of panels.
        measures: of the pattern.
        directional: whether the print of its fabric has an up, so that panels run from top to bottom.

    """
    found: list[BackWithInsert] = []
    directions: tuple[tuple[Length, Length, Literal["vertical", "horizontal"]], ...] = (
        (w, h, "vertical"),
        (h, w, "horizontal"),
    )
    for across, along, direction in directions[:1] if directional else directions:
        length = measures.cut_size(along)
        for panels in range(1, panels_across(across, usable, measures)):
            if length * panels >= plain.length * plain.panels:
                break
            joins = measures.inch * (BACKING_JOIN_INCHES * max(panels, 2))
            width = max(measures.cut_size(across - usable * panels + joins), Length(measures.inch * LEAST_INCHES))
            pieces = _strip(width, length, leftovers, seam, measures)
            if pieces:
                given = _length(pieces, seam)
                found.append(
                    BackWithInsert(
                        back=Back(panels=panels, length=length, seam=direction),
                        insert=InsertNote(
                            width=width,
                            length=given,
                            pieces=pieces,
                            parts=_parts(usable, measures) if panels == 1 else (),
                            saves=plain.length * plain.panels - length * panels,
                        ),
                    )
                )
                break
    return min(found, key=lambda each: (each.back.length * each.back.panels, each.insert.width), default=None)


def _strip(
    width: Length, length: Length, leftovers: Sequence[Leftover], seam: Length, measures: Measures
) -> tuple[InsertPiece, ...]:
    """Take leftovers in their order until the strip is long enough; nothing if they do not suffice."""
    taken: list[InsertPiece] = []
    missing = length
    for each in leftovers:
        gives = each.w if each.h >= width else each.h if each.w >= width else Length(0)
        if gives < measures.inch * LEAST_INCHES or gives <= seam * 2:
            continue
        sewn = gives - seam * 2  # but the first piece adds its whole length
        if not taken:
            missing -= seam * 2
        count = min(each.count, max(1, (missing / sewn).ceil()))
        taken.append(
            InsertPiece(fabric=each.fabric, w=each.w, h=each.h, spare=each.spare, count=count, gives=gives, sewn=sewn)
        )
        missing -= sewn * count
        if missing <= 0:
            return tuple(taken)
    return ()


def _length(pieces: Sequence[InsertPiece], seam: Length) -> Length:
    return sum((piece.sewn * piece.count for piece in pieces), seam * 2)


def _parts(usable: Length, measures: Measures) -> tuple[Length, Length]:
    """Return the widths of the two parts of a single panel, that of the narrower in whole units."""
    narrower = max(Length((usable / PARTS).floor()), Length(measures.inch))
    return narrower, usable - narrower
