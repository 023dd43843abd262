"""Errata of hand-made patterns, and how they are hunted: planted in a good booklet, each must be found.

The numbers E1 to E40 are those of a list of common errata in patterns of several sizes (common practice, no source);
M numbers are our own.
"""

from __future__ import annotations

import functools
import json
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from accepted import accepted_names, accepted_text
from proved import findings_in
from seamleaf.proof import Finding
from spoiling import (
    CRIB,
    FLOATING,
    HALVED,
    LONG,
    NINE,
    PIECED,
    ROUND,
    SASHED,
    SPUN,
    STRIPPY,
    TAUGHT,
    WAYS,
    Erratum,
    at,
    cut_the_other_way,
    dealt_in_order,
    everywhere,
    finished_for_cut,
    flipped,
    more,
    overlapped,
    overlong,
    plus,
    recut,
    recut_all,
    renumbered,
    spoilt,
    swapped,
    twice,
    uncaught,
    uncut,
    unready,
    unsewn,
    widen,
    without,
)

COMMON = [
    Erratum("E1", "the size on the cover is not centre and borders", CRIB, "finished size", {"/finished/w": plus("1")}),
    Erratum("E2", "a finished size is given for a cut one", CRIB, "made", {"": finished_for_cut}),
    Erratum(
        "E3",
        "a half-square's squares are cut with 1/2 in place of 7/8",
        CRIB,
        "made",
        {"": lambda booklet: recut("A1", "5/2")(recut("C1", "5/2")(booklet))},
    ),
    Erratum(
        "E3a",
        "a half-square's squares are cut with 1 1/4 in place of 7/8",
        CRIB,
        "made",
        {"": lambda booklet: recut("A1", "13/4")(recut("C1", "13/4")(booklet))},
    ),
    Erratum(
        "E4",
        "quarter-square triangles are cut with 7/8 in place of 1 1/4",
        WAYS,
        "made",
        {"": lambda booklet: recut_all("quarter-square", "-3/8")(booklet)},
    ),
    Erratum(
        "E4a",
        "the half of a three-triangle square is cut with 1 1/4 in place of 7/8",
        WAYS,
        "made",
        {"": recut("B14", "21/4")},
    ),
    Erratum(
        "E4b",
        "the rectangles of half-rectangles are cut too narrow",
        WAYS,
        "made",
        {f"/patches/{label}/w": "21/8" for label in ("A12", "B15")},
        alone=True,
    ),
    Erratum(
        "E4c",
        "mirrored half-rectangles are cut like the others",
        WAYS,
        "made",
        {
            f"/patches/{label}/{side}": value
            for label in ("A13", "B16")
            for side, value in (("w", "23/8"), ("h", "11/2"))
        },
        alone=True,
    ),
    Erratum("E4d", "the tips of a half-rectangle lie even", WAYS, "made", {"/units/U21/offset": "0"}, alone=True),
    Erratum(
        "E4e", "nobody is told how far tips stick out", WAYS, "offset of tips", {"/units/U21/offset": None}, alone=True
    ),
    Erratum(
        "E5",
        "side squares are cut once and corner squares twice",
        CRIB,
        "grain",
        {"/patches": cut_the_other_way},
    ),
    Erratum("E6", "setting triangles are cut too small", CRIB, "made", {"": recut("A5", "18")}),
    Erratum(
        "E6a", "side and corner squares are not oversized alike", CRIB, "setting triangles", {"": recut("A6", "39/4")}
    ),
    Erratum("E7", "the number of side triangles is another size's", CRIB, "set", {"/set/side_triangles": 10}),
    Erratum("E8", "the blocks of the inner grid are forgotten", CRIB, "set", {"/set/blocks": 6}),
    Erratum(
        "E9",
        "make 16 where 18 are needed",
        CRIB,
        "unit identity",
        {"/units/how=join/count": more(-2), "/units/how=join/batches": more(-2)},
    ),
    Erratum("E9a", "too few batches for the count", CRIB, "batches", {"/units/0/batches": more(-1)}),
    Erratum(
        "E10",
        "a count per block stands for the quilt's",
        CRIB,
        "label identity",
        {"/patches/use=block/count": more(-4)},
    ),
    Erratum(
        "E10a",
        "the quilt's count stands for that of a block",
        CRIB,
        "per block",
        {"/patches/use=block/per_block": lambda counts: {block: 9 * n for block, n in counts.items()}},
    ),
    Erratum(
        "E11",
        "a purchase from another column of the table",
        CRIB,
        "buy",
        {"/fabrics/source=yardage/buy/amount": plus("2")},
    ),
    Erratum("E12", "a strip too few is cut", CRIB, "cut and count", {"/cutting/0/times": more(-1)}),
    Erratum("E12a", "the need leaves a strip out", CRIB, "need", {"/fabrics/source=yardage/need": plus("-5/2")}),
    Erratum("E12b", "strips are cut across more than the usable width", CRIB, "sheets", {"/cutting/1/sheet/w": "44"}),
    Erratum(
        "E13", "a purchase is rounded to the nearest, and so down", CRIB, "buy", {"/fabrics/backing/buy/amount": "11/4"}
    ),
    Erratum(
        "E14", "the binding is missing from its fabric's cutting", CRIB, "cut and count", {"/cutting": uncut("A7")}
    ),
    Erratum(
        "E15", "the count of border strips ignores what joins eat", SASHED, "borders", {"/borders/0/pieces": more(-1)}
    ),
    Erratum(
        "E16",
        "top and bottom are as long as the quilt without its sides",
        CRIB,
        "borders",
        {"/borders/0/strips/2/length": plus("-2"), "/borders/0/strips/3/length": plus("-2")},
    ),
    Erratum("E17", "the borders change places", CRIB, "borders", {"/borders": swapped(0, 1)}),
    Erratum(
        "E17a",
        "top and bottom are sewn first, with the lengths of sides first",
        CRIB,
        "borders",
        {"/borders/corner=butted/strips": lambda strips: [*strips[2:], *strips[:2]]},
    ),
    Erratum(
        "E18",
        "a mitred strip is as long as the quilt only",
        SASHED,
        "borders",
        {"/borders/corner=mitred/strips/0/length": plus("-2")},
    ),
    Erratum("E19", "the binding is a strip short", CRIB, "binding", {"/binding/strips": more(-1)}),
    Erratum(
        "E19a",
        "the binding's need leaves a side of the quilt out",
        CRIB,
        "binding",
        {"/binding/need": plus("-7-24*r2")},
    ),
    Erratum("E20", "the backing has a panel too few", CRIB, "backing", {"/backing/panels": 1}),
    Erratum(
        "E20a",
        "the backing's seams run the other way than its fabric is bought for",
        CRIB,
        "backing",
        {"/backing/seam": "vertical"},
    ),
    Erratum(
        "E20d",
        "the strip of leftovers in the back is a piece too short",
        PIECED,
        "backing",
        {"/backing/insert/pieces/0/count": more(-1)},
    ),
    Erratum(
        "E20e",
        "the strip in the back is narrower than what the panels lack",
        PIECED,
        "backing",
        {"/backing/insert/width": "4"},
    ),
    Erratum(
        "E20f",
        "the strip in the back takes more whole pieces than the bundle has to spare",
        PIECED,
        "backing",
        {
            "/backing/insert/pieces/0/count": 40,
            "/backing/insert/length": "761/2",
        },
    ),
    Erratum(
        "E20g", "the strip in the back saves less than is said", PIECED, "backing", {"/backing/insert/saves": plus("1")}
    ),
    Erratum("E20i", "joins of the back lose more than its panels have", CRIB, "backing", {"/backing/allowance": "3/4"}),
    Erratum("E20h", "the print of the back lies on its side", CRIB, "backing", {"/fabrics/backing/directional": True}),
    Erratum("E20b", "the backing is no larger than the top on one side", CRIB, "backing", {"/backing/w": "7+24*r2"}),
    Erratum(
        "E20c",
        "the backing's seams run the way that takes more fabric",
        CRIB,
        "backing",
        {
            "/backing/seam": "vertical",
            "/backing/panel/h": "66",
            "/backing/need": "132",
            "/patches/E1/h": "66",
            "/fabrics/backing/need": "132",
        },
        alone=True,
    ),
    Erratum("E21", "the batting does not follow the quilt", CRIB, "batting", {"/batting/w": plus("3")}),
    Erratum(
        "E21a",
        "the package of batting is too small",
        CRIB,
        "batting",
        {"/batting/package": {"id": "crib", "w": "45", "h": "60"}},
    ),
    Erratum(
        "E21b",
        "a larger package of batting than is needed",
        CRIB,
        "batting",
        {"/batting/package": {"id": "queen", "w": "90", "h": "108"}},
    ),
    Erratum(
        "E22",
        "a label stands for two patches",
        CRIB,
        "names",
        {"/patches": lambda patches: [patches[0], {**patches[1], "label": patches[0]["label"]}, *patches[2:]]},
    ),
    Erratum(
        "E22a",
        "a patch is cut and never used",
        CRIB,
        "label identity",
        {"/units/star/from": without(0), "/units/U5/from": without(0)},
        alone=True,
    ),
    Erratum("E23", "a patch is used and never cut", CRIB, "cut and count", {"/cutting": uncut("B2")}),
    Erratum("E23a", "a unit takes a patch that does not exist", CRIB, "names", {"/units/how=join/from/0/label": "A44"}),
    Erratum(
        "E24", "a unit is turned the wrong way in its row", CRIB, "symmetry", {"/units/U2/from/1/turn": 270}, alone=True
    ),
    Erratum(
        "E24a",
        "a figure shows the unit the other way round",
        CRIB,
        "parts tile the unit",
        {"/units/U4/regions/0/outline": [["0", "0"], ["4", "0"], ["2", "2"]]},
        alone=True,
    ),
    Erratum(
        "E24b",
        "the label in a figure is that of another patch",
        CRIB,
        "patches of units",
        {"/units/U5/regions/0/label": "A2"},
        alone=True,
    ),
    Erratum(
        "E25",
        "a unit is used where its mirror image is wanted",
        CRIB,
        "symmetry",
        {"/units/U3/from/0/mirror": True},
        alone=True,
    ),
    Erratum("E26", "a unit is trimmed to more than it measures", WAYS, "trim", {"/units/U2/trim/w": "11/2"}),
    Erratum("E26a", "a unit is said to come out larger than it does", CRIB, "made", {"/units/U4/made/h": plus("1/8")}),
    Erratum("E27", "nothing trims a unit of an oversize method", WAYS, "trim", {"/units/U2/trim": None}),
    Erratum(
        "E28",
        "one more patch is cut from a strip than fits",
        CRIB,
        "sheets",
        {
            "/cutting/1/parts": lambda parts: [*parts, {**parts[1], "x": "77/2"}],
            "/cutting/1/gives/A5": 3,
            "/patches/A5/spare": 6,
        },
        alone=True,
    ),
    Erratum(
        "E29",
        "the plan for a bundle piece takes all ten inches",
        CRIB,
        "sheets",
        {"/cutting": lambda sheets: [widen(sheet) if sheet["fabric"] == "star" else sheet for sheet in sheets]},
    ),
    Erratum(
        "E30",
        "the letters of fabrics disagree between key and labels",
        CRIB,
        "names",
        {"/fabrics/lamp/letter": "D", "/fabrics/edge/letter": "C"},
        alone=True,
    ),
    Erratum("E31", "one pack is bought where two are needed", CRIB, "buy", {"/fabrics/source!yardage/pack": 5}),
    Erratum("E31a", "more pieces of a pack stay whole than it has", CRIB, "buy", {"/fabrics/star/left": 43}),
    Erratum("E31b", "a single pack is said to be the second", CRIB, "buy", {"/fabrics/star/short": 4}),
    Erratum(
        "E32",
        "nesting is promised where both seams go the same way",
        CRIB,
        "match points",
        {"/seams/U5.1/press": flipped},
        alone=True,
    ),
    Erratum(
        "E32a",
        "a block's inside is said to nest and does not",
        CRIB,
        "match points inside",
        {"/seams/U5.1/press": flipped, "/seams/U6.1/press": flipped, "/seams/U7.1/press": flipped},
        alone=True,
    ),
    Erratum(
        "E32b",
        "a seam is spun whose neighbours do not go round",
        SPUN,
        "match points",
        {"/seams/U2.1/press": "open"},
        alone=True,
    ),
    Erratum(
        "E32d",
        "a seam with two match points is spun",
        CRIB,
        "match points",
        {"/seams/star.1/press": "spin"},
        alone=True,
    ),
    Erratum(
        "E32c",
        "open seams are counted as nested",
        CRIB,
        "match points",
        {"/seams/star.1/press": "open", "/seams/U5.1/press": "open"},
        alone=True,
    ),
    Erratum(
        "E33", "a row's words and its arrows disagree", CRIB, "seams of rows", {"/rows/1/press/1": flipped}, alone=True
    ),
    Erratum(
        "E34",
        "the layout uses a print more often than its piece gives",
        CRIB,
        "prints",
        {"/places": everywhere("/prints/0", 1, "block")},
    ),
    Erratum("E34a", "a block gets the same print twice", CRIB, "prints", {"/places/0/prints": [5, 5]}),
    Erratum("E34c", "like prints touch and are not told", CRIB, "prints", {"/layout/like_edge": 1}),
    Erratum(
        "E34d",
        "spare colours are cut",
        CRIB,
        "prints",
        {"/fabrics/source!yardage/choice": lambda notes: [{**note, "state": "spare"} for note in notes]},
    ),
    Erratum(
        "E34e", "a piece shows a colour that the bundle lacks", CRIB, "prints", {"/fabrics/source!yardage/pieces/0": 99}
    ),
    Erratum(
        "E34f", "a piece of a bundle has no colour", CRIB, "prints", {"/fabrics/source!yardage/pieces": without(0)}
    ),
    Erratum("E34g", "no layout of prints is told", CRIB, "prints", {"/layout": None}),
    Erratum("E34b", "the layout uses a print that is not there", CRIB, "prints", {"/places/0/prints/0": 40}),
    Erratum(
        "E35",
        "a row lacks the triangle at its end",
        CRIB,
        "rows",
        {"/rows/0/items": without(0), "/rows/0/press": without(0)},
    ),
    Erratum(
        "E35a",
        "a corner triangle is sewn to a row",
        CRIB,
        "rows",
        {"/rows/1/items": lambda items: [*items, 14], "/rows/1/press": lambda press: [*press, "after"]},
    ),
    Erratum("E35b", "a row is sewn from right to left", CRIB, "rows", {"/rows/1/items": lambda items: items[::-1]}),
    Erratum(
        "E35c",
        "the rows are numbered from the bottom",
        CRIB,
        "rows",
        {"/rows": lambda rows: [{**row, "row": n} for n, row in enumerate(rows[::-1], 1)]},
    ),
    Erratum(
        "E37", "a booklet of one size stands in another size's folder", CRIB, "where it stands", {"/size/id": "throw"}
    ),
    Erratum("E38", "inches are published as centimetres", CRIB, "buy", {"/unit": "cm"}),
    Erratum("E38a", "the seam allowance is another than the cut sizes are for", CRIB, "made", {"/seam": "3/8"}),
    Erratum("E39", "a fraction loses its stroke: 23/8 becomes 238", CRIB, "made", {"": recut("B1", "238")}),
    Erratum("E39a", "a fraction is not in lowest terms", CRIB, "form", {"/patches/A2/w": "18/4"}),
    Erratum("E40", "one size is an older version", CRIB, "same in every size", {"/pattern/version": "0.9.0"}),
]

