"""On which side of a log cabin each log is sewn, and how large that makes it."""

from __future__ import annotations

from typing import Final, Literal

from seamleaf.lengths import Length
from seamleaf.reading.part_records import Around

Side = Literal["top", "right", "bottom", "left"]

CLOCKWISE: Final[tuple[Side, ...]] = ("top", "right", "bottom", "left")


def log_sides(part: Around) -> tuple[Side, ...]:
    """Return the side on which each log is sewn: round and round, or opposite pairs for courthouse steps."""
    start = CLOCKWISE.index(part.start)
    if part.direction == "opposite":
        pattern = [start, start + 2, start + 1, start + 3]
    else:
        step = 1 if part.direction == "clockwise" else -1
        pattern = [start + step * turn for turn in range(4)]
    return tuple(CLOCKWISE[pattern[index % 4] % 4] for index in range(len(part.logs)))


def around_size(part: Around, w: Length, h: Length) -> tuple[Length, Length]:
    """Return the finished size of a log cabin round a centre of finished size w x h."""
    for log, side in zip(part.logs, log_sides(part), strict=True):
        if side in ("left", "right"):
            w = w + log.width
        else:
            h = h + log.width
    return w, h
