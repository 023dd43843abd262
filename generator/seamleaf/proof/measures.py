"""Measures that a reader sees, in texts of pages, figures and paper, and those that a figure may show.

A figure shows the measures of what it is of: a step those of its unit and what is in it, a border those of its strips.
What another step measures would be right somewhere in the booklet, and wrong there.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import Book, lengths_in
from seamleaf.proof.record import Sheet

_GLYPHS: Final = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
    "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
}  # fmt: skip
_WHERE: Final = r"all|each|every|a|the|one|ein\w*|d(?:em|en|er|as|ie)|jede\w*|Reihe\w*|Größe\w*"
"""Words after an "in" that is no unit, in the languages of the pages."""
_MEASURE: Final = re.compile(
    rf"(?<![\w.])(?:(\d+)?([{''.join(_GLYPHS)}])(?! (?:turn|gedreht)\b)|(?:(\d+)[\s-])?(\d+)/(\d+)"
    rf"|(\d+(?:[.,]\d+)?)(?=\s*[×x]\s*\d|\s*(?:in|cm)\b(?!\s(?:{_WHERE})\b)))"
    rf"|(?<=×\s)(\d+(?:[.,]\d+)?)(?![\w{''.join(_GLYPHS)}/]|[.,]\d|\s\d+/)"
)
"""A number that is a measure: with a fraction that does not tell a turn, before a unit, or on a side of ``×``."""
_FIGURE: Final = re.compile(rf"[\d{''.join(_GLYPHS)}]")
_COUNT: Final = re.compile(r"(?<![\w.,/])[0-9]+(?![\w/]|[.,][0-9])", re.ASCII)


def measures_in(text: str) -> Iterator[tuple[str, Fraction]]:
    """Yield every measure in a text, as it stands there and as a number."""
    if _FIGURE.search(text) is None:  # most texts of a page hold none, and this is seen much sooner
        return
    for match in _MEASURE.finditer(text.replace("\N{FRACTION SLASH}", "/")):
        whole, glyph, more, top, bottom, plain, side = match.groups()
        if glyph:
            yield match[0], Fraction(int(whole or 0)) + _GLYPHS[glyph]
        elif bottom:
            yield match[0], Fraction(int(more or 0)) + (Fraction(int(top), int(bottom)) if int(bottom) else 0)
        else:
            yield match[0], Fraction((plain or side).replace(",", "."))


def counts_in(text: str) -> list[int]:
    """Return the whole numbers of a text that are no measure, and no part of a label or of a number with a point."""
    return [int(number) for number in _COUNT.findall(_MEASURE.sub(" ", text.replace("\N{FRACTION SLASH}", "/")))]


class Measures:
    """The measures of a booklet, by figure, as a reader sees them."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.inside = book.copies()
        self.everything = {*self._shown(book.lengths()), *self._shown([book.seam * 2])}
        booklet = book.booklet
        titles = [booklet.pattern.title, booklet.size.title, *(fabric.title for fabric in booklet.fabrics)]
        self.of_titles = {value for title in titles for _, value in measures_in(f"{title} in")}
        """What the designer's own titles hold: a quilt may be called Pond 44, and come in a size."""

    def of_figure(self, kind: str, of: str) -> set[Fraction]:
        """Return the measures that a figure may show, by the two parts of its name."""
        booklet = self.book.booklet
        own: Iterable[Length]
        if kind in ("step", "block", "gauge", "wrong") and of in self.book.units:
            own = self._of_unit(of)
        elif kind == "gauge":
            own = lengths_in(booklet.seam_test)
        elif kind == "border":
            own = self._of_border(of)
        elif kind == "backing":
            own = lengths_in((booklet.backing, booklet.finished))
        elif kind == "binding":
            own = lengths_in((booklet.binding, self.book.seam))
        elif kind in ("bed", "quilt", "lines", "grey"):
            own = lengths_in((booklet.finished, booklet.size))
        elif kind == "key":
            sources = {value for fabric in booklet.fabrics for _, value in measures_in(f"{fabric.source} in")}
            return sources | self.of_titles
        elif kind in ("legend", "layout"):
            own = ()
        else:
            return self.everything | self.of_titles
        return self._shown(own) | self.of_titles

    def of_sheet(self, sheet: Sheet) -> set[Fraction]:
        """Return the measures of a sheet and of what is left of it: from one edge of a patch or of it to another."""
        found = self._shown(lengths_in((sheet.sheet, sheet.parts)))
        w, h = sheet.sheet.sides
        for edges in (
            {ZERO, w, *(part.x for part in sheet.parts), *(part.x + part.w for part in sheet.parts)},
            {ZERO, h, *(part.y for part in sheet.parts), *(part.y + part.h for part in sheet.parts)},
        ):
            found |= self._shown(a - b for a in edges for b in edges if a > b)
        return found | self.of_titles

    def _of_unit(self, name: str) -> Iterator[Length]:
        """Yield the measures of a unit, of the units in it and of their patches."""
        yield self.book.seam
        for inner in self.inside[name]:
            unit = self.book.units[inner]
            yield from lengths_in((unit.made, unit.trim, unit.finished, unit.offset))
            for label in {*unit.batch, *(region.label for region in unit.regions)} & self.book.patches.keys():
                yield from lengths_in(self.book.patches[label])

    def _of_border(self, of: str) -> Iterator[Length]:
        """Yield the measures of a border, and of those that are mitred with it as one."""
        borders = self.book.booklet.borders
        together = {
            order for border in borders if str(border.order) == of for order in (border.order, *border.together)
        }
        for border in borders:
            if border.order in together:
                yield Length(border.order)  # "border 1 in pieced strips"
                yield from lengths_in((border, self.book.seam))
                yield from (length for strip in border.strips if strip.unit for length in self._of_unit(strip.unit))
                labels = {border.label, border.corners, *(strip.label for strip in border.strips)}
                yield from (length for label in labels if label for length in lengths_in(self.book.patches[label]))

    def _shown(self, lengths: Iterable[Length]) -> set[Fraction]:
        grid = self.book.grid
        return {(length if length.is_rational else length.round_nearest(grid)).a for length in lengths}
