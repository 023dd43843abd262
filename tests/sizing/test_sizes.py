"""Sizes of a quilt: borders added up, beds covered, limits kept."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from patterns_for_tests import booklets_of, inches, pattern_of, refusals_of
from seamleaf.lengths import Length
from seamleaf.sizing import size_quilt
from seamleaf.sizing.layout import centre_size, count_blocks

BLOCK = {"plain": "dark 4 x 3"}


def finished(size: dict[str, object], **sections: object) -> tuple[Length, Length]:
    """Return the finished size of a quilt of plain blocks of 4 x 3."""
    return size_quilt(pattern_of(BLOCK, sizes={"one": size}, **sections), "one").finished


def test_each_border_adds_its_width_twice_and_a_size_may_give_it_another() -> None:
    borders = [{"fabric": "red", "width": "1"}, {"fabric": "dark", "width": "2 1/2"}]
    assert finished({"blocks": "2 x 2"}, borders=borders) == (8 + 7, 6 + 7)
    assert finished({"blocks": "2 x 2", "borders": ["1/2", "3"]}, borders=borders) == (8 + 7, 6 + 7)
    assert finished({"blocks": "2 x 2", "borders": ["1", "4 3/4"]}, borders=borders) == (
        inches("19 1/2"),
        inches("17 1/2"),
    )


@pytest.mark.parametrize(
    ("mattress", "drop", "tuck", "quilt", "source"),
    [
        ("39 x 75", 12, 0, (63, 87), "ciaspalette.com mattresses, twin"),
        ("54 x 75", 12, 0, (78, 87), "weak aggregator page, full"),
        ("60 x 80", 12, 0, (84, 92), "weak aggregator page, queen"),
        ("76 x 80", 12, 0, (100, 92), "slideserve 'Can you figure the amount of yardage', king"),
        ("72 x 84", 12, 0, (96, 96), "weak aggregator page, Californian king"),
        ("39 x 75", 13, 0, (65, 88), "honeybegood.com 2012, twin"),
        ("54 x 75", 13, 0, (80, 88), "honeybegood.com 2012, full"),
        ("60 x 80", 13, 0, (86, 93), "honeybegood.com 2012, queen"),
        ("39 x 75", 21, 14, (81, 110), "atimetosewquilts.com/measurements.htm, its 110 with 14 for the pillow"),
    ],
)
def test_a_bed_is_covered_by_its_width_and_two_drops_and_its_length_one_drop_and_the_tuck(
    mattress: str, drop: int, tuck: int, quilt: tuple[int, int], source: str
) -> None:
    """The quilt covers the published size, and with one block less across or down it would not."""
    cover = {"cover": {"mattress": mattress, "drop": str(drop), "tuck": str(tuck)}}
    w, h = finished(cover)
    assert quilt[0] <= w < quilt[0] + 4, source
    assert quilt[1] <= h < quilt[1] + 3, source


@pytest.mark.parametrize("on_point", [{}, {"on_point": "1/2"}], ids=["straight", "on point"])
def test_the_quilt_for_a_bed_is_the_smallest_by_area_that_covers_it(on_point: dict[str, str]) -> None:
    """Against trying out every number of blocks."""
    pattern = pattern_of(
        {"plain": "dark 9 x 9"},
        sizes={"bed": {"cover": {"mattress": "39 x 75", "drop": "10", "tuck": "8"}}},
        borders=[{"fabric": "red", "width": "3"}],
        **on_point,
    )
    side = Length(0, 9) if on_point else Length(9)
    fitting = [
        (side * m + 6) * (side * n + 6)
        for m, n in product(range(1, 20), repeat=2)
        if side * m + 6 >= 39 + 20 and side * n + 6 >= 75 + 10 + 8
    ]
    w, h = size_quilt(pattern, "bed").finished
    assert w >= 59
    assert h >= 93
    assert w * h == min(fitting)


def test_on_point_counts_are_limited_with_the_inner_grid_counted() -> None:
    assert count_blocks("on-point", 36, 36) == 2521
    assert count_blocks("straight", 50, 50) == 2500


def test_a_bed_that_takes_more_than_2500_blocks_is_refused_at_its_size() -> None:
    (problem,) = refusals_of({"tiny": "dark 1 x 1"}, sizes={"bed": {"cover": {"mattress": "60 x 80", "drop": "12"}}})
    assert (problem.found, problem.expected) == ("a quilt of 7728 blocks", "at most 2500 blocks")


def test_a_side_over_400_inches_is_refused_borders_counted_in() -> None:
    borders = [{"fabric": "red", "width": "1"}]
    blocks = {"plain": "dark 20 x 2"}
    assert not refusals_of(blocks, size="19 x 1", borders=borders)
    assert not refusals_of(blocks, size="20 x 1")
    (problem,) = refusals_of(blocks, size="20 x 1", borders=borders)
    assert problem.found == "size 'one' with a side over 400 inches"


def test_in_centimetres_the_limit_is_400_inches_as_well() -> None:
    metric = {"unit": "cm", "backing": {"usable": "200"}}
    assert not refusals_of({"plain": "dark 80 x 10"}, size="12 x 1", **metric)  # 960 cm of 1016
    (problem,) = refusals_of({"plain": "dark 80 x 10"}, size="13 x 1", **metric)
    assert problem.found == "size 'one' with a side over 400 inches"


def test_a_childs_quilt_carries_the_note_on_infants_sleep() -> None:
    """No quilt belongs in an infant's sleep space (AAP policy, Pediatrics 2022;150(1):e2022057990)."""
    sizes = {"crib": {"blocks": "15 x 20"}, "larger": {"blocks": "16 x 20"}}
    booklets = booklets_of({"plain": "dark 4 x 3"}, sizes=sizes)
    assert "infant-sleep" in booklets["crib"].cautions
    assert "infant-sleep" not in booklets["larger"].cautions
    assert all({"rotary-cutter", "iron", "needle"} <= set(booklet.cautions) for booklet in booklets.values())


