"""Numbers of a booklet that must tie, whatever the pattern: the demo in all sizes, and patterns made at random.

Everything is compared exactly, in the booklet's own lengths. Only the tiling of areas is left to shapely.
"""

from __future__ import annotations

import json
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import combinations
from typing import Any

import jsonschema
import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, reject, settings

from accepted import accepted, accepted_names
from effort import tries
from patterns_for_tests import DEMO, booklets_of, demo
from quilt_for_tests import Laid, patches_of, patches_of_centre, units_by_id
from seamleaf.booklet import Booklet, from_json, json_schema, to_json
from seamleaf.booklet.record import FabricNote, PatchNote, Unit
from seamleaf.lengths import Length, measures_of
from seamleaf.reading import PatternError
from seams_for_tests import Top, seams_of, seams_of_top
from strategies import patterns

ZERO = Length(0)
TRIANGLES = ("T1", "T2", "T3")
"""Units of setting triangles: of sides, of corners, and of sides that lose both tips when blocks float."""
EACH = {"rectangle": 1, "strip": 1, "halved": 2, "quartered": 4}
"""Patches that one cut rectangle or square gives, by shape."""

Identity = Callable[[Booklet], None]
IDENTITIES: list[Identity] = []


def identity(check: Identity) -> Identity:
    """Hold a fact against every booklet of this module."""
    IDENTITIES.append(check)
    return check


def patches(booklet: Booklet) -> dict[str, PatchNote]:
    return {patch.label: patch for patch in booklet.patches}


def fabrics(booklet: Booklet) -> dict[str, FabricNote]:
    return {fabric.id: fabric for fabric in booklet.fabrics}


# --------------------------------------------------------------------------------- patches and cutting


@identity
def labels_are_used_as_often_as_they_count(booklet: Booklet) -> None:
    """Batches times n over the units, and the strips and panels of the finishing, make up every label's count."""
    used: Counter[str] = Counter()
    for unit in booklet.units:
        for take in unit.from_:
            assert (take.label is None) != (take.unit is None)
            if take.label is not None:
                used[take.label] += unit.batches * take.n
    for border in booklet.borders:
        if border.label:
            used[border.label] += border.pieces
        used.update(strip.label for strip in border.strips if strip.label)
        if border.corners:
            used[border.corners] += 4
    if booklet.binding:
        used[booklet.binding.label] += booklet.binding.strips
    used[booklet.backing.label] += booklet.backing.panels
    assert used == {patch.label: patch.count for patch in booklet.patches}


@identity
def what_is_cut_beyond_the_count_is_spare(booklet: Booklet) -> None:
    cut: Counter[str] = Counter()
    for sheet in booklet.cutting:
        assert sheet.gives == Counter(part.label for part in sheet.parts)
        for part in sheet.parts:
            cut[part.label] += sheet.times
    for patch in booklet.patches:
        assert cut[patch.label] * EACH[patch.shape] == patch.count + patch.spare
        assert patch.spare >= 0
    assert set(cut) == set(patches(booklet))


@identity
def a_label_is_one_fabric_one_print_and_one_size(booklet: Booklet) -> None:
    notes = patches(booklet)
    assert len(notes) == len(booklet.patches)
    for patch in booklet.patches:
        fabric = fabrics(booklet)[patch.fabric]
        assert patch.label.startswith(fabric.letter)
        assert (patch.print is None) == isinstance(fabric.need, Length)
    for unit in booklet.units:
        for region in unit.regions:
            assert (region.fabric, region.print) == (notes[region.label].fabric, notes[region.label].print)


@identity
def parts_lie_in_their_sheet_side_by_side_in_their_cut_size(booklet: Booklet) -> None:
    notes, stock = patches(booklet), fabrics(booklet)
    for sheet in booklet.cutting:
        fabric = stock[sheet.fabric]
        if isinstance(fabric.usable, Length):
            assert sheet.sheet.w == fabric.usable
        else:
            assert sheet.sheet == fabric.usable
        for part in sheet.parts:
            note = notes[part.label]
            assert note.fabric == sheet.fabric
            if not sheet.mixed:
                assert note.print == sheet.print
            lies_straight = (part.w, part.h) == (note.w, note.h)
            assert lies_straight or ((part.h, part.w) == (note.w, note.h) and not fabric.directional)
            assert part.x >= 0
            assert part.y >= 0
            assert part.x + part.w <= sheet.sheet.w
            assert part.y + part.h <= sheet.sheet.h
        for one, other in combinations(sheet.parts, 2):
            beside = one.x + one.w <= other.x or other.x + other.w <= one.x
            assert beside or one.y + one.h <= other.y or other.y + other.h <= one.y


