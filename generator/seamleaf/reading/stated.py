"""Stated values: a designer's hand-made table, size by size, to be compared with what is computed.

stated:
  throw:
    finished: 60 x 72
    blocks: 20
    buy: {ground: 3 1/4 yd, star: 1 pack}
    cut: {ground: [32 of 2 7/8, 64 of 4 1/2 x 2 1/2]}
    binding: 7
"""

from __future__ import annotations

import re
from typing import Final, cast

from seamleaf.lengths import LengthError, parse_length
from seamleaf.reading import keys
from seamleaf.reading.fields import open_entries, open_fields, open_items
from seamleaf.reading.limits import MAX_COUNT
from seamleaf.reading.names import Names
from seamleaf.reading.nodes import Entry, Node
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.stated_records import BuyUnit, Stated, StatedBuy, StatedCut, StatedCuts, StatedSize
from seamleaf.reading.wording import did_you_mean, one_of, quoted

BACKING: Final = "backing"
"""The back's fabric where the pattern names none."""

_UNITS: Final = {"yd": "yd", "m": "m", "pack": "pack", "packs": "pack", "piece": "piece", "pieces": "piece"}
_AMOUNT: Final = re.compile(r"(.*?) *(yd|m|packs?|pieces?)")
_CUT: Final = re.compile(r"(?:([0-9]{1,6}) +of +)?(.+)")


class StatedReader:
    """Reads the table; ``sizes`` are the ids written in the file."""

    def __init__(self, names: Names, sizes: tuple[str, ...], scalars: Scalars, report: Report) -> None:
        self._names = names
        self._sizes = sizes
        self._scalars = scalars
        self._report = report

    def stated(self, node: Node | None) -> tuple[StatedSize, ...]:
        """Read what is stated of each size."""
        found: list[StatedSize] = []
        for entry in open_entries(node, "sizes, each with what is stated of it", self._report):
            size = entry.key.text
            if self._sizes and size not in self._sizes:
                hint = did_you_mean(size, self._sizes)
                self._report.add(entry.key.where, f"unknown size {quoted(size)}", one_of(self._sizes), hint)
            else:
                found.append(self._size(entry))
        return tuple(found)

    def _size(self, entry: Entry) -> StatedSize:
        where = entry.key.where
        fields = open_fields(entry.value, where, keys.STATED, self._report)
        node = fields["finished"]
        finished = self._scalars.pair(node, None)
        blocks = self._count(fields["blocks"], "all blocks of the quilt")
        binding = self._count(fields["binding"], "strips of binding")
        buys = [self._buy(each) for each in self._by_fabric(fields["buy"], "a purchase, such as 3 1/4 yd")]
        cuts = [self._cuts(each) for each in self._by_fabric(fields["cut"], "a list of cut sizes, such as 8 of 2 7/8")]
        return StatedSize(
            size=entry.key.text,
            finished=None if finished is None or node is None else Stated(value=finished, where=node.where),
            blocks=blocks,
            binding=binding,
            buy=tuple(each for each in buys if each is not None),
            cut=tuple(cuts),
            where=where,
        )

    def _count(self, node: Node | None, what: str) -> Stated[int] | None:
        value = self._scalars.count(node, None, most=MAX_COUNT, what=what)
        return None if value is None or node is None else Stated(value=value, where=node.where)

    def _by_fabric(self, node: Node | None, what: str) -> list[Entry]:
        """Return the entries whose keys are fabrics of the pattern, or the back."""
        known = [*self._names.fabrics, *([] if BACKING in self._names.fabrics else [BACKING])]
        found: list[Entry] = []
        for entry in open_entries(node, f"fabrics, each with {what}", self._report):
            if self._names.has_fabric(entry.key.text) or entry.key.text == BACKING:
                found.append(entry)
            else:
                hint = did_you_mean(entry.key.text, known)
                self._report.add(entry.key.where, f"unknown fabric {quoted(entry.key.text)}", one_of(known), hint)
        return found

    def _buy(self, entry: Entry) -> StatedBuy | None:
        expected = "a purchase with its unit, such as 3 1/4 yd, 2.5 m, 1 pack or 12 pieces"
        text = self._scalars.text(entry.value, expected)
        if text is None:
            return None
        match = _AMOUNT.fullmatch(text.text)
        try:
            amount = None if match is None else parse_length(match[1], "plain").a
        except LengthError:
            amount = None
        if match is None or amount is None or not 0 < amount <= MAX_COUNT:
            self._report.add(text.where, quoted(text.text), expected)
            return None
        unit = cast("BuyUnit", _UNITS[match[2]])
        return StatedBuy(fabric=entry.key.text, amount=amount, unit=unit, text=text.text, where=text.where)

    def _cuts(self, entry: Entry) -> StatedCuts:
        nodes = open_items(entry.value, "a list of cut sizes, such as [8 of 2 7/8, 4 1/2 x 2 1/2]", self._report)
        cuts = [self._cut(node) for node in nodes]
        return StatedCuts(
            fabric=entry.key.text,
            cuts=tuple(each for each in cuts if each is not None),
            complete=all(each is not None for each in cuts),
            where=entry.key.where,
        )

    def _cut(self, node: Node) -> StatedCut | None:
        expected = "a cut size, such as 8 of 2 7/8 or 8 of 4 1/2 x 2 1/2"
        text = self._scalars.text(node, expected)
        match = None if text is None else _CUT.fullmatch(text.text)
        if text is None or match is None:
            if text is not None:
                self._report.add(text.where, quoted(text.text), expected)
            return None
        size = match[2] if re.search("[xX×]", match[2]) else f"{match[2]} x {match[2]}"
        sides = self._scalars.pair_of(size, text.where, expected)
        if sides is None:
            return None
        return StatedCut(count=int(match[1]) if match[1] else None, sides=sides, text=text.text, where=text.where)
