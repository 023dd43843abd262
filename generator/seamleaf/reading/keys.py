"""Every key that a pattern file may hold: one table a mapping, with what each key means.

Readers open a mapping with its table (see :mod:`seamleaf.reading.fields`), so an unknown key is answered with the
same list that decides what is known. The reference on the site and the schema for editors are made from these tables
too, so that neither can know less or more.
"""

from __future__ import annotations

from typing import Final

from seamleaf.reading.forms import (
    BLOCK_IDS,
    FABRIC_IDS,
    LENGTH,
    LINE,
    PARAGRAPH,
    SIZE_IDS,
    entries_of,
    keys_of,
    list_of,
    words_of,
)
from seamleaf.reading.limits import MAX_FABRICS
from seamleaf.reading.part_keys import (
    AROUND,
    BLOCK,
    CORNER_METHODS,
    CORNERS,
    DIAMOND,
    DIAMOND_METHODS,
    GEESE,
    GEESE_METHODS,
    HALF_RECTANGLE_METHODS,
    HALF_SQUARE_METHODS,
    JOIN_METHODS,
    NO_KEYS,
    PAIR_METHODS,
    PART_WORDS,
    PARTIAL,
    PARTS,
)
from seamleaf.reading.quilt_keys import BACKING, BATTING, BINDING, BORDER, FABRIC, SASHING, SETTING, TRIANGLES
from seamleaf.reading.size_keys import CLASS, COVER, PACE, SIZE, STATED
from seamleaf.reading.tables import Key, Keys

__all__ = [
    "AROUND",
    "BACKING",
    "BATTING",
    "BINDING",
    "BLOCK",
    "BORDER",
    "CLASS",
    "CORNERS",
    "CORNER_METHODS",
    "COVER",
    "DIAMOND",
    "DIAMOND_METHODS",
    "FABRIC",
    "GEESE",
    "GEESE_METHODS",
    "HALF_RECTANGLE_METHODS",
    "HALF_SQUARE_METHODS",
    "JOIN_METHODS",
    "NO_KEYS",
    "PACE",
    "PAIR_METHODS",
    "PARTIAL",
    "PARTS",
    "PART_WORDS",
    "PATTERN",
    "SASHING",
    "SETTING",
    "SIZE",
    "STATED",
    "TABLES",
    "TRIANGLES",
    "Keys",
]

PATTERN: Final = Keys(
    of="the pattern",
    required={
        "title": Key(form=LINE, meaning="What the pattern is called.", example="First Star"),
        "version": Key(
            form=LINE,
            meaning="Which issue of the pattern this is; raise it with every correction that you publish.",
            example="1.0.0",
        ),
        "fabrics": Key(
            form=entries_of(keys_of("fabric", ""), "fabrics by their short names", ids=FABRIC_IDS, most=MAX_FABRICS),
            meaning="Every fabric, by a short name that the blocks use.",
            example="{star: {source: yardage}, ground: {source: yardage}}",
        ),
        "blocks": Key(
            form=entries_of(keys_of("block", ""), "blocks by their short names", ids=BLOCK_IDS),
            meaning="Every block, by a name of its own, each a part that may hold other parts.",
            example="{star: {row: [star 2 x 4, ground 2 x 4]}}",
        ),
        "setting": Key(
            form=keys_of("setting", "keys of the setting"),
            meaning="How the blocks fill the centre of the quilt.",
            example="{set: straight, blocks: [[star]]}",
        ),
        "sizes": Key(
            form=entries_of(keys_of("size", ""), "sizes by their short names", ids=SIZE_IDS),
            meaning="Every size in which the pattern is published; its id becomes part of an address.",
            example="{lap: {blocks: 4 x 5}}",
        ),
    },
    optional={
        "designer": Key(form=LINE, meaning="Who designed it.", without="no designer is named", example="A. Designer"),
        "summary": Key(
            form=PARAGRAPH,
            meaning="One paragraph for whoever looks for a pattern.",
            without="no summary",
            example="Stars on a plain ground.",
        ),
        "skill": Key(form=LINE, meaning="For whom it is.", without="no word on skill", example="confident beginner"),
        "unit": Key(
            form=words_of("in", "cm"),
            meaning="The unit of every number that has none of its own.",
            default="in",
            example="cm",
        ),
        "seam": Key(form=LENGTH, meaning="The seam allowance.", without="{seam}", example="1/4"),
        "borders": Key(
            form=list_of(keys_of("border", ""), "a list of borders"),
            meaning="The borders, from the inside out.",
            without="no border",
            example="[{fabric: edge, width: 2}]",
        ),
        "binding": Key(
            form=keys_of("binding", "keys of the binding"),
            meaning="The binding.",
            without="no binding",
            example="{fabric: edge}",
        ),
        "backing": Key(
            form=keys_of("backing", "keys of the backing"),
            meaning="The back.",
            without="a back of a fabric of its own",
            example="{extra: 4}",
        ),
        "batting": Key(
            form=keys_of("batting", "keys of the batting"),
            meaning="The batting.",
            without="batting as large as the usual back",
            example="{extra: 4}",
        ),
        "classes": Key(
            form=entries_of(keys_of("class", ""), "classes by their short names", ids=SIZE_IDS),
            meaning="Classes that sew one of the sizes.",
            without="no class",
            example="{autumn: {size: lap, students: 12}}",
        ),
        "versions": Key(
            form=entries_of(PARAGRAPH, "versions, each with a text"),
            meaning="What each version corrects, in your own words, for the page of corrections.",
            without="the page says only what was computed anew",
            example="{1.0.1: The yardage of the ground was short.}",
        ),
        "stated": Key(
            form=entries_of(keys_of("stated", ""), "sizes, each with what is stated of it"),
            meaning="A table that you made by hand; each difference from what is computed is reported at its place.",
            without="nothing is compared",
            example="{lap: {blocks: 20}}",
        ),
        "pace": Key(
            form=keys_of("pace", "keys of the pace"),
            meaning="What is done in an hour, for the time that the pages tell.",
            without="the usual pace of one who sews for pleasure",
            example="{seams: 40 to 90}",
        ),
    },
)

TABLES: Final = {
    "fabric": FABRIC,
    "geese": GEESE,
    "corners": CORNERS,
    "diamond": DIAMOND,
    "around": AROUND,
    "partial": PARTIAL,
    "setting": SETTING,
    "sashing": SASHING,
    "triangles": TRIANGLES,
    "border": BORDER,
    "binding": BINDING,
    "backing": BACKING,
    "batting": BATTING,
    "size": SIZE,
    "cover": COVER,
    "class": CLASS,
    "stated": STATED,
    "pace": PACE,
}
"""The tables by the names that values refer to them with, in the order of a file; parts have their own list."""