@identity
def the_need_is_what_the_sheets_take_and_the_purchase_covers_it(booklet: Booklet) -> None:
    measures = measures_of(booklet.unit)
    for fabric in booklet.fabrics:
        sheets = [sheet for sheet in booklet.cutting if sheet.fabric == fabric.id]
        if isinstance(fabric.need, Length):
            assert fabric.need == sum((sheet.sheet.h * sheet.times for sheet in sheets), ZERO)
            assert fabric.buy.unit == {"in": "yd", "cm": "m"}[booklet.unit]
            bought = Length(measures.buy_length) * fabric.buy.amount
            assert 0 <= bought - (fabric.need + fabric.margin) < measures.buy_length * measures.buy_grid
            assert (fabric.buy.amount / measures.buy_grid).denominator == 1
            assert isinstance(fabric.bound, Length)
            assert fabric.bound <= fabric.need
        else:
            assert fabric.need == fabric.prints == sum(sheet.times for sheet in sheets)
            assert isinstance(fabric.bound, int)
            assert fabric.bound <= fabric.need
            if fabric.pack is None:
                assert (fabric.buy.amount, fabric.buy.unit) == (fabric.need, "piece")
            else:
                assert fabric.buy.unit == "pack"
                assert 0 <= fabric.buy.amount * fabric.pack - fabric.need < fabric.pack


