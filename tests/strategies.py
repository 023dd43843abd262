"""Hypothesis strategies of the whole suite: a new kind of value gets its strategy here."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from seamleaf.booklet import Booklet
from seamleaf.lengths import Length
from seamleaf.planning.demand import Demand


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


def booklets() -> st.SearchStrategy[Booklet]:
    """Booklets of the right form and no sense: any value of the right type in every field."""
    st.register_type_strategy(Length, lengths())
    st.register_type_strategy(Fraction, rationals())
    return st.from_type(Booklet)


# ---- cutting ----


@st.composite
def cutting_demands(draw: st.DrawFn, most_side: int = 40, most_count: int = 30, most_kinds: int = 8) -> list[Demand]:
    """Demands of one fabric on the ruler's grid of 1/4, no side above ``most_side``, labels A1, A2 ..."""
    sides = st.integers(4, 4 * most_side).map(lambda quarters: Length(Fraction(quarters, 4)))
    small = st.integers(4, min(28, 4 * most_side)).map(lambda quarters: Length(Fraction(quarters, 4)))
    demands = []
    for number in range(1, draw(st.integers(1, most_kinds)) + 1):
        w = draw(st.one_of(small, small, sides, st.just(Length(most_side))))
        h = draw(st.one_of(small, st.just(w)))
        demands.append(
            Demand(label=f"A{number}", w=w, h=h, count=draw(st.integers(1, most_count)), may_turn=draw(st.booleans()))
        )
    return demands
