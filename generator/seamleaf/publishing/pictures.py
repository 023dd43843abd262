"""The figures of one size as a page embeds them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from seamleaf.drawing import Figure

FIGURES_FOLDER: Final = "figures"
_PIXELS_PER_POINT: Final = 96 / 72


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A figure as an external image."""

    src: str
    alt: str
    width: int
    height: int
    kind: str
    about: dict[str, str]


class Pictures:
    """The figures of one size, found by what they show."""

    def __init__(self, figures: Sequence[Figure], folder: str) -> None:
        self._pictures = [_picture(figure, folder) for figure in figures]

    def of(self, kind: str, **about: str) -> list[Picture]:
        """Return the figures of a family that show what is asked for, in the order of drawing."""
        return [
            picture
            for picture in self._pictures
            if picture.kind == kind and all(picture.about.get(key) == value for key, value in about.items())
        ]


def figure_path(figure: Figure) -> str:
    """Return the path of a figure in its size's folder."""
    return f"{FIGURES_FOLDER}/{figure.id}.svg"


def _picture(figure: Figure, folder: str) -> Picture:
    return Picture(
        src=f"{folder}{figure_path(figure)}",
        alt=figure.title,
        width=round(figure.width * _PIXELS_PER_POINT),
        height=round(figure.height * _PIXELS_PER_POINT),
        kind=figure.kind,
        about=figure.about,
    )
