"""The demo patterns together use every part, set, border and source that a pattern file has a word for.

What there is comes from the tables of the readers, so that a new word without a pattern that uses it is missed here.
How units are made comes from the accepted booklets, which test_golden.py holds to the patterns.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from itertools import pairwise, product
from pathlib import Path
from typing import Any, get_args

import yaml

from accepted import accepted_names, accepted_text
from seamleaf.reading import part_keys, quilt_keys, read_pattern, size_keys
from seamleaf.reading.pattern import Pattern, SourceKind
from seamleaf.reading.tables import Keys
from seamleaf.reading.uses import iter_parts

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "patterns").glob("*.yaml"))

OF_A_PART = {
    "geese": part_keys.GEESE,
    "corners": part_keys.CORNERS,
    "diamond": part_keys.DIAMOND,
    "around": part_keys.AROUND,
    "partial": part_keys.PARTIAL,
}
OF_THE_REST = {
    "setting": quilt_keys.SETTING,
    "sashing": quilt_keys.SASHING,
    "triangles": quilt_keys.TRIANGLES,
    "border": quilt_keys.BORDER,
    "size": size_keys.SIZE,
    "cover": size_keys.COVER,
}
NOT_ASKED = {
    "around.start: top": "the same cabin, turned",
    "around.start: left": "the same cabin, turned",
    "partial.direction: anticlockwise": "the mirror image of a ring, which looks the same",
    "size.finished": "another way to say the scale",
    "size.locks": "neither part nor set, border nor source",
}
SHARED = ("turn", "oversize", "finished")
"""Keys of many parts: one of them that has it will do. ``method`` is asked of what was made."""


def words(name: str, keys: Keys) -> set[str]:
    """Return every key of a table; in place of a key that is a choice, every one of its words."""
    found = set()
    for key in keys.all:
        if key not in ("method", *SHARED) or name == "size":
            choices = keys[key].form.schema.get("enum")
            found |= {f"{name}.{key}: {choice}" for choice in choices} if choices else {f"{name}.{key}"}
    return found


def said(name: str, keys: Keys, mapping: dict[str, Any]) -> set[str]:
    """Return those that a mapping of a pattern uses; a default is used where its key does not stand."""
    found = {f"{name}.{key}" for key in mapping}
    for key in keys.all:
        value = mapping.get(key, keys[key].default)
        if value and "enum" in keys[key].form.schema:
            found.add(f"{name}.{key}: {value}")
    return found


@cache
def trees() -> tuple[dict[str, Any], ...]:
    """Return the demo patterns as they are written, every value a text."""
    return tuple(yaml.load(path.read_text("utf-8"), yaml.BaseLoader) for path in DEMOS)  # noqa: S506 -- makes texts alone


@cache
def patterns() -> tuple[Pattern, ...]:
    """Return the demo patterns as they are read."""
    read = [read_pattern(path.read_bytes(), path.stem).pattern for path in DEMOS]
    return tuple(pattern for pattern in read if pattern is not None)


@cache
def booklets() -> tuple[dict[str, Any], ...]:
    """Return the accepted booklets."""
    return tuple(json.loads(accepted_text(*name)) for name in accepted_names())


def mappings(value: Any) -> Iterator[dict[str, Any]]:
    """Yield every mapping inside what is written."""
    if isinstance(value, dict):
        yield value
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from mappings(inner)


def kind_of(part: dict[str, Any]) -> str | None:
    """Return the kind of part that a mapping is; the fabric of a diamond's corners makes it no part with corners."""
    kinds = [kind for kind in part_keys.PARTS if kind in part]
    return next((kind for kind in kinds if kind not in OF_A_PART or isinstance(part[kind], dict)), None)


def test_every_kind_of_part_is_used_with_every_key_of_its_own() -> None:
    wanted, found = set(part_keys.PARTS), set[str]()
    for kind, keys in part_keys.PARTS.items():
        wanted |= words(kind, keys)
    for kind, keys in OF_A_PART.items():
        wanted |= words(kind, keys)
    for part in [part for tree in trees() for part in mappings(tree["blocks"])]:
        kind = kind_of(part)
        if kind is not None:
            found |= {kind, *said(kind, part_keys.PARTS[kind], part), *(key for key in SHARED if key in part)}
        if kind in OF_A_PART:
            found |= said(kind, OF_A_PART[kind], part[kind])
    assert wanted | set(SHARED) <= found | set(NOT_ASKED)


