"""The layout pages: which print goes where, what stands in each row, and how rows are pressed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from seamleaf.booklet import Booklet
from seamleaf.booklet.record import Place, Row
from seamleaf.publishing.pointer import pointer

_ROW_WAYS: Final = {"before": "start", "after": "end", "open": "open", "spin": "spin"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintView:
    """One print of a block: pointer to its number, and its colour."""

    at: str
    colour: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockView:
    """One block of the layout."""

    at: str
    unit: str
    turned: bool
    prints: tuple[PrintView, ...]
    blanks: tuple[None, ...]
    """One for each column of prints that this block does not fill."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """One thing in a row: a block by its number, or a triangle."""

    at: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One row; ``press`` is ``start``, ``end``, ``open``, ``spin`` or, with one way a seam, ``each``."""

    at: str
    key: str
    """What the figure of this row is filed under."""
    items: tuple[ItemView, ...]
    press: str | None
    ways: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutView:
    """The layout pages of one size."""

    on_point: bool
    blocks: tuple[BlockView, ...]
    roles: tuple[str, ...]
    """Pointers to the number of each print role."""
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
    roles: dict[int, str] = {}
    for index, patch in enumerate(booklet.patches):
        if patch.print is not None:
            roles.setdefault(patch.print, pointer("patches", index, "print"))
    joins = {seam.press for seam in booklet.seams if seam.of == "rows"}
    return LayoutView(
        on_point=booklet.set.kind == "on-point",
        blocks=tuple(
            _block(booklet, index, place, len(roles))
            for index, place in enumerate(booklet.places)
            if place.number is not None
        ),
        roles=tuple(path for _, path in sorted(roles.items())),
        rows=tuple(_row(booklet, index, row) for index, row in enumerate(booklet.rows)),
        triangles=booklet.set.side_triangles + booklet.set.corner_triangles > 0,
        turned=booklet.pressing.turned > 0,
        join=next(iter(joins)) if len(joins) == 1 else "mixed",
        points=booklet.pressing.match_points > 0,
        clashes=booklet.pressing.clash > 0,
        nests=booklet.pressing.match_points > 0 and booklet.pressing.nested == booklet.pressing.match_points,
    )


def _block(booklet: Booklet, index: int, place: Place, columns: int) -> BlockView:
    bundle = next((fabric for fabric in booklet.fabrics if fabric.source != "yardage"), None)
    at = pointer("places", index)
    return BlockView(
        at=at,
        unit=place.unit,
        turned=place.pressing_turn != 0,
        prints=tuple(
            PrintView(
                at=f"{at}/prints/{role}",
                colour=None if bundle is None else bundle.colours[(number - 1) % len(bundle.colours)],
            )
            for role, number in enumerate(place.prints)
        ),
        blanks=(None,) * (columns - len(place.prints)),
    )


def _row(booklet: Booklet, index: int, row: Row) -> RowView:
    return RowView(
        at=pointer("rows", index),
        key=str(row.row),
        items=tuple(ItemView(at=pointer("places", item), kind=_kind(booklet.places[item])) for item in row.items),
        press=_row_press(row),
        ways=row.press,
    )


def _row_press(row: Row) -> str | None:
    """Say how a row is pressed, if all its seams go the same way; ``each`` if they do not."""
    ways = set(row.press)
    if len(ways) == 1:
        return _ROW_WAYS[next(iter(ways))]
    return "each" if ways else None


def _kind(place: Place) -> str:
    return "sash" if place.kind == "block" and place.number is None else place.kind
