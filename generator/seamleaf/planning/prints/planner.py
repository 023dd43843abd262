"""The prints of a quilt, from a bundle's colours to the pieces in every block: choose, pair, lay out, hand out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from seamleaf.planning.demand import CuttingPlan
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.pressing.arrangement import B_MARK, Placed
from seamleaf.planning.print_records import LayoutNote
from seamleaf.planning.prints.annealing import anneal
from seamleaf.planning.prints.bounds import least_like_neighbours
from seamleaf.planning.prints.chance import seed_of
from seamleaf.planning.prints.choice import Choice, Kind, Square, choose, light_contrast, prints_of
from seamleaf.planning.prints.colour import Lab, lab_of
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.floor import floor_of
from seamleaf.planning.prints.grounds import Role, grounds_of
from seamleaf.planning.prints.handout import even_uses, hand_out
from seamleaf.planning.prints.objective import Objective
from seamleaf.planning.prints.pairs import Block, Print, pair_prints, print_of
from seamleaf.planning.prints.reader import lay_as_read
from seamleaf.planning.prints.report import layout_note
from seamleaf.reading.pattern import Fabric
from seamleaf.sizing import Quilt

Bundles = Mapping[str, tuple[CuttingPlan, Mapping[str, Sequence[int]]]]
"""By bundle fabric its cutting plan, whose sheets say which roles a piece serves, and the print roles of each unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintsPlan:
    """What a quilt does with the prints of its bundles."""

    prints: dict[int, tuple[int, ...]]
    """The pieces of every block, by index of its spot: fabric by fabric, role by role."""
    choices: dict[str, Choice]
    """Which colours the pieces of each bundle fabric show, and the verdict on every colour."""
    layout: LayoutNote | None
    """Nothing where no block has prints."""


def plan_prints(
    quilt: Quilt,
    fabrics: Mapping[str, Fabric],
    drafts: Mapping[str, Draft],
    placed: Mapping[int, Placed],
    bundles: Bundles,
) -> PrintsPlan:
    """Plan the prints of a quilt; the same quilt gets the same prints on every machine."""
    planner = _Planner(quilt, fabrics, drafts, placed, bundles)
    return planner.plan()


