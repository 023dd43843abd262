"""The finishing pages: borders in sewing order, back, batting and binding."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import BorderNote, InsertNote
from seamleaf.publishing.patch_view import PatchView, patch_views
from seamleaf.publishing.piecing_view import PressView, press_views
from seamleaf.publishing.pointer import pointer

Corner = Literal["butted", "mitred", "cornerstone"]

_PLACES: Final = {"sides": ("left", "middle", "right"), "ends": ("top", "middle", "bottom")}


@dataclass(frozen=True, slots=True, kw_only=True)
class StripView:
    """The unit that two opposite strips of a pieced border are."""

    id: str
    units: str
    """Pointer to how many of the repeated unit it takes."""
    spacer: PatchView | None
    """What stands at both of its ends, if the units do not come out even."""
    trimmed: bool
    """Whether the spacers are cut up to the ruler, and the strip is trimmed."""
    press: tuple[PressView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PairView:
    """Two strips of one length, on opposite edges."""

    at: str
    """Pointer of the first of the two."""
    key: str
    """``sides`` or ``ends``."""
    places: tuple[str, ...]
    """Where to measure: keys below ``finish.``."""
    label: str
    """Of the two, if each is cut along the fabric in one piece."""
    strip: StripView | None
    """What they are sewn of in a pieced border."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BorderView:
    """One border, its pairs of strips in sewing order."""

    at: str
    key: str
    """What the figure of this border is filed under."""
    letter: str
    """Nothing for a pieced border."""
    label: str
    """Of the strips that are joined; nothing where each is cut in one piece, or pieced."""
    whole: bool
    """Whether several strips give all four sides as they are, so that none need be joined."""
    unit: str
    """The unit that a pieced border repeats."""
    corner: Corner
    stone: PatchView | None
    """The patch of the cornerstones, if it has some."""
    pairs: tuple[PairView, ...]
    together: Literal["no", "inner", "outer"]
    """Whether it is mitred as one with others: ``outer`` for the last of them, with which all are sewn on."""
    measured: bool
    """Whether the quilt is measured for it: what is mitred as one is measured once, for the first of them."""
    numbers: tuple[str, ...]
    """Pointers of the numbers of those borders."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """Leftovers of one size in the strip of the back."""

    at: str
    letter: str
    spare: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertView:
    """The strip of leftovers in the back."""

    pieces: tuple[PieceView, ...]
    joined: bool
    """Whether it has more than one piece."""
    single: bool
    """Whether it lies between two parts of a single panel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingView:
    """The finishing pages of one size."""

    borders: tuple[BorderView, ...]
    binding_letter: str | None
    binding_label: str | None
    bias: bool
    """Whether the binding is cut on the bias."""
    bias_squares: bool
    """Whether it takes several squares, whose strips are joined."""
    backing_letter: str
    backing_label: str
    panels: str
    """``one``, ``vertical`` or ``horizontal``."""
    insert: InsertView | None
    """The strip of leftovers in the back."""
    insert_failed: bool
    """Whether the pattern asks for such a strip, and no leftovers of this size give one that saves fabric."""
    package: bool
    open_seams: bool
    """Whether a seam of the centre, or of a border, is pressed open, so that nothing is quilted in it."""


def finishing_view(booklet: Booklet) -> FinishingView:
    """Return the finishing of one size."""
    letters = {fabric.id: fabric.letter for fabric in booklet.fabrics}
    binding, backing, patches = booklet.binding, booklet.backing, patch_views(booklet)
    return FinishingView(
        borders=tuple(_border(booklet, index, border, patches) for index, border in enumerate(booklet.borders)),
        binding_letter=None if binding is None else letters[binding.fabric],
        binding_label=None if binding is None else binding.label,
        bias=binding is not None and binding.cut == "bias",
        bias_squares=binding is not None and binding.cut == "bias" and binding.strips > 1,
        backing_letter=letters[backing.fabric],
        backing_label=backing.label,
        panels="one" if backing.seam == "none" else backing.seam,
        insert=None if backing.insert is None else _insert(backing.insert, letters),
        insert_failed=backing.insert_asked and backing.insert is None,
        package=booklet.batting.package is not None,
        open_seams=any(seam.press == "open" for seam in booklet.seams),
    )


def _insert(insert: InsertNote, letters: dict[str, str]) -> InsertView:
    pieces = [
        PieceView(at=pointer("backing", "insert", "pieces", index), letter=letters[piece.fabric], spare=piece.spare)
        for index, piece in enumerate(insert.pieces)
    ]
    joined = sum(piece.count for piece in insert.pieces) > 1
    return InsertView(pieces=tuple(pieces), joined=joined, single=bool(insert.parts))


def _strip(booklet: Booklet, unit_id: str | None, patches: dict[str, PatchView]) -> StripView | None:
    if unit_id is None:
        return None
    index, unit = next((i, unit) for i, unit in enumerate(booklet.units) if unit.id == unit_id)
    seams = {seam.id: seam for seam in booklet.seams}
    repeated = next(take.unit for take in unit.from_ if take.unit is not None)
    spacer = next((take.label for take in unit.from_ if take.label is not None), None)
    press = press_views(unit, [seams[seam] for seam in unit.seams])
    if len(press) > 1:  # seams between like units have no names that tell them apart
        press = (PressView(key="arrow", seams=len(unit.seams)),)
    return StripView(
        id=unit.id,
        units=pointer("units", index, "batch", repeated),
        spacer=None if spacer is None else patches[spacer],
        trimmed=unit.trim is not None,
        press=press,
    )


def _border(booklet: Booklet, index: int, border: BorderNote, patches: dict[str, PatchView]) -> BorderView:
    at = pointer("borders", index)
    letters = {fabric.id: fabric.letter for fabric in booklet.fabrics}
    pairs: dict[str, PairView] = {}
    for number, strip in enumerate(border.strips):
        key = "sides" if strip.edge in ("left", "right") else "ends"
        sewn = _strip(booklet, strip.unit, patches)
        pairs.setdefault(
            key, PairView(at=f"{at}/strips/{number}", key=key, places=_PLACES[key], label=strip.label or "", strip=sewn)
        )
    return BorderView(
        at=at,
        key=str(border.order),
        letter="" if border.fabric is None else letters[border.fabric],
        label=border.label or "",
        whole=_gives_whole_sides(booklet, border),
        unit=_repeated(booklet, border),
        corner=border.corner,
        stone=None if border.corners is None else patches[border.corners],
        pairs=tuple(pairs.values()),
        together="no" if not border.together else "outer" if border.order == border.together[-1] else "inner",
        measured=not border.together or border.order == border.together[0],
        numbers=tuple(f"{at}/together/{number}" for number in range(len(border.together))),
    )


def _gives_whole_sides(booklet: Booklet, border: BorderNote) -> bool:
    """Return whether each side comes out of one strip, though a maker's own measure be two allowances longer."""
    strip = next((patch for patch in booklet.patches if patch.label == border.label), None)
    if strip is None or border.pieces == 1:
        return False
    rests = [strip.w] * border.pieces
    for length in sorted((side.length + booklet.seam * 2 for side in border.strips), reverse=True):
        first = next((number for number, rest in enumerate(rests) if length <= rest), None)
        if first is None:
            return False
        rests[first] -= length
    return True


def _repeated(booklet: Booklet, border: BorderNote) -> str:
    """Return the unit that a pieced border repeats; nothing for one of a single fabric."""
    first = border.strips[0].unit
    takes = (take.unit for unit in booklet.units if unit.id == first for take in unit.from_)
    return next((unit for unit in takes if unit is not None), "")
