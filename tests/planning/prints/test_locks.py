"""Blocks whose prints the designer decides: they keep them, and what cannot be had is refused at its place."""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

import pytest

from patterns_for_tests import PRINTS, YARDAGE, booklet_of, grid, refusals_of
from prints_cases import case_of
from seamleaf.booklet import Booklet
from seamleaf.booklet.prints import piece_colour
from seamleaf.planning.print_records import PrintsTask, RoleNote, ServeNote
from seamleaf.planning.prints import plan_squares
from seamleaf.planning.prints.choice import Square
from seamleaf.planning.prints.colour import difference, lab_of
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.locks import claim_pieces

COLOURS = ["#d9593d", "#3f9a94", "#e8d174", "#6fb98f", "#7fb4d6", "#c9486b", "#f4b6a6", "#5a4fb0"]
FABRICS = {**YARDAGE, "star": {**PRINTS, "pack": "40", "colours": COLOURS}}
BLOCKS = {
    "one": grid(["ADA", "DBD", "ADA"], A="star.1 4 x 4", B="star.2 4 x 4", D="dark 4 x 4"),
    "plain": "dark 12 x 12",
}
"""A piece of 10 in gives four patches of 4 1/2 in: one block of star.1, or four of star.2."""


def locked(locks: dict[str, dict[str, str]], **more: Any) -> dict[str, Any]:
    return {"fabrics": FABRICS, "sizes": {"one": {"blocks": "4 x 4", "locks": locks}}, **more}


def colours_of(booklet: Booklet) -> dict[str, tuple[str, ...]]:
    """Return the colours of each block by its number."""
    (star,) = (fabric for fabric in booklet.fabrics if fabric.id == "star")
    return {
        place.number: tuple(piece_colour(star, piece) for piece in place.prints)
        for place in booklet.places
        if place.number and place.prints
    }


def test_locked_blocks_have_the_colours_that_were_asked_for() -> None:
    locks = {
        "1.1": {"star.1": "#5a4fb0", "star.2": "#d9593d"},
        "2.3": {"star.2": "#5a4fb0"},
        "4.4": {"star": "#5A4FB0"},
    }
    shown = colours_of(booklet_of(BLOCKS, **locked(locks)))
    assert shown["1.1"] == ("#5a4fb0", "#d9593d")
    assert shown["2.3"][1] == "#5a4fb0"
    assert shown["4.4"][0] == "#5a4fb0"
    free = colours_of(booklet_of(BLOCKS, fabrics=FABRICS, sizes={"one": {"blocks": "4 x 4"}}))
    assert shown != free


def test_all_blocks_may_be_locked() -> None:
    locks = {
        f"{row}.{at}": {"star.1": COLOURS[4 + (row + at) % 4], "star.2": COLOURS[row - 1]}
        for row in range(1, 5)
        for at in range(1, 5)
    }
    shown = colours_of(booklet_of(BLOCKS, **locked(locks)))
    assert shown == {number: tuple(colours.values()) for number, colours in locks.items()}


@pytest.mark.parametrize(
    ("locks", "more", "words"),
    [
        ({"5.1": {"star.1": "#d9593d"}}, {}, "block 5.1 in size 'one', expected a block from 1.1 to 4.4"),
        ({"1.1": {"star.3": "#d9593d"}}, {}, "print 'star.3' in block 1.1, expected star.1 or star.2"),
        (
            {"1.2": {"star.1": "#d9593d"}},
            {"tile": [["one", "plain"]]},
            "print 'star.1' in block 1.2, expected a block that takes prints of a bundle",
        ),
        (
            {f"{row}.{at}": {"star.1": "#d9593d"} for row in (1, 2) for at in (1, 2, 3, 4)},
            {},
            "expected what 16 pieces cut for 'star.1' can serve, at most 5 pieces in one colour",
        ),
        (
            {f"{at}.{at}": {"star.2": colour} for at, colour in enumerate(COLOURS[:4], 1)}
            | {"1.2": {"star.2": COLOURS[4]}},
            {},
            "what 4 pieces cut for 'star.2' can serve",
        ),
    ],
)
def test_a_lock_that_cannot_be_had_is_refused_at_its_place(
    locks: dict[str, dict[str, str]], more: dict[str, Any], words: str
) -> None:
    problems = refusals_of(BLOCKS, **locked(locks, **more))
    assert problems
    assert all(words in problem.sentence("test") for problem in problems)
    assert all(problem.where.line > 1 for problem in problems)


