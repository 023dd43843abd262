"""Colours as whole numbers: CIELAB and CIEDE2000 in hundredths, and hue families.

Each is rounded to hundredths as soon as it is made, and nothing is decided by a float itself. What is rounded has the
same bits on every machine (``elementary.py``), so the hundredths are the same too.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from seamleaf.planning.print_records import Family
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.elementary import bell, cosine, cube_root, direction, power_2_4, power_7, sine

Lab = tuple[int, int, int]
"""Lightness, a and b of CIELAB under D65, in hundredths."""

_RED: Final = (0.4124564, 0.2126729, 0.0193339)
_GREEN: Final = (0.3575761, 0.7151522, 0.1191920)
_BLUE: Final = (0.1804375, 0.0721750, 0.9503041)
"""X, Y and Z of the primaries of sRGB (IEC 61966-2-1); their sums are the white, so that every grey has a = b = 0."""
_WHITE: Final = tuple(r + g + b for r, g, b in zip(_RED, _GREEN, _BLUE, strict=True))

_BACK: Final = (
    (3.2404542, -1.5371385, -0.4985314),
    (-0.9692660, 1.8760108, 0.0415560),
    (0.0556434, -0.2040259, 1.0572252),
)
"""From X, Y and Z back to linear red, green and blue: the inverse of the columns above."""

_FAR: Final = 6103515625.0
"""25 to the power 7, as the formula of CIEDE2000 has it."""

NEUTRAL: Final = 0
"""The family without a hue; family n begins at the n-th angle of ``CONVENTIONS.hues``."""
FAMILIES: Final[tuple[Family, ...]] = ("neutral", "red", "orange", "yellow", "green", "teal", "blue", "violet", "pink")
"""Their names, by number."""


def lab_of(colour: str) -> Lab:
    """Return the CIELAB value of ``#rrggbb``."""
    return lab_of_channels(int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16))


def lab_of_channels(red: int, green: int, blue: int) -> Lab:
    """Return the CIELAB value of an sRGB colour of 8 bits a channel."""
    lightness, a, b = _cielab(red, green, blue)
    return hundredths(lightness), hundredths(a), hundredths(b)


def colour_of(lab: Lab) -> str:
    """Return the ``#rrggbb`` nearest to a CIELAB value, channel by channel in linear light; what sRGB lacks is cut."""
    y = (lab[0] / 100 + 16) / 116
    shares = []
    for root, white in zip((y + lab[1] / 50000, y, y - lab[2] / 20000), _WHITE, strict=True):
        cube = root * root * root
        shares.append(white * (cube if cube > 216 / 24389 else (116 * root - 16) * 27 / 24389))
    return "#" + "".join(
        f"{_nearest_channel(sum(k * v for k, v in zip(row, shares, strict=True))):02x}" for row in _BACK
    )


def _nearest_channel(linear: float) -> int:
    return min(range(256), key=lambda channel: abs(_decoded(channel) - linear))


def hundredths(value: float) -> int:
    """Round to hundredths, a tie upward, as JavaScript's ``Math.round`` does."""
    return math.floor(value * 100 + 0.5)


def difference(one: Lab, other: Lab) -> int:
    """Return the CIEDE2000 difference in hundredths."""
    return hundredths(ciede2000([value / 100 for value in one], [value / 100 for value in other]))


def ciede2000(one: Sequence[float], other: Sequence[float]) -> float:
    """Return the CIEDE2000 difference of two CIELAB values, with all parametric factors 1.

    After Sharma, Wu and Dalal, Color Research and Application 30(1), 2005, pages 21-30. The formula jumps where two
    hues lie opposite each other; which side a pair is on is told by the sign of a1 b2 - a2 b1, not from two arcs.
    """
    (l1, a1, b1), (l2, a2, b2) = one, other
    mean_c7 = power_7((math.sqrt(a1 * a1 + b1 * b1) + math.sqrt(a2 * a2 + b2 * b2)) / 2)
    stretch = 1.5 - 0.5 * math.sqrt(mean_c7 / (mean_c7 + _FAR))
    c1 = math.sqrt(a1 * stretch * a1 * stretch + b1 * b1)
    c2 = math.sqrt(a2 * stretch * a2 * stretch + b2 * b2)
    h1, h2 = direction(a1 * stretch, b1), direction(a2 * stretch, b2)
    turn, hue = _turn_and_hue(h1, h2, a1 * b2 - a2 * b1, grey=c1 * c2 == 0)
    light, chroma = (l1 + l2) / 2, (c1 + c2) / 2
    weight = (
        1 - 0.17 * cosine(hue - 30) + 0.24 * cosine(2 * hue) + 0.32 * cosine(3 * hue + 6) - 0.20 * cosine(4 * hue - 63)
    )
    off = (light - 50) * (light - 50)
    d_light = (l2 - l1) / (1 + 0.015 * off / math.sqrt(20 + off))
    d_chroma = (c2 - c1) / (1 + 0.045 * chroma)
    d_hue = 2 * math.sqrt(c1 * c2) * sine(turn / 2) / (1 + 0.015 * chroma * weight)
    around = (hue - 275) / 25
    chroma7 = power_7(chroma)
    twist = -2 * math.sqrt(chroma7 / (chroma7 + _FAR)) * sine(60 * bell(around))
    square = d_light * d_light + d_chroma * d_chroma + d_hue * d_hue + twist * d_chroma * d_hue
    return math.sqrt(max(square, 0.0))


def family_of(lab: Lab) -> int:
    """Return the hue family of a colour, by number."""
    _, a, b = lab
    if a * a + b * b < CONVENTIONS.grey * CONVENTIONS.grey:
        return NEUTRAL
    hue = direction(a, b)
    return sum(hue >= start for start in CONVENTIONS.hues) or len(CONVENTIONS.hues)


def _cielab(red: int, green: int, blue: int) -> tuple[float, float, float]:
    linear = [_decoded(channel) for channel in (red, green, blue)]
    roots = []
    for r, g, b, white in zip(_RED, _GREEN, _BLUE, _WHITE, strict=True):
        t = (r * linear[0] + g * linear[1] + b * linear[2]) / white
        roots.append(cube_root(t) if t > 216 / 24389 else (24389 / 27 * t + 16) / 116)
    x, y, z = roots
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _decoded(channel: int) -> float:
    value = channel / 255
    return value / 12.92 if value <= 0.04045 else power_2_4((value + 0.055) / 1.055)


def _turn_and_hue(h1: float, h2: float, cross: float, *, grey: bool) -> tuple[float, float]:
    """Return the turn from one hue to the other, -180 to 180, and the hue between them."""
    if grey:
        return 0.0, h1 + h2
    turn = h2 - h1
    if turn > 0 and cross < 0 and turn > 90:  # over 180: the short way round is backward, through 0
        turn -= 360
    elif turn < 0 and cross > 0 and turn < -90:
        turn += 360
    else:
        return turn, (h1 + h2) / 2
    total = h1 + h2
    return turn, (total + 360) / 2 if total < 360 else (total - 360) / 2
