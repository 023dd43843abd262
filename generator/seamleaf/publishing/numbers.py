"""Numbers of the booklet as a page shows them: always with the exact value and the place that it comes from.

Templates and views never write a number: they name it by its JSON Pointer, and this module looks it up, sets
it as type and wraps it in ``<data value="EXACT" data-from="POINTER">``.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from markupsafe import Markup

from seamleaf.lengths import Length, Measures, format_rational, mixed_parts
from seamleaf.publishing.escaping import plain_text
from seamleaf.publishing.pointer import resolve
from seamleaf.publishing.wording import Wording


@dataclass(frozen=True, slots=True)
class Bound:
    """A number that is set in a page, with its value, by which a text chooses between one and many."""

    value: int | Length | Fraction | str
    markup: Markup

    def __html__(self) -> Markup:
        return self.markup

    def __str__(self) -> str:
        return str(self.markup)


class Numbers:
    """The numbers of one booklet, for one page.

    ``source`` stands before each pointer in ``data-from``: empty on a size's own pages, whose booklet is the
    ``booklet.json`` of their folder, and ``<path>/booklet.json#`` on a page that shows several sizes.
    """

    def __init__(self, document: Any, measures: Measures, wording: Wording, source: str = "") -> None:
        self._document = document
        self._measures = measures
        self._wording = wording
        self._source = source

    def at(self, path: str) -> Any:
        """Return the JSON value at a pointer."""
        return resolve(self._document, path)

    def num(self, path: str) -> Bound:
        """Set a count, an index or a turn."""
        value = self.at(path)
        if not isinstance(value, int) or isinstance(value, bool):
            raise TypeError(f"{path} is not a count: {value!r}")
        return Bound(value, self._data(path, str(value), Markup(str(value))))  # noqa: S704 -- digits

    def length(self, path: str) -> Bound:
        """Set a length without its unit; an irrational one is rounded for reading and preceded by "about"."""
        exact = self._length(path)
        shown = self._measures.shown_size(exact)
        data = self._data(path, exact.exact_text(), self._typeset(shown.a))
        return Bound(exact, data if exact.is_rational else self._wording.say("number.about", size=data))

    def size(self, path: str) -> Bound:
        """Set a length with its unit."""
        bound = self.length(path)
        return Bound(bound.value, self._keep(self._with_unit(bound.markup)))

    def cut(self, path: str) -> Bound:
        """Set a length that is cut or trimmed, so that a ruler must show it exactly."""
        if not self._length(path).is_rational:
            raise TypeError(f"{path} cannot be cut with a ruler: {self.at(path)}")
        return self.size(path)

    def box(self, path: str, *, about: bool = True) -> Bound:
        """Set width by height with the unit once; ``about=False`` refuses irrational sides, as for a cut."""
        ends = [f"{path}/w", f"{path}/h"]
        if not about:
            for end in ends:
                self.cut(end)
        rational = all(self._length(end).is_rational for end in ends)
        sides = [self._data(e, self.at(e), self._typeset(self._measures.shown_size(self._length(e)).a)) for e in ends]
        text = self._with_unit(self._wording.say("number.by", w=sides[0], h=sides[1]))
        text = self._keep(text if rational else self._wording.say("number.about", size=text))
        return Bound(self._length(ends[0]), text)

    def cut_box(self, path: str) -> Bound:
        """Set the width by the height of something that is cut or trimmed."""
        return self.box(path, about=False)

    def amount(self, path: str) -> Bound:
        """Set a purchase, ``{amount, unit}``, with its unit."""
        value, unit = Fraction(self.at(f"{path}/amount")), self.at(f"{path}/unit")
        shown = self._typeset(value, decimal=unit == "m")
        data = Bound(value, self._data(f"{path}/amount", str(value), shown))
        return Bound(value, self._keep(self._wording.say(f"number.{unit}", n=data)))

    def hours(self, path: str) -> Bound:
        """Set a number of hours, in halves."""
        value = Fraction(self.at(path))
        return Bound(value, self._data(path, str(value), self._typeset(value, decimal=self._measures.unit == "cm")))

    def source(self, path: str) -> Bound:
        """Set a fabric's source: the words for its kind, with the size that the pattern names."""
        text = str(self.at(path))
        kind = text.rstrip("0123456789 /.").strip()
        rest = text[len(kind) :].strip()
        whole, _, part = rest.partition(" ")
        shown = self._typeset(Fraction(whole) + Fraction(part or 0)) if rest else Markup()
        words = self._wording.say(f"source.{kind.replace(' ', '-')}", side=shown)
        return Bound(text, self._data(path, text, words) if rest else words)

    def word(self, path: str) -> Bound:
        """Set a text that reads as a number, such as the ``2.1`` of a block: row and place."""
        value = str(self.at(path))
        return Bound(value, self._data(path, value, plain_text(value)))

    def _length(self, path: str) -> Length:
        value = self.at(path)
        if not isinstance(value, str):
            raise TypeError(f"{path} is not a length: {value!r}")
        return Length.from_exact_text(value)

    def _with_unit(self, number: Markup) -> Markup:
        return self._wording.say(f"number.{self._measures.unit}", size=number)

    def _keep(self, text: Markup) -> Markup:
        return Markup('<span class="sl-size">{}</span>').format(text)

    def _data(self, path: str, value: Any, shown: Markup) -> Markup:
        template = Markup('<data value="{}" data-from="{}">{}</data>')
        return template.format(str(value), self._source + path, shown)

    def _typeset(self, value: Fraction, *, decimal: bool | None = None) -> Markup:
        """Set a non-negative rational: inches and yards as mixed fractions, centimetres and metres as decimals."""
        if decimal or (decimal is None and self._measures.unit == "cm"):
            point = str(self._wording.say("number.point"))
            return Markup(format_rational(value, "cm").replace(".", point))  # noqa: S704 -- digits
        return typeset_fraction(value)


def typeset_fraction(value: Fraction) -> Markup:
    """Set a mixed number as type; copied as text, and spoken, it reads ``3 1/2`` and never ``31/2``.

    The space between whole and fraction stays in the text; the style sheet draws the fraction near, so that the eye
    reads one number as well.
    """
    whole, top, bottom = mixed_parts(value)
    if not top:
        return Markup(str(whole))  # noqa: S704 -- digits
    kind = "sl-fraction sl-fraction--mixed" if whole else "sl-fraction"
    fraction = Markup('<span class="{}"><sup>{}</sup>&frasl;<sub>{}</sub></span>').format(kind, top, bottom)
    return Markup("{}&nbsp;{}").format(whole, fraction) if whole else fraction
