"""Figures: what is drawn and written in a size's SVG files, against its booklet.

Nothing is known here of how a figure is made, only what a reader sees: patches are groups that begin with an outline,
press arrows are dark polygons of seven corners (ten where the seam is pressed open), texts are texts.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Final
from xml.parsers import expat

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import OF_ROWS, Book
from seamleaf.proof.record import Seam, Sheet, Unit
from seamleaf.proof.report import Findings

FIGURES: Final = "figures"
ARROWS: Final = "arrows of figures"
_JOINED: Final = ("join", "strip-set")
COUNTS: Final = "patches of figures"
SIZES: Final = "numbers of figures"
MAX_BYTES: Final = 16 * 2**20

_DARK: Final = "#1b1b1f"
_PAPER: Final = "#ffffff"
_GLYPHS: Final = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
    "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
}  # fmt: skip
_MEASURE: Final = re.compile(
    rf"(?<![\w.])(?:(\d+)?([{''.join(_GLYPHS)}])(?! turn\b)|(?:(\d+)[\s-])?(\d+)/(\d+)"
    r"|(\d+(?:[.,]\d+)?)(?=\s*[×x]\s*\d|\s*(?:in|cm)\b(?!\s(?:all|each|every|a|the|one)\b)))"
    rf"|(?<=×\s)(\d+(?:[.,]\d+)?)(?![\w.{''.join(_GLYPHS)}/]|\s\d+/)"
)
"""A number that is a measure: with a fraction that does not tell a turn, before a unit, or on a side of ``×``."""
_LABEL: Final = re.compile(r"[A-Z]{1,3}[0-9]{1,4}")
_NUMBER: Final = re.compile(r"([0-9]+[.][0-9]+) ?([AB]?)")
"""The number of a block in a layout, with its kind where there are two."""
_WORDS: Final = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_PATCHES: Final = re.compile(r"\b(\w+) patch(?:es)?\b")
_NEST: Final = 6
"""How deep a block may be drawn apart."""

Way = tuple[int, int] | str
"""Where an arrow leads, by the signs of x and y; ``open`` for one with two heads, ``spin`` for a ring."""


@dataclass(slots=True)
class Drawing:
    """What a reader sees of one figure."""

    texts: list[str] = field(default_factory=list)
    title: str = ""
    desc: str = ""
    arrows: list[Way] = field(default_factory=list)
    patches: int = 0
    _open: str = ""
    _starts: bool = False

    def start(self, tag: str, values: dict[str, str]) -> None:
        """Note an element."""
        if tag in ("text", "title", "desc"):
            self._open = tag
            if tag == "text":
                self.texts.append("")
        elif tag == "polygon":
            halo = values.get("fill") == values.get("stroke") == _PAPER
            if self._starts and not halo and "stroke" in values:
                self.patches += 1
            if values.get("fill") == _DARK and "stroke" not in values:
                self._note_arrow(values.get("points", ""))
        elif tag == "path" and values.get("stroke") == _DARK and values.get("d", "").count("C") == 3:
            self.arrows.append("spin")
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

    def _note_arrow(self, points: str) -> None:
        try:
            spots = [tuple(map(Fraction, point.split(","))) for point in points.split()]
        except ValueError:
            return
        if len(spots) == 10:
            self.arrows.append("open")
        elif len(spots) == 7 and all(len(spot) == 2 for spot in spots):
            (ax, ay), (bx, by) = spots[0], spots[6]
            x, y = spots[3][0] - (ax + bx) / 2, spots[3][1] - (ay + by) / 2
            self.arrows.append((_sign(x), _sign(y)))


def _look(content: bytes, drawing: Drawing) -> bool:
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
    if len(content) <= MAX_BYTES and _look(content, drawing) and drawing.title:
        return drawing
    findings.add(FIGURES, "", "no figure, or one without a title")
    return None


def check_figures(book: Book, folder: Path) -> list[Findings]:
    """Look at every figure of a size; ``folder`` is the size's."""
    found: list[Findings] = []
    measures = Measures(book)
    for path in sorted(folder.glob("figures/*.svg")):
        findings = Findings(path.as_posix())
        drawing = read_drawing(path, findings)
        if drawing is not None:
            _Viewer(book, measures, drawing, findings).check(path.stem)
        found.append(findings)
    return found


