"""How much fabric to buy: published worked examples and charts, each with the usable width that it assumes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns_for_tests import inches, pattern_of, refusals_of
from seamleaf.lengths import CENTIMETRES, INCHES, Length
from seamleaf.planning.fabrics import Asked, cut_yardage, purchase
from seamleaf.planning.labels import PatchKey, Shape
from seamleaf.reading.pattern import Fabric


def yardage(margin: str = "0", pack: str | None = None) -> Fabric:
    """Return a fabric as reading makes it."""
    bundle = {"source": "squares 10", **({"pack": pack} if pack else {})}
    fabrics = {"cloth": {"source": "yardage", "margin": margin}, "bundle": bundle}
    pattern = pattern_of({"a": "cloth 4 x 4"}, fabrics=fabrics)
    return pattern.fabrics["bundle" if pack is not None else "cloth"]


def need(count: int, size: str, usable: int, shape: Shape = "rectangle") -> Length:
    """Return the length of fabric that so many patches take."""
    w, h = (size.split(" x ") * 2)[:2]
    key = PatchKey(fabric="cloth", print=None, w=inches(w), h=inches(h), shape=shape)
    found = cut_yardage(yardage(), [Asked(label="A1", key=key, count=count)], Length(usable), INCHES).need
    assert isinstance(found, Length)
    return found


@pytest.mark.parametrize(
    ("count", "size", "shape", "published", "source"),
    [
        (80, "2 1/2", "rectangle", "12 1/2", "featheredstar.wordpress.com faqs: 16 a strip, 5 strips"),
        (12, "4 1/2", "rectangle", "9", "patchworktimes.com 2011/11/12: 8 a strip, 2 strips"),
        (60, "3 7/8", "halved", "11 5/8", "quilting.about.com: 30 squares, 10 a strip; the last step derived"),
        (300, "3 x 2", "rectangle", "48", "bobbininquilts.com: 13 a strip of 2 in, 24 strips; turned, 45 in do"),
    ],
)
def test_published_examples_on_40_inches_take_no_more_than_they_say(
    count: int, size: str, shape: Shape, published: str, source: str
) -> None:
    found = need(count, size, 40, shape)
    assert found <= inches(published), source
    if size != "3 x 2":
        assert found == inches(published)


# Squares from one yard, floor by floor: quilterscache.com/M/MathChartsPage.html (2002) with 44 in, of which one cell
# of 36 is wrong (7 in: printed 35, correct 30); the columns for 42 and 40 in are derived.
SQUARES_OF_A_YARD = {
    "2": (396, 378, 360), "2 1/2": (238, 224, 224), "2 7/8": (180, 168, 156), "3": (168, 168, 156),
    "3 1/2": (120, 120, 110), "3 7/8": (99, 90, 90), "4": (99, 90, 90), "4 1/2": (72, 72, 64), "4 7/8": (63, 56, 56),
    "5": (56, 56, 56), "5 1/2": (48, 42, 42), "6": (42, 42, 36), "6 1/2": (30, 30, 30), "7": (30, 30, 25),
    "8": (20, 20, 20), "8 1/2": (20, 16, 16), "9": (16, 16, 16), "10": (12, 12, 12), "10 1/2": (12, 12, 9),
    "11": (12, 9, 9), "12": (9, 9, 9), "12 1/2": (6, 6, 6),
}  # fmt: skip


@pytest.mark.parametrize("size", SQUARES_OF_A_YARD)
def test_a_yard_gives_the_published_number_of_squares_and_not_one_more(size: str) -> None:
    for usable, count in zip((44, 42, 40), SQUARES_OF_A_YARD[size], strict=True):
        assert need(count, size, usable) <= 36 < need(count + 1, size, usable)


@pytest.mark.parametrize(
    ("used", "yards"),
    [
        # atimetosewquilts.com/measurements.htm; "Quilting" (ISBN 9781615646142): 1/8 yd is 4 1/2 in, and so on
        ("4 1/2", "1/8"), ("9", "1/4"), ("13 1/2", "3/8"), ("18", "1/2"), ("22 1/2", "5/8"), ("27", "3/4"),
        ("31 1/2", "7/8"), ("36", "1"),
        # rounded up to the next eighth, never down
        ("4 5/8", "1/4"), ("48", "1 3/8"), ("36 1/8", "1 1/8"),
    ],
)  # fmt: skip
def test_a_purchase_goes_up_to_the_next_eighth_of_a_yard(used: str, yards: str) -> None:
    buy = purchase(yardage(), inches(used), INCHES)
    assert (Length(buy.amount), buy.unit) == (inches(yards), "yd")


def test_the_margin_is_added_before_rounding() -> None:
    assert purchase(yardage("2"), inches("16"), INCHES).amount == Fraction(1, 2)
    assert purchase(yardage("2"), inches("16 1/8"), INCHES).amount == Fraction(5, 8)


def test_an_irrational_need_is_rounded_up_too() -> None:
    """24 sqrt 2 is 33.94: over 7/8 yd with 31 1/2 in, and so a whole yard."""
    assert purchase(yardage(), Length(0, 24), INCHES).amount == 1


def test_metric_fabric_is_bought_in_steps_of_10_centimetres() -> None:
    assert purchase(yardage(), Length(100), CENTIMETRES).amount == 1
    assert purchase(yardage(), Length(101), CENTIMETRES).amount == Fraction(11, 10)
    assert purchase(yardage(), Length(101), CENTIMETRES).unit == "m"


def test_bundles_are_bought_in_whole_packs() -> None:
    bundle = yardage(pack="42")
    assert [(purchase(bundle, n, INCHES).amount, purchase(bundle, n, INCHES).unit) for n in (1, 42, 43, 85)] == [
        (1, "pack"),
        (1, "pack"),
        (2, "pack"),
        (3, "pack"),
    ]


def test_a_patch_wider_than_its_fabric_is_refused_with_its_fabric() -> None:
    problems = refusals_of({"a": "dark 41 x 41"}, size="1 x 1")
    assert [problem.expected for problem in problems] == ["patches no wider than the usable width"]
