"""The booklet, one record a size: assembled from what planning returns; to and from JSON; its schema.

The planners and their solvers take longer to load than an unchanged site to look at, so they
are loaded by the first call.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from seamleaf.booklet.codec import as_plain, from_json, json_schema, to_json
from seamleaf.booklet.record import FORMAT, Booklet
from seamleaf.booklet.stated import compare_stated
from seamleaf.booklet.titles import fabric_title, with_backing_called

if TYPE_CHECKING:
    from seamleaf.lengths import Length
    from seamleaf.reading.pattern import Pattern

__all__ = [
    "FORMAT",
    "Booklet",
    "as_plain",
    "compare_stated",
    "fabric_title",
    "from_json",
    "json_schema",
    "plan_booklets",
    "plan_bounds",
    "to_json",
    "with_backing_called",
]


def plan_booklets(pattern: Pattern, sizes: Sequence[str] | None = None, *, thorough: bool = True) -> dict[str, Booklet]:
    """Compute the booklets of a pattern, by size id; see :func:`seamleaf.booklet.assemble.plan_booklets`.

    Raises:
        PatternError: every problem of every size wanted.

    """
    from seamleaf.booklet import assemble  # late, as the module says

    return assemble.plan_booklets(pattern, sizes, thorough=thorough)


def plan_bounds(pattern: Pattern, size_id: str, fabrics: Collection[str]) -> dict[str, Length | int]:
    """Return what one size takes of some fabrics at the least; see :func:`seamleaf.booklet.assemble.plan_bounds`.

    Raises:
        PatternError: as for :func:`plan_booklets`.

    """
    from seamleaf.booklet import assemble  # late, as the module says

    return assemble.plan_bounds(pattern, size_id, fabrics)
