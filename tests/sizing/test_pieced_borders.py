"""Pieced borders: how many units go round, what fills up the rest, and how the strips are sewn and pressed."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns_for_tests import PRINTS, YARDAGE, booklet_of, booklets_of, geese, inches, refusals_of
from proved import findings_in
from quilt_for_tests import moved, patches_of, placing, units_by_id
from seamleaf.booklet import Booklet, to_json
from seamleaf.lengths import Length
from seamleaf.sizing.pieced import fit_units

NINE: dict[str, Any] = {
    "nine": {"grid": ["DLD", "LDL", "DLD"], "key": {"D": "dark 2 x 2", "L": "light 2 x 2"}},
    "flight": geese("dark", "light", "2 x 4", "right"),
    "keys": {"row": ["dark 1 x 3", "red 1 x 3"]},
}
HALF = Length(1) / 2


def pieced(block: str = "flight", corner: str = "butted", **more: Any) -> list[dict[str, Any]]:
    stones = {"cornerstone": "red"} if corner == "cornerstone" else {}
    return [{"fabric": "light", "pieced": block, "corner": corner} | stones | more]


def strip_of(booklet: Booklet, edge: str, border: int = 0) -> tuple[int, Length]:
    """Return how many units the strip of an edge takes, and how long each of its spacers is, as cut."""
    units, patches = units_by_id(booklet), {patch.label: patch for patch in booklet.patches}
    (name,) = [strip.unit for strip in booklet.borders[border].strips if strip.edge == edge]
    takes = units[name or ""].from_
    spacers = {patches[take.label].w for take in takes if take.label is not None}
    assert len(spacers) < 2
    return sum(take.unit is not None for take in takes), next(iter(spacers), Length(0))


# ---------------------------------------------------------------------------------------------- counts


@given(st.fractions(1, 120, max_denominator=16), st.fractions(1, 12, max_denominator=8))
def test_units_and_spacers_are_as_long_as_the_edge(edge: Any, unit: Any) -> None:
    """K u + 2 e = edge with e = 0 or at least 1/2 in, and no further unit has room (derived)."""
    fit = fit_units(Length(edge), Length(unit), HALF)
    if fit is None:
        assert edge < unit * 1 + 1
        return
    assert Length(unit) * fit.units + fit.spacer * 2 == edge
    assert not fit.spacer or fit.spacer >= HALF
    more = (Length(edge) - Length(unit) * (fit.units + 1)) / 2
    assert more < HALF
    assert more != 0


def test_units_that_divide_the_edges_take_no_spacer() -> None:
    """70 x 86 in with a border 6 in wide is 82 x 98 (published in a school slide set on figuring yardage).

    The units are derived: 35 and 43 of 2 in with cornerstones; butted, 43 at the sides and 41 over their ends.
    """
    block = {"plain": {"row": ["dark 35 x 43", "light 35 x 43"]}, "unit": {"row": ["dark 1 x 6", "light 1 x 6"]}}
    for corner, ends in (("butted", 41), ("cornerstone", 35)):
        booklet = booklet_of(block, size="1 x 2", borders=pieced("unit", corner))
        assert (booklet.finished.w, booklet.finished.h) == (82, 98)
        assert strip_of(booklet, "left") == strip_of(booklet, "right") == (43, 0)
        assert strip_of(booklet, "top") == strip_of(booklet, "bottom") == (ends, 0)


def test_what_the_units_leave_is_filled_by_two_spacers_alike() -> None:
    """An edge of 18 in takes 4 units of 4 in and 1 in at each end, cut 1 1/2; one of 24 takes 6."""
    block = {**NINE, "long": {"row": ["dark 2 x 3", "red 2 x 3"]}}
    booklet = booklet_of(block, size="3 x 4", borders=pieced("long", "cornerstone"))
    assert strip_of(booklet, "left") == (6, 0)
    assert strip_of(booklet, "top") == (4, inches("1 1/2"))


def test_a_spacer_that_would_be_a_sliver_takes_the_place_of_a_unit() -> None:
    """18 1/2 = 4 x 4 1/2 + 2 x 1/4: three units then, and spacers of 2 1/2 in (at least 1/2 in: our own rule)."""
    fit = fit_units(inches("18 1/2"), inches("4 1/2"), HALF)
    assert fit is not None
    assert (fit.units, fit.spacer) == (3, inches("2 1/2"))


def test_corner_squares_are_as_wide_as_the_border() -> None:
    """A 4 in border takes corner blocks cut 4 1/2 in (allpeoplequilt.com, border-and-corner-blocks)."""
    booklet = booklet_of(NINE, size="2 x 2", borders=pieced("flight", "cornerstone"))
    (stone,) = [patch for patch in booklet.patches if patch.label == booklet.borders[0].corners]
    assert (stone.w, stone.h, stone.count) == (inches("4 1/2"), inches("4 1/2"), 4)


# ------------------------------------------------------------------------------------------- medallions


@pytest.mark.parametrize(
    ("middle", "corner", "frame", "units"),
    [
        # A block of 9 in takes a frame of 1 1/2 for a round of 6 in: (9 + 3) / 6 = 2, and over the corners 4 (derived).
        ("9", "butted", "1 1/2", (2, 4)),
        ("9", "cornerstone", "1 1/2", (2, 2)),
        ("10", "butted", "1", (2, 4)),
        ("12", "cornerstone", "3", (3, 3)),
        ("11 1/2", "butted", "3 1/4", (3, 5)),
    ],
)
def test_a_frame_takes_the_least_width_that_suits_the_round(
    middle: str, corner: str, frame: str, units: tuple[int, int]
) -> None:
    """W + 2f is a multiple of the round's block: I11 of frames and rounds (derived)."""
    blocks = {**NINE, "middle": {"row": [f"dark 1 x {middle}", f"red {middle_less_one(middle)} x {middle}"]}}
    round_ = pieced("nine", corner)
    booklet = booklet_of(
        blocks, tile=[["middle"]], size="1 x 1", borders=[{"fabric": "red", "width": "1 to 4 by 1/4"}, *round_]
    )
    assert booklet.borders[0].width == inches(frame)
    assert (strip_of(booklet, "left", 1), strip_of(booklet, "top", 1)) == ((units[0], 0), (units[1], 0))
    assert findings_in(to_json(booklet).encode()) == []


