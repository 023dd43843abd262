"""Files of the hunt that once took long: what is counted of the work stays within its limits, on any machine."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from effort import is_deep
from patterns_for_tests import booklet_of, grid, pattern_of
from seamleaf.booklet import material, strip_choice
from seamleaf.booklet.sewn import sew_size
from seamleaf.planning.demand import CuttingPlan
from seamleaf.planning.fabrics import cut_yardage
from seamleaf.planning.pressing import colouring
from seamleaf.site.work.pipeline import plan, read_checked

HARD = Path(__file__).parent / "hard"
LONGEST = max(material.SEARCH_WORK) + 4_000
"""More than any single search takes, in linear programs: what was begun before its limit ends a little beyond it."""


class Watch:
    """Looks on while yardage is planned."""

    def __init__(self) -> None:
        self.asked: list[tuple[str, int]] = []
        """What each search was, and its work."""
        self.most: set[int] = set()
        """The limits of work that were given."""

    @property
    def work(self) -> int:
        """All of it."""
        return sum(work for _, work in self.asked)

    def cut_yardage(self, *given: Any, **more: Any) -> CuttingPlan:
        """Plan as always, and note it."""
        found = cut_yardage(*given, **more)
        self.asked.append((more["search"], found.work))
        self.most.add(more["most"])
        return found


@pytest.fixture
def watch(monkeypatch: pytest.MonkeyPatch) -> Watch:
    watch = Watch()
    monkeypatch.setattr(material, "cut_yardage", watch.cut_yardage)
    return watch


def test_a_choice_of_strip_sets_that_takes_too_long_is_given_up_and_presses_nothing(
    watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    def press(*_: object) -> None:
        raise AssertionError("nothing was chosen, so nothing is to be pressed")

    monkeypatch.setattr(strip_choice, "sew_size", press)
    monkeypatch.setattr(strip_choice, "MOST_WORK", 0)
    nine = grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")
    pattern = pattern_of({"nine": nine}, size="5 x 6", borders=[{"fabric": "light", "width": "3"}])
    assert strip_choice.with_strip_sets(pattern).sewn == {}
    assert 0 < watch.work <= LONGEST
    assert {search for search, _ in watch.asked} == {"short"}


@pytest.mark.parametrize("name", ["many-small-patches", "rows-in-rows", "two-pieced-borders"])
def test_nothing_is_cut_to_choose_about_rows_that_no_size_has(watch: Watch, name: str) -> None:
    """A block that is not in the set, or one that some size has a few of."""
    pattern = read_checked((HARD / f"{name}.yaml").read_bytes(), "hard")
    assert strip_choice.with_strip_sets(pattern).sewn == {}
    assert watch.asked == []


@pytest.mark.skipif(not is_deep(), reason="takes seconds; for a deep run")
@pytest.mark.parametrize("name", ["many-small-patches", "rows-in-rows", "two-pieced-borders"])
def test_a_hard_file_takes_no_more_work_than_its_limits(watch: Watch, name: str) -> None:
    pattern, _ = plan((HARD / f"{name}.yaml").read_bytes(), "hard")
    most = (strip_choice.MOST_WORK * 2 + material.WARNING_WORK) * len(pattern.sizes) + LONGEST
    assert 800 < watch.work <= most


def test_after_much_work_fabrics_are_searched_less_and_other_widths_not_at_all(
    watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fabric of every quilt is planned at least by a short search, however much the others took."""
    blocks = {"four": grid(["DL", "LD"], D="dark 3 x 3", L="light 3 x 3")}
    sewn = sew_size(pattern_of(blocks, size="2 x 2"), "one")
    monkeypatch.setattr(material, "THOROUGH_WORK", 0)
    monkeypatch.setattr(material, "WARNING_WORK", 0)
    material.plan_material(sewn)
    assert {search for search, _ in watch.asked} == {"tidied", "none"}


def test_where_the_fabrics_before_took_all_the_next_has_little_left(
    watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocks = {"four": grid(["DL", "LD"], D="dark 3 x 3", L="light 3 x 3")}
    sewn = sew_size(pattern_of(blocks, size="2 x 2"), "one")
    material.plan_material(sewn)
    given = watch.most
    assert given == {material.SEARCH_WORK[0]}
    given.clear()
    monkeypatch.setattr(material, "THOROUGH_WORK", 0)
    monkeypatch.setattr(material, "SEARCH_WORK", (0, 0))
    material.plan_material(sewn)
    assert given == {material.LEAST_WORK}


def test_with_little_work_every_fabric_is_searched_through(watch: Watch) -> None:
    booklet_of({"four": grid(["DL", "LD"], D="dark 3 x 3", L="light 3 x 3")}, size="2 x 2", thorough=True)
    assert {search for search, _ in watch.asked} == {"thorough", "short"}


def test_seams_of_many_ways_to_press_are_folded_without_the_integer_program(monkeypatch: pytest.MonkeyPatch) -> None:
    """Up to 155 seam classes, of which few hang together at once; the program took seconds for them."""

    def solve(_: object) -> None:
        raise AssertionError("tables are enough")

    monkeypatch.setattr(colouring, "solve", solve)
    pattern = read_checked((HARD / "many-ways-to-press.yaml").read_bytes(), "hard")
    for size in pattern.sizes:
        assert sew_size(pattern, size).pressing.report.proven
