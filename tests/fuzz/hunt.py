"""Many made-up pattern files through reading, sizing and planning: no traceback, no hang, no refusal without a line.

Every file is read and sized; of those that pass one in four is planned whole, which takes most of the time.

    python tests/fuzz/hunt.py [HOW MANY, 20000 by default] [SEED, 0 by default]

Prints how the files ended, the slowest, and the peak of memory; every file that shows a fault of the program is kept
in .cache/fuzz. The exit status is 1 when there is one.
"""

from __future__ import annotations

import hashlib
import resource
import sys
from collections import Counter
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1])]

from hypothesis import HealthCheck, Phase, given, seed, settings

from fuzz.pattern_files import OF_EACH, pattern_files
from fuzz.verdict import LONGEST, try_file

KEPT = Path(__file__).parents[2] / ".cache" / "fuzz"
PLANNED = 4
"""One of this many files that can be is planned."""


def main(count: int, first: int) -> int:
    """Try that many files, always the same ones for a seed."""
    ends: Counter[str] = Counter()
    kept: dict[str, str] = {}
    slowest = (0.0, "")

    def look(data: bytes) -> None:
        nonlocal slowest
        verdict = try_file(data, planned=False)
        if verdict.end == "sized" and (ends["sized"] + ends["planned"]) % PLANNED == 0:
            verdict = try_file(data)
        ends[verdict.end] += 1
        name = hashlib.sha256(data).hexdigest()[:16]
        slowest = max(slowest, (verdict.seconds, name))
        if verdict.is_fault or verdict.seconds > LONGEST:
            KEPT.mkdir(parents=True, exist_ok=True)
            (KEPT / f"{name}.yaml").write_bytes(data)
            note = verdict.note.strip().splitlines()[-1] if verdict.note else "slow"
            if note not in kept:
                kept[note] = name
                print(f"{verdict.end}: {name}: {note}", flush=True)
        if sum(ends.values()) % 1000 == 0:
            print(sum(ends.values()), dict(ends), f"{slowest[0]:.1f} s at most", flush=True)

    run = settings(
        max_examples=-(-count // (1 + 3 * OF_EACH)),
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )(seed(first)(given(pattern_files())(lambda files: [look(data) for data in files] and None)))
    run()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"{sum(ends.values())} files: {dict(ends)}; slowest {slowest[0]:.1f} s ({slowest[1]}); peak {peak} MiB")
    return 1 if kept else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 20_000, int(sys.argv[2]) if len(sys.argv) > 2 else 0))
