"""The centre: blocks and triangles laid out again, exactly, and the rows that they are sewn in."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Final

from seamleaf.lengths import ZERO, Length
from seamleaf.proof.book import Book
from seamleaf.proof.chain import edges, tiles
from seamleaf.proof.outlines import ROOT2, setting_leg
from seamleaf.proof.plane import Plane, Polygon, Vector, add, subtract, turned
from seamleaf.proof.record import Place, Row
from seamleaf.proof.report import Findings, say
from seamleaf.proof.shapes import Shape

SET: Final = "set"
TILES: Final = "places tile the centre"
GRAIN: Final = "grain"
TRIANGLES: Final = "setting triangles"
ROWS: Final = "rows"
PLACES: Final = "places"
SYMMETRY: Final = "turned blocks"

KINDS: Final = ("block", "side", "corner", "sash", "cornerstone")


def check_set(book: Book, findings: Findings) -> None:
    """Compare the counts of the set with those that across and down make, and the places."""
    note = book.booklet.set
    at, m, n = note.pointer, note.across, note.down
    if not findings.expect(m > 0 and n > 0, SET, at, f"a set of {m} x {n} blocks"):
        return
    counts = Counter(place.kind for place in book.booklet.places)
    stray = sorted(counts.keys() - set(KINDS))
    findings.expect(not stray, PLACES, "/places", f"places of kind {', '.join(stray)}, which this proof cannot lay")
    on_point = note.kind == "on-point"
    blocks = m * n + ((m - 1) * (n - 1) if on_point else 0)
    sides, corners = (2 * (m + n - 2), 4) if on_point else (0, 0)
    for key, stated, kind, real in (
        ("blocks", note.blocks, "block", blocks),
        ("side_triangles", note.side_triangles, "side", sides),
        ("corner_triangles", note.corner_triangles, "corner", corners),
    ):
        findings.expect_equal(stated, real, SET, f"{at}/{key}", f"{kind}s of {m} x {n} {note.kind}")
        findings.expect_equal(counts[kind], real, PLACES, "/places", f"places of kind {kind}")
    w, h = note.block.sides
    message = f"blocks of {say(note.block)} cannot stand on point"
    findings.expect(not on_point or w == h, SET, note.block.pointer, message)
    findings.expect(not on_point or note.run == "across", SET, f"{at}/run", "rows on point run neither across nor down")
    if on_point:
        edge = _check_diagonal_sashing(book, counts, findings)
        pitch, floats = w + abs(edge), note.float * 2
        centre = (pitch * m + edge) * ROOT2 + floats, (pitch * n + edge) * ROOT2 + floats
    else:
        sash, extra = _check_sashing(book, counts, findings)
        centre = w * m + sash * (m + extra), h * n + (ZERO if note.run == "down" else sash * (n + extra))
    findings.expect_equal(note.centre.sides, centre, SET, note.centre.pointer, "finished centre")
    beyond = note.float + book.seam
    findings.expect_equal(note.trim_beyond, beyond, SET, f"{at}/trim_beyond", "left beyond the block points")
    message = f"blocks of a {note.kind} set float by {say(note.float)}"
    findings.expect(note.float >= 0 if on_point else not note.float, SET, f"{at}/float", message)
    rows = [sum(book.booklet.places[item].kind == "block" for item in row.items) for row in book.booklet.rows]
    blocks_a_row = [count for count in rows if count]
    findings.expect_equal(list(note.rows), blocks_a_row, SET, f"{at}/rows", "blocks a row")


def _check_sashing(book: Book, counts: Counter[str], findings: Findings) -> tuple[Length, int]:
    """Return the sashes' width, and by how many there are more across than blocks: one round them, or one less.

    With cornerstones, m x n blocks have m(n-1) + n(m-1) sashes and (m-1)(n-1) cornerstones between them, or
    m(n+1) + n(m+1) and (m+1)(n+1) with a sash round all; without cornerstones every second row is one long sash.
    m columns of a strippy set have m-1 strips between them, or m+1 with those at the edges.
    """
    m, n = book.booklet.set.across, book.booklet.set.down
    if not counts["sash"]:
        findings.expect(not counts["cornerstone"], PLACES, "/places", "cornerstones without sashes")
        return ZERO, 0
    stated = counts["sash"], counts["cornerstone"]
    if book.booklet.set.run == "down":
        for extra in (-1, 1):
            if stated == (m + extra, 0):
                return _strip_width(book), extra
        findings.add(PLACES, "/places", f"{stated[0]} strips and {stated[1]} cornerstones for {m} columns")
        return ZERO, 0
    for extra in (-1, 1):
        between, corners = (m + extra) * n, (m + extra) * (n + extra)
        if stated in ((between + m * (n + extra), corners), (between + n + extra, 0)):
            return _sash_width(book), extra
    findings.add(PLACES, "/places", f"{stated[0]} sashes and {stated[1]} cornerstones for {m} x {n} blocks")
    return ZERO, 0


def _check_diagonal_sashing(book: Book, counts: Counter[str], findings: Findings) -> Length:
    """Return by how much the outer sashes of an on-point set add to it: their width, or less that without any.

    N blocks in it, m across and n down, have 2N + 2(m+n-1) sashes and N + 2(m+n-1) + 1 cornerstones with sashes
    round all of them: each block's right and lower sash, and those left or above of the blocks at the edge. Of these
    the outer 4(m+n-1) sashes and 4(m+n-1) cornerstones are left out when no sash lies at the edge.
    """
    m, n = book.booklet.set.across, book.booklet.set.down
    stated = counts["sash"], counts["cornerstone"]
    blocks, ends = m * n + (m - 1) * (n - 1), 2 * (m + n - 1)
    if stated == (0, 0):
        return ZERO
    if stated == (2 * blocks + ends, blocks + ends + 1):
        return _sash_width(book)
    if stated == (2 * blocks - ends, blocks - ends + 1):
        return -_sash_width(book)
    if stated == (blocks + ends + 1, 0):
        return _sash_width(book)
    if stated == (blocks - 1, 0):
        return -_sash_width(book)
    findings.add(PLACES, "/places", f"{stated[0]} sashes and {stated[1]} cornerstones for {m} x {n} blocks on point")
    return ZERO


def _strip_width(book: Book) -> Length:
    """Return the width of a strip between columns as it lies: it may be wider than the columns are long."""
    strip = next(place for place in book.booklet.places if place.kind == "sash")
    finished = book.units[strip.unit].finished
    return finished.h if strip.turn % 180 == 90 else finished.w


def _sash_width(book: Book) -> Length:
    """Return the width of the sashes: the shorter side of one; the least, as a block may be narrower than they are."""
    sashes = [book.units[place.unit].finished for place in book.booklet.places if place.kind == "sash"]
    stones = [book.units[place.unit].finished for place in book.booklet.places if place.kind == "cornerstone"]
    return stones[0].w if stones else min(min(sash.sides) for sash in sashes)


def lay_places(book: Book, shapes: dict[str, Shape], findings: Findings) -> list[Polygon] | None:
    """Lay every place and see that together they tile the centre; return their outlines."""
    before = len(findings.found)
    booklet, plane = book.booklet, book.plane
    turned_outlines: dict[tuple[str, int, bool], Polygon] = {}
    laid: list[Polygon] = []
    for place in booklet.places:
        if place.turn % 45 or not 0 <= place.turn < 360:
            findings.add(PLACES, f"{place.pointer}/turn", f"a turn of {place.turn} degrees")
            return None
        key = place.unit, place.turn, place.mirror
        if key not in turned_outlines:
            turned_outlines[key] = _centred(shapes[place.unit], place)
        centre = plane.point(place.x, place.y)
        laid.append(tuple(add(point, centre) for point in turned_outlines[key]))
        _check_kind(book, place, findings)
    w, h = booklet.set.centre.sides
    whole = (plane.point(ZERO, ZERO), plane.point(w, ZERO), plane.point(w, h), plane.point(ZERO, h))
    gap = tiles(laid, whole, plane)
    if gap is not None:
        near = [place.pointer for place, outline in zip(booklet.places, laid, strict=True) if gap in outline]
        where = f"x = {say(plane.length(gap[:2]))}, y = {say(plane.length(gap[2:]))}"
        message = (
            f"places leave gaps, overlap or stick out of the centre at {where}, beside {', '.join(near) or 'none'}"
        )
        findings.add(TILES, near[0] if near else "/places", message)
    return laid if len(findings.found) == before else None


def _centred(shape: Shape, place: Place) -> Polygon:
    outline = tuple(turned(subtract(point, shape.middle), place.turn // 45, place.mirror) for point in shape.outline)
    return outline[::-1] if place.mirror else outline


def _check_kind(book: Book, place: Place, findings: Findings) -> None:
    """See that a block is as large as the set says, and a triangle has three corners."""
    unit = book.units[place.unit]
    if place.kind == "block":
        sides = book.booklet.set.block.sides
        lying = unit.finished.sides if place.turn % 180 < 90 else unit.finished.sides[::-1]
        good = len(unit.outline) == 4 and lying == sides
        if not good:
            message = f"{unit.id} of {say(unit.finished)} stands for a block of {say(book.booklet.set.block)}"
            findings.add(PLACES, f"{place.pointer}/unit", message)
    elif place.kind in ("side", "corner"):
        if setting_leg(unit.outline) is None:
            findings.add(PLACES, f"{place.pointer}/unit", f"{unit.id} is no {place.kind}")
    elif len(unit.outline) != 4:
        findings.add(PLACES, f"{place.pointer}/unit", f"{unit.id} is no {place.kind}")


# ------------------------------------------------------------------------------------------ triangles


def check_triangles(book: Book, laid: list[Polygon], findings: Findings) -> None:
    """Straight grain lies along the quilt's edge, and sides and corners are oversized alike."""
    sides, corners = _edge_lines(book)
    for place, outline in zip(book.booklet.places, laid, strict=True):
        unit = book.units[place.unit]
        if place.kind not in ("side", "corner"):
            continue
        patch = book.patches[unit.from_[0].label or ""]
        for start, end in edges(outline):
            on_edge = (start[:2] == end[:2] and start[:2] in sides) or (start[2:] == end[2:] and start[2:] in corners)
            long_edge = _is_long(book.plane, outline, start, end)
            # A square cut once has straight grain on its triangles' legs, cut twice on their long edge.
            if on_edge and long_edge != (patch.shape == "quartered"):
                message = f"{patch.label} is {patch.shape}, so the edge of the quilt would be on the bias"
                findings.add(GRAIN, f"{place.pointer}/unit", message)
    _check_oversize(book, findings)
    _check_float(book, laid, findings)


