"""The prints of a quilt, from a bundle's colours to the pieces in every block: choose, pair, lay out, hand out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from seamleaf.planning.memory import remembered
from seamleaf.planning.print_records import LayoutNote, PrintsTask
from seamleaf.planning.prints.annealing import anneal
from seamleaf.planning.prints.bounds import least_like_neighbours
from seamleaf.planning.prints.choice import Choice, Kind, Square, choose, light_contrast, prints_of
from seamleaf.planning.prints.colour import Lab, lab_of
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.floor import floor_of
from seamleaf.planning.prints.handout import even_uses, hand_out
from seamleaf.planning.prints.locks import Claims, Locks, locks_of
from seamleaf.planning.prints.objective import Objective
from seamleaf.planning.prints.pairs import Block, Print, pair_prints, print_of
from seamleaf.planning.prints.reader import lay_as_read
from seamleaf.planning.prints.report import layout_note
from seamleaf.reading.pattern import Fabric
from seamleaf.sizing import Quilt


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintsPlan:
    """What a quilt does with the prints of its bundles."""

    prints: dict[int, tuple[int, ...]]
    """The pieces of every block with prints, by index of its place: fabric by fabric, role by role."""
    choices: dict[str, Choice]
    """Which colours the pieces of each bundle fabric show, and the verdict on every colour."""
    layout: LayoutNote | None
    """Nothing where no block has prints."""


def plan_prints(quilt: Quilt, task: PrintsTask, fabrics: Mapping[str, Fabric]) -> PrintsPlan:
    """Plan the prints in the colours of the pattern; the same task gets the same prints on every machine.

    Raises:
        PatternError: locks that cannot be had.

    """
    bundles = {
        fabric: _squares_of(fabrics[fabric], sum(sheet.times for sheet in sheets))
        for fabric, sheets in task.bundles.items()
    }
    grounds = {fabric.id: lab_of(fabric.colours[0]) for fabric in fabrics.values() if fabric.is_yardage}
    locks, claims = locks_of(quilt, task, bundles)
    return plan_squares(task, bundles, grounds, locks, claims)


def plan_squares(
    task: PrintsTask,
    bundles: Mapping[str, Sequence[Square]],
    grounds: Mapping[str, Lab],
    locks: Locks = MappingProxyType({}),
    claims: Claims = MappingProxyType({}),
) -> PrintsPlan:
    """Plan the prints of some squares.

    Args:
        task: what they are for.
        bundles: the colours of each bundle fabric; together at least as many squares as pieces are cut.
        grounds: the colours of the other fabrics.
        locks: the blocks whose prints are decided.
        claims: the pieces that those take.

    """
    return _Planner(task, bundles, grounds, locks, claims).plan()


def _squares_of(fabric: Fabric, need: int) -> list[Square]:
    """Return the colours with the squares of each in all the bundles that are bought: dealt round, the first first.

    Of single squares there are as many of each colour as anyone wants.
    """
    colours, pack = fabric.colours, fabric.pack
    bought = need * len(colours) if pack is None else -(-need // pack) * pack
    each, more = divmod(bought, len(colours))
    return [Square(lab=lab_of(colour), squares=each + (index < more)) for index, colour in enumerate(colours)]


@dataclass(frozen=True, slots=True)
class _Found:
    """The look at each cell, as it is remembered."""

    looks: tuple[int, ...]


@dataclass(slots=True)
class _Planner:
    task: PrintsTask
    bundles: Mapping[str, Sequence[Square]]
    grounds: Mapping[str, Lab]
    locks: Locks
    claims: Claims
    _choices: dict[str, Choice] = field(default_factory=dict)
    _number: dict[tuple[str, int], int] = field(default_factory=dict)
    """The print of each colour, by fabric and index of the colour."""
    _prints: list[Print] = field(default_factory=list)
    _shown: dict[str, dict[int, int]] = field(default_factory=dict)
    """The print of each piece, by fabric."""

    def plan(self) -> PrintsPlan:
        """Choose, pair, lay out and hand out."""
        self._choices = {fabric: self._choose(fabric) for fabric in self.task.bundles}
        self._number_prints()
        prints: dict[int, tuple[int, ...]] = {place: () for place, _, _, _ in self.task.cells}
        layout = self._lay_out(prints) if self.task.cells else None
        return PrintsPlan(prints=prints, choices=self._choices, layout=layout)

    def _grounds_of(self, unit: str, fabric: str, role: int) -> set[Lab]:
        """Return the colours that a role is sewn to."""
        return {
            self.grounds[ground]
            for each in self.task.roles[unit]
            if (each.fabric, each.print) == (fabric, role)
            for ground in each.grounds
        }

    # ---- choose ----

    def _choose(self, fabric: str) -> Choice:
        kinds = [
            Kind(
                pieces=sheet.times,
                grounds=tuple(
                    sorted({lab for unit, role in sheet.serves for lab in self._grounds_of(unit, fabric, role)})
                ),
            )
            for sheet in self.task.bundles[fabric]
        ]
        return choose(self.bundles[fabric], kinds, self.claims.get(fabric, ()))

    def _number_prints(self) -> None:
        """Give a number to each print that is used; colours that pass for each other are one, of whatever fabric.

        All colours are compared, as the choice compares them, so that a colour counts as the print that it passes for
        there, whether or not that one is used.
        """
        colours = [(fabric, colour) for fabric in self._choices for colour in range(len(self.bundles[fabric]))]
        labs = [self.bundles[fabric][colour].lab for fabric, colour in colours]
        first = prints_of([Square(lab=lab) for lab in labs])
        used = {(fabric, colour) for fabric, choice in self._choices.items() for colour in choice.pieces}
        firsts = {key: index for key, index in zip(colours, first, strict=True) if key in used}
        order = {index: number for number, index in enumerate(sorted(set(firsts.values())))}
        self._number = {key: order[index] for key, index in firsts.items()}
        self._prints = [print_of(labs[index]) for index in order]
        self._shown = {
            fabric: {piece: self._number[fabric, colour] for piece, colour in enumerate(choice.pieces, 1)}
            for fabric, choice in self._choices.items()
        }

    # ---- pair and lay out ----

    def _lay_out(self, prints: dict[int, tuple[int, ...]]) -> LayoutNote:
        """Fill in the pieces of every block, and report."""
        floor, places = floor_of(self.task), [place for place, _, _, _ in self.task.cells]
        cells: dict[str, list[int]] = {}
        for number, cell in enumerate(floor.cells):
            cells.setdefault(cell.kind, []).append(number)
        blocks: list[Block] = [()] * len(places)
        locked = [number for number, place in enumerate(places) if place in self.locks]
        for unit, numbers in cells.items():
            held = [number for number in numbers if number in locked]
            paired = self._pair(unit, len(numbers))
            for number, block in zip([*held, *(n for n in numbers if n not in locked)], paired, strict=True):
                blocks[number] = block
        contrasts = [self._contrast(floor.cells[number].kind, block) for number, block in enumerate(blocks)]
        objective = Objective(floor, blocks, self._prints, contrasts)
        found = remembered(
            f"prints {floor} {blocks} {self._prints} {contrasts} {self.task.seed} {locked}",
            _Found,
            lambda: _Found(tuple(anneal(objective, lay_as_read(objective, locked), self.task.seed, locked))),
        )
        blocks = [objective.looks[look].block for look in found.looks]
        for unit, numbers in cells.items():
            self._hand_out(unit, [places[number] for number in numbers], [blocks[number] for number in numbers], prints)
            for number in numbers:
                blocks[number] = self._prints_of(unit, prints[places[number]])
        return layout_note(floor, blocks, self._prints, least_like_neighbours(floor, blocks))

    def _hand_out(
        self, unit: str, places: Sequence[int], blocks: Sequence[Block], prints: dict[int, tuple[int, ...]]
    ) -> None:
        """Give the blocks of one unit their pieces, bundle by bundle."""
        uses = self._uses(unit, len(blocks))
        for fabric in self.task.bundles:
            roles = [index for index, role in enumerate(self.task.roles[unit]) if role.fabric == fabric]
            shown = [tuple(block[role] for role in roles) for block in blocks]
            dealt = hand_out(shown, [uses[role] for role in roles], self._shown[fabric])
            for place, pieces in zip(places, dealt, strict=True):
                prints[place] += pieces

    def _prints_of(self, unit: str, pieces: Sequence[int]) -> Block:
        return tuple(self._shown[role.fabric][piece] for role, piece in zip(self.task.roles[unit], pieces, strict=True))

    def _uses(self, unit: str, blocks: int) -> list[dict[int, int]]:
        """Return for each role of a block unit how often each piece serves it."""
        uses: list[dict[int, int]] = []
        for index, role in enumerate(self.task.roles[unit]):
            shown = self._shown[role.fabric]
            held = Counter(block[index] for block in self._locked_blocks(unit) if index in block)
            capacity: Counter[int] = Counter()
            others: Counter[int] = Counter()
            for piece, serves in self._pieces(role.fabric):
                for served in serves:
                    (capacity if served == (unit, role.print) else others)[piece] += 1
            uses.append(even_uses(capacity, blocks, others, shown, held))
        return uses

    def _pieces(self, fabric: str) -> Iterator[tuple[int, tuple[tuple[str, int], ...]]]:
        """Yield the pieces of a bundle by number, with what each serves."""
        number = 0
        for sheet in self.task.bundles[fabric]:
            for _ in range(sheet.times):
                number += 1
                yield number, sheet.serves

    def _locked_blocks(self, unit: str) -> list[dict[int, int]]:
        """Return the prints, by index of the role, of the locked blocks of a unit in the order of sewing."""
        roles = self.task.roles[unit]
        return [
            {role: self._number[roles[role].fabric, colour] for role, colour in sorted(self.locks[place].items())}
            for place, of, _, _ in self.task.cells
            if of == unit and place in self.locks
        ]

    def _pair(self, unit: str, blocks: int) -> list[Block]:
        """Return the blocks of a unit, the locked ones first."""
        roles: list[Counter[int]] = []
        for role, of_role in zip(self.task.roles[unit], self._uses(unit, blocks), strict=True):
            shown = self._shown[role.fabric]
            counts: Counter[int] = Counter()
            for piece, times in of_role.items():
                counts[shown[piece]] += times
            roles.append(counts)
        return pair_prints(roles, self._prints, self._locked_blocks(unit))

    def _contrast(self, unit: str, block: Block) -> int:
        """Return the least lightness contrast of a block's prints with what they are sewn to."""
        return min(
            (
                light_contrast(Square(lab=self._prints[number].lab), ground)
                for role, number in zip(self.task.roles[unit], block, strict=True)
                for ground in (self.grounds[each] for each in role.grounds)
            ),
            default=CONVENTIONS.bold,
        )
