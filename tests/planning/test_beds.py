"""The bed that a size is shown on."""

from __future__ import annotations

import pytest

from accepted import accepted
from patterns_for_tests import booklet_of
from seamleaf.lengths import INCHES, Length, measures_of
from seamleaf.planning.beds import DROP, MATTRESSES, plan_bed
from seamleaf.planning.records import Box


def box(w: int, h: int) -> Box:
    return Box(w=Length(w), h=Length(h))


@pytest.mark.parametrize(
    ("quilt", "mattress"),
    [
        # Quilts with a drop of 12 in, published: twin 63 x 87 (ciaspalette.com mattresses); full 78 x 87, queen 84 x 92
        # (melgeecrafts.com); king 100 x 92 (slideserve.com, school slides).
        ((63, 87), (39, 75)),
        ((78, 87), (54, 75)),
        ((84, 92), (60, 80)),
        ((100, 92), (76, 80)),
        # An inch less, and it is the next smaller bed (derived).
        ((77, 87), (39, 75)),
        ((84, 91), (54, 75)),
    ],
)
def test_a_quilt_with_the_published_drop_is_shown_on_its_bed(quilt: tuple[int, int], mattress: tuple[int, int]) -> None:
    assert plan_bed(Length(quilt[0]), Length(quilt[1]), None, INCHES) == box(*mattress)


def test_a_small_quilt_lies_on_the_smallest_bed_and_never_on_that_of_a_crib() -> None:
    """A crib's mattress is 28 in wide (thesprucecrafts.com 4145709); the least here is an adult's."""
    assert plan_bed(Length(36), Length(48), None, INCHES) == box(39, 75)
    assert all(w > 28 * measures_of(unit).inch for unit in ("in", "cm") for w, _ in MATTRESSES[unit])
    assert DROP["cm"] <= DROP["in"] * measures_of("cm").inch


def test_a_size_for_a_bed_is_shown_on_that_bed() -> None:
    sizes = {"one": {"cover": {"mattress": "60 x 80", "drop": "14"}}}
    assert booklet_of({"b": {"row": ["light 5 x 10", "dark 5 x 10"]}}, sizes=sizes).size.bed == box(60, 80)


def test_the_demos_sizes_lie_on_the_beds_that_they_are_called_after() -> None:
    for size, mattress in (("twin", (39, 75)), ("queen", (60, 80)), ("king", (76, 80))):
        booklet = accepted("lamplight-crossing", size)
        assert booklet.size.bed == box(*mattress)
