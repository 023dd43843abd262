"""Values written as text: lengths, sizes, counts, titles, choices, colours.

Every method takes the node (``None``: the key is not there, which whoever opened the mapping has dealt with) and
the value to go on with; what cannot be read is reported, and the default returned.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final, TypeVar

from seamleaf.lengths import Length, LengthError, Measures, parse_length
from seamleaf.reading.limits import MAX_INCHES, MAX_TITLE
from seamleaf.reading.marks import Mark
from seamleaf.reading.nodes import Node, Refused, Scalar
from seamleaf.reading.problems import Report
from seamleaf.reading.refused import refusal
from seamleaf.reading.wording import did_you_mean, found, one_of, quoted

D = TypeVar("D")
C = TypeVar("C", bound=str)

_COUNT = re.compile(r"[0-9]{1,6}")
_SIGNS = re.compile(r"\s*(?:\bby\b|[*+,;/](?=\s))\s*")
_PLAIN = re.compile(r"[0-9][0-9 ./]*")
_COUNTS = re.compile(r"([0-9]{1,6}) *[xX×] *([0-9]{1,6})")
_COLOUR = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})")
_COMMA = re.compile(r"[0-9]+,[0-9]+")
_OTHER_UNIT = re.compile(r"[0-9] *[^\W\d_]+$")
_TIMES = re.compile(r"[xX×]")
_HOURS: Final = {"h": Fraction(1), "min": Fraction(1, 60)}


class Scalars:
    """Reads values of one pattern: lengths without a unit are in the unit of ``measures``."""

    def __init__(self, measures: Measures, report: Report) -> None:
        self.measures = measures
        self._report = report
        self._longest = measures.inch * MAX_INCHES

    # ------------------------------------------------------------------------------------------- text

    def text(self, node: Node | None, what: str) -> Scalar | None:
        """Return a text that is not empty, with outer blanks removed; ``what`` is expected there."""
        if node is None or isinstance(node, Refused):
            return None
        if isinstance(node, Scalar) and node.text.strip():
            return Scalar(text=node.text.strip(), where=node.where)
        self._report.add(node.where, found(node), what)
        return None

    def title(self, node: Node | None, default: str, what: str = "a title") -> str:
        """Read one line of text, at most 200 characters."""
        text = self.text(node, f"{what} of at most {MAX_TITLE} characters")
        if text is None:
            return default
        if "\n" in text.text:
            self._report.add(text.where, "text of several lines", f"{what} on one line")
        elif len(text.text) > MAX_TITLE:
            self._report.add(text.where, f"{what} of {len(text.text)} characters", f"at most {MAX_TITLE} characters")
        else:
            return text.text
        return " ".join(text.text[:MAX_TITLE].split())

    def paragraph(self, node: Node | None, default: str) -> str:
        """Read text of any length as one paragraph."""
        text = self.text(node, "a paragraph of text")
        return default if text is None else " ".join(text.text.split())

    def choice(self, node: Node | None, choices: tuple[C, ...]) -> C | None:
        """Read one of a few words; ``None`` when it is none of them."""
        text = self.text(node, one_of(choices))
        if text is None:
            return None
        for choice in choices:
            if text.text == choice:
                return choice
        refused = refusal(text.text)
        if refused is not None:
            self._report.add(text.where, *refused)
        else:
            self._report.add(text.where, quoted(text.text), one_of(choices), did_you_mean(text.text, choices))
        return None

    def flag(self, node: Node | None, default: bool) -> bool:
        """Read ``true`` or ``false``."""
        text = self.text(node, "true or false")
        if text is None:
            return default
        if text.text not in ("true", "false"):
            meant = {"yes": "true", "on": "true", "no": "false", "off": "false"}.get(text.text.lower())
            hint = f"write {meant}" if meant else did_you_mean(text.text, ("true", "false"))
            self._report.add(text.where, quoted(text.text), "true or false", hint)
            return default
        return text.text == "true"

    def colour(self, node: Node | None, default: D) -> str | D:
        """Read ``#rgb`` or ``#rrggbb``, returned as ``#rrggbb`` in lower case."""
        if isinstance(node, Scalar) and not node.text:
            self._report.add(node.where, "nothing", 'a colour in quotes, such as "#1f2f4a"', "# begins a comment")
            return default
        text = self.text(node, 'a colour such as "#1f2f4a"')
        if text is None:
            return default
        colour = text.text.lower()
        if _COLOUR.fullmatch(colour) is None:
            hint = "put it between straight quotes" if text.text[0] in "“”„‘’" else ""
            self._report.add(text.where, f"colour {quoted(text.text)}", 'a colour such as "#1f2f4a"', hint)
            return default
        return colour if len(colour) == 7 else "#" + "".join(digit * 2 for digit in colour[1:])

    # ---------------------------------------------------------------------------------------- numbers

    def count(self, node: Node | None, default: D, *, most: int, what: str) -> int | D:
        """Read a whole number from 1 to ``most``."""
        expected = f"{what}: a whole number from 1 to {most}"
        text = self.text(node, expected)
        if text is None:
            return default
        if _COUNT.fullmatch(text.text) is None or not 1 <= int(text.text) <= most:
            self._report.add(text.where, quoted(text.text), expected)
            return default
        return int(text.text)

    def counts(self, node: Node | None, default: D) -> tuple[int, int] | D:
        """Read ``across x down``, both at least 1."""
        expected = "blocks across x down, such as 4 x 5"
        text = self.text(node, expected)
        if text is None:
            return default
        match = _COUNTS.fullmatch(text.text)
        across, down = (0, 0) if match is None else (int(match[1]), int(match[2]))
        if not across or not down:
            self._report.add(text.where, quoted(text.text), expected, _crossed(text.text))
            return default
        return across, down

    def hours(self, node: Node | None, default: D) -> Fraction | D:
        """Read ``3 h`` or ``90 min``, over 0 and up to a day."""
        expected = "the length of a session, such as 3 h or 90 min"
        text = self.text(node, expected)
        if text is None:
            return default
        unit = next((unit for unit in _HOURS if text.text.endswith(unit)), "")
        try:
            value = parse_length(text.text.removesuffix(unit), "plain").a * _HOURS.get(unit, 1)
        except LengthError:
            self._report.add(text.where, quoted(text.text), expected)
            return default
        if not 0 < value <= 24:
            hint = "" if unit else "such as 3 h or 90 min"
            self._report.add(text.where, quoted(text.text), "a session over 0 h and up to 24 h", hint)
            return default
        return value

    # ---------------------------------------------------------------------------------------- lengths

    @property
    def a_length(self) -> str:
        """Say what a length looks like in this pattern."""
        return "a length such as 2 1/2" if self.measures.unit == "in" else "a length such as 6.5"

    def length(self, node: Node | None, default: D, *, zero: bool = False) -> Length | D:
        """Read a length over 0 (``zero``: or 0) and up to 400 in."""
        text = self.text(node, self.a_length)
        if text is None:
            return default
        value = self.length_of(text.text, text.where, zero=zero)
        return default if value is None else value

    def length_of(self, text: str, where: Mark, *, zero: bool = False) -> Length | None:
        """Read a length from a part of a text that stands at ``where``."""
        try:
            value = parse_length(text, self.measures.unit)
        except LengthError:
            hint = f"write a point for the comma: {text.replace(',', '.')}" if _COMMA.fullmatch(text) else ""
            if _OTHER_UNIT.search(text):
                hint = "units are in, cm and mm; a number alone is in the pattern's unit"
            self._report.add(where, quoted(text) if text.strip() else "nothing", self.a_length, hint)
            return None
        if value > self._longest:
            most = f"at most {MAX_INCHES} in" + ("" if self.measures.unit == "in" else f" ({self._longest} cm)")
            self._report.add(where, f"the length {quoted(text)}", most)
            return None
        if not value and not zero:
            self._report.add(where, f"the length {quoted(text)}", "a length over 0")
            return None
        return value

    def pair(
        self, node: Node | None, default: D, what: str = "width x height, such as 4 x 2"
    ) -> tuple[Length, Length] | D:
        """Read ``W x H``."""
        text = self.text(node, what)
        if text is None:
            return default
        value = self.pair_of(text.text, text.where, what)
        return default if value is None else value

    def pair_of(self, text: str, where: Mark, expected: str) -> tuple[Length, Length] | None:
        """Read ``W x H`` from a part of a text that stands at ``where``."""
        sides = _TIMES.split(text)
        if len(sides) != 2 or not all(side.strip() for side in sides):
            self._report.add(where, quoted(text), expected, _crossed(text))
            return None
        w, h = (self.length_of(side.strip(), where) for side in sides)
        return None if w is None or h is None else (w, h)


def _crossed(text: str) -> str:
    """Return the hint for two sides that are joined by another sign than x, or for one side of a square."""
    sides = [side.strip() for side in _SIGNS.split(text)]
    if len(sides) > 2 or not all(_PLAIN.fullmatch(side) for side in sides):
        return ""
    return f"did you mean '{sides[0]} x {sides[-1]}'?"
