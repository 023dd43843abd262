"""Hunts every kind of erratum in every accepted booklet, and tells which got through: none should.

    python tests/bench/errata_hunt.py [--site FOLDER] [PATTERN ...]

With a built site, misprints are hunted in the pages, figures and PDF files of every size as well. An error counts as
caught where the check that names it finds it, whatever else does. A kind that names something that a booklet has not,
such as a mitred border, is left out there. A short sample runs with the suite, in ``tests/proof/test_errata.py``.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from errata import ERRATA, accepted_booklets, hunt
from misprints import MISPRINTS, hunt_in_site, hunt_on_paper


def main() -> int:
    """Hunt, and return whether anything got through."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("patterns", nargs="*")
    parser.add_argument("--site", type=Path, help="a site that was built from the demo")
    options = parser.parse_args()
    caught: dict[str, dict[str, bool | None]] = {}
    for name, text in accepted_booklets().items():
        if not options.patterns or name.split("/")[0] in options.patterns:
            caught[name] = {erratum.number: hunt(text, erratum) for erratum in ERRATA}
            tell(name, caught[name])
    for name in caught if options.site is not None else ():
        found = {each.number: hunt_in_site(options.site / name, each) for each in MISPRINTS}
        found["S3"] = hunt_on_paper(options.site / name)
        tell(f"{name}, pages, figures and paper", found)
        caught[name] |= found
    least = min(Counter(found.values())[True] for found in caught.values())
    kinds = {number for found in caught.values() for number, how in found.items() if how}
    missed = sum(how is False for found in caught.values() for how in found.values())
    planted = sum(how is not None for found in caught.values() for how in found.values())
    print(f"{len(caught)} booklets: {planted} errors of {len(kinds)} kinds planted, at least {least} kinds in each;")
    print(f"{planted - missed} caught by the check that names them, {missed} got through")
    return int(missed > 0)


def tell(name: str, found: dict[str, bool | None]) -> None:
    """Tell what was caught in a booklet."""
    counts = Counter(found.values())
    through = [number for number, how in found.items() if how is False]
    print(f"{name}: {counts[True]} caught, {counts[None]} do not fit it, got through: {through}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