@pytest.mark.parametrize("seed", range(12))
def test_random_locks_are_kept_and_every_piece_is_used_as_it_is_cut(seed: int) -> None:
    """Locks to what another layout of the same bundle has at other places: that can be had, block by block."""
    case = case_of(seed)
    bundles = {
        fabric: [Square(lab=lab_of(colour), squares=many) for colour, _, many in squares]
        for fabric, squares in case.bundles.items()
    }
    grounds = {fabric: lab_of(colour) for fabric, colour in case.grounds.items()}
    free = plan_squares(case.task, bundles, grounds)
    chance = random.Random(seed)
    unit_at = {place: unit for place, unit, _, _ in case.task.cells}
    locks: dict[int, dict[int, int]] = {}
    for unit in case.task.roles:
        places = [place for place in unit_at if unit_at[place] == unit]
        there = chance.sample(places, len(places))
        for place, other in list(zip(places, there, strict=True))[: len(places) // 3]:
            for index, piece in enumerate(free.prints[other]):
                colour = free.choices[case.task.roles[unit][index].fabric].pieces[piece - 1]
                if chance.random() < 0.7 and colour not in locks.get(place, {}).values():
                    locks.setdefault(place, {})[index] = colour
    claims, refused = claim_pieces(case.task, bundles, locks)
    locks = {place: asked for place, asked in locks.items() if not any(place == at for at, _ in refused)}
    claims, refused = claim_pieces(case.task, bundles, locks)
    assert refused == []
    plan = plan_squares(case.task, bundles, grounds, locks, claims)
    for place, asked in locks.items():
        for index, colour in asked.items():
            fabric = case.task.roles[unit_at[place]][index].fabric
            shown = plan.choices[fabric].pieces[plan.prints[place][index] - 1]
            one, other = bundles[fabric][shown].lab, bundles[fabric][colour].lab
            assert difference(one, other) < 2 * CONVENTIONS.alike, "the colour, or one that passes for the same print"
    for fabric, sheets in case.task.bundles.items():
        capacity = [Counter(sheet.serves) for sheet in sheets for _ in range(sheet.times)]
        for place, unit in unit_at.items():
            for role, piece in zip(case.task.roles[unit], plan.prints[place], strict=True):
                if role.fabric == fabric:
                    capacity[piece - 1][unit, role.print] -= 1
        assert all(left >= 0 for piece in capacity for left in piece.values())


def task_of_pieces(*sheets: tuple[int, tuple[int, ...]]) -> PrintsTask:
    """Return a row of blocks of two roles, and pieces that are cut so many times for so many of each role."""
    roles = (RoleNote(fabric="star", print=1, grounds=()), RoleNote(fabric="star", print=2, grounds=()))
    serves = [ServeNote(times=times, serves=tuple(("U", role) for role in serve)) for times, serve in sheets]
    return PrintsTask(
        seed=1,
        on_point=False,
        step=1,
        wide=5,
        high=0,
        cells=tuple((place, "U", place, 0) for place in range(6)),
        roles={"U": roles},
        bundles={"star": tuple(serves)},
    )


def bundle(*squares: int) -> dict[str, list[Square]]:
    """Return a bundle of as many colours, with so many squares of each."""
    return {"star": [Square(lab=(20_00 + 10_00 * at, 0, 0), squares=many) for at, many in enumerate(squares)]}


def test_a_piece_that_serves_a_role_twice_serves_two_locked_blocks_and_no_third() -> None:
    task = task_of_pieces((9, (1, 1)))
    locks = {place: {0: 0} for place in range(4)}
    assert claim_pieces(task, bundle(9), locks) == ({"star": [Counter({0: 2})]}, [])
    locks[4] = {0: 0}
    assert claim_pieces(task, bundle(9), locks) == ({"star": [Counter({0: 3})]}, [])


def test_a_piece_that_serves_both_roles_serves_each_once() -> None:
    task = task_of_pieces((1, (1, 2)), (9, (2,)))
    locks = {0: {0: 0}, 1: {1: 0}, 2: {1: 0}}
    assert claim_pieces(task, bundle(9), locks) == ({"star": [Counter({0: 1}), Counter({0: 1})]}, [])


def test_locks_take_no_more_squares_of_a_colour_than_there_are_and_no_more_pieces_than_are_cut() -> None:
    task = task_of_pieces((2, (1,)), (2, (1,)))
    of_one = {place: {0: 0} for place in range(3)}
    assert claim_pieces(task, bundle(2, 9), of_one) == ({"star": [Counter({0: 2}), Counter()]}, [(2, 0)])
    of_both = {0: {0: 0}, 1: {0: 0}, 2: {0: 1}, 3: {0: 1}, 4: {0: 1}}
    claims = {"star": [Counter({0: 2}), Counter({1: 2})]}
    assert claim_pieces(task, bundle(9, 9), of_both) == (claims, [(4, 0)])
    no_piece = {0: {1: 0}}
    assert claim_pieces(task, bundle(9), no_piece)[1] == [(0, 1)]
