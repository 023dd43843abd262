"""JSON Pointers (RFC 6901) into a booklet: how a page names the value that it shows."""

from __future__ import annotations

from typing import Any


def pointer(*tokens: str | int) -> str:
    """Join keys and indexes to a pointer.

    >>> pointer("units", 3, "count")
    '/units/3/count'
    """
    return "".join("/" + str(token).replace("~", "~0").replace("/", "~1") for token in tokens)


def resolve(document: Any, path: str) -> Any:
    """Return the value that ``path`` names in parsed JSON.

    Raises:
        LookupError: the path is not a pointer, or it leads nowhere.

    """
    if path and not path.startswith("/"):
        raise LookupError(f"not a JSON Pointer: {path!r}")
    value = document
    for token in path.split("/")[1:]:
        key = token.replace("~1", "/").replace("~0", "~")
        if isinstance(value, dict) and key in value:
            value = value[key]
        elif isinstance(value, list) and key.isdecimal() and key.isascii() and int(key) < len(value):
            value = value[int(key)]
        else:
            raise LookupError(f"nothing at {path!r} in the booklet: no {key!r}")
    return value
