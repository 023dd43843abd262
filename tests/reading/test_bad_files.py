# ruff: noqa: E501 - one case a line reads as a table
"""Every fault of form is answered at its place, with what was found and what would be right.

The mark ➤ stands where a problem is expected; the words must all be in its sentence. Nothing else may be reported.
"""

from __future__ import annotations

import pytest

from pattern_text import MARK, pattern_text, split_marks
from seamleaf.reading import read_pattern

# The name of a case says what is wrong; then the sections that differ; then, for each mark, words of the message.
Case = tuple[str, dict[str, str], list[str | tuple[str, ...]]]

TOP: list[Case] = [
    ("title missing", {"title": "", "version": "➤version: 1"}, [("the pattern without 'title'", "such as title: ")]),
    ("three sections missing", {"title": "➤➤➤title: T", "version": "", "setting": "", "sizes": ""}, ["setting", "sizes", "version"]),
    ("unknown key", {"more": "➤binidng: {fabric: edge}"}, [("'binidng', which the pattern does not have", "did you mean 'binding'?")]),
    ("unknown key like nothing", {"more": "➤qqq: 1"}, [("'qqq', which the pattern does not have", "title, version")]),
    ("empty title", {"title": "➤title:"}, [("found nothing", "a title")]),
    ("title of several lines", {"title": 'title: ➤"two\\nlines"'}, ["on one line"]),
    ("title too long", {"title": "title: ➤" + "a" * 201}, [("201 characters", "200")]),
    ("title as a list", {"title": "title: ➤[a, b]"}, [("found a list", "a title")]),
    ("version missing its text", {"version": "➤version: ''"}, ["a version"]),
    ("unknown unit", {"unit": "unit: ➤inch"}, [("'inch'", "in or cm")]),
    ("seam of zero", {"seam": "seam: ➤0"}, ["over 0"]),
    ("seam too wide", {"seam": "seam: ➤1 1/8"}, ["up to 1 in"]),
    ("seam too wide in centimetres", {"unit": "unit: cm", "seam": "seam: ➤2.55"}, ["2.54 cm"]),
    ("seam is not a length", {"seam": "seam: ➤a quarter"}, [("'a quarter'", "a length such as 2 1/2")]),
    ("number of another language", {"unit": "unit: cm", "seam": "seam: ➤0,75"}, [("'0,75'", "6.5", "write a point for the comma: 0.75")]),
    ("fabrics as a list", {"fabrics": "fabrics: ➤[ground, star]"}, [("found a list", "fabrics by their short names")]),
    ("blocks empty", {"blocks": "➤blocks:"}, ["found nothing"]),
    ("sizes as text", {"sizes": "sizes: ➤crib"}, ["sizes by their short names"]),
    ("unknown pace", {"more": "pace: {➤speed: 3}"}, [("'speed', which", "cuts")]),
    ("pace of nothing", {"more": "pace: {cuts: ➤0}"}, [("'0'", "from 1 to")]),
    ("pace as a length", {"more": "pace: {pinned: ➤4 yd}"}, [("'4 yd'", "60 to 150")]),
    ("pace from quick to slow", {"more": "pace: {seams: ➤90 to 30}"}, [("'90 to 30'", "from the slow pace")]),
    ("setting as text", {"setting": "setting: ➤straight"}, [("what the setting has", "blocks")]),
]  # fmt: skip

