"""What one strip can hold, valued: the exact knapsack behind every bound of the yardage planner.

A patch of each kind has a value. The best stack of every width, then the best row of stacks in every strip
height, are found by two unbounded knapsacks in whole numbers, so the values are exact. Numbers of patches are
not limited by the demand here: that only loosens the bound, never breaks it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from seamleaf.planning.cutting.kinds import Kind
from seamleaf.planning.cutting.strips import Column
from seamleaf.planning.cutting.sums import Totals
from seamleaf.planning.cutting.tree import Patch

Ints = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]

_NEVER: Final = -(1 << 58)


@dataclass(frozen=True, slots=True, eq=False)
class Filling:
    """What one strip gives: patches by kind, and the columns that hold them."""

    level: int
    """Index of the strip's height."""
    counts: tuple[int, ...]
    columns: tuple[Column, ...]


class Model:
    """Kinds that share strips of one usable width, as high as patches as they may lie, or of the ``heights`` beside."""

    def __init__(self, kinds: Sequence[Kind], usable: int, heights: Sequence[int] = ()) -> None:
        self.kinds = tuple(kinds)
        self.usable = usable
        self.wanted: Ints = np.array([kind.count for kind in kinds], dtype=np.int64)
        self.lays: list[tuple[int, Patch]] = [  # kinds by their place here, whatever their index
            (at, lay) for at, kind in enumerate(kinds) for lay in kind.lays if lay.w <= usable
        ]
        self._position = {kind.index: at for at, kind in enumerate(kinds)}
        self.heights = sorted({lay.h for _, lay in self.lays}.union(heights))
        self.widths = sorted({lay.w for _, lay in self.lays})
        self._kind: Ints = np.array([kind for kind, _ in self.lays], dtype=np.int64)
        lay_w: Ints = np.array([lay.w for _, lay in self.lays], dtype=np.int64)
        lay_h: Ints = np.array([lay.h for _, lay in self.lays], dtype=np.int64)
        widths: Ints = np.array(self.widths, dtype=np.int64)
        self._too_wide: Ints = np.where(lay_w[:, None] <= widths[None, :], 0, _NEVER)
        self._down = _steps(lay_h, self.heights[-1])
        self._across = _steps(widths, usable)
        self.tall: Ints = np.array(self.heights, dtype=np.int64)

    @property
    def size(self) -> int:
        """How many steps one valuation takes: for limits of work."""
        return len(self._down.totals) + len(self._across.totals)

    def filling(self, level: int, columns: Sequence[Column]) -> Filling:
        """Return a filling with its counts, even if they are more than is wanted."""
        counts = [0] * len(self.kinds)
        for column in columns:
            for patch in column:
                counts[self._position[patch.kind]] += 1
        return Filling(level, tuple(counts), tuple(columns))

    def useful(self, filling: Filling) -> Filling:
        """Return the filling with no count above what is wanted."""
        counts = tuple(min(count, kind.count) for count, kind in zip(filling.counts, self.kinds, strict=True))
        return Filling(filling.level, counts, filling.columns)

    def value(self, worth: Ints) -> Valuation:
        """Find the best fillings for patches that are worth ``worth`` by kind."""
        each = worth[self._kind]
        gain = each[:, None] + self._too_wide
        stacks = self._down.best(gain)
        columns: Ints = np.ascontiguousarray(stacks[self._down.floor[self.tall]].T)
        return Valuation(self, worth, each, stacks, columns, self._across.best(columns))


@dataclass(frozen=True, slots=True, eq=False)
class _Steps:
    """Totals that sizes can make, and for each total the sizes that fit and the totals left without them."""

    sizes: Ints
    totals: Ints
    floor: Ints
    """For every length, the index of the greatest total in it."""
    moves: list[tuple[Ints, Ints]]

    def best(self, gain: Ints) -> Ints:
        """Return the most that any number of the sizes gains within every total, for each column of ``gain``.

        One size after the other is taken over all lengths at once, in blocks as long as the size: what a block holds
        may be the block before and one more.

        Args:
            gain: what one of each size is worth, a row a size; a size that does not pay is as good as none.

        """
        best: Ints = np.zeros((len(self.floor), gain.shape[1]), dtype=np.int64)
        for size, gains in zip(self.sizes.tolist(), gain, strict=True):
            if (gains > 0).any():
                for start in range(size, len(best), size):
                    end = min(start + size, len(best))
                    np.maximum(best[start:end], best[start - size : end - size] + gains, out=best[start:end])
        at_totals: Ints = best[self.totals]
        return at_totals


def _steps(sizes: Ints, limit: int) -> _Steps:
    totals: Ints = np.array(Totals(sizes.tolist(), limit).all, dtype=np.int64)
    floor: Ints = np.searchsorted(totals, np.arange(limit + 1), side="right") - 1
    moves = []
    for total in totals.tolist():
        fits: Ints = np.nonzero(sizes <= total)[0]
        moves.append((fits, floor[total - sizes[fits]]))
    return _Steps(sizes, totals, floor, moves)


@dataclass(frozen=True, slots=True, eq=False)
class Valuation:
    """The answer of :meth:`Model.value`."""

    model: Model
    worth: Ints
    _each: Ints
    _stacks: Ints
    _columns: Ints
    _rows: Ints

    @property
    def best(self) -> Ints:
        """The greatest value of a strip, by height."""
        best: Ints = self._rows[-1]
        return best

    def row_within(self, level: int, width: int) -> int:
        """Return the greatest value of columns side by side within ``width`` of a strip."""
        return int(self._rows[self.model._across.floor[width], level])

    def stack_within(self, height: int, width_at: int) -> int:
        """Return the greatest value of a stack within ``height``, no wider than the width of that index."""
        return int(self._stacks[self.model._down.floor[height], width_at])

    def filling(self, level: int) -> Filling:
        """Return a best filling of a strip."""
        model = self.model
        columns: list[Column] = []
        at = len(self._rows) - 1
        while at:
            if self._rows[at, level] == self._rows[at - 1, level]:
                at -= 1
                continue
            fits, before = model._across.moves[at]
            hit = int(np.argmax(self._rows[before, level] + self._columns[fits, level] == self._rows[at, level]))
            columns.append(self._stack(int(fits[hit]), model.heights[level]))
            at = int(before[hit])
        return model.filling(level, columns)

    def _stack(self, width_at: int, height: int) -> Column:
        model = self.model
        patches: list[Patch] = []
        at = int(model._down.floor[height])
        while at:
            if self._stacks[at, width_at] == self._stacks[at - 1, width_at]:
                at -= 1
                continue
            fits, before = model._down.moves[at]
            values = self._stacks[before, width_at] + self._each[fits] + model._too_wide[fits, width_at]
            hit = int(np.argmax(values == self._stacks[at, width_at]))
            patches.append(model.lays[int(fits[hit])][1])
            at = int(before[hit])
        return tuple(patches)
