"""Setting triangles, borders, binding, backing and batting of one quilt, with their labels and strips."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from seamleaf.booklet.titles import BACKING_ID
from seamleaf.lengths import Length, Measures, say_length
from seamleaf.planning.bias import plan_bias
from seamleaf.planning.fabrics import Asked
from seamleaf.planning.finish_records import (
    BackingNote,
    BattingNote,
    BindingNote,
    BorderNote,
    BorderStrip,
    InsertNote,
)
from seamleaf.planning.finishing import (
    BACKING_ALLOWANCE,
    Back,
    border_strips,
    lengthwise_strips,
    mitred_strips,
    plan_backing,
    plan_batting,
    strips_needed,
)
from seamleaf.planning.inserts import Leftover, plan_insert
from seamleaf.planning.joining import CLIPPED_UNIT, SIDE_UNIT, triangle_unit
from seamleaf.planning.labels import Labels, PatchKey, Shape
from seamleaf.planning.piecing.strips_round import PAIR_OF, TURN_OF, strip_name
from seamleaf.planning.records import Box, Region, Take, Unit
from seamleaf.planning.seams import CORNER_UNIT
from seamleaf.reading.pattern import Binding, Fabric, Pattern, Triangles
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing import Quilt
from seamleaf.sizing.diagonal import corner_leg, pitch_of, side_leg

BINDING: Final = "binding"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Material:
    """What a border, the binding or the backing is made of."""

    label: str
    fabric: str
    use: Literal["border", "binding", "backing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips(_Material):
    """Strips of one width that are joined until they give ``need``."""

    width: Length
    need: Length

    def asked(self, usable: Length) -> Asked | None:
        """Return the strips to cut from fabric of this usable width; ``None`` when it is too narrow to join any."""
        if self.width >= usable:
            return None
        count, _ = strips_needed(self.need, usable, self.width)
        key = PatchKey(fabric=self.fabric, print=None, w=usable, h=self.width, shape="strip")
        return Asked(label=self.label, key=key, count=count)


@dataclass(frozen=True, slots=True, kw_only=True)
class BiasSquares(_Material):
    """Squares that give a bias strip of one width as long as ``need``."""

    width: Length
    need: Length
    seam: Length

    def asked(self, usable: Length) -> Asked | None:
        """Return the squares to cut from fabric of this usable width; ``None`` when it gives no such strip."""
        plan = plan_bias(self.need, self.width, self.seam, usable)
        if plan is None:
            return None
        key = PatchKey(fabric=self.fabric, print=None, w=plan.side, h=plan.side, shape="rectangle")
        return Asked(label=self.label, key=key, count=plan.squares)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces(_Material):
    """Patches of one size: cornerstones, or strips along the fabric."""

    key: PatchKey
    count: int

    def asked(self, usable: Length) -> Asked:
        """Return the patches to cut, whatever the usable width."""
        del usable
        return Asked(label=self.label, key=self.key, count=self.count)


@dataclass(frozen=True, slots=True, kw_only=True)
class Panels(_Material):
    """The panels of a backing of finished size w x h."""

    quilt: Quilt
    w: Length
    h: Length

    directional: bool
    """Whether the print of its fabric has an up, which decides how panels run."""
    leftovers: tuple[Leftover, ...] = ()
    """What a strip in it may be pieced of."""

    def asked(self, usable: Length) -> Asked | None:
        """Return the panels to cut from fabric of this usable width."""
        if usable <= self.quilt.pattern.measures.inch:
            return None
        back, _ = self.plan(usable)
        key = PatchKey(fabric=self.fabric, print=None, w=usable, h=back.length, shape="strip")
        return Asked(label=self.label, key=key, count=back.panels)

    def plan(self, usable: Length) -> tuple[Back, InsertNote | None]:
        """Return the back for fabric of this usable width, with the strip in it if one saves fabric."""
        seam, measures, upright = self.quilt.pattern.seam, self.quilt.pattern.measures, self.directional
        plain = plan_backing(self.w, self.h, usable, measures, directional=upright)
        pieced = plan_insert(self.w, self.h, usable, plain, self.leftovers, seam, measures, directional=upright)
        return (pieced.back, pieced.insert) if pieced else (plain, None)

    def note(self, usable: Length) -> BackingNote:
        """Return what the booklet says of the back."""
        back, insert = self.plan(usable)
        measures = self.quilt.pattern.measures
        return BackingNote(
            label=self.label,
            fabric=self.fabric,
            w=self.w,
            h=self.h,
            panels=back.panels,
            seam=back.seam,
            need=back.length * back.panels,
            panel=Box(w=usable, h=back.length),
            allowance=BACKING_ALLOWANCE[measures.unit],
            insert_asked=self.quilt.pattern.backing.insert,
            insert=insert,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """Everything round the blocks."""

    units: tuple[Unit, ...]
    triangles: tuple[Asked, ...]
    strips: tuple[Strips | BiasSquares | Pieces, ...]
    panels: Panels
    borders: tuple[BorderNote, ...]
    binding: BindingNote | None
    batting: BattingNote

    @property
    def cut(self) -> tuple[Strips | BiasSquares | Pieces | Panels, ...]:
        """Everything that is cut for it, but for the setting triangles."""
        return (*self.strips, self.panels)


def plan_finish(quilt: Quilt, fabrics: Mapping[str, Fabric], labels: Labels) -> Finish:
    """Plan all that is sewn after the blocks.

    Raises:
        PatternError: a strip that is as wide as its fabric.

    """
    units, triangles = _setting_triangles(quilt, labels)
    borders, strips = _borders(quilt, fabrics, labels)
    binding, binding_strips = _binding(quilt, fabrics, labels, borders)
    return Finish(
        units=units,
        triangles=triangles,
        strips=(*strips, *binding_strips),
        panels=_backing(quilt, fabrics, labels),
        borders=borders,
        binding=binding,
        batting=_batting(quilt),
    )


def backing_fabric(pattern: Pattern) -> str:
    """Return the id of the backing's fabric: the one that it names, or ``backing``, longer where a bundle has it."""
    id_ = pattern.backing.fabric or BACKING_ID
    while id_ in pattern.fabrics and not pattern.fabrics[id_].is_yardage:
        id_ += "-yardage"
    return id_


