"""Every key that a pattern file may hold: one table a mapping.

Readers open a mapping with its table (see :mod:`seamleaf.reading.fields`), so an unknown key is answered with the
same list that decides what is known.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Keys:
    """The keys of one kind of mapping."""

    of: str
    """What the mapping describes, as a phrase: ``a fabric``."""
    required: tuple[str, ...] = ()
    optional: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[str, ...]:
        """Every valid key, the required ones first."""
        return self.required + self.optional

    def also(self, *optional: str) -> Keys:
        """Return these keys with more optional ones, leaving out those that are there already."""
        more = tuple(key for key in optional if key not in self.all)
        return Keys(of=self.of, required=self.required, optional=self.optional + more)


PATTERN: Final = Keys(
    of="the pattern",
    required=("title", "version", "fabrics", "blocks", "setting", "sizes"),
    optional=(
        "designer",
        "summary",
        "skill",
        "unit",
        "seam",
        "borders",
        "binding",
        "backing",
        "batting",
        "classes",
        "versions",
        "stated",
    ),
)
FABRIC: Final = Keys(
    of="a fabric",
    required=("source",),
    optional=("title", "pack", "edge", "usable", "colour", "colours", "directional", "margin"),
)
SETTING: Final = Keys(
    of="the setting",
    required=("set", "blocks"),
    optional=("between", "turns", "sashing", "triangles"),
)
SASHING: Final = Keys(of="the sashing", required=("fabric", "width"), optional=("cornerstone", "outer"))
TRIANGLES: Final = Keys(of="the setting triangles", required=("fabric",), optional=("oversize", "float"))
BORDER: Final = Keys(of="a border", required=("fabric", "width"), optional=("corner", "cornerstone", "joined"))
BINDING: Final = Keys(of="the binding", required=("fabric",), optional=("strip", "cut", "extra"))
BACKING: Final = Keys(of="the backing", optional=("fabric", "usable", "extra", "insert"))
BATTING: Final = Keys(of="the batting", optional=("extra",))
SIZE: Final = Keys(of="a size", optional=("title", "blocks", "cover", "borders", "scale", "finished"))
COVER: Final = Keys(of="a bed to cover", required=("mattress", "drop"), optional=("tuck",))
CLASS: Final = Keys(of="a class", required=("size", "students"), optional=("title", "sessions"))
STATED: Final = Keys(of="what is stated of a size", optional=("finished", "blocks", "buy", "cut", "binding"))

PARTS: Final = {
    "row": Keys(of="a row", required=("row",), optional=("method",)),
    "column": Keys(of="a column", required=("column",), optional=("method",)),
    "grid": Keys(of="a grid", required=("grid", "key"), optional=("method",)),
    "half-square": Keys(
        of="a half-square", required=("half-square", "finished"), optional=("turn", "method", "oversize")
    ),
    "quarter-square": Keys(
        of="a quarter-square", required=("quarter-square", "finished"), optional=("turn", "method", "oversize")
    ),
    "geese": Keys(of="flying geese", required=("geese", "finished"), optional=("point", "method", "oversize")),
    "corners": Keys(of="stitch-and-flip corners", required=("corners", "corner", "finished"), optional=("method",)),
    "diamond": Keys(of="a square in a square", required=("diamond",), optional=("finished", "method", "oversize")),
    "around": Keys(of="a log cabin", required=("around",)),
    "partial": Keys(of="a ring closed by a partial seam", required=("partial",)),
    "use": Keys(of="a block used as a part", required=("use",), optional=("turn", "mirror")),
}
"""The kinds of parts, by the key that names the kind."""

PART_WORDS: Final = tuple(dict.fromkeys(key for keys in PARTS.values() for key in keys.all))
"""Every key that any part may hold."""

GEESE: Final = Keys(of="geese", required=("goose", "sky"))
CORNERS: Final = Keys(
    of="corners", required=("base",), optional=("top-left", "top-right", "bottom-right", "bottom-left")
)
DIAMOND: Final = Keys(of="diamond", required=("centre", "corners"))
AROUND: Final = Keys(of="around", required=("centre", "logs"), optional=("start", "direction"))
PARTIAL: Final = Keys(of="partial", required=("centre", "ring"), optional=("direction",))
