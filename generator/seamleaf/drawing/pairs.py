"""Two squares right sides together: marked, sewn beside the marks, and cut apart.

The upper square shows its pale wrong side, whole or as the two triangles of a half-square; the lower one looks out.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from seamleaf.drawing.colours import INK, luminance
from seamleaf.drawing.drafting import NEW
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.labels import centre_of
from seamleaf.drawing.outlines import Segment, Spots, cut_to, line_inside, moved
from seamleaf.drawing.scene import Ink, Line, Polygon, Shape, Spot
from seamleaf.drawing.stages import SIDE, keep_clear, lay, sewn, square_of

PEEK: Final = 7.0
RISING: Final[Segment] = ((0, SIDE), (SIDE, 0))
FALLING: Final[Segment] = ((0, 0), (SIDE, SIDE))
_APART: Final = 9.0
Faces = tuple[tuple[str, Spots], ...]
"""What one layer shows: labels with their outlines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two squares right sides together."""

    desk: Desk
    upper: Faces
    lower: Faces
    peek: Spot = (PEEK, PEEK)
    """How far the lower square looks out."""

    def draw(self, lines: Iterable[Line]) -> tuple[Shape, ...]:
        """Draw the pair with lines on its wrong side."""
        shown = list(lines)
        below = [lay(self.desk, label, moved(spots, *self.peek)) for label, spots in self.lower]
        if len(self.upper) == 1:
            ((label, spots),) = self.upper
            above: list[Shape] = [lay(self.desk, label, spots, upside=True, clear=keep_clear(lines=shown))]
        else:
            above = [
                lay(self.desk, label, spots, upside=True, new=False, clear=keep_clear(lines=shown))
                for label, spots in self.upper
            ]
            above.append(Polygon(points=square_of(0, 0, SIDE), ink=Ink(stroke=INK, width=NEW, rounded=True)))
        return (*below, *above, *shown)

    def cut_apart(self, pieces: Iterable[Spots], seams: Iterable[Segment]) -> tuple[Shape, ...]:
        """Draw the pieces that the cuts leave, moved apart, with the seams on them."""
        shapes: list[Shape] = []
        under = " and ".join(dict.fromkeys(label for label, _ in self.lower))
        for piece in pieces:
            x, y = centre_of(piece)
            away = math.hypot(x - SIDE / 2, y - SIDE / 2)
            apart = ((x - SIDE / 2) / away * _APART, (y - SIDE / 2) / away * _APART)
            inside = [clipped for clipped in (line_inside(seam, piece) for seam in seams) if clipped is not None]
            stitches = sewn((start, end) for start, end in (moved(line, *apart) for line in inside))
            for label, face in self.upper:
                shown = cut_to(face, piece)
                if not shown:
                    continue
                # Of several labels each is written, so that the halves can be told from each other.
                clear = keep_clear(lines=stitches) if len(self.upper) > 1 else None
                spots = moved(shown, *apart)
                tag = f"cut {label} on {under}"
                shapes.append(lay(self.desk, label, spots, upside=True, new=False, clear=clear, tag=tag))
            shapes += stitches
        return tuple(shapes)


def whole_square(label: str) -> Faces:
    """Return a layer that is one square."""
    return ((label, square_of(0, 0, SIDE)),)


def two_triangles(upper_left: str, lower_right: str) -> Faces:
    """Return a layer that is a half-square, its seam rising."""
    a, b, c, d = square_of(0, 0, SIDE)
    return ((upper_left, (a, b, d)), (lower_right, (b, c, d)))


def halves(mark: Segment) -> list[Spots]:
    """Return the pieces that a cut on a diagonal leaves."""
    a, b, c, d = square_of(0, 0, SIDE)
    return [(a, b, d), (b, c, d)] if mark == RISING else [(a, b, c), (a, c, d)]


def lighter_first(desk: Desk, labels: tuple[str, ...]) -> tuple[str, str]:
    """Return the label to mark, which is the lighter, and the other; both squares may be of one label."""
    one, other = labels[0], labels[-1]
    if luminance(desk.look_of(other).colour) > luminance(desk.look_of(one).colour):
        return other, one
    return one, other
