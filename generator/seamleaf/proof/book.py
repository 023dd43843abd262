"""A booklet with its things by name, after every name was seen to stand for something.

All later checks may follow names without looking; so a booklet with a name at fault is not proved any further.
"""

from __future__ import annotations

import dataclasses
import functools
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from seamleaf.lengths import CENTIMETRES, INCHES, Length, Measures
from seamleaf.proof.form import Record
from seamleaf.proof.plane import Plane
from seamleaf.proof.record import Booklet, Fabric, Patch, Seam, Sheet, Unit
from seamleaf.proof.report import Findings

NAMES: Final = "names"
ORDER: Final = "sewing order"
MAX_SCALE_BITS: Final = 400
MAX_SEAMS: Final = 1_000_000
"""More seams than any quilt of 2,500 blocks has; a damaged tree could ask for any number."""

SOURCE: Final = re.compile(r"yardage|(?:squares|strips) [0-9].*|fat quarters|fat eighths")
COLOUR: Final = re.compile(r"#[0-9a-fA-F]{6}")

BORDERS_MADE: Final = {(True, True, False, False), (False, True, True, False), (False, False, False, True)}
"""Whether a border has a label and a fabric, and its strips have labels and units: joined, in one piece, or pieced."""

OF_ROW: Final = "row"
OF_ROWS: Final = "rows"


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """One booklet, ready to be proved."""

    booklet: Booklet
    fabrics: dict[str, Fabric]
    patches: dict[str, Patch]
    units: dict[str, Unit]
    seams: dict[str, Seam]
    plane: Plane
    measures: Measures

    @property
    def seam(self) -> Length:
        """The seam allowance."""
        return self.booklet.seam

    @property
    def grid(self) -> Fraction:
        """The ruler's smallest mark."""
        return self.measures.cut_grid

    def usable_width(self, fabric: str) -> Length:
        """Return the usable width of a yardage fabric; of a bundle piece its width."""
        usable = self.fabrics[fabric].usable
        return usable if isinstance(usable, Length) else usable.w

    def strips(self) -> dict[str, int]:
        """Return the units that are strips of pieced borders, and how many there are of each."""
        return dict(Counter(strip.unit for border in self.booklet.borders for strip in border.strips if strip.unit))

    def lengths(self) -> set[Length]:
        """Return every length that the booklet holds."""
        return lengths_in(self.booklet)

    def copies(self) -> dict[str, dict[str, int]]:
        """Return how many of each unit one copy of each unit holds, itself among them."""
        found: dict[str, dict[str, int]] = {}
        for unit in self.booklet.units:
            inside = {unit.id: 1}
            for take in unit.from_:
                if take.unit is not None:
                    for name, count in found[take.unit].items():
                        inside[name] = inside.get(name, 0) + count
            found[unit.id] = inside
        return found


def open_book(booklet: Booklet, findings: Findings) -> Book | None:
    """Look every name up; return ``None`` when one of them is at fault, which is reported."""
    before = len(findings.found)
    lookups = _Lookups(booklet, findings)
    lookups.check()
    measures = INCHES if booklet.unit == "in" else CENTIMETRES
    halves = (unit.finished.sides for unit in booklet.units if unit.how == "half-rectangle")
    plane = Plane.of(lengths_in(booklet), halves)
    if plane.scale.bit_length() > MAX_SCALE_BITS:
        findings.add(NAMES, "", "lengths whose denominators have nothing in common, as no ruler shows them")
    if len(findings.found) > before:
        return None
    return Book(
        booklet=booklet,
        fabrics={fabric.id: fabric for fabric in booklet.fabrics},
        patches={patch.label: patch for patch in booklet.patches},
        units={unit.id: unit for unit in booklet.units},
        seams={seam.id: seam for seam in booklet.seams},
        plane=plane,
        measures=measures,
    )


def lengths_in(value: Any) -> set[Length]:
    """Return all different lengths in a record, or in several."""
    found: set[Length] = set()
    _gather(value, found)
    return found


def _gather(value: Any, found: set[Length]) -> None:
    if isinstance(value, Length):
        found.add(value)
    elif isinstance(value, tuple):
        for item in value:
            _gather(item, found)
    elif isinstance(value, Record):
        kind: Any = value.__class__
        for name in _names(kind):
            _gather(getattr(value, name), found)