def middle_less_one(side: str) -> str:
    return (inches(side) - 1).exact_text()


def test_where_no_width_suits_the_round_the_frame_takes_the_least_and_spacers_fill_up() -> None:
    frame = {"fabric": "red", "width": "1 to 2 by 1/2"}
    booklet = booklet_of(NINE, size="2 x 1", borders=[frame, *pieced("nine", "cornerstone")])
    assert booklet.borders[0].width == 1
    assert strip_of(booklet, "left", 1) == (1, inches("1 1/2"))
    assert strip_of(booklet, "top", 1) == (2, inches("1 1/2"))


# ----------------------------------------------------------------------------------------- as it is sewn

SETS: dict[str, dict[str, Any]] = {
    "straight": {"size": "3 x 4"},
    "on point": {"on_point": "1/2", "size": "2 x 3"},
    "sashed": {"size": "2 x 3", "sashing": {"fabric": "red", "width": "1", "cornerstone": "dark"}},
    "strippy": {"size": "2 x 3", "set": "strippy", "sashing": {"fabric": "red", "width": "2"}},
}
ROUNDS: dict[str, list[dict[str, Any]]] = {
    "flight": pieced("flight"),
    "stones": pieced("flight", "cornerstone"),
    "keys": pieced("keys"),
    "turning": pieced("nine", "cornerstone"),
    "two": [*pieced("keys", "cornerstone"), *pieced("flight", "cornerstone")],
    "between": [{"fabric": "red", "width": "1 1/2"}, *pieced("flight"), {"fabric": "red", "width": "2"}],
}


@pytest.fixture(scope="module", params=[(name, edge) for name in SETS for edge in ROUNDS], ids="-".join)
def booklet(request: pytest.FixtureRequest) -> Booklet:
    """Return a quilt of any set with any of these borders."""
    name, edge = request.param
    return booklet_of(NINE, borders=ROUNDS[edge], **SETS[name])


def test_the_proof_sews_it_again(booklet: Booklet) -> None:
    assert findings_in(to_json(booklet).encode()) == []


def test_strips_lie_round_the_quilt_without_gap_or_overlap(booklet: Booklet) -> None:
    """By shapely, each strip turned as the booklet says: its patches fill the edge between its corners."""
    units = units_by_id(booklet)
    w, h = booklet.set.centre.w.to_float(), booklet.set.centre.h.to_float()
    out = 0.0
    for border in booklet.borders:
        b = border.width.to_float()
        away = out + b / 2
        centres = {
            "left": (-away, h / 2),
            "right": (w + away, h / 2),
            "top": (w / 2, -away),
            "bottom": (w / 2, h + away),
        }
        past = 0.0 if border.corner == "cornerstone" else b
        for strip in border.strips:
            if strip.unit is not None:
                unit = units[strip.unit]
                place = placing(unit.finished, *centres[strip.edge], strip.turn, mirror=False)
                laid = [patch.polygon for patch in moved(patches_of(unit, units), place)]
                left, top = min(p.bounds[0] for p in laid), min(p.bounds[1] for p in laid)
                right, bottom = max(p.bounds[2] for p in laid), max(p.bounds[3] for p in laid)
                long, wide = h + 2 * out, w + 2 * out + 2 * past
                box = (b, long) if strip.edge in ("left", "right") else (wide, b)
                assert (right - left, bottom - top) == pytest.approx(box)
                assert sum(p.area for p in laid) == pytest.approx(box[0] * box[1])
        out += b


