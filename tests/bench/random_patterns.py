"""Random whole patterns through everything: sizing, planning, every identity, the proof, the figures and the pages.

    python tests/bench/random_patterns.py [HOW MANY, 500 by default] [SEED, 0 by default]

The same seed draws the same patterns. Prints how many came through, how many sizes they had, and how many the tool
refused because no single piece of the bundle can give a block its patches. The suite draws a few of the same patterns
on every run.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import Any

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[1] / "booklet")]

from hypothesis import HealthCheck, Phase, given, seed, settings
from test_identities import IDENTITIES, labels_keep_their_meaning

from patterns_for_tests import pattern_of
from seamleaf.booklet import plan_booklets, to_json
from seamleaf.drawing import draw_figures
from seamleaf.proof import prove
from seamleaf.publishing import load_templates, publish_pattern
from seamleaf.reading import PatternError
from strategies import patterns

TEMPLATES = load_templates()
SEEN: Counter[str] = Counter()


def come_through(sections: dict[str, Any]) -> None:
    """Take one pattern through everything.

    Raises:
        AssertionError: an identity of a booklet that does not hold, or a finding of the proof.

    """
    pattern = pattern_of(**sections)
    try:
        booklets = plan_booklets(pattern)
    except PatternError as error:
        if any("a single piece of the bundle can give" not in problem.expected for problem in error.problems):
            raise
        SEEN["refused"] += 1
        return
    figures = {}
    for size, booklet in booklets.items():
        for check in IDENTITIES:
            check(booklet)
        figures[size] = draw_figures(booklet)
        SEEN["sizes"] += 1
    labels_keep_their_meaning(booklets)
    with tempfile.TemporaryDirectory() as folder:
        for size, booklet in booklets.items():
            path = Path(folder) / pattern.id / size / "booklet.json"
            path.parent.mkdir(parents=True)
            path.write_text(to_json(booklet), encoding="utf-8")
        report = prove(Path(folder))
    assert report.holds, str(report)
    publish_pattern(pattern, booklets, figures, TEMPLATES)
    SEEN["patterns"] += 1
    if SEEN["patterns"] % 25 == 0:
        print(so_far(), flush=True)


def so_far() -> str:
    """Say what came through until now, in processor time."""
    return (
        f"{SEEN['patterns']} patterns with {SEEN['sizes']} sizes came through,"
        f" {SEEN['refused']} were refused, in {time.process_time():.0f} s of the processor"
    )


def main(count: int, start: int) -> None:
    """Draw that many patterns, the same ones from the same seed."""
    run = settings(
        max_examples=count,
        deadline=None,
        database=None,
        phases=[Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )(seed(start)(given(patterns())(come_through)))
    run()
    print(so_far())


if __name__ == "__main__":
    count, start = [*(int(word) for word in sys.argv[1:]), *(500, 0)[len(sys.argv) - 1 :]]
    main(count, start)
