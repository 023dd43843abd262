"""Hypothesis strategies of the whole suite: a new kind of value gets its strategy here."""

from __future__ import annotations

import dataclasses
import types
import typing
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from seamleaf.booklet import Booklet
from seamleaf.lengths import Length


def rationals(limit: int = 10**6, denominator: int = 10**4) -> st.SearchStrategy[Fraction]:
    """Rationals between -limit and limit, many of them on the ruler's grid."""
    return st.one_of(
        st.fractions(min_value=-limit, max_value=limit, max_denominator=denominator),
        st.integers(-limit, limit).map(lambda eighths: Fraction(eighths, 8)),
        st.integers(-limit, limit).map(Fraction),
    )


@st.composite
def near_misses(draw: st.DrawFn) -> Length:
    """Lengths very near to 0: p - q*sqrt(2) for the best rational approximations p/q of sqrt(2), either sign."""
    p, q = 1, 1
    for _ in range(draw(st.integers(0, 45))):
        p, q = p + 2 * q, p + q
    scale = draw(rationals(1000, 64))
    sign = draw(st.sampled_from([1, -1]))
    return Length(p, -q) * scale * sign


def lengths() -> st.SearchStrategy[Length]:
    """Any exact length: rational, irrational, or so near to 0 that a float could not tell its sign."""
    return st.one_of(
        rationals().map(Length),
        st.builds(Length, rationals(), rationals()),
        near_misses(),
    )


def booklets(least: int = 0) -> st.SearchStrategy[Booklet]:
    """Booklets of the right form and no sense: any value of the right type in every field, lists of ``least`` to 2."""
    return _of_hint(Booklet, least)


def _of_hint(hint: Any, least: int) -> st.SearchStrategy[Any]:
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Annotated:
        return _of_hint(inner[0], least)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([_of_hint(each, least) for each in inner])
    if origin is typing.Literal:
        return st.sampled_from(inner)
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(_of_hint(inner[0], least), min_size=least, max_size=2).map(tuple)
    if origin is tuple:
        return st.tuples(*(_of_hint(each, least) for each in inner))
    if origin is dict:
        return st.dictionaries(_of_hint(inner[0], least), _of_hint(inner[1], least), min_size=least, max_size=2)
    if dataclasses.is_dataclass(hint):
        hints = typing.get_type_hints(hint, include_extras=True)
        record: Any = hint
        return st.builds(record, **{f.name: _of_hint(hints[f.name], least) for f in dataclasses.fields(hint)})
    return _SIMPLE[hint]


_SIMPLE: dict[Any, st.SearchStrategy[Any]] = {
    Length: lengths(),
    Fraction: rationals(),
    str: st.text(max_size=12),
    int: st.integers(-(10**9), 10**9),
    bool: st.booleans(),
    type(None): st.none(),
}