def _setting_triangles(quilt: Quilt, labels: Labels) -> tuple[tuple[Unit, ...], tuple[Asked, ...]]:
    """Return the triangles' units and squares.

    Side triangles: squares of B sqrt 2 + 1 1/4, cut twice; corners: of B / sqrt 2 + 7/8, cut once; both up to the
    grid, then oversized alike (quilterscache.com/H/howtomakesettingtriangles.html, 2002). So straight grain
    lies along the quilt's edge (quilterchic.com). Sashing counts as part of B (ehow.com/how_8171657): once
    for sides, twice for corners, beside which two outer sashes lie (derived). When blocks float, both squares are
    larger by twice the float (derived; that triangles are cut larger for it: oocities.org/quiltfrenzy_archives).
    """
    setting = quilt.pattern.setting
    if setting.set != "on-point":
        return (), ()
    assert setting.triangles is not None  # noqa: S101 -- reading demands them on point
    measures, seam = quilt.pattern.measures, quilt.pattern.seam
    over = setting.triangles.oversize
    pitch, side, corner = (measure(setting, quilt.block_w) for measure in (pitch_of, side_leg, corner_leg))
    large = measures.cut_size(side.times_root2() + measures.quarter_square_allowance(seam)) + over
    small = measures.cut_size(corner + measures.half_square_allowance(seam)) + over
    counts = Counter(triangle_unit(spot) for spot in quilt.layout.spots if spot.kind in ("side", "corner"))
    units: list[Unit] = []
    asked: list[Asked] = []
    plans: tuple[tuple[Shape, Length, Length, Length, dict[str, tuple[Length, Length]]], ...] = (
        (
            "quartered",
            large,
            large.times_root2() / 2,
            side,
            {SIDE_UNIT: (pitch, side), CLIPPED_UNIT: (pitch, pitch)},
        ),
        ("halved", small, small, corner, {CORNER_UNIT: (corner, corner)}),
    )
    for shape, square, cut_leg, leg, legs in plans:
        key = PatchKey(fabric=setting.triangles.fabric, print=None, w=square, h=square, shape=shape)
        label = labels.fresh(key)
        units += [
            _triangle_unit(unit, label, setting.triangles, (*sides, leg), cut_leg, counts[unit])
            for unit, sides in legs.items()
            if counts[unit]
        ]
        count = sum(counts[unit] for unit in legs)
        if count:
            asked.append(Asked(label=label, key=key, count=count))
    return tuple(units), tuple(asked)


