"""A whole quilt worked out by hand: 12-inch blocks on point in three sizes.

The table is derived, not published: each cell follows from the rules that the other tests hold against published
figures. Side squares 18 1/4 + 1, corner squares 9 3/8 + 1; butted borders, sides first; binding 2 1/2 in with 12 in
extra; backing with 4 in on every side and joins of 1 in; 2 in of margin for borders, 1 1/2 for the binding, 4 for
the backing; usable width 40 in; one print a block, of 10-in squares.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest

from patterns_for_tests import booklets_of, inches
from seamleaf.booklet import Booklet
from seamleaf.booklet.record import FabricNote
from seamleaf.lengths import Length


@dataclass(frozen=True, kw_only=True)
class Column:
    """One size of the table."""

    blocks: str
    borders: tuple[str, str]
    count: int
    rows: tuple[int, ...]
    sides: tuple[int, int, int]
    """Side triangles, their squares, spare triangles."""
    centre: tuple[str, str]
    """In decimals, rounded to hundredths, as the finished and the backing's size."""
    inner: tuple[int, str, str]
    """Strips, cut width, yards."""
    outer: tuple[int, str, str]
    finished: tuple[str, str]
    binding: tuple[int, str]
    backing: tuple[str, str]
    panels: tuple[int, str, str]
    """Panels, direction of the seam, yards."""
    left_of_42: int
    packs_of_40: int


TABLE = {
    "crib": Column(
        blocks="2 x 3", borders=("1", "2 1/2"), count=8, rows=(1, 3, 3, 1), sides=(6, 2, 2),
        centre=("33.94", "50.91"), inner=(5, "1 1/2", "3/8"), outer=(6, "3", "5/8"), finished=("40.94", "57.91"),
        binding=(6, "1/2"), backing=("48.94", "65.91"), panels=(2, "horizontal", "2 7/8"),
        left_of_42=34, packs_of_40=1,
    ),
    "lap": Column(
        blocks="3 x 4", borders=("1 1/2", "4"), count=18, rows=(1, 3, 5, 5, 3, 1), sides=(10, 3, 2),
        centre=("50.91", "67.88"), inner=(7, "2", "1/2"), outer=(8, "4 1/2", "1 1/8"), finished=("61.91", "78.88"),
        binding=(8, "5/8"), backing=("69.91", "86.88"), panels=(2, "vertical", "5"),
        left_of_42=24, packs_of_40=1,
    ),
    "queen": Column(
        blocks="5 x 5", borders=("1 1/2", "5"), count=41, rows=(1, 3, 5, 7, 9, 7, 5, 3, 1), sides=(16, 4, 0),
        centre=("84.85", "84.85"), inner=(10, "2", "5/8"), outer=(11, "5 1/2", "1 3/4"), finished=("97.85", "97.85"),
        binding=(11, "7/8"), backing=("105.85", "105.85"), panels=(3, "horizontal", "9"),
        left_of_42=1, packs_of_40=2,
    ),
}  # fmt: skip
SIZES = pytest.mark.parametrize("size", TABLE)


def golden(pack: int) -> dict[str, Booklet]:
    yardage: dict[str, Any] = {"source": "yardage", "usable": "40"}
    return booklets_of(
        # A print patch of 9 in finished: a 10-in square gives just one.
        {
            "block": {
                "column": [
                    "light 12 x 1 1/2",
                    {"row": ["light 1 1/2 x 9", "square 9 x 9", "light 1 1/2 x 9"]},
                    "light 12 x 1 1/2",
                ]
            }
        },
        fabrics={
            "light": yardage,
            "square": {"source": "squares 10", "pack": str(pack)},
            "inner": yardage,
            "outer": yardage,
            "edge": {**yardage, "margin": "1 1/2"},
            "back": {**yardage, "margin": "4"},
        },
        on_point="1",
        borders=[{"fabric": "inner", "width": "1"}, {"fabric": "outer", "width": "4"}],
        binding={"fabric": "edge", "strip": "2 1/2", "extra": "12"},
        backing={"fabric": "back", "extra": "4"},
        batting={"extra": "4"},
        sizes={size: {"blocks": column.blocks, "borders": list(column.borders)} for size, column in TABLE.items()},
    )


