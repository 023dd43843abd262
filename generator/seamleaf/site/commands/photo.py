"""Colours from a photo of squares that lie in a grid: mean colour of each in CIELAB, and spread of its lightness.

Only the middle of each square is looked at, since its edges hold shadows, pinking and what lies beside it. The numbers
are whole hundredths of CIELAB and the same on every machine for the same pixels.
"""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from PIL import Image, ImageOps, UnidentifiedImageError

from seamleaf.planning.prints.colour import Lab, colour_of, lab_of_channels

FORMATS: Final = ("JPEG", "PNG", "WEBP")
_MIDDLE: Final = 60
"""Percent of the side of a square that are looked at."""
_SAMPLES: Final = 48
"""Pixels along a side of that middle, at most."""
_LEAST: Final = 8
"""Pixels along a side of a square, at least."""


class PhotoError(ValueError):
    """A photo that cannot be read, or too small for its grid; the message says what was found and expected."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One square of a photo."""

    colour: str
    """#rrggbb nearest to its mean in CIELAB."""
    lab: Lab
    spread: int
    """From the 5th to the 95th percentile of its lightness, in hundredths of L*."""


def read_photo(path: Path, across: int, down: int) -> list[Seen]:
    """Read the squares of a photo, left to right and top to bottom.

    Args:
        path: of a JPEG, PNG or WebP, taken straight from above; its colours are taken for sRGB.
        across: squares side by side; the grid fills the photo.
        down: squares one below the other.

    Raises:
        PhotoError: no such photo, or fewer than 8 pixels a square.

    """
    picture = _opened(path)
    wide, high = picture.size
    if min(wide // across, high // down) < _LEAST:
        raise PhotoError(
            f"{wide} x {high} pixels for {across} x {down} squares, expected at least {_LEAST} x {_LEAST} a square"
        )
    return [
        _seen(picture, (wide * i // across, wide * (i + 1) // across), (high * j // down, high * (j + 1) // down))
        for j in range(down)
        for i in range(across)
    ]


def yaml_lines(squares: Sequence[Seen]) -> list[str]:
    """Return the squares as the ``colours`` of a fabric."""
    lines = ["colours:  # left to right, top to bottom"]
    for seen in squares:
        lightness, spread = (seen.lab[0] + 50) // 100, (seen.spread + 50) // 100
        lines.append(f'  - "{seen.colour}"  # L* {lightness}, spread {spread}')
    return lines


def _opened(path: Path) -> Image.Image:
    if path.exists() and not path.is_file():
        raise PhotoError("no file, expected a photo")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(path, formats=FORMATS) as picture:
                return ImageOps.exif_transpose(picture).convert("RGB")
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotoError(f"too many pixels, expected at most {Image.MAX_IMAGE_PIXELS}") from None
    except UnidentifiedImageError:
        raise PhotoError(f"no picture of a kind that is read, expected {', '.join(FORMATS)}") from None
    except (OSError, SyntaxError, ValueError) as fault:
        raise PhotoError(getattr(fault, "strerror", None) or f"a picture that cannot be read: {fault}") from None


def _seen(picture: Image.Image, columns: tuple[int, int], lines: tuple[int, int]) -> Seen:
    known: dict[tuple[int, int, int], Lab] = {}
    labs: list[Lab] = []
    for y in _spots(*lines):
        for x in _spots(*columns):
            pixel = picture.getpixel((x, y))
            assert isinstance(pixel, tuple)  # noqa: S101 -- three channels, as converted
            red, green, blue = (int(channel) for channel in pixel)
            if (red, green, blue) not in known:
                known[red, green, blue] = lab_of_channels(red, green, blue)
            labs.append(known[red, green, blue])
    count = len(labs)
    lightness, a, b = ((2 * sum(lab[at] for lab in labs) + count) // (2 * count) for at in range(3))
    ordered = sorted(lab[0] for lab in labs)
    spread = ordered[(count - 1) * 95 // 100] - ordered[(count - 1) * 5 // 100]
    return Seen(colour=colour_of((lightness, a, b)), lab=(lightness, a, b), spread=spread)


def _spots(start: int, end: int) -> list[int]:
    """Return pixels spread evenly over the middle of a stretch."""
    length = end - start
    first, middle = start + length * (100 - _MIDDLE) // 200, max(1, length * _MIDDLE // 100)
    samples = min(_SAMPLES, middle)
    return [first + (2 * at + 1) * middle // (2 * samples) for at in range(samples)]
