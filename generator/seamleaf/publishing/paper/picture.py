"""A figure as a picture of dots, for whoever takes no SVG."""

from __future__ import annotations

from typing import Any, Final

import typst

from seamleaf.drawing import Figure

WIDEST: Final = 8000
"""Dots across, at most."""


def set_picture(figure: Figure, width: int) -> bytes:
    """Draw a figure as PNG on a white ground, so many dots wide; the same figure gives the same bytes.

    Raises:
        ValueError: a width below 1 or over 8000.

    """
    if not 1 <= width <= WIDEST:
        raise ValueError(f"found a width of {width} dots, expected 1 to {WIDEST}")
    source = (
        "#set page(width: auto, height: auto, margin: 0pt, fill: white)\n"
        f'#image("figure.svg", width: {width}pt)\n'  # at 72 dots an inch a point is a dot
    )
    files: Any = {"main": source.encode("utf-8"), "figure.svg": figure.svg.encode("utf-8")}
    found = typst.compile(files, format="png", ppi=72, ignore_system_fonts=True)
    assert isinstance(found, bytes)  # noqa: S101 -- one page, one picture
    return found
