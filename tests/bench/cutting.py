"""How frugal the yardage plans are, and how long they take: side by side with what others do.

    python tests/bench/cutting.py [RANDOM DEMANDS]

For every yardage fabric of the demo patterns, for textbook instances and for two families of random demands (500 of
each unless told) of up to 15 sizes and 400 pieces, one of sizes without rhyme or reason, one of sizes as quilts ask for
them: our plan and its proven bound, first fit by decreasing height, the packer of ``rectpack``
(which turns all patches or none, and whose layouts nobody has checked for cuts from edge to edge; one random demand in
25 is given to it),
and the bound of the linear program. Seconds are of the processor, so that a busy machine does not spoil them.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from rectpack import GuillotineBssfSas, PackingMode, newPacker

from seamleaf.lengths import INCHES, Length, Measures
from seamleaf.planning import fabrics
from seamleaf.planning.cutting import plan_yardage
from seamleaf.planning.cutting.firstfit import LAYS, lay_as_asked, plan_by_label, plan_first_fit, total_height
from seamleaf.planning.cutting.frugal import _Hunt
from seamleaf.planning.cutting.kinds import area_of, kinds_of
from seamleaf.planning.cutting.pricing import Model
from seamleaf.planning.cutting.scale import Scale
from seamleaf.planning.demand import Demand, Search
from seamleaf.site.work.pipeline import plan

PATTERNS = Path(__file__).parents[2] / "patterns"
RANDOM = 500
PACKED_OF_RANDOM = 25
PACKED_MOST = 1000
"""More patches than this take the packer minutes."""

TEXTBOOK = {
    # Chvatal, Linear Programming, 1983, ch. 13, via the NEOS Guide: 452.25 by fractions, 453 rolls.
    "roll, Chvatal": (100, [(45, 1, 97), (36, 1, 610), (31, 1, 395), (14, 1, 211)]),
    # Pieces of Christofides and Whitlock, Oper. Res. 25, 1977, 30-44 (OR-Library cgcut1), each as often as it allows,
    # in strips across 15; the published optimum is of value on a sheet, so only the sizes are theirs.
    "cgcut1, as strips": (15, [(8, 4, 2), (3, 7, 1), (8, 2, 3), (3, 4, 5), (3, 3, 2), (3, 2, 2), (2, 1, 1)]),
}


@dataclass(frozen=True, slots=True)
class Result:
    """One line of the table, in units of the pattern."""

    name: str
    patches: int
    need: Fraction
    bound: Fraction
    program: Fraction
    first_fit: Fraction
    packed: Fraction | None
    highest: Fraction
    """Height of the highest strip of the plan."""
    widths: int
    """Different strip widths."""
    settings: int
    """How often the ruler is set anew: different sides of the patches of a sheet, added up over the sheets."""
    seconds: float


def measured(name: str, demands: Sequence[Demand], usable: Length, packs: bool) -> Result:
    """Plan one fabric in every way."""
    start = time.process_time()
    found = plan_yardage(demands, usable, INCHES)
    seconds = time.process_time() - start
    asked = [demand for demand in demands if demand.count]
    scale = Scale.of([usable, *(side for demand in asked for side in (demand.w, demand.h))])
    width, kinds = scale.whole(usable), kinds_of(asked, scale)
    known = [make(kinds, width, lay) for lay in LAYS for make in (plan_by_label, plan_first_fit)]
    hunt = _Hunt(Model(kinds, width), known)
    hunt.by_linear_program()
    assert isinstance(found.need, Length)
    assert isinstance(found.bound, Length)
    count = sum(kind.count for kind in kinds)
    first = total_height(plan_first_fit(kinds, width, lay_as_asked))
    packed = None
    if packs and count <= PACKED_MOST:
        rects = [(demand, scale.whole(demand.w), scale.whole(demand.h)) for demand in asked]
        turns = all(demand.may_turn for demand in asked)
        many = [(w, h) for demand, w, h in rects for _ in range(demand.count)]
        packed = Fraction(_packed(many, width, turns, -(-area_of(kinds) // width), 2 * first), scale.steps)
    return Result(
        name,
        count,
        found.need.a,
        found.bound.a,
        Fraction(hunt.bound, scale.steps),
        Fraction(first, scale.steps),
        packed,
        max(sheet.h.a for sheet in found.sheets),
        len({sheet.h for sheet in found.sheets}),
        sum(len({side for part in sheet.parts for side in (part.w, part.h)} - {sheet.h}) for sheet in found.sheets),
        seconds,
    )


def _packed(rects: Sequence[tuple[int, int]], width: int, turns: bool, low: int, high: int) -> int:
    """Return the least height, by halving, into which the packer gets all."""
    while low < high:
        height = (low + high) // 2
        packer = newPacker(mode=PackingMode.Offline, pack_algo=GuillotineBssfSas, rotation=turns)
        for w, h in rects:
            packer.add_rect(w, h)
        packer.add_bin(width, height)
        packer.pack()
        low, high = (low, height) if len(packer.rect_list()) == len(rects) else (height + 1, high)
    return low


def demo_fabrics() -> Iterator[tuple[str, Sequence[Demand], Length]]:
    """Yield what is asked of every yardage fabric of every demo pattern and size, equal demands once."""
    asked: list[tuple[Sequence[Demand], Length]] = []
    planner = fabrics.plan_yardage

    def watched(
        demands: Sequence[Demand], usable: Length, measures: Measures, *, search: Search = "thorough", **more: Any
    ) -> object:
        if search == "thorough":  # otherwise it is only a warning about other widths
            asked.append((tuple(demands), usable))
        return planner(demands, usable, measures, search=search, **more)

    fabrics.plan_yardage = watched  # type: ignore[assignment]  # it takes and gives the same
    seen = set()
    try:
        for path in sorted(PATTERNS.glob("*.yaml")):
            plan(path.read_bytes(), path.stem)
            for demands, usable in asked:
                if any(demand.count for demand in demands) and (demands, usable) not in seen:
                    seen.add((demands, usable))
                    yield f"{path.stem} {len(seen)}", demands, usable
            asked.clear()
    finally:
        fabrics.plan_yardage = planner


def random_demands(number: int) -> tuple[list[Demand], Length]:
    """Make up to 15 sizes and 400 pieces, in quarter inches, for fabric of 40, 42 or 44 in."""
    chance = random.Random(number)
    sizes = chance.randint(1, 15)
    pieces = chance.randint(sizes, 400)
    marks = sorted(chance.sample(range(1, pieces), sizes - 1)) if pieces > sizes else list(range(1, sizes))
    counts = [b - a for a, b in zip([0, *marks], [*marks, pieces], strict=True)]
    demands = [
        Demand(
            label=f"A{at}",
            w=Length(Fraction(chance.randint(6, 60), 4)),
            h=Length(Fraction(chance.randint(6, 60), 4)),
            count=count,
            may_turn=chance.random() < 0.5,
        )
        for at, count in enumerate(counts, 1)
    ]
    return demands, Length(chance.choice((40, 42, 44)))


def trade_demands(number: int) -> tuple[list[Demand], Length]:
    """Make up to 15 sizes and 400 pieces as quilts ask for them: patches on a grid, triangles' squares, border strips.

    One grid unit from 1 to 4 in a fabric; a patch is a x b units and a seam round it, a square for half-squares 7/8 in
    larger than its units, one for quarter-squares 1 1/4 in (check values of the trade's own rules).
    """
    chance = random.Random(f"trade {number}")
    unit = Fraction(chance.randint(4, 16), 4) if chance.random() < 0.5 else Fraction(chance.randint(2, 8), 2)
    usable = Length(chance.choice((40, 42, 44)))
    sizes = chance.randint(1, 15)
    pieces = chance.randint(sizes, 400)
    asked: dict[tuple[Fraction, Fraction], int] = {}
    for at in range(sizes):
        a, b = chance.randint(1, 4), chance.randint(1, 6)
        kind = chance.random()
        if kind < 0.6:
            size = a * unit + Fraction(1, 2), min(b * unit + Fraction(1, 2), usable.a)
        elif kind < 0.8:
            size = (a * unit + Fraction(7, 8),) * 2
        elif kind < 0.92:
            size = (a * unit + Fraction(5, 4),) * 2
        else:
            size = usable.a, chance.randint(1, 3) * unit + Fraction(1, 2)
        count = chance.randint(2, 8) if size[0] == usable.a else max(1, round(pieces * chance.random() * 2 / sizes))
        asked[size] = min(asked.get(size, 0) + count, 400 - sum(asked.values()) - (sizes - at - 1))
    turns = chance.random() < 0.8
    demands = [
        Demand(label=f"A{at}", w=Length(w), h=Length(h), count=count, may_turn=turns and w != usable.a)
        for at, ((w, h), count) in enumerate(asked.items(), 1)
    ]
    return demands, usable


def _told(result: Result) -> str:
    values = [result.need, result.bound, result.program, result.first_fit]
    numbers = "".join(f"{float(value):10.3f}" for value in values)
    packed = "         -" if result.packed is None else f"{float(result.packed):10.3f}"
    sign = " proven" if result.need == result.bound else f" gap {float(result.need - result.bound):.3f}"
    return f"{result.name:26}{result.patches:8}{numbers}{packed}{result.seconds:8.3f}s{sign}"


def _summed(name: str, results: Sequence[Result]) -> str:
    proven = sum(result.need == result.bound for result in results)
    within = sum(result.need - result.bound <= result.highest for result in results)
    worse = sum(result.need > result.first_fit for result in results)
    saving = statistics.mean(float(1 - result.need / result.first_fit) for result in results)
    both = [result for result in results if result.packed is not None]
    packer = statistics.mean(float(result.need / result.packed) for result in both if result.packed) if both else 1
    seconds = [result.seconds for result in results]
    return (
        f"{name}: {proven} of {len(results)} proven, gap at most one strip in {within},"
        f" longer than first fit in {worse};"
        f" {saving:.1%} saved over first fit on average; {packer:.3f} of the packer's length in {len(both)};"
        f" median {statistics.median(seconds):.3f} s, worst {max(seconds):.3f} s;"
        f" {sum(result.widths for result in results)} strip widths,"
        f" {sum(result.settings for result in results)} settings of the ruler"
    )


def main() -> None:
    """Print the table."""
    print(f"{'':26}{'patches':>8}{'plan':>10}{'bound':>10}{'lp':>10}{'first fit':>10}{'packer':>10}{'time':>9}")
    demo = []
    for name, demands, usable in demo_fabrics():
        demo.append(measured(name, demands, usable, packs=True))
        print(_told(demo[-1]), flush=True)
    for name, (usable_steps, sizes) in TEXTBOOK.items():
        demands = [
            Demand(label=f"A{at}", w=Length(w), h=Length(h), count=count, may_turn=False)
            for at, (w, h, count) in enumerate(sizes, 1)
        ]
        print(_told(measured(name, demands, Length(usable_steps), packs=True)), flush=True)
    print(_summed("demo", demo))
    number = int(sys.argv[1]) if len(sys.argv) > 1 else RANDOM
    for name, make in (("random", random_demands), ("trade", trade_demands)):
        drawn = []
        for seed in range(number):
            drawn.append(measured(f"{name} {seed}", *make(seed), packs=seed % PACKED_OF_RANDOM == 0))
            if drawn[-1].need != drawn[-1].bound or drawn[-1].packed is not None:
                print(_told(drawn[-1]), flush=True)
            if seed % 100 == 99:
                print(_summed(f"{name}, first {seed + 1}", drawn), flush=True)
        if drawn:
            print(_summed(name, drawn))


if __name__ == "__main__":
    main()
