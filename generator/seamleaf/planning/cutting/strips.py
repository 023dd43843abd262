"""Strips of yardage: columns across the usable width, each a stack of patches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from seamleaf.planning.cutting.tree import Node, Patch, Slices

Column = tuple[Patch, ...]
"""Patches from the top of the strip downwards, all from one column of the width of the widest."""


def column_width(column: Column) -> int:
    """Return what the column takes of the usable width."""
    return max(patch.w for patch in column)


def column_height(column: Column) -> int:
    """Return what the column takes of the strip's height."""
    return sum(patch.h for patch in column)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A strip of ``height`` across the usable width. Build it with :func:`strip_of`."""

    height: int
    columns: tuple[Column, ...]

    @property
    def width(self) -> int:
        """What its columns take of the usable width."""
        return sum(column_width(column) for column in self.columns)

    @property
    def counts(self) -> Counter[int]:
        """Patches by kind."""
        return Counter(patch.kind for column in self.columns for patch in column)

    @property
    def area(self) -> int:
        """Area of its patches, in square steps."""
        return sum(patch.w * patch.h for column in self.columns for patch in column)

    @property
    def rows(self) -> list[tuple[Column, int]]:
        """Equal columns side by side, with their number, from the left."""
        return [(column, len(list(group))) for column, group in groupby(self.columns)]

    def slack(self, usable: int) -> int:
        """Return by how much the fabric could be narrower, or the strip lower at a stack, before a patch is lost."""
        stacks = [self.height - column_height(column) for column in self.columns if len(column) > 1]
        return min([usable - self.width, *stacks])


def strip_of(columns: Iterable[Column], height: int | None = None) -> Strip:
    """Return a strip in canonical order: patches of full height first, then stacks, the largest first.

    Without ``height`` it is as low as its columns allow.
    """
    many = Counter(columns)  # a strip has few different columns
    low = max(map(column_height, many), default=0) if height is None else height
    stacked = [
        (tuple(sorted(column, key=lambda patch: (-patch.w, -patch.h, patch.kind))), n) for column, n in many.items()
    ]
    stacked.sort(key=lambda item: (len(item[0]) > 1 or item[0][0].h < low, *_largest_first(item[0])))
    return Strip(height=low, columns=tuple(column for column, n in stacked for _ in range(n)))


def _largest_first(column: Column) -> tuple[int, int, Column]:
    return -column_width(column) * column_height(column), -column_width(column), column


def tree_of(strip: Strip) -> Node:
    """Return how the strip is cut: across into patches, and its end lengthways into lower strips where stacks lie.

    Equal stacks side by side are cut off together and sliced along first, because then their layers are
    crosscut as strips are.
    """
    nodes: list[Node] = []
    for column, times in strip.rows:
        if len(column) == 1 and column[0].h == strip.height:
            nodes.extend([column[0]] * times)
        else:
            layers = [Slices("x", (patch,) * times) if times > 1 else patch for patch in column]
            nodes.append(Slices("y", tuple(layers)))
    return Slices("x", tuple(nodes))


def without_surplus(strips: Iterable[tuple[Strip, int]], wanted: dict[int, int], heights: Sequence[int]) -> list[Strip]:
    """Return the single strips, in order, with no patch more than ``wanted`` by kind.

    A strip that loses its highest patches is cut lower, to one of ``heights``; one that loses all is left out.
    """
    left = dict(wanted)
    kept: list[Strip] = []
    for strip, times in strips:
        for _ in range(times):
            columns = [taken for column in strip.columns if (taken := _take(column, left))]
            if columns:
                need = max(column_height(column) for column in columns)
                kept.append(strip_of(columns, min(height for height in heights if height >= need)))
    return kept


def _take(column: Column, left: dict[int, int]) -> Column:
    taken = []
    for patch in column:
        if left.get(patch.kind, 0) > 0:
            left[patch.kind] -= 1
            taken.append(patch)
    return tuple(taken)
