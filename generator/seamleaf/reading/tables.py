"""A table of keys: what one kind of mapping may hold, what each key means, and which keys go together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from seamleaf.reading.forms import Form


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key, as the reference and the editor describe it."""

    form: Form
    meaning: str
    """A sentence."""
    default: str = ""
    """The value that a pattern without the key has, as it would be written."""
    without: str = ""
    """In its place: what holds without the key, as a phrase; in braces, fields of the usual values."""
    example: str = ""
    """A value as it would be written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What follows where a key has a certain value; ``otherwise``: where it has another, or is not there."""

    key: str
    value: str
    otherwise: bool = False
    needs: tuple[str, ...] = ()
    bars: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Keys:
    """The keys of one kind of mapping, with their descriptions."""

    of: str
    """What the mapping describes, as a phrase: ``a fabric``."""
    required: Mapping[str, Key] = field(default_factory=dict)
    optional: Mapping[str, Key] = field(default_factory=dict)
    apart: tuple[tuple[str, str], ...] = ()
    """Pairs of keys that do not stand together."""
    one_of: tuple[str, ...] = ()
    """Keys of which at least one must stand."""
    cases: tuple[Case, ...] = ()

    @property
    def all(self) -> tuple[str, ...]:
        """Every valid key, the required ones first."""
        return (*self.required, *self.optional)

    def __getitem__(self, key: str) -> Key:
        return self.required[key] if key in self.required else self.optional[key]

    def also(self, more: Keys) -> Keys:
        """Return these keys with the optional ones of another table, leaving out those that are there already."""
        added = {name: key for name, key in more.optional.items() if name not in self.all}
        return Keys(
            of=self.of,
            required=self.required,
            optional={**self.optional, **added},
            apart=self.apart,
            one_of=self.one_of,
            cases=self.cases,
        )
