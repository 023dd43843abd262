"""Pattern and size to Booklet: run the planners in order and gather what they return."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from seamleaf.booklet.classes import class_notes
from seamleaf.booklet.finish import backing_fabric, plan_finish
from seamleaf.booklet.material import Material, plan_material
from seamleaf.booklet.record import FORMAT, Booklet
from seamleaf.booklet.titles import BACKING_TITLE
from seamleaf.lengths import Length
from seamleaf.planning.beds import plan_bed
from seamleaf.planning.estimates import plan_estimates
from seamleaf.planning.gates import plan_gates
from seamleaf.planning.halves import half_of
from seamleaf.planning.joining import (
    border_seams,
    centre_seams,
    make_places,
    make_rows,
    make_seam,
)
from seamleaf.planning.labels import Labels, letters
from seamleaf.planning.piecing.drafts import Ref, Workbench
from seamleaf.planning.piecing.strips_round import place_strips
from seamleaf.planning.piecing.twins import find_pairs
from seamleaf.planning.piecing.units import Piecing, piece_units
from seamleaf.planning.pressing.arrangement import Placed
from seamleaf.planning.pressing.plan import PressingPlan, plan_pressing
from seamleaf.planning.prints import PrintsPlan, plan_prints, task_of
from seamleaf.planning.programme import Course, plan_course
from seamleaf.planning.records import (
    Box,
    CoverNote,
    FabricNote,
    PatternNote,
    Place,
    Press,
    Seam,
    SeamTest,
    SetNote,
    SizeNote,
    Totals,
    Unit,
)
from seamleaf.reading.defaults import defaults_for
from seamleaf.reading.pattern import Cell, Fabric, Pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing import Quilt, check_pattern, size_quilt
from seamleaf.sizing.diagonal import float_of

CRIB_SIDE_INCHES: Final = 60
"""A quilt with no longer side is taken for a child's, and carries the note on infants' sleep."""

_FLIPPED: Final[dict[Press, Press]] = {"before": "after", "after": "before", "open": "open", "spin": "spin"}


def plan_booklets(pattern: Pattern, sizes: Sequence[str] | None = None) -> dict[str, Booklet]:
    """Compute the booklets of a pattern, by size id in the order of the file.

    Args:
        pattern: as reading gave it, without problems.
        sizes: ids of the sizes wanted; all of them if not given.

    Raises:
        PatternError: every problem of every size wanted.

    """
    problems: list[Problem] = check_pattern(pattern)
    if problems:
        raise PatternError(problems)
    booklets: dict[str, Booklet] = {}
    for size_id in pattern.sizes if sizes is None else sizes:
        try:
            booklets[size_id] = _plan_booklet(pattern, size_id)
        except PatternError as error:
            problems += error.problems
    if problems:
        raise PatternError(problems)
    return booklets


def _plan_booklet(pattern: Pattern, size_id: str) -> Booklet:
    quilt = size_quilt(pattern, size_id)
    fabrics = fabrics_of(pattern)
    directional = frozenset(fabric.id for fabric in fabrics.values() if fabric.directional)
    labels = Labels(letters(fabrics), directional)
    bench, placed, block_units = _place_blocks(quilt, _most_long_sashes(pattern))
    strips = place_strips(bench, quilt)
    _check_scaled_labels(pattern, quilt, labels)
    pressing = plan_pressing(quilt, bench.drafts, placed, strips)
    blocks = Counter(dict.fromkeys(block_units, 0))
    blocks.update(block.unit for block in pressing.placed.values())  # B blocks are units of their own
    blocks.update(strips)
    piecing = piece_units(pressing.drafts, blocks, labels, pattern.seam, pattern.measures, _usable(pattern))
    finish = plan_finish(quilt, fabrics, labels)
    try:
        material = plan_material(quilt, fabrics, piecing, blocks, finish, labels)
    except PatternError as error:
        raise PatternError([_at_scale(quilt, problem) for problem in error.problems]) from None
    task = task_of(quilt, pressing.drafts, pressing.placed, material.bundles)
    prints = plan_prints(quilt, task, fabrics) if task else PrintsPlan(prints={}, choices={}, layout=None)
    places = make_places(quilt, pressing, prints.prints)
    width, height = quilt.finished
    units = (*(unit for unit in piecing.units if unit.count), *finish.units)
    seams = (
        *_unit_seams(piecing, pressing),
        *centre_seams(quilt, places, pressing),
        *border_seams(quilt),
    )
    return Booklet(
        format=FORMAT,
        pattern=PatternNote(
            id=pattern.id,
            title=pattern.title,
            version=pattern.version,
            designer=pattern.designer,
            summary=pattern.summary,
            skill=pattern.skill,
        ),
        size=_size_note(quilt),
        unit=pattern.measures.unit,
        seam=pattern.seam,
        seam_test=SeamTest(strip=pattern.seam * 6, middle=pattern.seam * 4, whole=pattern.seam * 14),
        finished=Box(w=width, h=height),
        set=_set_note(quilt),
        fabrics=_with_choices(material.fabrics, prints),
        patches=material.patches,
        cutting=material.cutting,
        units=units,
        seams=seams,
        pressing=pressing.report,
        places=places,
        rows=make_rows(quilt, pressing),
        gates=plan_gates(quilt, units, finish.borders),
        borders=finish.borders,
        binding=finish.binding,
        backing=material.backing,
        batting=finish.batting,
        offcuts=material.offcuts,
        classes=class_notes(
            material.classes,
            fabrics,
            material.fabrics,
            material.backing.label,
            _course(quilt, units, material, places),
            pattern.measures,
        ),
        totals=Totals(
            sheets=sum(sheet.times for sheet in material.cutting),
            patches=sum(patch.count for patch in material.patches),
            units=sum(unit.count for unit in units),
        ),
        estimates=plan_estimates(
            pattern.measures,
            pattern.seam,
            pattern.paces,
            cutting=material.cutting,
            patches=material.patches,
            units=units,
            seams=seams,
            borders=finish.borders,
            binding=finish.binding,
            backing=material.backing,
        ),
        cautions=_cautions(quilt),
        layout=prints.layout,
        prints=task,
    )


def _course(quilt: Quilt, units: Sequence[Unit], material: Material, places: Sequence[Place]) -> Course:
    return plan_course(
        units,
        material.patches,
        [place.unit for place in places],
        prints=bool(material.bundles),
        triangles=any(place.kind == "side" for place in places),
        borders=bool(quilt.pattern.borders),
        binding=quilt.pattern.binding is not None,
        paces=quilt.pattern.paces,
    )


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


def _at_scale(quilt: Quilt, problem: Problem) -> Problem:
    """Name the scale where a fabric cannot give the patches of a scaled size."""
    if quilt.scale == 1:
        return problem
    found = f"size '{quilt.size.id}' at a scale of {quilt.scale}: {problem.found}"
    return Problem(quilt.size.scale_where or quilt.size.where, found, problem.expected, problem.hint)


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


def _unit_seams(piecing: Piecing, pressing: PressingPlan) -> list[Seam]:
    seams: list[Seam] = []
    for unit in piecing.units:
        names = piecing.names[unit.id]
        if unit.count:
            for index, (seam_id, draft) in enumerate(zip(unit.seams, piecing.drafts[unit.id].seams, strict=True)):
                press = pressing.press[unit.id, index]
                first, second = names[draft.first], names[draft.second]
                if draft.is_backward:  # a booklet names what lies to the left or above first
                    press, first, second = _FLIPPED[press], second, first
                seams.append(make_seam(seam_id, unit.id, draft.line, press, first, second))
    return seams


def _with_choices(fabrics: Sequence[FabricNote], prints: PrintsPlan) -> tuple[FabricNote, ...]:
    """Say of every bundle which of its colours are cut, and why."""
    notes: list[FabricNote] = []
    for fabric in fabrics:
        choice = prints.choices.get(fabric.id)
        notes.append(replace(fabric, pieces=choice.pieces, choice=choice.verdicts) if choice else fabric)
    return tuple(notes)


def _size_note(quilt: Quilt) -> SizeNote:
    bed, cover = quilt.size.cover, None
    if bed is not None:
        (wide, long), (width, height) = bed.mattress, quilt.finished
        cover = CoverNote(
            mattress=Box(w=wide, h=long),
            drop=bed.drop,
            tuck=bed.tuck,
            sides=(width - wide) / 2,
            foot=height - long - bed.tuck,
        )
    scale = int(quilt.scale) if quilt.scale.denominator == 1 else quilt.scale
    shown = plan_bed(*quilt.finished, bed, quilt.pattern.measures)
    return SizeNote(id=quilt.size.id, title=quilt.size.title, scale=scale, cover=cover, bed=shown)


def _set_note(quilt: Quilt) -> SetNote:
    layout = quilt.layout
    kinds = Counter(spot.kind for spot in layout.spots)
    return SetNote(
        kind=quilt.pattern.setting.set,
        across=quilt.across,
        down=quilt.down,
        block=Box(w=quilt.block_w, h=quilt.block_h),
        blocks=kinds["block"],
        side_triangles=kinds["side"],
        corner_triangles=kinds["corner"],
        rows=tuple(filter(None, (sum(layout.spots[index].kind == "block" for index in row) for row in layout.rows))),
        centre=Box(w=layout.w, h=layout.h),
        float=float_of(quilt.pattern.setting),
        trim_beyond=quilt.pattern.seam + float_of(quilt.pattern.setting),
        run=quilt.pattern.setting.run,
        half=half_of(quilt),
    )


def _cautions(quilt: Quilt) -> tuple[str, ...]:
    child = max(quilt.finished) <= CRIB_SIDE_INCHES * quilt.pattern.measures.inch
    return ("rotary-cutter", "iron", "needle", *(("infant-sleep",) if child else ()))
