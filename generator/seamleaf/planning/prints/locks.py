"""Blocks whose prints the designer decides: what each lock asks for, or why it cannot be had."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from seamleaf.planning.joining import block_numbers
from seamleaf.planning.print_records import PrintsTask
from seamleaf.planning.prints.choice import Square
from seamleaf.reading.pattern import Lock, LockedPrint
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.reading.wording import one_of, quoted
from seamleaf.sizing import Quilt

Locks = Mapping[int, Mapping[int, int]]
"""By index of the place: the index of the colour, by index of the role in the block."""
Claims = Mapping[str, Sequence[Mapping[int, int]]]
"""By bundle fabric, for each way of cutting its pieces: how many pieces of each colour the locks take."""


def locks_of(quilt: Quilt, task: PrintsTask, bundles: Mapping[str, Sequence[Square]]) -> tuple[Locks, Claims]:
    """Return the locks of a size, and the pieces that they take.

    Raises:
        PatternError: every lock that cannot be had, at its place in the file.

    """
    problems: list[Problem] = []
    locks: dict[int, dict[int, int]] = {}
    asked: dict[tuple[int, int], LockedPrint] = {}
    number_of = {number: place for place, number in block_numbers(quilt).items()}
    for lock in quilt.size.locks:
        place = number_of.get(lock.block)
        if place is None:
            found = f"block {lock.block} in size '{quilt.size.id}'"
            problems.append(
                Problem(lock.where, found, f"a block from {next(iter(number_of))} to {list(number_of)[-1]}")
            )
            continue
        roles = _roles_at(task, place)
        for one in lock.prints:
            index = roles.get((one.fabric, one.print))
            if index is None:
                problems.append(_no_role(lock, one, roles))
                continue
            locks.setdefault(place, {})[index] = one.colour
            asked[place, index] = one
    claims, refused = claim_pieces(task, bundles, locks)
    problems += [_out_of_reach(task, bundles, asked[each]) for each in refused]
    if problems:
        raise PatternError(problems)
    return locks, claims


def _out_of_reach(task: PrintsTask, bundles: Mapping[str, Sequence[Square]], one: LockedPrint) -> Problem:
    """Say what there is too little of: pieces in this colour, or pieces that are cut for this print."""
    squares = bundles[one.fabric][one.colour].squares
    cut = sum(
        sheet.times
        for sheet in task.bundles[one.fabric]
        if any(print_role == one.print for _, print_role in sheet.serves)
    )
    name = quoted(f"{one.fabric}.{one.print}")
    found = f"more locks of {name} than the pieces cut for it can serve in these colours"
    expected = f"what {_pieces(cut)} cut for {name} can serve, at most {_pieces(squares)} in one colour"
    return Problem(one.where, found, expected)


def _pieces(count: int) -> str:
    return f"{count} {'piece' if count == 1 else 'pieces'}"


def claim_pieces(
    task: PrintsTask, bundles: Mapping[str, Sequence[Square]], locks: Locks
) -> tuple[Claims, list[tuple[int, int]]]:
    """Take pieces for the locks one by one, and return those too that none is left for, as (place, role).

    A piece that serves a role twice serves two blocks in its colour.
    """
    claims: dict[str, list[Counter[int]]] = {
        fabric: [Counter() for _ in sheets] for fabric, sheets in task.bundles.items()
    }
    left: Counter[tuple[str, str, int, int]] = Counter()
    unit_at = {place: unit for place, unit, _, _ in task.cells}
    refused: list[tuple[int, int]] = []
    for place, index, colour in [(place, *each) for place, asked in locks.items() for each in asked.items()]:
        role = task.roles[unit_at[place]][index]
        served = (unit_at[place], role.print)
        if not left[role.fabric, *served, colour]:
            sheets, taken = task.bundles[role.fabric], claims[role.fabric]
            free = (
                kind
                for kind, sheet in enumerate(sheets)
                if served in sheet.serves and sum(taken[kind].values()) < sheet.times
            )
            kind = next(free, None)
            if kind is None or sum(each[colour] for each in taken) >= bundles[role.fabric][colour].squares:
                refused.append((place, index))
                continue
            taken[kind][colour] += 1
            for unit, number in sheets[kind].serves:
                left[role.fabric, unit, number, colour] += 1
        left[role.fabric, *served, colour] -= 1
    return claims, refused


def _roles_at(task: PrintsTask, place: int) -> dict[tuple[str, int], int]:
    unit = next((unit for index, unit, _, _ in task.cells if index == place), None)
    if unit is None:
        return {}
    return {(role.fabric, role.print): index for index, role in enumerate(task.roles[unit])}


def _no_role(lock: Lock, one: LockedPrint, roles: Mapping[tuple[str, int], int]) -> Problem:
    found = f"print {quoted(f'{one.fabric}.{one.print}')} in block {lock.block}"
    if not roles:
        return Problem(one.where, found, "a block that takes prints of a bundle")
    return Problem(one.where, found, one_of([f"{fabric}.{role}" for fabric, role in roles]))