OUR_OWN = [
    Erratum(
        "M1", "a label is another size in one size of the pattern", CRIB, "same in every size", {"/patches/A4/w": "3"}
    ),
    Erratum(
        "M2",
        "a seam stands where no parts meet",
        CRIB,
        "seams of units",
        {"/seams/U2.2/at": "5", "/seams/U2.2/line": [["5", "0"], ["5", "2"]]},
        alone=True,
    ),
    Erratum(
        "M3", "a seam is upright by its axis and level by its line", CRIB, "seams of units", {"/seams/axis=x/axis": "y"}
    ),
    Erratum(
        "M4",
        "a seam ends before the edge",
        CRIB,
        "seams of units",
        {"/seams/star.1/span": ["0", "7"], "/seams/star.1/line": [["0", "2"], ["7", "2"]]},
        alone=True,
    ),
    Erratum("M5", "a seam is left out", CRIB, "seams of units", {"": unsewn}),
    Erratum("M6", "a seam is listed twice", CRIB, "names", {"/units/how=join/seams": twice(0)}),
    Erratum(
        "M7",
        "a seam names a part that it does not touch",
        CRIB,
        "seams of units",
        {"/seams/U2.2/first": "C2"},
        alone=True,
    ),
    Erratum("M8", "a seam between rows is missing", CRIB, "seams between rows", {"/seams": without("rows.2")}),
    Erratum(
        "M9",
        "a seam of a row joins the wrong places",
        CRIB,
        "seams of rows",
        {"/seams/row2.1/line": [["0", "0"], ["0+6*r2", "0+6*r2"]]},
        alone=True,
    ),
    Erratum(
        "M10",
        "a border's seam is as long as the quilt after it",
        CRIB,
        "seams of borders",
        {"/seams": overlong},
    ),
    Erratum("M11", "a place is a little off", CRIB, "places tile the centre", {"/places/3/x": plus("1/100000000")}),
    Erratum(
        "M12",
        "two blocks lie on each other, and one place is empty",
        CRIB,
        "places tile the centre",
        {"/places/2/y": "0+6*r2"},
    ),
    Erratum(
        "M13",
        "a block is turned so that it shows",
        TAUGHT,
        "turned blocks",
        {"/places/0/turn": 135, "/places/0/pressing_turn": 90},
    ),
    Erratum("M14", "the block's name in the layout is another row's", CRIB, "rows", {"/places/0/number": "2.1"}),
    Erratum("M15", "patches of a sheet overlap", CRIB, "sheets", {"/cutting": overlapped}),
    Erratum("M16", "the listed cuts do not set a patch free", CRIB, "cuts", {"/cutting/1/cuts": without(1)}),
    Erratum(
        "M17", "a cut runs through patches that are still whole", CRIB, "cuts", {"/cutting/2/cuts": swapped(0, -1)}
    ),
    Erratum(
        "M18",
        "a bundle piece gives patches of two prints and does not say so",
        CRIB,
        "print roles",
        {"/patches/B2/print": 1},
    ),
    Erratum("M19", "a directional print is cut sideways", CRIB, "sheets", {"/fabrics/ground/directional": True}),
    Erratum("M20", "a leftover is promised that is not left", CRIB, "offcuts", {"/offcuts/0/count": more(40)}),
    Erratum("M21", "the lower bound is above the need", CRIB, "need", {"/fabrics/source=yardage/bound": plus("100")}),
    Erratum(
        "M22", "more yardage is bought than is needed", CRIB, "buy", {"/fabrics/source=yardage/buy/amount": plus("1/4")}
    ),
    Erratum(
        "M23",
        "a length is bought that no shop sells",
        CRIB,
        "buy",
        {"/fabrics/source=yardage/buy/amount": plus("1/16")},
    ),
    Erratum("M24", "a unit is sewn before what it takes", CRIB, "sewing order", {"/units": unready}),
    Erratum(
        "M25", "four at a time makes two", CRIB, "batches", {"/units/U4/makes": 2, "/units/U4/batches": 16}, alone=True
    ),
    Erratum(
        "M26",
        "a batch takes too many squares",
        CRIB,
        "patches of units",
        {"/units/U4/from/1/n": 8, "/units/U4/batch/B1": 8},
        alone=True,
    ),
    Erratum("M27", "a kit is missing for the teacher", TAUGHT, "classes", {"/classes/0/kits": more(-1)}),
    Erratum("M28", "a class cuts a strip too few for its kits", TAUGHT, "classes", {"/classes/0/sheets": without(0)}),
    Erratum(
        "M29",
        "a crib quilt does not warn of an infant's sleep",
        CRIB,
        "cautions",
        {"/cautions": lambda names: [name for name in names if name != "infant-sleep"]},
    ),
    Erratum("M30", "a match point that does not nest is not pinned", WAYS, "pins", {"/pressing/pins": without(0)}),
    Erratum("M31", "a pin stands where all nests", WAYS, "pins", {"/pressing/pins/0/x": plus("1")}),
    Erratum("M32", "turned blocks are not counted", CRIB, "turned blocks", {"/pressing/turned": 0}),
    Erratum("M33", "a sash is wider in one place", SASHED, "outline", {"/units/P2/finished/h": "2"}, alone=True),
    Erratum(
        "M34",
        "a cornerstone of a border is cut too small",
        SASHED,
        "borders",
        {"": lambda booklet: recut(at(booklet["borders"], "corner=cornerstone")["corners"], "2")(booklet)},
    ),
    Erratum("M35", "a mitre's seam is missing", SASHED, "seams of borders", {"/seams": without("border1.top-left")}),
    Erratum(
        "M36",
        "a cornerstone is missing in the layout",
        SASHED,
        "places",
        {"/places": lambda places: [{**place, "kind": place["kind"].replace("stone", "")} for place in places]},
    ),
    Erratum("M67", "mirrored units are not counted apart", WAYS, "hands", {"/units/U19/mirrored": 0}, alone=True),
    Erratum(
        "M68",
        "a mirrored unit lies the other way round",
        WAYS,
        "hands",
        {"/units/U24/from/1/mirror": False},
        alone=True,
    ),
    Erratum(
        "M37",
        "stitch-and-flip squares are too small for their corner",
        WAYS,
        "made",
        {"": recut("A6", "2")},
        alone=True,
    ),
    Erratum(
        "M38", "the corners of a square in a square are too small", WAYS, "made", {"": recut("A7", "5/2")}, alone=True
    ),
    Erratum(
        "M39",
        "a log of a log cabin is cut for another place",
        WAYS,
        "regions",
        {"/units/U11/from/1/x": plus("1/2")},
        alone=True,
    ),
    Erratum(
        "M40",
        "a unit is sewn by a method that nothing tells how",
        WAYS,
        "batches",
        {"/units/method=two/method": "strips"},
    ),
    Erratum(
        "M41",
        "a unit with an axis that its parts do not follow",
        CRIB,
        "made",
        {"/units/U6/axis": "column"},
        alone=True,
    ),
    Erratum(
        "M42",
        "the block's finished size is another than the units make",
        CRIB,
        "places",
        {"/set/block/w": "10", "/set/block/h": "10"},
    ),
    Erratum("M43", "narrower fabric needs less than any can", CRIB, "cliffs", {"/fabrics/source=yardage/cliff": "1"}),
    Erratum(
        "M44", "prints are counted that no block uses", CRIB, "prints", {"/fabrics/source!yardage/prints": more(5)}
    ),
    Erratum("M45", "a sheet is said to give more than lies in it", CRIB, "sheets", {"/cutting/1/gives/A5": 3}),
    Erratum(
        "M46", "a batch is said to take other than it does", CRIB, "batches", {"/units/U4/batch/B1": 2}, alone=True
    ),
    Erratum("M47", "a key is missing", CRIB, "form", {"/binding/need": ...}),
    Erratum("M48", "a count is written as text", CRIB, "form", {"/units/0/count": "64"}),
    Erratum("M49", "a length is written as a number", CRIB, "form", {"/units/0/made/w": 2}),
    Erratum(
        "M51",
        "a patch is said to be for a border and goes into blocks",
        CRIB,
        "label identity",
        {"/patches/use=block/use": "border"},
    ),
    Erratum("M52", "the tightest cut is said to have room", CRIB, "need", {"/fabrics/source=yardage/tightest": "1/2"}),
    Erratum("M53", "an A unit has no B unit", NINE, "A and B units", {"/units/nine.B/variant": None}, alone=True),
    Erratum("M54", "yardage is sold by the pack", CRIB, "names", {"/fabrics/source=yardage/pack": 10}),
    Erratum("M55", "a colour that no page can show", CRIB, "names", {"/fabrics/source=yardage/colours/0": "gold"}),
    Erratum("M56", "a plan without a clash is not proven", CRIB, "match points", {"/pressing/proven": False}),
    Erratum("M57", "sky squares lie beside their geese", CRIB, "regions", {"/units/how=geese/from/1/x": plus("1/2")}),
    Erratum("M58", "a total is another size's", CRIB, "totals", {"/totals/patches": more(100)}),
    Erratum(
        "M59", "the seam test measures what no right seam gives", CRIB, "seam test", {"/seam_test/whole": plus("1/4")}
    ),
    Erratum("M60", "a bundle piece is numbered twice", CRIB, "prints", {"/cutting": renumbered}),
    Erratum("M61", "metres beside the yards are too few", CRIB, "buy", {"/fabrics/source=yardage/also/amount": "1/10"}),
    Erratum("M62", "metres beside the yards are left out", CRIB, "buy", {"/fabrics/source=yardage/also": None}),
    Erratum("M63", "a stop to measure expects another size", CRIB, "stop and measure", {"/gates/0/h": "7"}),
    Erratum(
        "M64",
        "nobody is told to measure the centre",
        CRIB,
        "stop and measure",
        {"/gates": lambda gates: [gate for gate in gates if gate["after"] != "centre"]},
    ),
    Erratum("M65", "a border that is not there is measured", CRIB, "stop and measure", {"/gates/5/of": "9"}),
    Erratum("M66", "butted borders are said to be mitred as one", CRIB, "borders", {"/borders/0/together": [1, 2]}),
    Erratum("M70", "the seams of a unit are forgotten", CRIB, "estimates", {"/estimates/seams/0/count": more(-1)}),
    Erratum("M71", "seams are as long as they finish", CRIB, "estimates", {"/estimates/seams/1/length": plus("-2")}),
    Erratum("M72", "thread for the seams is too short", CRIB, "estimates", {"/estimates/thread/amounts/0/least": 90}),
    Erratum("M73", "thread is told as two yards a yard", CRIB, "estimates", {"/estimates/thread/ratio": 2}),
    Erratum("M74", "the cuts of another size are counted", CRIB, "estimates", {"/estimates/cuts": more(7)}),
    Erratum("M75", "hours of work are left out", CRIB, "estimates", {"/estimates/time/works": without(2)}),
    Erratum("M76", "all hours together are less than their sum", CRIB, "estimates", {"/estimates/time/most": more(-3)}),
    Erratum("M77", "hours of another pace", CRIB, "estimates", {"/estimates/paces/seams/least": 60}),
    Erratum("M101", "a strip passes for a cornerstone", STRIPPY, "places", {"/places/0/kind": "cornerstone"}),
    Erratum(
        "M102", "a column is sewn from the bottom up", STRIPPY, "rows", {"/rows/1/items": lambda items: items[::-1]}
    ),
    Erratum("M103", "columns are said to be rows", STRIPPY, "rows", {"/set/run": "across"}),
    Erratum(
        "M104",
        "a strip is as long as the quilt is wide",
        STRIPPY,
        "outline",
        {"/units/P1/finished/h": "34"},
        alone=True,
    ),
    Erratum("M78", "a quilt is shown on a mattress of another bed", CRIB, "bed", {"/size/bed/w": "76"}),
    Erratum("M80", "a class buys a bundle too few", TAUGHT, "buy", {"/classes/0/fabrics/0/buy/amount": "1/8"}),
    Erratum("M81", "the shop cuts a strip too few", TAUGHT, "classes", {"/classes/0/shop/0/times": more(-1)}),
    Erratum("M215", "a kit goes without its last square", TAUGHT, "classes", {"/classes/0/pieces/0/pieces": more(-1)}),
    Erratum("M216", "a bag lacks a piece", TAUGHT, "classes", {"/classes/0/pieces/0/bag": more(-1)}),
    Erratum("M217", "packs are not split evenly", CRIB, "classes", {"/classes/0/fabrics/1/packs/0/kits": more(1)}),
    Erratum("M218", "two kits get one piece", CRIB, "classes", {"/classes/0/fabrics/1/deal/0/0": more(1)}),
    Erratum("M219", "one kit gets the light pieces", CRIB, "classes", {"/classes/0/fabrics/1/deal": dealt_in_order}),
    Erratum("M82", "a lesson takes longer than its session has", TAUGHT, "timeline", {"/classes/0/sessions/0": 150}),
    Erratum("M83", "a careful student never catches up", TAUGHT, "timeline", {"/classes/0/lessons": uncaught}),
    Erratum(
        "M84", "a lesson begins before the one before it ends", TAUGHT, "timeline", {"/classes/0/lessons/1/at": "0:05"}
    ),
    Erratum(
        "M85", "a class sews more blocks than its lessons hold", TAUGHT, "timeline", {"/classes/0/blocks": more(1)}
    ),
    Erratum(
        "M105",
        "a pieced strip takes a unit less than it is long",
        ROUND,
        "parts tile the unit",
        {"/units/border1.sides/from": without(2), "/units/border1.sides/batch/flight": more(-1)},
        alone=True,
    ),
    Erratum("M106", "a pieced strip lies upside down", ROUND, "borders", {"/borders/fabric=None/strips/0/turn": 90}),
    Erratum(
        "M107",
        "the side strips of a pieced border go to top and bottom",
        ROUND,
        "borders",
        {"/borders/fabric=None/strips": lambda strips: [{**strip, "unit": strips[0]["unit"]} for strip in strips]},
    ),
    Erratum(
        "M108",
        "a pieced strip is not trimmed to its edge",
        ROUND,
        "trim",
        {"/units/border1.ends/trim": None},
        alone=True,
    ),
    Erratum(
        "M109",
        "wider fabric needs more than the plan",
        CRIB,
        "cliffs",
        {"/fabrics/source=yardage/usables/0/need": plus("1000")},
    ),
    Erratum(
        "M110",
        "less is bought of wider fabric than it needs",
        CRIB,
        "buy",
        {"/fabrics/source=yardage/usables/0/buy/amount": "1/8"},
    ),
    Erratum("M119", "halves are said that are not sewn", HALVED, "seams between rows", {"/set/half": 2}),
    Erratum("M120", "a quilt sewn in halves does not say so", HALVED, "seams between rows", {"/set/half": None}),
    Erratum(
        "M121",
        "the halves of a big quilt are joined before all of their rows",
        HALVED,
        "seams between rows",
        {"/seams": swapped(-1, -2)},
    ),
    Erratum(
        "M122",
        "blocks float farther from the edge than their triangles reach",
        FLOATING,
        "set",
        {"/set/float": "2", "/set/trim_beyond": "9/4"},
    ),
    Erratum(
        "M123", "triangles are cut as if no block floated", FLOATING, "made", {"": recut("A2", "43/4")}, alone=True
    ),
    Erratum(
        "M124",
        "a triangle beside a corner keeps a tip that the corner is sewn across",
        FLOATING,
        "places tile the centre",
        {"/places": everywhere("/unit", "T1", "side")},
    ),
    Erratum("M125", "a long sash is cut without its ends", LONG, "made", {"/patches/C3/h": "41/2"}, alone=True),
    Erratum(
        "M126",
        "a shorter sash lies between two rows than they are long",
        LONG,
        "places tile the centre",
        {"/places/25/unit": "P2"},
        alone=True,
    ),
    Erratum("M130", "nobody says that corners cut off make half-squares", WAYS, "bonus", {"/bonus": without(0)}),
    Erratum("M131", "a bonus half-square is larger than its triangles", WAYS, "bonus", {"/bonus/0/trim": "2"}),
    Erratum("M132", "more bonus half-squares than corners are cut off", WAYS, "bonus", {"/bonus/0/count": more(2)}),
    Erratum("M140", "less could be bought, as it says", CRIB, "buy", {"/fabrics/source=yardage/least/amount": "1/8"}),
    Erratum(
        "M170",
        "smaller pieces need more, though every sheet comes out of them",
        CRIB,
        "cliffs",
        {"/fabrics/star/usables/0/need": 7, "/fabrics/star/cliff": 7},
    ),
    Erratum("M171", "smaller pieces fail, though every sheet comes out", CRIB, "cliffs", {"/fabrics/star/cliff": None}),
    Erratum(
        "M172", "wider fabric needs less than its patches take", CRIB, "cliffs", {"/fabrics/lamp/usables/1/need": "9"}
    ),
    Erratum(
        "M236", "extra-wide fabric for the back is too short", CRIB, "cliffs", {"/fabrics/backing/usables/3/need": "20"}
    ),
    Erratum("M235", "an inch less needs more than the table says", CRIB, "cliffs", {"/fabrics/lamp/cliff": plus("1")}),
    Erratum("M173", "a leftover that is left is not told", CRIB, "offcuts", {"/offcuts": without(0)}),
    Erratum("M174", "a class needs more than its sheets", TAUGHT, "classes", {"/classes/0/fabrics/0/need": "99"}),
    Erratum("M50", "a row names a place that does not exist", CRIB, "names", {"/rows/0/items/0": 99}),
]

