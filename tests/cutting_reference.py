"""Independent planners for small cases: everything written out, and the best choice by SciPy's MILP.

Yardage: every strip. Bundles: every handful of roles, and whether it comes out of a piece by trying every cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import product

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


Patch = tuple[int, int, bool]
"""Width, height, whether it may turn."""


@cache
def comes_out(w: int, h: int, patches: tuple[Patch, ...]) -> bool:
    """Tell whether patches, sorted, come out of a piece of w x h: every first cut, and every way to share them out."""
    if sum(a * b for a, b, _ in patches) > w * h:
        return False
    if len(patches) < 2:
        return all((a <= w and b <= h) or (turns and b <= w and a <= h) for a, b, turns in patches)
    halves = {
        (
            tuple(patch for at, patch in enumerate(patches) if chosen >> at & 1),
            tuple(patch for at, patch in enumerate(patches) if not chosen >> at & 1),
        )
        for chosen in range(1, 2 ** len(patches) - 1)
    }
    return any(
        any(comes_out(at, h, one) and comes_out(w - at, h, other) for at in range(1, w))
        or any(comes_out(w, at, one) and comes_out(w, h - at, other) for at in range(1, h))
        for one, other in sorted(halves)
    )


def fewest(roles: Sequence[tuple[int, Sequence[Patch]]], w: int, h: int) -> int:
    """Return the fewest pieces of w x h for roles of one block each: copies, and the patches of one copy."""
    copies = [n for n, _ in roles]
    handfuls = [
        choice
        for choice in product(*(range(n + 1) for n in copies))
        if comes_out(w, h, tuple(sorted(p for n, (_, patches) in zip(choice, roles, strict=True) for p in patches * n)))
    ]
    found = milp(
        np.ones(len(handfuls)),
        constraints=LinearConstraint(np.array(handfuls, dtype=float).T, lb=copies),
        integrality=np.ones(len(handfuls)),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0},
    )
    assert found.success
    return round(found.fun)
