"""The fabrics of a pattern: what each is bought as, what a piece is sure to yield, its colours."""

from __future__ import annotations

from typing import Final, Literal

from seamleaf.lengths import ZERO, Length, LengthError, parse_length
from seamleaf.reading import keys
from seamleaf.reading.defaults import DEFAULT_COLOUR, Defaults
from seamleaf.reading.fields import Fields, open_entries, open_fields, open_items
from seamleaf.reading.limits import MAX_FABRICS, MAX_INCHES, MAX_PACK
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import check_name
from seamleaf.reading.nodes import Entry, Node, Sequence
from seamleaf.reading.pattern import Fabric, SourceKind
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.wording import did_you_mean, quoted

_SOURCES: Final = "yardage, squares 10, squares 5, strips 2 1/2, fat quarters or fat eighths"
_WHOLE: Final[tuple[SourceKind, ...]] = ("yardage", "fat quarters", "fat eighths")
_SIZED: Final[tuple[SourceKind, ...]] = ("squares", "strips")
_EDGES: Final[tuple[Literal["straight", "pinked"], ...]] = ("straight", "pinked")


class FabricReader:
    """Reads the fabrics; ``unclear`` takes the ids of those whose source could not be read."""

    def __init__(self, scalars: Scalars, defaults: Defaults, report: Report) -> None:
        self.unclear: set[str] = set()
        self._scalars = scalars
        self._defaults = defaults
        self._report = report

    def fabrics(self, node: Node | None) -> dict[str, Fabric]:
        """Read all, at most 60."""
        entries = open_entries(node, "fabrics by their short names, each with its source", self._report)
        if len(entries) > MAX_FABRICS:
            self._report.add(
                entries[MAX_FABRICS].key.where, f"{len(entries)} fabrics", f"at most {MAX_FABRICS} fabrics"
            )
        return {entry.key.text: self._fabric(entry) for entry in entries}

    def _fabric(self, entry: Entry) -> Fabric:
        id_ = entry.key.text
        check_name(entry, "a fabric", self._report)
        fields = open_fields(entry.value, entry.key.where, keys.FABRIC, self._report)
        source = self._source(fields["source"])
        if source is None:
            self.unclear.add(id_)
        kind, size, text = source or ("yardage", None, "yardage")
        if source is not None:
            self._check_keys(fields, kind, text)
        margin = self._defaults.margin if kind == "yardage" else ZERO
        return Fabric(
            id=id_,
            title=self._scalars.title(fields["title"], id_),
            source=kind,
            source_size=size,
            source_text=text,
            usable=self._usable(fields["usable"], kind, size, text),
            pack=self._scalars.count(fields["pack"], None, most=MAX_PACK, what="pieces in a bundle"),
            edge=self._scalars.choice(fields["edge"], _EDGES) or "straight",
            colours=self._colours(fields, kind, text, clear=source is not None),
            directional=self._scalars.flag(fields["directional"], default=False),
            margin=self._scalars.length(fields["margin"], margin, zero=True),
            where=entry.key.where,
        )

    def _source(self, node: Node | None) -> tuple[SourceKind, Length | None, str] | None:
        """Read the source: kind, size in the pattern's unit, text."""
        text = self._scalars.text(node, f"a source: {_SOURCES}")
        if text is None:
            return None
        words = text.text.split()
        plain = " ".join(words)
        for kind in _WHOLE:
            if plain == kind:
                return kind, None, plain
        for kind in _SIZED:
            if words[0] == kind:
                return self._sized(kind, plain, text.where)
        hint = did_you_mean(text.text, (*_WHOLE, "squares 10", "squares 5", "strips 2 1/2"))
        self._report.add(text.where, f"the source {quoted(text.text)}", _SOURCES, hint)
        return None

    def _sized(self, kind: SourceKind, plain: str, where: Mark) -> tuple[SourceKind, Length | None, str] | None:
        """Read ``squares 10`` or ``strips 2 1/2``: names of the trade, always in inches."""
        try:
            inches = parse_length(plain.removeprefix(kind), "plain")
        except LengthError:
            inches = ZERO
        if not 0 < inches <= MAX_INCHES:
            expected = f"the size of the {kind} in inches, such as {kind} {'10' if kind == 'squares' else '2 1/2'}"
            self._report.add(where, f"the source {quoted(plain)}", expected)
            return None
        return kind, inches * self._scalars.measures.inch, plain

    def _check_keys(self, fields: Fields, kind: SourceKind, source: str) -> None:
        """Report keys that say nothing about this kind of source."""
        for key in ("pack", "edge") if kind == "yardage" else ("margin",):
            if key in fields:
                other = "a bundle" if kind == "yardage" else "yardage"
                self._report.add(fields.key(key), f"{key} for {source}", f"{key} for {other} only")

    def _usable(self, node: Node | None, kind: SourceKind, size: Length | None, source: str) -> tuple[Length, Length]:
        """Read what a piece is sure to yield; yardage: (width, 0)."""
        wide = self._defaults.usable_width
        if kind == "yardage":
            return self._scalars.length(node, wide), ZERO
        if kind == "fat quarters":
            return self._scalars.pair(node, self._defaults.fat_quarter, "usable width x height, such as 18 x 20")
        if kind == "fat eighths":
            return self._scalars.pair(node, self._defaults.fat_eighth, "usable width x height, such as 18 x 20")
        nominal = size or wide
        if kind == "strips":
            return self._scalars.length(node, wide), nominal
        side = self._scalars.length(node, nominal)
        if side > nominal and node is not None:
            self._report.add(node.where, f"a usable side larger than {source}", f"at most {source.split(' ', 1)[1]} in")
            side = nominal
        return side, side

    def _colours(self, fields: Fields, kind: SourceKind, source: str, *, clear: bool) -> tuple[str, ...]:
        if "colour" in fields and "colours" in fields:
            second = max(fields.key("colour"), fields.key("colours"))
            self._report.add(second, "both colour and colours", "colour for one, or colours for several")
        if "colours" not in fields:
            return (self._scalars.colour(fields["colour"], DEFAULT_COLOUR),)
        node = fields["colours"]
        nodes = open_items(node, "a list of colours", self._report)
        if clear and kind == "yardage" and len(nodes) > 1 and isinstance(node, Sequence):
            self._report.add(node.where, f"{len(nodes)} colours of {source}", "one colour: yardage is one fabric")
            nodes = nodes[:1]
        colours = tuple(self._scalars.colour(node, DEFAULT_COLOUR) for node in nodes)
        return colours or (DEFAULT_COLOUR,)
