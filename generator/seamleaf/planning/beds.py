"""The bed that a size is shown on, to tell how large it is.

A size for a bed is shown on that bed. Any other is shown on the largest mattress of the trade that it covers with the
usual drop, and a smaller one lies on the smallest: never on that of a crib, since no quilt belongs into an infant's
sleep space.
"""

from __future__ import annotations

from typing import Final

from seamleaf.lengths import Length, Measures
from seamleaf.planning.records import Box
from seamleaf.reading.pattern import Cover

MATTRESSES: Final = {
    # In inches twin, full, queen and king (sewwhatquiltshop.blogspot.com 2010/09; quilting.about.com mattress_sizes).
    "in": ((39, 75), (54, 75), (60, 80), (76, 80)),
    # In centimetres widths of the European trade, 200 long (absoluteastronomy.com Bed_size; 180 from memory).
    "cm": ((90, 200), (140, 200), (160, 200), (180, 200)),
}

DROP: Final = {"in": 12, "cm": 30}
"""At both sides and the foot: twin 39 x 75 asks for 63 x 87 (ciaspalette.com mattresses); in cm a round number."""


def plan_bed(w: Length, h: Length, cover: Cover | None, measures: Measures) -> Box:
    """Return the mattress under a quilt of finished size w x h."""
    if cover is not None:
        wide, long = cover.mattress
        return Box(w=wide, h=long)
    trade, drop = MATTRESSES[measures.unit], DROP[measures.unit]
    covered = [each for each in trade if each[0] + 2 * drop <= w and each[1] + drop <= h]
    wide_, long_ = covered[-1] if covered else trade[0]
    return Box(w=Length(wide_), h=Length(long_))
