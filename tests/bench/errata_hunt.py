"""Hunts every kind of erratum in every accepted booklet, and tells which got through: none should.

    python tests/bench/errata_hunt.py [PATTERN ...]

A kind that names something that a booklet has not (a label, a border) is left out there. A short sample of this runs
with the suite, in ``tests/proof/test_errata.py``.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from errata import ERRATA, accepted_booklets, hunt


def main(patterns: list[str]) -> int:
    """Hunt, and return how many got through."""
    missed = 0
    for name, text in accepted_booklets().items():
        if patterns and name.split("/")[0] not in patterns:
            continue
        caught = [hunt(text, erratum) for erratum in ERRATA]
        through = [erratum.number for erratum, found in zip(ERRATA, caught, strict=True) if found is False]
        missed += len(through)
        print(f"{name}: {caught.count(True)} caught, {caught.count(None)} do not fit it, got through: {through}")
    return missed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]) > 0)
