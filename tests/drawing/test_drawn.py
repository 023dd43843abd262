"""Another title is another title in the figures that say it, and draws no other figure again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drawing.seen import NAMES, seen_booklet
from seamleaf.drawing import Drawn, Figure, draw_figures
from seamleaf.drawing.drawn import MOST
from seamleaf.publishing import load_templates
from seamleaf.words import english

NAMED = {"quilt", "grey", "lines", "bed"}
SOME = NAMES[:: max(1, len(NAMES) // 4)]


def by_id(figures: tuple[Figure, ...]) -> dict[str, Figure]:
    """Return figures by their ids."""
    return {figure.id: figure for figure in figures}


@pytest.mark.parametrize("name", SOME)
def test_figures_of_a_retitled_pattern_are_those_that_are_drawn_anew(name: str) -> None:
    booklet, drawn = seen_booklet(name), Drawn()
    called = {"title": "Wind & Weather <2>", "version": "9.9.9", "designer": "Somebody", "summary": "Other words."}
    other = replace(
        booklet, pattern=replace(booklet.pattern, **called), size=replace(booklet.size, title="\u05e9\u05dd")
    )
    before, after = draw_figures(booklet, drawn=drawn), draw_figures(other, drawn=drawn)
    assert before == draw_figures(booklet)
    assert after == draw_figures(other)
    kept = {each for each, figure in by_id(after).items() if figure is by_id(before)[each]}
    assert by_id(after).keys() - kept == by_id(after).keys() & NAMED != set()


def test_whatever_else_is_another_is_drawn_again() -> None:
    booklet, drawn = seen_booklet(SOME[0]), Drawn()
    draw_figures(booklet, drawn=drawn)
    fabrics = (replace(booklet.fabrics[0], title="Another cloth"), *booklet.fabrics[1:])
    other = replace(booklet, fabrics=fabrics)
    assert draw_figures(other, drawn=drawn) == draw_figures(other) != draw_figures(booklet)
    german = load_templates(language="de").wording.words
    assert draw_figures(booklet, german, drawn) == draw_figures(booklet, german) != draw_figures(booklet)


def test_what_was_asked_for_longest_ago_goes_first() -> None:
    booklet, words, drawn = seen_booklet(SOME[0]), english(), Drawn()
    asked: list[int] = []

    def ask(number: int) -> None:
        def draw() -> tuple[Figure, ...]:
            asked.append(number)
            return ()

        other = replace(booklet, size=replace(booklet.size, id=f"s{number}"))
        drawn.once(other, words, draw)

    for number in (*range(MOST), 0, MOST, 0, 1):
        ask(number)
    assert asked == [*range(MOST + 1), 1]