@functools.cache
def _names(record: Any) -> tuple[str, ...]:
    return tuple(each.name for each in dataclasses.fields(record))


class _Lookups:
    def __init__(self, booklet: Booklet, findings: Findings) -> None:
        self.booklet = booklet
        self.findings = findings
        self.fabrics = self._unique((fabric.id, fabric.pointer) for fabric in booklet.fabrics)
        self.letters = self._unique((fabric.letter, fabric.pointer) for fabric in booklet.fabrics)
        self.labels = self._unique((patch.label, patch.pointer) for patch in booklet.patches)
        self.units = self._unique((unit.id, unit.pointer) for unit in booklet.units)
        self.seams = self._unique((seam.id, seam.pointer) for seam in booklet.seams)
        self.fabric_of = {patch.label: patch.fabric for patch in booklet.patches}

    def check(self) -> None:
        """Report every name that stands for nothing, or for the wrong thing."""
        for fabric in self.booklet.fabrics:
            self._check_fabric(fabric)
        self._check_patches()
        self._check_sheets("/cutting", self.booklet.cutting)
        for note in self.booklet.classes:
            self._check_sheets(f"{note.pointer}/sheets", note.sheets)
        self._check_units()
        self._check_seams()
        self._check_layout()
        self._check_borders()
        self._check_finish()

    def _unique(self, names: Iterable[tuple[str, str]]) -> set[str]:
        seen: set[str] = set()
        for name, pointer in names:
            self._expect(name not in seen, pointer, f"the name {name!r} is taken already")
            seen.add(name)
        return seen

    def _expect(self, holds: bool, pointer: str, message: str) -> None:
        self.findings.expect(holds, NAMES, pointer, message)

    def _known(self, name: str, names: set[str], what: str, pointer: str) -> None:
        self._expect(name in names, pointer, f"no {what} {name!r}")

    def _own_label(self, label: str, fabric: str, pointer: str) -> None:
        """Report a label that is unknown, or is cut from another fabric."""
        self._known(label, self.labels, "patch", pointer)
        own = self.fabric_of.get(label, fabric)
        self._expect(own == fabric, pointer, f"patch {label} is of fabric {own!r}, not {fabric!r}")

    def _check_fabric(self, fabric: Fabric) -> None:
        self._expect(bool(SOURCE.fullmatch(fabric.source)), f"{fabric.pointer}/source", f"no source {fabric.source!r}")
        message = f"{fabric.source} that is measured as {'a length' if isinstance(fabric.usable, Length) else 'pieces'}"
        as_length = isinstance(fabric.usable, Length)
        self._expect((fabric.source == "yardage") == as_length, f"{fabric.pointer}/usable", message)
        good = (fabric.pack is None and not fabric.pinked) if as_length else (fabric.pack is None or fabric.pack > 0)
        self._expect(good, f"{fabric.pointer}/pack", f"packs or pinked edges of {fabric.source}")
        for index, colour in enumerate(fabric.colours):
            good = COLOUR.fullmatch(colour) is not None
            self._expect(good, f"{fabric.pointer}/colours/{index}", f"no colour {colour!r}")
        self._expect(bool(fabric.colours), f"{fabric.pointer}/colours", "a fabric of no colour")

    def _check_patches(self) -> None:
        letters = {fabric.id: fabric.letter for fabric in self.booklet.fabrics}
        for patch in self.booklet.patches:
            self._known(patch.fabric, self.fabrics, "fabric", f"{patch.pointer}/fabric")
            letter, number = letters.get(patch.fabric, ""), patch.label[len(letters.get(patch.fabric, "")) :]
            good = patch.label.startswith(letter) and number.isascii() and number.isdigit()
            self._expect(
                good, f"{patch.pointer}/label", f"patch {patch.label} does not carry the letter of its fabric, {letter}"
            )
            for block in patch.per_block:
                self._known(block, self.units, "unit", f"{patch.pointer}/per_block")

    def _check_sheets(self, pointer: str, sheets: tuple[Sheet, ...]) -> None:
        for index, sheet in enumerate(sheets):
            self._known(sheet.fabric, self.fabrics, "fabric", f"{pointer}/{index}/fabric")
            for part in sheet.parts:
                self._own_label(part.label, sheet.fabric, f"{part.pointer}/label")

    def _check_units(self) -> None:
        sewn: set[str] = set()
        for unit in self.booklet.units:
            self._expect(bool(unit.from_), unit.pointer, f"unit {unit.id} takes nothing")
            for take in unit.from_:
                if (take.label is None) == (take.unit is None):
                    self._expect(False, take.pointer, "a label or a unit is taken, one of the two")
                elif take.label is not None:
                    self._known(take.label, self.labels, "patch", f"{take.pointer}/label")
                elif take.unit in self.units and take.unit not in sewn:
                    message = f"unit {unit.id} takes {take.unit}, which is not sewn yet"
                    self.findings.add(ORDER, f"{take.pointer}/unit", message)
                else:
                    self._known(take.unit or "", self.units, "unit", f"{take.pointer}/unit")
            for region in unit.regions:
                self._own_label(region.label, region.fabric, f"{region.pointer}/label")
            for block in unit.per_block:
                self._known(block, self.units, "unit", f"{unit.pointer}/per_block")
            sewn.add(unit.id)

    def _check_seams(self) -> None:
        listed: set[str] = set()
        of = {seam.id: seam.of for seam in self.booklet.seams}
        for unit in self.booklet.units:
            for index, name in enumerate(unit.seams):
                pointer = f"{unit.pointer}/seams/{index}"
                self._known(name, self.seams, "seam", pointer)
                self._expect(name not in listed, pointer, f"seam {name} is listed twice")
                self._expect(of.get(name, unit.id) == unit.id, pointer, f"seam {name} is of {of.get(name)!r}")
                listed.add(name)
        owners = {OF_ROW, OF_ROWS, *(f"border {border.order}" for border in self.booklet.borders)}
        for seam in self.booklet.seams:
            known = seam.of in owners or seam.id in listed
            self._expect(known, f"{seam.pointer}/of", f"seam {seam.id} of {seam.of!r} is sewn nowhere")
        for name in self.booklet.pressing.inside:
            self._known(name, self.units, "unit", "/pressing/inside")

    def _check_layout(self) -> None:
        count = len(self.booklet.places)
        for place in self.booklet.places:
            self._known(place.unit, self.units, "unit", f"{place.pointer}/unit")
        for row in self.booklet.rows:
            for index, item in enumerate(row.items):
                self._expect(0 <= item < count, f"{row.pointer}/items/{index}", f"no place {item}")

    def _check_borders(self) -> None:
        for border in self.booklet.borders:
            if border.label is not None and border.fabric is not None:
                self._own_label(border.label, border.fabric, f"{border.pointer}/label")
            named = border.label is not None, border.fabric is not None
            made = {(*named, strip.label is not None, strip.unit is not None) for strip in border.strips}
            message = "a border is joined from strips of one fabric, or all its strips are patches of it, or units"
            self._expect(made <= BORDERS_MADE and len(made) <= 1, border.pointer, message)
            for strip in border.strips:
                if strip.unit is not None:
                    self._known(strip.unit, self.units, "unit", f"{strip.pointer}/unit")
                if strip.label is not None and border.fabric is not None:
                    self._own_label(strip.label, border.fabric, f"{strip.pointer}/label")
            if border.corners is not None:
                self._known(border.corners, self.labels, "patch", f"{border.pointer}/corners")

    def _check_finish(self) -> None:
        for each in (self.booklet.binding, self.booklet.backing):
            if each is not None:
                self._own_label(each.label, each.fabric, f"{each.pointer}/label")
        insert = self.booklet.backing.insert
        for piece in insert.pieces if insert is not None else ():
            self._known(piece.fabric, self.fabrics, "fabric", f"{piece.pointer}/fabric")
        for offcut in self.booklet.offcuts:
            self._known(offcut.fabric, self.fabrics, "fabric", f"{offcut.pointer}/fabric")
        for bonus in self.booklet.bonus:
            self._known(bonus.unit, self.units, "unit", f"{bonus.pointer}/unit")
            for key, label in (("base", bonus.base), ("corner", bonus.corner)):
                self._known(label, self.labels, "patch", f"{bonus.pointer}/{key}")