@pytest.fixture(scope="module")
def booklets() -> dict[str, Booklet]:
    return golden(42)


def hundredths(length: Length) -> str:
    return f"{float(length.round_nearest(Fraction(1, 100)).a):.2f}"


def fabric(booklet: Booklet, id_: str) -> FabricNote:
    return next(note for note in booklet.fabrics if note.id == id_)


def yards(booklet: Booklet, id_: str) -> Length:
    buy = fabric(booklet, id_).buy
    assert buy.unit == "yd"
    return Length(buy.amount)


@SIZES
def test_blocks_rows_and_triangles(booklets: dict[str, Booklet], size: str) -> None:
    booklet, column = booklets[size], TABLE[size]
    (sides,) = (patch for patch in booklet.patches if patch.shape == "quartered")
    assert (booklet.set.blocks, booklet.set.rows) == (column.count, column.rows)
    assert (sides.count, (sides.count + sides.spare) // 4, sides.spare) == column.sides
    assert {patch.shape: patch.w for patch in booklet.patches if patch.use == "triangle"} == {
        "quartered": inches("19 1/4"),
        "halved": inches("10 3/8"),
    }


@SIZES
def test_sizes_of_centre_and_quilt(booklets: dict[str, Booklet], size: str) -> None:
    booklet, column = booklets[size], TABLE[size]
    assert (hundredths(booklet.set.centre.w), hundredths(booklet.set.centre.h)) == column.centre
    assert (hundredths(booklet.finished.w), hundredths(booklet.finished.h)) == column.finished


@SIZES
@pytest.mark.parametrize("which", [0, 1], ids=["inner", "outer"])
def test_borders(booklets: dict[str, Booklet], size: str, which: int) -> None:
    booklet, column = booklets[size], TABLE[size]
    strips, width, amount = (column.inner, column.outer)[which]
    border = booklet.borders[which]
    assert border.width == inches(column.borders[which])
    assert (border.pieces, border.strips[0].w) == (strips, inches(width))
    assert yards(booklet, ("inner", "outer")[which]) == inches(amount)


@SIZES
def test_binding(booklets: dict[str, Booklet], size: str) -> None:
    booklet, (strips, amount) = booklets[size], TABLE[size].binding
    assert booklet.binding is not None
    assert booklet.binding.strips == strips
    assert yards(booklet, "edge") == inches(amount)


@SIZES
def test_backing(booklets: dict[str, Booklet], size: str) -> None:
    """The better direction of the seam flips between crib and lap; a square queen is as good either way."""
    booklet, column = booklets[size], TABLE[size]
    panels, seam, amount = column.panels
    assert (hundredths(booklet.backing.w), hundredths(booklet.backing.h)) == column.backing
    assert (booklet.backing.panels, booklet.backing.seam) == (panels, seam)
    assert yards(booklet, "back") == inches(amount)


@SIZES
def test_squares_of_the_bundle(booklets: dict[str, Booklet], size: str) -> None:
    """The queen fits one pack of 42, with one square left, but not one of 40."""
    column, square = TABLE[size], fabric(booklets[size], "square")
    assert (square.need, square.buy.amount, square.buy.unit) == (column.count, 1, "pack")
    assert 42 - column.count == column.left_of_42
    assert fabric(golden(40)[size], "square").buy.amount == column.packs_of_40


def test_the_crib_does_not_fit_the_crib_package_of_batting(booklets: dict[str, Booklet]) -> None:
    """48.94 x 65.91 is over 45 x 60; the next is 72 x 90."""
    package = booklets["crib"].batting.package
    assert package is not None
    assert (package.w, package.h) == (72, 90)


def test_the_queen_hangs_down_further_at_the_sides_than_at_the_foot(booklets: dict[str, Booklet]) -> None:
    """A square quilt on a mattress of 60 x 80: 18.9 in at the sides, 17.85 at the foot without a tuck."""
    finished = booklets["queen"].finished
    assert hundredths((finished.w - 60) / 2) == "18.93"
    assert hundredths(finished.h - 80) == "17.85"
