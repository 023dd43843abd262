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
# Sections for patterns_for_tests.file_of.

_PRINTS = {"source": "fat quarters", "colours": ["#d9593d", "#3f9a94", "#e8d174"]}
_FABRICS = {
    "light": {"source": "yardage", "colour": "#f4efe2"},
    "dark": {"source": "yardage", "colour": "#24344f"},
    "red": {"source": "yardage", "colour": "#a8323a"},
    "prints": _PRINTS,
}
_USE = st.sampled_from(["light", "dark", "light", "dark", "red", "prints.1", "prints.2"])


@st.composite
def parts(draw: st.DrawFn, w: int, h: int, cell: Fraction, *, simple: bool = False) -> Any:
    """Draw a part of w x h cells, each of side ``cell``: a patch, a unit that fits, or parts joined edge to edge.

    With ``simple`` the units are half-squares and flying geese.
    """
    size = f"{_written(w * cell)} x {_written(h * cell)}"
    kinds: list[Any] = [f"{draw(_USE)} {size}"]
    if w == h:
        kinds += [_half_squares(size)] * 2
    if w == 2 * h or h == 2 * w:
        kinds.append(_geese(size, ["up", "down"] if w > h else ["left", "right"]))
    if not simple:
        kinds += _other_units(w, h, cell, size)
    kinds += [_joined("row", w, h, cell, simple=simple)] * 2 * (w if w > 1 else 0)
    kinds += [_joined("column", w, h, cell, simple=simple)] * 2 * (h if h > 1 else 0)
    kind = draw(st.sampled_from(kinds))
    return kind if isinstance(kind, str) else draw(kind)


def _other_units(w: int, h: int, cell: Fraction, size: str) -> list[st.SearchStrategy[Any]]:
    kinds = [_corners(size, cell)]
    if w == h:
        kinds += [_quarter_squares(size), _three_triangles(size), _diamonds(size)]
    if w != h:
        kinds.append(_half_rectangles(size))
    if w == h == 3:
        kinds += [_log_cabins(cell), _rings(cell)]
    return kinds


def _written(length: Fraction) -> str:
    """Write a length as a pattern file does, in any unit."""
    return format_rational(length, "in")


def _half_squares(size: str) -> st.SearchStrategy[Any]:
    turn = st.sampled_from(["0", "90", "180", "270"])
    return st.fixed_dictionaries(
        {"half-square": st.lists(_USE, min_size=2, max_size=2), "finished": st.just(size), "turn": turn}
    )


def _quarter_squares(size: str) -> st.SearchStrategy[Any]:
    uses = st.lists(_USE, min_size=4, max_size=4)
    return st.fixed_dictionaries({"quarter-square": uses, "finished": st.just(size)})


def _half_rectangles(size: str) -> st.SearchStrategy[Any]:
    uses, turn = st.lists(_USE, min_size=2, max_size=2), st.sampled_from(["0", "90", "180", "270"])
    return st.fixed_dictionaries({"half-rectangle": uses, "finished": st.just(size), "turn": turn})


def _three_triangles(size: str) -> st.SearchStrategy[Any]:
    uses, turn = st.lists(_USE, min_size=3, max_size=3), st.sampled_from(["0", "90", "180", "270"])
    return st.fixed_dictionaries({"three-triangle": uses, "finished": st.just(size), "turn": turn})


def _geese(size: str, points: list[str]) -> st.SearchStrategy[Any]:
    uses = st.fixed_dictionaries({"goose": _USE, "sky": _USE})
    return st.fixed_dictionaries({"geese": uses, "finished": st.just(size), "point": st.sampled_from(points)})


def _corners(size: str, cell: Fraction) -> st.SearchStrategy[Any]:
    corner = st.sampled_from(["top-left", "top-right", "bottom-right", "bottom-left"])
    uses = st.tuples(_USE, st.dictionaries(corner, _USE, min_size=1)).map(lambda drawn: {"base": drawn[0], **drawn[1]})
    return st.fixed_dictionaries({"corners": uses, "corner": st.just(_written(cell / 2)), "finished": st.just(size)})


def _diamonds(size: str) -> st.SearchStrategy[Any]:
    uses = st.fixed_dictionaries({"centre": _USE, "corners": _USE})
    return st.fixed_dictionaries({"diamond": uses, "finished": st.just(size)})


def _log_cabins(cell: Fraction) -> st.SearchStrategy[Any]:
    cabin = {
        "centre": parts(1, 1, cell),
        "logs": st.lists(_USE.map(lambda use: f"{use} {_written(cell)}"), min_size=4, max_size=4),
        "start": st.sampled_from(["top", "right", "bottom", "left"]),
        "direction": st.sampled_from(["clockwise", "anticlockwise", "opposite"]),
    }
    return st.fixed_dictionaries({"around": st.fixed_dictionaries(cabin)})


def _rings(cell: Fraction) -> st.SearchStrategy[Any]:
    ring = {
        "centre": parts(1, 1, cell),
        "ring": _USE.map(lambda use: f"{use} {_written(cell)} x {_written(2 * cell)}"),
        "direction": st.sampled_from(["clockwise", "anticlockwise"]),
    }
    return st.fixed_dictionaries({"partial": st.fixed_dictionaries(ring)})


