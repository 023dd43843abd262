"""Everything round the centre: borders, binding, backing, batting. All of it is cut from yardage."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal

from seamleaf.lengths import ZERO, Length
from seamleaf.reading import keys
from seamleaf.reading.defaults import Defaults
from seamleaf.reading.fields import Fields, open_fields, open_items
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import Names
from seamleaf.reading.nodes import Node
from seamleaf.reading.pattern import Backing, Binding, Border, Widths
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.widths import read_widths

_CORNERS: Final[tuple[Literal["butted", "mitred", "cornerstone"], ...]] = ("butted", "mitred", "cornerstone")
_BORDER_CUTS: Final[tuple[Literal["crosswise", "lengthwise"], ...]] = ("crosswise", "lengthwise")
_BINDING_CUTS: Final[tuple[Literal["crosswise", "lengthwise", "bias"], ...]] = (*_BORDER_CUTS, "bias")


class FinishingReader:
    """Reads what is sewn to the centre and what goes behind it; ``fields`` are those of the pattern."""

    def __init__(self, fields: Fields, names: Names, scalars: Scalars, defaults: Defaults, report: Report) -> None:
        self._fields = fields
        self._names = names
        self._scalars = scalars
        self._defaults = defaults
        self._report = report

    def borders(self) -> tuple[Border, ...]:
        """Read the borders from the inside out, as many as are written even when some cannot be read."""
        nodes = open_items(self._fields["borders"], "a list of borders, each with fabric and width", self._report)
        borders: list[Border] = []
        for node in nodes:
            border = self._border(node)
            inside = borders[-1] if borders else None
            if border.joined and not (border.corner == "mitred" and inside and inside.corner == "mitred"):
                expected = "a mitred border that lies round another mitred one"
                self._report.add(node.where, "a border joined to the one inside it", expected)
                border = replace(border, joined=False)
            borders.append(border)
        return tuple(borders)

    def _border(self, node: Node) -> Border:
        inner = open_fields(node, node.where, keys.BORDER, self._report)
        fabric = self._yardage(inner["fabric"], "a border")
        corner = self._scalars.choice(inner["corner"], _CORNERS) or "butted"
        pieced = self._pieced(inner, corner)
        if "pieced" in inner:
            widths: Widths = (ZERO,)
        else:
            if inner.was_read and "width" not in inner:
                self._report.add(node.where, "a border without 'width'", "'width', or 'pieced' with a block")
            widths = read_widths(inner["width"], self._scalars, self._report)
        if pieced is not None and corner == "mitred":
            corner = "butted"
        cornerstone = None
        if "cornerstone" in inner:
            cornerstone = self._yardage(inner["cornerstone"], "a border's cornerstone")
            if corner != "cornerstone":
                self._report.add(
                    inner.key("cornerstone"),
                    f"a cornerstone for {corner} corners",
                    "it with 'corner: cornerstone' only",
                )
                cornerstone = None
        elif corner == "cornerstone":
            self._report.add(
                node.where, "a border with corner: cornerstone but without its fabric", "'cornerstone' as well"
            )
            cornerstone = fabric
        joined = self._scalars.flag(inner["joined"], default=False)
        cut = self._scalars.choice(inner["cut"], _BORDER_CUTS) or "crosswise"
        return Border(
            fabric=fabric,
            widths=widths,
            corner=corner,
            cornerstone=cornerstone,
            where=node.where,
            pieced=pieced,
            joined=joined and pieced is None,
            cut=cut if pieced is None else "crosswise",
        )

    def _pieced(self, inner: Fields, corner: str) -> str | None:
        """Read the block that a pieced border repeats."""
        if "pieced" not in inner:
            return None
        for key in ("width", "joined", "cut"):
            if key in inner:
                self._report.add(inner.key(key), f"{key} of a pieced border", f"a border with 'pieced' without '{key}'")
        if corner == "mitred":
            self._report.add(inner.key("corner"), "mitred corners of a pieced border", "butted, or cornerstone")
        text = self._scalars.text(inner["pieced"], "a block")
        if text is None or self._names.has_block(text.text):
            return None if text is None else text.text
        return self._names.report_block(text.text, text.where)

    def binding(self) -> Binding | None:
        """Read the binding; a pattern may leave it out."""
        if "binding" not in self._fields:
            return None
        where, inner = self._open("binding", keys.BINDING)
        return Binding(
            fabric=self._yardage(inner["fabric"], "binding"),
            strip=self._scalars.length(inner["strip"], self._defaults.binding_strip),
            cut=self._scalars.choice(inner["cut"], _BINDING_CUTS) or "crosswise",
            extra=self._scalars.length(inner["extra"], self._defaults.binding_extra, zero=True),
            where=where,
        )

    def backing(self) -> Backing:
        """Read the backing; of a named fabric, the usable width is that fabric's unless it says otherwise."""
        where, inner = self._open("backing", keys.BACKING)
        fabric = self._yardage(inner["fabric"], "backing") if "fabric" in inner else None
        named = self._names.fabric(fabric) if fabric is not None else None
        usable = named.usable[0] if named is not None and named.is_yardage else self._defaults.usable_width
        return Backing(
            fabric=fabric,
            usable=self._scalars.length(inner["usable"], usable),
            extra=self._scalars.length(inner["extra"], self._defaults.backing_extra, zero=True),
            insert=self._scalars.flag(inner["insert"], default=False),
            where=where,
        )

    def batting_extra(self) -> Length:
        """Read what the batting is larger than the top, on each side."""
        _, inner = self._open("batting", keys.BATTING)
        return self._scalars.length(inner["extra"], self._defaults.batting_extra, zero=True)

    def _open(self, key: str, table: keys.Keys) -> tuple[Mark, Fields]:
        where = self._fields.key(key)
        return where, open_fields(self._fields[key], where, table, self._report)

    def _yardage(self, node: Node | None, use: str) -> str:
        return self._names.yardage(self._scalars.text(node, "a fabric"), use, self._names.any_yardage)
