"""From whole steps back to the booklet: labels, cuts and rests of every sheet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from fractions import Fraction

from seamleaf.lengths import Length, Measures
from seamleaf.planning.cutting.kinds import Kind
from seamleaf.planning.cutting.scale import Scale
from seamleaf.planning.cutting.strips import Column, Strip, strip_of, tree_of
from seamleaf.planning.cutting.tree import Node, Patch, Sawn, saw
from seamleaf.planning.demand import PlannedSheet
from seamleaf.planning.records import Cut, Offcut, SheetPart

_WORTH_KEEPING = {"in": Fraction(3, 2), "cm": Fraction(4)}
"""Least side of a rest that is listed: 1 1/2 in, 4 cm (common practice, no source)."""


class Labels:
    """Hands out the labels of each kind, in the order of the demands, one patch at a time."""

    def __init__(self, kinds: Sequence[Kind]) -> None:
        self.names = tuple(label for kind in kinds for label, _ in kind.labels)
        self._left: dict[int, list[list[int]]] = {}
        at = 0
        for kind in kinds:
            self._left[kind.index] = [[at + n, count] for n, (_, count) in enumerate(kind.labels)]
            at += len(kind.labels)

    def name(self, patch: Patch) -> Patch:
        """Return the patch with the index of its label in place of its kind."""
        queue = self._left[patch.kind]
        while queue[0][1] == 0:
            queue.pop(0)
        queue[0][1] -= 1
        return Patch(queue[0][0], patch.w, patch.h)


def labelled_strips(
    strips: Sequence[Strip], kinds: Sequence[Kind], first: Collection[str]
) -> tuple[list[tuple[Strip, int]], tuple[str, ...]]:
    """Give every patch its label and merge equal strips: those with a label of ``first``, then the highest first.

    Returns:
        Strips whose patches carry an index into the names, with how often each is cut; and the names.

    """
    labels = Labels(kinds)
    counts = Counter(
        strip_of([tuple(labels.name(patch) for patch in column) for column in strip.columns], strip.height)
        for strip in strips
    )

    def order(item: tuple[Strip, int]) -> tuple[bool, int, bool, Column]:
        strip, times = item
        patches = tuple(patch for column in strip.columns for patch in column)
        later = not any(labels.names[patch.kind] in first for patch in patches)
        return later, -strip.height, times == 1, patches

    return sorted(counts.items(), key=order), labels.names


def strip_sheets(
    labelled: tuple[list[tuple[Strip, int]], tuple[str, ...]], usable: int, scale: Scale, measures: Measures
) -> tuple[PlannedSheet, ...]:
    """Return the sheets of a yardage plan."""
    strips, names = labelled
    return tuple(
        sheet_of(tree_of(strip), (usable, strip.height), times, names, scale, measures) for strip, times in strips
    )


def sheet_of(
    node: Node,
    size: tuple[int, int],
    times: int,
    names: Sequence[str],
    scale: Scale,
    measures: Measures,
    roles: tuple[tuple[str, int], ...] = (),
) -> PlannedSheet:
    """Cut one sheet and write it down; the kinds of its patches are indexes into ``names``."""
    sawn = saw(node, *size)
    return PlannedSheet(
        w=scale.length(size[0]),
        h=scale.length(size[1]),
        times=times,
        roles=roles,
        parts=_parts(sawn, names, scale),
        cuts=_cuts(sawn, scale),
        rests=_rests(sawn, scale, measures),
    )


def _parts(sawn: Sawn, names: Sequence[str], scale: Scale) -> tuple[SheetPart, ...]:
    laid = sorted(sawn.patches, key=lambda one: (one.y, one.x))
    return tuple(
        SheetPart(
            label=names[one.kind],
            x=scale.length(one.x),
            y=scale.length(one.y),
            w=scale.length(one.w),
            h=scale.length(one.h),
        )
        for one in laid
        if one.kind is not None
    )


def _cuts(sawn: Sawn, scale: Scale) -> tuple[Cut, ...]:
    return tuple(
        Cut(
            n=n,
            axis=line.axis,
            at=scale.length(line.at),
            span=(scale.length(line.start), scale.length(line.end)),
        )
        for n, line in enumerate(sawn.lines, 1)
    )


def _rests(sawn: Sawn, scale: Scale, measures: Measures) -> tuple[Offcut, ...]:
    """Return the rests that are worth keeping, largest first; the fabric is the caller's to fill in."""
    least = Length(_WORTH_KEEPING[measures.unit])
    sizes = Counter((scale.length(rest.w), scale.length(rest.h)) for rest in sawn.rests)
    kept = [(w, h, n) for (w, h), n in sizes.items() if w >= least and h >= least]
    kept.sort(key=lambda rest: (-(rest[0] * rest[1]).a, -rest[0].a))
    return tuple(Offcut(fabric="", w=w, h=h, count=n) for w, h, n in kept)
