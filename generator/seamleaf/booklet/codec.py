"""Booklet to JSON text and back, by the types of the record; and the JSON Schema of that text.

One walk over the type annotations serves all three, so that they cannot drift apart.
"""

from __future__ import annotations

import dataclasses
import functools
import json
import types
import typing
from fractions import Fraction
from typing import Any, Literal, Union

from seamleaf.booklet.record import Booklet
from seamleaf.lengths import Length

_LENGTH_PATTERN = r"^-?\d+(/\d+)?([+-]\d+(/\d+)?\*r2)?$"
_RATIONAL_PATTERN = r"^-?\d+(/\d+)?$"


def to_json(booklet: Booklet) -> str:
    """Write the booklet; the same booklet gives the same bytes."""
    return json.dumps(_plain(booklet), ensure_ascii=False, indent=1) + "\n"


def from_json(text: str) -> Booklet:
    """Read a booklet back.

    Raises:
        ValueError: the text is not a booklet of this format.

    """
    try:
        booklet = _typed(json.loads(text), Booklet)
    except (KeyError, TypeError, AttributeError) as fault:
        raise ValueError(f"not a booklet: {fault}") from fault
    assert isinstance(booklet, Booklet)  # noqa: S101 -- narrows the type for the reader and for mypy
    return booklet


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of ``booklet.json``."""
    definitions: dict[str, Any] = {}
    _schema(Booklet, definitions)
    body = definitions.pop("Booklet")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Booklet", **body, "$defs": definitions}


def key_of(field_name: str) -> str:
    """Return the JSON key of a field: ``from_`` avoids Python's keyword."""
    return field_name.rstrip("_")


@functools.cache
def _fields(record: Any) -> tuple[tuple[str, str, Any], ...]:
    hints = typing.get_type_hints(record, include_extras=True)
    return tuple((f.name, key_of(f.name), hints[f.name]) for f in dataclasses.fields(record))


def _plain(value: Any) -> Any:
    if isinstance(value, Length):
        return value.exact_text()
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if dataclasses.is_dataclass(value):
        return {key: _plain(getattr(value, name)) for name, key, _ in _fields(value.__class__)}
    return value


def _typed(value: Any, hint: Any) -> Any:
    origin = typing.get_origin(hint)
    if origin is typing.Annotated:
        return _typed(value, typing.get_args(hint)[0])
    if hint is Length:
        return Length.from_exact_text(value)
    if hint is Fraction:
        return Fraction(value)
    if dataclasses.is_dataclass(hint):
        record = typing.cast("type[Any]", hint)
        return record(**{name: _typed(value[key], inner) for name, key, inner in _fields(record)})
    if origin is tuple:
        inner = typing.get_args(hint)
        if len(inner) == 2 and inner[1] is Ellipsis:
            return tuple(_typed(item, inner[0]) for item in value)
        return tuple(_typed(item, each) for item, each in zip(value, inner, strict=True))
    if origin is dict:
        return {key: _typed(item, typing.get_args(hint)[1]) for key, item in value.items()}
    if origin in (Union, types.UnionType):
        return _typed(value, _member(value, typing.get_args(hint)))
    return value


def _member(value: Any, members: tuple[Any, ...]) -> Any:
    """Pick the member of a union that a JSON value is of; the record keeps unions apart by JSON type."""
    kinds: dict[type, tuple[Any, ...]] = {
        type(None): (type(None),), int: (int,), dict: (), str: (Length, Fraction, str),
    }  # fmt: skip
    for member in members:
        if member in kinds.get(type(value), ()) or (isinstance(value, dict) and dataclasses.is_dataclass(member)):
            return member
        if isinstance(value, str) and typing.get_origin(member) is Literal:
            return member
    raise TypeError(f"{value!r} fits none of {members}")


def _schema(hint: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Annotated:
        return {"description": inner[1], **_schema(inner[0], definitions)}
    if dataclasses.is_dataclass(hint):
        return _record_schema(typing.cast("type[Any]", hint), definitions)
    if origin is Literal:
        return {"enum": list(inner)}
    if origin is tuple:
        if len(inner) == 2 and inner[1] is Ellipsis:
            return {"type": "array", "items": _schema(inner[0], definitions)}
        items = [_schema(each, definitions) for each in inner]
        return {"type": "array", "prefixItems": items, "minItems": len(items), "maxItems": len(items)}
    if origin is dict:
        return {"type": "object", "additionalProperties": _schema(inner[1], definitions)}
    if origin in (Union, types.UnionType):
        return {"anyOf": [_schema(each, definitions) for each in inner]}
    simple: dict[Any, dict[str, Any]] = {
        Length: {"type": "string", "pattern": _LENGTH_PATTERN},
        Fraction: {"type": "string", "pattern": _RATIONAL_PATTERN},
        str: {"type": "string"},
        int: {"type": "integer"},
        bool: {"type": "boolean"},
        type(None): {"type": "null"},
    }
    return dict(simple[hint])


def _record_schema(record: type[Any], definitions: dict[str, Any]) -> dict[str, Any]:
    name = record.__name__
    if name not in definitions:
        definitions[name] = {}
        properties = {key: _schema(inner, definitions) for _, key, inner in _fields(record)}
        definitions[name] = {
            "type": "object",
            "description": (record.__doc__ or "").strip(),
            "properties": properties,
            "required": list(properties),
            "additionalProperties": True,
        }
    return {"$ref": f"#/$defs/{name}"}
