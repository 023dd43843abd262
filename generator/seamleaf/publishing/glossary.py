"""The words of the trade that a size's pages use: a page that says what each means, and links to it where it is met.

The catalogue holds the terms of a language, each with the forms in which pages use it, so that nothing here knows any
language. A term is told only where a page of the size uses it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from markupsafe import Markup

    from seamleaf.publishing.wording import Wording

GLOSSARY: Final = "words"
"""Folder of the page."""
TERMS: Final = (
    "patch", "unit", "finished", "usable-width", "selvedge", "bundle", "sub-cut", "grain", "bias", "raw-edge",
    "right-sides", "wrong-side", "allowance", "scant", "press", "nest", "match-point", "spin", "strip-set",
    "half-square", "quarter-square", "geese", "on-point", "setting-triangle", "sash", "cornerstone", "centre", "top",
    "ease", "mitre", "batting", "baste", "binding", "offcut",
)  # fmt: skip
"""Keys below ``glossary.`` in the wording, in the order of the work."""
_TAG: Final = re.compile(r"(<[^>]*>)")
_OPEN: Final = re.compile(r"<(/?)([a-z][a-z0-9]*)\b[^>]*?(/?)>", re.IGNORECASE)
_CLOSED: Final = frozenset(
    ["a", "button", "code", "data", "dl", "figure", "label", "legend", "nav", "option", "script", "select", "style",
     "summary", "table", "textarea"]
)  # fmt: skip
"""What is a target already, or no running text."""
_STEP: Final = "sl-tick--step"
"""A step that can be ticked is running text."""
_NAME: Final = "sl-label"
"""What a patch, unit or block is called: a block may go by a word of the trade."""
_QUIET: Final = "sl-eyebrow"
"""The line above a heading: it holds titles that the designer wrote."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One word of the glossary."""

    key: str
    title: Markup
    text: Markup


class Glossary:
    """The terms of one catalogue."""

    def __init__(self, wording: Wording) -> None:
        self._terms = {
            key: Term(key=key, title=wording.say(f"glossary.{key}.term"), text=wording.say(f"glossary.{key}.text"))
            for key in TERMS
        }
        forms = {
            str(form).strip().lower(): key for key in TERMS for form in wording.say(f"glossary.{key}.forms").split(",")
        }
        self._key_of = forms
        longest_first = "|".join(re.escape(form) for form in sorted(forms, key=lambda form: (-len(form), form)))
        self._word = re.compile(rf"(?<![\w&#-])(?:{longest_first})(?![\w-])", re.IGNORECASE)

    def linked(self, page: str, href: str) -> tuple[str, frozenset[str]]:
        """Link the first use of each term in the running text of a page, and return the keys of those it uses.

        Args:
            page: Markdown and HTML, as the templates make it; headings and front matter are left alone.
            href: address of the glossary from there.

        """
        used: set[str] = set()
        open_tags: list[str] = []

        def link(match: re.Match[str]) -> str:
            key = self._key_of[match[0].lower()]
            if key in used:
                return match[0]
            used.add(key)
            return f'<a class="sl-term" href="{href}#{key}">{match[0]}</a>'

        head, mark, body = _front_matter(page)
        lines = []
        for line in body.split("\n"):
            if line.startswith("#"):
                lines.append(line)
                continue
            parts = _TAG.split(line)
            for index, part in enumerate(parts):
                if index % 2:
                    _follow(part, open_tags)
                elif not open_tags:
                    parts[index] = self._word.sub(link, part)
            lines.append("".join(parts))
        return head + mark + "\n".join(lines), frozenset(used)

    def terms(self, keys: Iterable[str]) -> tuple[Term, ...]:
        """Return the terms of these keys, in the order of the work."""
        wanted = set(keys)
        return tuple(term for key, term in self._terms.items() if key in wanted)


def _front_matter(page: str) -> tuple[str, str, str]:
    """Take a page apart: the front matter, the line after it, and the text."""
    start = page.find("---\n")
    end = page.find("\n---\n", start + 4) if start >= 0 and not page[:start].strip() else -1
    return (page[:end], "\n---\n", page[end + 5 :]) if end >= 0 else ("", "", page)


def _follow(tag: str, open_tags: list[str]) -> None:
    """Note what a tag opens or closes of the elements that stay without links."""
    found = _OPEN.match(tag)
    if found is None or found[3]:
        return
    name = found[2].lower()
    if found[1]:
        if open_tags and open_tags[-1] == name:
            open_tags.pop()
    elif name == "label" and _STEP in tag:
        return
    elif (
        name in _CLOSED
        or (name == "b" and _NAME in tag)
        or (name == "p" and (_QUIET in tag or open_tags[-1:] == ["p"]))
    ):
        open_tags.append(name)