def _triangle_unit(
    unit_id: str, label: str, triangles: Triangles, legs: tuple[Length, Length, Length], cut_leg: Length, count: int
) -> Unit:
    """Return a setting triangle: legs along x and y, as far as seams leave them, and the leg with its tip."""
    zero = Length(0)
    across, down, leg = legs
    tips = ((across, leg - across), (leg - down, down))
    outline = tuple(dict.fromkeys(((zero, zero), (across, zero), *tips, (zero, down))))
    return Unit(
        id=unit_id,
        how="patch",
        method=None,
        block=None,
        variant=None,
        axis=None,
        finished=Box(w=across, h=down),
        outline=outline,
        from_=(Take(label=label, unit=None, n=1, x=leg / 2, y=leg / 2, turn=0, mirror=False),),
        batch={label: 1},
        makes=1,
        batches=count,
        count=count,
        per_block={},
        made=Box(w=cut_leg, h=cut_leg),
        trim=None,
        seams=(),
        regions=(Region(label=label, fabric=triangles.fabric, print=None, outline=outline),),
        symmetry=360,
    )


def _borders(
    quilt: Quilt, fabrics: Mapping[str, Fabric], labels: Labels
) -> tuple[tuple[BorderNote, ...], list[Strips | Pieces]]:
    measures, seam = quilt.pattern.measures, quilt.pattern.seam
    w, h = quilt.layout.w, quilt.layout.h
    notes: list[BorderNote] = []
    strips: list[Strips | Pieces] = []
    groups = _together(quilt)
    for order, (border, width) in enumerate(quilt.borders, 1):
        usable, cut = fabrics[border.fabric].usable[0], width + seam * 2
        if border.pieced is None and cut >= usable:
            found = f"a border cut {say_length(cut, measures)} wide in size '{quilt.size.id}'"
            expected = f"less than the usable width of '{border.fabric}', {say_length(usable, measures)}"
            raise PatternError([Problem(border.where, found, expected)])
        together = groups[order - 1]
        if together:
            inside = sum((each for _, each in quilt.borders[: together[0] - 1]), Length(0)) * 2
            all_widths = sum((each for _, each in quilt.borders[together[0] - 1 : together[-1]]), Length(0))
            core = Box(w=quilt.layout.w + inside, h=quilt.layout.h + inside)
            sides = mitred_strips(core.w, core.h, width, all_widths, seam, measures)
        else:
            sides = border_strips(border.corner, w, h, width, seam, measures)
        label, pieces, joined = None, 0, Length(0)
        if border.pieced is not None:
            sides = tuple(
                replace(strip, unit=strip_name(order, PAIR_OF[strip.edge]), turn=TURN_OF[strip.edge]) for strip in sides
            )
        elif border.cut == "lengthwise":
            sides, pairs = _along(border.fabric, sides, labels)
            strips += pairs
        else:
            need = sum((strip.length for strip in sides), Length(0))
            pieces, joined = strips_needed(need, usable, cut)
            label = labels.fresh(PatchKey(fabric=border.fabric, print=None, w=usable, h=cut, shape="strip"))
            strips.append(Strips(label=label, fabric=border.fabric, use="border", width=cut, need=need))
        corners = None
        if border.cornerstone is not None:
            key = PatchKey(fabric=border.cornerstone, print=None, w=cut, h=cut, shape="rectangle")
            corners = labels.fresh(key)
            strips.append(Pieces(label=corners, fabric=border.cornerstone, use="border", key=key, count=4))
        before, after = Box(w=w, h=h), Box(w=w + width * 2, h=h + width * 2)
        notes.append(
            BorderNote(
                label=label,
                fabric=border.fabric if border.pieced is None else None,
                width=width,
                corner=border.corner,
                order=order,
                pieces=pieces,
                joined=joined,
                together=together,
                strips=sides,
                corners=corners,
                before=before,
                after=after,
            )
        )
        w, h = after.w, after.h
    return tuple(notes), strips


def _along(
    fabric: str, sides: Sequence[BorderStrip], labels: Labels
) -> tuple[tuple[BorderStrip, ...], tuple[Pieces, ...]]:
    """Cut each strip of a border along the fabric, in one piece; the two of opposite edges share a label."""
    along: list[BorderStrip] = []
    pairs: list[Pieces] = []
    for first, second in (sides[:2], sides[2:]):
        key = PatchKey(fabric=fabric, print=None, w=first.w, h=first.length, shape="strip")
        label = labels.fresh(key)
        along += [replace(first, label=label), replace(second, label=label)]
        pairs.append(Pieces(label=label, fabric=fabric, use="border", key=key, count=2))
    return tuple(along), tuple(pairs)


