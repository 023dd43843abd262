"""Rows of small whole numbers packed into one large one, so that sums over a whole quilt take one addition.

Lane ``n`` of a packed row is its 32 bits from bit ``32 n`` on. Adding, subtracting and multiplying rows is plain
arithmetic, whatever lies between, as long as every lane of the row that is read in the end holds 0 to 2^32 - 1.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable
from typing import Final

WIDTH: Final = 32
LANE: Final = (1 << WIDTH) - 1


class Lanes:
    """Rows of one length."""

    def __init__(self, count: int) -> None:
        self.count = count
        self.full = (1 << WIDTH * count) - 1
        """Every bit of every lane."""
        self.ones = self.full // LANE
        """1 in every lane."""
        self._layout = struct.Struct(f"<{count}I")

    def unpack(self, row: int) -> tuple[int, ...]:
        """Return the lanes of a row."""
        return self._layout.unpack(row.to_bytes(4 * self.count, "little"))


def packed(values: Iterable[tuple[int, int]]) -> int:
    """Return the row that holds each (lane, number), and 0 elsewhere."""
    return sum(number << WIDTH * lane for lane, number in values)


def at(lane: int) -> int:
    """Return the row with 1 in one lane."""
    return 1 << WIDTH * lane
