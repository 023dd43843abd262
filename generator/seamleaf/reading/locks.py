"""Locks of a size: the blocks whose prints the designer decides, each by its number in the layout."""

from __future__ import annotations

import re
from typing import Final

from seamleaf.reading.fields import open_entries
from seamleaf.reading.names import Names
from seamleaf.reading.nodes import Entry, Node
from seamleaf.reading.pattern import Lock, LockedPrint
from seamleaf.reading.problems import Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.wording import did_you_mean, one_of, quoted

_NUMBER: Final = re.compile(r"[1-9][0-9]{0,3}\.[1-9][0-9]{0,3}")


def read_locks(node: Node | None, names: Names, scalars: Scalars, report: Report) -> tuple[Lock, ...]:
    """Read the locks of one size; those that cannot be read are left out."""
    locks: list[Lock] = []
    for entry in open_entries(node, "numbers of blocks, each with its prints, such as 1.2: {star.1: ...}", report):
        number, where = entry.key.text, entry.key.where
        if _NUMBER.fullmatch(number) is None:
            report.add(where, f"a lock of {quoted(number)}", "the number of a block: row.position, such as 2.3")
            continue
        inner = open_entries(entry.value, "prints of the block, each with a colour of its bundle", report)
        prints = [one for each in inner if (one := _print(each, names, scalars, report)) is not None]
        seen: set[tuple[str, int]] = set()
        for one in prints:
            if (one.fabric, one.colour) in seen:
                found = f"one colour of {quoted(one.fabric)} for two prints of block {number}"
                report.add(one.where, found, "a colour of its own for each print of a block")
            seen.add((one.fabric, one.colour))
        if prints:
            locks.append(Lock(block=number, prints=tuple(prints), where=where))
    return tuple(locks)


def _print(entry: Entry, names: Names, scalars: Scalars, report: Report) -> LockedPrint | None:
    use = names.use(entry.key.text, entry.key.where)
    fabric = names.fabric(use.fabric)
    if fabric is None or names.is_unclear(fabric.id):
        return None
    if fabric.is_yardage or use.print is None:
        if "." not in entry.key.text:  # a print of yardage has been reported
            report.add(entry.key.where, f"a lock of {quoted(fabric.id)}, which is yardage", "a print of a bundle")
        return None
    colour = scalars.colour(entry.value, "")
    if colour not in fabric.colours:
        if colour:
            found = f"colour {quoted(colour)}, which {quoted(fabric.id)} does not have"
            report.add(entry.value.where, found, one_of(fabric.colours), did_you_mean(colour, fabric.colours))
        return None
    return LockedPrint(fabric=fabric.id, print=use.print, colour=fabric.colours.index(colour), where=entry.key.where)
