"""Blocks as trees of parts: patches, rows, columns, grids, blocks used as parts; units by their own reader."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from seamleaf.reading import keys
from seamleaf.reading.fields import Fields, open_entries, open_fields, open_items, report_unknown_key
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import Names
from seamleaf.reading.nodes import Entry, Mapping, Node, Refused, Scalar
from seamleaf.reading.part_records import Broken, Join, Part, UseBlock
from seamleaf.reading.pattern import Block
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.units import UnitReader, patch_of, turn_of
from seamleaf.reading.uses import Use
from seamleaf.reading.wording import found, one_of, quoted

_A_PART: Final = f"a part: a patch such as 'ground 2 x 6', or {one_of(keys.PARTS)} with a colon"


class PartReader:
    """Reads parts; one that cannot be read is reported and becomes :class:`Broken`."""

    def __init__(self, names: Names, scalars: Scalars, report: Report) -> None:
        self._names = names
        self._scalars = scalars
        self._report = report
        self._block = ""
        self.uses: dict[str, list[Use]] = {}
        """What each block that was read uses, for :func:`seamleaf.reading.uses.break_cycles`."""
        units = UnitReader(names, scalars, report, self.part)
        self._kinds: dict[str, Callable[[Fields, Mark], Part]] = {
            "row": lambda fields, where: self._join("row", fields, where),
            "column": lambda fields, where: self._join("column", fields, where),
            "grid": self._grid,
            "half-square": units.half_square,
            "quarter-square": units.quarter_square,
            "three-triangle": units.three_triangle,
            "half-rectangle": units.half_rectangle,
            "geese": units.geese,
            "corners": units.corners,
            "diamond": units.diamond,
            "around": units.around,
            "partial": units.partial,
            "use": self._use,
        }

    def block(self, entry: Entry) -> Block:
        """Read one entry of ``blocks``: a part, with the finished size that the designer gives it."""
        id_, where, node = entry.key.text, entry.key.where, entry.value
        self._block = id_
        if not isinstance(node, Mapping):
            return Block(id=id_, part=self.part(node), finished=None, where=where)
        part, fields = self._mapping(node, where, keys.BLOCK)
        finished = None if fields is None else self._scalars.pair(fields["finished"], None)
        return Block(id=id_, part=part, finished=finished, where=where)

    def part(self, node: Node, key: Mark | None = None) -> Part:
        """Read any part; what it lacks is missing at its ``key``, or at its start where it has none."""
        if isinstance(node, Scalar) and node.text.strip():
            return patch_of(node, self._names, self._scalars, self._report)
        if isinstance(node, Mapping):
            return self._mapping(node, key or node.where)[0]
        if not isinstance(node, Refused):
            self._report.add(node.where, found(node), _A_PART)
        return Broken(where=node.where)

    def _mapping(self, node: Mapping, where: Mark, more: keys.Keys = keys.NO_KEYS) -> tuple[Part, Fields | None]:
        kinds = [entry for entry in node.entries if entry.key.text in keys.PARTS]
        if not kinds:
            self._report_no_kind(node, where, more)
            return Broken(where=node.where), None
        kind = kinds[0].key.text
        for second in kinds[1:]:
            clash = f"{quoted(second.key.text)} beside {quoted(kind)}"
            self._report.add(second.key.where, clash, "one kind of part; put one inside the other")
        others = {entry.key.text for entry in kinds[1:]} - set(keys.PARTS[kind].all)
        entries = tuple(entry for entry in node.entries if entry.key.text not in others)
        fields = open_fields(
            Mapping(entries=entries, where=node.where), where, keys.PARTS[kind].also(more), self._report
        )
        part = self._kinds[kind](fields, node.where)
        return (Broken(where=node.where) if others else part), fields

    def _report_no_kind(self, node: Mapping, where: Mark, more: keys.Keys) -> None:
        unknown = [entry for entry in node.entries if entry.key.text not in keys.PART_WORDS + more.all]
        for entry in unknown:
            report_unknown_key(entry, "a part", tuple(keys.PARTS), self._report)
        if not unknown:
            self._report.add(where, f"{found(node)} without a kind of part", f"{one_of(keys.PARTS)} with a colon")

    # ------------------------------------------------------------------------------------- joined parts

    def _join(self, axis: str, fields: Fields, where: Mark) -> Part:
        nodes = open_items(fields[axis], f"a list of parts for the {axis}", self._report)
        parts = tuple(self.part(node) for node in nodes)
        method = self._scalars.choice(fields["method"], keys.JOIN_METHODS)
        if not parts:
            return Broken(where=where)
        return Join(axis="row" if axis == "row" else "column", parts=parts, where=where, method=method)

    def _grid(self, fields: Fields, where: Mark) -> Part:
        """Read ``grid: [DLD, LDL]`` with its ``key`` as a column of rows."""
        key = self._grid_key(fields)
        method = self._scalars.choice(fields["method"], keys.JOIN_METHODS)
        rows = []
        for node in open_items(fields["grid"], "a list of rows, such as [DLD, LDL, DLD]", self._report):
            text = self._scalars.text(node, "a row of letters, such as DLD")
            letters = "" if text is None else text.text
            for letter in dict.fromkeys(letters):
                if key and letter not in key:
                    self._report.add(
                        node.where, f"the letter {quoted(letter)}", f"a letter that 'key' explains: {one_of(key)}"
                    )
            parts = tuple(replace(key.get(letter, Broken(where=node.where)), where=node.where) for letter in letters)
            rows.append(Join(axis="row", parts=parts, where=node.where, method=method) if parts else None)
        known = tuple(row for row in rows if row is not None)
        if not known or len(known) < len(rows):
            return Broken(where=where)
        return Join(axis="column", parts=known, where=where)

    def _grid_key(self, fields: Fields) -> dict[str, Part]:
        key: dict[str, Part] = {}
        for entry in open_entries(fields["key"], "a part for each letter, such as {D: star 2 x 2}", self._report):
            if len(entry.key.text) != 1 or entry.key.text.isspace():
                self._report.add(
                    entry.key.where, f"{quoted(entry.key.text)} as a letter of the grid", "a single letter"
                )
            key[entry.key.text] = self.part(entry.value, entry.key.where)
        return key

    # ---------------------------------------------------------------------------------- blocks as parts

    def _use(self, fields: Fields, where: Mark) -> Part:
        """Read ``use: BLOCK``."""
        turn = turn_of(fields["turn"], self._scalars)
        mirror = self._scalars.flag(fields["mirror"], default=False)
        text = self._scalars.text(fields["use"], "a block")
        if text is None:
            return Broken(where=where)
        if not self._names.has_block(text.text):
            self._names.report_block(text.text, text.where)
            return Broken(where=where)
        self.uses.setdefault(self._block, []).append(Use(text.text, text.where))
        return UseBlock(block=text.text, turn=turn, mirror=mirror, where=where)
