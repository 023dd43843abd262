"""The JSON Schema of a pattern file, made from the tables that the readers open its mappings with.

Draft 7, which editors understand. It sees the form of single values and which keys go together; names that must exist,
sums that must come out and what only several places show together is for the readers to say.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import fields
from typing import Any

import yaml

from seamleaf.lengths import CENTIMETRES, INCHES, Length, format_rational
from seamleaf.reading import keys
from seamleaf.reading.defaults import defaults_for
from seamleaf.reading.forms import PATCH, Schema
from seamleaf.reading.tables import Case, Key, Keys


def pattern_schema() -> Schema:
    """Return the schema of a pattern file."""
    definitions: Schema = {name: table_schema(table) for name, table in keys.TABLES.items()}
    for kind, table in keys.PARTS.items():
        definitions[f"part-{kind}"] = table_schema(table)
        definitions[f"block-{kind}"] = table_schema(table.also(keys.BLOCK))
    definitions["part"] = _any_part("part")
    definitions["block"] = _any_part("block")
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "A pattern file of Seamleaf",
        **table_schema(keys.PATTERN),
        "definitions": definitions,
    }


def schema_text() -> str:
    """Return the schema as the text of a file."""
    return json.dumps(pattern_schema(), ensure_ascii=False, indent=1) + "\n"


def table_schema(table: Keys) -> Schema:
    """Return the schema of one mapping."""
    schema: Schema = {
        "type": "object",
        "description": f"{table.of[0].upper()}{table.of[1:]}.",
        "properties": {name: _key_schema(table[name]) for name in table.all},
        "additionalProperties": False,
    }
    if table.required:
        schema["required"] = list(table.required)
    rules = [*({"not": {"required": list(pair)}} for pair in table.apart), *map(_case_schema, table.cases)]
    if table.one_of:
        rules.append({"anyOf": [{"required": [name]} for name in table.one_of]})
    if rules:
        schema["allOf"] = rules
    return schema


def without(key: Key) -> str:
    """Say what holds without a key, with the usual values in both units; empty for a key that must stand."""
    if key.default:
        return key.default
    inches, metric = defaults_for(INCHES), defaults_for(CENTIMETRES)
    usual = {
        each.name: f"{_shown(getattr(inches, each.name), 'in')} in, or {_shown(getattr(metric, each.name), 'cm')} cm"
        for each in fields(inches)
    }
    return key.without.format_map(usual)


def _shown(value: Length | tuple[Length, Length], unit: Any) -> str:
    sides = value if isinstance(value, tuple) else (value,)
    return " x ".join(format_rational(side.a, unit) for side in sides)


def _key_schema(key: Key) -> Schema:
    instead = without(key)
    schema: Schema = {"description": key.meaning + (f" Without it: {instead}." if instead else "")}
    if "$ref" in key.form.schema:  # in draft 7 whatever stands beside a reference is not looked at
        schema["allOf"] = [dict(key.form.schema)]
    else:
        schema |= key.form.schema
    if key.default:
        schema["default"] = yaml.safe_load(key.default)
    if key.example:
        schema["examples"] = [yaml.safe_load(key.example)]
    return schema


def _case_schema(case: Case) -> Schema:
    holds: Schema = {"required": [case.key], "properties": {case.key: {"const": case.value}}}
    follows: Schema = {}
    if case.needs:
        follows["required"] = list(case.needs)
    if case.bars:
        follows["properties"] = dict.fromkeys(case.bars, False)
    return {"if": holds, "else" if case.otherwise else "then": follows}


def _any_part(prefix: str) -> Schema:
    refs: Iterable[Schema] = ({"$ref": f"#/definitions/{prefix}-{kind}"} for kind in keys.PARTS)
    patch: Schema = {"description": "A patch: fabric, finished width x height.", "examples": ["ground 2 x 6"]}
    return {"anyOf": [patch | dict(PATCH.schema), *refs]}
