"""What quilters do and this tool cannot plan: refused by name, wherever the name turns up as a key or a choice."""

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


def refusal(word: str) -> tuple[str, str] | None:
    """Return what was found and what is expected instead, when ``word`` names something the tool cannot plan.

    Case, accents, underscores and spaces make no difference: ``Appliqué`` is ``applique``.
    """
    if len(word) > 40:
        return None
    plain = "".join(c for c in unicodedata.normalize("NFKD", word) if not unicodedata.combining(c))
    return _REFUSED.get(plain.lower().replace("_", "-").replace(" ", "-").replace("'", "").replace("’", ""))