@identity
def no_plan_takes_less_fabric_than_its_patches_cover(booklet: Booklet) -> None:
    area: defaultdict[str, Length] = defaultdict(Length)
    for patch in booklet.patches:
        area[patch.fabric] = area[patch.fabric] + patch.w * patch.h * -(-patch.count // EACH[patch.shape])
    for fabric in booklet.fabrics:
        if isinstance(fabric.need, Length):
            assert isinstance(fabric.usable, Length)
            assert fabric.need * fabric.usable >= area[fabric.id]


# ------------------------------------------------------------------------------------------------ units


@identity
def every_unit_is_taken_by_units_or_places_as_often_as_it_counts(booklet: Booklet) -> None:
    taken = Counter(place.unit for place in booklet.places) + strips_of(booklet)
    for unit in booklet.units:
        for take in unit.from_:
            if take.unit is not None:
                taken[take.unit] += unit.batches * take.n
    assert taken == {unit.id: unit.count for unit in booklet.units}


def strips_of(booklet: Booklet) -> Counter[str]:
    """Count the units that are strips of pieced borders."""
    return Counter(strip.unit for border in booklet.borders for strip in border.strips if strip.unit is not None)


@identity
def units_stand_in_sewing_order_and_come_in_whole_batches(booklet: Booklet) -> None:
    made: set[str] = set()
    for unit in booklet.units:
        assert {take.unit for take in unit.from_ if take.unit is not None} <= made
        assert unit.count > 0
        assert unit.batches == -(-unit.count // unit.makes)
        made.add(unit.id)


@identity
def no_unit_comes_out_smaller_than_it_is_trimmed_or_used(booklet: Booklet) -> None:
    around = booklet.seam * 2
    for unit in booklet.units:
        if unit.id in TRIANGLES:  # triangles, their tips cut off or not: trimmed with the edge of the centre
            leg = max(x + y for x, y in unit.outline)
            assert unit.made.w >= leg + booklet.seam * Length(2, 1)
            continue
        size = unit.trim or unit.made
        assert (size.w, size.h) == (unit.finished.w + around, unit.finished.h + around)
        assert unit.made.w >= size.w
        assert unit.made.h >= size.h
        assert unit.trim is None or unit.trim != unit.made


@identity
def the_parts_of_a_unit_make_up_its_area(booklet: Booklet) -> None:
    """Finished outlines, by the shoelace formula in exact lengths: nothing is missing and nothing overlaps."""
    units = units_by_id(booklet)
    for unit in booklet.units:
        own = sum((area_of(region.outline) for region in unit.regions), ZERO)
        inner = sum((area_of(units[take.unit].outline) for take in unit.from_ if take.unit is not None), ZERO)
        assert own + inner == area_of(unit.outline)


def area_of(outline: tuple[tuple[Length, Length], ...]) -> Length:
    """Return the area of a polygon given by its corners, clockwise or not."""
    turned = (*outline[1:], outline[0])
    return abs(sum((a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, turned, strict=True)), ZERO)) / 2


@identity
def one_block_says_how_many_of_a_unit_it_takes(booklet: Booklet) -> None:
    blocks = Counter(place.unit for place in booklet.places) + strips_of(booklet)
    for unit in booklet.units:
        assert set(unit.per_block) <= set(blocks)
        if unit.id not in TRIANGLES:
            assert sum(copies * blocks[block] for block, copies in unit.per_block.items()) == unit.count
    for patch in booklet.patches:
        assert set(patch.per_block) <= set(blocks)


@identity
def the_seams_of_a_unit_are_those_it_lists(booklet: Booklet) -> None:
    listed = [seam for unit in booklet.units for seam in unit.seams]
    of_units = [seam.id for seam in booklet.seams if seam.of in units_by_id(booklet)]
    assert listed == of_units
    assert len({seam.id for seam in booklet.seams}) == len(booklet.seams)
    for seam in booklet.seams:
        (ax, ay), (bx, by) = seam.line
        if seam.axis == "x":
            assert (seam.at, seam.at, seam.span) == (ax, bx, (ay, by))
        elif seam.axis == "y":
            assert (seam.at, seam.at, seam.span) == (ay, by, (ax, bx))
        else:
            assert (seam.at, seam.span) == (None, None)
            assert ax != bx
            assert ay != by


@identity
def a_unit_of_k_parts_joined_in_a_line_has_k_1_seams(booklet: Booklet) -> None:
    for unit in booklet.units:
        if unit.how == "join":
            assert len(unit.seams) == len(unit.from_) - 1


# ------------------------------------------------------------------------------------- pressing, joining


@identity
def every_match_point_nests_or_is_open_or_spun_or_clashes(booklet: Booklet) -> None:
    pressing = booklet.pressing
    assert pressing.nested + pressing.open + pressing.spun + pressing.clash == pressing.match_points
    assert len(pressing.pins) == min(pressing.clash, 200)
    assert set(pressing.inside) == {unit.id for unit in booklet.units if unit.id not in TRIANGLES}
    assert pressing.turned == sum(place.pressing_turn != 0 for place in booklet.places)


@identity
def match_points_found_again_in_the_published_seams_are_those_of_the_report(booklet: Booklet) -> None:
    """Over the whole top, and inside one copy of every unit; so are the points to pin."""
    found = Top(seams_of_top(booklet)).outcomes()
    counts = Counter(found.values())
    report = booklet.pressing
    assert dict(counts) == {
        outcome: count
        for outcome, count in (
            ("nested", report.nested),
            ("open", report.open),
            ("spun", report.spun),
            ("clash", report.clash),
        )
        if count
    }
    pins = {(round(pin.x.to_float(), 5), round(pin.y.to_float(), 5)) for pin in report.pins}
    assert pins <= {at for at, outcome in found.items() if outcome == "clash"}
    for unit in booklet.units:
        if unit.id in report.inside:
            inside = Counter(Top(list(seams_of(unit, booklet))).outcomes().values())
            assert inside.total() == report.inside[unit.id].match_points
            assert inside["nested"] + inside["spun"] == report.inside[unit.id].nested


@identity
def every_place_but_the_corner_triangles_is_in_one_row(booklet: Booklet) -> None:
    rows = Counter(index for row in booklet.rows for index in row.items)
    for index, place in enumerate(booklet.places):
        assert rows[index] == (0 if place.kind == "corner" else 1)
        assert (place.row is None) == (place.kind == "corner")
    for number, row in enumerate(booklet.rows, 1):
        assert row.row == number
        assert {booklet.places[index].row for index in row.items} == {number}
        assert len(row.press) == len(row.items) - 1
    blocks = [sum(booklet.places[index].kind == "block" for index in row.items) for row in booklet.rows]
    assert booklet.set.rows == tuple(filter(None, blocks))  # sash rows are left out


@identity
def rows_corners_and_borders_have_a_seam_wherever_something_is_joined(booklet: Booklet) -> None:
    seams = Counter(seam.of for seam in booklet.seams)
    assert seams["row"] == sum(len(row.items) - 1 for row in booklet.rows)
    assert seams["rows"] == len(booklet.rows) - 1 + booklet.set.corner_triangles
    for border in booklet.borders:
        assert seams[f"border {border.order}"] == 4 + (0 if border.corner == "butted" else 4)


@identity
def blocks_are_numbered_by_row_and_position(booklet: Booklet) -> None:
    for row in booklet.rows:
        blocks = [booklet.places[index] for index in row.items if booklet.places[index].kind == "block"]
        assert [place.number for place in blocks] == [f"{row.row}.{n}" for n in range(1, len(blocks) + 1)]


@identity
def each_block_names_a_piece_for_every_print_and_never_one_piece_twice(booklet: Booklet) -> None:
    """And no piece is asked for more than its sheet gives."""
    units = units_by_id(booklet)
    bundles = [fabric.id for fabric in booklet.fabrics if isinstance(fabric.need, int)]
    served: Counter[tuple[str, int, int]] = Counter()
    for place in booklet.places:
        roles = sorted(
            {role for role in print_roles(units[place.unit], units) if role[0] in bundles}, key=role_order(bundles)
        )
        assert len(place.prints) == len(roles)
        pieces = [(fabric, number) for (fabric, _), number in zip(roles, place.prints, strict=True)]
        assert len(set(pieces)) == len(pieces)
        served.update((fabric, role, number) for (fabric, role), number in zip(roles, place.prints, strict=True))
    for fabric in bundles:
        numbers = {number for name, _, number in served if name == fabric}
        assert numbers == set(range(1, fabrics_need(booklet, fabric) + 1))


def print_roles(unit: Unit, units: dict[str, Unit]) -> Iterator[tuple[str, int]]:
    """Yield the bundle fabrics and print roles of a unit."""
    for region in unit.regions:
        if region.print is not None:
            yield region.fabric, region.print
    for take in unit.from_:
        if take.unit is not None:
            yield from print_roles(units[take.unit], units)


def role_order(bundles: list[str]) -> Callable[[tuple[str, int]], tuple[int, int]]:
    """Return the order of print roles: fabrics in the order of the booklet, then the number."""
    return lambda role: (bundles.index(role[0]), role[1])


def fabrics_need(booklet: Booklet, fabric: str) -> int:
    """Return the pieces that a bundle fabric needs."""
    need = fabrics(booklet)[fabric].need
    assert isinstance(need, int)
    return need


# -------------------------------------------------------------------------------------------- finishing


@identity
def each_border_starts_where_the_last_one_ended_and_ends_at_the_finished_size(booklet: Booklet) -> None:
    size = booklet.set.centre
    for order, border in enumerate(booklet.borders, 1):
        assert border.order == order
        assert border.before == size
        assert (border.after.w, border.after.h) == (size.w + border.width * 2, size.h + border.width * 2)
        size = border.after
    assert size == booklet.finished


@identity
def border_strips_are_long_enough_and_not_one_strip_too_many(booklet: Booklet) -> None:
    """Hold that the joined strips give all four sides after every join has eaten one strip width.

    Borders that are sewn together first are mitred as one: each has strips as long as the outermost.
    """
    measures, around = measures_of(booklet.unit), booklet.seam * 2
    for border in booklet.borders:
        lengths = {strip.edge: strip.length for strip in border.strips}
        mitre = Length({"in": 4, "cm": 12}[booklet.unit])  # a round number that is at least 4 in
        alike = [each for each in booklet.borders if each.order in border.together] or [border]
        width = sum((each.width for each in alike), ZERO)
        beyond = {"butted": ZERO, "cornerstone": ZERO, "mitred": width * 2 + mitre - around}
        before = alike[0].before
        sides = before.h + around + beyond[border.corner]
        ends = (border.after if border.corner == "butted" else before).w + around + beyond[border.corner]
        assert [strip.edge for strip in border.strips] == ["left", "right", "top", "bottom"]
        assert lengths["left"] == lengths["right"] == measures.cut_size(sides)
        assert lengths["top"] == lengths["bottom"] == measures.cut_size(ends)
        assert {strip.w for strip in border.strips} == {border.width + around}
        if border.fabric is None or border.label is None:  # pieced, or each strip cut in one piece along the fabric
            assert all(strip.unit or strip.label for strip in border.strips)
            continue
        usable = fabrics(booklet)[border.fabric].usable
        assert isinstance(usable, Length)
        need = sum(lengths.values(), ZERO)
        assert border.joined == joined(border.pieces, usable, border.width + around) >= need
        assert border.pieces == 1 or joined(border.pieces - 1, usable, border.width + around) < need


def joined(strips: int, usable: Length, width: Length) -> Length:
    """Return what strips give when each join on the diagonal eats one strip width."""
    return usable * strips - width * (strips - 1)


@identity
def the_binding_goes_round_with_its_extra(booklet: Booklet) -> None:
    if booklet.binding is None:
        return
    binding = booklet.binding
    usable = fabrics(booklet)[binding.fabric].usable
    assert isinstance(usable, Length)
    assert binding.need == (booklet.finished.w + booklet.finished.h) * 2 + binding.extra
    assert binding.length == joined(binding.strips, usable, binding.width) >= binding.need
    assert binding.strips == 1 or joined(binding.strips - 1, usable, binding.width) < binding.need


@identity
def the_backing_covers_its_size_after_what_the_joins_lose(booklet: Booklet) -> None:
    backing, inch = booklet.backing, measures_of(booklet.unit).inch
    across = backing.panel.w * backing.panels - Length(inch) * (backing.panels - 1)
    upright = across >= backing.w and backing.panel.h >= backing.h
    lying = across >= backing.h and backing.panel.h >= backing.w
    assert {"vertical": upright, "horizontal": lying, "none": (upright or lying) and backing.panels == 1}[backing.seam]
    assert backing.need == backing.panel.h * backing.panels
    assert backing.w - booklet.finished.w == backing.h - booklet.finished.h >= 0


@identity
def the_batting_comes_in_a_package_that_holds_it(booklet: Booklet) -> None:
    batting = booklet.batting
    if batting.package:
        w, h = sorted((batting.w, batting.h))
        short, long = sorted((batting.package.w, batting.package.h))
        assert w <= short
        assert h <= long


# -------------------------------------------------------------------------------------------- the record


@identity
def the_set_counts_what_is_placed(booklet: Booklet) -> None:
    kinds = Counter(place.kind for place in booklet.places)
    note = booklet.set
    assert (note.blocks, note.side_triangles, note.corner_triangles) == (kinds["block"], kinds["side"], kinds["corner"])


@identity
def the_json_is_valid_by_the_schema_and_reads_back_equal(booklet: Booklet) -> None:
    text = to_json(booklet)
    VALIDATOR.validate(json.loads(text))
    assert from_json(text) == booklet


VALIDATOR: Any = jsonschema.Draft202012Validator(json_schema())


@identity
def the_patches_tile_the_centre(booklet: Booklet) -> None:
    """All patches of all places, mapped into the centre: no hole, no overlap, nothing outside (shapely)."""
    w, h = booklet.set.centre.w.to_float(), booklet.set.centre.h.to_float()
    tiles(patches_of_centre(booklet), w, h)


@identity
def the_patches_of_a_unit_tile_its_outline(booklet: Booklet) -> None:
    units = units_by_id(booklet)
    for unit in booklet.units:
        if unit.id not in TRIANGLES:
            tiles(list(patches_of(unit, units)), unit.finished.w.to_float(), unit.finished.h.to_float())


@identity
def the_borders_tile_the_rest_of_the_quilt(booklet: Booklet) -> None:
    """Four strips a border, each on the seam that is its own, and mitres or cornerstones between them."""
    w, h = booklet.set.centre.w.to_float(), booklet.set.centre.h.to_float()
    laid = [shapely.box(0, 0, w, h)]
    for border in booklet.borders:
        width = border.width.to_float()
        seams = {seam.id.split(".")[1]: seam for seam in booklet.seams if seam.of == f"border {border.order}"}
        slant = width if border.corner == "mitred" else 0.0
        for edge, (dx, dy) in {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}.items():
            (ax, ay), (bx, by) = (tuple(each.to_float() for each in end) for end in seams[edge].line)
            out = (dx * width, dy * width)
            lean = (slant * abs(dy), slant * abs(dx))  # a mitred strip is longer at its outer edge
            corners = [(ax, ay), (bx, by), (bx + out[0] + lean[0], by + out[1] + lean[1])]
            laid.append(shapely.Polygon([*corners, (ax + out[0] - lean[0], ay + out[1] - lean[1])]))
    finished = booklet.finished.w.to_float() * booklet.finished.h.to_float()
    assert shapely.area(laid).sum() == pytest.approx(finished, rel=1e-12)
    assert not overlaps(laid)
    around = sum((border.width.to_float() for border in booklet.borders), 0.0)
    assert tuple(shapely.total_bounds(laid)) == pytest.approx((-around, -around, w + around, h + around), abs=1e-9)


def tiles(laid: list[Laid], w: float, h: float) -> None:
    """Hold that patches fill a w x h rectangle without a hole or an overlap."""
    polygons = [patch.polygon for patch in laid]
    assert shapely.area(polygons).sum() == pytest.approx(w * h, rel=1e-12)
    assert tuple(shapely.total_bounds(polygons)) == pytest.approx((0, 0, w, h), abs=1e-9)
    assert not overlaps(polygons)


def overlaps(polygons: list[shapely.Polygon]) -> bool:
    """Whether two of the polygons share an area of more than 1e-9."""
    ones, others = shapely.STRtree(polygons).query(polygons, predicate="intersects")
    pairs = ones < others
    laid = np.array(polygons)
    shared = shapely.intersection(laid[ones[pairs]], laid[others[pairs]], grid_size=1e-9)  # robust where edges touch
    return bool((shapely.area(shared) > 1e-9).any())


# --------------------------------------------------------------------------------------------- the tests


@pytest.mark.parametrize(("pattern", "size"), accepted_names())
def test_of_the_demo(pattern: str, size: str) -> None:
    for check in IDENTITIES:
        check(accepted(pattern, size))


@given(patterns())
@settings(max_examples=tries(3), suppress_health_check=list(HealthCheck))
def test_of_any_pattern(sections: dict[str, Any]) -> None:
    """Whatever the pattern: every identity above holds in every size, and every label means the same in all of them."""
    try:
        booklets = booklets_of(**sections)
    except PatternError as error:
        if any("a single piece of the bundle can give" not in problem.expected for problem in error.problems):
            raise
        reject()
    for booklet in booklets.values():
        for check in IDENTITIES:
            check(booklet)
    labels_keep_their_meaning(booklets)


def labels_keep_their_meaning(booklets: dict[str, Booklet]) -> None:
    """Hold that a label that two sizes share is the same patch in both; borders and the like may have other sizes."""
    meaning: dict[str, tuple[object, ...]] = {}
    # With one column a short sash between cornerstones is as long as the quilt is wide too, but in that size alone.
    short = {label for booklet in booklets.values() for label in labels_of(booklet) - long_sashes(booklet)}
    for booklet in booklets.values():
        for patch in booklet.patches:
            means: tuple[object, ...] = (patch.fabric, patch.print, patch.shape, patch.use)
            if patch.use in ("block", "triangle") and patch.label in short:
                means += (patch.h,)
                if patch.shape != "strip":  # the strips of a strip set are as long as the size takes of it
                    means += (patch.w,)
            assert meaning.setdefault(patch.label, means) == means


def labels_of(booklet: Booklet) -> set[str]:
    """Return the labels of the patches of one size."""
    return {patch.label for patch in booklet.patches}


def long_sashes(booklet: Booklet) -> set[str]:
    """Return the labels of strips that are as long as the quilt is wide, or as a column is long."""
    alone = [booklet.places[row.items[0]] for row in booklet.rows if len(row.items) == 1]
    units = {place.unit for place in alone if place.kind == "sash"}
    return {take.label or "" for unit in booklet.units if unit.id in units for take in unit.from_}


def test_labels_of_the_demo_mean_the_same_in_every_size() -> None:
    booklets = {size: accepted(DEMO.stem, size) for size in demo().sizes}
    labels_keep_their_meaning(booklets)
    assert len({tuple(patch.label for patch in booklet.patches) for booklet in booklets.values()}) == 1


def test_a_strip_lost_to_joins_is_a_whole_strip_in_the_count() -> None:
    """The check of joined strips itself, on a published count: 5 strips of 40 in, 2 1/2 wide, give 190."""
    assert joined(5, Length(40), Length(Fraction(5, 2))) == 190
