"""Minimum-cost assignment with many on either side: whole numbers, convex costs, and the same answer everywhere.

Each unit goes along a shortest path of the network that is left (successive shortest paths, Busacker and Gowen 1960),
which is exact as long as further units cost no less than those before them. Ties go to the path found first, in the
order of the indexes.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Final

_FAR: Final = 1 << 60


@dataclass(slots=True)
class Transport:
    """What has been sent from each source to each sink."""

    supply: Sequence[int]
    """Units of each source; all of them are sent."""
    room: Sequence[int]
    """Units that each sink takes at most; together at least the supply."""
    cost: Callable[[int, int, int], int]
    """Cost of the next unit from a source to a sink that has sent so many; it must not fall as they grow."""
    sink_cost: Callable[[int, int], int]
    """Cost of the next unit at a sink that has taken so many; it must not fall either."""
    sent: list[list[int]] = field(init=False)
    taken: list[int] = field(init=False)

    def __post_init__(self) -> None:
        self.sent = [[0] * len(self.room) for _ in self.supply]
        self.taken = [0] * len(self.room)

    def solve(self) -> list[list[int]]:
        """Send everything and return how much goes from each source to each sink."""
        for source, units in enumerate(self.supply):
            for _ in range(units):
                self._send_one(source)
        return self.sent

    def _send_one(self, source: int) -> None:
        """Send one unit along the cheapest path: to a sink, back from it to another source that goes on, and so on."""
        at_source, at_sink = [_FAR] * len(self.supply), [_FAR] * len(self.room)
        came_to_source, came_to_sink = [-1] * len(self.supply), [-1] * len(self.room)
        at_source[source] = 0
        queue, waiting = deque([source]), {source}
        while queue:
            s = queue.popleft()
            waiting.discard(s)
            here, sent = at_source[s], self.sent[s]
            for t, room in enumerate(self.room):
                reach = here + self.cost(s, t, sent[t])
                if not room or reach >= at_sink[t]:
                    continue
                at_sink[t], came_to_sink[t] = reach, s
                for back, their in enumerate(self.sent):
                    if their[t] and back != s and reach - self.cost(back, t, their[t] - 1) < at_source[back]:
                        at_source[back] = reach - self.cost(back, t, their[t] - 1)
                        came_to_source[back] = t
                        if back not in waiting:
                            waiting.add(back)
                            queue.append(back)
        self._follow(source, self._cheapest_end(at_sink), came_to_source, came_to_sink)

    def _cheapest_end(self, at_sink: Sequence[int]) -> int:
        open_ = [t for t, room in enumerate(self.room) if self.taken[t] < room and at_sink[t] < _FAR]
        if not open_:
            raise AssertionError("the sinks together take what the sources send")
        return min(open_, key=lambda t: (at_sink[t] + self.sink_cost(t, self.taken[t]), t))

    def _follow(self, source: int, sink: int, came_to_source: Sequence[int], came_to_sink: Sequence[int]) -> None:
        self.taken[sink] += 1
        while True:
            s = came_to_sink[sink]
            self.sent[s][sink] += 1
            if s == source:
                return
            sink = came_to_source[s]
            self.sent[s][sink] -= 1
