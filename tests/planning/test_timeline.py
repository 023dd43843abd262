"""Classes: how long things take, how the lessons fit the sessions, and what is bought for all kits."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns_for_tests import YARDAGE, booklet_of, half_square
from proved import findings_in
from seamleaf.booklet import Booklet, to_json
from seamleaf.booklet.classes import deal
from seamleaf.planning.programme import LONGEST, SHOW, Draft, _in_parts, sewing_counts
from seamleaf.planning.timeline import LONG_SESSION, LUNCH, PAUSE, STRETCH, _Session
from seamleaf.reading.pace_record import Paces

WHEEL = {
    "wheel": {
        "column": [
            {"row": [half_square("dark", "light", "3"), half_square("dark", "light", "3", 90)]},
            {"row": [half_square("dark", "light", "3", 270), half_square("dark", "light", "3", 180)]},
        ]
    }
}


def taught(*sessions: str, students: int = 12, blocks: Any = WHEEL, **sections: Any) -> Booklet:
    """Plan a small quilt with a class of these sessions."""
    classes = {"autumn": {"title": "Autumn", "size": "one", "students": str(students), "sessions": list(sessions)}}
    return booklet_of(blocks, classes=classes, **{"size": "6 x 6", **sections})


@pytest.mark.parametrize(
    "sessions",
    [["3 h"], ["6 h"], ["3 h", "3 h"], ["150 min"] * 4, ["1 h"], ["45 min"], ["20 min"], ["1 min"], ["5 h", "1 h"]],
)
def test_every_session_is_filled_to_the_minute_and_the_proof_agrees(sessions: list[str]) -> None:
    booklet = taught(*sessions)
    (note,) = booklet.classes
    for number, length in enumerate(note.sessions, 1):
        assert sum(lesson.minutes for lesson in note.lessons if lesson.session == number) == length
    assert findings_in(to_json(booklet).encode()) == []


def test_at_each_catch_up_even_the_most_careful_are_together_again() -> None:
    (note,) = taught("3 h", "3 h", on_point="1/2").classes
    clock = behind = 0
    for lesson in note.lessons:
        if lesson.what == "catch-up":
            assert lesson.minutes >= behind
            clock = behind = 0
        elif lesson.what in ("tidy", "home"):
            assert behind == 0
            clock = 0
        else:
            behind += lesson.most - lesson.minutes
            clock += lesson.minutes
            assert clock <= STRETCH
    assert max(lesson.minutes for lesson in note.lessons if lesson.what == "catch-up") >= PAUSE


def test_a_long_day_has_a_lunch_near_its_middle() -> None:
    (note,) = taught("6 h").classes
    (lunch,) = (lesson for lesson in note.lessons if lesson.what == "lunch")
    hours, minutes = lunch.at.split(":")
    assert lunch.minutes == LUNCH
    assert 120 <= int(hours) * 60 + int(minutes) <= 240
    assert LONG_SESSION <= 360
    (short,) = taught("4 h").classes
    assert [lesson for lesson in short.lessons if lesson.what == "lunch"] == []


def test_longer_sessions_never_hold_fewer_blocks() -> None:
    counts = [taught(f"{hours} h").classes[0].blocks for hours in range(1, 8)]
    assert counts == sorted(counts)
    assert counts[-1] > counts[0]


def test_no_more_blocks_are_taught_than_the_quilt_has() -> None:
    (note,) = taught("24 h", size="2 x 2").classes
    assert note.blocks == 4


def test_a_class_too_short_for_a_block_stops_where_its_time_does() -> None:
    (note,) = taught("1 h").classes
    assert note.blocks == 0
    assert note.lessons[0].what == "welcome"
    assert note.lessons[-1].what == "home"
    (least,) = taught("9 min").classes
    assert [(lesson.what, lesson.minutes) for lesson in least.lessons] == [("open", 9)]


def test_a_class_without_sessions_has_kits_alone() -> None:
    classes = {"autumn": {"size": "one", "students": "3"}}
    (note,) = booklet_of(WHEEL, classes=classes).classes
    assert (note.kits, note.lessons) == (5, ())


def test_lessons_follow_the_work_in_the_order_of_sewing() -> None:
    (note,) = taught(
        "6 h", on_point="1/2", borders=[{"fabric": "red", "width": "2"}], binding={"fabric": "red"}
    ).classes
    order = dict.fromkeys(lesson.what for lesson in note.lessons if lesson.what not in ("catch-up", "lunch"))
    assert list(order) == [
        "welcome", "seam", "cut", "unit", "block", "again", "layout", "triangle", "border", "binding", "home",
    ]  # fmt: skip


def test_the_time_of_a_lesson_is_its_work_at_the_designers_own_pace() -> None:
    """Four half-squares of a pinwheel: seams at 40 to 60 an hour, pressed at 80 to 120, one way of sewing shown."""
    (note,) = taught("6 h", pace={"seams": "40 to 60", "presses": "80 to 120"}).classes
    lesson = next(each for each in note.lessons if each.of == "U1")
    assert lesson.counts == {"seams": 4, "presses": 4, "show": 1}
    assert lesson.least == 4 + 2 + SHOW
    assert lesson.most == 6 + 3 + SHOW
    assert lesson.minutes == math.ceil((lesson.least + lesson.most) / 2)


def test_what_is_not_trimmed_takes_no_cuts() -> None:
    blocks = {"a": {"row": ["dark 3 x 3", "light 3 x 3"]}}
    unit = next(each for each in booklet_of(blocks).units if each.how == "join")
    assert unit.trim is None
    assert sewing_counts(unit, 4) == {"seams": len(unit.seams) * 4, "presses": len(unit.seams) * 4}


def test_a_trim_is_four_cuts_and_a_strip_set_is_sewn_by_the_batch() -> None:
    blocks = {"a": {"row": [half_square("dark", "light", "3", oversize="1/2"), "dark 3 x 3"]}}
    (note,) = taught("6 h", blocks=blocks).classes
    lesson = next(each for each in note.lessons if each.of == "U1")
    assert lesson.counts == {"seams": 1, "presses": 1, "cuts": 4, "show": 1}


# ------------------------------------------------------------------------------------------------ purchases

PACKED = {**YARDAGE, "star": {"source": "squares 10", "pack": "40", "colours": ["#d9593d", "#3f9a94", "#e8d174"]}}


@pytest.mark.parametrize(
    ("size", "pieces", "shared", "packs"), [("3 x 4", 12, 3, 5), ("4 x 5", 20, 2, 8), ("5 x 9", 45, None, 30)]
)
def test_packs_are_split_evenly_so_that_a_kit_holds_pieces_of_one_pack(
    size: str, pieces: int, shared: int | None, packs: int
) -> None:
    """15 kits from packs of 40: of 12 pieces each pack serves 3 kits, of 20 two; a kit of 45 takes two packs."""
    booklet = taught("3 h", blocks={"a": "star 9 x 9"}, fabrics=PACKED, size=size)
    star = next(fabric for fabric in booklet.fabrics if fabric.id == "star")
    (note,) = booklet.classes
    bought = next(each for each in note.fabrics if each.fabric == "star")
    assert star.need == pieces
    assert (bought.kits_a_pack, bought.buy.amount, bought.buy.unit) == (shared, Fraction(packs), "pack")


def test_fifteen_kits_share_three_packs_five_each_and_every_kit_gets_as_light_and_as_dark_pieces() -> None:
    """Packs of 40 serve six kits of 6 pieces; 15 kits take three, five kits each, and not six, six and three."""
    booklet = taught("3 h", blocks={"a": "star 9 x 9"}, fabrics=PACKED, size="2 x 3")
    (note,) = booklet.classes
    star = next(each for each in note.fabrics if each.fabric == "star")
    assert [(share.times, share.kits) for share in star.packs] == [(3, 5)]
    assert star.deal[0] == (1, 12, 15, 25, 28, 39)
    assert {sum(hand) for hand in star.deal} == {120}
    assert findings_in(to_json(booklet).encode()) == []


@given(st.integers(1, 60), st.integers(1, 60), st.data())
def test_a_deal_gives_each_kit_one_piece_of_each_band_of_lightness(pieces: int, kits: int, data: st.DataObject) -> None:
    pack = data.draw(st.integers(pieces * kits, pieces * kits + 50))
    hands = deal(pack, pieces, kits)
    dealt = [piece for hand in hands for piece in hand]
    assert len(set(dealt)) == pieces * kits
    assert set(dealt) <= set(range(1, pack + 1))
    bands = [[hand[band] for hand in hands] for band in range(pieces)]
    assert all(max(band) < min(later) for band, later in pairwise(bands))
    assert max(map(sum, hands)) - min(map(sum, hands)) < kits


def test_a_bag_holds_whole_squares_for_setting_triangles() -> None:
    """Six side triangles of a kit come from two squares, so 15 bags take 30 of them and not 23; corners take two each.

    Squares are given out whole, for edges on the bias stretch (common practice, no source).
    """
    on_point = {"set": "on-point", "blocks": [["wheel"]], "triangles": {"fabric": "dark"}}
    booklet = taught("3 h", size="2 x 3", setting=on_point)
    (note,) = booklet.classes
    shapes = {patch.label: patch.shape for patch in booklet.patches}
    counted = {shapes[each.label]: (each.bag, each.pieces) for each in note.pieces}
    assert counted["quartered"] == (2, 30)
    assert counted["halved"] == (2, 30)
    assert findings_in(to_json(booklet).encode()) == []


def test_the_shop_cuts_the_strips_of_all_kits_and_no_patches() -> None:
    booklet = taught("3 h")
    (note,) = booklet.classes
    for fabric in ("dark", "light"):
        strips = Counter({sheet.sheet.h: 0 for sheet in note.sheets if sheet.fabric == fabric})
        for sheet in note.sheets:
            if sheet.fabric == fabric:
                strips[sheet.sheet.h] += sheet.times
        assert strips == {cut.h: cut.times for cut in note.shop if cut.fabric == fabric}
    assert [cut.panel for cut in note.shop if cut.fabric == "backing"] == [True]


def test_a_lesson_longer_than_a_class_sits_still_is_taught_in_parts_that_share_its_work() -> None:
    """41 seams at 10 to 20 an hour take 246 minutes at most, so four parts; what is shown is shown once."""
    paces = Paces(cuts=(60, 120), seams=(10, 20), presses=(30, 60), pinned=(60, 120))
    counts = {"seams": 41, "presses": 7, "show": 1}
    parts = _in_parts("piece", "U1", counts, paces)
    assert len(parts) == 4
    assert sum((Counter(part.counts) for part in parts), Counter()) == Counter(counts)
    assert all(0 < part.most <= LONGEST for part in parts)


@pytest.mark.parametrize(("minutes", "lunch"), [(179, False), (180, False), (181, True)])
def test_lunch_comes_before_the_lesson_that_would_end_after_the_middle_of_the_day(minutes: int, lunch: bool) -> None:
    """Of six hours the middle is at 180 minutes, and a lesson that ends then is taught before lunch (derived)."""
    session = _Session(number=1, length=360, fed=False)
    session.take(Draft(what="piece", least=minutes, most=minutes))
    assert any(lesson.what == "lunch" for lesson in session.given) == lunch
