"""What Seamleaf does not make, as a quilter reads it: by its name, with the line where the pattern asks for it."""

from __future__ import annotations

from typing import Any, Final

import pytest

from patterns_for_tests import PRINTS, YARDAGE, file_of, geese, grid, half_square
from seamleaf.booklet import plan_booklets
from seamleaf.reading import PatternError, Problem, read_pattern
from seamleaf.sizing import check_pattern

STRAIGHT: Final = "patches joined by straight seams from edge to edge"
BUNDLE: Final = {**YARDAGE, "star": PRINTS, "roll": {"source": "strips 2 1/2"}}


def said_of(block: Any) -> list[tuple[str, str]]:
    """Return the line of the file that each refusal is about, and its sentence without the place."""
    text = file_of({"block": block}, fabrics=BUNDLE)
    lines = text.decode().splitlines()
    return [
        (lines[problem.where.line - 1].strip(" ,[{"), problem.sentence("q").split(": ", 1)[1])
        for problem in _problems(text)
    ]


def _problems(text: bytes) -> list[Problem]:
    reading = read_pattern(text, "quilt")
    if reading.problems or reading.pattern is None:
        return list(reading.problems)
    problems = check_pattern(reading.pattern)
    if not problems:
        try:
            plan_booklets(reading.pattern)
        except PatternError as error:
            return error.problems
    return problems


@pytest.mark.parametrize(
    ("block", "line", "named"),
    [
        ({"row": [{"y-seam": ["dark", "light"]}]}, '"y-seam":', "an inset (Y) seam"),
        ({"row": [{"inset": "dark"}]}, '"inset": "dark"', "an inset (Y) seam"),
        ({"row": [{"quarter circle": ["dark", "light"]}]}, '"quarter circle":', "a curved seam"),
        ({"Appliqué": "dark"}, '"Appliqué": "dark"', "appliqué"),
        (
            {**half_square("dark", "light", "4"), "method": "paper piecing"},
            '"method": "paper piecing"',
            "foundation (paper) piecing",
        ),
    ],
)
def test_what_is_no_straight_seam_is_refused_by_its_name(block: Any, line: str, named: str) -> None:
    assert said_of(block) == [(line, f"found {named}, which Seamleaf cannot plan, expected {STRAIGHT}")]


def test_pieces_cut_by_templates_are_refused_by_their_name() -> None:
    (said,) = said_of({"row": [{"hexagon": "dark"}]})
    assert said == (
        '"hexagon": "dark"',
        (
            "found pieces cut by templates, which Seamleaf cannot plan, "
            "expected rectangles, squares and triangles of squares"
        ),
    )


@pytest.mark.parametrize("part", [half_square("dark", "light", "4"), geese("dark", "light", "4 x 2")])
def test_a_unit_that_would_be_sewn_too_small_to_trim_is_refused(part: Any) -> None:
    (problem,) = said_of({**part, "oversize": "-1/4"})
    assert problem == (
        '"oversize": "-1/4"',
        (
            "found an oversize below 0, '-1/4', with which the unit is too small to be trimmed, "
            "expected a length of 0 or more"
        ),
    )


def test_a_centre_that_does_not_fill_its_square_could_not_be_trimmed_and_is_refused() -> None:
    """The square inside is 1 / sqrt 2 of the square round it, which no ruler shows (D0: derived)."""
    four = grid(["DL", "LD"], D="dark 2 x 2", L="light 2 x 2")
    ((_, says),) = said_of({"diamond": {"centre": four, "corners": "light"}, "finished": "5 x 5"})
    assert says == (
        "found a centre of 4 x 4, expected about 3 1/2 x about 3 1/2, the side of a square in a square of 5"
    )


LARGE: Final = "for block 'block', expected patches that one piece of the bundle can give, 10 x 10"
MANY: Final = (
    "and others of its print for one block 'block', expected patches that a single piece of the bundle can give, "
    "10 x 10, or more prints in the block"
)


@pytest.mark.parametrize(
    ("block", "cut", "why"),
    [
        ("star 10 x 10", "10 1/2 x 10 1/2", LARGE),
        (half_square("star", "light", "9 1/2"), "10 3/8 x 10 3/8", LARGE),
        (grid(["SL", "LS"], S="star 5 x 5", L="light 5 x 5"), "5 1/2 x 5 1/2", MANY),
    ],
)
def test_pieces_that_no_square_of_a_bundle_gives_are_refused_with_their_block(block: Any, cut: str, why: str) -> None:
    """Two squares of 5 1/2 do not come out of one of 10, nor 10 3/8 for a half-square of 9 1/2."""
    assert said_of(block) == [('"star":', f"found fabric 'star' asked for patch D1, cut {cut}, {why}")]


def test_pieces_wider_than_the_strips_of_a_bundle_are_refused() -> None:
    ((_, says),) = said_of("roll 3 x 3")
    assert says == (
        "found fabric 'roll' asked for patch E1, cut 3 1/2 x 3 1/2, for block 'block', "
        "expected patches that one piece of the bundle can give, 40 x 2 1/2"
    )
