"""HTML as what begins, what ends and the text between, read in little more than half the time of ``html.parser``.

Most of a page is tags of a plain form, and one expression takes each whole. From the first place on that is not of
that form, ``html.parser`` reads; what is heard is the same either way.
"""

from __future__ import annotations

import html
import re
from html.parser import HTMLParser
from typing import Final, Protocol

_NAME: Final = r"[a-zA-Z][a-zA-Z0-9:_-]*"
_VALUE: Final = r"\"[^\"]*\"|'[^']*'|[^\s\"'=<>`/]+"
_TAG: Final = re.compile(rf"<(/?)([a-zA-Z][a-zA-Z0-9-]*)((?:\s+{_NAME}(?:=(?:{_VALUE}))?(?=[\s/>]))*)\s*(/?)>")
_ATTRIBUTE: Final = re.compile(rf"({_NAME})(=(?:{_VALUE}))?")
_COMMENT: Final = re.compile(r"<!--(?!-?>).*?-->|<!(?i:doctype) [a-zA-Z]+>", re.DOTALL)
_ENDS: Final = {each: re.compile(rf"</\s*{each}", re.IGNORECASE) for each in ("script", "style")}
"""Where what holds no markup may end."""


class Listener(Protocol):
    """Hears what a page holds."""

    def begins(self, tag: str, values: dict[str, str | None]) -> None:
        """Hear of an element that begins; an attribute without a value has ``None``."""

    def ends(self, tag: str) -> None:
        """Hear of one that ends."""

    def says(self, text: str) -> None:
        """Hear a text."""


def read_markup(text: str, listener: Listener) -> None:
    """Read a page.

    Raises:
        AssertionError: a broken declaration, as ``html.parser`` has it.

    """
    at = 0
    while (begin := text.find("<", at)) >= 0:
        found = _TAG.match(text, begin)
        after = _after(found, text) if found else _after_comment(text, begin)
        if after is None:
            break
        if begin > at:
            listener.says(_unescaped(text[at:begin]))
        at = after
        if found is not None:
            _hear(found, listener)
            if after > found.end():
                listener.says(text[found.end() : after])
    rest = _Rest(listener)
    rest.feed(text[at:])
    rest.close()


def _after(tag: re.Match[str], text: str) -> int | None:
    """Return where to go on after a tag, and what it holds if that is no markup; ``None`` where that is not plain."""
    source = None if tag[1] or tag[4] else _ENDS.get(tag[2].lower())
    if source is None:
        return tag.end()
    end = source.search(text, tag.end())
    closes = None if end is None else _TAG.match(text, end.start())
    return None if closes is None else closes.start()


def _after_comment(text: str, begin: int) -> int | None:
    found = _COMMENT.match(text, begin)
    return None if found is None or "--!>" in found[0] else found.end()


def _hear(tag: re.Match[str], listener: Listener) -> None:
    closes, name, attributes, empty = tag.groups()
    if not closes:
        listener.begins(name.lower(), _attributes(attributes) if attributes else {})
    if closes or empty:
        listener.ends(name.lower())


def _attributes(text: str) -> dict[str, str | None]:
    found: dict[str, str | None] = {}
    for name, value in _ATTRIBUTE.findall(text):
        found[name.lower()] = _unescaped(value[2:-1] if value[1] in "\"'" else value[1:]) if value else None
    return found


def _unescaped(text: str) -> str:
    return html.unescape(text) if "&" in text else text


class _Rest(HTMLParser):
    """Reads what is not of the plain form."""

    def __init__(self, listener: Listener) -> None:
        super().__init__(convert_charrefs=True)
        self._listener = listener

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._listener.begins(tag, dict(attrs))

    def handle_endtag(self, tag: str) -> None:
        self._listener.ends(tag)

    def handle_data(self, data: str) -> None:
        self._listener.says(data)
