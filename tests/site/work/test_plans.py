"""Cutting plans that are kept: an edit that leaves the patches alone searches nothing, and nothing else changes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from patterns_for_tests import pattern_of
from published import SASHED
from seamleaf.booklet import plan_booklets, to_json
from seamleaf.planning import fabrics, memory
from seamleaf.planning.memory import remembering
from seamleaf.reading import Pattern, read_pattern
from seamleaf.site.files.shelf import Shelf
from seamleaf.site.work.plans import KeptPlans


def sashed(text: str = SASHED) -> Pattern:
    pattern = read_pattern(text.encode(), "sashed").pattern
    assert pattern is not None
    return pattern


@pytest.fixture
def searches(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Forget every plan of this process, and return a list that notes each search."""
    done: list[str] = []
    for name in ("plan_yardage", "plan_bundle"):

        def noting(*asked: object, planner: object = getattr(fabrics, name), kind: str = name, **how: object) -> object:
            done.append(kind)
            return planner(*asked, **how)  # type: ignore[operator]  # whatever was there

        monkeypatch.setattr(fabrics, name, noting)
    monkeypatch.setattr(memory, "_recent", type(memory._recent)())
    return done


def test_another_process_finds_the_plans_and_writes_the_same_bytes(searches: list[str], tmp_path: Path) -> None:
    store = KeptPlans(Shelf(tmp_path, pytest.fail))
    with remembering(store):
        first = to_json(plan_booklets(sashed())["mat"])
        assert {"plan_yardage", "plan_bundle"} <= set(searches)
        searches.clear()
        memory._recent.clear()
        assert to_json(plan_booklets(sashed())["mat"]) == first
    assert searches == []


def test_another_title_searches_nothing_and_another_count_does(searches: list[str]) -> None:
    with remembering(None):
        plan_booklets(sashed())
        searches.clear()
        plan_booklets(sashed(SASHED.replace("title: Sashed", "title: Other").replace("#22334f", "#33445f")))
        assert searches == []
        plan_booklets(sashed(SASHED.replace("3 x 4", "3 x 5")))
        assert searches != []


def test_a_plan_that_cannot_be_read_is_made_anew(searches: list[str], tmp_path: Path) -> None:
    told: list[str] = []
    pattern = pattern_of({"one": {"row": ["light 2 x 4", "dark 2 x 4"]}})
    with remembering(KeptPlans(Shelf(tmp_path, told.append))):
        first = plan_booklets(pattern)
        for path in tmp_path.iterdir():
            path.write_bytes(path.read_bytes()[:-9] + json.dumps("spoilt").encode())
        memory._recent.clear()
        searches.clear()
        assert plan_booklets(pattern) == first
    assert len(searches) == len(told) > 0


def test_only_the_latest_plans_are_remembered(searches: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(memory, "RECENT", 2)
    with remembering(None):
        plan_booklets(sashed())
    assert len(searches) > 2
    assert len(memory._recent) == 2
