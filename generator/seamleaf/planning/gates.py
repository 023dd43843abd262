"""Where to stop and measure: after the first unit, each kind of block, the first row, the centre and each border.

A fault that is found at its first copy costs one copy. Sizes are unfinished, as a ruler measures from raw edge to raw
edge. A row on point has slanting ends, so only its width is told; one that runs down is told as it lies.
"""

from __future__ import annotations

from collections.abc import Sequence

from seamleaf.planning.finish_records import BorderNote
from seamleaf.planning.records import Gate, Unit
from seamleaf.sizing import Quilt
from seamleaf.sizing.spots import Spot


def plan_gates(quilt: Quilt, units: Sequence[Unit], borders: Sequence[BorderNote]) -> tuple[Gate, ...]:
    """Return the gates of a quilt in the order of the work."""
    around = quilt.pattern.seam * 2
    gates: list[Gate] = []
    first = next((unit for unit in units if unit.how != "patch" and not unit.block), None)
    for unit in units:
        if unit is first or (unit.block and unit.how != "patch"):
            size = unit.trim or unit.made
            gates.append(Gate(after="block" if unit.block else "unit", of=unit.id, w=size.w, h=size.h))
    row = _first_row(quilt)
    if row is not None:
        number, block = row
        if quilt.pattern.setting.run == "down":
            gates.append(Gate(after="row", of=str(number), w=block.w + around, h=quilt.layout.h + around))
        else:
            length = quilt.layout.w + around if quilt.pattern.setting.set == "straight" else None
            gates.append(Gate(after="row", of=str(number), w=length, h=block.h + around))
    gates.append(Gate(after="centre", of="centre", w=quilt.layout.w + around, h=quilt.layout.h + around))
    gates += (
        Gate(after="border", of=str(border.order), w=border.after.w + around, h=border.after.h + around)
        for border in borders
    )
    return tuple(gates)


def _first_row(quilt: Quilt) -> tuple[int, Spot] | None:
    """Return the number of the first row of several pieces that holds a block, and that block."""
    for number, items in enumerate(quilt.layout.rows, 1):
        spots = [quilt.layout.spots[item] for item in items]
        block = next((spot for spot in spots if spot.kind == "block"), None)
        if block is not None and len(spots) > 1:
            return number, block
    return None
