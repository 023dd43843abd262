"""YAML text to Pattern, or every problem with its place in the file.

Takes the bytes of a pattern file and gives a :class:`Reading`: the pattern as written, in exact lengths, and all
problems of form. The geometry is looked at by :mod:`seamleaf.sizing`.

The reader and the model are loaded by whoever asks for them; a problem can be told of without.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

from seamleaf.reading.marks import Mark
from seamleaf.reading.problems import PatternError, Problem

if TYPE_CHECKING:
    from seamleaf.reading.pattern import Pattern
    from seamleaf.reading.reader import Reading, read_pattern

__all__ = ["Mark", "Pattern", "PatternError", "Problem", "Reading", "read_pattern"]

_WHERE: Final = {"Pattern": "pattern", "Reading": "reader", "read_pattern": "reader"}
"""Modules, by the names that they give."""


def __getattr__(name: str) -> Any:
    """Load the module of a name."""
    if name in _WHERE:
        return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
