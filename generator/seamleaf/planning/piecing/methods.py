"""How half-squares, squares of quarters and flying geese are sewn: what one batch takes, makes and measures.

Sizes follow from the seam allowance s (exact: half-square s(2 + sqrt 2), quarter-square s(2 + 2 sqrt 2), both
rounded up; at 1/4 in the published 7/8 and 1 1/4 of allpeoplequilt.com/print/325998). ``oversize`` is added to
the side of every square, and a trim follows.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from seamleaf.lengths import Length, Measures
from seamleaf.planning.labels import Shape
from seamleaf.planning.piecing.shapes import corner_uses
from seamleaf.planning.records import Box
from seamleaf.reading.part_records import Corners, Diamond, FabricUse, Geese, HalfSquare, QuarterSquare, ThreeTriangle

UnitMethod = Literal["two", "four", "eight", "triangles", "flip"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """``n`` patches that one batch takes: cut size (triangles: of the square), and where they lie in the unit."""

    use: FabricUse
    w: Length
    h: Length
    shape: Shape
    n: int
    x: Length
    y: Length
    turn: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One way to sew a unit."""

    method: UnitMethod
    pieces: tuple[Piece, ...]
    piece_of_face: tuple[int, ...]
    """Which piece each face of the unit's own is cut from."""
    makes: int
    made: Box
    trim: Box | None
    offset: Length | None = None
    """How far sharp tips stick out where triangles of a rectangle are laid together."""


HALF_SQUARE_METHODS: Final[tuple[UnitMethod, ...]] = ("two", "triangles", "four", "eight")
"""The methods that a half-square can be sewn by, the preferred first."""
GEESE_METHODS: Final[tuple[UnitMethod, ...]] = ("four", "flip", "triangles")
"""The methods that flying geese can be sewn by, the preferred first."""


def makes_of(part: HalfSquare | QuarterSquare | ThreeTriangle | Geese, method: UnitMethod) -> int:
    """Return how many units one batch makes."""
    if isinstance(part, ThreeTriangle) and method == "two":  # two half-squares, and two units of each
        return 4
    return {"two": 2, "four": 4, "eight": 8, "triangles": 1, "flip": 1}[method]


def half_square_recipe(part: HalfSquare, method: UnitMethod, seam: Length, measures: Measures) -> Recipe:
    """Return the squares of a half-square of finished side f, and what they make.

    Two at a time and cut triangles: f + 7/8. Eight at a time: twice that. Four at a time, sewn round the edge:
    exactly (f + 2s) sqrt 2 + 2s, whose units have bias edges and are trimmed.
    """
    finished, allowance = part.w, measures.half_square_allowance(seam)
    unfinished = finished + seam * 2
    made = unfinished + part.oversize
    if method == "eight":
        side, made = (finished + allowance) * 2 + part.oversize, unfinished + part.oversize / 2
    elif method == "four":
        side = measures.cut_size(unfinished.times_root2() + seam * 2) + part.oversize
        made = (side - seam * 2).times_root2() / 2
    else:
        side = finished + allowance + part.oversize
    shape: Shape = "halved" if method == "triangles" else "rectangle"
    middle = finished / 2
    pieces = tuple(
        Piece(use=use, w=side, h=side, shape=shape, n=1, x=middle, y=middle, turn=turn if shape == "halved" else 0)
        for use, turn in ((part.first, 0), (part.second, 180))
    )
    return Recipe(
        method=method,
        pieces=pieces,
        piece_of_face=(0, 1),
        makes=makes_of(part, method),
        made=Box(w=made, h=made),
        trim=None if made == unfinished else Box(w=unfinished, h=unfinished),
    )


