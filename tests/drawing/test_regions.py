"""Units laid flat: moves are exact, and the patches fill what they are sewn into."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawing.seen import NAMES, seen_booklet
from seamleaf.booklet.record import Box, Outline, Unit
from seamleaf.drawing.figure import Desk
from seamleaf.drawing.regions import motion_of
from seamleaf.lengths import ZERO, Length
from strategies import lengths

TURNS = st.sampled_from(range(0, 360, 45))
EVERY_BOOKLET = pytest.mark.parametrize("name", NAMES)


def area(outline: Outline) -> Length:
    """Return the exact area of a polygon."""
    edges = zip(outline, (*outline[1:], outline[0]), strict=True)
    twice = sum((x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in edges), ZERO)
    return abs(twice) / 2


@given(turn=TURNS, mirror=st.booleans(), x=lengths(), y=lengths(), w=lengths(), h=lengths())
def test_turning_on_to_a_full_circle_comes_back_exactly(
    turn: int, mirror: bool, x: Length, y: Length, w: Length, h: Length
) -> None:
    box = Box(w=w, h=h)
    there = motion_of(box, turn=turn, mirror=mirror)
    dx, dy = there.apply((x, y))
    unmirrored = motion_of(Box(w=ZERO, h=ZERO), turn=-turn, mirror=False).apply((dx, dy))
    across = -unmirrored[0] if mirror else unmirrored[0]
    assert (across + w / 2, unmirrored[1] + h / 2) == (x, y)


@given(turn=TURNS, mirror=st.booleans(), x=lengths(), y=lengths())
def test_the_centre_of_the_box_comes_to_its_place(turn: int, mirror: bool, x: Length, y: Length) -> None:
    motion = motion_of(Box(w=Length(6), h=Length(4)), turn=turn, mirror=mirror, x=x, y=y)
    assert motion.apply((Length(3), Length(2))) == (x, y)


def test_a_quarter_turn_is_clockwise_as_seen() -> None:
    """Y runs down: the top left corner of a square comes to its top right."""
    motion = motion_of(Box(w=Length(2), h=Length(2)), turn=90, mirror=False, x=Length(1), y=Length(1))
    assert motion.apply((ZERO, ZERO)) == (Length(2), ZERO)


def test_mirroring_comes_before_turning() -> None:
    """The top left corner goes to the top right, and then a quarter turn on to the lower right."""
    motion = motion_of(Box(w=Length(2), h=Length(2)), turn=90, mirror=True, x=Length(1), y=Length(1))
    assert motion.apply((ZERO, ZERO)) == (Length(2), Length(2))


def test_on_point_a_corner_lies_half_a_diagonal_from_the_centre() -> None:
    motion = motion_of(Box(w=Length(8), h=Length(8)), turn=45, mirror=False)
    assert motion.apply((ZERO, ZERO)) == (ZERO, Length(0, -4))


@EVERY_BOOKLET
def test_the_patches_of_a_unit_fill_it_exactly(name: str) -> None:
    desk = Desk(seen_booklet(name))
    for unit in desk.booklet.units:
        filled = sum((area(piece.outline) for piece in desk.pieces(unit.id)), ZERO)
        assert filled == area(unit.outline), unit.id


@EVERY_BOOKLET
def test_blocks_and_triangles_fill_the_centre_exactly(name: str) -> None:
    booklet = seen_booklet(name)
    units: dict[str, Unit] = {unit.id: unit for unit in booklet.units}
    filled = sum((area(units[place.unit].outline) for place in booklet.places), ZERO)
    assert filled == booklet.set.centre.w * booklet.set.centre.h


@EVERY_BOOKLET
def test_no_place_reaches_beyond_the_centre(name: str) -> None:
    booklet = seen_booklet(name)
    units = {unit.id: unit for unit in booklet.units}
    for place in booklet.places:
        unit = units[place.unit]
        motion = motion_of(unit.finished, turn=place.turn, mirror=place.mirror, x=place.x, y=place.y)
        for x, y in map(motion.apply, unit.outline):
            assert 0 <= x <= booklet.set.centre.w
            assert 0 <= y <= booklet.set.centre.h


@EVERY_BOOKLET
def test_a_block_shows_as_many_patches_of_a_label_as_its_units_take(name: str) -> None:
    """What a batch takes and makes, and what the regions show, come from different fields of the booklet."""
    desk = Desk(seen_booklet(name))
    for block in desk.booklet.units:
        if block.id not in block.per_block or block.how == "patch":
            continue  # only blocks that are set into the quilt say what one of them takes
        shown = len(desk.pieces(block.id))
        taken = 0
        for unit in desk.booklet.units:
            copies = unit.per_block.get(block.id, 0)
            cut_from = {
                "half-square": 2,
                "geese": 3,
                "quarter-square": 4,
                "three-triangle": 3,
                "half-rectangle": 2,
            }.get(unit.how)
            labels = sum(1 for take in unit.from_ if take.label is not None)
            taken += copies * (cut_from if cut_from is not None else labels)
        assert shown == taken
