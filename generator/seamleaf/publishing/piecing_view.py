"""The sewing pages: each unit with what it takes, its steps, its pressing and what it must measure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Box, Nest, Seam, Take, Unit
from seamleaf.planning.pressing.arrangement import B_MARK
from seamleaf.publishing.cutting_view import BonusView, bonus_views
from seamleaf.publishing.patch_view import PatchView, patch_views
from seamleaf.publishing.pointer import pointer

PRESS: Final = "press"
"""Where in the steps the first seams are pressed, if not after the last of them."""
STEPS: Final[dict[tuple[str, str | None], tuple[str, ...]]] = {
    ("half-square", "two"): ("two.mark", "two.sew", "two.cut"),
    ("half-square", "four"): ("four.place", "four.cut"),
    ("half-square", "eight"): ("eight.mark", "eight.sew", "eight.cut"),
    ("half-square", "triangles"): ("triangles.place", "triangles.sew"),
    ("quarter-square", "two"): ("two.mark", "two.sew", "two.cut", PRESS, "two.pair", "two.again"),
    ("quarter-square", "triangles"): ("triangles.lay", "triangles.pairs", PRESS, "triangles.sew"),
    ("three-triangle", "two"): ("two.mark", "two.sew", "two.cut", PRESS, "two.pair", "two.again"),
    ("three-triangle", "triangles"): ("triangles.lay", "triangles.pair", PRESS, "triangles.sew"),
    ("half-rectangle", "triangles"): ("triangles.place", "triangles.tips", "triangles.sew"),
    ("geese", "four"): ("four.place", "four.sew", "four.add", "four.cut"),
    ("geese", "flip"): ("flip.mark", "flip.sew", "flip.add"),
    ("geese", "triangles"): ("triangles.place", "triangles.add"),
    ("corners", "flip"): ("flip.mark", "flip.sew", "flip.add"),
    ("diamond", "triangles"): ("triangles.opposite", "triangles.others"),
    ("strip-set", "strips"): ("sew", PRESS, "square", "cut"),
    ("around", None): ("lay", "sew"),
    ("partial", None): ("lay", "half", "add", "close"),
}
"""The steps of each way of sewing; their texts stand below ``piece.<how>.`` in the wording."""

_MOST_BOXES: Final = 60
"""As many batches have a box each on paper, two lines of them."""
_OUTWARD: Final = ("corners", "diamond", "around", "partial")
"""Ways of sewing whose seams all go to the part that is added."""
_AS_STEPPED: Final = ("join", "half-square")
"""Of patches alone, these look in the figure of their steps as they do in those of the block."""
_TRIM_BY: Final = {
    "half-square": "seam",
    "quarter-square": "cross",
    "three-triangle": "cross",
    "half-rectangle": "corners",
    "geese": "tip",
    "diamond": "points",
}
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
    mirrored: bool
    """Whether it is one of the mirrored ones."""
    where: str = ""
    """Side or corner that it is sewn to: a key below ``piece.at.``; nothing where the order tells it."""


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
class TwinView:
    """The other of an A and a B unit."""

    id: str
    variant: str
    count: str
    """Pointer to how many of it the quilt takes."""
    differs: str
    """Key below ``piece.twin.``, on the B unit only: how its own seams differ from those of the A unit."""
    seams: tuple[tuple[str, str], ...]
    """What lies on both sides of the seams that differ, if not all of them do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitView:
    """One unit of the sewing order."""

    at: str
    id: str
    variant: str
    """A or B, if there is a twin that is pressed its own way."""
    what: str
    """Key below ``piece.what.``."""
    block: bool
    shown: bool
    """Whether the figures of the block show more than those of its steps do: units, with what is sewn in them."""
    placed: bool
    """Whether it is set into the quilt itself."""
    twin: TwinView | None
    """The unit that is sewn alike and pressed its own way."""
    takes: tuple[TakeView, ...]
    parts: tuple[PartView, ...]
    """What it takes, in the order of sewing."""
    steps: tuple[str, ...]
    """Keys of the steps, below ``piece.``."""
    early_press: tuple[PressView, ...]
    """What is pressed before the last steps: a strip set before it is cut, the short seams before the long one."""
    last_steps: tuple[str, ...]
    press: tuple[PressView, ...]
    """What is pressed after all steps."""
    cut: str
    """Strip sets: pointer to the width of one sub-cut; else empty."""
    tips: str
    """Half-rectangles: pointer to how far sharp tips stick out, if they do."""
    hands: str
    """Pointer to how many of them lie mirrored, if any do."""
    single: bool
    """Whether a batch makes one unit, so that batches need no mention."""
    to_make: int
    """How many batches are counted while they are made."""
    boxes: int
    """How many boxes to tick there are on paper: one a batch, or one for every ten."""
    tens: bool
    trimmed: bool
    trim_by: str
    """Key below ``piece.trim-by.``: by what the ruler is laid; nothing where the edges are all there is to go by."""
    on_ruler: bool
    """Whether a ruler shows its size; if not, as of a square in a square in another, it is trimmed by its points."""
    inside: str | None
    """Pointer to its match points and how many of them nest, if its own seams have any."""
    nests: bool
    """Whether all of them do."""
    clashes: bool
    """Whether points of the quilt clash, and are ringed; where none do, those that do not nest lie on open seams."""
    per_block: tuple[tuple[str, str], ...]
    """Block and pointer to how many of the unit it takes; B blocks take what A blocks do."""
    per_border: tuple[str, ...]
    """Pointers to the numbers of the pieced borders that take it."""
    bonus: tuple[BonusView, ...]
    """What can be sewn from the corners that are cut off."""


