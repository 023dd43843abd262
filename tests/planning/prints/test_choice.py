"""Which squares are cut, which are spare and which rejected, and why."""

from __future__ import annotations

from collections import Counter

import pytest

from seamleaf.planning.prints.choice import Kind, Square, choose, light_contrast, prints_of
from seamleaf.planning.prints.colour import Lab, difference, family_of, lab_of
from seamleaf.planning.prints.conventions import CONVENTIONS

GROUND: Lab = (20_00, 0, 0)


def _grey(lightness: int) -> Square:
    return Square(lab=(lightness * 100, 0, 0))


def test_exactly_those_under_the_threshold_are_rejected() -> None:
    """A bundle of greys of known lightness on a ground of L* 20: contrast below 15 is lost, below 25 is faint."""
    squares = [_grey(lightness) for lightness in (24, 34, 35, 41, 45, 60, 75, 90)]
    verdicts = choose(squares, [Kind(pieces=4, grounds=(GROUND,))]).verdicts
    assert [verdict.state for verdict in verdicts] == ["reject", "reject", "spare", "spare", *["used"] * 4]
    assert [verdict.reason for verdict in verdicts] == ["lost", "lost", "faint", "faint", *["clear"] * 4]
    assert [verdict.light for verdict in verdicts] == [400, 1400, 1500, 2100, 2500, 4000, 5500, 7000]


def test_hue_does_not_make_up_for_lightness() -> None:
    """Value outranks hue, says the trade: a bright red as dark as the ground is lost on it."""
    red = Square(lab=(22_00, 60_00, 40_00))
    assert difference(red.lab, GROUND) > CONVENTIONS.pair_difference
    verdicts = choose([red, _grey(80), _grey(90)], [Kind(pieces=2, grounds=(GROUND,))]).verdicts
    assert (verdicts[0].state, verdicts[0].reason) == ("reject", "lost")


def test_a_print_that_holds_dark_and_light_counts_by_its_nearer_edge() -> None:
    assert light_contrast(Square(lab=(60_00, 0, 0), spread=30_00), GROUND) == 25_00
    assert light_contrast(Square(lab=(25_00, 0, 0), spread=30_00), GROUND) == 0


def test_squares_that_pass_for_each_other_are_one_print() -> None:
    squares = [Square(lab=lab_of(colour)) for colour in ("#d9593d", "#3f9a94", "#d95a3d", "#da593e")]
    assert prints_of(squares) == [0, 1, 0, 0]
    verdicts = choose(squares, [Kind(pieces=2, grounds=(GROUND,))]).verdicts
    assert [(verdict.state, verdict.alike) for verdict in verdicts[2:]] == [("spare", 0), ("spare", 0)]
    assert verdicts[2].reason == "alike"


def test_too_few_squares_are_cut_again_as_evenly_as_can_be() -> None:
    squares = [Square(lab=(lightness * 100, 0, 0), squares=9) for lightness in (50, 70, 90)]
    pieces = choose(squares, [Kind(pieces=8, grounds=(GROUND,))]).pieces
    assert sorted(Counter(pieces).values()) == [2, 3, 3]


def test_a_lost_square_is_used_where_it_does_not_meet_the_ground() -> None:
    squares = [_grey(22), _grey(70), _grey(85)]
    choice = choose(squares, [Kind(pieces=2, grounds=(GROUND,)), Kind(pieces=1, grounds=())])
    assert choice.pieces == (1, 2, 0) or choice.pieces == (2, 1, 0)
    assert (choice.verdicts[0].state, choice.verdicts[0].reason) == ("used", "inside")


def test_a_lost_square_is_used_at_last_and_says_so() -> None:
    verdicts = choose([_grey(22), _grey(70)], [Kind(pieces=2, grounds=(GROUND,))]).verdicts
    assert (verdicts[0].state, verdicts[0].reason) == ("used", "needed")


@pytest.mark.parametrize("wanted", [6, 9, 12])
def test_no_family_takes_more_than_a_fifth_over_its_share(wanted: int) -> None:
    """Of two dozen reds and six of other hues, the reds do not crowd the others out, nor the others them."""
    reds = [f"#{200 + step:02x}{40 + 5 * step:02x}{60 + 4 * step:02x}" for step in range(12)]
    others = ["#f2d134", "#4f9f3c", "#2f9a94", "#5f8fef", "#9a6fd0", "#e0e0e0"]
    squares = [Square(lab=lab_of(colour)) for colour in reds + others]
    pieces = choose(squares, [Kind(pieces=wanted, grounds=((0, 0, 0),))]).pieces
    families = Counter(family_of(squares[piece].lab) for piece in pieces)
    shares = Counter(family_of(square.lab) for square in squares)
    assert all(families[family] <= -(-shares[family] * wanted * 120 // (100 * len(squares))) for family in families), (
        families,
        shares,
    )


def test_the_darkest_and_the_brightest_that_stand_out_are_kept() -> None:
    squares = [_grey(lightness) for lightness in (46, 60, 62, 64, 66, 68, 97)]
    pieces = choose(squares, [Kind(pieces=3, grounds=(GROUND,))]).pieces
    assert {0, 6} <= set(pieces)


def test_no_colour_is_cut_more_often_than_there_are_squares_of_it() -> None:
    """Two colours that pass for each other are one print: when the squares of one are cut, the other gives the rest."""
    one, other = Square(lab=(60_00, 0, 0), squares=1), Square(lab=(61_00, 0, 0), squares=3)
    assert Counter(choose([one, other], [Kind(pieces=4, grounds=(GROUND,))]).pieces) == {0: 1, 1: 3}


def test_a_square_goes_first_to_where_it_stands_out() -> None:
    """Faint on one ground and clear on the other, as a square that is clear on both could serve either."""
    dark, light = (20_00, 0, 0), (90_00, 0, 0)
    kinds = [Kind(pieces=1, grounds=(dark,)), Kind(pieces=1, grounds=(light,))]
    middle, bright = _grey(50), _grey(76)
    assert choose([bright, middle], kinds).pieces == (0, 1)
    assert choose([middle, bright], kinds).pieces == (1, 0)


def test_the_contrast_that_a_square_lacks_decides_between_two_that_stand_out() -> None:
    """Both are clear on both grounds; a little more contrast tells where each is cut."""
    dark, light = (20_00, 0, 0), (90_00, 0, 0)
    kinds = [Kind(pieces=1, grounds=(dark,)), Kind(pieces=1, grounds=(light,))]
    assert choose([_grey(52), _grey(58)], kinds).pieces == (1, 0)
    assert choose([_grey(58), _grey(52)], kinds).pieces == (0, 1)