def geese_recipe(part: Geese, method: UnitMethod, seam: Length, measures: Measures) -> Recipe:
    """Return the patches of flying geese of finished size w x h (w = 2h, point up), and what they make.

    Four at a time: a goose square of w + 1 1/4 and four sky squares of h + 7/8 (published table at
    members.shaw.ca/beverlysquiltingpage/ffg.htm). Triangles: the same squares, cut twice and once. Flip: a
    rectangle and two squares, each with plain seam allowance. Each way, squares that are larger by some amount
    make geese that are wider and higher by it (derived: the sky is mirrored over the seam).
    """
    w, h, extra = part.w, part.h, part.oversize
    around = seam * 2
    left, right = h / 2, w - h / 2
    pieces: tuple[Piece, ...]
    if method == "flip":
        square = h + around + extra
        pieces = (
            Piece(use=part.goose, w=w + around + extra, h=square, shape="rectangle", n=1, x=w / 2, y=h / 2),
            Piece(use=part.sky, w=square, h=square, shape="rectangle", n=1, x=left, y=h / 2),
            Piece(use=part.sky, w=square, h=square, shape="rectangle", n=1, x=right, y=h / 2),
        )
        made = Box(w=w + around + extra, h=square)
    else:
        large = w + measures.quarter_square_allowance(seam) + extra
        small = h + measures.half_square_allowance(seam) + extra
        made = Box(w=w + around + extra, h=h + around + extra)
        if method == "four":
            pieces = (
                Piece(use=part.goose, w=large, h=large, shape="rectangle", n=1, x=w / 2, y=h / 2),
                Piece(use=part.sky, w=small, h=small, shape="rectangle", n=4, x=w / 2, y=h / 2),
            )
        else:
            pieces = (
                Piece(use=part.goose, w=large, h=large, shape="quartered", n=1, x=w / 2, y=h, turn=45),
                Piece(use=part.sky, w=small, h=small, shape="halved", n=1, x=left, y=h / 2, turn=0),
                Piece(use=part.sky, w=small, h=small, shape="halved", n=1, x=right, y=h / 2, turn=90),
            )
    trim = Box(w=w + around, h=h + around) if extra else None
    return Recipe(
        method=method, pieces=pieces, piece_of_face=(0, 1, 1), makes=makes_of(part, method), made=made, trim=trim
    )


def quarter_square_methods(part: QuarterSquare) -> tuple[UnitMethod, ...]:
    """Return the methods that a quarter-square can be sewn by; two at a time only if opposite triangles are alike."""
    top, right, bottom, left = part.uses
    return ("two", "triangles") if (top, right) == (bottom, left) else ("triangles",)


def quarter_square_recipe(part: QuarterSquare, method: UnitMethod, seam: Length, measures: Measures) -> Recipe:
    """Return the squares of a quarter-square of finished side f: f + 1 1/4 each.

    Two at a time from one square of each fabric; or triangles, one of each square cut twice.
    """
    side = part.w + measures.quarter_square_allowance(seam) + part.oversize
    zero, middle = Length(0), part.w / 2
    if method == "two":
        pieces = tuple(
            Piece(use=use, w=side, h=side, shape="rectangle", n=1, x=middle, y=middle) for use in part.uses[:2]
        )
        piece_of_face = (0, 1, 0, 1)
    else:
        # A triangle's box is a square on its legs, turned so that the right angle is in the middle of the unit;
        # its centre halves the long edge.
        spots = ((middle, zero, 225), (part.w, middle, 315), (middle, part.w, 45), (zero, middle, 135))
        pieces = tuple(
            Piece(use=use, w=side, h=side, shape="quartered", n=1, x=x, y=y, turn=turn)
            for use, (x, y, turn) in zip(part.uses, spots, strict=True)
        )
        piece_of_face = (0, 1, 2, 3)
    unfinished = part.w + seam * 2
    made = unfinished + part.oversize
    return Recipe(
        method=method,
        pieces=pieces,
        piece_of_face=piece_of_face,
        makes=makes_of(part, method),
        made=Box(w=made, h=made),
        trim=None if made == unfinished else Box(w=unfinished, h=unfinished),
    )


def three_triangle_methods(part: ThreeTriangle, *, paired: bool) -> tuple[UnitMethod, ...]:
    """Return the methods that a three-triangle square can be sewn by, the preferred first.

    Pairs give as many mirrored as not, so they serve where the quilt takes both, or cannot tell them apart.
    """
    return ("two", "triangles") if paired or part.right == part.bottom else ("triangles",)