class Measures:
    """Every measure that a booklet holds, as a reader sees it."""

    def __init__(self, book: Book) -> None:
        self.seen = {self._shown(book, length) for length in book.lengths()}
        self.seen |= {self._shown(book, length * 2) for length in (book.seam,)}

    def of_sheet(self, book: Book, sheet: Sheet) -> set[Fraction]:
        """Return the measures of what is left of a sheet: from one edge of a patch or of the sheet to another."""
        found: set[Fraction] = set()
        w, h = sheet.sheet.sides
        for edges in (
            {ZERO, w, *(part.x for part in sheet.parts), *(part.x + part.w for part in sheet.parts)},
            {ZERO, h, *(part.y for part in sheet.parts), *(part.y + part.h for part in sheet.parts)},
        ):
            found |= {self._shown(book, a - b) for a in edges for b in edges if a > b}
        return found

    @staticmethod
    def _shown(book: Book, length: Length) -> Fraction:
        return (length if length.is_rational else length.round_nearest(book.grid)).a


def measures_in(text: str) -> Iterator[tuple[str, Fraction]]:
    """Yield every measure in a text, as it stands there and as a number."""
    for match in _MEASURE.finditer(text.replace("\N{FRACTION SLASH}", "/")):
        whole, glyph, more, top, bottom, plain, side = match.groups()
        if glyph:
            yield match[0], Fraction(int(whole or 0)) + _GLYPHS[glyph]
        elif bottom:
            yield match[0], Fraction(int(more or 0)) + (Fraction(int(top), int(bottom)) if int(bottom) else 0)
        else:
            yield match[0], Fraction((plain or side).replace(",", "."))


