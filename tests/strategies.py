"""Hypothesis strategies of the whole suite: a new kind of value gets its strategy here."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

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
