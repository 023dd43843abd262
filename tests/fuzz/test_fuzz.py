"""A short sample of the hunt in ``tests/fuzz/hunt.py``: every file is planned or refused, each fault with a place."""

from __future__ import annotations

import json

import pytest
from hypothesis import HealthCheck, given, settings

from effort import tries
from fuzz.pattern_files import HOSTILE, pattern_files
from fuzz.verdict import try_file
from patterns_for_tests import file_of

SMALL = json.loads(file_of({"one": {"row": ["light 2 x 4", "dark 2 x 4"]}, "two": {"use": "one", "turn": "180"}}))


@settings(deadline=None, max_examples=tries(5), suppress_health_check=list(HealthCheck))
@given(pattern_files())
def test_any_file_is_read_and_sized_or_refused_with_a_line(files: list[bytes]) -> None:
    for data in files:
        verdict = try_file(data, planned=False)
        assert not verdict.is_fault, verdict


@pytest.mark.parametrize("place", ["title", "fabrics", "blocks", "setting", "sizes", "borders", "binding", "seam"])
def test_a_hostile_value_for_a_whole_section_is_refused_with_a_line(place: str) -> None:
    for value in HOSTILE:
        data = json.dumps(SMALL | {place: value}).encode()
        verdict = try_file(data)
        assert not verdict.is_fault, (value, verdict)


def test_the_judge_sees_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the hunt would report: a traceback, a hang, and a refusal that names no line of the file."""
    from fuzz import verdict as module
    from seamleaf.reading.marks import Mark
    from seamleaf.reading.problems import PatternError, Problem

    def fail(*_: object) -> None:
        raise ZeroDivisionError

    def hang(*_: object) -> None:
        while True:
            pass

    def refuse(*_: object) -> None:
        raise PatternError([Problem(where=Mark(7, 1), found="a thing", expected="another")])

    for part, end in ((fail, "traceback"), (hang, "hang"), (refuse, "no line")):
        monkeypatch.setattr(module, "plan", part)
        assert try_file(b"title: T\n", longest=0.2).end == end
