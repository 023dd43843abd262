"""Published tables cell by cell: what a fat quarter gives, and squares in squares both ways they are sewn."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns_for_tests import booklet_of, inches
from seamleaf.lengths import INCHES, Length
from seamleaf.planning.cutting import plan_bundle
from seamleaf.planning.demand import Demand, MisfitError, RoleDemand
from seamleaf.planning.records import Box

# Squares of a cut size from a fat quarter of 18 x 22 in: quilterscache.com/M/MathChartsPage.html (2002), the same 15
# cells in docsbay.net, fat quarter. A third chart (quiltersresources.com/measurements) prints 55 for 2 1/2 in, where 56
# come out, and 15 for 5 in, which do not. From 18 x 21, and from fat eighths of 9 x 22 and 9 x 21: derived.
FAT_QUARTERS = {
    "2": (99, 90, 44, 40), "2 1/2": (56, 56, 24, 24), "2 7/8": (42, 42, 21, 21), "3": (42, 42, 21, 21),
    "3 1/2": (30, 30, 12, 12), "3 7/8": (20, 20, 10, 10), "4": (20, 20, 10, 10), "4 1/2": (16, 16, 8, 8),
    "4 7/8": (12, 12, 4, 4), "5": (12, 12, 4, 4), "5 1/2": (12, 9, 4, 3), "5 7/8": (9, 9, 3, 3), "6": (9, 9, 3, 3),
    "6 1/2": (6, 6, 3, 3), "6 7/8": (6, 6, 3, 3),
}  # fmt: skip
PIECES = ((18, 22), (18, 21), (9, 22), (9, 21))


def _pieces(size: str, count: int, w: int, h: int) -> Length | int:
    """Return how many bundle pieces a block takes that wants so many squares of one print."""
    square = Demand(label="A1", w=inches(size), h=inches(size), count=count, may_turn=True)
    role = RoleDemand(block="block", role=1, copies=1, demands=(square,))
    return plan_bundle([role], Box(w=Length(w), h=Length(h)), INCHES).need


@pytest.mark.parametrize("size", FAT_QUARTERS)
def test_a_fat_quarter_gives_the_published_number_of_squares_and_not_one_more(size: str) -> None:
    for (w, h), count in zip(PIECES, FAT_QUARTERS[size], strict=True):
        assert _pieces(size, count, w, h) == 1
        with pytest.raises(MisfitError):
            _pieces(size, count + 1, w, h)


@pytest.mark.parametrize("finished", range(2, 13))
def test_a_square_in_a_square_by_stitch_and_flip_takes_f_and_1_2_and_four_squares_of_half_f_and_1_2(
    finished: int,
) -> None:
    """scissortailquilting.com, square in a square: a base of 2 1/2 to 12 1/2 and squares of 1 1/2 to 6 1/2."""
    half = Length(Fraction(finished, 2))
    corners = dict.fromkeys(("top-left", "top-right", "bottom-right", "bottom-left"), "light")
    part = {"corners": {"base": "dark", **corners}, "corner": str(half.a), "finished": f"{finished} x {finished}"}
    booklet = booklet_of({"block": part}, size="1 x 1")
    cut = {patch.fabric: (patch.w, patch.h, patch.count) for patch in booklet.patches if patch.use == "block"}
    square = half + Fraction(1, 2)
    assert cut == {"dark": (Length(finished) + Fraction(1, 2),) * 2 + (1,), "light": (square, square, 4)}


@pytest.mark.parametrize(
    ("finished", "centre", "corner"),
    [("12", "9", "6 7/8"), ("6", "4 3/4", "3 7/8"), ("8", "6 1/4", "4 7/8")],
)
def test_a_square_in_a_square_by_triangles_takes_0_7_f_and_1_2_up_and_squares_of_half_f_and_7_8(
    finished: str, centre: str, corner: str
) -> None:
    """12 in: 6 x 1.414 + 1/2 = 8.984, cut 9, and squares of 6 7/8 (slideblast.com Lesson 5); the others derived."""
    part = {"diamond": {"centre": "dark", "corners": "light"}, "finished": f"{finished} x {finished}"}
    booklet = booklet_of({"block": part}, size="1 x 1")
    cut = {patch.fabric: (patch.w, patch.shape, patch.count) for patch in booklet.patches if patch.use == "block"}
    assert cut == {"dark": (inches(centre), "rectangle", 1), "light": (inches(corner), "halved", 4)}
