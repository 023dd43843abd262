"""An independent yardage planner for small cases: every strip written out, and the shortest choice by SciPy's MILP."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

Size = tuple[int, int, bool, int]
"""Width, height, whether it may turn, count."""


def shortest(sizes: Sequence[Size], usable: int) -> int:
    """Return the least length of strips with columns of stacked patches that hold all sizes."""
    lays = [
        (at, *lay)
        for at, (w, h, turns, _) in enumerate(sizes)
        for lay in {(w, h), (h, w) if turns else (w, h)}
        if lay[0] <= usable
    ]
    counts = [size[3] for size in sizes]
    strips = sorted(
        {(height, strip) for height in {lay[2] for lay in lays} for strip in _strips(height, lays, counts, usable)}
    )
    held = np.array([strip for _, strip in strips], dtype=float).T
    heights = np.array([height for height, _ in strips], dtype=float)
    found = milp(
        heights,
        constraints=LinearConstraint(held, lb=counts),
        integrality=np.ones(len(strips)),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0},
    )
    assert found.success
    return round(found.fun)


def _strips(
    height: int, lays: Sequence[tuple[int, int, int]], counts: Sequence[int], usable: int
) -> Iterator[tuple[int, ...]]:
    """Yield what strips of a height can hold, no kind more than wanted."""
    columns = sorted({(width, held) for width, held in _columns(height, lays, counts)})

    def fill(start: int, room: int, held: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        yield held
        for at in range(start, len(columns)):
            width, stack = columns[at]
            more = tuple(min(a + b, most) for a, b, most in zip(held, stack, counts, strict=True))
            if width <= room and more != held:
                yield from fill(at, room - width, more)

    yield from fill(0, usable, (0,) * len(counts))


def _columns(
    height: int, lays: Sequence[tuple[int, int, int]], counts: Sequence[int]
) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the stacks that fit a height, with the width of their widest patch."""

    def stack(start: int, room: int, width: int, held: tuple[int, ...]) -> Iterator[tuple[int, tuple[int, ...]]]:
        if any(held):
            yield width, held
        for at in range(start, len(lays)):
            kind, w, h = lays[at]
            if h <= room and held[kind] < counts[kind]:
                more = (*held[:kind], held[kind] + 1, *held[kind + 1 :])
                yield from stack(at, room - h, max(width, w), more)

    yield from stack(0, height, 0, (0,) * len(counts))
