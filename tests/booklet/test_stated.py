"""Tech editing: a hand-made table beside the booklets, each difference at its place and with the arithmetic.

Half-square squares are cut 7/8 in larger than they finish, rectangles 1/2 in (published
charts, see the tests of lengths).
"""

from __future__ import annotations

import pytest

from published import SMALL
from seamleaf.reading.problems import PatternError
from seamleaf.site.commands.command import main
from seamleaf.site.work.pipeline import plan

FIRST = SMALL.count("\n") + 3
"""The line of the file that the first line under a size is."""

RIGHT = """\
    finished: 12 x 12
    blocks: 8
    buy: {water: 3/8 yd, reed: 3/8 yd, backing: 5/8 yd}
    cut: {water: [4 of 3 7/8], reed: [8 of 3 1/2 x 3 1/2, 4 of 3 7/8]}
    binding: 2
"""


STRIPS = "strips 2 x 2 1/2 + 1 x 3 7/8, margin 2: 10 7/8 in, rounded up"
EACH = "1 in each of 4 ripple, 1 in each of 4 ripple.B"


def differences(table: str, pattern: str = SMALL) -> list[str]:
    """Return what is told of a table for the size mat, each with line (from the table's first) and column."""
    try:
        plan(f"{pattern}stated:\n  mat:\n{table}".encode(), "small-pond")
    except PatternError as error:
        return [
            f"{problem.where.line - FIRST}:{problem.where.column}: {problem.sentence('').split(': ', 1)[1]}"
            for problem in error.problems
        ]
    return []


def test_a_table_that_says_what_is_computed_has_no_difference() -> None:
    assert differences(RIGHT) == []


@pytest.mark.parametrize(
    ("right", "wrong", "told"),
    [
        (
            "12 x 12",
            "12 1/2 x 12",
            "0:15: found a finished size of 12 1/2 x 12, expected 12 x 12 (the centre: 12 by 12)",
        ),
        ("blocks: 8", "blocks: 9", "1:13: found 9 blocks, expected 8 (by rows 2 + 2 + 2 + 2)"),
        (
            "water: 3/8 yd",
            "water: 1/4 yd",
            "2:18: found 1/4 yd of water, expected 3/8 yd (" + STRIPS + ")",
        ),
        (
            "backing: 5/8 yd",
            "backing: 1 pack",
            "2:49: found 1 pack of backing, expected 5/8 yd (strips 1 x 20, margin 2: 22 in, rounded up)",
        ),
        (
            "8 of 3 1/2 x 3 1/2",
            "6 of 3 1/2",
            f"3:39: found 6 of 3 1/2 of reed, expected 8 of 3 1/2 x 3 1/2 (B2: {EACH}, in all 8)",
        ),
        (
            "8 of 3 1/2 x 3 1/2, ",
            "",
            "3:32: found no 3 1/2 x 3 1/2 of reed, expected 8 of it (B2: join finished 3 x 3, 3 + 1/2 = 3 1/2)",
        ),
        (
            "binding: 2",
            "binding: 3",
            "4:14: found 3 strips of binding, expected 2 (2 x (12 + 12) + 12 = 60, and 2 joined strips give 77 1/2)",
        ),
    ],
)
def test_a_difference_is_told_with_the_arithmetic(right: str, wrong: str, told: str) -> None:
    assert right in RIGHT
    assert differences(RIGHT.replace(right, wrong)) == [told]


def test_a_wrong_cut_size_is_told_with_the_nearest_right_one() -> None:
    """The errata of half-squares: 1/2 in place of 7/8. The right size is missed as well."""
    why = "(A1: half-square finished 3 x 3, 3 + 7/8 = 3 7/8)"
    assert differences(RIGHT.replace("[4 of 3 7/8]", "[4 of 3 1/2]")) == [
        f"3:11: found no 3 7/8 x 3 7/8 of water, expected 4 of it {why}",
        f"3:19: found 4 of 3 1/2 of water, expected 3 7/8 x 3 7/8 {why}",
    ]


def test_a_size_may_be_stated_without_a_count_and_either_way_round() -> None:
    long = SMALL.replace("reed 3 x 3", "reed 2 x 3")
    assert differences("    cut: {reed: [3 1/2 x 2 1/2, 3 7/8]}\n", long) == []


def test_squares_that_become_triangles_are_counted_as_squares() -> None:
    """Four side triangles come from one square cut twice, four corner triangles from two cut once."""
    point = SMALL.replace(
        "set: straight, blocks: [[ripple]]", "set: on-point, blocks: [[square]], triangles: {fabric: water}"
    ).replace("setting:", "  square: {column: [{use: ripple}, {use: ripple, turn: 180}]}\nsetting:")
    point = point.replace("2 x 4", "2 x 2")
    told = differences("    cut: {water: [1 of 10 1/4, 99 of 5 5/8, 10 of 3 7/8]}\n", point)
    assert [line.split("expected ")[1] for line in told] == [
        "2 of 5 5/8 x 5 5/8 (A3: in all 4 triangles)",
        "5 of 3 7/8 x 3 7/8 (A1: 1 in each of 5 square, in all 5)",
    ]


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ("    buy: {watr: 1 yd}\n", "0:11: found unknown fabric 'watr', expected water, reed or backing"),
        ("    buy: {water: 1}\n", "0:18: found '1', expected a purchase with its unit"),
        ("    buy: {water: 0 yd}\n", "0:18: found '0 yd', expected a purchase with its unit"),
        ("    cut: {water: [3 of]}\n", "0:19: found '3 of'"),
        ("    cut: {water: []}\n", "0:18: found an empty list, expected a list of cut sizes"),
        ("    block: 3\n", "0:5: found 'block', which the stated size does not have"),
        ("    blocks: some\n", "0:13: found 'some', expected all blocks of the quilt: a whole number"),
        ("    finished: 12\n", "0:15: found '12', expected width x height"),
        ("  rug: {blocks: 2}\n", "0:3: found unknown size 'rug', expected mat or runner"),
    ],
)
def test_a_table_that_cannot_be_read_is_told(table: str, told: str) -> None:
    assert any(line.startswith(told) for line in differences(table)), differences(table)


def test_the_command_lists_the_differences(tmp_path: object, capsys: pytest.CaptureFixture[str]) -> None:
    path = f"{tmp_path}/small-pond.yaml"
    with open(path, "w", encoding="utf-8") as file:
        file.write(f"{SMALL}stated:\n  mat: {{blocks: 7}}\n")
    assert main(["check", path]) == 1
    assert f"{path}:{FIRST - 1}:17: found 7 blocks, expected 8" in capsys.readouterr().err
