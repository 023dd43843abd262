"""Sizes as figures show them: glyph fractions, and "about" for what no ruler shows."""

from __future__ import annotations

from typing import Final

from seamleaf.booklet.record import Booklet, Box
from seamleaf.drawing.wording import say
from seamleaf.lengths import Length, format_rational, measures_of

_GLYPHS: Final = {
    "1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞",
}  # fmt: skip


def size_text(booklet: Booklet, length: Length) -> str:
    """Return a length without its unit: ``2½``; an irrational one is rounded to the nearest mark of the ruler."""
    shown = measures_of(booklet.unit).shown_size(length)
    text = format_rational(shown.a, booklet.unit)
    if booklet.unit == "cm":
        return text.replace(".", say("number.point"))
    whole, _, fraction = text.rpartition(" ")
    if fraction in _GLYPHS:
        return whole + _GLYPHS[fraction]
    return text


def box_text(booklet: Booklet, w: Length, h: Length, *, unit: bool = True) -> str:
    """Return a width and height, ``2½ × 4½ in``, with "about" before it when the ruler cannot show it exactly."""
    text = f"{size_text(booklet, w)} × {size_text(booklet, h)}"
    if unit:
        text = with_unit(booklet, text)
    return text if w.is_rational and h.is_rational else say("figure.about", size=text)


def with_unit(booklet: Booklet, text: str) -> str:
    """Return a size with the unit of the booklet."""
    return say(f"figure.unit.{booklet.unit}", size=text)


def unbroken(text: str) -> str:
    """Return a size that no line break splits, for captions."""
    return text.replace(" ", "\u00a0")


def unfinished(booklet: Booklet, box: Box) -> str:
    """Return the size of a unit with its seam allowances, as the maker measures it."""
    return say("figure.unfinished", size=box_text(booklet, box.w, box.h))


def source_text(source: str) -> str:
    """Return what a fabric is bought as, by the pattern's own name for it: ``squares 10``."""
    kind = source.rstrip("0123456789 /.")
    return say(f"figure.source.{kind.replace(' ', '-')}", side=source[len(kind) :].strip())
