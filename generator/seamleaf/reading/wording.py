"""Words of the messages: how a thing that was found is shown, how choices are listed, what was perhaps meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from itertools import islice
from typing import Final

from seamleaf.reading.nodes import Mapping, Node, Scalar, Sequence

_SHOWN: Final = 60
"""Longest text that a message repeats, in characters."""

_LISTED: Final = 24
"""Most choices that a message lists."""
_COMPARED: Final = 120
"""Most choices that a misspelt word is compared with."""


def shown(text: str) -> str:
    """Show a text of the file: shortened when long, anything that does not print as its escape."""
    short = text if len(text) <= _SHOWN else text[: _SHOWN - 3] + "..."
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in short)


def quoted(text: str) -> str:
    """Show a text of the file in quotes."""
    return f"'{shown(text)}'"


def found(node: Node) -> str:
    """Name what stands at a node, as a phrase that follows ``found``."""
    if isinstance(node, Scalar):
        return quoted(node.text) if node.text else "nothing"
    if isinstance(node, Sequence):
        return "a list" if node.items else "an empty list"
    if isinstance(node, Mapping):
        return f"{quoted(node.entries[0].key.text)} with a colon" if node.entries else "empty braces"
    return "something refused"


def one_of(choices: Iterable[str]) -> str:
    """List choices: ``a, b or c``; of very many the first."""
    listed = [shown(choice) for choice in islice(choices, _LISTED + 1)]
    if len(listed) > _LISTED:
        listed[-1] = "another"
    *most, last = listed
    return f"{', '.join(most)} or {last}" if most else last


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """Return the valid word that looks most like ``word``, if any comes near."""
    if len(word) > _SHOWN:
        return None
    by_lower = {choice.lower(): choice for choice in islice(choices, _COMPARED)}
    close = get_close_matches(word.lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[close[0]] if close else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """Return the hint for a misspelt word, or nothing."""
    return meant(nearest(word, choices))


def meant(near: str | None) -> str:
    """Return the hint that names the nearest valid word, or nothing when there is none."""
    return f"did you mean {quoted(near)}?" if near is not None else ""
