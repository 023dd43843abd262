"""A strip of leftovers in the back: when it helps, how wide it must be, and that no rest is promised twice."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns_for_tests import booklet_of
from seamleaf.lengths import INCHES, Length, parse_length
from seamleaf.planning.finishing import plan_backing
from seamleaf.planning.inserts import BackWithInsert, Leftover, plan_insert

QUARTER = Length(Fraction(1, 4))


def length(text: str) -> Length:
    return parse_length(text, "in")


def squares(side: str, count: int) -> Leftover:
    return Leftover(fabric="star", w=length(side), h=length(side), count=count, spare=True)


def plan(w: str, h: str, usable: str, *leftovers: Leftover) -> BackWithInsert | None:
    wide, high, width = length(w), length(h), length(usable)
    return plan_insert(wide, high, width, plan_backing(wide, high, width, INCHES), leftovers, QUARTER, INCHES)


def test_the_strip_makes_up_for_what_one_panel_lacks_and_for_its_two_seams() -> None:
    """S >= Wb - U + 2 for seams that take half an inch on each side (derived: U + S - 4 x 1/2 >= Wb)."""
    found = plan("46", "60", "40", squares("9 3/4", 20))
    assert found is not None
    assert found.back.panels == 1
    assert found.insert.width == length("8")
    assert found.insert.parts == (length("13"), length("27")), "a single panel is cut at a third, never in the middle"


def test_the_fewest_squares_that_reach_along_the_panel_are_taken() -> None:
    """Seven squares of 9 3/4 sewn 1/4 in wide give 7 x 9 1/4 + 1/2 = 65 1/4; six give 56 (derived)."""
    found = plan("46", "60", "40", squares("9 3/4", 20))
    assert found is not None
    (piece,) = found.insert.pieces
    assert (piece.count, found.insert.length) == (7, length("65 1/4"))


def test_it_saves_what_the_plain_back_takes_more() -> None:
    """46 x 60 from 40 in wide fabric takes two panels either way, 92 in at least; one panel of 60 with a strip, 60."""
    found = plan("46", "60", "40", squares("9 3/4", 20))
    assert found is not None
    assert found.insert.saves == length("92") - length("60")


@pytest.mark.parametrize(
    ("w", "h", "leftovers"),
    [
        ("38", "60", [squares("9 3/4", 40)]),  # one panel covers it
        ("48 7/8", "66", [squares("9 3/4", 40)]),  # the strip would have to be 10 7/8 wide
        ("46", "60", [squares("9 3/4", 6)]),  # they reach 56 in
        ("46", "60", []),
    ],
)
def test_where_no_strip_helps_the_back_is_plain(w: str, h: str, leftovers: list[Leftover]) -> None:
    assert plan(w, h, "40", *leftovers) is None


def test_a_piece_that_is_all_seam_is_left_out() -> None:
    """A seam may be an inch wide, and two of them then take all of a piece of 2 in."""
    wide, high, width = length("46"), length("60"), length("40")
    plain = plan_backing(wide, high, width, INCHES)
    narrow = Leftover(fabric="star", w=length("9"), h=length("2"), count=90, spare=False)
    assert plan_insert(wide, high, width, plain, [narrow, squares("2", 90)], Length(1), INCHES) is None
    lying = Leftover(fabric="star", w=length("40"), h=length("2"), count=2, spare=False)
    assert plan_insert(length("40"), high, length("39"), plain, [lying], Length(1), INCHES) is None


sides = st.integers(80, 960).map(lambda eighths: Length(Fraction(eighths, 8)))


@st.composite
def leftover(draw: st.DrawFn) -> Leftover:
    one, other = (Length(Fraction(draw(st.integers(4, 160)), 8)) for _ in range(2))
    fabric, count, spare = draw(st.sampled_from("abc")), draw(st.integers(1, 9)), draw(st.booleans())
    return Leftover(fabric=fabric, w=max(one, other), h=min(one, other), count=count, spare=spare)


def test_a_strip_in_a_back_whose_print_has_an_up_runs_from_top_to_bottom() -> None:
    wide, high, width = length("60"), length("46"), length("40")
    lying = plan("60", "46", "40", squares("9 3/4", 20))
    assert lying is not None
    assert lying.back.seam == "horizontal"
    plain = plan_backing(wide, high, width, INCHES, directional=True)
    rests = [squares("22", 20)]
    upright = plan_insert(wide, high, width, plain, rests, QUARTER, INCHES, directional=True)
    assert upright is not None
    assert (upright.back.seam, upright.back.panels, upright.insert.width) == ("vertical", 1, length("22"))


@given(sides, sides, st.integers(20, 60).map(Length), st.lists(leftover(), max_size=6))
def test_panels_and_strip_cover_the_back_and_take_less_than_the_plain_one(
    w: Length, h: Length, usable: Length, leftovers: list[Leftover]
) -> None:
    """Counted piece by piece: every seam of the strip takes two allowances, every seam beside it or a panel an inch."""
    plain = plan_backing(w, h, usable, INCHES)
    found = plan_insert(w, h, usable, plain, leftovers, QUARTER, INCHES)
    if found is None:
        return
    back, insert = found.back, found.insert
    across, along = (w, h) if back.seam == "vertical" else (h, w)
    strips = [usable] * back.panels if not insert.parts else list(insert.parts)
    assert sum(strips, Length(0)) == usable * back.panels
    assert sum(strips, insert.width) - len(strips) >= across
    pieces = [piece.gives for piece in insert.pieces for _ in range(piece.count)]
    assert sum(pieces, Length(0)) - QUARTER * 2 * (len(pieces) - 1) == insert.length >= back.length >= along
    assert back.length * back.panels + insert.saves == plain.length * plain.panels
    assert insert.saves > 0
    there = Counter[tuple[str, Length, Length, bool]]()
    for each in leftovers:
        there[each.fabric, each.w, each.h, each.spare] += each.count
    for piece in insert.pieces:
        there[piece.fabric, piece.w, piece.h, piece.spare] -= piece.count
        assert insert.width <= (piece.h if piece.gives == piece.w else piece.w)
    assert min(there.values()) >= 0


def test_what_goes_into_the_back_is_no_offcut_any_more() -> None:
    """A rest that the strip takes is not promised for anything else, and the whole booklet still proves."""
    fabrics = {"long": {"source": "yardage", "usable": "60"}, "short": {"source": "yardage"}}
    block = {"row": ["long 9 x 9", "short 9 x 9"]}
    plain, pieced = (
        booklet_of({"a": block}, size="2 x 4", fabrics=fabrics, backing={"insert": insert})
        for insert in ("false", "true")
    )
    assert plain.backing.insert is None
    insert = pieced.backing.insert
    assert insert is not None
    rests = Counter({(each.fabric, each.w, each.h): each.count for each in plain.offcuts})
    kept = Counter({(each.fabric, each.w, each.h): each.count for each in pieced.offcuts if each.fabric != "backing"})
    taken = Counter({(each.fabric, each.w, each.h): each.count for each in insert.pieces if not each.spare})
    assert kept == Counter({key: count for key, count in rests.items() if key[0] != "backing"}) - taken
