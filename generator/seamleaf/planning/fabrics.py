"""One cutting plan a fabric: everything that the fabric gives, asked for at once, and the purchase that follows."""

from __future__ import annotations

import operator
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import CENTIMETRES, Length, Measures, say_length
from seamleaf.planning.cutting import plan_bundle, plan_yardage
from seamleaf.planning.demand import CuttingPlan, Demand, MisfitError, RoleDemand, Search
from seamleaf.planning.labels import PatchKey
from seamleaf.planning.memory import remembered
from seamleaf.planning.records import Box, Buy
from seamleaf.reading.pattern import Fabric
from seamleaf.reading.problems import PatternError, Problem

TRIANGLES_A_SQUARE: Final = {"rectangle": 1, "strip": 1, "halved": 2, "quartered": 4}

WIDTHS: Final = {"in": (40, 42, 44), "cm": (100, 105, 110)}
"""Usable widths that makers meet (common practice, no source)."""
WIDE: Final = {"in": 104, "cm": 264}
"""Usable width of fabric sold for backs: 108 in or 274 cm wide (senttijatuuma.fi), less 4 in or 10 cm (no source)."""
YARDAGE_STEP: Final = {"in": Fraction(1), "cm": Fraction(5, 2)}
PIECE_STEP: Final = {"in": Fraction(1, 4), "cm": Fraction(1, 2)}
"""By how much less fabric the plan is tried anew, in the unit of the pattern and in numbers that a ruler shows."""
SMALLER_PIECES: Final = 4
"""How many such steps, at most, the pieces of a bundle are tried smaller."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """``count`` patches of one label (triangles for cut squares), as a fabric's plan is asked for them."""

    label: str
    key: PatchKey
    count: int

    def demand(self, fabric: Fabric) -> Demand:
        """Return the rectangles to cut: for triangles the squares, rounded up."""
        each = TRIANGLES_A_SQUARE[self.key.shape]
        return Demand(
            label=self.label,
            w=self.key.w,
            h=self.key.h,
            count=-(-self.count // each),
            may_turn=not fabric.directional and self.key.shape != "strip",
            first=self.key.shape == "strip",
        )


def cut_yardage(
    fabric: Fabric,
    asked: list[Asked],
    usable: Length,
    measures: Measures,
    *,
    search: Search = "thorough",
    most: int | None = None,
    to_buy: bool = False,
) -> CuttingPlan:
    """Plan everything that one yardage fabric gives.

    Args:
        fabric: what is cut.
        asked: what it gives.
        usable: its width.
        measures: of the pattern.
        search: how long to look for less.
        most: work after which the search does not go on; ``None``: its own limit.
        to_buy: whether the plan is only for a purchase: the search ends when nothing less can be bought, and the plan
            has no sheets.

    Raises:
        PatternError: a patch is wider than the fabric.

    """
    demands = [each.demand(fabric) for each in asked]

    def bought(need: Length) -> tuple[Buy, Buy | None]:
        return purchase(fabric, need, measures), metric_purchase(fabric, need, measures)

    def bought_alike(one: Length, other: Length) -> bool:
        return bought(one) == bought(other)

    buy = f" bought with {fabric.margin} more" if to_buy else ""
    limit = "" if most is None or search == "none" else f" to {most}"
    try:
        return remembered(
            f"yardage {demands} {usable} {measures.unit} {search}{limit}{buy}",
            CuttingPlan,
            lambda: plan_yardage(
                demands,
                usable,
                measures,
                search=search,
                most=most,
                same=bought_alike if to_buy else operator.eq,
                with_sheets=not to_buy,
            ),
        )
    except MisfitError as misfit:
        raise _misfit_error(fabric, misfit, measures, "patches no wider than the usable width") from None


def cut_bundle(
    fabric: Fabric,
    blocks: Mapping[str, Counter[str]],
    copies: Counter[str],
    keys: Mapping[str, PatchKey],
    piece: Box,
    measures: Measures,
    *,
    thorough: bool = True,
) -> CuttingPlan:
    """Plan how bundle pieces give every block its prints.

    Args:
        blocks: patches in one copy of each block, by block unit and label.
        copies: how many of each block the quilt has.
        thorough: without it the search is shorter.

    Raises:
        PatternError: a print's patches of one block do not come from one piece.

    """
    demands = _role_demands(fabric, blocks, copies, keys)
    try:
        return remembered(
            f"bundle {demands} {piece} {measures.unit} {thorough}",
            CuttingPlan,
            lambda: plan_bundle(demands, piece, measures, thorough=thorough),
        )
    except MisfitError as misfit:
        sure = f"{say_length(piece.w, measures)} x {say_length(piece.h, measures)}"
        takers = " and ".join(f"'{block}'" for block, labels in blocks.items() if misfit.label in labels)
        if misfit.reason == "too large":
            found = f", for block {takers}"
            expected = f"patches that one piece of the bundle can give, {sure}"
        else:
            found = f", and others of its print for one block {takers}"
            expected = f"patches that a single piece of the bundle can give, {sure}, or more prints in the block"
        raise _misfit_error(fabric, misfit, measures, expected, found) from None


def block_roles(fabric: str, blocks: Mapping[str, Counter[str]], keys: Mapping[str, PatchKey]) -> dict[str, list[int]]:
    """Return the print roles of a fabric in each block, in order."""
    return {
        block: sorted({keys[label].print or 0 for label in labels if keys[label].fabric == fabric})
        for block, labels in blocks.items()
    }


def purchase(fabric: Fabric, need: Length | int, measures: Measures) -> Buy:
    """Round the need up to what a shop sells: yards or metres with the margin, whole packs, or single pieces."""
    if isinstance(need, Length):
        return Buy(amount=measures.purchase(need + fabric.margin), unit=measures.buy_unit)
    if fabric.pack is None:
        return Buy(amount=need, unit="piece")
    return Buy(amount=-(-need // fabric.pack), unit="pack")


def left_over(fabric: Fabric, need: Length | int) -> int | None:
    """Return how many pieces of the packs bought stay whole; ``None`` for what does not come in packs."""
    return -need % fabric.pack if isinstance(need, int) and fabric.pack else None


def short_of(fabric: Fabric, need: Length | int) -> int | None:
    """Return how many pieces one pack fewer would lack; ``None`` where a single pack is enough."""
    if not isinstance(need, int) or not fabric.pack or need <= fabric.pack:
        return None
    return (need - 1) % fabric.pack + 1


def metric_purchase(fabric: Fabric, need: Length | int, measures: Measures) -> Buy | None:
    """Return the metres to buy for a pattern in inches: need and margin converted exactly, then rounded up.

    One inch is 2.54 cm exactly (NBS Circular 572, addendum of 1960). Only purchases are told so; cuts stay in inches.
    """
    if not isinstance(need, Length) or measures.unit != "in":
        return None
    centimetres = (need + fabric.margin) * CENTIMETRES.inch
    return Buy(amount=CENTIMETRES.purchase(centimetres), unit="m")


def given(plan: CuttingPlan, keys: Mapping[str, PatchKey]) -> Counter[str]:
    """Count the patches (triangles of cut squares) that a plan gives, by label."""
    total: Counter[str] = Counter()
    for sheet in plan.sheets:
        for part in sheet.parts:
            total[part.label] += sheet.times * TRIANGLES_A_SQUARE[keys[part.label].shape]
    return total


def _role_demands(
    fabric: Fabric, blocks: Mapping[str, Counter[str]], copies: Counter[str], keys: Mapping[str, PatchKey]
) -> list[RoleDemand]:
    demands: list[RoleDemand] = []
    for block, roles in block_roles(fabric.id, blocks, keys).items():
        for role in roles:
            asked = [
                Asked(label=label, key=keys[label], count=count)
                for label, count in blocks[block].items()
                if keys[label].fabric == fabric.id and keys[label].print == role
            ]
            parts = tuple(each.demand(fabric) for each in asked)
            demands.append(RoleDemand(block=block, role=role, copies=copies[block], demands=parts))
    return demands


def _misfit_error(
    fabric: Fabric, misfit: MisfitError, measures: Measures, expected: str, takers: str = ""
) -> PatternError:
    sides = f"{say_length(misfit.w, measures)} x {say_length(misfit.h, measures)}"
    found = f"fabric '{fabric.id}' asked for patch {misfit.label}, cut {sides}{takers}"
    return PatternError([Problem(fabric.where, found, expected)])
