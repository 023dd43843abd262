"""Blocks and set in another scale: every finished length of the centre times one factor.

Seam allowances, trims (``oversize``), borders and binding keep their own sizes, since a ruler, a foot and a hand do.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any, Final

from seamleaf.lengths import Length, format_rational
from seamleaf.reading.pattern import Pattern, Size
from seamleaf.reading.problems import PatternError, Problem

KEPT: Final = frozenset({"oversize"})
"""Names of lengths that the scale leaves as they are."""


def scale_of(size: Size, block: tuple[Length, Length]) -> Fraction:
    """Return the factor of a size, 1 where it states none.

    Args:
        block: finished size of the set's block as the pattern draws it.

    Raises:
        PatternError: a stated size of the block that is no multiple of it both ways.

    """
    if size.finished is None:
        return size.scale or Fraction(1)
    across, down = (wanted / drawn for wanted, drawn in zip(size.finished, block, strict=True))
    if across == down and across.is_rational:
        return across.a
    where = size.scale_where or size.where
    found = f"a block of other proportions in size '{size.id}'"
    raise PatternError([Problem(where, found, "a width and height that are the block's, times one number")])


def scaled_pattern(pattern: Pattern, size: Size, factor: Fraction) -> Pattern:
    """Return the pattern with its blocks and set in this scale.

    Raises:
        PatternError: a length that the ruler shows comes out between its marks.

    """
    if factor == 1:
        return pattern
    grid = pattern.measures.cut_grid
    lost: list[Length] = []

    def scale(value: Any, name: str = "") -> Any:
        if isinstance(value, Length):
            if name in KEPT:
                return value
            if (value.a / grid).denominator == 1 and (value.a * factor / grid).denominator != 1:
                lost.append(value)
            return value * factor
        if isinstance(value, tuple):
            return tuple(scale(each, name) for each in value)
        if is_dataclass(value) and not isinstance(value, type):
            return replace(value, **{each.name: scale(getattr(value, each.name), each.name) for each in fields(value)})
        return value

    blocks = {id_: scale(block) for id_, block in pattern.blocks.items()}
    result = replace(pattern, blocks=blocks, setting=scale(pattern.setting))
    if lost:
        unit = pattern.measures.unit
        first = min(lost)
        found = f"a scale of {format_rational(factor, 'in')}, at which {format_rational(first.a, unit)} {unit} become "
        found += f"{format_rational((first * factor).a, 'in')} {unit}"
        expected = f"a scale at which every length stays a multiple of {format_rational(grid, unit)} {unit}"
        raise PatternError([Problem(size.scale_where or size.where, found, expected)])
    return result
