"""What stitch and flip cuts off a corner: two triangles, from which a half-square can be sewn.

A square of side S is sewn on across its diagonal, and both layers are cut off a seam allowance s beyond that seam.
So two triangles fall off, each S - s sqrt 2 on its short sides (derived), and sewn to each other they make a
half-square of S - 2 s sqrt 2, raw edges included. A second seam 2s beyond the first, sewn before the cut, joins them
at once (quiltingjetgirl.com/2023/08/04/bonus-hsts-from-stitch-and-flip-tutorial-and-sizing-table).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length, Measures
from seamleaf.planning.labels import PatchKey
from seamleaf.planning.records import Bonus, Unit

STEP: Final = {"in": Fraction(1, 4), "cm": Fraction(1, 2)}
"""Half-squares are trimmed down to a size that such a step divides (common practice, no source)."""
LEAST: Final = {"in": Fraction(1), "cm": Fraction(5, 2)}
"""Finished side below which hardly anybody sews them (common practice, no source)."""


def plan_bonus(
    units: Sequence[Unit], keys: Mapping[str, PatchKey], seam: Length, measures: Measures
) -> tuple[Bonus, ...]:
    """List the half-squares of every unit that is sewn by stitch and flip, one a pair of labels."""
    found: list[Bonus] = []
    for unit in units:
        if unit.method == "flip":
            base, *squares = (take.label or "" for take in unit.from_)
            for corner, count in Counter(squares).items():
                side = keys[corner].w
                raw = side - (seam * 2).times_root2()
                step = STEP[measures.unit]
                trim = Length((raw / step).floor() * step)
                if trim - seam * 2 >= LEAST[measures.unit]:
                    found.append(
                        Bonus(
                            unit=unit.id,
                            base=base,
                            corner=corner,
                            count=count * unit.batches,
                            leg=side - seam.times_root2(),
                            apart=seam * 2,
                            trim=trim,
                            finished=trim - seam * 2,
                        )
                    )
    return tuple(found)
