"""Figures as PNG, for slides, listings and link previews."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from seamleaf.booklet import Booklet, from_json
from seamleaf.drawing import COVER_SIZE, draw_cover, draw_figures
from seamleaf.publishing.paper import set_picture
from seamleaf.site.pages.published import Published, cover_path


class PictureError(Exception):
    """A file that holds no booklet to draw."""


def cover_png(booklet: Booklet) -> bytes:
    """Draw the picture of a quilt for link previews."""
    return set_picture(draw_cover(booklet), COVER_SIZE[0])


def with_cover(published: Published) -> Published:
    """Add the cover picture of a pattern, of its middle size as the gallery shows it."""
    if published.gallery is None or cover_path(published.id) in published.files:
        return published
    booklets = list(published.gallery().booklets.values())
    picture = cover_png(booklets[len(booklets) // 2])
    return replace(published, files={**published.files, cover_path(published.id): picture})


def figure_pngs(path: Path, width: int) -> dict[str, bytes]:
    """Draw every figure of a published booklet, and its cover, by file name.

    Raises:
        PictureError: no booklet in the file.
        OSError: the file cannot be read.

    """
    if path.exists() and not path.is_file():
        raise PictureError(f"{path}: no file, expected a booklet.json")
    try:
        booklet = from_json(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise PictureError(f"{path}: no booklet: {fault}") from None
    found = {f"{figure.id}.png": set_picture(figure, width) for figure in draw_figures(booklet)}
    return {**found, "cover.png": cover_png(booklet)}