ERRATA = COMMON + OUR_OWN


BESIDE = ("same in every size", "where it stands")
"""Checks that compare a booklet with what lies beside it, and see nothing of one alone."""


def narrower_first(fabric: dict[str, Any]) -> bool:
    """Return whether the first of a fabric's other widths is narrower, where any need may be true."""
    return Fraction(fabric["usables"][0]["usable"]) < Fraction(fabric["usable"])


HARMLESS: dict[str, Callable[[Any], bool]] = {
    "E20a": lambda booklet: booklet["backing"]["w"] == booklet["backing"]["h"],
    "M121": lambda booklet: booklet["seams"][-1]["of"] != "rows",
    "M109": lambda booklet: narrower_first(at(booklet["fabrics"], "source=yardage")),
    "M56": lambda booklet: booklet["pressing"]["clash"] > 0,
    "M107": lambda booklet: len({strip["length"] for strip in at(booklet["borders"], "fabric=None")["strips"]}) == 1,
}
"""Where a kind is no error: a square back takes as much fabric either way, the last seams may be of a border, a plan of
clashes need not be proven, and the strips of a pieced border may all be as long."""


def accepted_booklets() -> dict[str, bytes]:
    """Return the text of every accepted booklet of the demo, by ``pattern/size``."""
    return {f"{pattern}/{size}": accepted_text(pattern, size).encode() for pattern, size in accepted_names()}


def hunt(text: bytes, erratum: Erratum) -> bool | None:
    """Plant an erratum in a booklet and return whether the check that names it finds it; ``None`` if it does not fit.

    An erratum that names a thing which another booklet has not, or has for something else, is none there.
    """
    pattern = json.loads(text)["pattern"]["id"]
    if erratum.check in BESIDE or (erratum.alone and pattern != erratum.booklet.split("/")[0]):
        return None
    good = json.loads(text)
    try:
        wrong = spoilt(json.loads(text), erratum)
    except (LookupError, ValueError, TypeError, StopIteration):
        return None
    if wrong == good or HARMLESS.get(erratum.number, lambda _: False)(good):
        return None
    new = _found(json.dumps(wrong).encode()) - _found(text)
    return erratum.check in {finding.check for finding in new}


@functools.cache
def _found(text: bytes) -> frozenset[Finding]:
    return frozenset(findings_in(text))
