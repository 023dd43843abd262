"""Patterns in centimetres from the first line to the last, and inch patterns whose fabric is bought in metres."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns_for_tests import booklet_of, demo, geese, half_square
from seamleaf.booklet import Booklet, plan_booklets
from seamleaf.lengths import CENTIMETRES, Length
from seamleaf.planning.fabrics import metric_purchase
from seamleaf.reading import read_pattern
from seamleaf.reading.pattern import Fabric

KITES = Path(__file__).parents[2] / "patterns" / "kite-weather.yaml"
FINISHED: dict[str, Any] = {
    "binding": {"fabric": "red"},
    "borders": [{"fabric": "dark", "width": "9", "corner": "mitred"}],
    "unit": "cm",
}


def metric(part: Any, **sections: Any) -> Booklet:
    """Plan one block in centimetres, with everything round it left to the defaults."""
    return booklet_of({"block": part}, **{**FINISHED, **sections})


@pytest.fixture(scope="module")
def kites() -> dict[str, Booklet]:
    pattern = read_pattern(KITES.read_bytes(), KITES.stem).pattern
    assert pattern is not None
    return plan_booklets(pattern)


def cuts(booklet: Booklet) -> list[Length]:
    """Return every length of a booklet that someone cuts or trims to."""
    patches = [side for patch in booklet.patches for side in (patch.w, patch.h)]
    strips = [side for border in booklet.borders for strip in border.strips for side in (strip.length, strip.w)]
    trims = [side for unit in booklet.units if unit.trim for side in (unit.trim.w, unit.trim.h)]
    return patches + strips + trims


@pytest.mark.parametrize(
    ("part", "side", "source"),
    [
        ({"row": ["dark 8 x 8", "light 8 x 8"]}, "9.5", "rectangle + 2s: 1.5 at s = 0.75 cm"),
        (half_square("dark", "light", "8", method="two"), "10.6", "half-square + s(2 + sqrt 2): 2.56, up to 2.6"),
        (half_square("dark", "light", "8", method="four"), "15", "(f + 2s) sqrt 2 + 2s = 14.93, up to 1 mm"),
        (half_square("dark", "light", "8", method="eight"), "21.2", "2f + 2s(2 + sqrt 2): 16 + 5.12, up to 1 mm"),
        (geese("dark", "light", "8 x 4", method="four"), "11.7", "quarter-square + s(2 + 2 sqrt 2): 3.62, up to 3.7"),
    ],
)
def test_cut_sizes_follow_from_the_metric_seam(part: Any, side: str, source: str) -> None:
    """By the formulas of the trade at a seam of 0.75 cm (derived; multiples 3.5 s and 5 s at lukas.is-a-geek.org)."""
    booklet = metric(part)
    largest = max(patch.w for patch in booklet.patches if patch.use == "block")
    assert largest == Length(Fraction(side)), source


def test_every_cut_is_a_whole_millimetre_or_half_of_one_and_never_a_converted_inch(kites: dict[str, Booklet]) -> None:
    """The seam of 7.5 mm gives no finer mark; defaults such as the binding's are round numbers of centimetres."""
    booklets = [*kites.values(), metric("dark 10 x 10", on_point="1"), metric(half_square("dark", "red", "7"))]
    for booklet in booklets:
        assert all(cut.is_rational and (cut.a * 20).denominator == 1 for cut in cuts(booklet))
        inch = CENTIMETRES.inch
        assert not any((cut.a / inch * 8).denominator == 1 for cut in cuts(booklet))


def test_a_metric_pattern_is_bought_in_metres_alone(kites: dict[str, Booklet]) -> None:
    for booklet in kites.values():
        for fabric in booklet.fabrics:
            assert (fabric.buy.unit, fabric.also) == ("m", None)
            assert isinstance(fabric.need, Length)
            enough = Length(Fraction(fabric.buy.amount) * 100) - fabric.need - fabric.margin
            assert 0 <= enough < 10


def test_the_metric_demo_covers_its_bed_with_a_border_from_the_range(kites: dict[str, Booklet]) -> None:
    """Mattress 140 + 2 x 25 by 200 + 25 + 15 tucked in; a block is 24, a sash 2 and the inner border 2.5: derived."""
    double = kites["double"]
    yellow, sky = double.borders
    assert (double.finished.w, double.finished.h) == (
        24 * double.set.across + 2 * (double.set.across - 1) + 2 * (yellow.width + sky.width),
        24 * double.set.down + 2 * (double.set.down - 1) + 2 * (yellow.width + sky.width),
    )
    assert double.finished.w >= 190
    assert double.finished.h >= 240
    assert yellow.width == Length(Fraction(5, 2))
    assert 8 <= sky.width <= 16


@pytest.mark.parametrize(
    ("inches", "metres"),
    [("34", "1"), ("37", "1"), ("37 3/8", "1.1"), ("78", "2.1"), ("0 1/8", "0.1")],
)
def test_inches_are_bought_in_metres_rounded_up_to_ten_centimetres(inches: str, metres: str) -> None:
    """1 yd = 0.9144 m exactly (NBS Circular 572, addendum of 1960); the margin of 2 in is counted in."""
    whole, _, part = inches.partition(" ")
    fabric = next(iter(demo().fabrics.values()))
    assert isinstance(fabric, Fabric)
    bought = metric_purchase(fabric, Length(Fraction(whole) + Fraction(part or 0)), demo_measures())
    assert bought is not None
    assert (bought.amount, bought.unit) == (Fraction(metres), "m")


def demo_measures() -> Any:
    return demo().measures


def test_a_bundle_is_not_told_in_metres() -> None:
    pattern = demo()
    assert metric_purchase(pattern.fabrics["star"], 24, pattern.measures) is None
