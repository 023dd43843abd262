"""Classes: their kits, what the shop cuts for them, and their timeline."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamleaf.lengths import Length, Measures
from seamleaf.planning.class_records import ClassFabric, ClassNote, ClassPiece, PackShare, ShopCut
from seamleaf.planning.fabrics import TRIANGLES_A_SQUARE, metric_purchase, purchase
from seamleaf.planning.labels import Shape
from seamleaf.planning.programme import Course
from seamleaf.planning.records import Buy, FabricNote, PatchNote, Sheet
from seamleaf.planning.timeline import plan_timeline
from seamleaf.reading.pattern import ClassPlan, Fabric


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassKits:
    """A class with the cutting for all its kits."""

    plan: ClassPlan
    kits: int
    sheets: tuple[Sheet, ...]
    needs: dict[str, Length | int]
    """What each fabric must give: length or pieces."""


def kits_for(students: int) -> int:
    """Return the kits of a class: one each, one for the teacher, and a spare for every ten begun.

    Common practice, no source.
    """
    return students + 1 + -(-students // 10)


def for_kits(count: int, shape: Shape, kits: int) -> int:
    """Return the patches to plan for: each of several kits gets whole squares for its triangles.

    Edges that were cut on the bias stretch in a bag, so the squares are cut apart by the students (common practice, no
    source).
    """
    if kits == 1:
        return count
    each = TRIANGLES_A_SQUARE[shape]
    return -(-count // each) * each * kits


def deal(pack: int, pieces: int, kits: int) -> tuple[tuple[int, ...], ...]:
    """Deal a pack that is sorted from light to dark, so that each kit gets one piece of each band of lightness.

    A band is dealt there, the next one back, as cards are (common practice, no source). What stays over lies at both
    ends of every band.
    """
    hands: list[list[int]] = [[] for _ in range(kits)]
    for band in range(pieces):
        start, end = pack * band // pieces, pack * (band + 1) // pieces
        first = start + (end - start - kits) // 2 + 1
        for place, hand in enumerate(hands if band % 2 == 0 else reversed(hands)):
            hand.append(first + place)
    return tuple(map(tuple, hands))


def split(kits: int, packs: int) -> tuple[PackShare, ...]:
    """Split kits over packs as evenly as can be, the fuller packs first."""
    least, fuller = divmod(kits, packs)
    shares = (PackShare(times=fuller, kits=least + 1), PackShare(times=packs - fuller, kits=least))
    return tuple(share for share in shares if share.times)


def class_notes(
    classes: Sequence[ClassKits],
    fabrics: Mapping[str, Fabric],
    notes: Sequence[FabricNote],
    patches: Sequence[PatchNote],
    backing: str,
    course: Course,
    measures: Measures,
) -> tuple[ClassNote, ...]:
    """Return what the booklet says of each class.

    Args:
        notes: the fabrics of one kit.
        patches: what one kit takes of each label.
        backing: label of the panels of the back.

    """
    one = {note.id: note for note in notes}
    found: list[ClassNote] = []
    for each in classes:
        sessions = tuple(int(hours * 60) for hours in each.plan.sessions)
        timeline = plan_timeline(course, sessions)
        found.append(
            ClassNote(
                id=each.plan.id,
                title=each.plan.title,
                students=each.plan.students,
                kits=each.kits,
                sheets=each.sheets,
                fabrics=tuple(
                    _fabric(fabrics[id_], need, one[id_], each.kits, measures) for id_, need in each.needs.items()
                ),
                shop=_shop_cuts(each.sheets, fabrics, backing),
                pieces=_pieces(each.sheets, fabrics, patches),
                sessions=sessions,
                block=course.block,
                blocks=timeline.blocks,
                lessons=timeline.lessons,
            )
        )
    return tuple(found)


def _fabric(fabric: Fabric, need: Length | int, one: FabricNote, kits: int, measures: Measures) -> ClassFabric:
    """Return the purchase for a class; packs are shared so that the prints of one kit are all of one pack."""
    shared: int | None = None
    buy = purchase(fabric, need, measures)
    shares: tuple[PackShare, ...] = ()
    hands: tuple[tuple[int, ...], ...] = ()
    if isinstance(one.need, int) and fabric.pack is not None:
        shared = fabric.pack // one.need or None
        packs = -(-kits // shared) if shared else kits * -(-one.need // fabric.pack)
        buy = Buy(amount=packs, unit="pack")
        if shared:
            shares = split(kits, packs)
            hands = deal(fabric.pack, one.need, shares[0].kits)
    also = metric_purchase(fabric, need, measures)
    return ClassFabric(fabric=fabric.id, need=need, buy=buy, also=also, kits_a_pack=shared, packs=shares, deal=hands)


def _pieces(
    sheets: Sequence[Sheet], fabrics: Mapping[str, Fabric], patches: Sequence[PatchNote]
) -> tuple[ClassPiece, ...]:
    """Count what the sheets of yardage give, by label."""
    cut: Counter[str] = Counter()
    for sheet in sheets:
        for label, count in sheet.gives.items():
            cut[label] += sheet.times * count
    return tuple(
        ClassPiece(label=patch.label, pieces=cut[patch.label], bag=-(-patch.count // TRIANGLES_A_SQUARE[patch.shape]))
        for patch in patches
        if fabrics[patch.fabric].is_yardage
    )


def _shop_cuts(sheets: Sequence[Sheet], fabrics: Mapping[str, Fabric], backing: str) -> tuple[ShopCut, ...]:
    """Put strips of one fabric and height together, the highest first, since the shop cuts nothing smaller."""
    times: dict[tuple[str, Length, bool], int] = {}
    for sheet in sheets:
        if fabrics[sheet.fabric].is_yardage:
            key = (sheet.fabric, sheet.sheet.h, backing in sheet.gives)
            times[key] = times.get(key, 0) + sheet.times
    order = list(dict.fromkeys(fabric for fabric, _, _ in times))
    keys = sorted(times, key=lambda key: (order.index(key[0]), not key[2], -key[1]))
    return tuple(ShopCut(fabric=fabric, h=h, times=times[fabric, h, panel], panel=panel) for fabric, h, panel in keys)
