"""The wording catalogue: every sentence of the pages, by key, so that a second language is one more file.

An entry is a text with named placeholders, or two texts, ``one`` and ``other``, chosen by the number ``n``.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from markupsafe import Markup

from seamleaf.publishing.escaping import escape_for_page
from seamleaf.words import Text, WordingError, Words, form_of, placeholders, read_texts

__all__ = ["Text", "Wording", "WordingError", "placeholders", "read_wording"]


class Wording:
    """A catalogue of texts."""

    def __init__(self, texts: Mapping[str, Text]) -> None:
        self.texts = dict(texts)

    @property
    def words(self) -> Words:
        """The same texts for figures."""
        return Words(self.texts)

    def say(self, key: str, **values: Any) -> Markup:
        """Return the text of ``key`` with its placeholders filled; plain strings are escaped.

        Raises:
            WordingError: no such text, or a placeholder that is not given.

        """
        form = form_of(self.texts, key, getattr(values.get("n"), "value", values.get("n")))
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


@cache
def read_wording(source: str) -> Wording:
    """Read a catalogue from YAML; see :func:`seamleaf.words.read_texts`.

    Raises:
        WordingError: not YAML, or an entry that is neither a text nor a pair of ``one`` and ``other``.

    """
    return Wording(read_texts(source))
