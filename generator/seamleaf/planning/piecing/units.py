"""Drafts to units: choose each method, count, label and measure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from seamleaf.lengths import Length, Measures
from seamleaf.planning.labels import Labels, PatchKey
from seamleaf.planning.piecing.drafts import Child, Draft, copies_in
from seamleaf.planning.piecing.half_rectangles import half_rectangle_recipe
from seamleaf.planning.piecing.methods import (
    GEESE_METHODS,
    HALF_SQUARE_METHODS,
    Piece,
    Recipe,
    UnitMethod,
    corners_recipe,
    diamond_recipe,
    geese_recipe,
    half_square_recipe,
    makes_of,
    quarter_square_methods,
    quarter_square_recipe,
    three_triangle_methods,
    three_triangle_recipe,
)
from seamleaf.planning.piecing.strip_sets import StripSets, is_strip_set
from seamleaf.planning.records import Box, Region, Take, Unit
from seamleaf.reading.part_records import (
    Around,
    Broken,
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    Join,
    Partial,
    Patch,
    QuarterSquare,
    ThreeTriangle,
    UseBlock,
)
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.reading.wording import one_of

_USUAL: Final = 2
"""How many of the methods are tried where a pattern asks for none: the others it must ask for."""


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
    drafts: dict[str, Draft],
    blocks: Counter[str],
    labels: Labels,
    seam: Length,
    measures: Measures,
    usable: Mapping[str, Length],
) -> Piecing:
    """Make the units of ``blocks`` (copies by block unit id), in sewing order.

    ``blocks`` holds every block of the pattern's tiles, with 0 copies if this size has none of it: so methods, and
    with them labels, are the same in every size.

    ``usable`` is the usable width of each fabric, which no strip of a strip set exceeds.

    Raises:
        PatternError: a method that the part does not know, or that does not divide the copies of one print.

    """
    inside = {block: copies_in(block, drafts) for block in blocks}
    units: list[Unit] = []
    names: dict[str, tuple[str, ...]] = {}
    problems: list[Problem] = []
    counts = {id_: sum(blocks[block] * copies[id_] for block, copies in inside.items()) for id_ in drafts}
    strips = StripSets(usable=usable, counts=counts, labels=labels, seam=seam, measures=measures)
    for draft in drafts.values():
        strips.most[draft.tree] = max(strips.most[draft.tree], counts[draft.id])
    for draft in drafts.values():
        in_tiles = {block: copies[draft.id] for block, copies in inside.items() if copies[draft.id]}
        per_block = {block: copies for block, copies in in_tiles.items() if blocks[block]}
        maker = _UnitMaker(draft, labels, seam, measures, strips)
        try:
            unit, names[draft.id] = maker.unit(in_tiles)
        except PatternError as error:
            problems += error.problems
            continue
        count = counts[draft.id]
        mirrored = count // 2 if draft.paired else 0
        batches = -(-count // unit.makes)
        units.append(replace(unit, count=count, mirrored=mirrored, batches=batches, per_block=per_block))
    if problems:
        raise PatternError(problems)
    patches = {block: _patches_in(copies, units) for block, copies in inside.items() if blocks[block]}
    return Piecing(units=tuple(units), drafts=drafts, per_block=patches, names=names)


def _patches_in(copies: Counter[str], units: list[Unit]) -> Counter[str]:
    """Count the patches of one block, by label: whole batches, as many as its units need."""
    total: Counter[str] = Counter()
    for unit in units:
        for take in unit.from_:
            if take.label and copies[unit.id]:
                total[take.label] += -(-copies[unit.id] // unit.makes) * take.n
    return total


def batch_of(takes: Sequence[Take]) -> dict[str, int]:
    """Return what one batch takes in all, in the order of first use."""
    total: Counter[str] = Counter()
    for take in takes:
        total[take.label or take.unit or ""] += take.n
    return dict(total)


How = Literal[
    "patch",
    "join",
    "half-square",
    "quarter-square",
    "three-triangle",
    "half-rectangle",
    "geese",
    "corners",
    "diamond",
    "around",
    "partial",
    "strip-set",
]


@dataclass(frozen=True, slots=True)
class _UnitMaker:
    draft: Draft
    labels: Labels
    seam: Length
    measures: Measures
    strips: StripSets

    def unit(self, per_block: dict[str, int]) -> tuple[Unit, tuple[str, ...]]:
        """Return the unit, uncounted, and the names that its seams index."""
        seam, measures = self.seam, self.measures
        match self.draft.tree:
            case HalfSquare() as part:
                uses = (part.first, part.second)
                method = self._method(part, "half-squares", HALF_SQUARE_METHODS, per_block, uses)
                return self._unit("half-square", half_square_recipe(part, method, seam, measures))
            case QuarterSquare() as part:
                method = self._method(part, "quarter-squares", quarter_square_methods(part), per_block, part.uses)
                return self._unit("quarter-square", quarter_square_recipe(part, method, seam, measures))
            case HalfRectangle() as part:
                return self._unit("half-rectangle", half_rectangle_recipe(part, seam, measures))
            case ThreeTriangle() as part:
                method = self._three_triangle_method(part, per_block)
                return self._unit("three-triangle", three_triangle_recipe(part, method, seam, measures))
            case Geese() as part:
                uses = (part.goose, part.sky)
                method = self._method(part, "flying geese", GEESE_METHODS, per_block, uses)
                return self._unit("geese", geese_recipe(part, method, seam, measures))
            case Corners() as part:
                return self._unit("corners", corners_recipe(part, seam))
            case Diamond() as part:
                return self._unit("diamond", diamond_recipe(part, seam, measures))
            case Join():
                return self._unit("strip-set" if is_strip_set(self.draft) else "join", None)
            case Around() | Partial() as part:
                return self._unit("around" if isinstance(part, Around) else "partial", None)
            case Patch():
                return self._unit("patch", None)
            case UseBlock() | Broken():
                raise AssertionError("uses are expanded, and check_pattern refuses what is broken")

    def _method(
        self,
        part: HalfSquare | QuarterSquare | ThreeTriangle | Geese,
        what: str,
        known: tuple[UnitMethod, ...],
        per_block: dict[str, int],
        uses: tuple[FabricUse, ...],
    ) -> UnitMethod:
        """Take the first method whose batches come out even within one block, where a print binds them to it."""
        if part.method is not None and part.method not in known:
            raise PatternError([Problem(part.where, f"'method: {part.method}' for {what}", one_of(known))])
        methods = known[:_USUAL] if part.method is None else [method for method in known if method == part.method]
        bound = any(use.print is not None for use in uses)
        for method in methods:
            if not bound or all(copies % makes_of(part, method) == 0 for copies in per_block.values()):
                return method
        makes = makes_of(part, methods[0])
        count = next(copies for copies in per_block.values() if copies % makes)
        found = f"'method: {methods[0]}' for {count} {what} of one print in a block"
        expected = f"a number of them that {makes} divides, or another method"
        raise PatternError([Problem(part.where, found, expected)])

    def _three_triangle_method(self, part: ThreeTriangle, per_block: dict[str, int]) -> UnitMethod:
        known = three_triangle_methods(part, paired=self.draft.paired)
        if part.method == "two" and "two" not in known:
            found = "'method: two' for three-triangle squares without as many mirrored ones in each block"
            expected = "as many of one hand as of the other, or 'method: triangles'"
            raise PatternError([Problem(part.where, found, expected)])
        return self._method(part, "three-triangle squares", known, per_block, (part.half, part.right, part.bottom))

    def _unit(self, how: How, recipe: Recipe | None) -> tuple[Unit, tuple[str, ...]]:
        """Return the unit and the names of its children and own faces, which its seams index."""
        draft, zero, around = self.draft, Length(0), self.seam * 2
        over = self._over()
        strip_set = self.strips.plan(draft) if is_strip_set(draft) else None
        takes = list(strip_set.takes) if strip_set else [self._child_take(child) for child in draft.children]
        names = [take.label or take.unit or "" for take in takes]
        faces = [take.label for take in takes if take.label]
        if recipe:
            pieces = [self._piece_take(piece) for piece in recipe.pieces]
            takes += pieces
            own = [pieces[index].label or "" for index in recipe.piece_of_face]
            names += own
            faces += own
        unit = Unit(
            id=draft.id,
            how=how,
            method=recipe.method if recipe else "strips" if strip_set else None,
            block=draft.block,
            variant=draft.variant,
            axis=draft.tree.axis if isinstance(draft.tree, Join) else None,
            finished=Box(w=draft.w, h=draft.h),
            outline=((zero, zero), (draft.w, zero), (draft.w, draft.h), (zero, draft.h)),
            from_=tuple(takes),
            batch=batch_of(takes),
            makes=recipe.makes if recipe else strip_set.makes if strip_set else 1,
            batches=0,
            count=0,
            per_block={},
            made=recipe.made if recipe else Box(w=draft.w + over + around, h=draft.h + around),
            trim=recipe.trim if recipe else Box(w=draft.w + around, h=draft.h + around) if over else None,
            offset=recipe.offset if recipe else None,
            seams=tuple(f"{draft.id}.{number}" for number in range(1, len(draft.seams) + 1)),
            regions=tuple(
                Region(label=label, fabric=face.use.fabric, print=face.use.print, outline=face.outline)
                for label, face in zip(faces, draft.faces, strict=True)
            ),
            symmetry=draft.symmetry,
            lies=draft.lies,
        )
        return unit, tuple(names)

    def _over(self) -> Length:
        """Return by how much a strip of a pieced border comes out too long: its spacers are cut up to the grid."""
        spacers = [child.ref.patch for child in self.draft.children if child.ref.patch and child.ref.patch.own]
        exact = [patch.w + self.seam * 2 for patch in spacers]
        return sum((self.measures.cut_size(each) - each for each in exact), Length(0))

    def _child_take(self, child: Child) -> Take:
        label, turn = None, child.ref.turn
        if child.ref.patch:
            patch, around = child.ref.patch, self.seam * 2
            w, h = self.measures.cut_size(patch.w + around), self.measures.cut_size(patch.h + around)
            key = PatchKey(fabric=patch.use.fabric, print=patch.use.print, w=w, h=h, shape="rectangle", own=patch.own)
            label, upended = self.labels.label(key)
            turn += 90 if upended else 0
        return Take(label=label, unit=child.ref.unit, n=1, x=child.x, y=child.y, turn=turn, mirror=child.ref.mirror)

    def _piece_take(self, piece: Piece) -> Take:
        key = PatchKey(fabric=piece.use.fabric, print=piece.use.print, w=piece.w, h=piece.h, shape=piece.shape)
        label, upended = self.labels.label(key)
        turn = piece.turn + (90 if upended else 0)
        return Take(label=label, unit=None, n=piece.n, x=piece.x, y=piece.y, turn=turn, mirror=False)
