"""The designer's own pace, by which time is reckoned: what is done in an hour, ``90`` or ``60 to 150``."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from seamleaf.reading import keys
from seamleaf.reading.defaults import paces_for
from seamleaf.reading.fields import open_fields
from seamleaf.reading.limits import MAX_PACE
from seamleaf.reading.marks import Mark
from seamleaf.reading.nodes import Node
from seamleaf.reading.pace_record import Paces
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.wording import quoted

_RANGE: Final = re.compile(r"([0-9]{1,6})(?:\s+to\s+([0-9]{1,6}))?")
_EXPECTED: Final = f"how many in an hour: a whole number from 1 to {MAX_PACE}, or a range such as 60 to 150"


def read_paces(node: Node | None, where: Mark, scalars: Scalars, report: Report) -> Paces:
    """Read the section ``pace``; what it leaves out is the default."""
    fields = open_fields(node, where, keys.PACE, report)
    given = {key: _pace(fields[key], scalars, report) for key in keys.PACE.all}
    return replace(paces_for(scalars.measures), **{key: pace for key, pace in given.items() if pace is not None})


def _pace(node: Node | None, scalars: Scalars, report: Report) -> tuple[int, int] | None:
    text = scalars.text(node, _EXPECTED)
    if text is None:
        return None
    match = _RANGE.fullmatch(text.text)
    low = int(match[1]) if match else 0
    high = int(match[2] or match[1]) if match else 0
    if not 1 <= low <= MAX_PACE or high > MAX_PACE:
        report.add(text.where, quoted(text.text), _EXPECTED)
        return None
    if high < low:
        report.add(text.where, f"the range {quoted(text.text)}", "a range from the slow pace to the quick one")
        return None
    return low, high
