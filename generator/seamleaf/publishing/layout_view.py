"""The layout pages: which print goes where, what stands in each row, and how rows are pressed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Press, Row
from seamleaf.publishing.pointer import pointer
from seamleaf.publishing.print_view import Role, roles_of_blocks


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintView:
    """One print of a block: pointer to its number, and its colour."""

    at: str
    colour: str
    letter: str
    """Letter of its bundle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockView:
    """One block of the layout."""

    at: str
    unit: str
    turned: bool
    prints: tuple[PrintView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """One thing in a row: a block by its number, or a triangle, sash or cornerstone."""

    at: str
    kind: str
    press: Press | None
    """Where the seam after it goes: ``before`` to the start of the row; nothing after the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One row."""

    at: str
    key: str
    """What the figure of this row is filed under."""
    items: tuple[ItemView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutView:
    """The layout pages of one size."""

    on_point: bool
    blocks: tuple[BlockView, ...]
    roles: bool
    """Whether blocks take prints of a bundle."""
    several_bundles: bool
    """Whether a print must be told by its bundle as well as by its number."""
    mixed: bool
    """Whether there are several kinds of blocks."""
    rows: tuple[RowView, ...]
    triangles: bool
    turned: bool
    join: str
    """Key below ``layout.join-press.``."""
    points: bool
    """Whether seams meet across others at all."""
    clashes: bool
    nests: bool
    """Whether all of them nest."""


def layout_view(booklet: Booklet) -> LayoutView:
    """Return the layout of one size."""
    roles = roles_of_blocks(booklet)
    sashed = any(place.kind == "sash" for place in booklet.places)
    joins = {seam.press for seam in booklet.seams if seam.of == "rows"}
    return LayoutView(
        on_point=booklet.set.kind == "on-point",
        blocks=tuple(
            _block(booklet, index, roles)
            for row in booklet.rows
            for index in row.items
            if booklet.places[index].number is not None
        ),
        roles=any(place.prints for place in booklet.places),
        several_bundles=sum(fabric.source != "yardage" for fabric in booklet.fabrics) > 1,
        mixed=len({place.unit for place in booklet.places if place.number is not None}) > 1,
        rows=tuple(_row(booklet, index, row) for index, row in enumerate(booklet.rows)),
        triangles=booklet.set.side_triangles + booklet.set.corner_triangles > 0,
        turned=booklet.pressing.turned > 0,
        join="sashed" if sashed else next(iter(joins)) if len(joins) == 1 else "mixed",
        points=booklet.pressing.match_points > 0,
        clashes=booklet.pressing.clash > 0,
        nests=booklet.pressing.match_points > 0 and booklet.pressing.nested == booklet.pressing.match_points,
    )


def _block(booklet: Booklet, index: int, roles: Mapping[str, tuple[Role, ...]]) -> BlockView:
    at, place = pointer("places", index), booklet.places[index]
    bundles = {fabric.id: fabric for fabric in booklet.fabrics}
    return BlockView(
        at=at,
        unit=place.unit,
        turned=place.pressing_turn != 0,
        prints=tuple(
            PrintView(
                at=f"{at}/prints/{position}",
                colour=bundles[fabric].colours[(number - 1) % len(bundles[fabric].colours)],
                letter=bundles[fabric].letter,
            )
            for position, (number, (fabric, _)) in enumerate(zip(place.prints, roles.get(place.unit, ()), strict=True))
        ),
    )


def _row(booklet: Booklet, index: int, row: Row) -> RowView:
    return RowView(
        at=pointer("rows", index),
        key=str(row.row),
        items=tuple(
            ItemView(at=pointer("places", item), kind=booklet.places[item].kind, press=press)
            for item, press in zip(row.items, (*row.press, None), strict=True)
        ),
    )
