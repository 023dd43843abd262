"""What the core publishes holds: patterns of every kind, and patterns made at random.

The demo's site is proved with all its pages as it is built for the tests that look at it.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, reject, settings

from effort import tries
from patterns_for_tests import booklets_of
from seamleaf.booklet import to_json
from seamleaf.proof import Finding, prove
from seamleaf.reading import PatternError
from strategies import patterns

Proof = Callable[[bytes], list[Finding]]


def test_every_kind_of_unit_set_border_and_press_holds(
    published: dict[str, bytes], folder: Callable[[dict[str, Any]], Path]
) -> None:
    report = prove(folder(dict(published)))
    assert report.holds, str(report)
    assert len(report.booklets) == len(published)


def test_the_demo_s_crib_is_summed_up(published: dict[str, bytes], folder: Callable[[dict[str, Any]], Path]) -> None:
    """2 x 3 on point are 6 + 2 blocks (N3.1: derived); 8 of each 40 seams, 10 + 3 + 4 of the centre, 8 of borders."""
    (summary,) = prove(folder({"lamplight-crossing/crib": published["lamplight-crossing/crib"]})).booklets
    assert (summary.pattern, summary.size) == ("lamplight-crossing", "crib")
    assert summary.blocks == 6 + 2
    assert summary.seams == 8 * 40 + 10 + 3 + 4 + 8
    assert summary.nested == summary.match_points > 0


@settings(max_examples=tries(3), deadline=None, suppress_health_check=list(HealthCheck))
@given(sections=patterns())
def test_whatever_the_core_plans_holds(findings_of: Proof, sections: dict[str, Any]) -> None:
    try:
        booklets = booklets_of(**sections)
    except PatternError:
        reject()
    for booklet in booklets.values():
        assert findings_of(to_json(booklet).encode()) == []


def test_a_quilt_of_2500_blocks_is_proved(findings_of: Proof) -> None:
    """The largest that a pattern may ask for: 50 x 50 nine patches with 20,000 seams, in a few seconds."""
    nine = {"grid": ["DLD", "LDL", "DLD"], "key": {"D": "dark 2 x 2", "L": "light 2 x 2"}}
    (booklet,) = booklets_of({"nine": nine}, size="50 x 50").values()
    assert findings_of(to_json(booklet).encode()) == []


def test_a_square_in_a_square_in_a_square_holds(findings_of: Proof) -> None:
    middle = {"diamond": {"centre": "dark", "corners": "light"}}
    economy = {"diamond": {"centre": middle, "corners": "red"}, "finished": "8 x 8"}
    (booklet,) = booklets_of({"economy": economy}, size="2 x 3").values()
    assert findings_of(to_json(booklet).encode()) == []
