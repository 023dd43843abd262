"""The file as a tree of text: what YAML says and where, before it means anything.

Scalars stay the text that the designer wrote; no number, date or truth value is guessed from it.
"""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.reading.marks import Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar:
    """A piece of text; empty where a key has no value (and then it stands at the key)."""

    text: str
    where: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """A list."""

    items: tuple[Node, ...]
    where: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One key with its value."""

    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping:
    """Keys with their values, in the order of the file; no key comes twice."""

    entries: tuple[Entry, ...]
    where: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Something that a pattern file may not hold (an alias, say), reported already: readers pass it over."""

    where: Mark


Node = Scalar | Sequence | Mapping | Refused