class _Viewer:
    """One figure with the booklet beside it."""

    def __init__(self, book: Book, measures: Measures, drawing: Drawing, findings: Findings) -> None:
        self.book = book
        self.measures = measures
        self.drawing = drawing
        self.findings = findings

    def check(self, name: str) -> None:
        """Look at a figure by the name of its file, which says what it shows."""
        kind, _, of = name.partition("-")
        sheet = self._sheet(of) if kind == "cut" else None
        self._check_measures(sheet)
        self._check_labels(sheet)
        if kind == "row":
            self._check_row(of)
        elif kind == "step":
            self._check_step(of)
        elif kind == "block":
            self._check_block(of)
        elif kind == "centre":
            self._check_arrows([way for way in map(self._way_of_row, self._seams(OF_ROWS)) if way])
        elif kind == "border" and of.isdecimal():
            straight = [seam for seam in self._seams(f"border {of}") if seam.axis != "d"]
            drawn: Counter[Way] = Counter(way for way in self.drawing.arrows if isinstance(way, tuple) and 0 in way)
            wanted = Counter(map(_way, straight))
            if {border.corner for border in self.book.booklet.borders if str(border.order) == of} != {"butted"}:
                # Corners that are sewn in steps of their own show a seam in several of them.
                drawn, wanted = Counter(set(drawn)), Counter(set(wanted))
            self._compare(drawn, wanted)
        elif kind == "layout":
            places = [place for place in self.book.booklet.places if place.number]
            numbers = Counter((place.number, self.book.units[place.unit].variant or "") for place in places)
            named = (_NUMBER.fullmatch(text) for text in self.drawing.texts)
            shown = Counter((each[1], each[2]) for each in named if each)
            self.findings.expect(not shown or shown == numbers, COUNTS, "", "blocks are missing, or numbered otherwise")

    # ------------------------------------------------------------------------------------------ texts

    def _check_measures(self, sheet: Sheet | None) -> None:
        known = self.measures.seen | (self.measures.of_sheet(self.book, sheet) if sheet else set()) | self._of_titles()
        for text in (*self.drawing.texts, self.drawing.title, self.drawing.desc):
            for shown, value in measures_in(text):
                message = f"{shown} in {text[:60]!r} is no measure of the booklet"
                self.findings.expect(value in known, SIZES, "", message)

    def _of_titles(self) -> set[Fraction]:
        """Return the numbers that the designer's own titles hold: a quilt may be called Pond 44, and come in a size."""
        booklet = self.book.booklet
        titles = [booklet.pattern.title, booklet.size.title, *(fabric.title for fabric in booklet.fabrics)]
        return {value for title in titles for _, value in measures_in(f"{title} in")}

    def _check_labels(self, sheet: Sheet | None) -> None:
        names = {*self.book.patches, *self.book.units}
        for text in self.drawing.texts:
            if _LABEL.fullmatch(text):
                self.findings.expect(text in names, COUNTS, "", f"{text} is neither a patch nor a unit")
        if sheet is not None:
            gives = Counter(part.label for part in sheet.parts)
            shown = Counter(text for text in self.drawing.texts if text in self.book.patches)
            good = all(shown[label] in (0, count) for label, count in gives.items()) and shown.keys() <= gives.keys()
            self.findings.expect(good, COUNTS, "", f"a sheet of {_listed(gives)} is drawn with {_listed(shown)}")

    # ---------------------------------------------------------------------------------------- patches

    def _sheet(self, of: str) -> Sheet | None:
        """Return the sheet of ``A-3``: the third of fabric A."""
        letter, _, number = of.rpartition("-")
        ids = [fabric.id for fabric in self.book.booklet.fabrics if fabric.letter == letter]
        sheets = [sheet for sheet in self.book.booklet.cutting if sheet.fabric in ids]
        return sheets[int(number) - 1] if number.isdecimal() and 0 < int(number) <= len(sheets) else None

    def _patches_of(self, unit: Unit) -> Counter[str]:
        held: Counter[str] = Counter(region.label for region in unit.regions)
        for take in unit.from_:
            if take.unit is not None:
                held += self._patches_of(self.book.units[take.unit])
        return held

    def _check_block(self, of: str) -> None:
        unit = self.book.units.get(of.removesuffix("-parts")) or self.book.units.get(of)
        if unit is None:
            return
        held = self._patches_of(unit)
        total = held.total()
        message = f"{unit.id} is drawn with {self.drawing.patches} patches, it has {total}"
        self.findings.expect(self.drawing.patches == total, COUNTS, "", message)
        shown = Counter(text for text in self.drawing.texts if text in self.book.patches)
        self.findings.expect(shown <= held, COUNTS, "", f"{unit.id} shows {_listed(shown)}, it has {_listed(held)}")
        said = _PATCHES.search(self.drawing.title)
        if said is not None:
            count = _WORDS.index(said[1]) if said[1] in _WORDS else int(said[1]) if said[1].isdecimal() else total
            self.findings.expect(count == total, COUNTS, "", f"{said[0]} in the title, {unit.id} has {total}")
        if of.endswith("-parts") and of.removesuffix("-parts") == unit.id and unit.how in _JOINED:
            self._check_block_arrows(unit)

    def _check_row(self, of: str) -> None:
        row = next((row for row in self.book.booklet.rows if str(row.row) == of), None)
        if row is None:
            self.findings.add(COUNTS, "", f"there is no row {of}")
            return
        numbers = [place.number for place in map(self.book.booklet.places.__getitem__, row.items) if place.number]
        shown = [text for text in self.drawing.texts if re.fullmatch(r"\d+\.\d+", text)]
        self.findings.expect(shown == numbers, COUNTS, "", f"row {of} shows {shown}, its blocks are {numbers}")
        way = (0, 1) if self.book.booklet.set.run == "down" else (1, 0)
        told: dict[str, Way] = {"before": (-way[0], -way[1]), "after": way}
        ways: list[Way] = [told.get(press, press) for press in row.press]
        message = f"the arrows of row {of} are {self.drawing.arrows}, it is pressed {list(row.press)}"
        self.findings.expect(self.drawing.arrows == ways, ARROWS, "", message)

    # ----------------------------------------------------------------------------------------- arrows

    def _seams(self, of: str) -> list[Seam]:
        return [seam for seam in self.book.booklet.seams if seam.of == of]

    def _check_step(self, of: str) -> None:
        unit = self.book.units.get(of)
        if unit is None:
            self.findings.add(COUNTS, "", f"there is no unit {of}")
        elif unit.how == "strip-set":  # its strips lie level, the left part of a row uppermost
            ways = [_way(self.book.seams[name]) for name in unit.seams]
            self._check_arrows([way[::-1] if isinstance(way, tuple) and unit.axis == "row" else way for way in ways])
        elif unit.how == "join":
            self._check_arrows([_way(self.book.seams[name]) for name in unit.seams])

    def _check_block_arrows(self, unit: Unit) -> None:
        """See that the arrows are those of the block's seams, or of its parts' as well, however deep it is drawn."""
        drawn = Counter(self.drawing.arrows)
        wanted = [
            Counter(_turned(way, unit.lies, mirror=False) for way in self._ways_of(unit, depth).elements())
            for depth in range(1, _NEST)
        ]
        self.findings.expect(drawn in wanted, ARROWS, "", f"the arrows of {unit.id} are not as its seams are pressed")

    def _ways_of(self, unit: Unit, depth: int) -> Counter[Way]:
        ways = Counter(_way(self.book.seams[name]) for name in unit.seams)
        for take in unit.from_:
            inner = self.book.units[take.unit] if take.unit is not None else None
            if inner is not None and inner.how in _JOINED and depth > 1:
                for way, count in self._ways_of(inner, depth - 1).items():
                    ways[_turned(way, take.turn, mirror=take.mirror)] += count
        return ways

    def _way_of_row(self, seam: Seam) -> Way | None:
        """Return where the arrow of a seam between rows, or of a corner triangle, leads."""
        if seam.press not in ("before", "after"):
            return seam.press
        if seam.axis != "d":
            return _way(seam)
        outward = 1 if seam.press == "after" else -1
        if seam.first != "centre":  # from row to row it goes to the lower right
            return (outward, outward)
        centre = self.book.booklet.set.centre
        (ax, ay), (bx, by) = seam.line
        x, y = ax + bx - centre.w, ay + by - centre.h
        return (outward if x > 0 else -outward, outward if y > 0 else -outward)

    def _check_arrows(self, wanted: list[Way]) -> None:
        self._compare(Counter(self.drawing.arrows), Counter(wanted))

    def _compare(self, drawn: Counter[Way], wanted: Counter[Way]) -> None:
        message = f"arrows lead {_listed(drawn)}, the seams are pressed {_listed(wanted)}"
        self.findings.expect(drawn == wanted, ARROWS, "", message)


def _way(seam: Seam) -> Way:
    """Return where the arrow of an upright or level seam leads."""
    if seam.press not in ("before", "after"):
        return seam.press
    step = 1 if seam.press == "after" else -1
    return (step, 0) if seam.axis == "x" else (0, step)


def _turned(way: Way, turn: int, *, mirror: bool) -> Way:
    if isinstance(way, str):
        return way
    x, y = (-way[0], way[1]) if mirror else way
    for _ in range(turn % 360 // 90):
        x, y = -y, x
    return x, y


def _listed(counts: Counter[str] | Counter[Way]) -> str:
    return ", ".join(f"{count} {name}" for name, count in sorted(counts.items(), key=str)) or "nothing"
