"""Small patterns for tests: written as the text of a pattern file and read as any file is.

JSON is YAML in flow form, so the text of a file is made from plain values; what a test leaves out is filled in.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from seamleaf.booklet import Booklet, plan_booklets
from seamleaf.lengths import Length, parse_length
from seamleaf.reading import Pattern, PatternError, Problem, read_pattern
from seamleaf.sizing import check_pattern

DEMO = Path(__file__).parent.parent / "patterns" / "lamplight-crossing.yaml"

YARDAGE: dict[str, Any] = {
    "light": {"source": "yardage", "colour": "#f4efe2"},
    "dark": {"source": "yardage", "colour": "#24344f"},
    "red": {"source": "yardage", "colour": "#a8323a"},
}
PRINTS: dict[str, Any] = {"source": "squares 10", "colours": ["#d9593d", "#3f9a94", "#e8d174", "#6fb98f"]}


def file_of(blocks: Mapping[str, Any], **sections: Any) -> bytes:
    """Return a pattern file with these blocks.

    Args:
        blocks: parts by block id.
        sections: sections of the file that replace the filled-in ones. ``size`` is short for a single size, named
            one; ``tile`` for the setting's blocks; ``on_point`` for an on-point set, by the oversize of its
            triangles, and ``float`` by theirs; ``between``, ``turns``, ``sashing`` and ``set`` go to the setting.

    """
    setting: dict[str, Any] = {"set": "straight", "blocks": sections.pop("tile", [[next(iter(blocks))]])}
    if "on_point" in sections:
        triangles = {"fabric": "light", "oversize": sections.pop("on_point"), "float": sections.pop("float", "0")}
        setting |= {"set": "on-point", "triangles": triangles}
    setting |= {key: sections.pop(key) for key in ("set", "between", "turns", "sashing") if key in sections}
    text = {
        "title": "A test",
        "version": "1.0.0",
        "fabrics": YARDAGE,
        "blocks": blocks,
        "setting": setting,
        "sizes": {"one": {"blocks": sections.pop("size", "2 x 2")}},
        **sections,
    }
    return json.dumps(text, ensure_ascii=False, indent=1).encode()


def pattern_of(blocks: Mapping[str, Any], **sections: Any) -> Pattern:
    """Read such a file, which must be well formed."""
    reading = read_pattern(file_of(blocks, **sections), "test")
    assert reading.problems == (), [problem.sentence("test") for problem in reading.problems]
    assert reading.pattern is not None
    return reading.pattern


def booklets_of(blocks: Mapping[str, Any], *, thorough: bool = False, **sections: Any) -> dict[str, Booklet]:
    """Plan such a pattern in all its sizes: unless ``thorough``, without the long search for the least fabric."""
    return plan_booklets(pattern_of(blocks, **sections), thorough=thorough)


def booklet_of(blocks: Mapping[str, Any], *, thorough: bool = False, **sections: Any) -> Booklet:
    """Plan such a pattern in its one size."""
    (booklet,) = booklets_of(blocks, thorough=thorough, **sections).values()
    return booklet


def refusals_of(blocks: Mapping[str, Any], **sections: Any) -> list[Problem]:
    """Return what sizing or planning refuses in such a pattern, whose form is good."""
    pattern = pattern_of(blocks, **sections)
    problems = check_pattern(pattern)
    if not problems:
        try:
            plan_booklets(pattern, thorough=False)
        except PatternError as error:
            return error.problems
    return problems


def demo() -> Pattern:
    """Read the demo pattern."""
    pattern = read_pattern(DEMO.read_bytes(), DEMO.stem).pattern
    assert pattern is not None
    return pattern


def inches(text: str) -> Length:
    """Return a length as it is written in inches: ``3 7/8``."""
    return parse_length(text, "in")


def pair(text: str) -> tuple[Length, Length]:
    """Return a width and height: ``2 1/2 x 4 1/2``."""
    w, h = text.split(" x ")
    return inches(w), inches(h)


# ------------------------------------------------------------------------------------------------- parts


def half_square(first: str, second: str, side: str, turn: int = 0, **more: Any) -> dict[str, Any]:
    """Return a half-square; its first fabric lies at the upper left until it is turned."""
    return {"half-square": [first, second], "finished": f"{side} x {side}", "turn": str(turn), **more}


def three_triangle(half: str, right: str, bottom: str, side: str, turn: int = 0, **more: Any) -> dict[str, Any]:
    """Return a three-triangle square; its half lies at the upper left until it is turned."""
    return {"three-triangle": [half, right, bottom], "finished": f"{side} x {side}", "turn": str(turn), **more}


def half_rectangle(first: str, second: str, size: str, turn: int = 0, **more: Any) -> dict[str, Any]:
    """Return a half-rectangle of a finished size as it lies; its first fabric is at the upper left until turned."""
    return {"half-rectangle": [first, second], "finished": size, "turn": str(turn), **more}


def geese(goose: str, sky: str, size: str, point: str = "up", **more: Any) -> dict[str, Any]:
    """Return flying geese of a finished size as they lie."""
    return {"geese": {"goose": goose, "sky": sky}, "finished": size, "point": point, **more}


def grid(rows: Sequence[str], **key: Any) -> dict[str, Any]:
    """Return a grid of lettered parts."""
    return {"grid": list(rows), "key": key}


def use(block: str, turn: int = 0, *, mirror: bool = False) -> dict[str, Any]:
    """Return a block as a part, mirrored first and then turned."""
    return {"use": block, "turn": str(turn), "mirror": "true" if mirror else "false"}
