"""What quilters say for what a pattern calls otherwise or cannot hold, wherever it turns up as a key or a choice."""

from __future__ import annotations

import unicodedata
from typing import Final

_STRAIGHT: Final = "patches joined by straight seams from edge to edge"

_INSET: Final = ("an inset (Y) seam, which Seamleaf cannot plan", _STRAIGHT)
_CURVE: Final = ("a curved seam, which Seamleaf cannot plan", _STRAIGHT)
_APPLIQUE: Final = ("appliqué, which Seamleaf cannot plan", _STRAIGHT)
_FOUNDATION: Final = ("foundation (paper) piecing, which Seamleaf cannot plan", _STRAIGHT)
_TEMPLATE: Final = (
    "pieces cut by templates, which Seamleaf cannot plan",
    "rectangles, squares and triangles of squares",
)
_MEDALLION: Final = (
    "a medallion set, whose rounds are written as borders",
    "'straight' with one block in the middle; its frame is a border, and a round of blocks a border with 'pieced'",
)
_SCALLOPED: Final = ("a scalloped edge, which Seamleaf cannot plan", "a straight edge")
_EMBROIDERY: Final = ("embroidery, which Seamleaf cannot plan", _STRAIGHT)

_REFUSED: Final = {
    "inset": _INSET, "inset-seam": _INSET, "set-in": _INSET, "set-in-seam": _INSET, "y-seam": _INSET, "y": _INSET,
    "curve": _CURVE, "curves": _CURVE, "curved": _CURVE, "arc": _CURVE, "circle": _CURVE, "quarter-circle": _CURVE,
    "drunkards-path": _CURVE,
    "applique": _APPLIQUE, "raw-edge-applique": _APPLIQUE, "needle-turn": _APPLIQUE, "fused": _APPLIQUE,
    "foundation": _FOUNDATION, "foundation-piecing": _FOUNDATION, "foundation-pieced": _FOUNDATION,
    "paper": _FOUNDATION, "paper-piecing": _FOUNDATION, "paper-pieced": _FOUNDATION,
    "english-paper-piecing": _FOUNDATION,
    "template": _TEMPLATE, "templates": _TEMPLATE, "hexagon": _TEMPLATE, "hexagons": _TEMPLATE, "kite": _TEMPLATE,
    "polygon": _TEMPLATE, "trapezoid": _TEMPLATE, "parallelogram": _TEMPLATE,
    "medallion": _MEDALLION,
    "scallop": _SCALLOPED, "scalloped": _SCALLOPED, "embroidery": _EMBROIDERY,
}  # fmt: skip


_OTHER_NAMES: Final = {
    "hst": "half-square", "half-square-triangle": "half-square", "triangle-square": "half-square",
    "qst": "quarter-square", "quarter-square-triangle": "quarter-square", "hourglass": "quarter-square",
    "hrt": "half-rectangle", "half-rectangle-triangle": "half-rectangle",
    "split-quarter-square": "three-triangle", "flying-geese": "geese", "flying-goose": "geese",
    "snowball": "corners", "flip": "corners", "stitch-and-flip": "corners",
    "square-in-square": "diamond", "square-in-a-square": "diamond", "economy": "diamond",
    "width": "strip", "wof": "usable", "width-of-fabric": "usable", "size": "finished", "name": "title",
    "seam-allowance": "seam", "author": "designer", "description": "summary", "level": "skill",
    "log-cabin": "around", "courthouse-steps": "around", "partial-seam": "partial", "ring": "partial",
}  # fmt: skip


def other_name(word: str) -> str | None:
    """Return what a pattern calls a part, or one of its properties, that quilters call so; from memory."""
    return None if len(word) > 40 else _OTHER_NAMES.get(_plain(word))


def refusal(word: str) -> tuple[str, str] | None:
    """Return what was found and what is expected instead, when ``word`` names something the tool cannot plan.

    Case, accents, underscores and spaces make no difference: ``Appliqué`` is ``applique``.
    """
    return None if len(word) > 40 else _REFUSED.get(_plain(word))


def _plain(word: str) -> str:
    plain = "".join(c for c in unicodedata.normalize("NFKD", word) if not unicodedata.combining(c))
    return plain.lower().replace("_", "-").replace(" ", "-").replace("'", "").replace("’", "")
