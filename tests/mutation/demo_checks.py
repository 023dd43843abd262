"""What faults of sizing and planning are held against first: accepted booklets, and small quilts that are sewn again.

Named so that the suite does not collect it: its own tests ask the same of more patterns, and of their pages.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from accepted import accepted_text
from patterns_for_tests import file_of
from proof.conftest import NINE, PIECED, ROUND, SPUN, STRIPPY, TAUGHT
from proved import findings_in
from published import SASHED, SMALL, WAYS
from seamleaf.booklet import plan_booklets, to_json
from seamleaf.site.work.pipeline import read_checked

ROOT = Path(__file__).parents[2]
DEMOS = (
    ("kitchen-garden", "table"), ("kite-weather", "throw"), ("millrace", "crib"), ("plough-lines", "wall"),
    ("market-day", "lap"), ("north-light", "wall"),
    ("weir-flight", "crib"), ("window-seat", "crib"), ("window-seat", "lap"), ("lamplight-crossing", "crib"),
)  # fmt: skip
METRIC = file_of({"one": {"half-square": ["light", "dark"], "finished": "8 x 8"}}, unit="cm", seam="0.75")
SMALL_ONES = {
    "small": SMALL.encode(), "ways": WAYS.encode(), "sashed": SASHED.encode(), "spun": SPUN, "taught": TAUGHT,
    "nine": NINE, "pieced": PIECED, "strippy": STRIPPY, "round": ROUND, "metric": METRIC,
}  # fmt: skip


@pytest.mark.parametrize(("pattern_id", "size"), DEMOS)
def test_a_booklet_of_the_demo_is_the_accepted_one(pattern_id: str, size: str) -> None:
    pattern = read_checked((ROOT / "patterns" / f"{pattern_id}.yaml").read_bytes(), pattern_id)
    accepted = accepted_text(pattern_id, size)
    assert to_json(plan_booklets(pattern, [size])[size]) == accepted


@pytest.mark.parametrize("name", SMALL_ONES)
def test_the_proof_sews_a_small_quilt_again(name: str) -> None:
    for booklet in plan_booklets(read_checked(SMALL_ONES[name], name)).values():
        assert findings_in(to_json(booklet)) == []