RANGES = [{"fabric": "red", "width": "1 to 2"}, {"fabric": "dark", "width": "2 to 6 by 1/4"}]
SETS: dict[str, dict[str, object]] = {
    "straight": {},
    "on point": {"on_point": "1/2"},
    "sashed": {"sashing": {"fabric": "light", "width": "1 1/2"}},
    "sashed all round": {"sashing": {"fabric": "light", "width": "1 1/2", "outer": "true"}},
}


@pytest.mark.parametrize("sections", SETS.values(), ids=SETS)
@pytest.mark.parametrize("bed", ["60 x 80", "39 x 75"])
def test_border_widths_within_their_ranges_are_chosen_with_the_counts(bed: str, sections: dict[str, object]) -> None:
    """The smallest area of all counts and widths; then the fewest blocks; then the narrower inner border: derived."""
    pattern = pattern_of(
        {"plain": "dark 9 x 9"},
        sizes={"bed": {"cover": {"mattress": bed, "drop": "10", "tuck": "3"}}},
        borders=RANGES,
        **sections,
    )
    quilt = size_quilt(pattern, "bed")
    need_w, need_h = (int(side) for side in bed.split(" x "))
    found = []
    for inner, outer in product((Fraction(n, 2) for n in (2, 3, 4)), (Fraction(n, 4) for n in range(8, 25))):
        around = (inner + outer) * 2
        for m, n in product(range(1, 13), repeat=2):
            w, h = (side + around for side in centre_size(pattern.setting, m, n, Length(9), Length(9)))
            if w >= need_w + 20 and h >= need_h + 13:
                found.append((w * h, count_blocks(pattern.setting.set, m, n), Length(inner), Length(outer), m, n))
    _, _, *best = min(found)
    assert [*(width for _, width in quilt.borders), quilt.across, quilt.down] == best


def test_a_size_by_block_counts_takes_the_least_width_and_a_size_may_have_a_range_of_its_own() -> None:
    assert finished({"blocks": "2 x 2"}, borders=RANGES) == (8 + 6, 6 + 6)
    cover = {"mattress": "11 x 11", "drop": "0"}
    assert finished({"cover": cover}, borders=RANGES) == (12, 11)
    assert finished({"cover": cover, "borders": ["1", "1/2 to 1 1/2 by 1"]}, borders=RANGES) == (11, 12)


def test_equal_areas_are_settled_by_fewer_blocks_and_then_by_the_narrower_inner_border() -> None:
    """20 x 20 is made of 2 x 2 blocks of 6 with 4 round them, or of 3 x 3 with 1; 4 is 1 + 3 or 2 + 2: derived."""
    borders = [{"fabric": "red", "width": "1/2 to 2"}, {"fabric": "dark", "width": "1/2 to 3"}]
    pattern = pattern_of(
        {"plain": "dark 6 x 6"}, sizes={"bed": {"cover": {"mattress": "20 x 20", "drop": "0"}}}, borders=borders
    )
    quilt = size_quilt(pattern, "bed")
    assert (quilt.across, quilt.down, [width for _, width in quilt.borders]) == (2, 2, [1, 3])


def test_the_booklet_says_what_hangs_down_over_the_bed() -> None:
    (booklet,) = booklets_of(
        {"plain": "dark 9 x 9"}, sizes={"bed": {"cover": {"mattress": "30 x 40", "drop": "10", "tuck": "4"}}}
    ).values()
    assert (booklet.finished.w, booklet.finished.h) == (54, 54)
    cover = booklet.size.cover
    assert cover is not None
    assert (cover.sides, cover.foot) == (12, 10)


def test_too_many_sums_of_border_widths_are_refused_at_the_bed() -> None:
    borders = [{"fabric": "red", "width": f"1 to 2 by 1/{steps}"} for steps in (101, 103, 107)]
    (problem,) = refusals_of(
        {"plain": "dark 9 x 9"}, sizes={"bed": {"cover": {"mattress": "30 x 40", "drop": "10"}}}, borders=borders
    )
    assert problem.found == "borders whose widths can be mixed in too many ways"