def _together(quilt: Quilt) -> list[tuple[int, ...]]:
    """Return for each border the numbers of those that it is mitred with as one, none for a border of its own."""
    groups: list[list[int]] = []
    for order, (border, _) in enumerate(quilt.borders, 1):
        if border.joined:
            groups[-1].append(order)
        else:
            groups.append([order])
    return [tuple(group) if len(group) > 1 else () for group in groups for _ in group]


def _binding(
    quilt: Quilt, fabrics: Mapping[str, Fabric], labels: Labels, borders: Sequence[BorderNote]
) -> tuple[BindingNote | None, tuple[Strips | BiasSquares | Pieces, ...]]:
    binding = quilt.pattern.binding
    if binding is None:
        return None, ()
    usable, measures = fabrics[binding.fabric].usable[0], quilt.pattern.measures
    if binding.strip >= usable:
        expected = f"less than the usable width of '{binding.fabric}', {say_length(usable, measures)}"
        raise PatternError([Problem(binding.where, f"a strip {say_length(binding.strip, measures)} wide", expected)])
    width, height = quilt.finished
    need = (width + height) * 2 + binding.extra
    if binding.cut == "bias":
        return _bias_binding(binding, need, quilt.pattern.seam, usable, labels, measures)
    made: Strips | Pieces
    if binding.cut == "lengthwise":
        # As long as a border that is cut so from the same fabric: it lies beside it.
        longest = max(
            (strip.length for each in borders if each.fabric == binding.fabric for strip in each.strips if strip.label),
            default=max(width, height),
        )
        count, length = lengthwise_strips(need, longest, binding.strip, measures)
        joined = length * count - binding.strip * (count - 1)
        key = PatchKey(fabric=binding.fabric, print=None, w=binding.strip, h=length, shape="strip")
        label = labels.fresh(key)
        made = Pieces(label=label, fabric=binding.fabric, use=BINDING, key=key, count=count)
    else:
        count, joined = strips_needed(need, usable, binding.strip)
        label = labels.fresh(PatchKey(fabric=binding.fabric, print=None, w=usable, h=binding.strip, shape="strip"))
        made = Strips(label=label, fabric=binding.fabric, use=BINDING, width=binding.strip, need=need)
    note = BindingNote(
        label=label,
        fabric=binding.fabric,
        need=need,
        extra=binding.extra,
        length=joined,
        strips=count,
        width=binding.strip,
        cut=binding.cut,
        square=None,
        rounds=None,
    )
    return note, (made,)


def _bias_binding(
    binding: Binding, need: Length, seam: Length, usable: Length, labels: Labels, measures: Measures
) -> tuple[BindingNote, tuple[BiasSquares, ...]]:
    plan = plan_bias(need, binding.strip, seam, usable)
    if plan is None:
        found = (
            f"a bias strip {say_length(binding.strip, measures)} wide from fabric {say_length(usable, measures)} wide"
        )
        raise PatternError([Problem(binding.where, found, "a narrower strip, or wider fabric")])
    key = PatchKey(fabric=binding.fabric, print=None, w=plan.side, h=plan.side, shape="rectangle")
    label = labels.fresh(key)
    note = BindingNote(
        label=label,
        fabric=binding.fabric,
        need=need,
        extra=binding.extra,
        length=plan.length,
        strips=plan.squares,
        width=binding.strip,
        cut="bias",
        square=plan.side,
        rounds=plan.rounds,
    )
    squares = BiasSquares(label=label, fabric=binding.fabric, use=BINDING, width=binding.strip, need=need, seam=seam)
    return note, (squares,)


def _backing(quilt: Quilt, fabrics: Mapping[str, Fabric], labels: Labels) -> Panels:
    backing, measures = quilt.pattern.backing, quilt.pattern.measures
    fabric = backing_fabric(quilt.pattern)
    usable = fabrics[fabric].usable[0]
    if usable <= measures.inch:
        expected = "a usable width that leaves something after a join"
        raise PatternError([Problem(backing.where, f"fabric {say_length(usable, measures)} wide", expected)])
    w, h = (side + backing.extra * 2 for side in quilt.finished)
    directional = fabrics[fabric].directional
    back = plan_backing(w, h, usable, measures, directional=directional)
    label = labels.fresh(PatchKey(fabric=fabric, print=None, w=usable, h=back.length, shape="strip"))
    return Panels(label=label, fabric=fabric, use="backing", quilt=quilt, w=w, h=h, directional=directional)


def _batting(quilt: Quilt) -> BattingNote:
    w, h = (side + quilt.pattern.batting_extra * 2 for side in quilt.finished)
    return plan_batting(w, h, quilt.pattern.measures)
