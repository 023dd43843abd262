"""Binding cut on the bias in one piece: the square that gives it, and how long it is, seams and all.

A square is cut from corner to corner and its halves are sewn together along two edges that lay opposite each other:
a slanting panel with two long edges on the bias. Lines are drawn along these, one strip apart; the ends are sewn into a
tube, one line shifted, and the tube is cut round and round along the lines.

The trade reckons with the area alone, length = side^2 / width (continuous bias, check: a 20 in square gives 200 in of
2 in). Two seams and the rest beside the last whole strip make it less. With a seam s the panel is (a - 2s) / sqrt 2
wide between its bias edges, so it gives k = floor((a - 2s) / (w sqrt 2)) strips, and each goes round for
sqrt 2 (a - 2s), since the second seam takes as much of it (derived).
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from typing import Final

from seamleaf.lengths import Length

MAX_SQUARES: Final = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class BiasPlan:
    """Equal squares that give a bias strip."""

    side: Length
    squares: int
    rounds: int
    """How many strips lie beside each other on the panel of one square."""
    length: Length
    """What the strips of all squares give, after what their joins eat."""


def bias_length(side: Length, width: Length, seam: Length) -> tuple[int, Length]:
    """Return how many strips lie beside each other on the panel of a square, and the length they give, exact."""
    inner = side - seam * 2
    rounds = (inner / width.times_root2()).floor() if inner > 0 else 0
    return rounds, inner.times_root2() * rounds


def plan_bias(need: Length, width: Length, seam: Length, usable: Length) -> BiasPlan | None:
    """Return the fewest squares that give ``need``, each with the least side in whole inches or centimetres.

    Strips of several squares are joined on the diagonal, which eats a strip's width a join. ``None`` where squares of
    this usable width do not give it.
    """
    widest = usable.floor()
    for squares in range(1, MAX_SQUARES + 1):
        each = (need + width * (squares - 1)) / squares
        if widest < 1 or bias_length(Length(widest), width, seam)[1] < each:
            continue
        # A larger square never gives less.
        side = Length(1 + bisect_left(range(1, widest), each, key=lambda n: bias_length(Length(n), width, seam)[1]))
        rounds, length = bias_length(side, width, seam)
        return BiasPlan(side=side, squares=squares, rounds=rounds, length=length * squares - width * (squares - 1))
    return None
