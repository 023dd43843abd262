"""The sewing pages: each unit with what it takes, its steps, its pressing and what it must measure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Seam, Take, Unit
from seamleaf.publishing.patch_view import PatchView, patch_views
from seamleaf.publishing.pointer import pointer

STEPS: Final[dict[tuple[str, str | None], tuple[str, ...]]] = {
    ("half-square", "two"): ("two.mark", "two.sew", "two.cut"),
    ("half-square", "four"): ("four.place", "four.cut"),
    ("half-square", "eight"): ("eight.mark", "eight.sew", "eight.cut"),
    ("half-square", "triangles"): ("triangles.place", "triangles.sew"),
    ("quarter-square", "two"): ("two.mark", "two.sew", "two.cut", "two.pair", "two.again"),
    ("quarter-square", "triangles"): ("triangles.lay", "triangles.pairs", "triangles.sew"),
    ("geese", "four"): ("four.place", "four.sew", "four.add", "four.cut"),
    ("geese", "flip"): ("flip.mark", "flip.sew", "flip.add"),
    ("geese", "triangles"): ("triangles.place", "triangles.add"),
    ("corners", "flip"): ("flip.mark", "flip.sew", "flip.add"),
    ("diamond", "triangles"): ("triangles.opposite", "triangles.others"),
    ("around", None): ("lay", "sew"),
    ("partial", None): ("half", "add", "close"),
}
"""The steps of each way of sewing; their texts stand below ``piece.<how>.`` in the wording."""

_OUTWARD: Final = ("corners", "diamond", "around", "partial")
"""Ways of sewing whose seams all go to the part that is added."""
_WAYS: Final = {("x", "before"): "left", ("x", "after"): "right", ("y", "before"): "up", ("y", "after"): "down"}


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeView:
    """A patch or unit that a batch takes."""

    n: str
    """Pointer to how many a batch takes in all."""
    name: str
    patch: PatchView | None
    """The patch, if it is one and not a unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """One part of a unit by its name."""

    name: str
    turned: bool
    """Whether it lies turned in the unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressView:
    """One sentence about pressing: a key below ``press.`` and the names that it takes."""

    key: str
    seams: int
    """How many seams it speaks of; a text chooses between one and many by it and does not show it."""
    target: str = ""
    first: str = ""
    second: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitView:
    """One unit of the sewing order."""

    at: str
    id: str
    what: str
    """Key below ``piece.what.``."""
    block: bool
    placed: bool
    """Whether it is set into the quilt itself."""
    variant: bool
    """Whether there is another unit that is sewn alike and pressed the other way."""
    takes: tuple[TakeView, ...]
    parts: tuple[PartView, ...]
    """What it takes, in the order of sewing."""
    gathered: bool
    """Whether the pieces of a batch are listed, because the steps do not name each one."""
    steps: tuple[str, ...]
    """Keys of the steps, below ``piece.``."""
    press: tuple[PressView, ...]
    single: bool
    """Whether a batch makes one unit, so that batches need no mention."""
    trimmed: bool
    nests: str | None
    """Pointer to how many match points in it nest, if it has any."""
    per_block: tuple[tuple[str, str], ...]
    """Block and pointer to how many of the unit it takes; B blocks take what A blocks do."""


def unit_views(booklet: Booklet) -> tuple[UnitView, ...]:
    """Return the units that are sewn, in sewing order."""
    reader = _Reader(booklet)
    return tuple(reader.view(i, unit) for i, unit in enumerate(booklet.units) if unit.how != "patch")


class _Reader:
    def __init__(self, booklet: Booklet) -> None:
        self.booklet = booklet
        self.patches = patch_views(booklet)
        self.units = {unit.id: unit for unit in booklet.units}
        self.placed = {place.unit for place in booklet.places}
        self.seams = {seam.id: seam for seam in booklet.seams}

    def view(self, index: int, unit: Unit) -> UnitView:
        at = pointer("units", index)
        return UnitView(
            at=at,
            id=unit.id,
            what=self._what(unit),
            block=unit.block is not None,
            placed=unit.id in self.placed,
            variant=unit.variant is not None,
            takes=self._takes(at, unit),
            parts=tuple(
                PartView(name=_name(take), turned=unit.how == "join" and take.turn != 0) for take in unit.from_
            ),
            gathered=unit.how != "join",
            steps=self._steps(unit),
            press=press_views(unit, [self.seams[seam] for seam in unit.seams]),
            single=unit.makes == 1,
            trimmed=unit.trim is not None and unit.trim != unit.made,
            nests=pointer("pressing", "inside", unit.id, "nested") if self._nests(unit) else None,
            per_block=tuple(
                (block, pointer("units", index, "per_block", block))
                for block in unit.per_block
                if block != unit.id and self.units[block].variant != "B"
            ),
        )

    def _what(self, unit: Unit) -> str:
        if unit.block is not None:
            return "block"
        return (unit.axis or "row") if unit.how == "join" else unit.how

    def _steps(self, unit: Unit) -> tuple[str, ...]:
        if unit.how == "join":
            matched = "sew-match" if self._nests(unit) else "sew"
            return (f"join.{unit.axis or 'row'}", f"join.{matched}")
        return tuple(f"{unit.how}.{step}" for step in STEPS[unit.how, unit.method])

    def _nests(self, unit: Unit) -> bool:
        nest = self.booklet.pressing.inside.get(unit.id)
        return nest is not None and nest.nested > 0

    def _takes(self, at: str, unit: Unit) -> tuple[TakeView, ...]:
        """List what a batch takes, each label and unit once."""
        return tuple(
            TakeView(n=at + pointer("batch", name), name=name, patch=self.patches.get(name)) for name in unit.batch
        )


def press_views(unit: Unit, seams: list[Seam]) -> tuple[PressView, ...]:
    """Return the sentences for the seams of one unit: one for all if they say the same, else one for each kind."""
    each = [_press(seam) for seam in seams]
    if unit.how in _OUTWARD and [view.target for view in each] == [_name(take) for take in unit.from_[1:]]:
        return (PressView(key="outward", seams=len(seams)),)
    if len({(view.key, view.target) for view in each}) == 1:
        return (replace(each[0], seams=len(seams)),)
    kinds: dict[tuple[str, str, frozenset[str]], PressView] = {}
    for seam, view in zip(seams, each, strict=True):
        kind = (view.key, view.target, frozenset((seam.first, seam.second)))
        known = kinds.get(kind)
        key = "seam" if view.key == "toward" else f"seam-{view.key}"
        kinds[kind] = (
            replace(view, key=key, first=seam.first, second=seam.second)
            if known is None
            else replace(known, seams=known.seams + 1)
        )
    return tuple(kinds.values())


def _press(seam: Seam) -> PressView:
    """Say where one seam goes: toward a name, or a direction where both sides have the same name."""
    if seam.press in ("open", "spin"):
        return PressView(key=seam.press, seams=1)
    way = _WAYS.get((seam.axis, seam.press))
    if seam.first == seam.second and way is not None:
        return PressView(key=way, seams=1)
    return PressView(key="toward", seams=1, target=seam.first if seam.press == "before" else seam.second)


def _name(take: Take) -> str:
    return take.label or take.unit or ""
