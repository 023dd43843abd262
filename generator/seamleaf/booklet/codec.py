"""Booklet to JSON text and back, by the types of the record; and the JSON Schema of that text.

One walk over the type annotations serves all three, so that they cannot drift apart.
"""

from __future__ import annotations

import dataclasses
import functools
import json
import re
import types
import typing
from fractions import Fraction
from json.encoder import encode_basestring as _quoted
from typing import Any, Final, Literal, TypeVar, Union

from seamleaf.booklet.record import Booklet
from seamleaf.lengths import Length

# Lowest terms without /1 is what is written; what is read need only be a number.
_URAT = r"[0-9]+(/[0-9]*[1-9][0-9]*)?"
_RATIONAL = rf"-?{_URAT}"
_LENGTH = rf"-?{_URAT}([+-]{_URAT}\*r2)?"

_SIMPLE: Final = frozenset([Fraction, bool, types.NoneType])

_Record = TypeVar("_Record")


def to_json(booklet: Booklet) -> str:
    """Write the booklet; the same booklet gives the same bytes."""
    return _written(booklet, "\n") + "\n"


def from_json(text: str) -> Booklet:
    """Read a booklet back; keys that the record does not know are passed over, since a format may grow.

    Raises:
        ValueError: the text is not a booklet of this format; the message says where, as a JSON Pointer.

    """
    try:
        value = json.loads(text)
    except RecursionError:
        raise ValueError("nested too deep for a booklet") from None
    return from_plain(value, Booklet)


def as_plain(value: Any) -> Any:
    """Return a record of any kind as the values that JSON has."""
    return json.loads(_written(value, "\n"))


def from_plain(value: Any, record: type[_Record]) -> _Record:
    """Return the record that :func:`as_plain` made values of.

    Raises:
        ValueError: the values are of no such record; the message says where, as a JSON Pointer.

    """
    made = _typed(value, record, "")
    assert isinstance(made, record)  # noqa: S101 -- narrows the type for the reader and for mypy
    return made


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


def _written(value: Any, end: str) -> str:
    """Write as ``json.dumps`` with an indent of 1 writes plain values, which would first have to be made.

    Args:
        value: a record, or what one holds.
        end: the end of the line before it, with the indent of that line.

    """
    kind = value.__class__
    if kind is str:
        return _quoted(value)
    if kind is Length:
        return f'"{value.exact_text()}"'
    if kind is int:
        return str(value)
    within = end + " "
    if kind is tuple:
        items = [_written(item, within) for item in value]
        return f"[{within}{f',{within}'.join(items)}{end}]" if items else "[]"
    if kind is dict:
        items = [f"{_quoted(key)}: {_written(item, within)}" for key, item in value.items()]
    elif kind in _SIMPLE:
        return f'"{value}"' if kind is Fraction else json.dumps(value)
    else:
        items = [f'"{key}": {_written(getattr(value, name), within)}' for name, key, _ in _fields(kind)]
    return f"{{{within}{f',{within}'.join(items)}{end}}}" if items else "{}"


def _typed(value: Any, hint: Any, at: str) -> Any:
    """Make what a JSON value stands for by its type hint; ``at`` is the value's JSON Pointer, for the message."""
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Annotated:
        return _typed(value, inner[0], at)
    if origin in (Union, types.UnionType):
        return _typed(value, _member(value, inner, at), at)
    if dataclasses.is_dataclass(hint):
        return _record(value, hint, at)
    if origin is tuple:
        _expect(isinstance(value, list), value, "an array", at)
        each = inner[:1] * len(value) if inner[-1] is Ellipsis else inner
        _expect(len(value) == len(each), value, f"{len(each)} items", at)
        return tuple(_typed(item, one, f"{at}/{i}") for i, (item, one) in enumerate(zip(value, each, strict=True)))
    if origin is dict:
        _expect(isinstance(value, dict), value, "an object", at)
        return {key: _typed(item, inner[1], f"{at}/{key}") for key, item in value.items()}
    if origin is Literal:
        _expect(value in inner, value, f"one of {', '.join(map(str, inner))}", at)
        return value
    return _simple(value, hint, at)


def _record(value: Any, record: Any, at: str) -> Any:
    _expect(isinstance(value, dict), value, "an object", at)
    fields = _fields(record)
    lacking = [key for _, key, _ in fields if key not in value]
    _expect(not lacking, value, f"the keys {', '.join(lacking)} too", at)
    return record(**{name: _typed(value[key], hint, f"{at}/{key}") for name, key, hint in fields})


def _simple(value: Any, hint: Any, at: str) -> Any:
    if hint is Length:
        _expect(isinstance(value, str) and re.fullmatch(_LENGTH, value), value, "an exact length", at)
        return Length.from_exact_text(value)
    if hint is Fraction:
        _expect(isinstance(value, str) and re.fullmatch(_RATIONAL, value), value, "a rational", at)
        return Fraction(value)
    _expect(type(value) is hint, value, hint.__name__, at)
    return value


def _expect(holds: object, value: Any, expected: str, at: str) -> None:
    if not holds:
        found = json.dumps(value, ensure_ascii=False)
        raise ValueError(f"{at or '/'}: found {found[:40]}{'...' * (len(found) > 40)}, expected {expected}")


def _member(value: Any, members: tuple[Any, ...], at: str) -> Any:
    """Pick the member of a union that a JSON value is of; the record keeps unions apart by JSON type."""
    kinds: dict[type, tuple[Any, ...]] = {
        type(None): (type(None),), int: (int,), dict: (), str: (Length, Fraction, str),
    }  # fmt: skip
    for member in members:
        if member in kinds.get(type(value), ()) or (isinstance(value, dict) and dataclasses.is_dataclass(member)):
            return member
        if isinstance(value, (str, list)) and typing.get_origin(member) is {str: Literal, list: tuple}.get(type(value)):
            return member
    names = " or ".join(getattr(member, "__name__", str(member)) for member in members)
    raise ValueError(f"{at}: found {json.dumps(value, ensure_ascii=False)[:40]}, expected {names}")


def _schema(hint: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Annotated:
        return {"description": inner[1], **_schema(inner[0], definitions)}
    if dataclasses.is_dataclass(hint):
        return _record_schema(hint, definitions)
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
        Length: {"type": "string", "pattern": f"^{_LENGTH}$"},
        Fraction: {"type": "string", "pattern": f"^{_RATIONAL}$"},
        str: {"type": "string"},
        int: {"type": "integer"},
        bool: {"type": "boolean"},
        type(None): {"type": "null"},
    }
    return dict(simple[hint])


def _record_schema(record: Any, definitions: dict[str, Any]) -> dict[str, Any]:
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
