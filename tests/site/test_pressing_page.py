"""The page that explains pressing: each number of its tables is worked out again, from published seams alone.

Pressing "to the dark side" means here: every seam of a unit goes toward its darker side, all blocks are alike, none is
turned, none of their seams is spun or open, and rows go in turn one way and the other. A side is as dark as the patches
that touch the seam, each with its share of the seam's length; of two equally dark sides it is the one at the right or
below. Fabrics are compared as planning/pressing/wishes.py compares them.
"""

from __future__ import annotations

import functools
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from blocks_for_tests import TWELVE, quilt_text
from quilt_for_tests import XY, patches_of, units_by_id
from seamleaf.booklet import Booklet, plan_booklets
from seamleaf.booklet.record import Press, Seam, Unit
from seamleaf.site.work.pipeline import read_checked
from seams_for_tests import NEAR, Top, after_in, cross, dot, minus, seams_of_top

PAGE = (Path(__file__).parents[2] / "patterns" / "pressing.md").read_text(encoding="utf-8")
FACTS = re.findall(r"<!-- facts of the tool: (.*?) -->\n(.*?)<!-- end of the facts -->", PAGE, flags=re.DOTALL)
ACROSS, DOWN = 4, 5


@functools.cache
def booklet_of(name: str, *, on_point: bool) -> Booklet:
    """Plan a quilt of one of the twelve blocks."""
    text = quilt_text(name, on_point=on_point, across=ACROSS, down=DOWN)
    return plan_booklets(read_checked(text.encode(), "twelve"), thorough=False)["one"]


def luminance(booklet: Booklet, fabric: str) -> int:
    """Weigh the coded red, green and blue of a fabric as WCAG 2.2 weighs them for relative luminance."""
    (colour,) = next(each.colours for each in booklet.fabrics if each.id == fabric)
    return sum(weight * int(colour[at : at + 2], 16) for weight, at in ((2126, 1), (7152, 3), (722, 5)))


def darker(seam: Seam, unit: Unit, booklet: Booklet) -> Press:
    """Return how a seam of a unit is pressed toward its darker side."""
    units = units_by_id(booklet)
    a, b = ((x.to_float(), y.to_float()) for x, y in seam.line)
    along, after = minus(b, a), after_in(seam, unit, units)
    length = dot(along, along)
    ahead = cross(along, after) > 0
    light: Counter[bool] = Counter()
    for patch in patches_of(unit, units):
        corners: list[XY] = [(x, y) for x, y in patch.polygon.exterior.coords]
        middle = patch.polygon.centroid
        for p, q in pairwise(corners):
            if abs(cross(along, minus(p, a))) < NEAR * length and abs(cross(along, minus(q, a))) < NEAR * length:
                ends = sorted(dot(minus(end, a), along) / length for end in (p, q))
                share = min(ends[1], 1.0) - max(ends[0], 0.0)
                if share > NEAR:
                    side = (cross(along, minus((middle.x, middle.y), a)) > 0) == ahead
                    light[side] += round(share * 10**6) * luminance(booklet, patch.fabric)
    return "before" if light[False] < light[True] else "after"


def to_the_dark_side(booklet: Booklet) -> Booklet:
    """Return the same quilt with every seam pressed to the dark side."""
    units = units_by_id(booklet)
    seams = []
    for seam in booklet.seams:
        press = seam.press
        if seam.of in units:
            press = darker(seam, units[seam.of], booklet)
        elif seam.of == "row":
            number = int(seam.id.removeprefix("row").split(".")[0])
            press = "after" if number % 2 else "before"
        seams.append(replace(seam, press=press))
    places = tuple(
        replace(place, unit=place.unit.removesuffix(".B"), turn=(place.turn - place.pressing_turn) % 360)
        for place in booklet.places
    )
    return replace(booklet, seams=tuple(seams), places=places)


@functools.cache
def counted(name: str, *, on_point: bool, dark: bool) -> Counter[str]:
    """Count the match points of a quilt by how they come out."""
    booklet = booklet_of(name, on_point=on_point)
    return Counter(Top(seams_of_top(to_the_dark_side(booklet) if dark else booklet)).outcomes().values())


def how(booklet: Booklet) -> str:
    """Say what the plan asks of a maker beyond arrows."""
    pressing = booklet.pressing
    if pressing.turned:
        return "turned"
    if any(unit.variant == "B" for unit in booklet.units):
        return "A and B"
    if pressing.spun:
        return "spun"
    return "pins" if pressing.clash else "as it is"


def told(nested: int, points: int) -> str:
    """Write a share as the page does: whole percent, rounded down, and the counts."""
    return f"{int(Fraction(100 * nested, points))} % ({nested} of {points})"


def row(name: str, *, on_point: bool) -> str:
    """Return the line of one block in the page's table."""
    booklet = booklet_of(name, on_point=on_point)
    ours, dark = (counted(name, on_point=on_point, dark=way) for way in (False, True))
    points = booklet.pressing.match_points
    assert sum(ours.values()) == sum(dark.values()) == points
    assert ours["nested"] == booklet.pressing.nested
    fitting = ours["nested"] + ours["spun"]
    return f"| {name} | {told(dark['nested'], points)} | {told(fitting, points)} | {how(booklet)} |"


@pytest.mark.parametrize("name", TWELVE)
@pytest.mark.parametrize(("place", "on_point"), [(0, False), (1, True)], ids=["straight", "on point"])
def test_the_table_says_what_the_tool_does(name: str, place: int, on_point: bool) -> None:
    assert row(name, on_point=on_point) in FACTS[place][1].splitlines()


def test_the_tables_hold_the_twelve_blocks_and_nothing_else() -> None:
    """Both are marked as facts of the tool, since no booklet holds their numbers."""
    assert [title for title, _ in FACTS] == [
        f"twelve blocks in a straight set of {ACROSS} by {DOWN}",
        f"twelve blocks in an on-point set of {ACROSS} by {DOWN}",
    ]
    for _, table in FACTS:
        names = [line.split("|")[1].strip() for line in table.splitlines() if line.startswith("| ")]
        assert names == ["Block", *TWELVE]


def test_the_page_types_no_number_outside_its_tables_but_that_of_their_quilts() -> None:
    text = re.sub(r"<!-- facts of the tool.*?<!-- end of the facts -->", "", PAGE, flags=re.DOTALL)
    text = re.sub(r'\bsrc="[^"]*"|^\d\. ', "", text, flags=re.MULTILINE)  # addresses, and the marks of a list
    assert re.findall(r".*\d.*", text) == [line for line in text.splitlines() if f"{ACROSS} × {DOWN} blocks" in line]


def test_no_quilt_nests_less_than_one_that_is_pressed_to_the_dark_side() -> None:
    for name in TWELVE:
        for on_point in (False, True):
            booklet = booklet_of(name, on_point=on_point)
            fitting = booklet.pressing.nested + booklet.pressing.spun
            assert fitting >= counted(name, on_point=on_point, dark=True)["nested"]
