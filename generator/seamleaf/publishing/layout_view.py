"""The layout pages: which print goes where, what stands in each row, and how rows are pressed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from seamleaf.booklet import Booklet
from seamleaf.booklet.prints import piece_colour
from seamleaf.booklet.record import LayoutNote, Place, Press, Row
from seamleaf.publishing.pointer import pointer
from seamleaf.publishing.print_view import Role, roles_of_blocks

Turn = Literal["", "quarter", "half", "three-quarter"]

_TURNS: Final[dict[int, Turn]] = {0: "", 90: "quarter", 180: "half", 270: "three-quarter"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintView:
    """One print of a block: pointer to its number, its colour, and the labels that are cut from it."""

    at: str
    colour: str
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockView:
    """One block of the layout."""

    at: str
    unit: str
    """Its name; the label of the patch, if it is a single one."""
    variant: str
    """A or B, for blocks that look alike and are pressed their own way."""
    turn: Turn
    """How it lies, against the figures of its block."""
    prints: tuple[PrintView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunView:
    """Neighbours in a row that are one kind of block and lie one way: the first of them, and where the last stands."""

    block: BlockView
    last: str
    """Pointer to the last of them; that of the first for a single one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """The blocks of one row in few words."""

    at: str
    runs: tuple[RunView, ...]
    to: str
    """Where they take turns: pointer to the last block of the row, up to which the runs begin anew; empty otherwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """One thing in a row: a block by its number, or a triangle, sash or cornerstone."""

    at: str
    kind: str
    label: str
    """The patch that it is, if it is a single one."""
    press: Press | None
    """Where the seam after it goes: ``before`` to the start of the row; nothing after the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One row."""

    at: str
    key: str
    """What the figure of this row is filed under."""
    items: tuple[ItemView, ...]
    beside: Literal["", "one", "both", "other"]
    """Which side triangles wait until the row is joined to the one beside it."""
    open_ends: tuple[Literal["left", "right"], ...]
    """Ends whose triangle is sewn to the row alone, its seam left open at the end."""
    next_at: str
    """The row after it."""
    like_at: str
    """The first row that is sewn just so, of others than this; on paper its figure serves both."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindView:
    """One kind of block."""

    unit: str
    """Its name; the label of the patch, if it is a single one."""
    variant: str
    at: str
    """Pointer to how many there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenView:
    """What is laid between or beside the blocks, all of one label."""

    kind: str
    label: str
    at: str
    """Pointer to how many there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutView:
    """The layout pages of one size."""

    on_point: bool
    run: Literal["across", "down"]
    """Whether rows run across, or are columns with strips between them."""
    lone: bool
    """Whether one block is the whole centre, with nothing to lay out or to join."""
    halves: bool
    """Whether the rows are joined into two halves first."""
    blocks: tuple[BlockView, ...]
    lines: tuple[LineView, ...]
    """What lies in each row, for blocks without prints."""
    roles: bool
    """Whether blocks take prints of a bundle."""
    likes: Literal["", "none", "some", "bound"]
    """Whether like prints touch, and whether some of them must; empty without prints."""
    mixed: bool
    """Whether there are several kinds of blocks."""
    kinds: tuple[KindView, ...]
    """How many there are of each kind, where there are several and the booklet counts them."""
    variants: bool
    """Whether some of them are A and B blocks, which look alike from the front."""
    between: tuple[BetweenView, ...]
    """Sashes, cornerstones and triangles."""
    rows: tuple[RowView, ...]
    triangles: bool
    long_sashes: bool
    """Whether some rows are one sash, as long as the rows of blocks beside it."""
    floats: bool
    """Whether the points of the blocks stay away from the edge."""
    edge: Literal["block", "cornerstone", "sash"]
    """What points to the edge of a set on point: blocks, outer cornerstones, or long sashes."""
    later: bool
    """Whether side triangles are sewn on only when rows are joined."""
    lie_turned: bool
    """Whether some blocks lie turned, for the design or for the pressing."""
    turned: Literal["", "quarter", "half"]
    """By how much the pressing turns blocks, so that seams nest."""
    join: str
    """Key below ``layout.join-press.``."""
    points: bool
    """Whether seams meet across others at all."""
    nests: bool
    """Whether all of them nest."""
    spins: bool
    opens: bool
    clashes: bool
    proven: bool
    """Whether no plan has fewer clashes."""