def test_a_part_is_used_mirrored_and_one_sits_in_another_of_its_kind() -> None:
    parts = [part for pattern in patterns() for block in pattern.blocks.values() for part in iter_parts(block.part)]
    assert any(getattr(part, "mirror", False) for part in parts)
    assert any(isinstance(getattr(part, "centre", None), type(part)) for part in parts)


def test_every_unit_is_made_in_every_way_that_there_is() -> None:
    made = {(unit["how"], unit["method"]) for booklet in booklets() for unit in booklet["units"]}
    for kind, keys in part_keys.PARTS.items():
        if kind not in ("row", "column", "grid", "use"):
            ways = keys["method"].form.schema["enum"] if "method" in keys.all else [None]
            assert set(ways) <= {method for how, method in made if how == kind}, kind


def test_rows_are_sewn_as_strip_sets_and_patch_by_patch() -> None:
    assert {"join", "strip-set"} <= {unit["how"] for booklet in booklets() for unit in booklet["units"]}


def test_everything_is_used_that_the_set_the_borders_and_the_sizes_can_say() -> None:
    wanted, found = set[str](), set[str]()
    for name, keys in OF_THE_REST.items():
        wanted |= words(name, keys)
    for tree in trees():
        setting, sizes = tree["setting"], list(tree["sizes"].values())
        said_of = [("setting", setting), *(("size", size) for size in sizes)]
        said_of += [("border", border) for border in tree.get("borders", ())]
        said_of += [("sashing", setting.get("sashing")), ("triangles", setting.get("triangles"))]
        said_of += [("cover", size.get("cover")) for size in sizes]
        for name, mapping in said_of:
            found |= said(name, OF_THE_REST[name], mapping) if mapping else set()
    assert wanted <= found | set(NOT_ASKED)


def test_straight_and_on_point_are_each_used_with_every_sashing() -> None:
    """Strips of a strippy set run through as long as a column and so have no cornerstones."""
    found = set[tuple[str, str]]()
    for pattern in patterns():
        kind, sashing = (pattern.setting.set if pattern.setting.run == "across" else "strippy"), pattern.setting.sashing
        found.add((kind, "no sashing" if sashing is None else "sashing"))
        if sashing is not None:
            found.add((kind, "cornerstones" if sashing.cornerstone else "long sashes"))
            found.add((kind, "outer sashes" if sashing.outer else "none outside"))
    sashed = ("no sashing", "cornerstones", "long sashes", "outer sashes", "none outside")
    assert set(product(("straight", "on-point"), sashed)) | {("strippy", "outer sashes")} <= found


def test_blocks_alternate_with_plain_and_with_pieced_ones_turn_in_the_tile_and_make_halves_of_big_quilts() -> None:
    cells = [(p.setting, cell) for p in patterns() for row in p.setting.between or () for cell in row]
    assert {cell.block is None for _, cell in cells} == {True, False}
    assert any(cell.turn for p in patterns() for row in p.setting.blocks for cell in row)
    assert {booklet["set"]["half"] is None for booklet in booklets()} == {True, False}


def test_borders_are_several_pieced_with_each_corner_and_with_a_spacer_and_one_takes_the_width_that_a_round_needs() -> (
    None
):
    assert any(len(pattern.borders) > 1 for pattern in patterns())
    pieced = {border.corner for pattern in patterns() for border in pattern.borders if border.pieced}
    assert pieced == {"butted", "cornerstone"}  # a pieced border is not mitred
    ends = [
        unit["from"][0]["label"]
        for booklet in booklets()
        for unit in booklet["units"]
        if unit["id"] in {strip["unit"] for border in booklet["borders"] for strip in border["strips"]}
    ]
    assert any(ends)  # a strip begins with a labelled patch, its spacer, and not with a unit
    assert not all(ends)
    ranges = [len(b.widths) > 1 and after.pieced for p in patterns() for b, after in pairwise(p.borders)]
    assert any(ranges)


def test_every_source_is_used() -> None:
    sources = {fabric.source for pattern in patterns() for fabric in pattern.fabrics.values()}
    assert sources == set(get_args(SourceKind))


def test_what_is_not_asked_is_known_to_the_tables() -> None:
    tables = {**OF_A_PART, **OF_THE_REST}
    assert set(NOT_ASKED) <= {word for name, keys in tables.items() for word in words(name, keys)}
