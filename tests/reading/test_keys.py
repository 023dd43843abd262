"""The descriptions of keys say what readers do: every example is taken, every default is what the key's absence means.

Each table of keys is put into a small pattern at its place, made of its own examples alone.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable, Iterator
from dataclasses import fields
from typing import Any

import pytest
import yaml

from seamleaf.lengths import CENTIMETRES, INCHES, format_rational
from seamleaf.reading import Pattern, keys, read_pattern
from seamleaf.reading.defaults import defaults_for
from seamleaf.reading.schema import without
from seamleaf.reading.tables import Key, Keys

Tree = dict[str, Any]

PATTERN: Tree = {
    "title": "T",
    "version": "1",
    "fabrics": {name: {"source": "yardage"} for name in ("star", "ground", "edge")},
    "blocks": dict.fromkeys(("star", "plain", "claw"), "star 8 x 8"),
    "setting": {"set": "straight", "blocks": [["star"]]},
    "sizes": {"lap": {"blocks": "4 x 5"}},
}
ON_POINT = {"set": "on-point", "triangles": {"fabric": "ground"}}

PLACES: dict[str, Callable[[Tree, Tree], None]] = {
    "pattern": lambda tree, own: tree.update(own),
    "fabric": lambda tree, own: tree["fabrics"].update(gold=own),
    "geese": lambda tree, own: tree["blocks"].update(star={"geese": own, "finished": "4 x 2"}),
    "corners": lambda tree, own: tree["blocks"].update(star={"corners": own, "corner": "2", "finished": "4 x 4"}),
    "diamond": lambda tree, own: tree["blocks"].update(star={"diamond": own, "finished": "4 x 4"}),
    "around": lambda tree, own: tree["blocks"].update(star={"around": own}),
    "partial": lambda tree, own: tree["blocks"].update(star={"partial": own}),
    "setting": lambda tree, own: tree.update(setting=own),
    "sashing": lambda tree, own: tree["setting"].update(sashing=own),
    "triangles": lambda tree, own: tree["setting"].update(set="on-point", triangles=own),
    "border": lambda tree, own: tree.update(borders=[{"fabric": "star", "width": "1", "corner": "mitred"}, own]),
    "binding": lambda tree, own: tree.update(binding=own),
    "backing": lambda tree, own: tree.update(backing=own),
    "batting": lambda tree, own: tree.update(batting=own),
    "size": lambda tree, own: tree.update(
        sizes={"lap": own},
        borders=[{"fabric": "edge", "width": "1"}, {"fabric": "star", "width": "2"}],
        fabrics={**tree["fabrics"], "bright": {"source": "squares 10", "colours": ["#c8553d", "#f2b134"]}},
    ),
    "cover": lambda tree, own: tree["sizes"].update(lap={"cover": own}),
    "class": lambda tree, own: tree.update(classes={"autumn": own}),
    "stated": lambda tree, own: tree.update(stated={"lap": own}),
    "pace": lambda tree, own: tree.update(pace=own),
}
"""How a mapping of each table is put into the pattern."""

WITH: dict[tuple[str, str], Tree] = {
    ("fabric", "margin"): {"source": "yardage"},
    ("fabric", "usable"): {"source": "yardage"},
    ("fabric", "directional"): {"source": "yardage"},
    ("setting", "between"): ON_POINT,
    ("setting", "triangles"): ON_POINT,
    ("border", "cornerstone"): {"corner": "cornerstone"},
    ("border", "joined"): {"corner": "mitred"},
    ("corners", "base"): {"top-left": "ground"},
}
"""What a key asks for beside it."""
REPLACES = {("pattern", "fabrics"), ("pattern", "blocks"), ("pattern", "sizes"), ("pattern", "setting")}


def tables() -> Iterator[tuple[str, Keys]]:
    """Yield every table by the name of its place."""
    yield "pattern", keys.PATTERN
    yield from keys.TABLES.items()
    for kind, table in keys.PARTS.items():
        yield f"part-{kind}", table.also(keys.BLOCK)


EVERY_KEY = [(place, name, table) for place, table in tables() for name in table.all]


def written(text: str) -> Any:
    """Return a value as it is written; JSON then holds it as a pattern file would."""
    return yaml.load(text, yaml.BaseLoader)  # noqa: S506 -- texts, lists and mappings alone


def read(place: str, own: Tree, *, unit: str = "in") -> Pattern:
    """Read the small pattern with a mapping in its place."""
    tree = copy.deepcopy(PATTERN) | ({} if unit == "in" else {"unit": unit})
    if place.startswith("part-"):
        tree["blocks"]["star"] = own
    else:
        PLACES[place](tree, own)
    reading = read_pattern(json.dumps(tree).encode(), "test")
    assert reading.problems == (), [problem.sentence("test") for problem in reading.problems]
    assert reading.pattern is not None
    return reading.pattern


def least(place: str, name: str, table: Keys) -> Tree:
    """Return the least mapping that a key can be added to, of the examples of what is needed."""
    own = {each: written(key.example) for each, key in table.required.items() if place != "pattern"}
    if table.one_of and name not in table.one_of and not WITH.get((place, name), {}).keys() & {*table.one_of}:
        own |= {table.one_of[0]: written(table[table.one_of[0]].example)}
    if place == "part-diamond":
        own["finished"] = "4 x 4"
    return own | WITH.get((place, name), {})


def test_every_table_has_its_place() -> None:
    assert PLACES.keys() == {"pattern", *keys.TABLES}


@pytest.mark.parametrize(("place", "name", "table"), EVERY_KEY, ids=[f"{each[0]}-{each[1]}" for each in EVERY_KEY])
def test_a_key_is_described_and_its_example_is_taken(place: str, name: str, table: Keys) -> None:
    key = table[name]
    assert key.meaning.endswith(".")
    assert key.example
    assert bool(without(key)) == (name in table.optional), "what must stand has no default, and all else has"
    own = least(place, name, table) | {name: written(key.example)}
    if (place, name) in REPLACES:
        assert read(place, own | {"fabrics": PATTERN["fabrics"] | own.get("fabrics", {})})
    else:
        read(place, own)


DEFAULTS = [each for each in EVERY_KEY if each[2][each[1]].default]


@pytest.mark.parametrize(("place", "name", "table"), DEFAULTS, ids=[f"{each[0]}-{each[1]}" for each in DEFAULTS])
def test_a_default_is_what_the_pattern_has_without_the_key(place: str, name: str, table: Keys) -> None:
    own = least(place, name, table)
    own.pop(name, None)
    assert read(place, own | {name: written(table[name].default)}) == read(place, own)
    assert own | {name: written(table[name].default)} != own


USUAL = [
    each
    for each in EVERY_KEY
    if each[2][each[1]].without in {f"{{{one.name}}}" for one in fields(defaults_for(INCHES))}
]


@pytest.mark.parametrize("measures", [INCHES, CENTIMETRES], ids=["in", "cm"])
@pytest.mark.parametrize(("place", "name", "table"), USUAL, ids=[f"{each[0]}-{each[1]}" for each in USUAL])
def test_so_is_a_usual_value_in_either_unit(place: str, name: str, table: Keys, measures: Any) -> None:
    value = getattr(defaults_for(measures), table[name].without.strip("{}"))
    shown = format_rational(value.a, measures.unit)
    assert f"{shown} {measures.unit}" in without(table[name])
    own = least(place, name, table)
    unit = measures.unit
    assert read(place, own | {name: shown}, unit=unit) == read(place, own, unit=unit)


def test_a_key_that_may_be_left_out_says_what_holds_then() -> None:
    assert len(DEFAULTS) > 15
    assert len(USUAL) >= 6
    assert isinstance(keys.PATTERN["seam"], Key)
