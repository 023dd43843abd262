"""Figures: what is drawn and written in a size's SVG files, against its booklet."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import Final

from seamleaf.lengths import Length
from seamleaf.proof.book import OF_ROWS, Book
from seamleaf.proof.drawn import Drawing, Way, read_drawing
from seamleaf.proof.measures import Measures, counts_in, measures_in
from seamleaf.proof.record import Seam, Sheet
from seamleaf.proof.report import Findings
from seamleaf.proof.steps import ARROWS, COUNTS, Steps, compare_arrows, listed, patches_of, way_of

SIZES: Final = "numbers of figures"
_LABEL: Final = re.compile(r"[A-Z]{1,3}[0-9]{1,4}")
_NUMBER: Final = re.compile(r"([0-9]+[.][0-9]+) ?([AB]?)")
"""The number of a block in a layout, with its kind where there are two."""
_LISTED: Final = re.compile(r"(?<![\w.½])[0-9]+(?![\w½]|[.][0-9])")
"""A number in a line of text."""
_TIMES: Final = "×"
_APART: Final = "·"
"""Stands between what a sheet is and how often it is cut."""


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
        self._check_measures(sheet, kind, of)
        self._check_labels()
        steps = Steps(self.book, self.drawing, self.findings)
        if sheet is not None:
            self._check_sheet(sheet)
        elif kind == "row":
            self._check_row(of)
        elif kind == "step":
            steps.check_step(of)
        elif kind == "block":
            steps.check_block(of)
        elif kind == "centre":
            self._check_numbers(kinds=False)
            compare_arrows(
                Counter(self.drawing.arrows),
                Counter(way for way in map(self._way_of_row, self._seams(OF_ROWS)) if way),
                self.findings,
            )
        elif kind == "border" and of.isdecimal():
            self._check_border(of)
        elif kind == "layout":
            self._check_numbers(kinds=True)

    # ------------------------------------------------------------------------------------------ texts

    def _check_measures(self, sheet: Sheet | None, kind: str, of: str) -> None:
        known = self.measures.of_figure(kind, of) if sheet is None else self.measures.of_sheet(sheet)
        for text in (*self.drawing.texts, self.drawing.title, self.drawing.desc):
            for shown, value in measures_in(text):
                message = f"{shown} in {text[:60]!r} is no measure of what is drawn"
                self.findings.expect(value in known, SIZES, "", message)

    def _check_labels(self) -> None:
        names = {*self.book.patches, *self.book.units}
        for text in self.drawing.texts:
            if _LABEL.fullmatch(text):
                self.findings.expect(text in names, COUNTS, "", f"{text} is neither a patch nor a unit")

    # ---------------------------------------------------------------------------------------- patches

    def _sheet(self, of: str) -> Sheet | None:
        """Return the sheet of ``A-3``: the third of fabric A."""
        letter, _, number = of.rpartition("-")
        ids = [fabric.id for fabric in self.book.booklet.fabrics if fabric.letter == letter]
        sheets = [sheet for sheet in self.book.booklet.cutting if sheet.fabric in ids]
        return sheets[int(number) - 1] if number.isdecimal() and 0 < int(number) <= len(sheets) else None

    def _check_sheet(self, sheet: Sheet) -> None:
        """See that a sheet shows its patches and the numbers of its cuts, and says how often it is cut."""
        gives = Counter(part.label for part in sheet.parts)
        shown = Counter(text for text in self.drawing.texts if text in self.book.patches)
        good = all(shown[label] in (0, count) for label, count in gives.items()) and shown.keys() <= gives.keys()
        self.findings.expect(good, COUNTS, "", f"a sheet of {listed(gives)} is drawn with {listed(shown)}")
        self._check_cut_numbers(sheet)
        said = [counts_in(text.rpartition(_APART)[2]) for text in self.drawing.texts if _APART in text]
        message = f"a sheet that is cut {sheet.times} times says {said}"
        self.findings.expect(all(counts == [sheet.times] for counts in said), COUNTS, "", message)

    def _check_cut_numbers(self, sheet: Sheet) -> None:
        """See that every cut has its number once.

        Of more cuts than have room for numbers, those that repeat the one before them on their line may all have none,
        and any other only where a text below the sheet lists its number.
        """
        numbers = sorted(int(text) for text in self.drawing.texts if text.isdecimal())
        everyone = [cut.n for cut in sheet.cuts]
        if not numbers or numbers == everyone:
            return
        notes = [text for text in self.drawing.texts if _TIMES not in text and not text.isdecimal()]
        told = {int(number) for text in notes for number in _LISTED.findall(text)}
        repeated = _repeated(sheet)
        missing = set(everyone) - set(numbers)
        once = len(numbers) + len(missing) == len(everyone)
        good = once and not repeated & set(numbers) and missing <= repeated | told
        self.findings.expect(good, COUNTS, "", f"cuts are numbered {numbers}, the sheet has {len(everyone)}")

    def _check_numbers(self, *, kinds: bool) -> None:
        """See that every block is shown by its number, and by its kind where there are two, and none else."""
        places = [place for place in self.book.booklet.places if place.number]
        variants = [self.book.units[place.unit].variant or "" for place in places]
        numbers = Counter((place.number, variant * kinds) for place, variant in zip(places, variants, strict=True))
        named = (_NUMBER.fullmatch(text) for text in self.drawing.texts)
        shown = Counter((each[1], each[2]) for each in named if each)
        good = shown == numbers or (not shown and numbers.total() > 1)  # small blocks have no room for theirs
        self.findings.expect(good, COUNTS, "", "blocks are missing, or numbered otherwise")

    def _check_row(self, of: str) -> None:
        row = next((row for row in self.book.booklet.rows if str(row.row) == of), None)
        if row is None:
            self.findings.add(COUNTS, "", f"there is no row {of}")
            return
        places = [self.book.booklet.places[item] for item in row.items]
        numbers = [place.number for place in places if place.number]
        shown = [text for text in self.drawing.texts if re.fullmatch(r"\d+\.\d+", text)]
        self.findings.expect(shown == numbers, COUNTS, "", f"row {of} shows {shown}, its blocks are {numbers}")
        between = patches_of([place.unit for place in places if not place.number], self.book)
        held = between + patches_of([place.unit for place in places if place.number], self.book)
        labels = Counter(text for text in self.drawing.texts if text in self.book.patches)
        message = f"row {of} shows {listed(labels)}, between its blocks lie {listed(between)}"
        self.findings.expect(between <= labels <= held, COUNTS, "", message)
        way = (0, 1) if self.book.booklet.set.run == "down" else (1, 0)
        told: dict[str, Way] = {"before": (-way[0], -way[1]), "after": way}
        ways: list[Way] = [told.get(press, press) for press in row.press]
        message = f"the arrows of row {of} are {self.drawing.arrows}, it is pressed {list(row.press)}"
        self.findings.expect(self.drawing.arrows == ways, ARROWS, "", message)

    # ----------------------------------------------------------------------------------------- arrows

    def _seams(self, of: str) -> list[Seam]:
        return [seam for seam in self.book.booklet.seams if seam.of == of]

    def _check_border(self, of: str) -> None:
        straight = [seam for seam in self._seams(f"border {of}") if seam.axis != "d"]
        drawn: Counter[Way] = Counter(way for way in self.drawing.arrows if isinstance(way, tuple) and 0 in way)
        wanted = Counter(map(way_of, straight))
        if {border.corner for border in self.book.booklet.borders if str(border.order) == of} != {"butted"}:
            # Corners that are sewn in steps of their own show a seam in several of them.
            drawn, wanted = Counter(set(drawn)), Counter(set(wanted))
        compare_arrows(drawn, wanted, self.findings)

    def _way_of_row(self, seam: Seam) -> Way | None:
        """Return where the arrow of a seam between rows, or of a corner triangle, leads."""
        if seam.press not in ("before", "after"):
            return seam.press
        if seam.axis != "d":
            return way_of(seam)
        outward = 1 if seam.press == "after" else -1
        if seam.first != "centre":  # from row to row it goes to the lower right
            return (outward, outward)
        centre = self.book.booklet.set.centre
        (ax, ay), (bx, by) = seam.line
        x, y = ax + bx - centre.w, ay + by - centre.h
        return (outward if x > 0 else -outward, outward if y > 0 else -outward)


def _repeated(sheet: Sheet) -> set[int]:
    """Return the numbers of cuts that go on where one on the same line ends, and are as long."""
    ends: dict[tuple[str, Length], tuple[Length, Length]] = {}
    found = set()
    for cut in sheet.cuts:
        start, end = cut.span
        before = ends.get((cut.axis, cut.at))
        if before is not None and before[1] == start and before[1] - before[0] == end - start:
            found.add(cut.n)
        ends[cut.axis, cut.at] = (start, end)
    return found
