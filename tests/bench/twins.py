"""Plan random bundles in Python and in Chromium, and count the cases that differ in any number.

    python tests/bench/twins.py [CASES] [FIRST]

Prints the cases that differ, what both took, and how near the colour differences of a million random pairs come to
where their rounding turns; both sides have the same bits, so even a pair right there would do no harm.
"""

from __future__ import annotations

import dataclasses
import importlib.resources
import json
import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from playwright.sync_api import sync_playwright

from browser.conftest import QUIET, chromium
from browser.test_own_prints import SOLVE
from prints_cases import case_of
from seamleaf.planning.prints.colour import ciede2000, lab_of_channels
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.publishing.own_view import SCRIPTS


def main() -> None:
    """Run the cases and print what came of them."""
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    folder = importlib.resources.files("seamleaf.site_templates").joinpath("assets", "prints")
    here = there = 0.0
    differing = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=list(QUIET))
        page = browser.new_page()
        for script in SCRIPTS[: SCRIPTS.index("planner") + 1]:
            page.add_script_tag(content=folder.joinpath(f"{script}.js").read_text(encoding="utf-8"))
        for seed in range(first, first + cases):
            case = case_of(seed)
            began = time.perf_counter()
            ours = json.loads(json.dumps(case.solved()))
            here += time.perf_counter() - began
            began = time.perf_counter()
            theirs = page.evaluate(SOLVE, [[case.as_json()], dataclasses.asdict(CONVENTIONS)])[0]
            there += time.perf_counter() - began
            if ours != theirs:
                differing.append(seed)
        browser.close()
    print(f"{cases} cases, {len(differing)} differ: {differing}")
    print(f"Python {1000 * here / cases:.0f} ms a case, Chromium {1000 * there / cases:.0f} ms and the way there")
    print(f"least distance of a colour difference from its turning point: {_least_distance(1_000_000):.1e} hundredths")


def _least_distance(pairs: int) -> float:
    chance = random.Random(7)
    least = 1.0
    for _ in range(pairs):
        one, other = (
            [value / 100 for value in lab_of_channels(*(chance.randrange(256) for _ in range(3)))] for _ in range(2)
        )
        scaled = ciede2000(one, other) * 100 + 0.5
        least = min(least, abs(scaled - round(scaled)))
    return least


if __name__ == "__main__":
    main()
