"""Traditional blocks, in the public domain, as the parts of a pattern; ``u`` is the finished side of their grid."""

from __future__ import annotations

from typing import Any

from patterns_for_tests import geese, grid, half_square, inches, use
from seamleaf.lengths import format_rational

Blocks = dict[str, Any]
"""Blocks of a pattern by id; the whole one is called ``block``."""


def size(u: str, w: int, h: int) -> str:
    """Return a size of w x h grid squares as a pattern file writes it."""
    return " x ".join(format_rational(inches(u).a * count, "in") for count in (w, h))


def wheel(part: str) -> Any:
    """Return four quarters, each turned on by 90 degrees."""
    return {"column": [{"row": [use(part), use(part, 90)]}, {"row": [use(part, 270), use(part, 180)]}]}


def frame(corner: Any, side: str, centre: Any) -> Any:
    """Return three rows of three: a corner and a side turned round a centre. ``side`` lies at the top."""
    corners = (
        [corner] * 4 if isinstance(corner, str) and " " in corner else [use(corner, turn) for turn in (0, 90, 180, 270)]
    )
    return {
        "column": [
            {"row": [corners[0], use(side), corners[1]]},
            {"row": [use(side, 270), centre, use(side, 90)]},
            {"row": [corners[3], use(side, 180), corners[2]]},
        ]
    }


def nine_patch(u: str) -> Blocks:
    """Return five dark squares and four light ones."""
    return {"block": grid(["DLD", "LDL", "DLD"], D=f"dark {u} x {u}", L=f"light {u} x {u}")}


def rail_fence(u: str) -> Blocks:
    """Return three rails."""
    return {"block": {"column": [f"{fabric} {size(u, 3, 1)}" for fabric in ("dark", "light", "red")]}}


def pinwheel(u: str, **how: Any) -> Blocks:
    """Return four half-squares that all turn one way."""
    return {"vane": half_square("dark", "light", u, **how), "block": wheel("vane")}


def churn_dash(u: str, **how: Any) -> Blocks:
    """Return half-squares at the corners, bars of two halves between, a light centre."""
    half = format_rational(inches(u).a / 2, "in")
    bars = {"column": [f"light {u} x {half}", f"dark {u} x {half}"]}
    return {
        "corner": half_square("light", "dark", u, **how),
        "bars": bars,
        "block": frame("corner", "bars", f"light {u} x {u}"),
    }


def sawtooth_star(u: str, **how: Any) -> Blocks:
    """Return a dark star on light: geese with dark sky round a dark centre."""
    return {
        "point": geese("light", "dark", size(u, 2, 1), "down", **how),
        "block": frame(f"light {u} x {u}", "point", f"dark {size(u, 2, 2)}"),
    }


def ohio_star(u: str, **how: Any) -> Blocks:
    """Return quarter-squares round a dark centre."""
    return {
        "point": {"quarter-square": ["light", "dark", "light", "dark"], "finished": f"{u} x {u}", **how},
        "block": frame(f"light {u} x {u}", "point", f"dark {u} x {u}"),
    }


def friendship_star(u: str, **how: Any) -> Blocks:
    """Return four half-squares that all turn one way round a dark centre."""
    return {
        "vane": half_square("light", "dark", u, **how),
        "block": frame(f"light {u} x {u}", "vane", f"dark {u} x {u}"),
    }


def snowball(u: str) -> Blocks:
    """Return a dark square of three units with light corners of one."""
    corners = dict.fromkeys(("top-left", "top-right", "bottom-right", "bottom-left"), "light")
    return {"block": {"corners": {"base": "dark", **corners}, "corner": u, "finished": size(u, 3, 3)}}


def economy(u: str) -> Blocks:
    """Return a square in a square in a square; the middle one's size, which no ruler shows, is left to follow."""
    middle = {"diamond": {"centre": "dark", "corners": "light"}}
    return {"block": {"diamond": {"centre": middle, "corners": "red"}, "finished": size(u, 2, 2)}}


def bright_hopes(u: str) -> Blocks:
    """Return four rectangles round a centre, the first seam sewn in part."""
    return {"block": {"partial": {"centre": f"dark {u} x {u}", "ring": f"light {size(u, 1, 2)}"}}}


def log_cabin(u: str, log: str) -> Blocks:
    """Return three rounds of logs, clockwise from the right: two light, two dark."""
    logs = [f"light {log}"] * 2 + [f"dark {log}"] * 2
    return {
        "block": {"around": {"centre": f"red {u} x {u}", "logs": logs * 3, "start": "right", "direction": "clockwise"}}
    }


def dutchmans_puzzle(u: str, **how: Any) -> Blocks:
    """Return four pairs of dark geese that fly round."""
    flight = geese("dark", "light", size(u, 2, 1), **how)
    return {"pair": {"column": [flight, flight]}, "block": wheel("pair")}


def bears_paw(u: str, **how: Any) -> Blocks:
    """Return four paws of a dark pad and four claws, with light bars between and a dark square in the middle."""
    claw = half_square("light", "dark", u, **how)
    return {
        "paw": {
            "column": [
                {"row": [f"light {u} x {u}", {"row": [claw, claw]}]},
                {"row": [{"column": [claw, claw]}, f"dark {size(u, 2, 2)}"]},
            ]
        },
        "bar": f"light {size(u, 1, 3)}",
        "block": frame("paw", "bar", f"dark {u} x {u}"),
    }