def layout_view(booklet: Booklet) -> LayoutView:
    """Return the layout of one size."""
    roles = roles_of_blocks(booklet)
    sashed = any(place.kind == "sash" for place in booklet.places)
    joins = {seam.press for seam in booklet.seams if seam.of == "rows"}
    placed = dict.fromkeys(place.unit for place in booklet.places if place.number is not None)
    pressing = booklet.pressing
    first = booklet.places[booklet.rows[0].items[0]]
    return LayoutView(
        on_point=booklet.set.kind == "on-point",
        run=booklet.set.run,
        lone=len(booklet.places) == 1,
        halves=booklet.set.half is not None,
        blocks=tuple(
            _block(booklet, index, roles)
            for row in booklet.rows
            for index in row.items
            if booklet.places[index].number is not None
        ),
        lines=tuple(
            _line(pointer("rows", index), [_block(booklet, item, roles) for item in blocks])
            for index, row in enumerate(booklet.rows)
            if (blocks := [item for item in row.items if booklet.places[item].number is not None])
        ),
        roles=any(place.prints for place in booklet.places),
        likes=_likes(booklet.layout),
        mixed=len(placed) > 1,
        kinds=_kinds(booklet, tuple(placed)),
        variants=any(unit.variant is not None for unit in booklet.units if unit.id in placed),
        between=_between(booklet),
        rows=_rows(booklet),
        long_sashes=booklet.set.run == "across"
        and any(len(row.items) == 1 and booklet.places[row.items[0]].kind == "sash" for row in booklet.rows)
        and not any(place.kind == "cornerstone" for place in booklet.places),
        floats=bool(booklet.set.float),
        triangles=booklet.set.side_triangles + booklet.set.corner_triangles > 0,
        edge=first.kind if first.kind in ("cornerstone", "sash") else "block",
        later=any(row.beside is not None for row in booklet.rows),
        lie_turned=any(_lies(booklet, place) for place in booklet.places if place.number is not None),
        turned=next(("half" if p.pressing_turn == 180 else "quarter" for p in booklet.places if p.pressing_turn), ""),
        join="sashed" if sashed else next(iter(joins)) if len(joins) == 1 else "mixed",
        points=pressing.match_points > 0,
        nests=pressing.match_points > 0 and pressing.nested == pressing.match_points,
        spins=pressing.spun > 0,
        opens=pressing.open > 0,
        clashes=pressing.clash > 0,
        proven=pressing.proven,
    )


def _likes(layout: LayoutNote | None) -> Literal["", "none", "some", "bound"]:
    if layout is None:
        return ""
    if layout.like_edge + layout.like_corner == 0:
        return "none"
    return "bound" if layout.like_bound else "some"


def _kinds(booklet: Booklet, placed: tuple[str, ...]) -> tuple[KindView, ...]:
    """List several kinds of blocks; a block that others are sewn from as well has no count of its places."""
    inner = {take.unit for unit in booklet.units for take in unit.from_}
    if len(placed) < 2 or inner & set(placed):
        return ()
    return tuple(
        KindView(
            unit=_label(booklet, unit.id) or unit.id, variant=unit.variant or "", at=pointer("units", index, "count")
        )
        for index, unit in enumerate(booklet.units)
        if unit.id in placed
    )


def _between(booklet: Booklet) -> tuple[BetweenView, ...]:
    """List what is not a block, in the order of the places; each is a unit of its own, so its count is the places'."""
    index = {unit.id: index for index, unit in enumerate(booklet.units)}
    found: dict[tuple[str, str], BetweenView] = {}
    for place in booklet.places:
        if place.kind == "block":
            continue
        kind = _kind(booklet, place)
        # Side triangles of one cut are of several shapes when blocks float.
        at = pointer("set", "side_triangles") if kind == "side" else pointer("units", index[place.unit], "count")
        found.setdefault((kind, at), BetweenView(kind=kind, label=_label(booklet, place.unit), at=at))
    return tuple(found.values())


