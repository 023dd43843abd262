"""Figures as PNG, for slides, listings and link previews; CairoSVG draws them."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from seamleaf.booklet import Booklet, from_json
from seamleaf.drawing import COVER_SIZE, draw_cover, draw_figures

MOST_PIXELS: Final = 8000
"""Widest picture that is drawn."""


class PictureError(Exception):
    """Pictures that cannot be drawn, and what to do about it."""


def png_of(svg: str, width: int, height: int | None = None) -> bytes:
    """Draw a figure as PNG on white, so many pixels wide.

    Raises:
        PictureError: the system has no Cairo library.

    """
    try:
        import cairosvg  # type: ignore[import-untyped]  # it has none; late, since the Cairo library may be missing
    except OSError as fault:
        raise PictureError(f"pictures need the Cairo library of the system: {fault}") from None
    drawn: bytes = cairosvg.svg2png(
        bytestring=svg.encode("utf-8"), output_width=width, output_height=height, background_color="white"
    )
    return drawn


def cover_path(pattern_id: str) -> str:
    """Return where the cover picture of a pattern lies in the site."""
    return f"{pattern_id}/cover.png"


def cover_png(booklet: Booklet) -> bytes:
    """Draw the picture of a quilt for link previews.

    Raises:
        PictureError: as :func:`png_of`.

    """
    width, height = COVER_SIZE
    return png_of(draw_cover(booklet).svg, width, height)


def figure_pngs(path: Path, width: int) -> dict[str, bytes]:
    """Draw every figure of a published booklet, and its cover, by file name.

    Raises:
        PictureError: no booklet in the file, or as :func:`png_of`.
        OSError: the file cannot be read.

    """
    try:
        booklet = from_json(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise PictureError(f"{path}: no booklet: {fault}") from None
    found = {f"{figure.id}.png": png_of(figure.svg, width) for figure in draw_figures(booklet)}
    return {**found, "cover.png": cover_png(booklet)}
