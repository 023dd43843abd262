"""The wording catalogue: every sentence of the pages, by key, so that a second language is one more file.

An entry is a text with named placeholders, or two texts, ``one`` and ``other``, chosen by the number ``n``.
"""

from __future__ import annotations

import string
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

import yaml
from markupsafe import Markup

from seamleaf.publishing.escaping import escape_for_page

_FORMS: Final = ("one", "other")


class WordingError(ValueError):
    """A catalogue that cannot be used, or a text that is asked for and not there."""


@dataclass(frozen=True, slots=True)
class Text:
    """One entry: ``one`` is the text for a count of one, ``other`` for every other count."""

    one: str
    other: str


class Wording:
    """A catalogue of texts."""

    def __init__(self, texts: Mapping[str, Text]) -> None:
        self.texts = dict(texts)

    def say(self, key: str, **values: Any) -> Markup:
        """Return the text of ``key`` with its placeholders filled; plain strings are escaped.

        Raises:
            WordingError: no such text, or a placeholder that is not given.

        """
        text = self.texts.get(key)
        if text is None:
            raise WordingError(f"there is no text {key!r}")
        count = getattr(values.get("n"), "value", values.get("n"))
        form = text.one if count == 1 else text.other
        safe = {name: escape_for_page(value) for name, value in values.items()}
        try:
            return Markup(form).format(**safe)  # noqa: S704 -- the catalogue is a template like the others
        except (KeyError, IndexError) as fault:
            raise WordingError(f"text {key!r} needs a value for {fault}") from None

    def overridden_by(self, other: Wording) -> Wording:
        """Return this catalogue with the texts of ``other`` in place of its own.

        Raises:
            WordingError: ``other`` holds a key that is not here, or other placeholders than the text that it replaces.

        """
        for key, text in other.texts.items():
            if key not in self.texts:
                raise WordingError(f"text {key!r} is not a text of the pages")
            allowed = placeholders(self.texts[key])
            if extra := sorted(placeholders(text) - allowed):
                raise WordingError(f"text {key!r} has no value for {', '.join(extra)}")
        return Wording({**self.texts, **other.texts})


def read_wording(source: str) -> Wording:
    """Read a catalogue from YAML: nested mappings whose keys are joined with dots.

    Raises:
        WordingError: not YAML, or an entry that is neither a text nor a pair of ``one`` and ``other``.

    """
    try:
        tree = yaml.load(source, Loader=yaml.BaseLoader)  # noqa: S506 -- BaseLoader makes nothing but text
    except yaml.YAMLError as fault:
        raise WordingError(f"not YAML: {' '.join(str(fault).split())}") from None
    if not isinstance(tree, dict):
        raise WordingError("not a mapping of texts")
    texts: dict[str, Text] = {}
    _collect(tree, "", texts)
    return Wording(texts)


def placeholders(text: Text) -> set[str]:
    """Return the names that either form of a text asks for.

    Raises:
        WordingError: a brace that does not pair.

    """
    try:
        return {name for form in (text.one, text.other) for _, name, _, _ in string.Formatter().parse(form) if name}
    except ValueError as fault:
        raise WordingError(f"{text.other!r}: {fault}") from None


def _collect(tree: Mapping[Any, Any], prefix: str, texts: dict[str, Text]) -> None:
    for key, value in tree.items():
        name = f"{prefix}{key}"
        if isinstance(value, str):
            texts[name] = Text(value, value)
        elif isinstance(value, dict) and set(value) == set(_FORMS) and all(isinstance(v, str) for v in value.values()):
            texts[name] = Text(value["one"], value["other"])
        elif isinstance(value, dict):
            _collect(value, f"{name}.", texts)
        else:
            raise WordingError(f"text {name!r} is neither a text nor a pair of one and other")
        if name in texts:
            placeholders(texts[name])
