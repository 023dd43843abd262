"""Lengths to whole numbers and back: the planners count in the finest step that occurs."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from seamleaf.lengths import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """``steps`` whole numbers make one unit of the pattern, exactly."""

    steps: int

    @classmethod
    def of(cls, lengths: Iterable[Length]) -> Scale:
        """Return the coarsest scale in which all ``lengths`` are whole.

        Raises:
            ValueError: a length has a root part; cut sizes are rounded up before they are planned.

        """
        steps = 1
        for length in lengths:
            if not length.is_rational:
                raise ValueError(f"no ruler shows {length!r}")
            steps = math.lcm(steps, length.a.denominator)
        return cls(steps=steps)

    def whole(self, length: Length) -> int:
        """Return a length as a whole number of steps; the length must be among those of the scale."""
        return length.a.numerator * (self.steps // length.a.denominator)

    def length(self, steps: int) -> Length:
        """Return a number of steps as a length."""
        return _length(steps, self.steps)


@functools.lru_cache(maxsize=4096)  # the patches and cuts of a plan have few different lengths
def _length(steps: int, of: int) -> Length:
    return Length(Fraction(steps, of))
