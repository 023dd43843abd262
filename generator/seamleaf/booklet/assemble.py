"""Pattern and size to Booklet: run the planners in order and gather what they return."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import Final

from seamleaf.booklet.classes import class_notes
from seamleaf.booklet.material import Material, bounds_of, plan_material
from seamleaf.booklet.record import FORMAT, Booklet
from seamleaf.booklet.sewn import Sewn
from seamleaf.booklet.strip_choice import with_strip_sets
from seamleaf.lengths import Length
from seamleaf.planning.beds import plan_bed
from seamleaf.planning.bonus import plan_bonus
from seamleaf.planning.estimates import plan_estimates
from seamleaf.planning.gates import plan_gates
from seamleaf.planning.halves import half_of
from seamleaf.planning.joining import make_places, make_rows
from seamleaf.planning.piecing.units import Piecing
from seamleaf.planning.pressing.plan import PressingPlan
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
from seamleaf.planning.seams import border_seams, centre_seams, make_seam
from seamleaf.reading.pattern import Pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing import Quilt, check_pattern
from seamleaf.sizing.diagonal import float_of

CRIB_SIDE_INCHES: Final = 60
"""A quilt with no longer side is taken for a child's, and carries the note on infants' sleep."""

_FLIPPED: Final[dict[Press, Press]] = {"before": "after", "after": "before", "open": "open", "spin": "spin"}


def plan_booklets(pattern: Pattern, sizes: Sequence[str] | None = None, *, thorough: bool = True) -> dict[str, Booklet]:
    """Compute the booklets of a pattern, by size id in the order of the file.

    Args:
        pattern: as reading gave it, without problems.
        sizes: ids of the sizes wanted; all of them if not given.
        thorough: without it the search for the least fabric is shorter, and nothing is said of other widths.

    Raises:
        PatternError: every problem of every size wanted.

    """
    problems: list[Problem] = check_pattern(pattern)
    if problems:
        raise PatternError(problems)
    booklets: dict[str, Booklet] = {}
    chosen = with_strip_sets(pattern)
    for size_id in pattern.sizes if sizes is None else sizes:
        try:
            booklets[size_id] = _plan_booklet(chosen.pattern, chosen.size(size_id), thorough=thorough)
        except PatternError as error:
            problems += error.problems
    if problems:
        raise PatternError(problems)
    return booklets


def plan_bounds(pattern: Pattern, size_id: str, fabrics: Collection[str]) -> dict[str, Length | int]:
    """Return what one size takes of some fabrics at the least, as far as a shorter search proves it.

    Raises:
        PatternError: as for :func:`plan_booklets`.

    """
    problems = check_pattern(pattern)
    if problems:
        raise PatternError(problems)
    return bounds_of(with_strip_sets(pattern).size(size_id), fabrics)


def _cut(sewn: Sewn, *, thorough: bool) -> Material:
    try:
        return plan_material(sewn, thorough=thorough)
    except PatternError as error:
        raise PatternError([_at_scale(sewn.quilt, problem) for problem in error.problems]) from None


def _plan_booklet(pattern: Pattern, sewn: Sewn, *, thorough: bool) -> Booklet:
    quilt, fabrics, pressing = sewn.quilt, sewn.fabrics, sewn.pressing
    piecing, finish = sewn.piecing, sewn.finish
    material = _cut(sewn, thorough=thorough)
    task = task_of(quilt, pressing.drafts, pressing.placed, material.bundles)
    prints = plan_prints(quilt, task, fabrics) if task else PrintsPlan(prints={}, choices={}, layout=None)
    places = make_places(quilt, pressing, prints.prints)
    width, height = quilt.finished
    units = (*(unit for unit in piecing.units if unit.count), *finish.units)
    seams = (
        *_unit_seams(piecing, pressing),
        *centre_seams(quilt, [place.unit for place in places], pressing.rows),
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
            material.patches,
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
        bonus=plan_bonus(units, sewn.labels.keys(), pattern.seam, pattern.measures),
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


def _at_scale(quilt: Quilt, problem: Problem) -> Problem:
    """Name the scale where a fabric cannot give the patches of a scaled size."""
    if quilt.scale == 1:
        return problem
    found = f"size '{quilt.size.id}' at a scale of {quilt.scale}: {problem.found}"
    return Problem(quilt.size.scale_where or quilt.size.where, found, problem.expected, problem.hint)


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