def _check_float(book: Book, laid: list[Polygon], findings: Findings) -> None:
    """See that the points of the blocks, or of the outer cornerstones, lie as far inside each edge as is said."""
    note, rank = book.booklet.set, book.plane.rank
    inner = [
        point
        for place, outline in zip(book.booklet.places, laid, strict=True)
        if place.kind not in ("side", "corner")
        for point in outline
    ]
    if note.kind != "on-point" or not inner:
        return
    xs, ys = sorted({point[:2] for point in inner}, key=rank), sorted({point[2:] for point in inner}, key=rank)
    w, h = note.centre.sides
    for edge, nearest, far in (
        ("left", xs[0], ZERO),
        ("top", ys[0], ZERO),
        ("right", xs[-1], w),
        ("bottom", ys[-1], h),
    ):
        left = abs(far - book.plane.length(nearest))
        message = f"the points of the blocks stay {say(left)} away from the edge on the {edge}"
        findings.expect(left == note.float, TRIANGLES, f"{note.pointer}/float", message)


def _edge_lines(book: Book) -> tuple[set[tuple[int, ...]], set[tuple[int, ...]]]:
    plane, centre = book.plane, book.booklet.set.centre
    zero = plane.coordinate(ZERO)
    return {zero, plane.coordinate(centre.w)}, {zero, plane.coordinate(centre.h)}


