"""The sizes of a pattern and the classes that sew them."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from seamleaf.lengths import ZERO, Length, LengthError, parse_length
from seamleaf.reading import keys
from seamleaf.reading.fields import Fields, open_entries, open_fields, open_items
from seamleaf.reading.limits import MAX_SCALE, MAX_STUDENTS, MIN_SCALE
from seamleaf.reading.locks import read_locks
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import Names, check_slug
from seamleaf.reading.nodes import Entry, Node
from seamleaf.reading.pattern import ClassPlan, Cover, Setting, Size, Widths
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.widths import read_widths
from seamleaf.reading.wording import did_you_mean, one_of, quoted

MAX_BLOCKS: Final = 2500


class SizeReader:
    """Reads sizes and classes; ``borders`` is how many borders the pattern has, ``None`` if that is unclear."""

    def __init__(
        self, setting: Setting | None, borders: int | None, names: Names, scalars: Scalars, report: Report
    ) -> None:
        self._setting = setting
        self._names = names
        self._borders = borders
        self._scalars = scalars
        self._report = report

    def sizes(self, node: Node | None) -> dict[str, Size]:
        """Read all sizes; one without a readable extent is left out."""
        entries = open_entries(node, "sizes by their short names, each with its blocks", self._report)
        sizes = {entry.key.text: self._size(entry) for entry in entries}
        return {id_: size for id_, size in sizes.items() if size is not None}

    def _size(self, entry: Entry) -> Size | None:
        id_, where = entry.key.text, entry.key.where
        check_slug(entry, "a size", self._report)
        fields = open_fields(entry.value, where, keys.SIZE, self._report)
        if "blocks" in fields and "cover" in fields:
            second = max(fields.key("blocks"), fields.key("cover"))
            self._report.add(second, "both blocks and cover", "either blocks across x down, or a bed to cover")
        elif fields.was_read and "blocks" not in fields and "cover" not in fields:
            self._report.add(
                where, "a size that does not say how large it is", "'blocks' (across x down) or 'cover' (a bed)"
            )
        title = self._scalars.title(fields["title"], id_.replace("-", " ").capitalize())
        blocks = self._blocks(fields["blocks"])
        cover = self._cover(fields)
        widths = self._widths(fields["borders"])
        locks = read_locks(fields["locks"], self._names, self._scalars, self._report)
        if blocks is None and cover is None:
            return None
        scale, finished, scale_where = self._scale(fields)
        return Size(
            id=id_,
            title=title,
            blocks=blocks,
            cover=None if blocks else cover,
            borders=widths,
            where=where,
            scale=scale,
            finished=finished,
            scale_where=scale_where,
            locks=locks,
        )

    def _scale(self, fields: Fields) -> tuple[Fraction | None, tuple[Length, Length] | None, Mark | None]:
        """Read the scale of the blocks, or the block's finished size in this size, and where it is written."""
        if "scale" in fields and "finished" in fields:
            second = max(fields.key("scale"), fields.key("finished"))
            self._report.add(second, "both scale and finished", "either a scale, or the block's finished size")
        where = next((fields.key(key) for key in ("scale", "finished") if key in fields), None)
        if "finished" in fields:
            return None, self._scalars.pair(fields["finished"], None), where
        expected = f"a scale such as 1 1/2, from {MIN_SCALE} to {MAX_SCALE}"
        text = self._scalars.text(fields["scale"], expected)
        if text is None:
            return None, None, where
        try:
            scale = parse_length(text.text, "plain").a
        except LengthError:
            scale = Fraction(0)
        if not MIN_SCALE <= scale <= MAX_SCALE:
            self._report.add(text.where, quoted(text.text), expected)
            return None, None, where
        return scale, None, where

    def _blocks(self, node: Node | None) -> tuple[int, int] | None:
        counts = self._scalars.counts(node, None)
        if counts is None or node is None:
            return counts
        across, down = counts
        on_point = self._setting is not None and self._setting.set == "on-point"
        total = across * down + ((across - 1) * (down - 1) if on_point else 0)
        if total > MAX_BLOCKS:
            self._report.add(node.where, f"a quilt of {total} blocks", f"at most {MAX_BLOCKS} blocks")
            return None
        return counts

    def _cover(self, fields: Fields) -> Cover | None:
        if "cover" not in fields:
            return None
        where = fields.key("cover")
        inner = open_fields(fields["cover"], where, keys.COVER, self._report)
        mattress = self._scalars.pair(inner["mattress"], None, "the width x length of the mattress, such as 60 x 80")
        drop = self._scalars.length(inner["drop"], ZERO, zero=True)
        tuck = self._scalars.length(inner["tuck"], ZERO, zero=True)
        return None if mattress is None else Cover(mattress=mattress, drop=drop, tuck=tuck, where=where)

    def _widths(self, node: Node | None) -> tuple[Widths, ...] | None:
        if node is None:
            return None
        nodes = open_items(node, "a list of border widths, such as [1, 2 1/2]", self._report)
        widths = tuple(read_widths(item, self._scalars, self._report) for item in nodes)
        if not nodes or self._borders is None:
            return None
        if len(widths) != self._borders:
            expected = (
                f"{self._borders}, one for each border of the pattern" if self._borders else "none without borders"
            )
            self._report.add(node.where, f"a list of {len(widths)} border width{'s' * (len(widths) != 1)}", expected)
            return None
        return widths

    # ----------------------------------------------------------------------------------------- classes

    def classes(self, node: Node | None, sizes: tuple[str, ...]) -> dict[str, ClassPlan]:
        """Read all classes; ``sizes`` are the ids written in the file, whether or not they could be read."""
        plans = (
            self._class(entry, sizes) for entry in open_entries(node, "classes by their short names", self._report)
        )
        return {plan.id: plan for plan in plans if plan is not None}

    def _class(self, entry: Entry, sizes: tuple[str, ...]) -> ClassPlan | None:
        id_, where = entry.key.text, entry.key.where
        check_slug(entry, "a class", self._report)
        fields = open_fields(entry.value, where, keys.CLASS, self._report)
        size = self._scalars.text(fields["size"], "a size of the pattern")
        if size is not None and sizes and size.text not in sizes:
            hint = did_you_mean(size.text, sizes)
            self._report.add(size.where, f"unknown size {quoted(size.text)}", one_of(sizes), hint)
            size = None
        title = self._scalars.title(fields["title"], id_)
        students = self._scalars.count(fields["students"], 1, most=MAX_STUDENTS, what="students")
        nodes = open_items(fields["sessions"], "a list of sessions, such as [3 h, 3 h]", self._report)
        sessions = tuple(hours for node in nodes if (hours := self._scalars.hours(node, None)) is not None)
        if size is None:
            return None
        return ClassPlan(id=id_, title=title, size=size.text, students=students, sessions=sessions, where=where)
