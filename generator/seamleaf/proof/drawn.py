"""What a reader sees of a figure: patches, press arrows and texts of an SVG file.

Nothing is known here of how a figure is made: patches are groups that begin with an outline, press arrows are dark
polygons of seven corners (ten where the seam is pressed open), texts are texts.
"""

from __future__ import annotations

import contextlib
import html
import re
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Final
from xml.parsers import expat

from seamleaf.proof.report import Findings

FIGURES: Final = "figures"
MAX_BYTES: Final = 16 * 2**20

_HEAD: Final = 8192
_TITLE: Final = re.compile(r"<title[^>]*>([^<]*)</title>")
_DARK: Final = "#1b1b1f"
_PAPER: Final = "#ffffff"

Way = tuple[int, int] | str
"""Where an arrow leads, by the signs of x and y; ``open`` for one with two heads, ``spin`` for a ring."""


@dataclass(slots=True)
class Drawing:
    """What a reader sees of one figure."""

    texts: list[str] = field(default_factory=list)
    title: str = ""
    desc: str = ""
    arrows: list[Way] = field(default_factory=list)
    ahead: list[str] = field(default_factory=list)
    """For each arrow the text of its picture that it points at; empty where there is none ahead of it."""
    patches: int = 0
    _near: list[tuple[int, Fraction, Fraction]] = field(default_factory=list)
    """The texts of the picture so far, by index, and where they begin or have their middle."""
    _open: str = ""
    _starts: bool = False

    def start(self, tag: str, values: dict[str, str]) -> None:
        """Note an element."""
        if tag in ("text", "title", "desc"):
            self._open = tag
            if tag == "text":
                self.texts.append("")
                self._note_place(values)
        elif tag == "polygon":
            halo = values.get("fill") == values.get("stroke") == _PAPER
            if self._starts and not halo and "stroke" in values:
                self.patches += 1
            if values.get("fill") == _DARK and "stroke" not in values:
                self._note_arrow(values.get("points", ""))
        elif tag == "path" and values.get("stroke") == _DARK and values.get("d", "").count("C") == 3:
            self._add_arrow("spin")
        elif tag == "g" and "transform" in values:
            self._near.clear()
        self._starts = tag == "g"

    def end(self, tag: str) -> None:
        """Close a text."""
        if tag == self._open:
            self._open = ""

    def text(self, data: str) -> None:
        """Gather a text."""
        if self._open == "text":
            self.texts[-1] += data
        elif self._open == "title":
            self.title += data
        elif self._open == "desc":
            self.desc += data

    def _note_place(self, values: dict[str, str]) -> None:
        with contextlib.suppress(ValueError):
            self._near.append((len(self.texts) - 1, Fraction(values.get("x", "")), Fraction(values.get("y", ""))))

    def _add_arrow(self, way: Way, ahead: str = "") -> None:
        self.arrows.append(way)
        self.ahead.append(ahead)

    def _note_arrow(self, points: str) -> None:
        try:
            spots = [tuple(map(Fraction, point.split(","))) for point in points.split()]
        except ValueError:
            return
        if len(spots) == 10:
            self._add_arrow("open")
        elif len(spots) == 7 and all(len(spot) == 2 for spot in spots):
            (ax, ay), (bx, by) = spots[0], spots[6]
            x, y = spots[3][0] - (ax + bx) / 2, spots[3][1] - (ay + by) / 2
            self._add_arrow((_sign(x), _sign(y)), self._pointed_at(spots[3], x, y))

    def _pointed_at(self, tip: tuple[Fraction, ...], x: Fraction, y: Fraction) -> str:
        """Return the text before the tip of an arrow that lies least to its side."""
        ahead = [(index, tx - tip[0], ty - tip[1]) for index, tx, ty in self._near]
        ahead = [each for each in ahead if each[1] * x + each[2] * y > 0]
        if not ahead:
            return ""
        return self.texts[min(ahead, key=lambda each: abs(each[1] * y - each[2] * x))[0]]


def _parsed(content: bytes, drawing: Drawing) -> bool:
    """Look at an SVG file and tell whether it is well formed. A figure declares nothing, so no text grows in it."""
    parser = expat.ParserCreate("utf-8")
    parser.buffer_text = True
    parser.StartElementHandler = drawing.start
    parser.EndElementHandler = drawing.end
    parser.CharacterDataHandler = drawing.text
    parser.StartDoctypeDeclHandler = _refuse
    try:
        parser.Parse(content, True)
    except (expat.ExpatError, _DeclarationError):
        return False
    return True


class _DeclarationError(Exception):
    """A document type, which a figure does not need."""


def _refuse(*_: object) -> None:
    raise _DeclarationError


def _sign(value: Fraction) -> int:
    """Return the sign of a step on the page; a tenth of a point is none."""
    return 0 if abs(value) < Fraction(1, 10) else 1 if value > 0 else -1


def read_drawing(path: Path, findings: Findings) -> Drawing | None:
    """Read a figure; ``None``, and a finding, when there is none to read."""
    try:
        content = path.read_bytes()
    except OSError:
        findings.add(FIGURES, "", "a figure that cannot be read")
        return None
    drawing = Drawing()
    if len(content) <= MAX_BYTES and _parsed(content, drawing) and drawing.title:
        return drawing
    findings.add(FIGURES, "", "no figure, or one without a title")
    return None


def title_of(path: Path) -> str | None:
    """Return the title of a figure, read from the head of its file alone; ``None`` where there is none."""
    try:
        found = _TITLE.search(path.read_bytes()[:_HEAD].decode("utf-8", errors="replace"))
    except OSError:  # told of by the check of links
        return None
    return None if found is None else html.unescape(found[1])
