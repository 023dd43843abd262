"""Parts that do not fit are refused where they stand, all of them at once."""

from __future__ import annotations

import pytest

from patterns_for_tests import refusals_of
from seamleaf.reading import read_pattern
from seamleaf.sizing import check_pattern

HEAD = """\
title: A test
version: 1.0.0
fabrics:
  dark: {source: yardage}
  light: {source: yardage}
"""


def misfits(rest: str) -> list[tuple[int, int, str, str]]:
    """Return what sizing refuses in a pattern file: line and column after the head, found, expected."""
    reading = read_pattern((HEAD + rest).encode(), "test")
    assert reading.problems == ()
    assert reading.pattern is not None
    lines = HEAD.count("\n")
    return [(p.where.line - lines, p.where.column, p.found, p.expected) for p in check_pattern(reading.pattern)]


def test_the_part_that_differs_from_the_first_of_its_row_is_the_one_reported() -> None:
    assert misfits("""\
blocks:
  a:
    column:
      - row: [dark 2 x 3, light 2 x 3, dark 1 x 4, light 1 x 3]
      - row: [dark 3 x 1, light 2 x 1]
setting: {set: straight, blocks: [[a]]}
sizes: {one: {blocks: 2 x 2}}
""") == [
        (4, 40, "a part 4 high", "3 high, like the first part of this row"),
        (5, 9, "a part 5 wide", "6 wide, like the first part of this column"),
    ]


def test_a_stated_finished_size_is_held_against_the_parts() -> None:
    assert misfits("""\
blocks:
  a: {finished: 4 x 4, row: [dark 2 x 4, light 1 1/2 x 4]}
setting: {set: straight, blocks: [[a]]}
sizes: {one: {blocks: 2 x 2}}
""") == [(2, 3, "block 'a' said to be 4 x 4", "3 1/2 x 4, which its parts add up to")]


def test_cells_must_be_as_large_as_the_first_block_as_they_lie() -> None:
    assert misfits("""\
blocks:
  a: {row: [dark 2 x 3, light 2 x 3]}
  b: {row: [dark 2 x 4, light 1 x 4]}
setting:
  set: straight
  blocks:
    - [a, b@90, light]
    - [a, b, a@270]
sizes: {one: {blocks: 2 x 2}}
""") == [
        (8, 11, "block 'b' of 3 x 4", "4 x 3, like the first block"),
        (8, 14, "block 'a' of 3 x 4", "4 x 3, like the first block"),
    ]


def test_only_square_blocks_stand_on_point() -> None:
    (problem,) = refusals_of({"a": "dark 4 x 3"}, on_point="1/2")
    assert problem.found == "block 'a' of 4 x 3"
    assert problem.expected == "a square block: only those can be set on point"


def test_a_set_needs_a_block() -> None:
    (problem,) = refusals_of({"a": "dark 4 x 4"}, tile=[["light", "dark"]])
    assert problem.expected == "at least one block in 'blocks'"


@pytest.mark.parametrize(
    ("part", "found"),
    [
        ({"half-square": ["dark", "light"], "finished": "3 x 4"}, "a half-square of 3 x 4"),
        ({"geese": {"goose": "dark", "sky": "light"}, "finished": "3 x 2"}, "flying geese 3 x 2 that point up"),
        (
            {"geese": {"goose": "dark", "sky": "light"}, "finished": "4 x 2", "point": "left"},
            "flying geese 4 x 2 that point left",
        ),
    ],
)
def test_half_squares_are_square_and_geese_twice_as_wide_as_high(part: dict[str, object], found: str) -> None:
    (problem,) = refusals_of({"a": part})
    assert problem.found == found


def test_geese_that_lie_on_their_side_are_told_their_size_as_they_lie() -> None:
    geese = {"geese": {"goose": "dark", "sky": "light"}, "finished": "4 x 2", "point": "left"}
    assert [problem.hint for problem in refusals_of({"a": geese})] == ["for example 2 x 4"]


def test_a_block_of_the_wrong_size_is_reported_once_however_often_it_is_used() -> None:
    bad = {"row": ["dark 2 x 2", "light 2 x 3"]}
    problems = refusals_of({"bad": bad, "a": {"row": [{"use": "bad"}, {"use": "bad", "turn": "180"}]}}, tile=[["a"]])
    assert [problem.found for problem in problems] == ["a part 3 high"]
