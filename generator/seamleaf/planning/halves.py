"""Whether a quilt is so big that its rows are joined in two halves, and where the first half ends.

So no more than half of it is turned under the machine, until the long seam between the halves (common practice, no
source; so is what counts as big).
"""

from __future__ import annotations

from typing import Final

from seamleaf.planning.diagonal import Diagonal
from seamleaf.sizing import Quilt

BIG_INCHES: Final = 60
"""A centre with a longer side is sewn in halves, if it has as many rows as this:"""
LEAST_ROWS: Final = 4


def half_of(quilt: Quilt) -> int | None:
    """Return the row that ends the first half of a big quilt, whose halves are joined last; ``None`` for a small one.

    It is the row nearest to the middle whose join nothing waits for.
    """
    rows = len(quilt.layout.rows)
    big = max(quilt.layout.w, quilt.layout.h) > BIG_INCHES * quilt.pattern.measures.inch
    if not big or rows < LEAST_ROWS:
        return None
    late = Diagonal(quilt).late_joins() if is_sashed_on_point(quilt) else range(1, rows)
    return min(late, key=lambda row: (abs(2 * row - rows), -row), default=None)


def is_sashed_on_point(quilt: Quilt) -> bool:
    """Whether rows of blocks and rows of sashes take turns, diagonally."""
    setting = quilt.pattern.setting
    return setting.set == "on-point" and setting.sashing is not None
