"""What the pages say of one label of patches, wherever it is cut or sewn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import PatchNote
from seamleaf.lengths import Length
from seamleaf.publishing.pointer import pointer

_RULER: Final = {"in": Length(24), "cm": Length(60)}
"""The longest rulers: what is longer is cut along the selvedge, not off a strip (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PatchView:
    """One label; ``at`` is its pointer, from which the templates take every number."""

    at: str
    label: str
    shape: str
    square: bool
    spare: bool
    """Whether the plan gives more than the quilt takes."""
    has_print: bool
    uses: tuple[str, ...]
    """What it is for: keys below ``use.`` in the wording, in the order of the work."""
    letter: str
    blocks: tuple[str, ...]
    """Block units that take it."""
    triangle: bool
    """Whether it is cut from squares, corner to corner."""
    units: tuple[str, ...]
    """Units that are this patch alone."""
    along: bool
    """Whether it is a strip that is cut along the fabric."""
    upright: bool
    """Whether such a strip is wider than high in the quilt, as a long sash between two rows."""

    def in_block(self, block: str) -> str:
        """Return the pointer to how many one block takes."""
        return self.at + pointer("per_block", block)


def patch_views(booklet: Booklet) -> dict[str, PatchView]:
    """Return the views of all labels, in the order of the booklet."""
    letters = {fabric.id: fabric.letter for fabric in booklet.fabrics}
    alone: dict[str, list[str]] = {}
    for unit in booklet.units:
        if unit.how == "patch" and unit.from_[0].label is not None:
            alone.setdefault(unit.from_[0].label, []).append(unit.id)
    strips = {strip.unit for border in booklet.borders for strip in border.strips if strip.unit}
    between = {place.unit for place in booklet.places if place.kind in ("sash", "cornerstone", "strip")}
    kind_of = dict.fromkeys(between, "sashing") | dict.fromkeys(strips, "border")
    along = {strip.label for border in booklet.borders for strip in border.strips}
    if booklet.binding is not None and booklet.binding.cut == "lengthwise":
        along.add(booklet.binding.label)
    long = {patch.label for patch in booklet.patches if max(patch.w, patch.h) > _RULER[booklet.unit]}
    parts = [part for sheet in booklet.cutting for part in sheet.parts if part.label in long]
    along |= {part.label for part in parts} - {part.label for part in parts if part.w >= part.h}
    return {
        patch.label: _view(
            pointer("patches", index),
            patch,
            letters,
            tuple(alone.get(patch.label, ())),
            kind_of,
            along=patch.label in along,
        )
        for index, patch in enumerate(booklet.patches)
    }


def _view(
    at: str,
    patch: PatchNote,
    letters: dict[str, str],
    units: tuple[str, ...],
    kind_of: Mapping[str, str],
    *,
    along: bool,
) -> PatchView:
    return PatchView(
        at=at,
        label=patch.label,
        shape=patch.shape,
        square=patch.w == patch.h,
        spare=patch.spare > 0,
        has_print=patch.print is not None,
        uses=_uses(patch, kind_of),
        letter=letters[patch.fabric],
        blocks=tuple(block for block, count in patch.per_block.items() if count and kind_of.get(block) != "border"),
        triangle=patch.shape in ("halved", "quartered"),
        units=units,
        along=along,
        upright=along and patch.w > patch.h,
    )


def _uses(patch: PatchNote, kind_of: Mapping[str, str]) -> tuple[str, ...]:
    """Tell apart what the format calls blocks alike: the blocks themselves, what lies between them, pieced borders."""
    if patch.use != "block":
        return (patch.use,)
    kinds = {kind_of.get(unit, "block") for unit, count in patch.per_block.items() if count}
    return tuple(kind for kind in ("block", "sashing", "border") if kind in kinds)
