"""The centre as it is sewn: its places and its rows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from seamleaf.planning.diagonal import Diagonal
from seamleaf.planning.halves import is_sashed_on_point
from seamleaf.planning.pressing.plan import PressingPlan
from seamleaf.planning.records import Place, Row
from seamleaf.planning.seams import CORNER_UNIT
from seamleaf.sizing import Quilt
from seamleaf.sizing.spots import Spot

SIDE_UNIT: Final = "T1"
CLIPPED_UNIT: Final = "T3"


def block_numbers(quilt: Quilt) -> dict[int, str]:
    """Return the number of every block, row.position, by index of its place, in the order of sewing."""
    numbers: dict[int, str] = {}
    for row_number, row in enumerate(quilt.layout.rows, 1):
        blocks = [index for index in row if quilt.layout.spots[index].kind == "block"]
        numbers |= {index: f"{row_number}.{position}" for position, index in enumerate(blocks, 1)}
    return numbers


def make_places(quilt: Quilt, pressing: PressingPlan, prints: Mapping[int, tuple[int, ...]]) -> tuple[Place, ...]:
    """Return every block and triangle; blocks are numbered row.position for their pin-on labels."""
    tilt = 45 if quilt.pattern.setting.set == "on-point" else 0
    numbers = block_numbers(quilt)
    places: list[Place] = []
    for index, spot in enumerate(quilt.layout.spots):
        if index in pressing.placed:
            block, added = pressing.placed[index], pressing.added_turn.get(index, 0)
            unit, turn = block.unit, (block.turn + tilt) % 360
        else:
            unit, added, turn = triangle_unit(spot), 0, spot.turn
        places.append(
            Place(
                unit=unit,
                x=spot.x,
                y=spot.y,
                turn=turn,
                mirror=spot.mirror,
                row=spot.row,
                prints=prints.get(index, ()),
                number=numbers.get(index),
                kind=spot.kind,
                pressing_turn=added,
            )
        )
    return tuple(places)


def triangle_unit(spot: Spot) -> str:
    """Return the unit of a setting triangle."""
    return CORNER_UNIT if spot.kind == "corner" else CLIPPED_UNIT if spot.clipped else SIDE_UNIT


def make_rows(quilt: Quilt, pressing: PressingPlan) -> tuple[Row, ...]:
    """Return the rows with their items in sewing order and one direction a seam."""
    diagonal = Diagonal(quilt) if is_sashed_on_point(quilt) else None
    return tuple(
        Row(
            row=number,
            items=items,
            press=press,
            beside=diagonal.beside(number) if diagonal else None,
            left_open=diagonal.left_open(number) if diagonal else (),
        )
        for number, (items, press) in enumerate(zip(quilt.layout.rows, pressing.rows, strict=True), 1)
    )