def _joined(axis: str, w: int, h: int, cell: Fraction, *, simple: bool) -> st.SearchStrategy[Any]:
    """Return two parts side by side or one above the other."""

    def cut_at(at: int) -> st.SearchStrategy[tuple[Any, Any]]:
        sizes = ((at, h), (w - at, h)) if axis == "row" else ((w, at), (w, h - at))
        return st.tuples(*(parts(*size, cell, simple=simple) for size in sizes))

    pairs = st.integers(1, (w if axis == "row" else h) - 1).flatmap(cut_at)
    return pairs.map(lambda pair: {axis: list(pair)})


def prints_from_1(block: Any) -> Any:
    """Let the prints of a block run 1..k, as a pattern must."""
    text = json.dumps(block)
    return json.loads(text if "prints.1" in text else text.replace("prints.2", "prints.1"))


@st.composite
def _borders(draw: st.DrawFn) -> dict[str, str]:
    """Draw a border with any kind of corner, or a pieced one."""
    if draw(st.integers(0, 3)) == 0:
        corner = draw(st.sampled_from(["butted", "cornerstone"]))
        border = {"fabric": draw(st.sampled_from(["light", "red"])), "pieced": "edging", "corner": corner}
        return border | ({"cornerstone": "dark"} if corner == "cornerstone" else {})
    corner = draw(st.sampled_from(["butted", "mitred", "cornerstone"]))
    border = {
        "fabric": draw(st.sampled_from(["light", "red"])),
        "width": f"{draw(st.integers(2, 12))}/2",
        "corner": corner,
    }
    return border | ({"cornerstone": "dark"} if corner == "cornerstone" else {})


def _sashings() -> st.SearchStrategy[dict[str, str]]:
    """Return sashing with cornerstones or long sashes, with or without an outer round."""
    sashing = {
        "fabric": st.sampled_from(["light", "red"]),
        "width": st.sampled_from(["1", "1 1/2", "2"]),
        "outer": st.sampled_from(["true", "false"]),
    }
    stones = st.sampled_from([{"cornerstone": "dark"}, {"cornerstone": "prints"}, {}])
    return st.tuples(st.fixed_dictionaries(sashing), stones).map(lambda pair: pair[0] | pair[1])


@st.composite
def _sets_on_point(draw: st.DrawFn, sizes: dict[str, dict[str, str]], cell: Fraction) -> dict[str, Any]:
    """Draw a set on point: sashed, or with blocks that float, or neither; change sizes that it cannot have."""
    sections: dict[str, Any] = {"on_point": draw(st.sampled_from(["0", "1/2", "1"]))}
    if draw(st.booleans()):
        sections["between"] = draw(st.sampled_from([[["other"]], [["light"]]]))
    kind = draw(st.sampled_from(["plain", "sashed", "float"]))
    if kind == "sashed":
        sections["sashing"] = draw(_sashings())
    elif kind == "float":
        sections["float"] = draw(st.sampled_from([_written(cell / 4), _written(cell / 2), _written(cell)]))
    for size in sizes.values():
        m, n = map(int, size["blocks"].split(" x "))
        if kind == "float":
            m, n = max(m, 2), max(n, 2)
        elif kind == "sashed" and sections["sashing"]["outer"] == "false":
            n = m
        size["blocks"] = f"{m} x {n}"
    return sections


def _frames() -> list[dict[str, str]]:
    """Return the borders of a medallion: a frame as wide as it must be for the blocks of the round, and that round."""
    return [
        {"fabric": "red", "width": "1 to 12 by 1/4", "corner": "butted"},
        {"fabric": "light", "pieced": "edging", "corner": "butted"},
    ]


@st.composite
def patterns(draw: st.DrawFn) -> dict[str, Any]:
    """Draw the sections of a pattern: in or cm, any set, two blocks, borders, binding, up to two sizes."""
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
        "edging": {"row": ["light 1/2 x 1 1/2", "red 1/2 x 1 1/2"]},
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
    borders = draw(st.lists(_borders(), max_size=3))
    if draw(st.integers(0, 9)) == 9:  # so big that it is sewn in halves, and an edge has too many units of a border
        sections["sizes"] = {"one": {"blocks": f"{draw(st.integers(4, 6))} x {draw(st.integers(6, 8))}"}}
        borders = [border for border in borders if "pieced" not in border]
    if borders:
        sections["borders"] = borders
    if on_point:
        sections |= draw(_sets_on_point(sections["sizes"], cell))
    elif draw(st.booleans()):
        sections["sashing"] = draw(_sashings())
        if draw(st.booleans()):
            sections["set"] = "strippy"
            sections["sashing"].pop("cornerstone", None)
    elif draw(st.integers(0, 3)) == 3:
        sections["borders"] = _frames()
        sections["sizes"] = {"one": {"blocks": "1 x 1"}}
    if draw(st.booleans()):
        sections["binding"] = {"fabric": "dark", "strip": "6" if metric else "2 1/4", "extra": "10"}
    return sections
