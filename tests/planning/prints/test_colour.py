"""CIELAB and CIEDE2000 against published pairs and against coloraide."""

from __future__ import annotations

import random
from typing import Final

import pytest
from coloraide import Color

from seamleaf.planning.prints.colour import FAMILIES, ciede2000, difference, family_of, lab_of

# Sharma, Wu and Dalal, Color Research and Application 30(1), 2005, pages 21-30, table 1: all 34 pairs.
PAIRS: Final = (
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, 3.1571, -77.2803), (50.0, 0.0, -82.7485), 2.8615),
    ((50.0, 2.8361, -74.02), (50.0, 0.0, -82.7485), 3.4412),
    ((50.0, -1.3802, -84.2814), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, -1.1848, -84.8006), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, -0.9009, -85.5211), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, -1.0, 2.0), (50.0, 0.0, 0.0), 2.3669),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0009), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.001), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0011), 7.2195),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0012), 7.2195),
    ((50.0, -0.001, 2.49), (50.0, 0.0009, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.001, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.0011, -2.49), 4.7461),
    ((50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((50.0, 2.5, 0.0), (61.0, -5.0, 29.0), 22.8977),
    ((50.0, 2.5, 0.0), (56.0, -27.0, -3.0), 31.903),
    ((50.0, 2.5, 0.0), (58.0, 24.0, 15.0), 19.4535),
    ((50.0, 2.5, 0.0), (50.0, 3.1736, 0.5854), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 3.2972, 0.0), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 1.8634, 0.5757), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 3.2592, 0.335), 1.0),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.263),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.248, -4.962), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.694), (23.0331, 14.973, -42.5619), 2.0373),
    ((36.4612, 47.858, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.441), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.135), (0.9033, -0.0636, -0.5514), 0.9082),
)


@pytest.mark.parametrize(("one", "other", "published"), PAIRS)
def test_the_published_pairs_differ_by_what_is_published(
    one: tuple[float, float, float], other: tuple[float, float, float], published: float
) -> None:
    """All 34 pairs of Sharma, Wu and Dalal 2005, to their four decimals, in both directions."""
    assert ciede2000(one, other) == pytest.approx(published, abs=0.00005)
    assert ciede2000(other, one) == pytest.approx(published, abs=0.00005)


def test_colours_and_differences_are_those_of_a_colour_library() -> None:
    """Of 400 random pairs, against coloraide (CIELAB under D65); hundredths may part by one where a tie is rounded."""
    chance = random.Random(20051)
    colours = [f"#{chance.randrange(1 << 24):06x}" for _ in range(800)] + ["#000000", "#ffffff", "#808080", "#010101"]
    for one, other in zip(colours[::2], colours[1::2], strict=True):
        lab, reference = lab_of(one), Color(one).convert("lab-d65")
        for ours, theirs in zip(lab, reference.coords(nans=False), strict=True):
            assert ours == pytest.approx(theirs * 100, abs=2)
        assert difference(lab, lab_of(other)) == pytest.approx(
            Color(one).delta_e(other, method="2000", space="lab-d65") * 100, abs=3
        )


def test_greys_have_no_hue_and_their_own_family() -> None:
    for level in range(256):
        grey = lab_of(f"#{level:02x}{level:02x}{level:02x}")
        assert grey[1:] == (0, 0)
        assert FAMILIES[family_of(grey)] == "neutral"
    assert lab_of("#000000")[0] == 0
    assert lab_of("#ffffff")[0] == 100_00


@pytest.mark.parametrize(
    ("colour", "family"),
    [
        ("#c8253d", "red"),
        ("#f08a3c", "orange"),
        ("#f2d134", "yellow"),
        ("#4f9f3c", "green"),
        ("#2f9a94", "teal"),
        ("#2f5fbf", "blue"),
        ("#7a4fb0", "violet"),
        ("#e070b0", "pink"),
        ("#8a8880", "neutral"),
    ],
)
def test_a_colour_belongs_to_the_family_that_people_call_it(colour: str, family: str) -> None:
    """Common names, no source: the borders of the families are a convention."""
    assert FAMILIES[family_of(lab_of(colour))] == family
