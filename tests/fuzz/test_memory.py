"""What the largest quilts take of memory: worked out, drawn and sewn again in a process of its own."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from patterns_for_tests import file_of

MOST_MIB = 1024

WORK = """\
import resource, sys

sys.path[:0] = [sys.argv[1]]
from proved import findings_in
from seamleaf.booklet import to_json
from seamleaf.drawing import draw_figures
from seamleaf.site.work.pipeline import plan

_, booklets = plan(sys.stdin.buffer.read(), "large")
booklet = booklets["one"]
assert len(booklet.places) == 2500
assert draw_figures(booklet)
assert findings_in(to_json(booklet)) == []
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)
"""


def test_the_most_blocks_that_a_quilt_may_have_take_less_than_a_gibibyte() -> None:
    block = {"grid": ["DL", "LR"], "key": {"D": "dark 2 x 2", "L": "light 2 x 2", "R": "red 2 x 2"}}
    text = file_of({"four": block}, size="50 x 50", turns="fixed")
    tests = str(Path(__file__).parents[1])
    done = subprocess.run([sys.executable, "-c", WORK, tests], input=text, capture_output=True, timeout=300)
    assert done.stderr == b""
    assert 20 < int(done.stdout) < MOST_MIB
