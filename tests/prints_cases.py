"""Random tasks of prints with random bundles: the cases on which Python and the browser must agree."""

from __future__ import annotations

import dataclasses
import random
from collections import Counter
from typing import Any, Final

from bundles_for_tests import SETS, on_point_floor, straight_floor
from seamleaf.planning.print_records import PrintsTask, RoleNote, ServeNote
from seamleaf.planning.prints import PrintsPlan, plan_squares
from seamleaf.planning.prints.choice import Square
from seamleaf.planning.prints.colour import lab_of

FLOORS: Final = (18, 32, 41, 61, (1, 1), (2, 1), (4, 5), (7, 3))
"""Blocks of an on-point set, or blocks across and down of a straight one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Case:
    """A task and the colours for it."""

    task: PrintsTask
    bundles: dict[str, list[tuple[str, int, int]]]
    """By bundle fabric its squares: colour, spread of lightness, how many."""
    grounds: dict[str, str]

    def solved(self) -> dict[str, Any]:
        """Solve the case in Python."""
        bundles = {
            fabric: [Square(lab=lab_of(colour), spread=spread, squares=many) for colour, spread, many in squares]
            for fabric, squares in self.bundles.items()
        }
        plan = plan_squares(self.task, bundles, {fabric: lab_of(colour) for fabric, colour in self.grounds.items()})
        return plain(plan)

    def as_json(self) -> dict[str, Any]:
        """Return the case for the browser."""
        return {"task": dataclasses.asdict(self.task), "bundles": self.bundles, "grounds": self.grounds}


def plain(plan: PrintsPlan) -> dict[str, Any]:
    """Return a plan as JSON has it."""
    return {
        "pieces": [[place, list(pieces)] for place, pieces in plan.prints.items()],
        "choices": {
            fabric: {"pieces": list(choice.pieces), "verdicts": [dataclasses.asdict(each) for each in choice.verdicts]}
            for fabric, choice in plan.choices.items()
        },
        "layout": plan.layout and _listed(dataclasses.asdict(plan.layout)),
    }


def _listed(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _listed(each) for key, each in value.items()}
    return [_listed(each) for each in value] if isinstance(value, (list, tuple)) else value


def case_of(seed: int) -> Case:
    """Return the case of a seed: one or two kinds of blocks, one or two bundles, one to three print roles."""
    chance = random.Random(seed)
    size = FLOORS[seed % len(FLOORS)]
    floor = on_point_floor(*SETS[size]) if isinstance(size, int) else straight_floor(*size)
    units = ["star", "claw.B"][: chance.choice([1, 1, 2])]
    fabrics = ["bright", "dusk"][: chance.choice([1, 1, 2])]
    sashed = chance.random() < 0.2
    cells = tuple(
        (number + 3, units[(cell.column + cell.line) % len(units)], cell.column, cell.line)
        for number, cell in enumerate(floor.cells)
        if sashed or chance.random() < 0.97 or number == 0
    )
    grounds = {name: f"#{chance.randrange(1 << 24):06x}" for name in ("ground", "edge")}
    copies = Counter(unit for _, unit, _, _ in cells)
    units = [unit for unit in units if copies[unit]]
    roles = {
        unit: tuple(
            RoleNote(
                fabric=fabric,
                print=role,
                grounds=tuple(name for name in grounds if chance.random() < 0.6),
            )
            for fabric in fabrics
            for role in range(1, chance.choice([2, 3, 4]))
        )
        for unit in units
    }
    sheets: dict[str, tuple[ServeNote, ...]] = {}
    for fabric in fabrics:
        of_fabric = [(unit, role.print) for unit in units for role in roles[unit] if role.fabric == fabric]
        served: list[ServeNote] = []
        while of_fabric:
            together = [of_fabric.pop(0) for _ in range(min(len(of_fabric), chance.choice([1, 1, 2])))]
            most = max(copies[unit] for unit, _ in together)
            # A piece serves no more roles of a block than there are such blocks, or one block would get it twice.
            often = min(copies[unit] // sum(other == unit for other, _ in together) for unit, _ in together)
            if not often:
                of_fabric.insert(0, together.pop())
                often = min(copies[unit] for unit, _ in together)
            again = max(1, min(chance.choice([1, 1, 2, 3]), often))
            serves = tuple(each for each in together for _ in range(again))
            served.append(ServeNote(times=-(-most // again), serves=serves))
        sheets[fabric] = tuple(served)
    task = PrintsTask(
        seed=chance.randrange(1, 1 << 32),
        on_point=isinstance(size, int),
        step=2 if sashed else 1,
        wide=floor.wide,
        high=floor.high,
        cells=cells,
        roles=roles,
        bundles=sheets,
    )
    bundles = {
        fabric: _squares(chance, sum(sheet.times for sheet in of_fabric)) for fabric, of_fabric in sheets.items()
    }
    return Case(task=task, bundles=bundles, grounds=grounds)


def _squares(chance: random.Random, need: int) -> list[tuple[str, int, int]]:
    """Return squares, enough of them: some pass for each other, some are printed light and dark, some come often."""
    colours: list[str] = []
    for _ in range(chance.randint(1, 42)):
        near = int(chance.choice(colours)[1:], 16) ^ 0x010201 if colours and chance.random() < 0.15 else None
        colours.append(f"#{chance.randrange(1 << 24) if near is None else near:06x}")
    each = -(-need // len(colours))
    spread = chance.random() < 0.5
    return [
        (colour, chance.randrange(30_00) if spread else 0, each + chance.choice([0, 0, 0, 1])) for colour in colours
    ]
