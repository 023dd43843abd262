"""Which totals a set of sizes can make: strips of known heights add up to few of all lengths."""

from __future__ import annotations

from collections.abc import Iterable


class Totals:
    """The sums of any number of ``sizes`` up to ``limit``; at least one of a size of ``tall`` or more among them."""

    def __init__(self, sizes: Iterable[int], limit: int, tall: int = 0) -> None:
        made = bytearray(limit + 1)
        made[0] = 1
        sizes = sorted(set(sizes))
        for size in sizes:
            for total in range(size, limit + 1):
                if made[total - size]:
                    made[total] = 1
        if tall:
            must = [size for size in sizes if size >= tall]
            made = bytearray(any(made[total - size] for size in must if size <= total) for total in range(limit + 1))
        self.limit = limit
        self.all = [total for total in range(limit + 1) if made[total]]
        self._made = made

    def least_from(self, bound: int) -> int:
        """Return the least total that is not below ``bound``; ``limit + 1`` when there is none."""
        total = max(bound, 0)
        while total <= self.limit and not self._made[total]:
            total += 1
        return min(total, self.limit + 1)

    def greatest_below(self, total: int) -> int:
        """Return the greatest total below ``total``; ``-1`` when there is none."""
        total = min(total, self.limit + 1) - 1
        while total >= 0 and not self._made[total]:
            total -= 1
        return total