def _is_long(plane: Plane, outline: Polygon, start: Vector, end: Vector) -> bool:
    """Whether an edge of a triangle is the long one: the legs slope if it is straight, and the other way round."""
    straight = [(plane.direction(subtract(b, a)) or 0) % (2 * plane.eighth) == 0 for a, b in edges(outline)]
    own = (plane.direction(subtract(end, start)) or 0) % (2 * plane.eighth) == 0
    return straight.count(own) == 1


def _check_oversize(book: Book, findings: Findings) -> None:
    """Both squares may be larger than needed by the same, so that the same is trimmed from every edge."""
    over: dict[str, Length] = {}
    for kind in ("side", "corner"):
        for place in book.booklet.places:
            leg = setting_leg(book.units[place.unit].outline)
            if place.kind == kind and leg is not None:
                patch = book.patches[book.units[place.unit].from_[0].label or ""]
                exact = leg * ROOT2 + book.seam * Length(2, 2) if kind == "side" else leg + book.seam * Length(2, 1)
                over[kind] = patch.w - exact
                break
    if len(over) == 2:
        message = f"side squares are {say(over['side'])} too large, corner squares {say(over['corner'])}"
        good = abs(over["side"] - over["corner"]) < book.grid
        findings.expect(good, TRIANGLES, "/patches", f"{message}: the edges would be trimmed by different amounts")


