"""How long the pressing plan takes: twelve traditional blocks, and quilts of up to 2,500 blocks.

    python tests/bench/pressing.py

Prints, for each quilt, the match points, how many nest or are spun, and the least and the middle time of five runs.
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from blocks_for_tests import TWELVE, quilt_text
from seamleaf.booklet import Booklet, sewn
from seamleaf.site.work.pipeline import plan

RUNS = 5
QUILTS = [(name, 4, 5) for name in TWELVE] + [("Nine patch", n, n) for n in (10, 35)]
"""On point n x n have n^2 + (n-1)^2 blocks, so the largest has 2,381."""


def timed(text: bytes) -> tuple[Booklet, list[float]]:
    """Plan a quilt, then its pressing alone a few times more; return the booklet and the seconds of each run."""
    plan_pressing = sewn.plan_pressing
    seconds: list[float] = []

    def watched(*args: object) -> object:
        for _ in range(RUNS):
            start = time.perf_counter()
            found = plan_pressing(*args)  # type: ignore[arg-type]  # passed on as they came
            seconds.append(time.perf_counter() - start)
        return found

    sewn.plan_pressing = watched  # type: ignore[assignment]  # it takes and gives the same
    try:
        return plan(text, "bench")[1]["one"], seconds
    finally:
        sewn.plan_pressing = plan_pressing


def main() -> None:
    """Print the table."""
    print(f"{'on point':18}{'blocks':>7}{'points':>8}{'fit':>8}{'least':>9}{'middle':>9}")
    for name, across, down in QUILTS:
        booklet, seconds = timed(quilt_text(name, on_point=True, across=across, down=down).encode())
        fit = booklet.pressing.nested + booklet.pressing.spun
        counts = f"{booklet.set.blocks:7}{booklet.pressing.match_points:8}{fit:8}"
        print(f"{name:18}{counts}{min(seconds):8.3f}s{statistics.median(seconds):8.3f}s", flush=True)


if __name__ == "__main__":
    main()
