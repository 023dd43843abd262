"""The width of a border: one length, or a range of widths from which a size for a bed takes what covers.

``3``, ``2 to 6`` (in steps of half an inch or a centimetre) or ``2 to 6 by 1``.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length, format_rational
from seamleaf.reading.nodes import Node
from seamleaf.reading.pattern import Widths
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.wording import quoted

MAX_STEPS: Final = 200
_STEP: Final = {"in": Fraction(1, 2), "cm": Fraction(1)}
_TO = re.compile(r"\s+to\s+")
_BY = re.compile(r"\s+by\s+")


def read_widths(node: Node | None, scalars: Scalars, report: Report) -> Widths:
    """Read a border's width or its range, the least first; one inch when it cannot be read."""
    usual = (Length(scalars.measures.inch),)
    text = scalars.text(node, f"{scalars.a_length}, or a range such as 2 to 6 by 1/2")
    if text is None:
        return usual
    least_text, *rest = _TO.split(text.text)
    if not rest:
        width = scalars.length_of(text.text, text.where)
        return usual if width is None else (width,)
    most_text, *steps = _BY.split(rest[0])
    if len(rest) > 1 or len(steps) > 1:
        report.add(text.where, quoted(text.text), "a range such as 2 to 6, or 2 to 6 by 1/2")
        return usual
    least, most = scalars.length_of(least_text, text.where), scalars.length_of(most_text, text.where)
    step = scalars.length_of(steps[0], text.where) if steps else Length(_STEP[scalars.measures.unit])
    if least is None or most is None or step is None:
        return usual
    if most <= least:
        report.add(text.where, f"the range {quoted(text.text)}", "a range from the narrowest to the widest border")
        return (least,)
    count = ((most - least) / step).ceil()
    if least + step * count != most:
        by = steps[0] if steps else format_rational(step.a, scalars.measures.unit)
        expected = f"a range that steps of {by} end at"
        report.add(text.where, f"the range {quoted(text.text)}", expected, "give the step: 2 to 6 by 1/2")
        return (least,)
    if count > MAX_STEPS:
        report.add(text.where, f"a range of {count} steps", f"at most {MAX_STEPS} steps")
        return (least,)
    return tuple(least + step * index for index in range(count + 1))