# ----------------------------------------------------------------------------------------------- rows


def check_rows(book: Book, findings: Findings) -> None:
    """Every place is in one row, corner triangles in none; rows run in order, each from its start to its end."""
    booklet = book.booklet
    listed = Counter(item for row in booklet.rows for item in row.items)
    row_of = {item: row.row for row in booklet.rows for item in row.items}
    for index, place in enumerate(booklet.places):
        wanted = 0 if place.kind == "corner" else 1
        message = f"a {place.kind} stands in {listed[index]} rows"
        findings.expect(listed[index] == wanted, ROWS, place.pointer, message)
        stated = None if place.kind == "corner" else row_of.get(index)
        findings.expect_equal(place.row, stated, ROWS, f"{place.pointer}/row", "row of the place")
    for number, row in enumerate(booklet.rows, 1):
        findings.expect_equal(row.row, number, ROWS, f"{row.pointer}/row", "number of the row")
        message = f"{len(row.items)} items joined by {len(row.press)} seams"
        findings.expect(len(row.press) == len(row.items) - 1, ROWS, f"{row.pointer}/press", message)
        _check_order(book, row, findings)
    depths = [_depth(book, row) for row in booklet.rows if row.items]
    ordered = all(a < b for a, b in pairwise(depths))
    findings.expect(ordered, ROWS, "/rows", "the rows do not run from the top left corner of the quilt")
    _check_numbers(book, findings)


def _depth(book: Book, row: Row) -> Length:
    """Return how far a row lies from the top left corner, across the way it runs."""
    place = book.booklet.places[row.items[0]]
    if book.booklet.set.run == "down":
        return place.x
    return place.y if book.booklet.set.kind == "straight" else place.x + place.y


def _check_order(book: Book, row: Row, findings: Findings) -> None:
    places = [book.booklet.places[item] for item in row.items]
    if book.booklet.set.run == "down":
        for index, (a, b) in enumerate(pairwise(places), 1):
            message = f"row {row.row} does not run in one line from top to bottom"
            findings.expect(a.y < b.y and a.x == b.x, ROWS, f"{row.pointer}/items/{index}", message)
        return
    on_point = book.booklet.set.kind == "on-point"
    sashed = any(place.kind == "sash" for place in book.booklet.places)
    for index, (a, b) in enumerate(pairwise(places), 1):
        straight = (b.x - a.x == a.y - b.y) if on_point else a.y == b.y
        # Beside sashes a triangle is longer than its row is wide, so that its middle lies off the row's.
        straight = straight or (on_point and sashed and "side" in (a.kind, b.kind))
        message = (
            f"row {row.row} does not run in one line from {'lower left to upper' if on_point else 'left to'} right"
        )
        findings.expect(a.x < b.x and straight, ROWS, f"{row.pointer}/items/{index}", message)
    blocks = [place.kind for place in places]
    message = f"row {row.row} is {', '.join(blocks)}: triangles stand at the ends of rows"
    findings.expect("side" not in blocks[1:-1], ROWS, f"{row.pointer}/items", message)


def _check_numbers(book: Book, findings: Findings) -> None:
    """Blocks are numbered row.position; triangles are not."""
    numbers: dict[int, str] = {}
    for row in book.booklet.rows:
        blocks = [item for item in row.items if book.booklet.places[item].kind == "block"]
        numbers |= {item: f"{row.row}.{position}" for position, item in enumerate(blocks, 1)}
    for index, place in enumerate(book.booklet.places):
        findings.expect_equal(place.number, numbers.get(index), ROWS, f"{place.pointer}/number", "number of the place")
