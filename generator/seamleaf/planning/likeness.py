"""Patches that are mistaken for each other: of one fabric, and nearly of one cut size."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length, Measures
from seamleaf.planning.records import PatchNote

LIKENESS_INCHES: Final = Fraction(1, 2)
"""Sizes that differ by less each way look alike in two stacks (common practice, no source)."""


def nearly_alike(patches: Sequence[PatchNote], measures: Measures) -> list[tuple[str, ...]]:
    """Return the labels that are easily mixed up, in groups: each is nearly like some other of its group.

    Sizes are compared as a patch may lie: its longer side with the longer one. Equal sizes are no mistake when cut.
    """
    groups: list[list[PatchNote]] = []
    for patch in patches:
        near = [group for group in groups if any(_nearly(patch, other, measures) for other in group)]
        groups = [group for group in groups if group not in near]
        groups.append([*(each for group in near for each in group), patch])
    order = [patch.label for patch in patches]
    named = [tuple(sorted((each.label for each in group), key=order.index)) for group in groups if len(group) > 1]
    return sorted(named, key=lambda labels: order.index(labels[0]))


def _nearly(one: PatchNote, other: PatchNote, measures: Measures) -> bool:
    if one.fabric != other.fabric or _sides(one) == _sides(other):
        return False
    least = Length(measures.inch * LIKENESS_INCHES)
    return all(-least < a - b < least for a, b in zip(_sides(one), _sides(other), strict=True))


def _sides(patch: PatchNote) -> tuple[Length, Length]:
    return max(patch.w, patch.h), min(patch.w, patch.h)
