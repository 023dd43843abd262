"""Handfuls in two halves: pairs of them are all the handfuls there may be, each met once."""

from __future__ import annotations

import random
from collections.abc import Iterator

import numpy as np
import pytest

from seamleaf.planning.cutting.handfuls import Columns, Lister
from seamleaf.planning.cutting.matching import LOOKED_UP, Matching
from seamleaf.planning.cutting.pricing import Ints

EQUATIONS = 3
BASIS = 2
NEEDED = 40
CLASSES = 3


def made_up(chance: random.Random) -> Columns:
    """Return up to nine columns, the cheapest first, some of them for nothing."""
    many = chance.randint(0, 9)

    def numbers(least: int, most: int, wide: int) -> Ints:
        table = [[chance.randint(least, most) for _ in range(wide)] for _ in range(many)]
        return np.array(table, dtype=np.int64).reshape(many, wide)

    costs: Ints = np.sort(numbers(0, 30, 1)[:, 0])
    entries = numbers(0, 2, EQUATIONS)
    entries[entries.sum(axis=1) == 0, 0] = 1  # whatever takes no room may be taken for ever
    uses = numbers(-5, 12, BASIS)
    # The number for the residues of all the basis tells some of them only, as it may.
    return Columns(entries.astype(np.int16), costs, numbers(1, 5, 1)[:, 0], uses[:, 0] % CLASSES, uses)


def all_handfuls(columns: Columns, most: Ints, budget: int, longest: int) -> Iterator[tuple[int, ...]]:
    """Yield them one by one, as anybody would."""

    def more(taken: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        at = list(taken)
        if columns.costs[at].sum() > budget or columns.heights[at].sum() > longest:
            return
        if (columns.entries[at].sum(axis=0) > most).any():
            return
        yield taken
        for column in range(taken[-1] + 1 if taken else len(columns.costs)):
            yield from more((*taken, column))

    yield from more(())


@pytest.mark.parametrize("listed", [3, 12, 60, 4_000])
def test_pairs_of_halves_are_all_handfuls_and_each_is_met_once(listed: int) -> None:
    wholly = cut_short = met = 0
    for number in range(80):
        chance = random.Random(number)
        columns = made_up(chance)
        most: Ints = np.array([chance.randint(1, 5) for _ in range(EQUATIONS)], dtype=np.int64)
        budget, longest = chance.randint(0, 60), chance.randint(5, 20)
        needed: Ints = np.array([NEEDED, chance.randint(0, 20)], dtype=np.int64)
        usable = (columns.entries <= most).all(axis=1)
        columns = columns.picked(np.nonzero(usable)[0])
        lister = Lister(columns, most, CLASSES, budget, longest)
        rests, starts, is_all = lister.halves(listed, 1_000_000)
        other = Lister(columns, most, CLASSES, budget, longest)
        assert other.halves(listed, 1_000_000, wholly=True)[2] is is_all
        assert other.work == lister.work if is_all else other.work < lister.work
        target = int(needed[0]) % CLASSES
        matching = Matching(columns, rests, starts, classes=CLASSES, target=target, budget=budget, needed=needed)
        plans = [(tuple(times.tolist()), tuple(sorted(taken, reverse=True))) for times, taken in matching.plans(10_000)]
        expected = {
            (tuple((left // CLASSES).tolist()), taken)
            for taken in all_handfuls(columns, 2 * most, 2 * budget, 2 * longest)
            if (left := needed - columns.uses[list(taken)].sum(axis=0)).min() >= 0 and not (left % CLASSES).any()
        }
        certain = {one for one in expected if one[1] in set(all_handfuls(columns, most, budget, longest))}
        assert matching.complete
        assert matching.work >= LOOKED_UP * len(plans)  # however few the pairs, many plans take their time
        assert len(set(plans)) == len(plans)
        assert set(plans) <= expected  # each half keeps to the limits; both together may not
        if is_all:
            assert certain <= set(plans)
        wholly, cut_short, met = wholly + is_all, cut_short + (not is_all), met + len(plans)
    assert met >= 15
    assert wholly >= (10 if listed > 3 else 1)
    assert cut_short >= (1 if listed < 60 else 0)
