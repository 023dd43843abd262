"""A booklet made by hand: five 8-inch star blocks on point with two borders, small enough to be checked with a pencil.

Sizes follow the common formulas at a seam of 1/4 in: rectangles +1/2, half-square squares +7/8, geese squares +1 1/4
(common practice, no source).
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

from seamleaf.booklet.record import (
    FORMAT,
    BackingNote,
    BattingNote,
    BindingNote,
    Booklet,
    BorderNote,
    BorderStrip,
    Box,
    Buy,
    Cut,
    Estimates,
    FabricNote,
    Outline,
    Pace,
    PaceNote,
    Package,
    PatchNote,
    PatternNote,
    Place,
    Point,
    Press,
    Pressing,
    Region,
    Row,
    Seam,
    SeamSum,
    SeamTest,
    SetNote,
    Sheet,
    SheetPart,
    SizeNote,
    Take,
    ThreadNote,
    TimeNote,
    Totals,
    Unit,
)
from seamleaf.lengths import Length

A_PACE = Pace(least=30, most=80)
R2 = Length(0, 1)
D = R2 * 8
"""Diagonal of a block."""


def inches(text: str) -> Length:
    """Return ``3 1/2`` as a length."""
    return Length(sum((Fraction(part) for part in text.split()), Fraction(0)))


def box(w: Length | int, h: Length | int) -> Box:
    return Box(w=w if isinstance(w, Length) else Length(w), h=h if isinstance(h, Length) else Length(h))


def outline(*points: tuple[Length | int, Length | int]) -> Outline:
    def exact(value: Length | int) -> Length:
        return value if isinstance(value, Length) else Length(value)

    return tuple((exact(x), exact(y)) for x, y in points)


def rectangle(x: int, y: int, w: int, h: int) -> Outline:
    return outline((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def region(label: str, shape: Outline) -> Region:
    fabric, role = {"A": ("ground", None), "B": ("star", int(label[1:])), "C": ("lamp", None)}[label[0]]
    return Region(label=label, fabric=fabric, print=role, outline=shape)


def take(what: str, x: Length | int, y: Length | int, *, turn: int = 0, n: int = 1) -> Take:
    label = what if what[0] in "ABCDE" else None
    exact = [v if isinstance(v, Length) else Length(v) for v in (x, y)]
    return Take(label=label, unit=None if label else what, n=n, x=exact[0], y=exact[1], turn=turn, mirror=False)


def _counted(takes: tuple[Take, ...]) -> dict[str, int]:
    total: Counter[str] = Counter()
    for each in takes:
        total[each.label or each.unit or ""] += each.n
    return dict(total)


def unit(name: str, how: str, finished: Box, takes: tuple[Take, ...], **more: object) -> Unit:
    fields: dict[str, object] = {
        "id": name, "how": how, "method": None, "block": None, "axis": None, "finished": finished,
        "outline": outline((0, 0), (finished.w, 0), (finished.w, finished.h), (0, finished.h)),
        "from_": takes, "batch": _counted(takes), "makes": 1, "batches": 1, "count": 1, "per_block": {},
        "made": Box(w=finished.w + Fraction(1, 2), h=finished.h + Fraction(1, 2)), "trim": None, "seams": (),
        "regions": (), "symmetry": 360, "variant": None,
    }  # fmt: skip
    return Unit(**(fields | more))


def seam(name: str, of: str, axis: str, line: tuple[Point, Point], press: Press, first: str, second: str) -> Seam:
    (x1, y1), (x2, y2) = line
    at, span = {"x": (x1, (y1, y2)), "y": (y1, (x1, x2)), "d": (None, None)}[axis]
    return Seam(
        id=name,
        of=of,
        axis=axis,
        at=at,
        span=span,
        line=line,
        press=press,
        first=first,
        second=second,
    )


def line(x1: Length | int, y1: Length | int, x2: Length | int, y2: Length | int) -> tuple[Point, Point]:
    points = outline((x1, y1), (x2, y2))
    return (points[0], points[1])


def patch(
    label: str, fabric: str, size: tuple[str, str], count: int, *, shape: str = "rectangle", use: str = "block"
) -> PatchNote:
    role = int(label[1:]) if fabric == "star" else None
    return PatchNote(
        label=label, fabric=fabric, print=role, w=inches(size[0]), h=inches(size[1]), shape=shape, count=count,
        spare=0, use=use, per_block={},
    )  # fmt: skip


GEESE = unit(
    "U1", "geese", box(4, 2), (take("A1", 2, 1), take("B1", 2, 1, n=4)),
    method="four", makes=4, batches=5, count=20, per_block={"star": 4}, seams=("S1", "S2"),
    regions=(
        region("A1", outline((0, 0), (4, 0), (2, 2))),
        region("B1", outline((0, 0), (2, 2), (0, 2))),
        region("B1", outline((4, 0), (4, 2), (2, 2))),
    ),
)  # fmt: skip
HALF_SQUARE = unit(
    "U2", "half-square", box(2, 2), (take("A2", 1, 1), take("C1", 1, 1)),
    method="two", makes=2, batches=10, count=20, per_block={"star": 4}, seams=("S3",),
    regions=(region("A2", outline((0, 0), (2, 0), (0, 2))), region("C1", outline((2, 0), (2, 2), (0, 2)))),
)  # fmt: skip
UNITS = (
    GEESE,
    HALF_SQUARE,
    unit("U3", "join", box(8, 2), (take("U2", 1, 1, turn=180), take("U1", 4, 1), take("U2", 7, 1, turn=270)),
         axis="row", count=10, per_block={"star": 2}, seams=("S4", "S5")),
    unit("U4", "join", box(8, 4), (take("U1", 1, 2, turn=270), take("B2", 4, 2), take("U1", 7, 2, turn=90)),
         axis="row", count=5, per_block={"star": 1}, seams=("S6", "S7"),
         regions=(region("B2", rectangle(2, 0, 4, 4)),)),
    unit("star", "join", box(8, 8), (take("U3", 4, 1), take("U4", 4, 4), take("U3", 4, 7, turn=180)),
         axis="column", count=5, per_block={"star": 1}, seams=("S8", "S9"), block="star", symmetry=90),
    unit("T1", "patch", box(8, 8), (take("A3", 4, 4),), count=4, outline=outline((0, 0), (8, 0), (0, 8)),
         regions=(region("A3", outline((0, 0), (8, 0), (0, 8))),)),
    unit("T2", "patch", box(R2 * 4, R2 * 4), (take("A4", R2 * 2, R2 * 2),), count=4,
         outline=outline((0, 0), (R2 * 4, 0), (0, R2 * 4)),
         regions=(region("A4", outline((0, 0), (R2 * 4, 0), (0, R2 * 4))),)),
)  # fmt: skip


def _place(name: str, x: Length, y: Length, turn: int, row: int | None, number: str | None = None) -> Place:
    kind = "block" if number else ("side" if name == "T1" else "corner")
    prints = () if number is None else ((int(number[0]) * 3 + int(number[2])) % 5 + 1, int(number[2]) + 6)
    return Place(
        unit=name, x=x, y=y, turn=turn, mirror=False, row=row, prints=prints, number=number, kind=kind,
        pressing_turn=90 if number == "2.2" else 0,
    )  # fmt: skip


_H, _Q, _T = D / 2, D / 4, D * Fraction(3, 2)
_ZERO = Length(0)
PLACES = (
    _place("T1", _ZERO, D, 135, 1), _place("star", _H, _H, 45, 1, "1.1"), _place("T1", D, _ZERO, 225, 1),
    _place("star", _H, _T, 45, 2, "2.1"), _place("star", D, D, 135, 2, "2.2"), _place("star", _T, _H, 45, 2, "2.3"),
    _place("T1", D, D * 2, 45, 3), _place("star", _T, _T, 45, 3, "3.1"), _place("T1", D * 2, D, 315, 3),
    _place("T2", _Q, _Q, 0, None), _place("T2", D * 2 - _Q, _Q, 90, None),
    _place("T2", D * 2 - _Q, D * 2 - _Q, 180, None), _place("T2", _Q, D * 2 - _Q, 270, None),
)  # fmt: skip
SEAMS = (
    seam("S1", "U1", "d", line(0, 0, 2, 2), "after", "A1", "B1"),
    seam("S2", "U1", "d", line(4, 0, 2, 2), "after", "A1", "B1"),
    seam("S3", "U2", "d", line(2, 0, 0, 2), "before", "A2", "C1"),
    seam("S4", "U3", "x", line(2, 0, 2, 2), "before", "U2", "U1"),
    seam("S5", "U3", "x", line(6, 0, 6, 2), "after", "U1", "U2"),
    seam("S6", "U4", "x", line(2, 0, 2, 4), "after", "U1", "B2"),
    seam("S7", "U4", "x", line(6, 0, 6, 4), "before", "B2", "U1"),
    seam("S8", "star", "y", line(0, 2, 8, 2), "after", "U3", "U4"),
    seam("S9", "star", "y", line(0, 6, 8, 6), "open", "U4", "U3"),
    seam("S10", "rows", "d", line(_ZERO, _T, _T, _ZERO), "after", "row 1", "row 2"),
    seam("S11", "rows", "d", line(_H, D * 2, D * 2, _H), "before", "row 2", "row 3"),
    seam("S12", "border 1", "x", line(_ZERO, _ZERO, _ZERO, D * 2), "before", "border 1", "centre"),
    seam("S13", "border 1", "x", line(D * 2, _ZERO, D * 2, D * 2), "after", "centre", "border 1"),
    seam("S14", "border 1", "y", line(-1, 0, D * 2 + 1, 0), "before", "border 1", "centre"),
    seam("S15", "border 1", "y", line(-1, D * 2, D * 2 + 1, D * 2), "after", "centre", "border 1"),
)


def _border(order: int, width: int, before: Length) -> BorderNote:
    label = f"D{order}"
    after = before + 2 * width
    cut = Length(width) + Fraction(1, 2)
    lengths = [before + Fraction(1, 2)] * 2 + [after + Fraction(1, 2)] * 2
    edges = zip(("left", "right", "top", "bottom"), lengths, strict=True)
    return BorderNote(
        label=label, fabric="edge", width=Length(width), corner="butted", order=order, pieces=4, joined=Length(152),
        together=(), strips=tuple(BorderStrip(edge=e, length=n.round_up(Fraction(1, 8)), w=cut) for e, n in edges),
        corners=None, before=Box(w=before, h=before), after=Box(w=after, h=after),
    )  # fmt: skip


def _fabric(name: str, letter: str, title: str, colours: tuple[str, ...], *, bundle: bool = False) -> FabricNote:
    return FabricNote(
        id=name, letter=letter, title=title, source="squares 10" if bundle else "yardage",
        usable=Box(w=inches("9 3/4"), h=inches("9 3/4")) if bundle else Length(40), margin=Length(0 if bundle else 2),
        need=5 if bundle else Length(30), bound=5 if bundle else Length(30),
        buy=(bought := Buy(amount=1, unit="pack") if bundle else Buy(amount=Fraction(1), unit="yd")), least=bought,
        also=None if bundle else Buy(amount=Fraction(1), unit="m"), prints=5 if bundle else 1,
        pack=42 if bundle else None, pinked=bundle, directional=False, colours=colours, tightest=Length(1), cliff=None,
    )  # fmt: skip


def _strip(fabric: str, height: str, times: int, label: str, width: str, count: int) -> Sheet:
    """Return a strip that is sub-cut into ``count`` patches, one after the other."""
    w, h = inches(width), inches(height)
    return Sheet(
        fabric=fabric, sheet=box(40, h), times=times, print=None, mixed=False,
        parts=tuple(SheetPart(label=label, x=w * i, y=Length(0), w=w, h=h) for i in range(count)),
        cuts=tuple(Cut(n=i, axis="x", at=w * i, span=(Length(0), h)) for i in range(1, count + 1)),
        gives={label: count}, pieces=None,
    )  # fmt: skip


def _bundle_sheet() -> Sheet:
    """Return a 10-inch square cut for print 1: four sky squares, the strip below them resting."""
    side, w = inches("9 3/4"), inches("2 7/8")
    spots = [(Length(0), Length(0)), (w, Length(0)), (w * 2, Length(0)), (Length(0), w)]
    zero = Length(0)
    cuts = (
        Cut(n=1, axis="y", at=w, span=(zero, side)), Cut(n=2, axis="x", at=w, span=(zero, w)),
        Cut(n=3, axis="x", at=w * 2, span=(zero, w)), Cut(n=4, axis="x", at=w * 3, span=(zero, w)),
        Cut(n=5, axis="y", at=w * 2, span=(zero, side)), Cut(n=6, axis="x", at=w, span=(w, w * 2)),
    )  # fmt: skip
    return Sheet(
        fabric="star", sheet=box(side, side), times=5, print=1, mixed=False, cuts=cuts,
        parts=tuple(SheetPart(label="B1", x=x, y=y, w=w, h=w) for x, y in spots), gives={"B1": len(spots)}, pieces=None,
    )  # fmt: skip


def _centre_sheet() -> Sheet:
    side, w, zero = inches("9 3/4"), inches("4 1/2"), Length(0)
    return Sheet(
        fabric="star", sheet=box(side, side), times=5, print=2, mixed=False,
        parts=(SheetPart(label="B2", x=zero, y=zero, w=w, h=w),), gives={"B2": 1}, pieces=None,
        cuts=(Cut(n=1, axis="y", at=w, span=(zero, side)), Cut(n=2, axis="x", at=w, span=(zero, w))),
    )  # fmt: skip


_CENTRE = D * 2
_SECOND = _CENTRE + 2
_WHOLE = _SECOND + 8
BOOKLET = Booklet(
    format=FORMAT,
    pattern=PatternNote(
        id="small-star", title="Small Star", version="1.0.0", designer="Ada Marrow", summary="Five stars.", skill="any"
    ),
    size=SizeNote(id="wall", title="Wall", scale=1, cover=None, bed=Box(w=Length(39), h=Length(75))),
    unit="in",
    seam=Length(Fraction(1, 4)),
    seam_test=SeamTest(strip=Length(Fraction(3, 2)), middle=Length(1), whole=Length(Fraction(7, 2))),
    finished=Box(w=_WHOLE, h=_WHOLE),
    set=SetNote(
        kind="on-point", across=2, down=2, block=box(8, 8), blocks=5, side_triangles=4, corner_triangles=4,
        rows=(1, 3, 1), centre=Box(w=_CENTRE, h=_CENTRE), trim_beyond=Length(Fraction(1, 4)),
    ),
    fabrics=(
        _fabric("ground", "A", "Deep blue solid", ("#22334f",)),
        _fabric("star", "B", "Bright prints", ("#d9593d", "#f2e3c2", "#3f9a94", "#f08a5d", "#a9cfc4"), bundle=True),
        _fabric("lamp", "C", "Lamp gold solid", ("#e6b03c",)),
        _fabric("edge", "D", "Brick red solid", ("#8c3236",)),
        _fabric("backing", "E", "Backing", ("#d8d4cc",)),
    ),
    patches=(
        patch("A1", "ground", ("5 1/4", "5 1/4"), 5), patch("A2", "ground", ("2 7/8", "2 7/8"), 10),
        patch("A3", "ground", ("12 5/8", "12 5/8"), 4, shape="quartered", use="triangle"),
        patch("A4", "ground", ("6 5/8", "6 5/8"), 4, shape="halved", use="triangle"),
        patch("A5", "ground", ("2 1/2", "40"), 4, shape="strip", use="binding"),
        patch("B1", "star", ("2 7/8", "2 7/8"), 20), patch("B2", "star", ("4 1/2", "4 1/2"), 5),
        patch("C1", "lamp", ("2 7/8", "2 7/8"), 10),
        patch("D1", "edge", ("1 1/2", "40"), 4, shape="strip", use="border"),
        patch("D2", "edge", ("4 1/2", "40"), 4, shape="strip", use="border"),
        patch("E1", "backing", ("40", "41"), 2, shape="strip", use="backing"),
    ),
    cutting=(
        _strip("ground", "12 5/8", 1, "A3", "12 5/8", 1), _strip("ground", "6 5/8", 1, "A4", "6 5/8", 2),
        _strip("ground", "5 1/4", 1, "A1", "5 1/4", 5), _strip("ground", "2 7/8", 1, "A2", "2 7/8", 10),
        _bundle_sheet(), _centre_sheet(),
        _strip("lamp", "2 7/8", 1, "C1", "2 7/8", 10), _strip("edge", "1 1/2", 4, "D1", "40", 1),
    ),
    units=UNITS,
    seams=SEAMS,
    pressing=Pressing(match_points=24, nested=24, open=0, spun=0, clash=0, proven=True, inside={}, turned=1, pins=()),
    places=PLACES,
    rows=(
        Row(row=1, items=(0, 1, 2), press=("before", "after"), beside=None, left_open=()),
        Row(row=2, items=(3, 4, 5), press=("after", "after"), beside=None, left_open=()),
        Row(row=3, items=(6, 7, 8), press=("open", "before"), beside=None, left_open=()),
    ),
    gates=(),
    borders=(_border(1, 1, _CENTRE), _border(2, 4, _SECOND)),
    binding=BindingNote(
        label="A5", fabric="ground", need=Length(140), extra=Length(12), length=Length(150), strips=4,
        width=inches("2 1/2"),
        cut="crosswise", square=None, rounds=None,
    ),
    backing=BackingNote(
        label="E1", fabric="backing", w=_WHOLE + 8, h=_WHOLE + 8, panels=2, seam="vertical", need=Length(82),
        panel=box(40, 41), allowance=inches("1/2"), insert_asked=False, insert=None),
    batting=BattingNote(w=_WHOLE + 8, h=_WHOLE + 8, package=Package(id="crib", w=Length(45), h=Length(60))),
    offcuts=(),
    classes=(),
    totals=Totals(sheets=19, patches=72, units=68),
    estimates=Estimates(
        cuts=60,
        seams=(SeamSum(of="units", count=60, length=Length(200)),),
        thread=ThreadNote(ratio=Fraction(5, 2), waste=Fraction(1, 5), amounts=()),
        paces=PaceNote(cuts=A_PACE, seams=A_PACE, presses=A_PACE, pinned=A_PACE),
        time=TimeNote(works=(), least=1, most=2),
    ),
    cautions=(),
)  # fmt: skip


def with_unit(name: str, **changes: object) -> Booklet:
    """Return the booklet with one unit changed."""
    units = tuple(replace(u, **changes) if u.id == name else u for u in BOOKLET.units)
    return replace(BOOKLET, units=units)