def three_triangle_recipe(part: ThreeTriangle, method: UnitMethod, seam: Length, measures: Measures) -> Recipe:
    """Return the squares of a three-triangle square of finished side f: f + 7/8 for the half, f + 1 1/4 a quarter.

    Two at a time: a half-square of the quarters' squares and a square of the half are sewn on both sides of the
    diagonal across its seam, and cut apart into the unit and its mirror image. A square of each quarter gives two
    half-squares, and so four units. Triangles: one of the half's square cut once, one each of the others cut twice.
    """
    f, middle = part.w, part.w / 2
    large = f + measures.half_square_allowance(seam) + part.oversize
    small = f + measures.quarter_square_allowance(seam) + part.oversize
    if method == "two":
        spots = ((part.half, large, 2), (part.right, small, 1), (part.bottom, small, 1))
        pieces = tuple(
            Piece(use=use, w=side, h=side, shape="rectangle", n=n, x=middle, y=middle) for use, side, n in spots
        )
    else:
        pieces = (
            Piece(use=part.half, w=large, h=large, shape="halved", n=1, x=middle, y=middle),
            Piece(use=part.right, w=small, h=small, shape="quartered", n=1, x=f, y=middle, turn=315),
            Piece(use=part.bottom, w=small, h=small, shape="quartered", n=1, x=middle, y=f, turn=45),
        )
    unfinished = f + seam * 2
    made = unfinished + part.oversize
    return Recipe(
        method=method,
        pieces=pieces,
        piece_of_face=(0, 1, 2),
        makes=makes_of(part, method),
        made=Box(w=made, h=made),
        trim=None if made == unfinished else Box(w=unfinished, h=unfinished),
    )


def corners_recipe(part: Corners, seam: Length) -> Recipe:
    """Return the rectangle and the squares of stitch-and-flip corners, each with plain seam allowance."""
    around, c = seam * 2, part.corner
    half = c / 2
    spots = ((half, half), (part.w - half, half), (part.w - half, part.h - half), (half, part.h - half))
    w, h = part.w + around, part.h + around
    base = Piece(use=part.base, w=w, h=h, shape="rectangle", n=1, x=part.w / 2, y=part.h / 2)
    squares = tuple(
        Piece(use=use, w=c + around, h=c + around, shape="rectangle", n=1, x=spots[index][0], y=spots[index][1])
        for index, use in corner_uses(part)
    )
    return Recipe(
        method="flip",
        pieces=(base, *squares),
        piece_of_face=tuple(range(len(squares) + 1)),
        makes=1,
        made=Box(w=w, h=h),
        trim=None,
    )


def diamond_recipe(part: Diamond, seam: Length, measures: Measures) -> Recipe:
    """Return the corner triangles of a square in a square of finished side F: squares of F/2 + 7/8, cut once.

    The centre, F / sqrt 2 finished, is cut up to the grid (scissortailquilting.com; slideblast.com Lesson 5), and
    so the unit comes out a little large and is trimmed. A finished centre c makes it c / sqrt 2 + F/2 wide (derived:
    its corners lie as far from the seams as those of the triangles).
    """
    allowance = measures.half_square_allowance(seam)
    side = measures.cut_size(part.w / 2 + allowance + part.oversize)  # inside another the size is irrational
    near, far = part.w / 4, part.w - part.w / 4
    spots = ((near, near, 0), (far, near, 90), (far, far, 180), (near, far, 270))
    pieces = tuple(
        Piece(use=part.corners, w=side, h=side, shape="halved", n=1, x=x, y=y, turn=turn) for x, y, turn in spots
    )
    unfinished = part.w + seam * 2
    centre = part.w.times_root2() / 2 + seam * 2
    if isinstance(part.centre, FabricUse):
        centre = measures.cut_size(centre)
    made = (centre - seam * 2).times_root2() / 2 + side - allowance + seam * 2
    return Recipe(
        method="triangles",
        pieces=pieces,
        piece_of_face=(0, 1, 2, 3),
        makes=1,
        made=Box(w=made, h=made),
        trim=None if made == unfinished else Box(w=unfinished, h=unfinished),
    )