def test_units_point_round_the_quilt(booklet: Booklet) -> None:
    turns = {"top": 0, "right": 90, "bottom": 180, "left": 270}
    strips = [strip for border in booklet.borders for strip in border.strips]
    assert all(strip.turn == (turns[strip.edge] if strip.unit else 0) for strip in strips)


def test_seams_of_a_strip_meet_those_of_the_quilt_only_where_they_must() -> None:
    """Units as long as a patch of the block: at every seam that ends on the border there is a match point (derived).

    3 x 4 nine patches with pieces of 2 in: 8 inner ends at top and bottom, 11 at the sides, and the four corners'.
    """
    plain, round_it = (
        booklet_of(NINE, size="3 x 4", turns="fixed", **more)
        for more in ({}, {"borders": pieced("flight", "cornerstone")})
    )
    more = round_it.pressing.match_points - plain.pressing.match_points
    assert more == 2 * 8 + 2 * 11 + 4
    assert round_it.pressing.clash == plain.pressing.clash


def test_a_spacer_keeps_its_label_in_every_size_and_what_follows_keeps_its_own() -> None:
    booklets = booklets_of(
        {**NINE, "long": {"row": ["dark 2 x 3", "red 2 x 3"]}},
        borders=[*pieced("long", "cornerstone"), {"fabric": "light", "width": "2"}],
        sizes={"even": {"blocks": "2 x 4"}, "odd": {"blocks": "3 x 3"}},
    )
    even, odd = booklets["even"], booklets["odd"]
    assert strip_of(even, "top") == (3, 0)
    assert strip_of(odd, "top")[1] == inches("1 1/2")
    assert even.borders[1].label == odd.borders[1].label
    spacers = {patch.label for patch in odd.patches if patch.use == "border" and patch.shape == "rectangle"}
    assert len(spacers - {odd.borders[0].corners}) == 2
    assert not spacers & {patch.label for patch in even.patches if patch.use == "block"}


def test_a_pattern_of_one_size_keeps_no_label_for_a_spacer_that_it_has_not() -> None:
    """A number left out of A1, A2 ... would look like a patch forgotten."""
    block = {**NINE, "long": {"row": ["dark 2 x 3", "red 2 x 3"]}}
    borders = [*pieced("long", "cornerstone"), {"fabric": "light", "width": "2"}]
    booklet = booklet_of(block, size="2 x 4", borders=borders)
    assert strip_of(booklet, "left")[1] == strip_of(booklet, "top")[1] == 0
    labels = [patch.label for patch in booklet.patches]
    for letter in {label[0] for label in labels}:
        numbers = sorted(int(label[1:]) for label in labels if label[0] == letter)
        assert numbers == list(range(1, len(numbers) + 1))


def test_on_point_spacers_are_cut_up_to_the_ruler_and_the_strip_is_trimmed() -> None:
    """12 sqrt 2 = 16.97: 3 units of 4 in and 2.485 in at each end, cut 3 in; 2 x (3 - 2.985) too long."""
    block = {**NINE, "long": {"row": ["dark 2 x 3", "red 2 x 3"]}}
    booklet = booklet_of(block, on_point="1/2", size="2 x 2", borders=pieced("long", "cornerstone"))
    assert strip_of(booklet, "top") == (3, 3)
    unit = units_by_id(booklet)["border1.ends"]
    assert unit.trim is not None
    assert (unit.made.w, unit.trim.w) == (12 + 5 + HALF, Length(12).times_root2() + HALF)


# -------------------------------------------------------------------------------------------- refusals


@pytest.mark.parametrize(
    ("blocks", "sections", "found"),
    [
        ({}, {"borders": pieced("bits")}, "from squares 10"),
        ({}, {"borders": pieced("plain")}, "one patch"),
        ({}, {"borders": pieced("wide")}, "an edge of 12 in size 'one'"),
        (
            {},
            {"borders": pieced(), "sizes": {"one": {"blocks": "2 x 2", "borders": [3]}}},
            "another width for border 1",
        ),
    ],
)
def test_what_cannot_go_round_is_refused(blocks: dict[str, Any], sections: dict[str, Any], found: str) -> None:
    more = {"bits": {"row": ["prints 1 x 3", "dark 1 x 3"]}, "plain": "dark 2 x 3", "wide": {"row": ["dark 7 x 3"] * 2}}
    fabrics = {**YARDAGE, "prints": PRINTS}
    problems = refusals_of({**NINE, **more, **blocks}, **({"fabrics": fabrics, "size": "2 x 2"} | sections))
    assert [found in problem.found for problem in problems] == [True]
