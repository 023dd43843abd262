"""Hypothesis strategies of the whole suite: a new kind of value gets its strategy here."""

from __future__ import annotations

import dataclasses
import json
import types
import typing
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from seamleaf.booklet import Booklet
from seamleaf.lengths import Length, format_rational
from seamleaf.planning.demand import Demand


def rationals(limit: int = 10**6, denominator: int = 10**4) -> st.SearchStrategy[Fraction]:
    """Rationals between -limit and limit, many of them on the ruler's grid."""
    return st.one_of(
        st.fractions(min_value=-limit, max_value=limit, max_denominator=denominator),
        st.integers(-limit, limit).map(lambda eighths: Fraction(eighths, 8)),
        st.integers(-limit, limit).map(Fraction),
    )


@st.composite
def near_misses(draw: st.DrawFn) -> Length:
    """Lengths very near to 0: p - q*sqrt(2) for the best rational approximations p/q of sqrt(2), either sign."""
    p, q = 1, 1
    for _ in range(draw(st.integers(0, 45))):
        p, q = p + 2 * q, p + q
    scale = draw(rationals(1000, 64))
    sign = draw(st.sampled_from([1, -1]))
    return Length(p, -q) * scale * sign


def lengths() -> st.SearchStrategy[Length]:
    """Any exact length: rational, irrational, or so near to 0 that a float could not tell its sign."""
    return st.one_of(
        rationals().map(Length),
        st.builds(Length, rationals(), rationals()),
        near_misses(),
    )


def booklets(least: int = 0) -> st.SearchStrategy[Booklet]:
    """Booklets of the right form and no sense: any value of the right type in every field, lists of ``least`` to 2."""
    return _of_hint(Booklet, least)


def _of_hint(hint: Any, least: int) -> st.SearchStrategy[Any]:
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Annotated:
        return _of_hint(inner[0], least)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([_of_hint(each, least) for each in inner])
    if origin is typing.Literal:
        return st.sampled_from(inner)
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(_of_hint(inner[0], least), min_size=least, max_size=2).map(tuple)
    if origin is tuple:
        return st.tuples(*(_of_hint(each, least) for each in inner))
    if origin is dict:
        return st.dictionaries(_of_hint(inner[0], least), _of_hint(inner[1], least), min_size=least, max_size=2)
    if dataclasses.is_dataclass(hint):
        hints = typing.get_type_hints(hint, include_extras=True)
        record: Any = hint
        return st.builds(record, **{f.name: _of_hint(hints[f.name], least) for f in dataclasses.fields(hint)})
    return _SIMPLE[hint]


_SIMPLE: dict[Any, st.SearchStrategy[Any]] = {
    Length: lengths(),
    Fraction: rationals(),
    str: st.text(max_size=12),
    int: st.integers(-(10**9), 10**9),
    bool: st.booleans(),
    type(None): st.none(),
}


# ---- cutting ----


@st.composite
def cutting_demands(draw: st.DrawFn, most_side: int = 40, most_count: int = 30, most_kinds: int = 8) -> list[Demand]:
    """Demands of one fabric on the ruler's grid of 1/4, no side above ``most_side``, labels A1, A2 ..."""
    sides = st.integers(4, 4 * most_side).map(lambda quarters: Length(Fraction(quarters, 4)))
    small = st.integers(4, min(28, 4 * most_side)).map(lambda quarters: Length(Fraction(quarters, 4)))
    demands = []
    for number in range(1, draw(st.integers(1, most_kinds)) + 1):
        w = draw(st.one_of(small, small, sides, st.just(Length(most_side))))
        h = draw(st.one_of(small, st.just(w)))
        demands.append(
            Demand(label=f"A{number}", w=w, h=h, count=draw(st.integers(1, most_count)), may_turn=draw(st.booleans()))
        )
    return demands


# ---- whole patterns ----
#
# Sections for patterns_for_tests.file_of: any pattern of rectangles, half-squares and flying geese.

_PRINTS = {"source": "fat quarters", "colours": ["#d9593d", "#3f9a94", "#e8d174"]}
_FABRICS = {
    "light": {"source": "yardage", "colour": "#f4efe2"},
    "dark": {"source": "yardage", "colour": "#24344f"},
    "red": {"source": "yardage", "colour": "#a8323a"},
    "prints": _PRINTS,
}
_USES = ("light", "dark", "light", "dark", "red", "prints.1", "prints.2")


