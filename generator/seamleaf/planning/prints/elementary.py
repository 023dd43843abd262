"""Roots, angles and powers by adding, multiplying, dividing and square roots alone, for colours.

IEEE 754 says to the last bit what these four give, and says it of no power and no sine: those differ between systems.
So what is made here has the same bits on every machine, and in the browser, whose twin of this module makes the same
steps in the same order. Every function is exact to some 1e-13, far beyond what a colour needs.
"""

from __future__ import annotations

import math
from typing import Final

_RADIAN: Final = 180 / math.pi
_STEPS: Final = 12
"""Steps of Newton's method; each doubles the digits that are right."""


def cube_root(value: float) -> float:
    """Return the cube root of 0.001 to 2."""
    root = (1 + 2 * value) / 3
    for _ in range(_STEPS):
        root = (2 * root + value / (root * root)) / 3
    return root


def power_2_4(value: float) -> float:
    """Return the power 2.4 of 0.01 to 1."""
    root = 1.0  # the fifth one
    for _ in range(_STEPS):
        root = (4 * root + value / (root * root * root * root)) / 5
    return value * value * root * root


def power_7(value: float) -> float:
    """Return the power 7."""
    cube = value * value * value
    return cube * cube * value


def sine(degrees: float) -> float:
    """Return the sine of an angle, by its series within a quarter of the circle."""
    turned = degrees - 360 * math.floor(degrees / 360 + 0.5)
    if turned > 90:
        turned = 180 - turned
    elif turned < -90:
        turned = -180 - turned
    angle = turned / _RADIAN
    term, total = angle, angle
    for power in range(3, 28, 2):
        term = -term * angle * angle / (power * (power - 1))
        total += term
    return total


def cosine(degrees: float) -> float:
    """Return the cosine of an angle."""
    return sine(degrees + 90)


def direction(x: float, y: float) -> float:
    """Return the angle from the x axis to a point, 0 to 360 degrees; 0 for the origin."""
    wide, high = abs(x), abs(y)
    if wide == 0 and high == 0:
        return 0.0
    slope = min(wide, high) / max(wide, high)
    for _ in range(2):  # half the angle, twice
        slope = slope / (1 + math.sqrt(1 + slope * slope))
    power, total = slope, slope
    for odd in range(3, 26, 2):
        power = -power * slope * slope
        total += power / odd
    angle = 4 * total * _RADIAN
    if high > wide:
        angle = 90 - angle
    if x < 0:
        angle = 180 - angle
    return 360 - angle if y < 0 else angle


def bell(value: float) -> float:
    """Return e^(-value^2), for values up to 20 either way."""
    small = value * value / 1024
    term, total = 1.0, 1.0
    for power in range(1, 25):
        term = -term * small / power
        total += term
    for _ in range(10):
        total = total * total
    return total
