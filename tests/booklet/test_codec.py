"""The booklet as JSON: what is written reads back, the schema describes it, and nothing else passes for a booklet."""

from __future__ import annotations

import dataclasses
import json
from typing import Any

import jsonschema
import pytest
from hypothesis import HealthCheck, Phase, find, given, settings

from effort import tries
from seamleaf.booklet import FORMAT, Booklet, as_plain, from_json, json_schema, to_json
from strategies import booklets

few = settings(max_examples=tries(8), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
"""A booklet is a large value to make up; each one exercises every record."""


@pytest.fixture(scope="module")
def plain() -> dict[str, Any]:
    """Return the JSON of a booklet that has one or two of everything, as plain values."""
    once = settings(database=None, derandomize=True, phases=[Phase.generate])
    rich = find(booklets(least=1), lambda _: True, settings=once)
    value = json.loads(to_json(rich))
    assert isinstance(value, dict)
    return value


@given(booklets())
@few
def test_what_is_written_reads_back_equal_and_writes_the_same_bytes(booklet: Booklet) -> None:
    text = to_json(booklet)
    again = from_json(text)
    assert again == booklet
    assert to_json(again) == text


@given(booklets())
@few
def test_the_text_is_that_of_the_standard_library_with_an_indent_of_one(booklet: Booklet) -> None:
    assert to_json(booklet) == json.dumps(as_plain(booklet), ensure_ascii=False, indent=1) + "\n"


@given(booklets())
@few
def test_every_booklet_is_valid_by_the_schema(booklet: Booklet) -> None:
    jsonschema.Draft202012Validator(json_schema()).validate(json.loads(to_json(booklet)))


def test_the_schema_itself_is_a_valid_draft_2020_12_schema() -> None:
    schema = json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_schema_names_every_key_of_the_contract() -> None:
    """The published format's top-level keys; more may be added, none of these may go."""
    keys = set(json_schema()["properties"])
    assert keys >= {
        "format", "pattern", "size", "unit", "seam", "finished", "set", "fabrics", "patches", "cutting", "units",
        "seams", "pressing", "places", "rows", "borders", "binding", "backing", "batting", "offcuts", "classes",
        "cautions",
    }  # fmt: skip
    units = json_schema()["$defs"]["Unit"]
    assert {"from", "makes", "batches", "count", "made", "trim", "seams", "outline"} <= set(units["required"])


def test_every_record_and_key_of_the_schema_is_a_field_of_a_record(plain: dict[str, Any]) -> None:
    """A key that ends in an underscore exists only to avoid a word of Python; the JSON has the word."""
    assert not [key for key in plain["units"][0] if key.endswith("_")]
    assert list(plain) == [field.name for field in dataclasses.fields(Booklet)]


def test_a_key_that_is_not_known_is_passed_over(plain: dict[str, Any]) -> None:
    """The format may grow: more keys may be added to it."""
    grown = {**plain, "weather": "fine", "set": {**plain["set"], "weather": "fine"}}
    assert from_json(json.dumps(grown)) == from_json(json.dumps(plain))
    jsonschema.Draft202012Validator(json_schema()).validate(grown)


def refusal(value: object) -> str:
    """Return why a value is no booklet, and hold the schema to the same verdict."""
    assert not jsonschema.Draft202012Validator(json_schema()).is_valid(value)
    with pytest.raises(ValueError, match="found") as caught:
        from_json(json.dumps(value))
    return str(caught.value)


@pytest.mark.parametrize("key", [field.name for field in dataclasses.fields(Booklet)])
def test_a_booklet_that_lacks_a_key_is_refused(plain: dict[str, Any], key: str) -> None:
    assert f"expected the keys {key} too" in refusal({k: v for k, v in plain.items() if k != key})


def test_another_format_is_refused(plain: dict[str, Any]) -> None:
    assert plain["format"] == FORMAT
    assert refusal({**plain, "format": "seamleaf-booklet/2"}).startswith('/format: found "seamleaf-booklet/2"')


@pytest.mark.parametrize(
    ("pointer", "wrong"),
    [
        ("/seam", "0.25"), ("/seam", 0.25), ("/seam", "1/0"), ("/seam", "r2"), ("/seam", None), ("/seam", "1/4 in"),
        ("/unit", "ft"), ("/unit", 1), ("/finished", []), ("/finished", "60 x 80"), ("/finished/w", 60),
        ("/fabrics", {}), ("/fabrics", "A"), ("/fabrics", None), ("/fabrics/0", None), ("/fabrics/0/directional", "no"),
        ("/fabrics/0/directional", 0), ("/fabrics/0/buy/amount", 1.5), ("/fabrics/0/buy/amount", "1 1/2"),
        ("/fabrics/0/need", True), ("/fabrics/0/colours", "#ffffff"), ("/patches/0/count", "3"),
        ("/patches/0/count", 1.5), ("/patches/0/count", True), ("/patches/0/label", 1), ("/patches/0/per_block", []),
        ("/patches/0/shape", "round"),
        ("/units/0/from", {}), ("/units/0/from/0/turn", "90"), ("/units/0/trim", "none"), ("/pressing/proven", 1),
        ("/pressing/inside", []), ("/cautions", [1]), ("/set/rows", [1, "3"]),
    ],
)  # fmt: skip
def test_a_value_of_the_wrong_kind_is_refused_with_its_pointer(
    plain: dict[str, Any], pointer: str, wrong: object
) -> None:
    damaged = json.loads(json.dumps(plain))
    *path, last = pointer.split("/")[1:]
    inside = damaged
    for step in path:
        inside = inside[int(step) if isinstance(inside, list) else step]
    assert not isinstance(inside, list) or int(last) < len(inside)
    inside[int(last) if isinstance(inside, list) else last] = wrong
    assert refusal(damaged).startswith(pointer)


@pytest.mark.parametrize(
    "text", ["", "{", "null", "[]", "3", '"booklet"', "{}", "[" * 100_000, '{"format": NaN}', "\ufeff{}"]
)  # fmt: skip
def test_text_that_is_no_booklet_is_refused_without_a_traceback_of_another_kind(text: str) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 -- JSON's own message is as good as ours
        from_json(text)
