"""The setting: which block stands in which place, sashing, setting triangles."""

from __future__ import annotations

from typing import Final, Literal

from seamleaf.lengths import ZERO
from seamleaf.reading import keys
from seamleaf.reading.defaults import Defaults
from seamleaf.reading.fields import Fields, open_fields, open_items
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import Names
from seamleaf.reading.nodes import Node, Scalar
from seamleaf.reading.part_records import FabricUse, Turn
from seamleaf.reading.pattern import Cell, Sashing, Setting, Tile, Triangles
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.wording import one_of, quoted, shown

_TURNS: Final[dict[str, Turn]] = {"0": 0, "90": 90, "180": 180, "270": 270}
_A_TILE: Final = "a list of rows of blocks, such as [[light, dark], [dark, light]]"
_KINDS: Final[tuple[Literal["straight", "on-point", "strippy"], ...]] = ("straight", "on-point", "strippy")
_BLOCK_TURNS: Final[tuple[Literal["free", "fixed"], ...]] = ("free", "fixed")


class SettingReader:
    """Reads the setting."""

    def __init__(self, names: Names, scalars: Scalars, defaults: Defaults, report: Report) -> None:
        self._names = names
        self._scalars = scalars
        self._defaults = defaults
        self._report = report

    def setting(self, node: Node | None, where: Mark) -> Setting | None:
        """Read the setting; ``None`` when no block of it could be read."""
        fields = open_fields(node, where, keys.SETTING, self._report)
        kind = self._scalars.choice(fields["set"], _KINDS)
        self._check_kind(fields, kind)
        blocks = self._tile(fields["blocks"])
        between = self._tile(fields["between"])
        turns = self._scalars.choice(fields["turns"], _BLOCK_TURNS) or "free"
        sashing = self._sashing(fields, kind)
        triangles = self._triangles(fields)
        if blocks is None:
            return None
        on_point = kind == "on-point" or (kind is None and ("triangles" in fields or "between" in fields))
        return Setting(
            set="on-point" if on_point else "straight",
            blocks=blocks,
            between=between if on_point else None,
            turns=turns,
            sashing=sashing,
            triangles=triangles if on_point else None,
            where=where,
            run="down" if kind == "strippy" and sashing else "across",  # without its strips it is reported above
        )

    def _check_kind(self, fields: Fields, kind: str | None) -> None:
        """Report what belongs to the other kind of set."""
        if kind in ("straight", "strippy"):
            for key in ("between", "triangles"):
                if key in fields:
                    self._report.add(fields.key(key), f"{key} in a {kind} set", f"{key} only in an on-point set")
            if kind == "strippy" and "sashing" not in fields:
                expected = "'sashing' with the fabric and the width of the strips between the columns"
                self._report.add(fields.where, "a strippy set without 'sashing'", expected)
        elif kind == "on-point" and "triangles" not in fields:
            self._report.add(
                fields.where,
                "an on-point set without 'triangles'",
                "'triangles' with their fabric",
                "such as triangles: {fabric: ...}",
            )

    # ------------------------------------------------------------------------------------------- tiles

    def _tile(self, node: Node | None) -> Tile | None:
        """Read a tile; a cell that cannot be read stands as the first that can."""
        rows = [
            (
                row,
                [self._cell(cell) for cell in open_items(row, "a row of blocks, such as [light, dark]", self._report)],
            )
            for row in open_items(node, _A_TILE, self._report)
        ]
        known = next((cell for _, row in rows for cell in row if cell is not None), None)
        if known is None:
            return None
        width = len(rows[0][1])
        for row, cells in rows[1:]:
            if cells and width and len(cells) != width:
                self._report.add(row.where, f"a row of {len(cells)}", f"{width}, as in the first row")
        width = width or max(len(cells) for _, cells in rows)
        return tuple(tuple((cells[i] if i < len(cells) else None) or known for i in range(width)) for _, cells in rows)

    def _cell(self, node: Node) -> Cell | None:
        """Read ``BLOCK``, ``BLOCK@TURN`` or a plain fabric."""
        text = self._scalars.text(node, "a block such as light or light@90, or a plain fabric")
        if text is None:
            return None
        name, at, turn_text = text.text.partition("@")
        name, turn_text = name.strip(), turn_text.strip()
        turn = _TURNS.get(turn_text) if at else 0
        if turn is None:
            expected = f"{shown(name)}@ and a turn: {one_of(_TURNS)}"
            self._report.add(text.where, f"the turn {quoted(turn_text)}", expected)
            turn = 0
        if self._names.has_block(name) and (self._names.blocks or not self._names.has_fabric(name)):
            return Cell(block=name, plain=None, turn=turn, where=text.where)
        if self._names.has_fabric(name.partition(".")[0]):
            return Cell(block=None, plain=self._names.use(name, text.where), turn=turn, where=text.where)
        near = self._names.report_block(name, text.where, plain_too=True)
        return None if near is None else Cell(block=near, plain=None, turn=turn, where=text.where)

    # --------------------------------------------------------------------------- sashing and triangles

    def _sashing(self, fields: Fields, kind: str | None) -> Sashing | None:
        if "sashing" not in fields:
            return None
        where = fields.key("sashing")
        inner = open_fields(fields["sashing"], where, keys.SASHING, self._report)
        fabric = self._use(inner["fabric"])
        width = self._scalars.length(inner["width"], None)
        cornerstone = self._use(inner["cornerstone"])
        if kind == "strippy" and cornerstone is not None:
            expected = "none: the strips of a strippy set are as long as its columns"
            self._report.add(inner.key("cornerstone"), "cornerstones in a strippy set", expected)
            cornerstone = None
        outer = self._scalars.flag(inner["outer"], default=kind == "on-point")
        if fabric is None or width is None:
            return None
        return Sashing(fabric=fabric, width=width, cornerstone=cornerstone, outer=outer, where=where)

    def _triangles(self, fields: Fields) -> Triangles:
        where = fields.key("triangles")
        inner = open_fields(fields["triangles"], where, keys.TRIANGLES, self._report)
        return Triangles(
            fabric=self._names.yardage(self._text(inner["fabric"]), "a setting triangle", self._names.any_yardage),
            oversize=self._scalars.length(inner["oversize"], self._defaults.triangle_oversize, zero=True),
            float=self._scalars.length(inner["float"], ZERO, zero=True),
            where=where,
        )

    def _text(self, node: Node | None) -> Scalar | None:
        return self._scalars.text(node, "a fabric")

    def _use(self, node: Node | None) -> FabricUse | None:
        text = self._text(node)
        return None if text is None else self._names.use(text.text, text.where)