@st.composite
def parts(draw: st.DrawFn, w: int, h: int, cell: Fraction) -> Any:
    """Draw a part of w x h cells, each of side ``cell``: patches, half-squares and geese, joined edge to edge."""

    def size(columns: int, rows: int) -> str:
        return " x ".join(format_rational(count * cell, "in") for count in (columns, rows))

    ways = ["patch"]
    if w == h:
        ways.append("half-square")
    if w == 2 * h or h == 2 * w:
        ways.append("geese")
    if w > 1:
        ways += ["row"] * 2 * w
    if h > 1:
        ways += ["column"] * 2 * h
    use = st.sampled_from(_USES)
    match draw(st.sampled_from(ways)):
        case "half-square":
            turn = str(draw(st.sampled_from([0, 90, 180, 270])))
            return {"half-square": [draw(use), draw(use)], "finished": size(w, h), "turn": turn}
        case "geese":
            point = draw(st.sampled_from(["up", "down"] if w > h else ["left", "right"]))
            return {"geese": {"goose": draw(use), "sky": draw(use)}, "finished": size(w, h), "point": point}
        case "row":
            at = draw(st.integers(1, w - 1))
            return {"row": [draw(parts(at, h, cell)), draw(parts(w - at, h, cell))]}
        case "column":
            at = draw(st.integers(1, h - 1))
            return {"column": [draw(parts(w, at, cell)), draw(parts(w, h - at, cell))]}
        case _:
            return f"{draw(use)} {size(w, h)}"


def prints_from_1(block: Any) -> Any:
    """Let the prints of a block run 1..k, as a pattern must."""
    text = json.dumps(block)
    return json.loads(text if "prints.1" in text else text.replace("prints.2", "prints.1"))


@st.composite
def patterns(draw: st.DrawFn) -> dict[str, Any]:
    """Draw the sections of a pattern: in or cm, straight or on point, two blocks, borders, binding, up to two sizes."""
    metric = draw(st.booleans())
    cell = draw(
        st.sampled_from(
            [Fraction(3), Fraction(4), Fraction(5)] if metric else [Fraction(1), Fraction(3, 2), Fraction(2)]
        )
    )
    on_point = draw(st.booleans())
    w = draw(st.integers(2, 4))
    h = w if on_point or draw(st.booleans()) else draw(st.integers(2, 4))
    own = prints_from_1(draw(parts(w, h, cell)))
    corner = prints_from_1(draw(parts(w, w, cell)))
    wheel = {
        "column": [
            {"row": [{"use": "corner"}, {"use": "corner", "turn": "90"}]},
            {"row": [{"use": "corner", "turn": "270"}, {"use": "corner", "turn": "180"}]},
        ]
    }
    kind = draw(st.sampled_from(["own", "wheel"]))
    turn = draw(st.sampled_from(["0", "180"] if w != h else ["0", "90", "180", "270"]))
    blocks = {
        "corner": corner,
        "one": own if kind == "own" else wheel,
        "other": {"use": "one", "turn": turn, "mirror": str(draw(st.booleans())).lower()},
    }
    sections: dict[str, Any] = {
        "blocks": blocks,
        "fabrics": {**_FABRICS, "dark": {**_FABRICS["dark"], "directional": str(draw(st.booleans())).lower()}},
        "unit": "cm" if metric else "in",
        "tile": draw(st.sampled_from([[["one"]], [["one", "other"], ["other", "one"]], [["one", "light"]]])),
        "turns": draw(st.sampled_from(["free", "fixed"])),
        "backing": {"extra": str(draw(st.integers(0, 6)))},
        "batting": {"extra": str(draw(st.integers(0, 6)))},
        "sizes": {
            name: {"blocks": f"{draw(st.integers(1, 4))} x {draw(st.integers(1, 4))}"}
            for name in draw(st.sampled_from([("one",), ("one", "two")]))
        },
    }
    borders = [
        {"fabric": draw(st.sampled_from(["light", "red"])), "width": f"{draw(st.integers(2, 12))}/2"}
        for _ in range(draw(st.integers(0, 3)))
    ]
    if borders:
        sections["borders"] = borders
    if on_point:
        sections["on_point"] = draw(st.sampled_from(["0", "1/2", "1"]))
        if draw(st.booleans()):
            sections["between"] = draw(st.sampled_from([[["other"]], [["light"]]]))
    if draw(st.booleans()):
        sections["binding"] = {"fabric": "dark", "strip": "6" if metric else "2 1/4", "extra": "10"}
    return sections