@dataclass(slots=True)
class _Planner:
    quilt: Quilt
    fabrics: Mapping[str, Fabric]
    drafts: Mapping[str, Draft]
    placed: Mapping[int, Placed]
    bundles: Bundles
    _roles: dict[str, list[Role]] = field(default_factory=dict)
    """The print roles of every block unit, fabric by fabric."""
    _grounds: dict[str, dict[Role, tuple[Lab, ...]]] = field(default_factory=dict)
    """What they are sewn to, by block unit."""
    _choices: dict[str, Choice] = field(default_factory=dict)
    _number: dict[tuple[str, int], int] = field(default_factory=dict)
    """The print of each colour, by fabric and index of the colour."""
    _prints: list[Print] = field(default_factory=list)

    def plan(self) -> PrintsPlan:
        """Choose, pair, lay out and hand out."""
        units = {block.unit for block in self.placed.values()}
        for fabric, (_, roles) in self.bundles.items():
            for unit in units & roles.keys():
                self._roles.setdefault(unit, []).extend((fabric, role) for role in roles[unit])
        self._roles = {unit: roles for unit, roles in sorted(self._roles.items()) if roles}
        for unit in self._roles:
            self._grounds[unit] = self._grounds_of(unit)
        self._choices = {fabric: self._choose(fabric, plan) for fabric, (plan, _) in self.bundles.items()}
        self._number_prints()
        prints: dict[int, tuple[int, ...]] = dict.fromkeys(self.placed, ())
        layout = self._lay_out(prints) if self._roles else None
        return PrintsPlan(prints=prints, choices=self._choices, layout=layout)

    def _grounds_of(self, unit: str) -> dict[Role, tuple[Lab, ...]]:
        twin = self._grounds.get(unit.removesuffix(B_MARK))
        if twin is not None:
            return twin
        return {
            role: tuple(lab_of(self.fabrics[ground].colours[0]) for ground in grounds)
            for role, grounds in grounds_of(unit, self.drafts).items()
        }

    # ---- choose ----

    def _choose(self, fabric: str, plan: CuttingPlan) -> Choice:
        kinds = [
            Kind(
                pieces=sheet.times,
                grounds=tuple(
                    sorted({lab for unit, role in sheet.roles for lab in self._grounds[unit].get((fabric, role), ())})
                ),
            )
            for sheet in plan.sheets
        ]
        return choose(self._squares(fabric, sum(kind.pieces for kind in kinds)), kinds)

    def _squares(self, fabric: str, need: int) -> list[Square]:
        """Return the colours with the squares of each in all the bundles that are bought: dealt round, the first first.

        Of single squares there are as many of each colour as anyone wants.
        """
        colours, pack = self.fabrics[fabric].colours, self.fabrics[fabric].pack
        bought = need * len(colours) if pack is None else -(-need // pack) * pack
        each, more = divmod(bought, len(colours))
        return [Square(lab=lab_of(colour), squares=each + (index < more)) for index, colour in enumerate(colours)]

    def _number_prints(self) -> None:
        """Give a number to each print that is used; colours that pass for each other are one, of whatever fabric.

        All colours are compared, as the choice compares them, so that a colour counts as the print that it passes for
        there, whether or not that one is used.
        """
        colours = [(fabric, colour) for fabric in self._choices for colour in range(len(self.fabrics[fabric].colours))]
        labs = [lab_of(self.fabrics[fabric].colours[colour]) for fabric, colour in colours]
        first = prints_of([Square(lab=lab) for lab in labs])
        used = {(fabric, colour) for fabric, choice in self._choices.items() for colour in choice.pieces}
        firsts = {key: index for key, index in zip(colours, first, strict=True) if key in used}
        order = {index: number for number, index in enumerate(sorted(set(firsts.values())))}
        self._number = {key: order[index] for key, index in firsts.items()}
        self._prints = [print_of(labs[index]) for index in order]

    # ---- pair and lay out ----

    def _lay_out(self, prints: dict[int, tuple[int, ...]]) -> LayoutNote:
        """Fill in the pieces of every block, and report."""
        kinds = {index: block.unit for index, block in self.placed.items() if block.unit in self._roles}
        floor, spots = floor_of(self.quilt, kinds)
        cells: dict[str, list[int]] = {}
        for number, cell in enumerate(floor.cells):
            cells.setdefault(cell.kind, []).append(number)
        blocks: list[Block] = [()] * len(spots)
        for unit, numbers in cells.items():
            for number, block in zip(numbers, self._pair(unit, len(numbers)), strict=True):
                blocks[number] = block
        contrasts = [self._contrast(floor.cells[number].kind, block) for number, block in enumerate(blocks)]
        objective = Objective(floor, blocks, self._prints, contrasts)
        pattern = self.quilt.pattern
        seed = seed_of(pattern.id, pattern.version, self.quilt.size.id)
        layout = anneal(objective, lay_as_read(objective), seed)
        blocks = [objective.looks[look].block for look in layout]
        for unit, numbers in cells.items():
            self._hand_out(unit, [spots[number] for number in numbers], [blocks[number] for number in numbers], prints)
            for number in numbers:
                blocks[number] = self._prints_of(unit, prints[spots[number]])
        return layout_note(floor, blocks, self._prints, least_like_neighbours(floor, blocks))

    def _hand_out(
        self, unit: str, spots: Sequence[int], blocks: Sequence[Block], prints: dict[int, tuple[int, ...]]
    ) -> None:
        """Give the blocks of one unit their pieces, bundle by bundle."""
        uses = self._uses(unit, len(blocks))
        for fabric in self.bundles:
            roles = [index for index, (of, _) in enumerate(self._roles[unit]) if of == fabric]
            shown = [tuple(block[role] for role in roles) for block in blocks]
            dealt = hand_out(shown, [uses[role] for role in roles], self._print_of_pieces(fabric))
            for spot, pieces in zip(spots, dealt, strict=True):
                prints[spot] += pieces

    def _prints_of(self, unit: str, pieces: Sequence[int]) -> Block:
        return tuple(
            self._print_of_pieces(fabric)[piece] for (fabric, _), piece in zip(self._roles[unit], pieces, strict=True)
        )

    def _uses(self, unit: str, blocks: int) -> list[dict[int, int]]:
        """Return for each role of a block unit how often each piece serves it."""
        uses: list[dict[int, int]] = []
        for fabric, role in self._roles[unit]:
            capacity: Counter[int] = Counter()
            others: Counter[int] = Counter()
            for piece, serves in self._pieces(fabric):
                for served in serves:
                    (capacity if served == (unit, role) else others)[piece] += 1
            uses.append(even_uses(capacity, blocks, others))
        return uses

    def _pieces(self, fabric: str) -> Iterator[tuple[int, tuple[tuple[str, int], ...]]]:
        """Yield the pieces of a bundle by number, with what each serves."""
        number = 0
        for sheet in self.bundles[fabric][0].sheets:
            for _ in range(sheet.times):
                number += 1
                yield number, sheet.roles

    def _print_of_pieces(self, fabric: str) -> dict[int, int]:
        pieces = enumerate(self._choices[fabric].pieces, 1)
        return {piece: self._number[fabric, colour] for piece, colour in pieces}

    def _pair(self, unit: str, blocks: int) -> list[Block]:
        roles: list[Counter[int]] = []
        for (fabric, _), of_role in zip(self._roles[unit], self._uses(unit, blocks), strict=True):
            shown = self._print_of_pieces(fabric)
            counts: Counter[int] = Counter()
            for piece, times in of_role.items():
                counts[shown[piece]] += times
            roles.append(counts)
        return pair_prints(roles, self._prints)

    def _contrast(self, unit: str, block: Block) -> int:
        """Return the least lightness contrast of a block's prints with what they are sewn to."""
        return min(
            (
                light_contrast(Square(lab=self._prints[number].lab), ground)
                for role, number in zip(self._roles[unit], block, strict=True)
                for ground in self._grounds[unit].get(role, ())
            ),
            default=CONVENTIONS.bold,
        )