def unit_views(booklet: Booklet) -> tuple[UnitView, ...]:
    """Return the units that are sewn, in sewing order; strips of pieced borders are told with their border."""
    reader = _Reader(booklet)
    strips = strips_of(booklet)
    return tuple(
        reader.view(i, unit) for i, unit in enumerate(booklet.units) if unit.how != "patch" and unit.id not in strips
    )


def strips_of(booklet: Booklet) -> frozenset[str]:
    """Return the ids of the units that are strips of pieced borders."""
    return frozenset(strip.unit for border in booklet.borders for strip in border.strips if strip.unit is not None)


class _Reader:
    def __init__(self, booklet: Booklet) -> None:
        self.booklet = booklet
        self.patches = patch_views(booklet)
        self.units = {unit.id: unit for unit in booklet.units}
        self.placed = {place.unit for place in booklet.places}
        self.seams = {seam.id: seam for seam in booklet.seams}
        self.strips = strips_of(booklet)
        self.bonus = bonus_views(booklet)

    def view(self, index: int, unit: Unit) -> UnitView:
        at = pointer("units", index)
        steps = self._steps(unit)
        press = press_views(unit, [self.seams[seam] for seam in unit.seams])
        pause = steps.index(PRESS) if PRESS in steps else len(steps)
        early = 0 if pause == len(steps) else len(press) if unit.how == "strip-set" else len(press) - 1
        return UnitView(
            at=at,
            id=unit.id,
            variant=unit.variant or "",
            what=self._what(unit),
            block=unit.block is not None,
            shown=unit.how not in _AS_STEPPED or any(take.unit is not None for take in unit.from_),
            placed=unit.id in self.placed,
            twin=self._twin(unit),
            takes=self._takes(at, unit),
            parts=_parts(unit, [self.seams[seam] for seam in unit.seams]),
            steps=steps[:pause],
            early_press=press[:early],
            last_steps=steps[pause + 1 :],
            press=press[early:],
            cut=at + pointer("made", "h" if unit.axis == "row" else "w") if unit.how == "strip-set" else "",
            tips=at + pointer("offset") if unit.offset else "",
            hands=at + pointer("mirrored") if unit.mirrored else "",
            single=unit.makes == 1 and unit.how != "strip-set",
            to_make=unit.batches,
            boxes=-(-unit.batches // 10) if unit.batches > _MOST_BOXES else unit.batches,
            tens=unit.batches > _MOST_BOXES,
            trimmed=unit.trim is not None and unit.trim != unit.made,
            trim_by=_TRIM_BY.get(unit.how, ""),
            on_ruler=all(side.is_rational for side in ((unit.trim or unit.made).w, (unit.trim or unit.made).h)),
            inside=pointer("pressing", "inside", unit.id) if self._has_own_points(unit) else None,
            nests=self._nest(unit.id).match_points == self._nest(unit.id).nested,
            clashes=self.booklet.pressing.clash > 0,
            per_block=tuple(
                (block, pointer("units", index, "per_block", block))
                for block in unit.per_block
                if block != unit.id and self.units[block].variant != "B" and block not in self.strips
            ),
            per_border=tuple(
                pointer("borders", index, "order")
                for index, border in enumerate(self.booklet.borders)
                if any(strip.unit and unit.id in self.units[strip.unit].batch for strip in border.strips)
            ),
            bonus=tuple(each for each in self.bonus if each.unit == unit.id),
        )

    def _what(self, unit: Unit) -> str:
        if unit.block is not None:
            return "block"
        return (unit.axis or "row") if unit.how == "join" else unit.how

    def _steps(self, unit: Unit) -> tuple[str, ...]:
        if unit.how == "join":
            matched = "sew-match" if self._has_own_points(unit) else "sew"
            return (f"join.{unit.axis or 'row'}", f"join.{matched}")
        steps = STEPS[unit.how, unit.method]
        if unit.how == "corners" and len(unit.from_) == 2:
            steps = steps[:-1]
        if unit.how == "half-rectangle" and not unit.offset:
            steps = (steps[0], steps[-1])
        return tuple(step if step == PRESS else f"{unit.how}.{step}" for step in steps)

    def _nest(self, unit_id: str) -> Nest:
        return self.booklet.pressing.inside.get(unit_id, Nest(match_points=0, nested=0))

    def _has_own_points(self, unit: Unit) -> bool:
        """Tell whether seams meet on the unit's own seams, not only in the units that it is sewn from."""
        inner = sum(take.n * self._nest(take.unit).match_points for take in unit.from_ if take.unit is not None)
        return self._nest(unit.id).match_points > inner

    def _twin(self, unit: Unit) -> TwinView | None:
        if unit.variant is None:
            return None
        name = unit.id + B_MARK if unit.variant == "A" else unit.id.removesuffix(B_MARK)
        index = next(index for index, each in enumerate(self.booklet.units) if each.id == name)
        other = self.booklet.units[index]
        own = [self.seams[seam] for seam in unit.seams]
        unlike = [
            (seam.first, seam.second)
            for seam, twin in zip(own, other.seams, strict=True)
            if seam.press != self.seams[twin].press
        ]
        differs = "all" if len(unlike) == len(own) else "some" if unlike else "inner"
        return TwinView(
            id=name,
            variant=other.variant or "",
            count=pointer("units", index, "count"),
            differs=differs if unit.variant == "B" else "",
            seams=tuple(dict.fromkeys(unlike)) if differs == "some" else (),
        )

    def _takes(self, at: str, unit: Unit) -> tuple[TakeView, ...]:
        """List what a batch takes, each label and unit once."""
        return tuple(
            TakeView(n=at + pointer("batch", name), name=name, patch=self.patches.get(name)) for name in unit.batch
        )


def press_views(unit: Unit, seams: list[Seam]) -> tuple[PressView, ...]:
    """Return the sentences for the seams of one unit: one for all if they say the same, else one for each kind."""
    each = [_press(seam) for seam in seams]
    if unit.how == "quarter-square":
        return _press_quarters(unit, seams)
    if unit.how == "three-triangle":
        return (*_press_short(seams[:1], [_press(seam) for seam in seams[:1]]), _press_long(seams[1]))
    if unit.how in _OUTWARD and [view.target for view in each] == [_name(take) for take in unit.from_[1:]]:
        return (PressView(key="outward", seams=len(seams)),)
    if len({(view.key, view.target) for view in each}) == 1:
        return (replace(each[0], seams=len(seams)),)
    return _by_kind(seams, each)


def _press_quarters(unit: Unit, seams: list[Seam]) -> tuple[PressView, ...]:
    """Return the sentences for a quarter-square: two short seams, then the long one between the pairs.

    The long seam is told by a patch of the half that it is pressed to, if the other half has none of this name.
    """
    *short, long = seams
    told = _press_short(short, [_press(seam) for seam in short])
    last = _press(long)
    if last.key in ("toward", "arrow"):
        top, right, bottom, left = (region.label for region in unit.regions)
        half, other = ((top, right), (bottom, left))[:: 1 if long.press == "after" else -1]
        telling = next((name for name in half if name not in other), "")
        last = replace(last, key="long" if telling else "long-arrow", target=telling)
    return (*told, last)


def _press_short(short: list[Seam], each: list[PressView]) -> tuple[PressView, ...]:
    """Return the sentences for the seams between quarters of a square."""
    alike = len({(view.key, view.target) for view in each}) == 1
    if alike and each[0].key == "toward":
        return (replace(each[0], key="short", seams=len(short)),)
    return _by_kind(short, each)


def _press_long(seam: Seam) -> PressView:
    """Return the sentence for the seam between two quarters and the half of a three-triangle square."""
    view = _press(seam)
    return replace(view, key="long-to") if view.key == "toward" else _by_kind([seam], [view])[0]


def _by_kind(seams: list[Seam], each: list[PressView]) -> tuple[PressView, ...]:
    kinds: dict[tuple[str, str, frozenset[str]], PressView] = {}
    for seam, view in zip(seams, each, strict=True):
        kind = (view.key, view.target, frozenset((seam.first, seam.second)))
        known = kinds.get(kind)
        key = "spin" if view.key == "spin" else "seam" if view.key == "toward" else f"seam-{view.key}"
        kinds[kind] = (
            replace(view, key=key, first=seam.first, second=seam.second)
            if known is None
            else replace(known, seams=known.seams + 1)
        )
    return tuple(kinds.values())


def _press(seam: Seam) -> PressView:
    """Say where one seam goes: toward a name, or a direction or an arrow where both sides have the same name."""
    if seam.press in ("open", "spin"):
        return PressView(key=seam.press, seams=1)
    if seam.first == seam.second:
        return PressView(key=_WAYS.get((seam.axis, seam.press), "arrow"), seams=1)
    return PressView(key="toward", seams=1, target=seam.first if seam.press == "before" else seam.second)


def _parts(unit: Unit, seams: list[Seam]) -> tuple[PartView, ...]:
    """Name what a unit takes in the order of sewing, each with its place where the figure's order does not tell it."""
    first, *added = unit.from_
    where = [""] * len(added)
    if unit.how in ("around", "partial") and len(seams) == len(added):
        where = [_WAYS.get((seam.axis, seam.press), "") for seam in seams]  # outward, so this is the side of the log
    elif unit.how == "corners":
        where = [_corner(take, unit.finished) for take in added]
    parts = [
        PartView(name=_name(take), turned=unit.how == "join" and take.turn != 0, mirrored=take.mirror)
        for take in (first, *added)
    ]
    return (parts[0], *(replace(part, where=place) for part, place in zip(parts[1:], where, strict=True)))


def _corner(take: Take, box: Box) -> str:
    """Tell in which corner of a unit a part lies, by its centre."""
    return f"{'top' if take.y * 2 < box.h else 'bottom'}-{'left' if take.x * 2 < box.w else 'right'}"


def _name(take: Take) -> str:
    return take.label or take.unit or ""
