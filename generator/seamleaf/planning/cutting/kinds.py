"""Patches of one size, whatever their labels: what the planners count."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from seamleaf.planning.cutting.scale import Scale
from seamleaf.planning.cutting.tree import Patch
from seamleaf.planning.demand import Demand


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """``count`` patches of ``w`` x ``h`` steps, under one or more labels."""

    index: int
    w: int
    h: int
    turns: bool
    """Whether it may lie turned; ``False`` for squares, where it would change nothing."""
    count: int
    labels: tuple[tuple[str, int], ...]
    """Labels with their counts, in the order of the demands."""

    @property
    def lays(self) -> tuple[Patch, ...]:
        """Ways to lay the patch: as it is, and turned if it may be."""
        as_is = Patch(self.index, self.w, self.h)
        return (as_is, Patch(self.index, self.h, self.w)) if self.turns else (as_is,)


def kinds_of(demands: Iterable[Demand], scale: Scale) -> tuple[Kind, ...]:
    """Gather demands of one size into kinds, largest area first.

    A patch that may turn is kept with its longer side as width, so that ``2 x 4`` and ``4 x 2`` are one kind.
    """
    gathered: dict[tuple[int, int, bool], list[tuple[str, int]]] = {}
    for demand in demands:
        if demand.count > 0:
            gathered.setdefault(size_key(demand, scale), []).append((demand.label, demand.count))
    ordered = sorted(gathered.items(), key=lambda item: (-item[0][0] * item[0][1], -item[0][0], item[0][2]))
    return tuple(
        Kind(index=index, w=w, h=h, turns=turns, count=sum(n for _, n in labels), labels=tuple(labels))
        for index, ((w, h, turns), labels) in enumerate(ordered)
    )


def size_key(demand: Demand, scale: Scale) -> tuple[int, int, bool]:
    """Return what makes two demands one kind: width, height, and whether turning changes anything."""
    w, h = scale.whole(demand.w), scale.whole(demand.h)
    turns = demand.may_turn and w != h
    return (max(w, h), min(w, h), True) if turns else (w, h, False)


def area_of(kinds: Sequence[Kind]) -> int:
    """Return the area of all patches, in square steps."""
    return sum(kind.count * kind.w * kind.h for kind in kinds)