def _kind(booklet: Booklet, place: Place) -> str:
    """Return what the pages call a place: the sashing of a strippy set is its strips."""
    return "strip" if place.kind == "sash" and booklet.set.run == "down" else place.kind


def _label(booklet: Booklet, unit_id: str) -> str:
    """Return the label of a unit that is a single patch."""
    unit = next(unit for unit in booklet.units if unit.id == unit_id)
    return unit.from_[0].label or "" if unit.how == "patch" else ""


def _lies(booklet: Booklet, place: Place) -> Turn:
    """Tell how a block lies; on point it is drawn as it lies in its row, which runs to the upper right."""
    return _TURNS[(place.turn - (45 if booklet.set.kind == "on-point" else 0)) % 360]


def _block(booklet: Booklet, index: int, roles: Mapping[str, tuple[Role, ...]]) -> BlockView:
    at, place = pointer("places", index), booklet.places[index]
    bundles = {fabric.id: fabric for fabric in booklet.fabrics}
    return BlockView(
        at=at,
        unit=_label(booklet, place.unit) or place.unit,
        variant=next(unit.variant or "" for unit in booklet.units if unit.id == place.unit),
        turn=_lies(booklet, place),
        prints=tuple(
            PrintView(
                at=f"{at}/prints/{position}",
                colour=piece_colour(bundles[role.fabric], number),
                labels=role.labels,
            )
            for position, (number, role) in enumerate(zip(place.prints, roles.get(place.unit, ()), strict=True))
        ),
    )


def _line(at: str, blocks: Sequence[BlockView]) -> LineView:
    """Tell a row in its runs; where they come again and again, those of the first time tell all."""
    kinds = [(block.unit, block.variant, block.turn) for block in blocks]
    repeats = (n for n in range(2, len(blocks) // 2 + 1) if kinds[n:] == kinds[:-n])
    once = next(repeats, len(blocks)) if len(set(kinds)) > 1 else len(blocks)
    starts = [n for n in range(once) if n == 0 or kinds[n] != kinds[n - 1]]
    return LineView(
        at=at,
        runs=tuple(RunView(block=blocks[start], last=blocks[end - 1].at) for start, end in pairwise([*starts, once])),
        to=blocks[-1].at if once < len(blocks) else "",
    )


def _rows(booklet: Booklet) -> tuple[RowView, ...]:
    first: dict[object, str] = {}
    views: list[RowView] = []
    for index, row in enumerate(booklet.rows):
        at = pointer("rows", index)
        like = first.setdefault(_sewn(booklet, row), at)
        views.append(_row(booklet, index, row, like if like != at else ""))
    return tuple(views)


def _sewn(booklet: Booklet, row: Row) -> object:
    """Return what two rows share that are sewn alike, but for the numbers of their blocks."""
    places = [booklet.places[item] for item in row.items]
    looks = tuple((place.unit, place.turn, place.mirror, tuple(place.prints)) for place in places)
    return looks, tuple(row.press), row.beside and (row.beside - row.row, len(row.left_open))


def _row(booklet: Booklet, index: int, row: Row, like_at: str) -> RowView:
    return RowView(
        at=pointer("rows", index),
        key=str(row.row),
        items=tuple(
            ItemView(
                at=pointer("places", item),
                kind=_kind(booklet, booklet.places[item]),
                label=_label(booklet, booklet.places[item].unit),
                press=press,
            )
            for item, press in zip(row.items, (*row.press, None), strict=True)
        ),
        beside=_beside(booklet, row),
        open_ends=tuple("left" if item == row.items[0] else "right" for item in row.left_open),
        next_at=pointer("rows", index + 1),
        like_at=like_at,
    )


def _beside(booklet: Booklet, row: Row) -> Literal["", "one", "both", "other"]:
    if row.beside is None:
        return ""
    waiting = sum(booklet.places[item].kind == "side" and item not in row.left_open for item in row.items)
    return "other" if row.left_open else "both" if waiting == 2 else "one"
