"""The smallest quilt that covers a bed, by block counts and by border widths within the designer's ranges.

A quilt as wide as the mattress and a drop on both sides, as long as it with a drop at the foot and what is tucked
under the pillow (job of the trade: mattress width + 2 drop by mattress length + drop + tuck, ciaspalette.com
mattresses). Of all quilts that are both, the one of the least area is taken; of equal areas the one with fewer
blocks; of those the one with the narrower inner borders, so that the outermost is the widest.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.reading.pattern import Cover, Widths
from seamleaf.sizing.limits import MAX_BLOCKS

MAX_MIXES: Final = 20_000
"""The most sums of border widths that are looked at, so that a search ends in bounded time."""

CentreSize = Callable[[int, int], tuple[Length, Length]]
"""Blocks across and down to the finished size of the centre, which grows with each of them."""


class TooManyMixesError(ValueError):
    """Ranges of border widths that add up to more sums than are looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Covering:
    """What covers a bed."""

    across: int
    down: int
    widths: tuple[Length, ...]
    """The width of each border, from the inside out."""


def needed_size(cover: Cover) -> tuple[Length, Length]:
    """Return the least width and height of a quilt that covers the bed."""
    return cover.mattress[0] + cover.drop * 2, cover.mattress[1] + cover.drop + cover.tuck


def smallest_covering(
    cover: Cover, ranges: Sequence[Widths], centre: CentreSize, blocks: Callable[[int, int], int]
) -> Covering | None:
    """Return the smallest quilt that covers a bed, or ``None`` where no count of blocks up to the limit does.

    For each sum of border widths the least counts are found, since width depends on the blocks across alone
    and height on those down; so every quilt that could be the smallest is compared, exactly.

    Args:
        cover: the bed.
        ranges: the widths that each border may have, from the inside out.
        centre: the finished size of the centre.
        blocks: how many blocks a set of so many across and down has.

    Raises:
        TooManyMixesError: more than ``MAX_MIXES`` sums of border widths.

    """
    need = needed_size(cover)
    across = down = MAX_BLOCKS + 1
    best: tuple[Length, int, tuple[Length, ...]] | None = None
    found: Covering | None = None
    for total, widths in sorted(_sums(ranges).items()):
        # A wider border never takes more blocks: the counts of the last sum are where the next begins to fall.
        across = _least(need[0] - total * 2, across, lambda n: centre(n, 1)[0])
        down = _least(need[1] - total * 2, down, lambda n: centre(1, n)[1])
        if max(across, down) > MAX_BLOCKS:
            continue
        w, h = centre(across, down)
        key = ((w + total * 2) * (h + total * 2), blocks(across, down), widths)
        if best is None or key < best:
            best, found = key, Covering(across=across, down=down, widths=widths)
    return found


def _least(need: Length, most: int, side: Callable[[int], Length]) -> int:
    """Return the least count up to ``most`` whose side reaches ``need``; ``most`` where none does."""
    return 1 + bisect_left(range(1, most), need, key=side)


def _sums(ranges: Sequence[Widths]) -> dict[Length, tuple[Length, ...]]:
    """Return every sum of widths with the widths that make it, of several the one with the narrower inner borders."""
    sums: dict[Length, tuple[Length, ...]] = {ZERO: ()}
    for widths in ranges:
        longer: dict[Length, tuple[Length, ...]] = {}
        for total, mix in sums.items():
            for width in widths:
                mixed = (*mix, width)
                longer[total + width] = min(longer.get(total + width, mixed), mixed)
            if len(longer) > MAX_MIXES:
                raise TooManyMixesError
        sums = longer
    return sums
