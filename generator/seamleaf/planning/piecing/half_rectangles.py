"""Half-rectangles: how large the rectangles are cut whose triangles sew up to a rectangle with a seam to its corners.

With the unit trimmed, the seam runs through the finished corners, not through the raw ones. A triangle of finished
legs w and h and long edge c needs legs of w + s(1 + (w + c)/h) and h + s(1 + (h + c)/w) (derived: the same triangle,
a seam allowance s larger all round). These, and c, are no rational numbers; so the cut sizes go up to the ruler's grid,
as does how far the sharp tips stick out when two triangles are laid together, and that the unit can then be trimmed is
decided exactly. Right sides up, a rectangle cut from lower left to upper right gives two triangles of one hand; the
mirrored unit takes rectangles that are as high as these are wide.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length, Measures
from seamleaf.lengths.roots import round_nearest, round_up, sign_of
from seamleaf.planning.piecing.methods import Piece, Recipe
from seamleaf.planning.records import Box
from seamleaf.reading.part_records import HalfRectangle

_TRIES: Final = 1000
"""Steps of the grid by which a cut may be enlarged: far more than any needs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sewn:
    """Two triangles of rectangles W x H, sewn along their long edges: how much can be trimmed from them."""

    cut: tuple[Fraction, Fraction]
    finished: tuple[Fraction, Fraction]
    seam: Fraction
    offset: Fraction
    """How far the lower left tip of the upper left triangle sticks out; less than 0 if it is the blunt one."""

    def gives(self, spare: Fraction) -> bool:
        """Whether the unfinished unit, larger by ``spare`` both ways, comes out of it with the seam to its corners.

        In the frame of the upper left triangle, right angle at the origin and legs W and H along the axes, every corner
        of the trimmed half has to lie at x >= 0 and y >= 0. With M the middle of the seam, C and c the cut and the
        finished long edge, a point (X, Y) from M has x C = C W/2 + t W/2 - s H + ((X w - Y h) W + (X h + Y w) H)/c,
        and y C likewise. The other triangle is the same, turned by half a turn about M. (Of a
        long unit with far more to trim than a seam allowance, a corner may lie on the other triangle. It is asked to
        lie on its own all the same: so less may be said to come out than does, and never more.)
        """
        (cut_w, cut_h), (w, h), s, t = self.cut, self.finished, self.seam, self.offset
        p, q = (w + spare) / 2 + s, (h + spare) / 2 + s
        long, finished_long = cut_w**2 + cut_h**2, w * w + h * h

        def left(x: Fraction, y: Fraction) -> int:
            slope = (x * w - y * h) * cut_w + (x * h + y * w) * cut_h
            return sign_of(t * cut_w / 2 - s * cut_h, cut_w / 2, long, slope / finished_long, finished_long)

        def top(x: Fraction, y: Fraction) -> int:
            slope = (x * w - y * h) * cut_h - (x * h + y * w) * cut_w
            return sign_of(-t * cut_h / 2 - s * cut_w, cut_h / 2, long, -slope / finished_long, finished_long)

        half = Fraction(1, 2)
        tips = (  # where the raw long edge leaves the trimmed unit, below and at the right
            sign_of(t / 2 + s * w / h, half, long, -q / h, finished_long),
            sign_of(-t / 2 + s * h / w, half, long, -p / w, finished_long),
        )
        return min(left(-p, -q), left(-p, q), top(-p, -q), top(p, -q), *tips) >= 0


def half_rectangle_recipe(part: HalfRectangle, seam: Length, measures: Measures) -> Recipe:
    """Return the rectangles of a half-rectangle whose seam rises: one triangle of each makes one unit.

    There is at least one step of the ruler to trim. The seam allowance and the finished size are rational, as
    everything is that a ruler shows.
    """
    w, h, s, grid = part.w.a, part.h.a, seam.a, measures.cut_grid
    square = w * w + h * h
    offset = round_nearest(s * (h / w - w / h), s * (1 / w - 1 / h), square, grid)
    least_w = round_up(w + s * (1 + w / h), s / h, square, grid)
    least_h = round_up(h + s * (1 + h / w), s / w, square, grid)
    for step in range(_TRIES):
        more = step * grid + part.oversize.a
        cut = least_w + more, least_h + more
        sewn = Sewn(cut=cut, finished=(w, h), seam=s, offset=offset)
        if sewn.gives(grid):
            break
    else:
        raise AssertionError("a larger rectangle gives a larger unit")
    spare = grid
    while sewn.gives(spare + grid):
        spare += grid
    cut_w, cut_h = map(Length, cut)
    pieces = tuple(
        Piece(use=use, w=cut_w, h=cut_h, shape="halved", n=1, x=part.w / 2, y=part.h / 2, turn=turn)
        for use, turn in ((part.first, 0), (part.second, 180))
    )
    unfinished = Box(w=part.w + seam * 2, h=part.h + seam * 2)
    return Recipe(
        method="triangles",
        pieces=pieces,
        piece_of_face=(0, 1),
        makes=1,
        made=Box(w=unfinished.w + spare, h=unfinished.h + spare),
        trim=unfinished,
        offset=Length(abs(offset)),
    )
