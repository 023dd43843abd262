"""The cutting pages: by fabric its sheets with what each gives, its labels, and the patches of one test block."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import FabricNote, Sheet
from seamleaf.lengths import measures_of
from seamleaf.planning.likeness import nearly_alike
from seamleaf.publishing.fabric_view import FabricView, fabric_views
from seamleaf.publishing.patch_view import PatchView, patch_views
from seamleaf.publishing.pointer import pointer
from seamleaf.publishing.print_view import roles_of_blocks

_SPARE: Final = 4
"""Fewer whole pieces than a fourth of those that are cut are for slips of the cutter: a choice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SubCutView:
    """The patches of one label that one sheet gives."""

    patch: PatchView
    n: str
    """Pointer to how many one sheet gives."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetView:
    """One way to cut a strip or a bundle piece."""

    at: str
    key: str
    """What the figure of this sheet is filed under."""
    whole: bool
    """Whether the strip is one patch, so that nothing is sub-cut."""
    panel: bool
    """Whether it is a panel of the back."""
    along: bool
    """Whether strips are cut from it along the fabric."""
    several: bool
    pieces: tuple[str, str] | None
    """Bundles: pointers to the first and the last number of the pieces that are cut so."""
    gives: tuple[SubCutView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareView:
    """What one block takes of one print: no piece that is cut need give more."""

    unit: str
    """Name of the block; the label of the patch, if it is a single one."""
    at: str
    """Pointer to the number of the print in the block."""
    patches: tuple[PatchView, ...]
    block: str
    """Under which the patches say how many one block takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricCutting:
    """Everything that is cut from one fabric."""

    fabric: FabricView
    sheets: tuple[SheetView, ...]
    patches: tuple[PatchView, ...]
    alike: tuple[tuple[str, ...], ...]
    """Labels whose sizes are easily mixed up, in groups."""
    shares: tuple[ShareView, ...]
    """Of a bundle from which more pieces, so more prints, could be cut than the plan takes."""
    fills: bool
    """Whether patches lie side by side over the whole usable width of yardage, so that none of it may be missing."""
    sideways: tuple[str, ...]
    """Where a print with an up lies on its side, by keys of the wording: in the strips of borders."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TestBlock:
    """The patches of one block, to be cut and sewn first."""

    block: str
    patches: tuple[PatchView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OffcutView:
    """Rests of one size."""

    at: str
    letter: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BonusView:
    """Half-squares from the corners that stitch and flip cuts off."""

    at: str
    unit: str
    base: str
    """Letter of the fabric whose corner is cut off."""
    corner: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingView:
    """The cutting pages of one size."""

    fabrics: tuple[FabricCutting, ...]
    tests: tuple[TestBlock, ...]
    offcuts: tuple[OffcutView, ...]
    bonus: tuple[BonusView, ...]


def cutting_view(booklet: Booklet) -> CuttingView:
    """Return the cutting of one size."""
    letters = {fabric.id: fabric.letter for fabric in booklet.fabrics}
    patches = patch_views(booklet)
    sheets = list(enumerate(booklet.cutting))
    alike = nearly_alike(booklet.patches, measures_of(booklet.unit))
    fabrics = tuple(
        FabricCutting(
            fabric=fabric,
            sheets=tuple(_sheet(i, sheet, patches) for i, sheet in sheets if sheet.fabric == fabric.id),
            patches=tuple(view for view in patches.values() if view.letter == fabric.letter),
            alike=tuple(group for group in alike if patches[group[0]].letter == fabric.letter),
            shares=_shares(booklet, note, patches),
            fills=any(_fills(sheet) for _, sheet in sheets if sheet.fabric == fabric.id and not fabric.bundle),
            sideways=_sideways(fabric, patches),
        )
        for fabric, note in zip(fabric_views(booklet), booklet.fabrics, strict=True)
    )
    offcuts = tuple(
        OffcutView(at=pointer("offcuts", index), letter=letters[offcut.fabric])
        for index, offcut in enumerate(booklet.offcuts)
    )
    return CuttingView(
        fabrics=tuple(each for each in fabrics if each.sheets or each.patches),
        tests=_tests(booklet, patches),
        offcuts=offcuts,
        bonus=bonus_views(booklet),
    )


def _fills(sheet: Sheet) -> bool:
    return bool(sheet.cuts) and any(part.x + part.w == sheet.sheet.w for part in sheet.parts)


def _sideways(fabric: FabricView, patches: dict[str, PatchView]) -> tuple[str, ...]:
    """Return where border strips lie on their side: across the fabric at two sides, along it at top and bottom."""
    strips = [each for each in patches.values() if each.letter == fabric.letter and each.shape == "strip"]
    along = [each.along for each in strips if "border" in each.uses and fabric.directional]
    return tuple(key for key, lies in (("upright-sides", False), ("upright-ends", True)) if lies in along)


def bonus_views(booklet: Booklet) -> tuple[BonusView, ...]:
    """Return what stitch and flip leaves, in sewing order."""
    letters = {view.label: view.letter for view in patch_views(booklet).values()}
    return tuple(
        BonusView(at=pointer("bonus", index), unit=each.unit, base=letters[each.base], corner=letters[each.corner])
        for index, each in enumerate(booklet.bonus)
    )


def _shares(booklet: Booklet, fabric: FabricNote, patches: dict[str, PatchView]) -> tuple[ShareView, ...]:
    """List what the blocks take of each print, where pieces that stay whole could show more prints.

    Whatever a piece serves, it gives all of it that one block takes: so any block can have a piece of its own.
    """
    roles = {
        unit: [role for role in roles if role.fabric == fabric.id] for unit, roles in roles_of_blocks(booklet).items()
    }
    placed = Counter(place.unit for place in booklet.places)
    takers = sum(placed[unit] * len(of_unit) for unit, of_unit in roles.items())
    if not isinstance(fabric.need, int) or takers <= fabric.need:
        return ()
    if fabric.left is not None and fabric.left * _SPARE < fabric.need:
        return ()
    units = {unit.id: unit for unit in booklet.units}
    return tuple(
        ShareView(
            unit=units[unit].from_[0].label or unit if units[unit].how == "patch" else unit,
            at=f"{patches[role.labels[0]].at}/print",
            patches=tuple(patches[label] for label in role.labels),
            block=unit,
        )
        for unit, of_unit in roles.items()
        if placed[unit] and units[unit].variant != "B"
        for role in of_unit
    )


def _sheet(index: int, sheet: Sheet, patches: dict[str, PatchView]) -> SheetView:
    at = pointer("cutting", index)
    first = patches[sheet.parts[0].label]
    return SheetView(
        at=at,
        key=str(index),
        whole=len(sheet.parts) == 1 and first.shape == "strip" and sheet.parts[0].w == sheet.sheet.w,
        panel="backing" in first.uses,
        along=any(patches[label].along for label in sheet.gives),
        several=sheet.times > 1,
        pieces=None if sheet.pieces is None else (f"{at}/pieces/0", f"{at}/pieces/1"),
        gives=tuple(SubCutView(patch=patches[label], n=at + pointer("gives", label)) for label in sheet.gives),
    )


def _tests(booklet: Booklet, patches: dict[str, PatchView]) -> tuple[TestBlock, ...]:
    """List one test block for each pieced block that is set into the quilt, in the order of sewing.

    A block that is only pressed another way than one before it is cut alike, and needs no test of its own.
    """
    placed = {place.unit for place in booklet.places if place.kind == "block"}
    return tuple(
        TestBlock(block=unit.id, patches=tuple(view for view in patches.values() if unit.id in view.blocks))
        for unit in booklet.units
        if unit.id in placed and unit.how != "patch" and unit.variant != "B"
    )
