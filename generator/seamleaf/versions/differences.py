"""The differences of two booklets, value by value: things are matched by what they are called, not by where they stand.

A key that only one of the two has at all is no difference: the format may grow between two versions of a pattern.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

_NAMES: Final = {
    "fabrics": "id",
    "patches": "label",
    "units": "id",
    "seams": "id",
    "borders": "order",
    "strips": "edge",
    "classes": "id",
    "rows": "row",
}
"""What the items of a list go by, by the list's key; other lists are matched item by item."""

_TABLES: Final = ("gives", "batch", "per_block", "inside")
"""Mappings whose keys are names of things, so that one more is a difference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One value that is not the same."""

    path: tuple[str, ...]
    """The way to it; an item of a named list by its name."""
    old: Any
    """``None`` where there was none."""
    new: Any
    old_at: str | None
    """JSON Pointer into the older booklet; ``None`` when it is not there."""
    new_at: str | None


def differences(old: Any, new: Any) -> Iterator[Difference]:
    """Yield what differs between two JSON values, in the order of the newer one."""
    yield from _compare(old, new, (), "", "")


def _compare(old: Any, new: Any, path: tuple[str, ...], old_at: str, new_at: str) -> Iterator[Difference]:
    if isinstance(old, dict) and isinstance(new, dict):
        for key in [*new, *(key for key in old if key not in new)]:
            here = (*path, key)
            a, b = f"{old_at}/{_token(key)}", f"{new_at}/{_token(key)}"
            if key in old and key in new:
                yield from _compare(old[key], new[key], here, a, b)
            elif path and path[-1] in _TABLES:
                yield _one(here, old.get(key), new.get(key), a if key in old else None, b if key in new else None)
    elif isinstance(old, list) and isinstance(new, list):
        yield from _compare_lists(old, new, path, old_at, new_at)
    elif old != new or type(old) is not type(new):
        yield _one(path, old, new, old_at, new_at)


def _compare_lists(
    old: Sequence[Any], new: Sequence[Any], path: tuple[str, ...], old_at: str, new_at: str
) -> Iterator[Difference]:
    before, after = _by_name(old, path), _by_name(new, path)
    for name, index in after.items():
        here, b = (*path, name), f"{new_at}/{index}"
        if name in before:
            yield from _compare(old[before[name]], new[index], here, f"{old_at}/{before[name]}", b)
        else:
            yield _one(here, None, new[index], None, b)
    for name, index in before.items():
        if name not in after:
            yield _one((*path, name), old[index], None, f"{old_at}/{index}", None)
    if [name for name in before if name in after] != [name for name in after if name in before]:
        yield _one((*path, "order"), list(before), list(after), old_at, new_at)


def _by_name(items: Sequence[Any], path: tuple[str, ...]) -> Mapping[str, int]:
    """Return the index of each item by its name; by its index where the list has no names, or not one each."""
    key = _NAMES.get(path[-1]) if path else None
    if key is not None and all(isinstance(item, dict) and key in item for item in items):
        names = {str(item[key]): index for index, item in enumerate(items)}
        if len(names) == len(items):
            return names
    return {str(index): index for index in range(len(items))}


def _one(path: tuple[str, ...], old: Any, new: Any, old_at: str | None, new_at: str | None) -> Difference:
    return Difference(path=path, old=old, new=new, old_at=old_at, new_at=new_at)


def _token(key: str) -> str:
    return key.replace("~", "~0").replace("/", "~1")
