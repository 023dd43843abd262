"""Drafts to units: choose each method, count, label and measure."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import Literal

from seamleaf.lengths import Length, Measures
from seamleaf.planning.labels import Labels, PatchKey
from seamleaf.planning.piecing.drafts import Child, Draft, copies_in
from seamleaf.planning.piecing.methods import (
    Recipe,
    UnitMethod,
    geese_methods,
    geese_recipe,
    half_square_methods,
    half_square_recipe,
    makes_of,
)
from seamleaf.planning.records import Box, Outline, Region, Take, Unit
from seamleaf.reading.pattern import FabricUse, Geese, HalfSquare, Join, Patch
from seamleaf.reading.problems import PatternError, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Piecing:
    """The units of a quilt with what the cutting needs to know of them."""

    units: tuple[Unit, ...]
    drafts: dict[str, Draft]
    per_block: dict[str, Counter[str]]
    """Patches of each label in one copy of a block, by block unit."""
    names: dict[str, tuple[str, ...]]
    """By unit, the label or unit id that each index in its seams stands for."""


def piece_units(
    drafts: dict[str, Draft], blocks: Counter[str], labels: Labels, seam: Length, measures: Measures
) -> Piecing:
    """Make the units of ``blocks`` (copies by block unit id), in sewing order.

    Raises:
        PatternError: a method that the part does not know, or that does not divide the copies of one print.

    """
    inside = {block: copies_in(block, drafts) for block in blocks}
    units: list[Unit] = []
    names: dict[str, tuple[str, ...]] = {}
    problems: list[Problem] = []
    for draft in drafts.values():
        per_block = {block: copies[draft.id] for block, copies in inside.items() if copies[draft.id]}
        maker = _UnitMaker(draft, labels, seam, measures)
        try:
            unit, names[draft.id] = maker.unit(per_block)
        except PatternError as error:
            problems += error.problems
            continue
        count = sum(blocks[block] * copies for block, copies in per_block.items())
        units.append(replace(unit, count=count, batches=-(-count // unit.makes), per_block=per_block))
    if problems:
        raise PatternError(problems)
    patches = {block: _patches_in(copies, units) for block, copies in inside.items()}
    return Piecing(units=tuple(units), drafts=drafts, per_block=patches, names=names)


def _patches_in(copies: Counter[str], units: list[Unit]) -> Counter[str]:
    """Count the patches of one block, by label: whole batches, as many as its units need."""
    total: Counter[str] = Counter()
    for unit in units:
        for take in unit.from_:
            if take.label and copies[unit.id]:
                total[take.label] += -(-copies[unit.id] // unit.makes) * take.n
    return total


@dataclass(frozen=True, slots=True)
class _UnitMaker:
    draft: Draft
    labels: Labels
    seam: Length
    measures: Measures

    def unit(self, per_block: dict[str, int]) -> tuple[Unit, tuple[str, ...]]:
        """Return the unit, uncounted, and the names that its seams index."""
        match self.draft.tree:
            case HalfSquare() as part:
                method = self._method(part, half_square_methods(part), per_block, (part.first, part.second))
                return self._sewn("half-square", half_square_recipe(part, method, self.seam, self.measures))
            case Geese() as part:
                method = self._method(part, geese_methods(part), per_block, (part.goose, part.sky))
                return self._sewn("geese", geese_recipe(part, method, self.seam, self.measures))
            case Join() | Patch():
                return self._joined()
            case _:
                raise AssertionError("check_pattern refuses other parts")

    def _method(
        self,
        part: HalfSquare | Geese,
        methods: tuple[UnitMethod, ...],
        per_block: dict[str, int],
        uses: tuple[FabricUse, ...],
    ) -> UnitMethod:
        """Take the first method whose batches come out even within one block, where a print binds them to it."""
        what = "half-squares" if isinstance(part, HalfSquare) else "flying geese"
        if not methods:
            raise PatternError([Problem(part.where, f"'method: {part.method}' for {what}", "a method that they have")])
        bound = any(use.print is not None for use in uses)
        for method in methods:
            if not bound or all(copies % makes_of(method) == 0 for copies in per_block.values()):
                return method
        count = next(copies for copies in per_block.values() if copies % makes_of(methods[0]))
        found = f"'method: {methods[0]}' for {count} {what} of one print in a block"
        expected = f"a number of them that {makes_of(methods[0])} divides, or another method"
        raise PatternError([Problem(part.where, found, expected)])

    def _sewn(self, how: Literal["half-square", "geese"], recipe: Recipe) -> tuple[Unit, tuple[str, ...]]:
        takes: list[Take] = []
        labels: list[str] = []
        for piece in recipe.pieces:
            key = PatchKey(fabric=piece.use.fabric, print=piece.use.print, w=piece.w, h=piece.h, shape=piece.shape)
            label, _ = self.labels.label(key)
            labels.append(label)
            takes.append(
                Take(label=label, unit=None, n=piece.n, x=piece.x, y=piece.y, turn=piece.turn, mirror=False)
            )  # fmt: skip
        # The first piece is the first face; the others, squares that give one or two more, are all of one label.
        names = tuple(labels[min(index, 1)] for index in range(len(self.draft.faces)))
        regions = tuple(
            _region(face.use, name, face.outline) for name, face in zip(names, self.draft.faces, strict=True)
        )
        unit = self._unit(how, recipe.method, tuple(takes), regions, recipe.made)
        return replace(unit, makes=recipe.makes, trim=recipe.trim), names

    def _joined(self) -> tuple[Unit, tuple[str, ...]]:
        takes = tuple(self._take(child) for child in self.draft.children)
        bare = [take.label for take in takes if take.label]
        regions = tuple(
            _region(face.use, label, face.outline) for label, face in zip(bare, self.draft.faces, strict=True)
        )
        made = Box(w=self.draft.w + self.seam * 2, h=self.draft.h + self.seam * 2)
        how: Literal["join", "patch"] = "join" if isinstance(self.draft.tree, Join) else "patch"
        unit = self._unit(how, None, takes, regions, made)
        return unit, tuple(take.label or take.unit or "" for take in takes)

    def _take(self, child: Child) -> Take:
        label, turn = None, child.ref.turn
        if child.ref.patch:
            patch, around = child.ref.patch, self.seam * 2
            w, h = self.measures.cut_size(patch.w + around), self.measures.cut_size(patch.h + around)
            key = PatchKey(fabric=patch.use.fabric, print=patch.use.print, w=w, h=h, shape="rectangle")
            label, upended = self.labels.label(key)
            turn = 90 if upended else 0
        return Take(label=label, unit=child.ref.unit, n=1, x=child.x, y=child.y, turn=turn, mirror=False)

    def _unit(
        self,
        how: Literal["patch", "join", "half-square", "geese"],
        method: UnitMethod | None,
        takes: tuple[Take, ...],
        regions: tuple[Region, ...],
        made: Box,
    ) -> Unit:
        draft = self.draft
        zero = Length(0)
        return Unit(
            id=draft.id,
            how=how,
            method=method,
            block=draft.block,
            axis=draft.tree.axis if isinstance(draft.tree, Join) else None,
            finished=Box(w=draft.w, h=draft.h),
            outline=((zero, zero), (draft.w, zero), (draft.w, draft.h), (zero, draft.h)),
            from_=takes,
            makes=1,
            batches=0,
            count=0,
            per_block={},
            made=made,
            trim=None,
            seams=tuple(f"{draft.id}.{number}" for number in range(1, len(draft.seams) + 1)),
            regions=regions,
            symmetry=draft.symmetry,
        )


def _region(use: FabricUse, label: str, outline: Outline) -> Region:
    return Region(label=label, fabric=use.fabric, print=use.print, outline=outline)
