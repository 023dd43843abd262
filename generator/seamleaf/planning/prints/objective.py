"""What a layout costs: one whole number, the sum over all pairs of blocks of what they share and how near they are.

Blocks share traits: a print, a hue family, being among the darkest or the brightest. Pairs are near along an edge, at a
corner, with one block between them, in one row or column, in one quadrant, or both in corners of the quilt. So one
table of weights, in ``CONVENTIONS``, says everything, and like prints that touch weigh far more than all else.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final

from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.floor import Floor, Quarters
from seamleaf.planning.prints.pairs import Block, Print

PRINT: Final = 0
"""Kinds of traits."""
FAMILY: Final = 1
EXTREME: Final = 2
FAINT: Final = 3
KINDS: Final = (PRINT, FAMILY, EXTREME, FAINT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """Blocks that look the same and stand out from the ground alike."""

    block: Block
    traits: tuple[int, ...]
    """By number, rising: the prints, then the families, the darkest, the brightest, and the blocks with the least
    contrast with the ground."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What two blocks pay for a shared trait of one kind."""

    edge: int
    corner: int
    near: int
    outer: int
    line: int
    quadrant: int
    alone: int = 0
    """What one block pays by itself in a corner of the quilt."""


WEIGHTS: Final[tuple[Weights, ...]] = (
    Weights(
        edge=CONVENTIONS.like_edge,
        corner=CONVENTIONS.like_corner,
        near=CONVENTIONS.like_near,
        outer=0,
        line=0,
        quadrant=0,
    ),
    Weights(
        edge=CONVENTIONS.family_edge,
        corner=CONVENTIONS.family_corner,
        near=0,
        outer=CONVENTIONS.family_outer,
        line=CONVENTIONS.family_line,
        quadrant=CONVENTIONS.family_quadrant,
    ),
    Weights(
        edge=CONVENTIONS.extreme_touch,
        corner=CONVENTIONS.extreme_touch,
        near=0,
        outer=0,
        line=0,
        quadrant=CONVENTIONS.extreme_quadrant,
    ),
    Weights(edge=0, corner=0, near=0, outer=0, line=0, quadrant=0, alone=CONVENTIONS.faint_outer),
)
"""By kind of trait; being faint is no matter between blocks."""
_LIKE: Final = Weights(edge=CONVENTIONS.soft_edge, corner=CONVENTIONS.soft_corner, near=0, outer=0, line=0, quadrant=0)
SOFT: Final = (replace(_LIKE, near=WEIGHTS[PRINT].near), *WEIGHTS[1:])
"""Like prints may touch for less, so that blocks can pass each other."""
LIKE_ALONE: Final = (_LIKE, *(Weights(edge=0, corner=0, near=0, outer=0, line=0, quadrant=0) for _ in WEIGHTS[1:]))
"""Nothing matters but like prints that touch."""


class Objective:
    """The cost of layouts of some blocks on some floor."""

    def __init__(
        self, floor: Floor, blocks: Sequence[Block], prints: Sequence[Print], contrasts: Sequence[int]
    ) -> None:
        """Take the block of each cell, all prints, and the contrast with the ground of each cell's block."""
        self.floor = floor
        known = sorted(set(zip(blocks, contrasts, strict=True)))
        number = {look: index for index, look in enumerate(known)}
        self.start = tuple(number[look] for look in zip(blocks, contrasts, strict=True))
        """The look of the block at each cell, as given."""
        families = sorted({prints[one].family for block, _ in known for one in block})
        of_family = {family: len(prints) + index for index, family in enumerate(families)}
        self.kinds: tuple[int, ...] = (
            *(PRINT,) * len(prints),
            *(FAMILY,) * len(families),
            *(EXTREME, EXTREME, FAINT),
        )
        """The kind of each trait."""
        light = [sum(prints[one].lab[0] for one in block) // len(block) for block, _ in known]
        few = max(2, -(-len(blocks) * CONVENTIONS.extremes // 100))
        special = [
            self._first(few, light),
            self._first(few, [-value for value in light]),
            self._first(few, [contrast for _, contrast in known]),
        ]
        last = len(prints) + len(families)
        self.looks = tuple(
            Look(
                block=block,
                traits=(
                    *sorted(set(block)),
                    *sorted({of_family[prints[one].family] for one in block}),
                    *(last + index for index, looks in enumerate(special) if look in looks),
                ),
            )
            for look, (block, _) in enumerate(known)
        )

    def _first(self, count: int, keys: Sequence[int]) -> frozenset[int]:
        """Return the looks of the first cells by the keys of their looks; none if all have one key."""
        ordered = sorted(self.start, key=lambda look: (keys[look], look))
        return frozenset(ordered[:count]) if keys[ordered[0]] != keys[ordered[-1]] else frozenset()

    def cost(self, layout: Sequence[int]) -> int:
        """Return the cost of a layout: the look at each cell."""
        return sum(self.parts(layout).values())

    def parts(self, layout: Sequence[int]) -> dict[str, int]:
        """Return the cost of a layout by the way in which blocks are near."""
        floor = self.floor
        has = [frozenset(self.looks[look].traits) for look in layout]
        parts = {
            "edge": self._touching(has, floor.edges, [weights.edge for weights in WEIGHTS]),
            "corner": self._touching(has, floor.corners, [weights.corner for weights in WEIGHTS]),
            "near": self._touching(has, floor.near, [weights.near for weights in WEIGHTS]),
            "outer": self._touching(has, tuple(combinations(floor.outer, 2)), [weights.outer for weights in WEIGHTS]),
            "line": 0,
            "quadrant": 0,
            "faint": WEIGHTS[FAINT].alone * sum(len(self.kinds) - 1 in has[cell] for cell in floor.outer),
        }
        for trait, kind in enumerate(self.kinds):
            cells = [cell for cell, traits in enumerate(has) if trait in traits]
            if kind == PRINT or not cells:
                continue
            for of in (floor.columns, floor.lines):
                pairs = sum(n * (n - 1) // 2 for n in Counter(of[cell] for cell in cells).values())
                parts["line"] += WEIGHTS[kind].line * pairs
            parts["quadrant"] += WEIGHTS[kind].quadrant * quadrant_pairs([floor.quarters[cell] for cell in cells])
        return parts

    def _touching(self, has: Sequence[frozenset[int]], pairs: Sequence[tuple[int, int]], costs: Sequence[int]) -> int:
        return sum(costs[self.kinds[trait]] for a, b in pairs for trait in has[a] & has[b])


def quadrant_pairs(quarters: Sequence[Quarters]) -> int:
    """Return the quarters by which these blocks, two by two, are in one quadrant."""
    doubled = 0
    for column in zip(*quarters, strict=True):
        doubled += sum(column) * sum(column) - sum(n * n for n in column)
    return doubled // 8


def quadrant_share(one: Quarters, other: Quarters) -> int:
    """Return the quarters by which two blocks are in one quadrant: four, or two or one where they lie between two."""
    return sum(a * b for a, b in zip(one, other, strict=True)) // 4
