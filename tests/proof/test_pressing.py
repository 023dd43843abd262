"""Match points: counts that quilters know, and a search of every pair of seams by shapely."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from patterns_for_tests import booklet_of, grid, half_square
from seamleaf.booklet import to_json
from seamleaf.lengths import Length
from seamleaf.proof import Finding
from seamleaf.proof.plane import Plane, Vector, add, turned
from seamleaf.proof.pressing import Laid, match_points, verdicts

Proof = Callable[[bytes], list[Finding]]
ROOT = math.sqrt(2)
STEP = 1 << 12
PLANE = Plane.of([Length(1000), Length(0, 1000)])


def spot(vector: Vector) -> tuple[float, float]:
    a, b, c, d = vector
    return (a + b * ROOT) / STEP, (c + d * ROOT) / STEP


@st.composite
def seams(draw: st.DrawFn) -> list[Laid]:
    """Draw seams in the eight directions between points of a small grid, none of them along another."""
    found: list[Laid] = []
    lines: list[shapely.LineString] = []
    for _ in range(draw(st.integers(2, 14))):
        start: Vector = (draw(st.integers(0, 6)) * STEP, 0, draw(st.integers(0, 6)) * STEP, 0)
        way = draw(st.integers(0, 7))
        length = draw(st.integers(1, 5)) * STEP
        step = (length, 0, 0, 0) if way % 2 == 0 else (0, length, 0, 0)  # a diagonal of whole squares
        end = add(start, turned(step, way))
        line = shapely.LineString([spot(start), spot(end)])
        if all(line.intersection(other).length < 1e-9 for other in lines):
            lines.append(line)
            toward = (way + draw(st.sampled_from([2, 6]))) % 8
            press = draw(st.sampled_from(["before", "before", "before", "open"]))
            found.append(Laid(start, end, way, press, (toward, toward)))
    return found


def by_hand(drawn: list[Laid]) -> dict[tuple[float, float], str]:
    """Find every match point by looking at each end and each seam, in floats."""
    found: dict[tuple[float, float], str] = {}
    lines = [(spot(seam.start), spot(seam.end)) for seam in drawn]
    for (ax, ay), (bx, by) in lines:
        ex, ey = bx - ax, by - ay
        for at in {end for line in lines for end in line}:
            px, py = at[0] - ax, at[1] - ay
            along = px * ex + py * ey
            if abs(px * ey - py * ex) > 1e-6 or not 1e-6 < along < ex * ex + ey * ey - 1e-6:
                continue
            last: dict[bool, tuple[str, float]] = {}
            for seam, ends in zip(drawn, lines, strict=True):
                for end, other in (ends, ends[::-1]):
                    side = ex * (other[1] - ay) - ey * (other[0] - ax)
                    if math.dist(end, at) < 1e-6 and abs(side) > 1e-6:
                        lean = math.cos(math.radians(45 * seam.toward[0])) * ex
                        lean += math.sin(math.radians(45 * seam.toward[0])) * ey
                        last[side > 0] = (seam.press, lean)
            if len(last) == 2:
                (one, lean), (other_press, other_lean) = last.values()
                opposite = "nested" if lean * other_lean < 0 else "clash"
                found[at] = "open" if "open" in (one, other_press) else opposite
    return found


@given(drawn=seams())
def test_match_points_are_those_of_a_search_of_all_pairs(drawn: list[Laid]) -> None:
    """Where lines cross inside each other, which no quilt has, either may be taken: those points are left out."""
    real = {spot(point): verdict for point, verdict in verdicts(PLANE, drawn).items()}
    wanted = by_hand(drawn)
    lines = [shapely.LineString([spot(seam.start), spot(seam.end)]) for seam in drawn]

    def is_clear(at: tuple[float, float]) -> bool:
        inside = [line for line in lines if line.distance(shapely.Point(at)) < 1e-6 and not _is_end(line, at)]
        return len(inside) == 1

    assert {at for at in real if is_clear(at)} == {at for at in wanted if is_clear(at)}
    for at, verdict in real.items():
        if is_clear(at):
            assert verdict == wanted[at]


def _is_end(line: shapely.LineString, at: tuple[float, float]) -> bool:
    return min(math.dist(end, at) for end in line.coords) < 1e-6


def test_of_seams_that_end_together_the_one_sewn_last_governs() -> None:
    """The core reads the format so too: the maker butts the allowance on top."""
    across = Laid((0, 0, 0, 0), (8 * STEP, 0, 0, 0), 0, "after", (2, 2))
    up, slope, down = (
        Laid((4 * STEP, 0, 0, 0), (4 * STEP, 0, -4 * STEP, 0), 6, "before", (4, 4)),
        Laid((4 * STEP, 0, 0, 0), (8 * STEP, 0, -4 * STEP, 0), 7, "before", (1, 1)),
        Laid((4 * STEP, 0, 0, 0), (4 * STEP, 0, 4 * STEP, 0), 2, "before", (4, 4)),
    )
    middle = (4 * STEP, 0, 0, 0)
    assert verdicts(PLANE, [up, slope, down, across]) == {middle: "nested"}
    assert verdicts(PLANE, [slope, up, down, across]) == {middle: "clash"}
    assert match_points(PLANE, [up, slope, across]) == {}


@pytest.mark.parametrize("turns", ["free", "fixed"])
def test_a_nine_patch_has_four_match_points_and_two_on_every_shared_edge(findings_of: Proof, turns: str) -> None:
    """Nine patch: 4 inside, 2 on each shared edge (common practice, no source); 3 x 3 blocks share 12 edges."""
    nine = grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")
    planned = booklet_of({"nine": nine}, size="3 x 3", turns=turns)
    assert findings_of(to_json(planned).encode()) == []
    inside = {name: nest.match_points for name, nest in planned.pressing.inside.items()}
    assert {inside[place.unit] for place in planned.places} == {4}
    corners = 2 * 2
    assert planned.pressing.match_points == 9 * 4 + 12 * 2 + corners


def test_rails_turned_in_turn_meet_nowhere_but_at_corners(findings_of: Proof) -> None:
    """Rail fence, every second block turned: no seam meets a seam (common practice, no source)."""
    rails: Any = {"column": ["dark 6 x 2", "light 6 x 2", "red 6 x 2"]}
    planned = booklet_of({"rails": rails}, tile=[["rails", "rails@90"], ["rails@90", "rails"]], size="3 x 3")
    assert findings_of(to_json(planned).encode()) == []
    assert planned.pressing.match_points == 2 * 2


def test_identical_pinwheels_nest_all_round_when_their_last_seam_is_spun(findings_of: Proof) -> None:
    """With the last seam spun identical neighbours nest on all four edges (P10.6: tqanews.blogspot.com 2012/06)."""
    wheel = {
        "column": [
            {"row": [half_square("dark", "light", "3"), half_square("dark", "light", "3", 90)]},
            {"row": [half_square("dark", "light", "3", 270), half_square("dark", "light", "3", 180)]},
        ]
    }
    planned = booklet_of({"wheel": wheel}, turns="fixed", size="3 x 3")
    assert findings_of(to_json(planned).encode()) == []
    assert planned.pressing.spun == 9
    assert planned.pressing.clash == 0
