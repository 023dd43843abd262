"""Signed two-colouring: give every seam class a direction so that the fewest match points clash.

Each match point asks two classes to be equal or opposite; classes with a fixed direction keep it. Components are
solved exactly by depth-first search with the cost so far as bound; a component that satisfies every point is
found without branching. Among the plans with the fewest clashes, the one against the fewest wishes is taken.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Generic, TypeVar

Key = TypeVar("Key", bound=Hashable)

WORK_LIMIT: Final = 200_000
"""Search nodes a component; a limit on work, not on time, gives the same plan on every machine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand(Generic[Key]):
    """``weight`` match points ask that direction(one) = sign * direction(other), directions being +1 or -1."""

    one: Key
    other: Key
    sign: int
    weight: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Colouring(Generic[Key]):
    """The directions, how many match points clash under them, and whether none can do better."""

    direction: dict[Key, int]
    clashes: int
    proven: bool


def colour(
    keys: Sequence[Key], demands: Sequence[Demand[Key]], fixed: Mapping[Key, int], wishes: Mapping[Key, int]
) -> Colouring[Key]:
    """Choose a direction for each key.

    Args:
        keys: every seam class, in an order that decides ties.
        demands: what the match points ask; a demand of a key on itself clashes always or never.
        fixed: directions that are given.
        wishes: preferred directions, which never cost a clash.

    """
    order = {key: index for index, key in enumerate(keys)}
    neighbours: dict[Key, list[tuple[Key, int, int]]] = defaultdict(list)
    clashes = 0
    for demand in demands:
        if demand.one == demand.other:
            clashes += demand.weight if demand.sign < 0 else 0
        elif demand.one in fixed and demand.other in fixed:
            clashes += demand.weight * (fixed[demand.one] != demand.sign * fixed[demand.other])
        else:
            neighbours[demand.one].append((demand.other, demand.sign, demand.weight))
            neighbours[demand.other].append((demand.one, demand.sign, demand.weight))
    direction = dict(fixed)
    proven = True
    for key in keys:
        if key not in direction:
            component = _component(key, neighbours, direction, order)
            found, cost, exact = _search(component, neighbours, direction, wishes)
            direction.update(found)
            clashes += cost
            proven = proven and exact
    return Colouring(direction=direction, clashes=clashes, proven=proven or clashes == 0)


def _component(
    start: Key,
    neighbours: Mapping[Key, list[tuple[Key, int, int]]],
    fixed: Mapping[Key, int],
    order: Mapping[Key, int],
) -> list[Key]:
    """Return the free keys that hang together with ``start``, breadth first, so that each but the first is bound."""
    seen, queue = {start}, [start]
    for key in queue:
        for other in sorted({each for each, _, _ in neighbours.get(key, ())}, key=order.__getitem__):
            if other not in seen and other not in fixed:
                seen.add(other)
                queue.append(other)
    return queue


def _search(
    component: list[Key],
    neighbours: Mapping[Key, list[tuple[Key, int, int]]],
    fixed: Mapping[Key, int],
    wishes: Mapping[Key, int],
) -> tuple[dict[Key, int], int, bool]:
    """Return the best directions of a component, its clashes, and whether the search was complete."""
    scale = len(component) + 1  # one clash outweighs every wish
    chosen: dict[Key, int] = {}
    best: dict[Key, int] = {}
    best_cost: int | None = None

    def options(depth: int, cost: int) -> list[tuple[int, int, int]]:
        """Return (cost, depth, value) for both directions of a key, the cheaper last, where the stack pops it."""
        key = component[depth]
        known = {other: chosen.get(other, fixed.get(other)) for other, _, _ in neighbours.get(key, ())}
        found: list[tuple[int, int, int]] = []
        for value in (-1, 1):
            clashing = sum(w for other, sign, w in neighbours.get(key, ()) if known[other] == -sign * value)
            against = wishes.get(key, value) != value
            found.append((cost + clashing * scale + against, depth, value))
        return sorted(found, key=lambda option: (-option[0], option[2]))

    stack = options(0, 0)
    nodes = 0
    while stack and (best_cost is None or nodes < WORK_LIMIT):
        cost, depth, value = stack.pop()
        nodes += 1
        if best_cost is not None and cost >= best_cost:
            continue
        for key in component[depth:]:
            chosen.pop(key, None)
        chosen[component[depth]] = value
        if depth + 1 == len(component):
            best, best_cost = dict(chosen), cost
        else:
            stack += options(depth + 1, cost)
    return best, (best_cost or 0) // scale, not stack