FABRICS: list[Case] = [
    ("fabric without source", {"fabrics": "fabrics:\n  ➤ground: {title: A}\n  star: {source: squares 10}"}, ["source"]),
    ("unknown source", {"fabrics": "fabrics:\n  ground: {source: ➤yardgae}\n  star: {source: squares 10}"}, [("'yardgae'", "fat quarters", "did you mean 'yardage'?")]),
    ("squares without size", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: ➤squares ten}"}, ["the size of the squares in inches"]),
    ("strips in centimetres", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: ➤strips 6 cm}"}, ["in inches"]),
    ("id that ends in a digit", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: yardage}\n  ➤edge2: {source: yardage}"}, [("'edge2'", "digit", "such as edge-two")]),
    ("id x", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: yardage}\n  ➤x: {source: yardage}"}, ["other than x"]),
    ("id with a space", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: yardage}\n  ➤my edge: {source: yardage}"}, [("'my edge'", "letters")]),
    ("colour as a word", {"fabrics": "fabrics:\n  ground: {source: yardage, colour: ➤bleu}\n  star: {source: squares 10}"}, [("colour 'bleu'", "#1f2f4a")]),
    ("colour without quotes is a comment", {"fabrics": "fabrics:\n  ground:\n    source: yardage\n    ➤colour: #123456\n  star: {source: squares 10}"}, [("found nothing", "in quotes", "comment")]),
    ("colour with four digits", {"fabrics": 'fabrics:\n  ground: {source: yardage, colour: ➤"#1234"}\n  star: {source: squares 10}'}, ["#1234"]),
    ("several colours of yardage", {"fabrics": 'fabrics:\n  ground: {source: yardage, colours: ➤["#123", "#456"]}\n  star: {source: squares 10}'}, [("2 colours", "one colour")]),
    ("colour and colours", {"fabrics": 'fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colour: "#123", ➤colours: ["#456"]}'}, ["both colour and colours"]),
    ("pack of yardage", {"fabrics": "fabrics:\n  ground: {source: yardage, ➤pack: 42}\n  star: {source: squares 10}"}, [("pack for yardage", "a bundle only")]),
    ("margin of a bundle", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, ➤margin: 2}"}, ["yardage only"]),
    ("pack of no pieces", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, pack: ➤0}"}, ["a whole number from 1"]),
    ("usable larger than the piece", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, usable: ➤10 1/4}"}, [("larger than squares 10", "at most 10 in")]),
    ("usable of a fat quarter as one number", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: fat quarters, usable: ➤18}"}, ["width x height"]),
    ("unknown edge", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, edge: ➤zigzag}"}, ["straight or pinked"]),
    ("truth as YAML 1.1 wrote it", {"fabrics": "fabrics:\n  ground: {source: yardage, directional: ➤yes}\n  star: {source: squares 10}"}, [("'yes'", "true or false", "write true")]),
    ("misspelt key", {"fabrics": 'fabrics:\n  ground: {source: yardage, ➤color: "#123"}\n  star: {source: squares 10}'}, [("'color', which a fabric does not have", "did you mean 'colour'?")]),
    ("sixty-one fabrics", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10}\n" + "\n".join(f"  f{i // 26:d}{chr(97 + i % 26)}: {{source: yardage}}" for i in range(58)) + "\n  ➤last: {source: yardage}"}, [("61 fabrics", "at most 60")]),
]  # fmt: skip


def blocks(text: str) -> dict[str, str]:
    """Return a section of one block ``light`` with this text behind its key, and ``dark`` as ever."""
    return {"blocks": f"blocks:\n  light: {text}\n  dark: ground 4 x 4"}


PARTS: list[Case] = [
    ("unknown fabric", blocks("➤grund 2 x 4"), [("unknown fabric 'grund'", "ground, star", "did you mean 'ground'?")]),
    ("unknown fabric deep inside", blocks("{row: [{column: [ground 2 x 2, ➤stra 2 x 2]}]}"), ["did you mean 'star'?"]),
    ("part by another name of the trade", blocks("{➤HST: [ground, star], finished: 2 x 2}"), ["did you mean 'half-square'?"]),
    ("log cabin by its name", blocks("{➤log cabin: {centre: star 2 x 2}}"), ["did you mean 'around'?"]),
    ("block without use", {"blocks": "blocks:\n  light: ground 4 x 4\n  dark: {row: [➤light]}"}, [("the block 'light' by its name alone", "{use: light}")]),
    ("patch without a size", blocks("➤ground"), [("without a size", "width x height")]),
    ("patch with one side", blocks("➤ground 2"), [("'2'", "width x height")]),
    ("patch with three sides", blocks("➤ground 2 x 3 x 4"), ["width x height"]),
    ("patch of width zero", blocks("➤ground 0 x 4"), ["over 0"]),
    ("patch with a negative side", blocks("➤ground -2 x 4"), [("'-2'", "a length")]),
    ("patch over 400 in", blocks("➤ground 400 1/8 x 4"), [("400 1/8", "at most 400 in")]),
    ("patch with its size first", blocks("➤2 x 4 ground"), [("'2 x 4 ground'", "fabric, finished width x height")]),
    ("patch that divides by zero", blocks("➤ground 1/0 x 4"), ["'1/0'"]),
    ("print of yardage", blocks("➤ground.1 2 x 4"), [("'ground.1'", "only a bundle has prints")]),
    ("print zero", blocks("➤star.0 2 x 4"), [("'star.0'", "star.1")]),
    ("print without number", blocks("➤star. 2 x 4"), ["star.1"]),
    ("prints with a gap", blocks("{row: [star.1 2 x 2, ➤star.3 2 x 2]}"), [("star.3", "without star.2", "gap")]),
    ("prints that begin at two", blocks("➤star.2 2 x 2"), [("star.2", "without star.1")]),
    ("row as text", blocks("{row: ➤ground 2 x 4}"), ["a list of parts for the row"]),
    ("empty row", blocks("{row: ➤[]}"), [("an empty list", "a list of parts")]),
    ("row in a row without a key", blocks("{row: [➤[ground 2 x 2]]}"), [("found a list", "a part")]),
    ("nothing in a row", {"blocks": "blocks:\n  light:\n    row:\n      -➤\n  dark: ground 4 x 4"}, ["found nothing"]),
    ("two kinds", blocks("{row: [ground 2 x 2], ➤column: [ground 2 x 2]}"), [("'column' beside 'row'", "one kind")]),
    ("misspelt kind", blocks("{row: [{➤half-sqare: [ground, star], finished: 2 x 2}]}"), ["did you mean 'half-square'?"]),
    ("no kind", blocks("{row: [➤{finished: 2 x 2, turn: 90}]}"), ["without a kind of part"]),
    ("unknown method", blocks("{half-square: [ground, star], finished: 2 x 2, method: ➤five}"), ["two, four, eight"]),
    ("method of a row", blocks("{row: [ground 2 x 2], method: ➤four}"), ["strips"]),
    ("half-square without size", blocks("{row: [➤{half-square: [ground, star]}]}"), [("a half-square without 'finished'", "as well")]),
    ("block without size of its unit", {"blocks": "blocks:\n  ➤light: {half-square: [ground, star]}\n  dark: ground 4 x 4"}, ["a half-square without 'finished'"]),
    ("one side for a square", blocks("{half-square: [ground, star], finished: ➤4}"), ["did you mean '4 x 4'?"]),
    ("sides with another sign", blocks("{half-square: [ground, star], finished: ➤4 1/2 by 4}"), ["did you mean '4 1/2 x 4'?"]),
    ("two fabrics in one", blocks("{half-square: ➤[➤➤ground; star], finished: 4 x 4}"), ["two fabrics", "such as 'ground':", "did you mean 'ground'?"]),
    ("half-square of three", blocks("{half-square: ➤[ground, star, ground], finished: 2 x 2}"), [("a list of 3", "two")]),
    ("half-square of patches", blocks("{half-square: [ground, ➤star 2 x 2], finished: 2 x 2}"), ["a fabric alone"]),
    ("half-square turned by 45", blocks("{half-square: [ground, star], finished: 2 x 2, turn: ➤45}"), ["0, 90, 180 or 270"]),
    ("quarter-square of two", blocks("{quarter-square: ➤[ground, star], finished: 2 x 2}"), ["top, right, bottom, left"]),
    ("finished size with commas", blocks("{half-square: [ground, star], finished: ➤➤2,5 x 2,➤5}"), ["width x height", "a point for the comma: 2.5 x 2", "',5'"]),
    ("patch with a comma", blocks("{row: [➤ground 2,➤5 x 2]}"), ["a patch such as", "a decimal takes a point"]),
    ("geese without sky", blocks("{row: [{➤geese: {goose: ground}, finished: 4 x 2}]}"), ["geese without 'sky'"]),
    ("geese as a list", blocks("{geese: ➤[ground, star], finished: 4 x 2}"), [("found a list", "goose, sky")]),
    ("geese that point nowhere", blocks("{geese: {goose: ground, sky: star}, finished: 4 x 2, point: ➤north}"), ["up, down, left or right"]),
    ("oversize below zero", blocks("{half-square: [ground, star], finished: 2 x 2, oversize: ➤-1/8}"), ["a length"]),
    ("no corner", blocks("{➤corners: {base: ground}, corner: 1, finished: 4 x 4}"), [("a base without corners", "top-left")]),
    ("corner misspelt", blocks("{corners: {base: ground, ➤topleft: star, top-right: star}, corner: 1, finished: 4 x 4}"), ["did you mean 'top-left'?"]),
    ("diamond in American English", blocks("{diamond: {➤center: star, corners: ground}, finished: 4 x 4}"), ["did you mean 'centre'?"]),
    ("log without width", blocks("{around: {centre: star 2 x 2, logs: [➤ground]}}"), ["fabric, finished width"]),
    ("logs missing", blocks("{➤around: {centre: star 2 x 2}}"), ["without 'logs'"]),
    ("logs go round backwards", blocks("{around: {centre: star 2 x 2, logs: [ground 1], direction: ➤backwards}}"), ["anticlockwise"]),
    ("ring without size", blocks("{partial: {centre: star 2 x 2, ring: ➤ground}}"), ["width x height"]),
    ("grid without key", blocks("{row: [➤{grid: [DL, LD]}]}"), ["a grid without 'key'"]),
    ("grid with an empty key", blocks("{grid: [DL, LD], key: ➤{}}"), [("empty braces", "a part for each letter")]),
    ("grid with a list for its key", blocks("{grid: [DL, LD], key: ➤[]}"), [("an empty list", "a part for each letter")]),
    ("letter not in the key", blocks("{grid: [DL, ➤LX], key: {D: star 2 x 2, L: ground 2 x 2}}"), [("'X'", "D or L")]),
    ("key of two letters", blocks("{grid: [LL], key: {L: ground 2 x 2, ➤DD: star 2 x 2}}"), ["a single letter"]),
    ("unknown block", blocks("{use: ➤drak}"), [("unknown block 'drak'", "did you mean 'dark'?")]),
    ("mirror in words", blocks("{use: dark, mirror: ➤left-right}"), ["true or false"]),
    ("block that uses itself", blocks("{row: [{use: dark}, {use: ➤light}]}"), [("light uses light", "contain itself")]),
    (
        "two ways into a cycle",
        {"blocks": "blocks:\n  light: {row: [{use: dark}, ground 2 x 2]}\n  dark: {row: [{use: ➤light}, {use: ➤dark}]}"},
        ["light uses dark uses light", "dark uses dark"],
    ),
    ("fabric like none", blocks("➤velvet 2 x 4"), [("unknown fabric 'velvet'", "ground, star or edge", "described under fabrics")]),
    ("fabric without its name", blocks("{half-square: [➤'', star], finished: 2 x 2}"), [("found nothing", "a fabric")]),
    ("empty use", blocks("{row: [{➤use: }]}"), [("found nothing", "a block")]),
    ("ring of an unknown block", blocks("{partial: {centre: {use: ➤drak}, ring: ground 2 x 4}}"), ["'drak'"]),
    ("cycle through a centre", blocks("{around: {centre: {use: ➤light}, logs: [ground 1]}}"), ["light uses light"]),
    ("diamond without a size", {"blocks": "blocks:\n  ➤light: {diamond: {centre: star, corners: ground}}\n  dark: ground 4 x 4"}, ["a square in a square without 'finished'"]),
    ("unit of a letter without size", blocks("{grid: [D], key: {➤D: {half-square: [ground, star]}}}"), ["a half-square without 'finished'"]),
    ("unit in a ring without size", blocks("{partial: {➤centre: {half-square: [ground, star]}, ring: ground 2 x 4}}"), ["a half-square without 'finished'"]),
    ("cycle through a diamond", blocks("{diamond: {centre: {use: ➤light}, corners: star}, finished: 4 x 4}"), ["light uses light"]),
    (
        "long cycle",
        {"blocks": "blocks:\n  dark: ground 4 x 4\n  light: {use: a}\n  a: {use: b}\n  b: {use: c}\n  c: {use: d}\n  d: {use: e}\n  e: {use: ➤light}"},
        ["light uses a uses b uses ... uses e uses light"],
    ),
    ("finished that is no size", {"blocks": "blocks:\n  light:\n    finished: ➤8\n    row: [ground 2 x 2]\n  dark: ground 4 x 4"}, ["width x height"]),
    ("block id that ends in a digit", {"blocks": "blocks:\n  light: ground 4 x 4\n  dark: ground 4 x 4\n  ➤dark2: ground 4 x 4"}, ["digit"]),
    ("inset seam", blocks("{row: [{➤inset: {corner: ground}}]}"), [("an inset (Y) seam", "straight seams")]),
    ("curve", blocks("{row: [{➤curve: [ground, star], finished: 4 x 4}]}"), ["a curved seam"]),
    ("appliqué", blocks("{row: [ground 4 x 4], ➤Appliqué: star}"), ["appliqué"]),
    ("applique", blocks("{➤applique: star}"), ["appliqué"]),
    ("foundation", blocks("{row: [{➤foundation: [ground, star]}]}"), ["foundation (paper) piecing"]),
    ("paper piecing as a method", blocks("{geese: {goose: ground, sky: star}, finished: 4 x 2, method: ➤paper piecing}"), ["foundation (paper) piecing"]),
    ("half-rectangle of three", blocks("{row: [{half-rectangle: ➤[ground, star, star], finished: 4 x 2}]}"), ["two fabrics"]),
    ("three-triangle of two", blocks("{row: [{three-triangle: ➤[ground, star], finished: 4 x 4}]}"), ["three fabrics"]),
]  # fmt: skip

SETTING: list[Case] = [
    ("setting of empty rows", {"setting": "setting: {set: straight, blocks: [➤[], ➤'']}"}, ["an empty list", "nothing"]),
    ("cell with a print of yardage", {"setting": "setting: {set: straight, blocks: [[light, ➤ground.2]]}"}, ["only a bundle has prints"]),
    ("cell as a list", {"setting": "setting: {set: straight, blocks: [[light, ➤[dark]]]}"}, [("found a list", "light@90")]),
    ("set missing", {"setting": "➤setting: {blocks: [[light]]}"}, ["the setting without 'set'"]),
    ("unknown set", {"setting": "setting: {set: ➤onpoint, blocks: [[light]]}"}, ["did you mean 'on-point'?"]),
    ("strippy without strips", {"setting": "➤setting: {set: strippy, blocks: [[light]]}"}, [("without 'sashing'", "strips between the columns")]),
    ("strippy with cornerstones", {"setting": "setting: {set: strippy, blocks: [[light]], sashing: {fabric: edge, width: 2, ➤cornerstone: ground}}"}, ["cornerstones in a strippy set"]),
    ("strippy with triangles", {"setting": "setting: {set: strippy, blocks: [[light]], ➤triangles: {fabric: edge}, sashing: {fabric: edge, width: 2}}"}, ["triangles in a strippy set"]),
    ("medallion", {"setting": "setting: {set: ➤medallion, blocks: [[light]]}"}, ["a medallion set"]),
    ("tile of one list", {"setting": "setting: {set: straight, blocks: [➤light, ➤dark]}"}, ["a row of blocks", "a row"]),
    ("tile as a word", {"setting": "setting: {set: straight, blocks: ➤light}"}, ["a list of rows of blocks"]),
    ("ragged tile", {"setting": "setting: {set: straight, blocks: [[light, dark], ➤[dark]]}"}, [("a row of 1", "2")]),
    ("unknown block in a tile", {"setting": "setting: {set: straight, blocks: [[light, ➤darkk]]}"}, ["did you mean 'dark'?"]),
    ("block by a wrong turn", {"setting": "setting: {set: straight, blocks: [[➤light@45]]}"}, [("'45'", "0, 90, 180 or 270")]),
    ("between in a straight set", {"setting": "setting: {set: straight, blocks: [[light]], ➤between: [[ground]]}"}, ["only in an on-point set"]),
    ("triangles in a straight set", {"setting": "setting: {set: straight, blocks: [[light]], ➤triangles: {fabric: ground}}"}, ["only in an on-point set"]),
    ("no triangles on point", {"setting": "➤setting: {set: on-point, blocks: [[light]]}"}, [("without 'triangles'", "their fabric")]),
    ("triangles from a bundle", {"setting": "setting: {set: on-point, blocks: [[light]], triangles: {fabric: ➤star}}"}, [("squares 10", "cut from yardage")]),
    ("triangles without fabric", {"setting": "setting: {set: on-point, blocks: [[light]], ➤triangles: {float: 1}}"}, ["without 'fabric'"]),
    ("turns neither free nor fixed", {"setting": "setting: {set: straight, blocks: [[light]], turns: ➤some}"}, ["free or fixed"]),
    ("sashing without width", {"setting": "setting: {set: straight, blocks: [[light]], ➤sashing: {fabric: ground}}"}, ["the sashing without 'width'"]),
    ("sashing of an unknown fabric", {"setting": "setting: {set: straight, blocks: [[light]], sashing: {fabric: ➤groud, width: 1}}"}, ["unknown fabric 'groud'"]),
    ("outer in words", {"setting": "setting: {set: straight, blocks: [[light]], sashing: {fabric: ground, width: 1, outer: ➤no}}"}, ["write false"]),
]  # fmt: skip

FINISHING: list[Case] = [
    ("border without width", {"borders": "borders:\n  - ➤fabric: edge"}, ["a border without 'width'"]),
    ("border range upside down", {"borders": "borders: [{fabric: edge, width: ➤6 to 2}]"}, ["from the narrowest"]),
    ("border range past its steps", {"borders": "borders: [{fabric: edge, width: ➤2 to 3 by 3/4}]"}, ["steps of 3/4 end at"]),
    ("border range of many steps", {"borders": "borders: [{fabric: edge, width: ➤1 to 9 by 1/64}]"}, ["at most 200 steps"]),
    ("border range of three ends", {"borders": "borders: [{fabric: edge, width: ➤1 to 2 to 3}]"}, ["a range such as 2 to 6"]),
    ("scale of nothing", {"sizes": "sizes: {crib: {blocks: 2 x 3, scale: ➤0}}"}, ["a scale such as 1 1/2"]),
    ("scale in words", {"sizes": "sizes: {crib: {blocks: 2 x 3, scale: ➤double}}"}, ["a scale such as 1 1/2"]),
    ("scale and size of the block", {"sizes": "sizes: {crib: {blocks: 2 x 3, scale: 2, ➤finished: 8 x 8}}"}, ["both scale and finished"]),
    ("first border joined to one inside", {"borders": "borders: [➤{fabric: edge, width: 1, corner: mitred, joined: true}]"}, ["round another mitred one"]),
    ("border of no fabric", {"borders": "borders: [➤{width: 1}]"}, ["a border without 'fabric'"]),
    ("border from a bundle", {"borders": "borders: [{fabric: ➤star, width: 1}]"}, [("squares 10", "yardage")]),
    ("border of a print", {"borders": "borders: [{fabric: ➤star.2, width: 1}]"}, ["without a print"]),
    ("borders as one mapping", {"borders": "borders: ➤{fabric: edge, width: 1}"}, ["a list of borders"]),
    ("border width with a comma", {"borders": "borders: [{fabric: edge, width: ➤2,5}]"}, [("'2,5'", "a point for the comma: 2.5")]),
    ("border in feet", {"borders": "borders: [{fabric: edge, width: ➤1 ft}]"}, ["units are in, cm and mm"]),
    ("border as text", {"borders": "borders: [➤edge]"}, ["what a border has, each with a colon"]),
    ("unknown corner", {"borders": "borders: [{fabric: edge, width: 1, corner: ➤miterd}]"}, ["did you mean 'mitred'?"]),
    ("cornerstones without fabric", {"borders": "borders: [➤{fabric: edge, width: 1, corner: cornerstone}]"}, ["without its fabric"]),
    ("cornerstone of a butted border", {"borders": "borders: [{fabric: edge, width: 1, ➤cornerstone: ground}]"}, ["butted corners"]),
    ("pieced border with a width", {"borders": "borders: [{fabric: edge, ➤width: 1, pieced: light}]"}, ["width of a pieced border"]),
    ("pieced border with mitres", {"borders": "borders: [{fabric: edge, pieced: light, ➤corner: mitred}]"}, [("mitred corners", "cornerstone")]),
    ("pieced border of an unknown block", {"borders": "borders: [{fabric: edge, pieced: ➤lite}]"}, [("unknown block 'lite'", "light")]),
    ("pieced border of a list", {"borders": "borders: [{fabric: edge, pieced: ➤[ground, star]}]"}, ["a block"]),
    ("border without a width", {"borders": "borders: [➤{fabric: edge}]"}, [("without 'width'", "'pieced'")]),
    ("binding without fabric", {"binding": "➤binding: {strip: 2 1/2}"}, ["the binding without 'fabric'"]),
    ("no binding", {"binding": "binding: ➤none"}, ["leave the binding out where there is none"]),
    ("binding by its width", {"binding": "binding: {fabric: edge, ➤width: 2 1/2}"}, ["did you mean 'strip'?"]),
    ("binding from a bundle", {"binding": "binding: {fabric: ➤star}"}, ["binding is cut from yardage"]),
    ("binding cut upward", {"binding": "binding: {fabric: edge, cut: ➤upward}"}, ["crosswise, lengthwise or bias"]),
    ("border cut on the bias", {"borders": "borders: [{fabric: edge, width: 1, cut: ➤bias}]"}, ["crosswise or lengthwise"]),
    ("pieced border cut lengthwise", {"borders": "borders: [{fabric: edge, pieced: light, ➤cut: lengthwise}]"}, ["cut of a pieced border"]),
    ("backing from a bundle", {"backing": "backing: {fabric: ➤star}"}, ["backing is cut from yardage"]),
    ("usable backing of zero", {"backing": "backing: {usable: ➤0}"}, ["over 0"]),
    ("batting with another key", {"batting": "batting: {➤extras: 4}"}, ["did you mean 'extra'?"]),
    ("batting empty", {"batting": "➤batting:"}, [("found nothing", "extra")]),
]  # fmt: skip

SIZES: list[Case] = [
    ("size id with a capital", {"sizes": "sizes:\n  ➤Crib: {blocks: 2 x 3}"}, [("'Crib'", "a small letter", "such as crib, with title: Crib")]),
    ("size id too long", {"sizes": f"sizes:\n  ➤{'a' * 41}: {{blocks: 2 x 3}}"}, ["at most 40"]),
    ("size without extent", {"sizes": "sizes:\n  ➤crib: {title: Crib}\n  lap: {blocks: 2 x 3}"}, [("'blocks'", "'cover'")]),
    ("size with both extents", {"sizes": "sizes:\n  crib: {blocks: 2 x 3, ➤cover: {mattress: 60 x 80, drop: 12}}"}, ["both blocks and cover"]),
    ("half blocks", {"sizes": "sizes:\n  crib: {blocks: ➤2 1/2 x 3}\n  lap: {blocks: 2 x 3}"}, ["across x down"]),
    ("no blocks across", {"sizes": "sizes:\n  crib: {blocks: ➤0 x 3}\n  lap: {blocks: 2 x 3}"}, ["across x down"]),
    ("too many blocks", {"sizes": "sizes:\n  crib: {blocks: ➤50 x 51}\n  lap: {blocks: 50 x 50}"}, [("2550 blocks", "2500")]),
    ("size as text", {"sizes": "sizes:\n  crib: ➤2 x 3\n  lap: {blocks: 2 x 3}"}, ["what a size has, each with a colon"]),
    ("bed without drop", {"sizes": "sizes:\n  crib: {➤cover: {mattress: 60 x 80}}"}, ["without 'drop'"]),
    ("bed of one side", {"sizes": "sizes:\n  crib: {cover: {mattress: ➤60, drop: 12}}\n  lap: {blocks: 2 x 3}"}, ["width x length of the mattress, such as 60 x 80"]),
    ("bed by its name", {"sizes": "sizes:\n  crib: {cover: {mattress: ➤queen, drop: 12}}\n  lap: {blocks: 2 x 3}"}, [("'queen'", "such as 60 x 80")]),
    (
        "widths for fewer borders than there are",
        {"borders": "borders: [{fabric: edge, width: 1}, {fabric: ground, width: 3}]", "sizes": "sizes:\n  crib: {blocks: 2 x 3, borders: ➤[1]}"},
        [("a list of 1", "2, one for each")],
    ),
    ("widths for no borders", {"sizes": "sizes:\n  crib: {blocks: 2 x 3, borders: ➤[1]}"}, ["none without borders"]),
    (
        "border width of zero",
        {"borders": "borders: [{fabric: edge, width: 1}]", "sizes": "sizes:\n  crib: {blocks: 2 x 3, borders: [➤0]}"},
        ["over 0"],
    ),
    ("class of an unknown size", {"classes": "classes:\n  autumn: {size: ➤cribb, students: 9}"}, ["did you mean 'crib'?"]),
    ("class without students", {"classes": "classes:\n  autumn: {size: crib, students: ➤0}"}, ["from 1"]),
    ("class without a size", {"classes": "classes:\n  ➤autumn: {students: 9}"}, ["a class without 'size'"]),
    ("session without length", {"classes": "classes:\n  autumn: {size: crib, students: 9, sessions: [3 h, ➤long]}"}, ["90 min"]),
    ("session without its unit", {"classes": "classes:\n  autumn: {size: crib, students: 9, sessions: [➤180]}"}, ["such as 3 h or 90 min"]),
    ("session of more than a day", {"classes": "classes:\n  autumn: {size: crib, students: 9, sessions: [➤25 h]}"}, ["24 h"]),
    ("class id with an underscore", {"classes": "classes:\n  ➤autumn_class: {size: crib, students: 9}"}, ["hyphens"]),
]  # fmt: skip

YAML: list[Case] = [
    ("anchor", {"title": "title: ➤&t Harbour"}, ["&t, a mark to repeat"]),
    ("alias", {"title": "title: ➤&t Harbour", "version": "version: ➤*t"}, ["&t, a mark to repeat", ("*t", "written out")]),
    ("merge key", {"sizes": "sizes:\n  crib: {blocks: 2 x 3, ➤<<: {title: A}}"}, ["<<, which would copy"]),
    ("tag", {"version": "version: ➤!!str 1.0"}, [("a word after !", "quotes")]),
    ("duplicate key", {"more": "➤title: Again"}, [("'title' again", "line 1")]),
    ("duplicate key in quotes", {"sizes": "sizes:\n  crib: {blocks: 2 x 3, ➤'blocks': 3 x 3}"}, ["'blocks' again"]),
    ("list as a key", {"more": "➤[a, b]: c"}, ["a list before a colon"]),
    ("mapping as a key", {"more": "? ➤{a: b}\n: c"}, ["braces before a colon"]),
    ("second document", {"more": "➤---\ntitle: Other"}, ["three dashes"]),
    ("tab as indentation", {"sizes": "sizes:\n➤\tcrib: {blocks: 2 x 3}\n➤\tlap: {blocks: 2 x 3}"}, ["a tab", "a tab"]),
    ("tab behind spaces", {"sizes": "sizes:\n ➤\tcrib: {blocks: 2 x 3}"}, ["a tab as indentation"]),
    ("control character", {"title": "title: Harbour➤\x07Lights"}, ["U+0007"]),
    ("NUL", {"title": "title: Harbour➤\x00Lights"}, ["U+0000"]),
    ("C1 control character", {"title": "title: Harbour➤\x9fLights"}, ["U+009F"]),
    ("line separator", {"title": "title: Harbour➤\u2028Lights"}, ["U+2028"]),
    ("byte order mark in the middle", {"title": "title: Harbour➤\ufeffLights"}, [("an invisible character (U+FEFF)", "delete it")]),
    ("control character by an escape", {"title": 'title: ➤"Harbour\\0Lights"'}, ["U+0000"]),
    ("half a surrogate by an escape", {"title": 'title: ➤"Harbour\\ud83d"'}, ["U+D83D"]),
    ("escape that names no character", {"title": 'title: "Harbour\\U➤ffffffff"'}, ["a number that is no character"]),
    ("bracket left open", {"setting": "setting: {set: straight, blocks: [[light]", "sizes": "➤sizes: {crib: {blocks: 2 x 3}}"}, [("a list that is not closed", "a bracket or a quote is left open", "line 11, column 34")]),
    ("colon left out", {"title": "➤title Harbour"}, [("without its colon", "such as title: Harbour")]),
    ("key in the wrong column", {"setting": "setting:\n  set: straight\n    ➤blocks: [[light]]"}, [("'blocks' here", "the same column")]),
    ("colour in a typesetter's quotes", {"fabrics": "fabrics:\n  ground: {source: yardage, colour: ➤“#1f2f4a”}\n  star: {source: squares 10}\n  edge: {source: yardage}"}, ["straight quotes"]),
    ("colour without quotes in braces", {"fabrics": "fabrics:\n  ground: {source: yardage, colour: ➤#1f2f4a}\n  star: {source: squares 10}"}, [("#1f2f4a without quotes", "begins a comment")]),
    ("list behind its key", {"sizes": "sizes: ➤- crib"}, ["lines of its own"]),
    ("comma too many", {"setting": "setting: {set: straight, blocks: [[light, ➤, dark]]}"}, ["one comma less"]),
    ("backslash in double quotes", {"title": 'title: ➤"Harbour \\Wharf"'}, ["single quotes"]),
    ("quote left open", {"title": 'title: ➤"Harbour'}, [("a quote that is not closed", "is a quote left open?")]),
    ("colon in a title", {"title": "title: Harbour➤: Lights"}, [("a second colon", "quotes round")]),
    ("backtick", {"title": "title: ➤`Harbour`"}, ["needs quotes"]),
    ("colon without its space", {"title": "title➤:Harbour"}, [("a colon without a space", "such as title: Harbour")]),
    ("dash without its space", {"blocks": "blocks:\n  light:\n    row:\n      - star.1 2 x 4\n      ➤-star.2 2 x 4"}, [("a dash without a space", "such as - star.2 2 x 4")]),
    ("colon left out of a section", {"sizes": "➤sizes\n  crib: {blocks: 2 x 3}"}, ["without its colon"]),
    ("apostrophe in single quotes", {"title": "title: 'Anna'➤s Harbour'"}, [("more text after the quotes", "use double ones")]),
    ("text behind its quotes", {"title": 'title: "Harbour" ➤Lights'}, [("more text after the quotes", "round the whole value")]),
    ("brace that closes nothing", {"sizes": "sizes: {crib: {blocks: 2 x 3}}➤}"}, ["one bracket less"]),
    ("bar before a value", {"title": "title: |➤Harbour"}, [("begins with | or >", "quotes")]),
    ("question mark before a value", {"title": "title: ➤? Harbour"}, [("begins with a question mark", "quotes")]),
    ("ampersand before a value", {"title": "title: &➤! Harbour"}, [("begins with & or *", "quotes")]),
    ("line for the parser", {"title": "➤%YAML 3.0\n---\ntitle: Harbour"}, ["a line that begins with %"]),
    ("three dots", {"more": "...\n➤title: Again"}, [("something beside the lines", "three dots?")]),
    ("escape cut short", {"title": 'title: ➤"\\u12"'}, [("a backslash", "single quotes")]),
]  # fmt: skip

MANY: list[Case] = [
    (
        "faults in every section",
        {
            "title": "title: ➤[T]",
            "seam": "seam: ➤2",
            "fabrics": "fabrics:\n  ground: {source: yardage, colour: ➤red}\n  star: {➤sauce: squares 10}\n  edge: {source: yardage}",
            "blocks": "blocks:\n  light:\n    row: [➤grond 2 x 4, star.2 2 x 4]\n  dark: {use: ➤lite}",
            "setting": "setting: {set: on-point, blocks: [[light, ➤dork]], triangles: {fabric: ground, ➤flot: 1}}",
            "borders": "borders: [{fabric: edge, width: ➤wide}]",
            "sizes": "sizes:\n  crib: {blocks: 2 x 3, borders: ➤[1, 2]}\n  ➤Lap: {blocks: 2 x 3}",
            "classes": "classes:\n  autumn: {size: ➤throw, students: ➤-1}",
        },
        [
            "a title", "'2' as the seam allowance", "colour 'red'", "'sauce'", "'grond'", "'lite'",
            "'dork'", "'flot'", "'wide'", "a list of 2 border widths", "'Lap'", "'throw'", "students",
        ],
    ),
    (
        "a bad name or number does not hide the next",
        {"unit": "unit: ➤ft", "seam": "seam: ➤1/4 ft", "fabrics": "fabrics: ➤none"},
        ["in or cm", "'1/4 ft'", "fabrics by their short names"],
    ),
    ("locks as a list", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: ➤[1.1]}"}, ['numbers of blocks']),
    ("lock of no block", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {➤first: {star.1: '#c8553d'}}}"}, [("a lock of 'first'", 'row.position')]),
    ("lock without prints", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: ➤star}}"}, ['prints of the block']),
    ("lock of an unknown fabric", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: {➤stra.1: '#c8553d'}}}"}, [("unknown fabric 'stra'", "did you mean 'star'?")]),
    ("lock of yardage", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: {➤ground: '#c8553d'}}}"}, [('yardage', 'a print of a bundle')]),
    ("lock of a print of yardage", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: {➤ground.1: '#c8553d'}}}"}, ['only a bundle has prints']),
    ("lock to a colour that the bundle lacks", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: {star.1: ➤'#c8553e'}}}"}, [("colour '#c8553e'", '#c8553d or #f2b134')]),
    ("lock to no colour", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: {star.1: ➤red}}}"}, [("colour 'red'", '#1f2f4a')]),
    ("lock of two prints to one colour", {"fabrics": "fabrics:\n  ground: {source: yardage}\n  star: {source: squares 10, colours: ['#c8553d', '#f2b134']}\n  edge: {source: yardage}", "sizes": "sizes:\n  crib: {blocks: 2 x 3, locks: {1.1: {star.1: '#f2b134', ➤star.2: '#f2b134'}}}"}, [("one colour of 'star'", 'a colour of its own')]),
]  # fmt: skip

CASES = [*TOP, *FABRICS, *PARTS, *SETTING, *FINISHING, *SIZES, *YAML, *MANY]


@pytest.mark.parametrize(("sections", "expected"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_every_fault_is_reported_at_its_place(sections: dict[str, str], expected: list[str | tuple[str, ...]]) -> None:
    text, marks = split_marks(pattern_text(**sections))

    problems = read_pattern(text.encode("utf-8", "surrogatepass"), "harbour-lights").problems

    sentences = [problem.sentence("harbour-lights.yaml") for problem in problems]
    assert [problem.where for problem in problems] == marks, sentences
    assert len(sentences) == len(expected)
    for sentence, words in zip(sentences, expected, strict=True):
        for word in (words,) if isinstance(words, str) else words:
            assert word in sentence


def test_the_small_pattern_itself_has_no_fault() -> None:
    assert read_pattern(pattern_text().encode(), "harbour-lights").problems == ()


def test_case_names_are_unique_and_every_case_marks_a_place() -> None:
    names = [case[0] for case in CASES]

    assert len(set(names)) == len(names)
    assert all(MARK in "".join(sections.values()) for _, sections, _ in CASES)
