"""Mappings with known keys: unknown ones reported with the nearest valid one, missing ones at their owner's key."""

from __future__ import annotations

import re
from typing import Final

from seamleaf.reading.keys import Keys
from seamleaf.reading.marks import Mark
from seamleaf.reading.nodes import Entry, Mapping, Node, Refused, Scalar, Sequence
from seamleaf.reading.problems import Report
from seamleaf.reading.refused import other_name, refusal
from seamleaf.reading.wording import found, meant, nearest, one_of, quoted, shown

_NOTHING: Final = ("none", "no", "false", "off")
_WHOLE = re.compile(r"(?:^|[ x×])[0-9]{1,4}$")
_DECIMALS = re.compile(r"[0-9]{1,4}(?: *(?:in|cm|mm|x.*|×.*))?")


class Fields:
    """A mapping whose keys have been checked; ``fields["width"]`` is the value's node, or ``None``."""

    def __init__(self, entries: tuple[Entry, ...], where: Mark, *, was_read: bool) -> None:
        self.was_read = was_read
        """Whether there was a mapping at all, so that what it lacks is worth a word."""
        self.where = where
        """The place that lacks what is missing: the mapping's key, or its start where it has none."""
        self._entries = {entry.key.text: entry for entry in entries}

    def __getitem__(self, key: str) -> Node | None:
        entry = self._entries.get(key)
        return None if entry is None else entry.value

    def __contains__(self, key: str) -> bool:
        return key in self._entries

    def key(self, key: str) -> Mark:
        """Return the place of a key that is there; else of the mapping."""
        entry = self._entries.get(key)
        return self.where if entry is None else entry.key.where


def open_fields(node: Node | None, where: Mark, keys: Keys, report: Report) -> Fields:
    """Check the keys of a mapping against its table.

    Args:
        node: the mapping; anything else is reported and read as if it had no keys (``None`` silently, because
            its absence is reported by the mapping that lacks it).
        where: the key that the mapping belongs to, or its start.
        keys: what may stand there.
        report: takes the problems.

    """
    if not isinstance(node, Mapping):
        if node is not None and not isinstance(node, Refused):
            report.add(
                node.where,
                found(node),
                f"what {keys.of} has, each with a colon: {', '.join(keys.all)}",
                _braced(node, keys),
            )
        return Fields((), where, was_read=False)
    for before, entry in zip((None, *node.entries), node.entries, strict=False):
        if entry.key.text not in keys.all and not _report_comma(before, entry, report):
            report_unknown_key(entry, keys.of, keys.all, report)
    fields = Fields(node.entries, where, was_read=True)
    misspelt = {nearest(entry.key.text, keys.all) for entry in node.entries if entry.key.text not in keys.all}
    for key in keys.required:
        if key not in fields and key not in misspelt:  # else "did you mean" says it already
            report.add(where, f"{keys.of} without {quoted(key)}", f"{quoted(key)} as well", _such_as(key, keys))
    return fields


def _report_comma(before: Entry | None, entry: Entry, report: Report) -> bool:
    """Report a number with a comma for its point, ``width: 2,5``, which reads as ``width: 2`` and the word ``5``."""
    if not _DECIMALS.fullmatch(entry.key.text) or not isinstance(entry.value, Scalar) or entry.value.text:
        return False
    where, whole = entry.key.where, ""
    if before is not None and isinstance(before.value, Scalar) and _WHOLE.search(before.value.text):
        where, whole = before.value.where, before.value.text
    found, point = f"{whole},{entry.key.text}", f"{whole or 2}.{entry.key.text}"
    report.add(where, quoted(found), f"a point for the comma: {shown(point)}", "a comma parts what is listed")
    return True


def _braced(node: Node, keys: Keys) -> str:
    """Show a word in braces behind the one key that it can only belong to."""
    if len(keys.required) != 1 or not isinstance(node, Scalar) or not node.text:
        return ""
    if node.text.lower() in _NOTHING:
        return f"leave {keys.of} out where there is none"
    return f"such as {{{next(iter(keys.required))}: {shown(node.text)}}}"


def _such_as(key: str, keys: Keys) -> str:
    """Show how a key may be written."""
    example = keys[key].example
    return f"such as {key}: {example}" if example else ""


def report_unknown_key(entry: Entry, of: str, choices: tuple[str, ...], report: Report) -> None:
    """Report a key that may not stand here: by name when it is something that the tool cannot plan."""
    word = entry.key.text
    refused = refusal(word)
    if refused is not None:
        report.add(entry.key.where, *refused)
    else:
        other = other_name(word)
        where, near = entry.key.where, other if other in choices else nearest(word, choices)
        report.add(where, f"{quoted(word)}, which {of} does not have", one_of(choices), meant(near))


def open_entries(node: Node | None, what: str, report: Report) -> tuple[Entry, ...]:
    """Return the entries of a mapping whose keys are ids; it must have at least one."""
    if isinstance(node, Mapping) and node.entries:
        return node.entries
    if node is not None and not isinstance(node, Refused):
        report.add(node.where, found(node), what)
    return ()


def open_items(node: Node | None, what: str, report: Report) -> tuple[Node, ...]:
    """Return the items of a list; it must have at least one."""
    if isinstance(node, Sequence) and node.items:
        return node.items
    if node is not None and not isinstance(node, Refused):
        report.add(node.where, found(node), what)
    return ()
