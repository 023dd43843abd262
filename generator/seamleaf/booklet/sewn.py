"""The sewing of one size: its blocks placed, pressed and pieced into units, and what goes round them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace

from seamleaf.booklet.finish import Finish, backing_fabric, plan_finish
from seamleaf.booklet.titles import BACKING_TITLE
from seamleaf.lengths import Length
from seamleaf.planning.labels import Labels, letters
from seamleaf.planning.piecing.drafts import Draft, Ref, Workbench
from seamleaf.planning.piecing.strips_round import place_strips
from seamleaf.planning.piecing.twins import find_pairs
from seamleaf.planning.piecing.units import Piecing, piece_units
from seamleaf.planning.pressing.arrangement import Placed
from seamleaf.planning.pressing.plan import PressingPlan, plan_pressing
from seamleaf.reading.defaults import defaults_for
from seamleaf.reading.pattern import Cell, Fabric, Pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing import Quilt, size_quilt


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieced:
    """What the fabrics of one size are asked for: its units, and what is sewn after them."""

    quilt: Quilt
    fabrics: dict[str, Fabric]
    labels: Labels
    blocks: Counter[str]
    """Copies of every block unit of the tiles, 0 of those that this size has none of, and of strips round them."""
    piecing: Piecing
    finish: Finish


@dataclass(frozen=True, slots=True, kw_only=True)
class Sewn(Pieced):
    """How one size is sewn, before anything of it is cut."""

    pressing: PressingPlan


def sew_size(pattern: Pattern, size_id: str) -> Sewn:
    """Plan the units of one size, and what is sewn after them.

    Raises:
        PatternError: what cannot be sewn so.

    """
    laid = _lay_out(pattern, size_id)
    pressing = plan_pressing(laid.quilt, laid.bench.drafts, laid.placed, laid.strips)
    pieced = laid.pieced(pressing.drafts, pressing.placed)  # B blocks are units of their own
    return Sewn(**{field.name: getattr(pieced, field.name) for field in fields(pieced)}, pressing=pressing)


def piece_size(pattern: Pattern, size_id: str) -> Pieced:
    """Plan the units of one size as if all blocks were pressed alike; much sooner than :func:`sew_size`.

    Raises:
        PatternError: what cannot be sewn so.

    """
    laid = _lay_out(pattern, size_id)
    return laid.pieced(laid.bench.drafts, laid.placed)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """The blocks of one size, placed."""

    quilt: Quilt
    fabrics: dict[str, Fabric]
    labels: Labels
    bench: Workbench
    placed: dict[int, Placed]
    units: list[str]
    """The block units of the tiles."""
    strips: Counter[str]

    def pieced(self, drafts: dict[str, Draft], placed: Mapping[int, Placed]) -> Pieced:
        """Piece these units, for blocks that lie so."""
        pattern = self.quilt.pattern
        blocks = Counter(dict.fromkeys(self.units, 0))
        blocks.update(block.unit for block in placed.values())
        blocks.update(self.strips)
        return Pieced(
            quilt=self.quilt,
            fabrics=self.fabrics,
            labels=self.labels,
            blocks=blocks,
            piecing=piece_units(drafts, blocks, self.labels, pattern.seam, pattern.measures, _usable(pattern)),
            finish=plan_finish(self.quilt, self.fabrics, self.labels),
        )


def _lay_out(pattern: Pattern, size_id: str) -> _Laid:
    quilt = size_quilt(pattern, size_id)
    fabrics = fabrics_of(pattern)
    directional = frozenset(fabric.id for fabric in fabrics.values() if fabric.directional)
    labels = Labels(letters(fabrics), directional)
    bench, placed, units = _place_blocks(quilt, _most_long_sashes(pattern))
    strips = place_strips(bench, quilt)
    _check_scaled_labels(pattern, quilt, labels)
    return _Laid(quilt=quilt, fabrics=fabrics, labels=labels, bench=bench, placed=placed, units=units, strips=strips)


def copies_of(pattern: Pattern, size_id: str) -> tuple[Workbench, Counter[str]]:
    """Return the units of the blocks of one size, and how many the set takes of each block."""
    bench, placed, _ = _place_blocks(size_quilt(pattern, size_id))
    return bench, Counter(block.unit for block in placed.values())


def _check_scaled_labels(pattern: Pattern, quilt: Quilt, labels: Labels) -> None:
    """See that a scale leaves every label its patches.

    Patches of one fabric share a label where their cut sizes are equal. A scale can part them, or bring two kinds
    together, since seam allowances do not grow with it; then labels would not mean the same in every size.

    Raises:
        PatternError: such a scale.

    """
    if quilt.scale == 1:
        return
    size = replace(quilt.size, scale=None, finished=None)
    drawn = size_quilt(replace(pattern, sizes={**pattern.sizes, size.id: size}), size.id)
    kinds: list[list[str]] = []
    for each in (drawn, quilt):
        bench, _, block_units = _place_blocks(each)
        own = Labels(labels.letter_of, labels.directional)
        piecing = piece_units(bench.drafts, Counter(block_units), own, pattern.seam, pattern.measures, _usable(pattern))
        kinds.append([f"{unit.id} {take.label or take.unit}" for unit in piecing.units for take in unit.from_])
    if kinds[0] != kinds[1]:
        change = "at which patches become alike that were not, or differ that were alike"
        found = f"a scale of {quilt.scale} in size '{size.id}', {change}"
        expected = "a scale at which each label still stands for one kind of patch"
        raise PatternError([Problem(size.scale_where or size.where, found, expected)])


def _usable(pattern: Pattern) -> dict[str, Length]:
    """Return the usable width of every fabric that is cut from yardage."""
    return {fabric.id: fabric.usable[0] for fabric in pattern.fabrics.values() if fabric.is_yardage}


def fabrics_of(pattern: Pattern) -> dict[str, Fabric]:
    """Return the fabrics of a pattern; a backing that names none of them is one more, ``backing``."""
    id_ = backing_fabric(pattern)
    if id_ in pattern.fabrics:
        return dict(pattern.fabrics)
    backing = Fabric(
        id=id_,
        title=BACKING_TITLE,
        source="yardage",
        source_size=None,
        source_text="yardage",
        usable=(pattern.backing.usable, Length(0)),
        pack=None,
        edge="straight",
        colours=("#e9e4da",),
        directional=False,
        margin=defaults_for(pattern.measures).margin,
        where=pattern.backing.where,
    )
    return {**pattern.fabrics, id_: backing}


def _most_long_sashes(pattern: Pattern) -> int:
    """Return how many lengths of sashes the size has that has most, in a set on point without cornerstones."""
    setting = pattern.setting
    if setting.set != "on-point" or setting.sashing is None or setting.sashing.cornerstone is not None:
        return 0
    return max(len(_long_sashes(size_quilt(pattern, size_id))) for size_id in pattern.sizes)


def _long_sashes(quilt: Quilt) -> list[Length]:
    """Return how long the sashes between the rows of such a set are, each length once."""
    return sorted({spot.h for spot in quilt.layout.spots if spot.kind == "sash" and spot.column % 2})


def _place_blocks(quilt: Quilt, long_sashes: int = 0) -> tuple[Workbench, dict[int, Placed], list[str]]:
    """Make the units of every cell of the tiles, in the order of the file, and place those that this size uses.

    The last item holds every block unit of the tiles, those that this size has none of among them. Every size reserves
    the labels of as many ``long_sashes``.
    """
    bench = Workbench(quilt.pattern)
    block_units = _tile_units(bench, quilt)
    pairs = find_pairs(bench.drafts, [*block_units, *place_strips(bench, quilt)])
    if pairs or quilt.pieced:  # what stands round the quilt is sewn after all that stands in it
        bench = Workbench(quilt.pattern, pairs)
        block_units = _tile_units(bench, quilt)
    sashing = quilt.pattern.setting.sashing
    if sashing and sashing.cornerstone:
        # Every size reserves the labels of all three, though a quilt of one block may have none of them.
        width, stone = sashing.width, sashing.cornerstone
        for use, w, h in (
            (sashing.fabric, width, quilt.block_h),
            (sashing.fabric, quilt.block_w, width),
            (stone, width, width),
        ):
            bench.place_plain(use, w, h)
    elif sashing and quilt.pattern.setting.run == "down":  # a size of one column may have no strip
        bench.place_plain(sashing.fabric, sashing.width, quilt.layout.h)
    elif sashing:  # a size one block wide has no sash between blocks, and its label is not for the long ones
        if quilt.pattern.setting.set == "straight":
            bench.place_plain(sashing.fabric, sashing.width, quilt.block_h)
            # ... nor is that of the long ones for short ones, where one block across makes them alike.
            alike = quilt.layout.w == quilt.block_h and not quilt.pattern.fabrics[sashing.fabric.fabric].directional
            long = quilt.layout.w * 2 if alike else quilt.layout.w
            bench.place_plain(sashing.fabric, long, sashing.width)
        else:
            bench.place_plain(sashing.fabric, quilt.block_w, sashing.width)
            lengths = _long_sashes(quilt)
            last = max([quilt.block_h, *lengths])
            lengths += [last + quilt.block_h * more for more in range(1, long_sashes - len(lengths) + 1)]
            for length in lengths:
                bench.place_plain(sashing.fabric, sashing.width, length)
    placed: dict[int, Placed] = {}
    for index, spot in enumerate(quilt.layout.spots):
        if spot.cell is not None:
            ref = _ref(bench, spot.cell, spot.w, spot.h)
            placed[index] = Placed(unit=ref.unit or "", turn=(ref.turn + spot.cell.turn) % 360)
    return bench, placed, block_units


def _tile_units(bench: Workbench, quilt: Quilt) -> list[str]:
    """Sew every block of the tiles, in the order of the file, and return their units."""
    setting = quilt.pattern.setting
    return [
        _ref(bench, cell, quilt.block_w, quilt.block_h).unit or ""
        for tile in (setting.blocks, setting.between or ())
        for line in tile
        for cell in line
    ]


def _ref(bench: Workbench, cell: Cell, w: Length, h: Length) -> Ref:
    if cell.block is not None:
        return bench.place_block(cell.block)
    assert cell.plain is not None  # noqa: S101 -- a cell is one or the other
    return bench.place_plain(cell.plain, w, h)
