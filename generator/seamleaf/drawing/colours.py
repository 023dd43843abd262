"""Colours as numbers: mixing, lightness and contrast."""

from __future__ import annotations

import functools
from typing import Final

INK: Final = "#1b1b1f"
"""Of text, arrows and outlines."""
BLACK: Final = "#000000"
PAPER: Final = "#ffffff"
SOFT: Final = "#6b6b73"
"""Of lines that stand back; still 4.5:1 on paper, so text may have it too."""
PALE: Final = "#e9e9ec"
"""Of what is sewn already or not looked at now."""
REQUIRED_CONTRAST: Final = 4.5
"""Between text and what is behind it: WCAG 2.2, success criterion 1.4.3."""


def channels(colour: str) -> tuple[int, int, int]:
    """Return red, green and blue of ``#rrggbb``, each 0 to 255."""
    return (int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16))


def mix(one: str, other: str, percent: int) -> str:
    """Return ``one`` with that many percent of ``other`` mixed in, in whole numbers so that it is the same anywhere."""
    mixed = [
        (a * (100 - percent) + b * percent + 50) // 100 for a, b in zip(channels(one), channels(other), strict=True)
    ]
    return f"#{mixed[0]:02x}{mixed[1]:02x}{mixed[2]:02x}"


@functools.lru_cache(maxsize=1024)
def luminance(colour: str) -> float:
    """Return the relative luminance, 0 to 1, as WCAG 2.2 defines it."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (v / 255 for v in channels(colour))]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio, 1 to 21, as WCAG 2.2 defines it."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@functools.lru_cache(maxsize=1024)
def ink_on(colour: str) -> str:
    """Return a text colour that stands out from a patch of this colour as required: ink, paper, or at worst black.

    Black or white reaches 4.58:1 on any colour; the ink, a little lighter than black, falls short on a few greys.
    """
    return next((ink for ink in (INK, PAPER) if contrast(ink, colour) >= REQUIRED_CONTRAST), BLACK)


@functools.lru_cache(maxsize=1024)
def grey_of(colour: str) -> str:
    """Return the grey that is as light: the darkest of the 256 whose luminance is not below the colour's."""
    light, low, high = luminance(colour), 0, 255
    while low < high:
        middle = (low + high) // 2
        # The small allowance keeps a grey itself, whatever the last bit of its luminance.
        if luminance(f"#{middle:02x}{middle:02x}{middle:02x}") < light - 1e-9:
            low = middle + 1
        else:
            high = middle
    return f"#{low:02x}{low:02x}{low:02x}"
