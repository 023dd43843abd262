"""Booklets of small patterns that show every way of sewing, setting and pressing, planned as any pattern is."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from patterns_for_tests import booklet_of, grid, half_square
from seamleaf.booklet import Booklet

FABRICS: dict[str, Any] = {
    "light": {"source": "yardage", "colour": "#f4efe2"},
    "dark": {"source": "yardage", "colour": "#2b4a3f"},
    "red": {"source": "yardage", "colour": "#7a2b33"},  # as dark as "dark" to many eyes
    "gold": {"source": "squares 10", "colours": ["#e3b23c", "#d9593d"]},
}
PLAIN: dict[str, Any] = {name: {"source": "yardage"} for name in ("light", "dark", "red")}
"""The same names without colours of their own, for patterns that look at shapes alone."""
LOGS = ["light 1", "light 1", "dark 1", "dark 1"]
NINE = grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")
PINWHEEL = grid(
    ["AB", "DC"],
    A=half_square("dark", "light", "3"), B=half_square("dark", "light", "3", 90),
    C=half_square("dark", "light", "3", 180), D=half_square("dark", "light", "3", 270),
)  # fmt: skip
"""Four half-squares round a point, at which the last seam is spun."""


def ring(direction: str, centre: Any = "gold 2 x 2") -> dict[str, Any]:
    """Return a ring of three-inch rectangles round a centre of 2 x 2."""
    return {"partial": {"centre": centre, "ring": "dark 1 x 3", "direction": direction}}


def quarter_square(*uses: str, side: str = "4", **more: Any) -> dict[str, Any]:
    """Return a quarter-square: top, right, bottom, left."""
    return {"quarter-square": list(uses), "finished": f"{side} x {side}", **more}


def cabin(logs: list[str], centre: Any = "red 2 x 2", **more: Any) -> dict[str, Any]:
    """Return a log cabin."""
    return {"around": {"centre": centre, "logs": logs, **more}}


CORNERS = {
    "corners": {"base": "gold", "top-left": "light", "bottom-right": "light", "top-right": "red"},
    "corner": "3",
    "finished": "8 x 8",
}
ALL_CORNERS = {
    "corners": {
        "base": "dark",
        "top-left": "light",
        "top-right": "light",
        "bottom-left": "light",
        "bottom-right": "red",
    },
    "corner": "4",
    "finished": "8 x 8",
}
"""Half a side each: every square lies on the allowances of its neighbours."""
DIAMOND = {"diamond": {"centre": "gold", "corners": "dark"}, "finished": "8 x 8"}
STAGES: Mapping[str, Any] = {
    "snow": CORNERS,
    "inner": DIAMOND,
    "log": cabin(LOGS * 3),
    "court": cabin(LOGS * 2, "red 4 x 4", start="top", direction="opposite"),
    "mixed": {
        "row": [
            {"column": [ring("clockwise"), ring("anticlockwise")]},
            {
                "column": [
                    quarter_square("red", "light", "red", "light", method="two"),
                    quarter_square("red", "light", "dark", "light"),
                ]
            },
        ]
    },
}


MORE: dict[str, Any] = {"fabrics": FABRICS, "binding": {"fabric": "dark", "strip": "2 1/2"}}
SASHING = {"fabric": "light", "width": "1 1/2"}
OUTER = {**SASHING, "cornerstone": "red", "outer": "true"}
BORDERS = [
    {"fabric": "red", "width": "2", "corner": "cornerstone", "cornerstone": "light"},
    {"fabric": "light", "width": "3", "corner": "mitred"},
]
PLANS: Mapping[str, Mapping[str, Any]] = {
    "stages": {"blocks": STAGES, "on_point": "1/2", "tile": [list(STAGES)], "size": "5 x 2"},
    "spun": {"blocks": {"pinwheel": PINWHEEL}, "size": "3 x 2"},
    "a and b": {"blocks": {"nine": NINE}, "turns": "fixed", "size": "3 x 3"},
    "pinned": {"blocks": {"snow": ALL_CORNERS}, "size": "3 x 3"},
    "sashed": {
        "blocks": {"nine": NINE},
        "setting": {"set": "straight", "blocks": [["nine"]], "sashing": OUTER},
        "borders": BORDERS,
        "size": "3 x 2",
    },
    "long sashes": {
        "blocks": {"nine": NINE},
        "setting": {"set": "straight", "blocks": [["nine"]], "sashing": SASHING},
        "size": "3 x 2",
    },
}
"""The patterns by what they show."""


@cache
def booklet(name: str) -> Booklet:
    """Return one of these booklets."""
    return booklet_of(**PLANS[name], **MORE)


def kinds() -> dict[str, Booklet]:
    """Return all of them."""
    return {name: booklet(name) for name in PLANS}
