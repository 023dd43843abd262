"""What prints are planned from, apart from the colours: the task that a quilt sets for any reader's bundle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from seamleaf.planning.demand import CuttingPlan
from seamleaf.planning.piecing.drafts import Draft
from seamleaf.planning.pressing.arrangement import B_MARK, Placed
from seamleaf.planning.print_records import PrintsTask, RoleNote, ServeNote
from seamleaf.planning.prints.chance import seed_of
from seamleaf.planning.prints.grounds import Role, grounds_of
from seamleaf.sizing import Quilt

Bundles = Mapping[str, tuple[CuttingPlan, Mapping[str, Sequence[int]]]]
"""By bundle fabric its cutting plan, whose sheets say which roles a piece serves, and the print roles of each unit."""


def task_of(
    quilt: Quilt, drafts: Mapping[str, Draft], placed: Mapping[int, Placed], bundles: Bundles
) -> PrintsTask | None:
    """Return the task of a quilt; nothing where no fabric comes from a bundle."""
    if not bundles:
        return None
    roles = _roles(drafts, {block.unit for block in placed.values()}, bundles)
    spots = quilt.layout.spots
    on_point = quilt.pattern.setting.set == "on-point"
    pitch = 2 if quilt.pattern.setting.run == "down" else 1  # blocks of a strippy set stand in every second column
    blocks = [spot for spot in spots if spot.kind == "block"]
    return PrintsTask(
        seed=seed_of(quilt.pattern.id, quilt.pattern.version, quilt.size.id),
        on_point=on_point,
        step=2 if quilt.pattern.setting.sashing and pitch == 1 else 1,
        wide=max(spot.column - spot.line if on_point else spot.column // pitch for spot in blocks),
        high=max(spot.column + spot.line if on_point else spot.line for spot in blocks),
        cells=tuple(
            (index, placed[index].unit, spots[index].column // pitch, spots[index].line)
            for row in quilt.layout.rows
            for index in row
            if index in placed and placed[index].unit in roles
        ),
        roles=roles,
        bundles={
            fabric: tuple(ServeNote(times=sheet.times, serves=sheet.roles) for sheet in plan.sheets)
            for fabric, (plan, _) in bundles.items()
        },
    )


def _roles(drafts: Mapping[str, Draft], units: set[str], bundles: Bundles) -> dict[str, tuple[RoleNote, ...]]:
    """Return the print roles of every block unit, fabric by fabric, with what they are sewn to."""
    roles: dict[str, list[Role]] = {}
    for fabric, (_, of_units) in bundles.items():
        for unit in units & of_units.keys():
            roles.setdefault(unit, []).extend((fabric, role) for role in of_units[unit])
    grounds: dict[str, dict[Role, tuple[str, ...]]] = {}
    for unit in sorted(unit for unit in roles if roles[unit]):
        twin = grounds.get(unit.removesuffix(B_MARK))
        grounds[unit] = grounds_of(unit, drafts) if twin is None else twin
    return {
        unit: tuple(RoleNote(fabric=role[0], print=role[1], grounds=of_unit.get(role, ())) for role in roles[unit])
        for unit, of_unit in grounds.items()
    }
