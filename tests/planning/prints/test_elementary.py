"""Roots, angles and powers made of sums, products and square roots, against those of the system."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seamleaf.planning.prints import elementary


@given(st.floats(0.001, 2))
def test_roots_and_powers_are_those_of_the_system_to_thirteen_digits(value: float) -> None:
    assert elementary.cube_root(value) == pytest.approx(value ** (1 / 3), rel=1e-13)
    if 0.01 <= value <= 1:
        assert elementary.power_2_4(value) == pytest.approx(value**2.4, rel=1e-13)
    assert elementary.power_7(value) == pytest.approx(value**7, rel=1e-13)


@given(st.floats(-2000, 2000))
def test_sines_are_those_of_the_system(degrees: float) -> None:
    assert elementary.sine(degrees) == pytest.approx(math.sin(math.radians(degrees)), abs=1e-12)
    assert elementary.cosine(degrees) == pytest.approx(math.cos(math.radians(degrees)), abs=1e-12)


@given(st.floats(-200, 200), st.floats(-200, 200))
def test_directions_are_those_of_the_system(x: float, y: float) -> None:
    expected = math.degrees(math.atan2(y + 0.0, x + 0.0)) % 360  # a grey has no direction, whatever the zeros' signs
    apart = abs(elementary.direction(x, y) - expected)
    assert min(apart, 360 - apart) < 1e-12
    assert 0 <= elementary.direction(x, y) <= 360


@pytest.mark.parametrize(("x", "y", "degrees"), [(0, 0, 0), (1, 0, 0), (0, 2, 90), (-3, 0, 180), (0, -1, 270)])
def test_the_axes_have_their_angles_to_the_last_bit(x: float, y: float, degrees: float) -> None:
    assert elementary.direction(x, y) == degrees


@given(st.floats(-11, 11))
def test_the_bell_is_that_of_the_system(value: float) -> None:
    assert elementary.bell(value) == pytest.approx(math.exp(-value * value), rel=1e-12, abs=1e-30)
