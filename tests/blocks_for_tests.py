"""Twelve traditional blocks, in the public domain, as lines of a pattern file, and quilts of one of them.

``dark``, ``light`` and ``red`` are the fabrics; ``claw`` is a part that only the bear's paw uses.
"""

from __future__ import annotations

from typing import Final

_TRIANGLE: Final = "{half-square: [dark, light], finished: 3 x 3"
_CORNER: Final = "{half-square: [light, dark], finished: 3 x 3"
_POINT: Final = "{geese: {goose: light, sky: dark}, finished:"
_CLAWS: Final = ", ".join(["{half-square: [dark, light], finished: 1 x 1}"] * 3)
_SIDE_CLAWS: Final = ", ".join(["{half-square: [dark, light], finished: 1 x 1, turn: 180}"] * 3)
DARKS: Final = ("dark", "red")


def _pair(axis: str, size: str, point: str) -> str:
    geese = (f"{{geese: {{goose: {fabric}, sky: light}}, finished: {size}, point: {point}}}" for fabric in DARKS)
    return f"{{{axis}: [{', '.join(geese)}]}}"


CLAW: Final = f"{{column: [{{row: [light 1 x 1, {_CLAWS}]}}, {{row: [{{column: [{_SIDE_CLAWS}]}}, dark 3 x 3]}}]}}"
TWELVE: Final[dict[str, str]] = {
    "Nine patch": "{grid: [DLD, LDL, DLD], key: {D: dark 2 x 2, L: light 2 x 2}}",
    "Rail fence": "{row: [dark 2 x 6, light 2 x 6, red 2 x 6]}",
    "Pinwheel": (
        f"{{grid: [AB, CE], key: {{A: {_TRIANGLE}}}, B: {_TRIANGLE}, turn: 90}},"
        f" C: {_TRIANGLE}, turn: 270}}, E: {_TRIANGLE}, turn: 180}}}}}}"
    ),
    "Churn dash": (
        f"{{column: [{{row: [{_CORNER}}}, {{column: [dark 3 x 1.5, light 3 x 1.5]}}, {_CORNER}, turn: 90}}]}},"
        " {row: [{row: [dark 1.5 x 3, light 1.5 x 3]}, light 3 x 3, {row: [light 1.5 x 3, dark 1.5 x 3]}]},"
        f" {{row: [{_CORNER}, turn: 270}}, {{column: [light 3 x 1.5, dark 3 x 1.5]}}, {_CORNER}, turn: 180}}]}}]}}"
    ),
    "Sawtooth star": (
        f"{{column: [{{row: [light 2 x 2, {_POINT} 4 x 2, point: down}}, light 2 x 2]}},"
        f" {{row: [{_POINT} 2 x 4, point: right}}, dark 4 x 4, {_POINT} 2 x 4, point: left}}]}},"
        f" {{row: [light 2 x 2, {_POINT} 4 x 2, point: up}}, light 2 x 2]}}]}}"
    ),
    "Ohio star": (
        "{grid: [LQL, RDR, LQL], key: {L: light 3 x 3, D: dark 3 x 3,"
        " Q: {quarter-square: [light, dark, light, dark], finished: 3 x 3},"
        " R: {quarter-square: [dark, light, dark, light], finished: 3 x 3}}}"
    ),
    "Snowball": (
        "{corners: {base: dark, top-left: light, top-right: light, bottom-left: light, bottom-right: light},"
        " corner: 2, finished: 6 x 6}"
    ),
    "Economy": "{diamond: {centre: dark, corners: light}, finished: 8 x 8}",
    "Log cabin": (
        "{around: {centre: dark 2 x 2, logs: [light 1, light 1, dark 1, dark 1, light 1, light 1, dark 1, dark 1]}}"
    ),
    "Bright hopes": "{partial: {centre: dark 2 x 2, ring: light 2 x 4}}",
    "Dutchman's puzzle": (
        f"{{grid: [AB, CE], key: {{A: {_pair('column', '4 x 2', 'up')}, B: {_pair('row', '2 x 4', 'right')},"
        f" E: {_pair('column', '4 x 2', 'down')}, C: {_pair('row', '2 x 4', 'left')}}}}}"
    ),
    "Bear's paw": (
        "{column: [{row: [{use: claw}, light 2 x 4, {use: claw, turn: 90}]},"
        " {row: [light 4 x 2, dark 2 x 2, light 4 x 2]},"
        " {row: [{use: claw, turn: 270}, light 2 x 4, {use: claw, turn: 180}]}]}"
    ),
}
"""By their names in the trade, in the order in which they are usually taught."""


def quilt_text(name: str, *, on_point: bool, across: int, down: int) -> str:
    """Return the pattern file of a quilt that holds nothing but one of the twelve blocks."""
    claw = f"  claw: {CLAW}\n" if "claw" in TWELVE[name] else ""
    setting = "set: on-point, triangles: {fabric: light}" if on_point else "set: straight"
    return f"""\
title: {name}
version: 1.0.0
fabrics:
  dark: {{source: yardage, colour: "#24344f"}}
  light: {{source: yardage, colour: "#f4efe2"}}
  red: {{source: yardage, colour: "#a8323a"}}
blocks:
{claw}  block: {TWELVE[name]}
setting: {{{setting}, blocks: [[block]]}}
sizes: {{one: {{blocks: {across} x {down}}}}}
"""
