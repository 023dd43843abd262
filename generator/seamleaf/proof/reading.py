"""The bytes of a ``booklet.json`` to its record, or every fault of form with its JSON Pointer.

Stricter than JSON readers are: no key twice, no value out of its notation, no count that is not whole.
"""

from __future__ import annotations

import dataclasses
import functools
import json
import types
import typing
from collections.abc import Callable
from fractions import Fraction
from typing import Any, Final, Literal, Union

from seamleaf.lengths import Length
from seamleaf.proof.form import Record
from seamleaf.proof.notation import NotationError, read_length, read_rational
from seamleaf.proof.record import RENAMED, Booklet
from seamleaf.proof.report import Findings

FORM: Final = "form"
MAX_BYTES: Final = 64 * 2**20
MAX_COUNT: Final = 10**9
"""No count of a quilt comes near it; larger ones are damage, and would cost time to reckon with."""

_Reader = Callable[[Any, str, Findings], Any]
_BAD: Final = object()
"""Stands for a value that was reported."""


class _NotPlainError(ValueError):
    """JSON that a published file may not hold."""


def as_booklet(value: Any, findings: Findings) -> Booklet | None:
    """Read a booklet out of its JSON value; ``None`` when its form is at fault, which is reported."""
    booklet = _reader(Booklet)(value, "", findings)
    return booklet if isinstance(booklet, Booklet) else None


def read_json(content: bytes, findings: Findings) -> Any:
    """Read JSON with no key twice; ``None`` when it is at fault, which is reported."""
    if len(content) > MAX_BYTES:
        findings.add(FORM, "", f"{len(content)} bytes, which is more than a booklet can have")
        return None
    try:
        value = json.loads(
            content.decode("utf-8"),
            object_pairs_hook=_object,
            parse_constant=_refuse_constant,
            parse_int=_whole,
        )
    except UnicodeDecodeError as error:
        findings.add(FORM, "", f"not UTF-8 at byte {error.start}")
    except json.JSONDecodeError as error:
        findings.add(FORM, "", f"not JSON at line {error.lineno}, column {error.colno}: {error.msg}")
    except _NotPlainError as error:
        findings.add(FORM, "", str(error))
    except RecursionError:
        findings.add(FORM, "", "nested too deep")
    else:
        findings.expect(value is not None, FORM, "", "null where a booklet is expected")
        return value
    return None


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise _NotPlainError(f"the key {twice!r} stands twice in one object")
    return found


def _refuse_constant(text: str) -> Any:
    raise _NotPlainError(f"{text} is no JSON")


def _whole(text: str) -> int:
    if len(text) > len(str(MAX_COUNT)) + 1:
        raise _NotPlainError(f"the number {text[:20]}... is too large")
    return int(text)


# ------------------------------------------------------------------------------------- readers, one a type


@functools.cache
def _reader(hint: Any) -> _Reader:
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin in (Union, types.UnionType):
        return _union(inner)
    if origin is Literal:
        return _choice(inner)
    if origin is tuple:
        return _array(_reader(inner[0])) if inner[-1] is Ellipsis else _fixed_array([_reader(each) for each in inner])
    if origin is dict:
        return _mapping(_reader(inner[1]))
    if isinstance(hint, type) and issubclass(hint, Record):
        return _record(hint)
    return _SIMPLE[hint]


def _record(record: type[Record]) -> _Reader:
    hints = typing.get_type_hints(record)
    fields = [field.name for field in dataclasses.fields(record) if field.name != "pointer"]
    readers = [(name, RENAMED.get(name, name), _reader(hints[name])) for name in fields]

    def read(value: Any, at: str, findings: Findings) -> Any:
        if not isinstance(value, dict):
            return _misfit(value, "an object", at, findings)
        values: dict[str, Any] = {}
        for name, key, reader in readers:
            if key in value:
                values[name] = reader(value[key], f"{at}/{key}", findings)
            else:
                findings.add(FORM, at, f"the key {key!r} is missing")
                values[name] = _BAD
        return _BAD if any(each is _BAD for each in values.values()) else record(pointer=at, **values)

    return read


