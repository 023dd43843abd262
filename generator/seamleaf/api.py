"""What programs of your own need: a pattern file to its geometry, booklets, figures and pages.

Each function is one step and takes what the step before returned. Lengths are exact, in the pattern's unit
(:class:`seamleaf.lengths.Length`); nothing is written to disk.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Literal

from seamleaf.booklet import Booklet, compare_stated, plan_booklets, to_json
from seamleaf.drawing import Figure, draw_figures
from seamleaf.lengths import CENTIMETRES, INCHES, Length, say_length
from seamleaf.publishing import load_templates, publish_pattern
from seamleaf.publishing.paper import set_picture
from seamleaf.reading import Pattern, PatternError
from seamleaf.site.files.sources import read_file
from seamleaf.site.work.pipeline import read_checked
from seamleaf.sizing import Quilt, size_quilt

__all__ = [
    "Booklet",
    "Figure",
    "Pattern",
    "PatternError",
    "Quilt",
    "draw",
    "picture",
    "plan",
    "publish",
    "read",
    "show",
    "size",
    "to_json",
]


def read(file: Path | str) -> Pattern:
    """Read a pattern file and check that everything in it fits together.

    Raises:
        PatternError: with every problem in ``problems``; ``problem.sentence(file)`` is a line for readers. A file that
            cannot be opened is a problem too.

    """
    path = Path(file)
    return read_checked(read_file(path), path.stem)


def size(pattern: Pattern, size_id: str) -> Quilt:
    """Work out the geometry of one size: its layout, its borders, and its finished width and height.

    Raises:
        KeyError: the pattern has no such size.
        PatternError: the size is too large, or no layout covers its bed.

    """
    return size_quilt(pattern, _known(pattern, size_id))


def plan(pattern: Pattern, size_id: str) -> Booklet:
    """Plan one size in full: fabric, cutting, sewing, pressing, layout and finishing.

    The booklet is the record that is published as JSON (``to_json``), key by key; counts are whole numbers.

    Raises:
        KeyError: the pattern has no such size.
        PatternError: with everything in the pattern that cannot be planned, or that differs from what it states.

    """
    booklets = plan_booklets(pattern, [_known(pattern, size_id)])
    if differences := compare_stated(pattern, booklets):
        raise PatternError(differences)
    return booklets[size_id]


def draw(booklet: Booklet) -> dict[str, Figure]:
    """Draw every figure of one size, by name: ``quilt``, ``key``, ``block-star``, ``row-1`` and so on.

    A figure holds its SVG as text in ``svg``, a sentence that stands for it in ``title``, and its size in points.
    """
    return {figure.id: figure for figure in draw_figures(booklet)}


def picture(figure: Figure, width: int = 2000) -> bytes:
    """Turn a figure into a PNG, ``width`` dots across, on a white ground.

    Raises:
        ValueError: a width below 1 or over 8000.

    """
    return set_picture(figure, width)


def publish(
    pattern: Pattern, booklets: Sequence[Booklet], *, templates: Path | None = None, language: str = "en"
) -> Mapping[str, bytes]:
    """Make the pages of a pattern in the sizes of these booklets, with their figures and data.

    Pages are Markdown, as MkDocs takes it. What is returned is path below the site to content. The proof, the search
    and the PDF files belong to a build and are not part of this.

    Args:
        templates: a folder with templates of your own.
        language: of pages and figures: en or de.

    Raises:
        TemplateError: a template of your own fails; the message names its line.

    """
    by_size = {booklet.size.id: booklet for booklet in booklets}
    loaded = load_templates(templates, language)
    figures = {name: draw_figures(booklet, loaded.wording.words) for name, booklet in by_size.items()}
    return publish_pattern(pattern, by_size, figures, loaded)


def show(value: Length | Fraction | int, unit: Literal["in", "cm", "yd", "m", "pack", "piece"]) -> str:
    """Write a length or a purchase as makers read it: 3 1/2 in, 7.5 cm, 1 1/8 yd, 2 packs.

    What no ruler shows is written as the nearest eighth of an inch or whole millimetre, with about before it.
    """
    if unit in ("pack", "piece"):
        return f"{value} {unit}{'' if value == 1 else 's'}"
    if not isinstance(value, Length):
        value = Length(value)
    return f"{say_length(value, CENTIMETRES if unit in ('cm', 'm') else INCHES)} {unit}"


def _known(pattern: Pattern, size_id: str) -> str:
    if size_id not in pattern.sizes:
        raise KeyError(f"no size {size_id!r} in {pattern.id}, only {', '.join(pattern.sizes)}")
    return size_id
