"""Text that a designer wrote, made safe for every place in a page at once."""

from __future__ import annotations

from typing import Any, Final

from markupsafe import Markup

from seamleaf.words import isolated

_SPECIAL: Final = {ord(mark): f"&#{ord(mark)};" for mark in "&<>\"'`\\*_{}[]()#+-!|~^:=$@."}
_SPACES: Final = {ord(mark): " " for mark in "\n\r\t"}


def plain_text(text: str) -> Markup:
    """Write every mark that HTML or Markdown could act on as a character reference.

    One escape serves headings, paragraphs, table cells and attributes alike, so that no template can pick
    the wrong one; line ends become spaces, because a Markdown line must stay one line. What runs from right to left
    leaves the text around it alone.
    """
    return Markup(isolated(text).translate(_SPACES).translate(_SPECIAL))  # noqa: S704 -- every mark with a meaning is replaced


def escape_for_page(value: Any) -> Any:
    """Escape a string unless it is markup already; Jinja calls this on whatever a template prints."""
    return plain_text(value) if isinstance(value, str) and not hasattr(value, "__html__") else value