def _array(each: _Reader) -> _Reader:
    def read(value: Any, at: str, findings: Findings) -> Any:
        if not isinstance(value, list):
            return _misfit(value, "an array", at, findings)
        items = tuple(each(item, f"{at}/{index}", findings) for index, item in enumerate(value))
        return _BAD if any(item is _BAD for item in items) else items

    return read


def _fixed_array(readers: list[_Reader]) -> _Reader:
    def read(value: Any, at: str, findings: Findings) -> Any:
        if not isinstance(value, list) or len(value) != len(readers):
            return _misfit(value, f"an array of {len(readers)}", at, findings)
        items = tuple(
            each(item, f"{at}/{index}", findings) for index, (each, item) in enumerate(zip(readers, value, strict=True))
        )
        return _BAD if any(item is _BAD for item in items) else items

    return read


def _mapping(each: _Reader) -> _Reader:
    def read(value: Any, at: str, findings: Findings) -> Any:
        if not isinstance(value, dict):
            return _misfit(value, "an object", at, findings)
        found = {key: each(item, f"{at}/{escaped(key)}", findings) for key, item in value.items()}
        return _BAD if any(item is _BAD for item in found.values()) else found

    return read


def escaped(key: str) -> str:
    """Write a key as a part of a JSON Pointer."""
    return key.replace("~", "~0").replace("/", "~1")


def _choice(words: tuple[Any, ...]) -> _Reader:
    def read(value: Any, at: str, findings: Findings) -> Any:
        if not isinstance(value, str) or value not in words:
            return _misfit(value, " or ".join(map(str, words)), at, findings)
        return value

    return read


def _union(members: tuple[Any, ...]) -> _Reader:
    """Read what the JSON value's own kind calls for; no union of the format has two members of one kind."""
    by_kind: dict[type, _Reader] = {}
    for member in members:
        if member is type(None):
            by_kind[type(None)] = _nothing
        elif member is int:
            by_kind[int] = _reader(int)
        elif isinstance(member, type) and issubclass(member, Record):
            by_kind[dict] = _record(member)
        else:
            by_kind[list if typing.get_origin(member) is tuple else str] = _reader(member)
    names = {type(None): "null", int: "a whole number", dict: "an object", list: "an array", str: "text"}
    expected = " or ".join(names[kind] for kind in by_kind)

    def read(value: Any, at: str, findings: Findings) -> Any:
        reader = by_kind.get(type(value))
        return _misfit(value, expected, at, findings) if reader is None else reader(value, at, findings)

    return read


def _nothing(_value: Any, _at: str, _findings: Findings) -> None:
    return None


def _text(value: Any, at: str, findings: Findings) -> Any:
    return value if isinstance(value, str) else _misfit(value, "text", at, findings)


def _flag(value: Any, at: str, findings: Findings) -> Any:
    return value if isinstance(value, bool) else _misfit(value, "true or false", at, findings)


def _count(value: Any, at: str, findings: Findings) -> Any:
    if type(value) is not int or abs(value) > MAX_COUNT:
        return _misfit(value, "a whole number", at, findings)
    return value


def _noted(read_value: Callable[[str], Any]) -> _Reader:
    def read(value: Any, at: str, findings: Findings) -> Any:
        if not isinstance(value, str):
            return _misfit(value, "an exact value as text", at, findings)
        try:
            return read_value(value)
        except NotationError as error:
            findings.add(FORM, at, str(error))
            return _BAD

    return read


def _misfit(value: Any, expected: str, at: str, findings: Findings) -> Any:
    found = json.dumps(value, ensure_ascii=False)
    findings.add(FORM, at, f"{found[:60]}{'...' * (len(found) > 60)} stands where {expected} is expected")
    return _BAD


_SIMPLE: Final[dict[Any, _Reader]] = {
    str: _text,
    bool: _flag,
    int: _count,
    Length: _noted(read_length),
    Fraction: _noted(read_rational),
}
