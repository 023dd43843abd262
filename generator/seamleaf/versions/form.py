"""What a booklet of any age must look like to be compared: the values that a note shows are of their kind."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Final

from seamleaf.lengths import Length, LengthError
from seamleaf.versions.changes import FACETS, NAMED, Kind

_LISTS: Final = {"fabrics": "id", "patches": "label", "units": "id", "seams": "id", "borders": "order", "classes": "id"}
_BUY_UNITS: Final = ("yd", "m", "pack", "piece")


def faults_of(document: Any) -> Iterator[str]:
    """Yield ``POINTER: message`` for everything that keeps a booklet from being compared."""
    if not isinstance(document, dict):
        yield ": no mapping"
        return
    if document.get("unit") not in ("in", "cm"):
        yield "/unit: neither in nor cm"
    size = document.get("size")
    if not isinstance(size, dict) or not isinstance(size.get("title", ""), str):
        yield "/size: no title"
    for section in (*NAMED, "cutting", "places", "rows"):
        items = document.get(section, [])
        if not isinstance(items, list) or not all(isinstance(item, dict) for item in items):
            yield f"/{section}: no list of mappings"
            continue
        key = _LISTS.get(section)
        for index, item in enumerate(items):
            if key is not None and not isinstance(item.get(key), (str, int)):
                yield f"/{section}/{index}/{key}: no name"
            yield from _faults_of_item(section, item, f"/{section}/{index}")
    for path, facet in FACETS.items():
        if "*" not in path:
            yield from _faults_of_value(document, path.split("/"), facet.kind, "")


def _faults_of_item(section: str, item: dict[str, Any], at: str) -> Iterator[str]:
    if section == "cutting" and not isinstance(item.get("fabric"), str):
        yield f"{at}/fabric: no fabric"
    if section == "fabrics" and not isinstance(item.get("title"), str):
        yield f"{at}/title: no title"
    if section == "seams":
        for key in ("of", "first", "second"):
            if not isinstance(item.get(key), str):
                yield f"{at}/{key}: no name"
        if item.get("press") not in ("before", "after", "open", "spin"):
            yield f"{at}/press: no way to press"
    for path, facet in FACETS.items():
        tokens = path.split("/")
        if tokens[0] == section and len(tokens) > 1 and tokens[1] == "*":
            yield from _faults_of_value(item, tokens[2:], facet.kind, at)


def _faults_of_value(value: Any, tokens: list[str], kind: Kind, at: str) -> Iterator[str]:
    """Follow the way of a facet as far as it is there, and look at what stands at its end."""
    if value is None:
        return
    if not tokens:
        if not _is(value, kind):
            yield f"{at}: found {value!r:.40}, expected a {kind}"
    elif isinstance(value, list) and tokens[0] == "*":
        for index, item in enumerate(value):
            yield from _faults_of_value(item, tokens[1:], kind, f"{at}/{index}")
    elif isinstance(value, dict):
        here = f"{at}/{tokens[0]}"
        if kind == "amount" and tokens == ["amount"] and value.get("unit") not in _BUY_UNITS:
            yield f"{at}/unit: found {value.get('unit')!r:.40}, expected one of {', '.join(_BUY_UNITS)}"
        if tokens[0] in value:
            if value[tokens[0]] is None and len(tokens) == 1 and kind != "plan":
                yield f"{here}: nothing"
            yield from _faults_of_value(value[tokens[0]], tokens[1:], kind, here)
    elif tokens[0] != "seam":
        yield f"{at}: found {value!r:.40}, expected a mapping"


def _is(value: Any, kind: Kind) -> bool:
    if kind == "plan":
        return True
    if kind == "count":
        return isinstance(value, int) and not isinstance(value, bool)
    if kind == "word":
        return isinstance(value, str)
    try:
        if kind == "length":
            return isinstance(value, str) and Length.from_exact_text(value) >= 0
        return isinstance(value, (str, int)) and not isinstance(value, bool) and Fraction(value) >= 0
    except (LengthError, ValueError, ZeroDivisionError):
        return False
