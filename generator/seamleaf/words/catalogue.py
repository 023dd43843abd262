"""A catalogue of texts: every sentence by a key, with named placeholders.

An entry is a text, or two texts, ``one`` and ``other``, chosen by the number ``n``.
"""

from __future__ import annotations

import functools
import hashlib
import importlib.resources
import string
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

import yaml

from seamleaf.words.direction import isolated

_FORMS: Final = ("one", "other")
_PACKAGE: Final = "seamleaf.site_templates"
_ENGLISH: Final = "wording.yaml"


class WordingError(ValueError):
    """A catalogue that cannot be used, or a text that is asked for and not there."""


@dataclass(frozen=True, slots=True)
class Text:
    """One entry: ``one`` is the text for a count of one, ``other`` for every other count."""

    one: str
    other: str


class Words:
    """A catalogue of plain text, for figures; two are equal when their texts are."""

    def __init__(self, texts: Mapping[str, Text]) -> None:
        self.texts = dict(texts)
        written = "\0".join(f"{key}\0{text.one}\0{text.other}" for key, text in sorted(self.texts.items()))
        self.digest = hashlib.sha256(written.encode()).hexdigest()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Words) and self.digest == other.digest

    def __hash__(self) -> int:
        return hash(self.digest)

    def say(self, key: str, **values: Any) -> str:
        """Return the text of ``key`` with its placeholders filled; texts from right to left are kept to themselves.

        Raises:
            WordingError: no such text, or a placeholder that is not given.

        """
        apart = {name: isolated(value) if isinstance(value, str) else value for name, value in values.items()}
        try:
            return form_of(self.texts, key, values.get("n")).format(**apart)
        except (KeyError, IndexError) as fault:
            raise WordingError(f"text {key!r} needs a value for {fault}") from None


def form_of(texts: Mapping[str, Text], key: str, count: object) -> str:
    """Return the text of ``key`` in the form for a count.

    Raises:
        WordingError: no such text.

    """
    text = texts.get(key)
    if text is None:
        raise WordingError(f"there is no text {key!r}")
    return text.one if count == 1 else text.other


_FAST: Final[Any] = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""Where PyYAML was built with libyaml, a catalogue is read ten times as fast, by each process of a build."""


@functools.cache
def english() -> Words:
    """Return the packaged English texts."""
    return Words(read_texts(importlib.resources.files(_PACKAGE).joinpath(_ENGLISH).read_text(encoding="utf-8")))


def read_texts(source: str) -> dict[str, Text]:
    """Read a catalogue from YAML: nested mappings whose keys are joined with dots.

    Raises:
        WordingError: not YAML, or an entry that is neither a text nor a pair of ``one`` and ``other``.

    """
    try:
        tree = yaml.load(source, Loader=_FAST)  # noqa: S506 -- it makes nothing but text
    except yaml.YAMLError:
        try:
            tree = yaml.load(source, Loader=yaml.BaseLoader)  # noqa: S506 -- for its words of the fault
        except yaml.YAMLError as fault:
            raise WordingError(f"not YAML: {' '.join(str(fault).split())}") from None
    if not isinstance(tree, dict):
        raise WordingError("not a mapping of texts")
    texts: dict[str, Text] = {}
    _collect(tree, "", texts)
    return texts


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
