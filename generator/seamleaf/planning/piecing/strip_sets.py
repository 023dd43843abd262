"""Strip sets: equal rectangles sewn as long strips, which are then cut across into one unit after the other.

One batch is one set: a strip of each part, sewn along their long edges. An inch of its length, in metric patterns
2.5 cm, is lost to squaring an end (common practice, no source), the rest gives a unit for every unfinished width.
The units that a quilt takes are shared evenly over the fewest sets, so that no strip is longer than it must be.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length, Measures
from seamleaf.planning.labels import Labels, PatchKey
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.records import Take
from seamleaf.reading.part_records import Join, Part, Patch
from seamleaf.reading.problems import PatternError, Problem

SQUARING: Final = {"in": Length(1), "cm": Length(Fraction(5, 2))}


def is_strip_set(draft: Draft) -> bool:
    """Return whether a unit is sewn as a strip set."""
    return isinstance(draft.tree, Join) and draft.tree.method == "strips"


@dataclass(frozen=True, slots=True, kw_only=True)
class StripSet:
    """How one unit is cut from strip sets."""

    makes: int
    """Units that one set gives."""
    length: Length
    """Cut length of its strips."""
    takes: tuple[Take, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StripSets:
    """Plans the strip sets of one quilt."""

    usable: Mapping[str, Length]
    """Usable width of each yardage fabric."""
    counts: Mapping[str, int]
    """How many of each unit the quilt takes."""
    labels: Labels
    seam: Length
    measures: Measures
    most: Counter[Part] = field(default_factory=Counter)
    """The most units of one draft, by its tree: A and B units come from strips of one length."""
    known: dict[tuple[Part, str, Length], str] = field(default_factory=dict)

    def plan(self, draft: Draft) -> StripSet:
        """Return how a unit is cut from strip sets.

        Raises:
            PatternError: the unit is wider than a fabric is.

        """
        tree, around = draft.tree, self.seam * 2
        assert isinstance(tree, Join)  # noqa: S101 -- only joins are strip sets
        across = (draft.h if tree.axis == "row" else draft.w) + around
        squaring = SQUARING[self.measures.unit]
        narrowest = min(self.usable[patch.use.fabric] for patch in tree.parts if isinstance(patch, Patch))
        fits = ((narrowest - squaring) / across).floor()
        if fits < 1:
            found = "a strip set whose units are wider than its fabrics are usable"
            raise PatternError([Problem(tree.where, found, "units that fit across the fabric, or no 'method: strips'")])
        count = max(self.most[tree], self.counts[draft.id], 1)
        makes = -(-count // -(-count // fits))
        length = self.measures.cut_size(across * makes + squaring)
        takes = []
        for child, patch in zip(draft.children, tree.parts, strict=True):
            assert isinstance(patch, Patch)  # noqa: S101 -- check_pattern refuses other parts of a strip set
            wide = self.measures.cut_size((patch.w if tree.axis == "row" else patch.h) + around)
            key = tree, patch.use.fabric, wide
            if key not in self.known:
                cut = PatchKey(fabric=patch.use.fabric, print=None, w=length, h=wide, shape="strip")
                self.known[key] = self.labels.fresh(cut)
            turn = 90 if tree.axis == "row" else 0
            takes.append(Take(label=self.known[key], unit=None, n=1, x=child.x, y=child.y, turn=turn, mirror=False))
        return StripSet(makes=makes, length=length, takes=tuple(takes))
