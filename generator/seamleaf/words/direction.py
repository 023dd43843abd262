"""What a designer wrote in a script from right to left, or with marks of direction, kept from turning our sentences.

A title may begin an embedding and never end it; what stands after it would then run backwards as well. It is set as an
isolate of its own (Unicode Standard Annex #9, X5c to X6a): text around it flows as if a single word stood there. The
marks are plain characters, so that the same text holds in a heading, an attribute, a figure and a PDF file, where an
element could not stand.
"""

from __future__ import annotations

import unicodedata
from typing import Final

_FIRST_STRONG: Final = "\u2068"
_END: Final = "\u2069"
_BEGINNINGS: Final = "\u2066\u2067\u2068"
MARKS: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""The characters that begin and end embeddings, overrides and isolates; they take no room."""
_TURNING: Final = frozenset(["R", "AL", "AN"])


def isolated(text: str) -> str:
    """Return a text that leaves the direction of what stands beside it alone; most texts are returned as they are.

    Isolates that it does not end are ended, and ends without a beginning are left out; embeddings and overrides end
    with the isolate around them.
    """
    if text.isascii() or not any(char in MARKS or unicodedata.bidirectional(char) in _TURNING for char in text):
        return text
    kept: list[str] = []
    deep = 0
    whole = True
    """One isolate from the first character to the last, as this function makes them."""
    for place, char in enumerate(text):
        if char == _END and not deep:
            whole = False
            continue
        deep += (char in _BEGINNINGS) - (char == _END)
        whole = whole and (deep > 0 or place == len(text) - 1)
        kept.append(char)
    if whole and text.startswith(_FIRST_STRONG) and not deep:
        return text
    return f"{_FIRST_STRONG}{''.join(kept)}{_END * deep}{_END}"
