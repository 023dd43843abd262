"""Every key of the fabrics, the setting and what lies round it: one table a mapping."""

from __future__ import annotations

from typing import Final

from seamleaf.reading.forms import (
    BLOCK as A_BLOCK,
)
from seamleaf.reading.forms import (
    CELL,
    COLOUR,
    FLAG,
    LENGTH,
    LENGTH_OR_NONE,
    LENGTH_OR_PAIR,
    LINE,
    SOURCE,
    WIDTHS,
    YARDAGE,
    keys_of,
    list_of,
    whole_number,
    words_of,
)
from seamleaf.reading.forms import FABRIC as A_FABRIC
from seamleaf.reading.limits import MAX_PACK
from seamleaf.reading.tables import Case, Key, Keys

_TILE: Final = list_of(list_of(CELL, "a row of blocks"), "a list of rows")

FABRIC: Final = Keys(
    of="a fabric",
    required={
        "source": Key(
            form=SOURCE,
            meaning="What it is bought as. Sizes of bundles are names of the trade and always in inches.",
            example="squares 10",
        )
    },
    optional={
        "title": Key(form=LINE, meaning="What makers read.", without="its id", example="Cream solid"),
        "pack": Key(
            form=whole_number(MAX_PACK),
            meaning="How many pieces a bundle holds.",
            without="bundles are bought by the piece",
            example="42",
        ),
        "edge": Key(
            form=words_of("straight", "pinked"),
            meaning="How the pieces of a bundle are cut; pinked ones are measured from valley to valley.",
            default="straight",
            example="pinked",
        ),
        "usable": Key(
            form=LENGTH_OR_PAIR,
            meaning="What it is sure to yield. Yardage and strips: the width without selvedges; squares: the side; "
            "fat quarters and eighths: width x height.",
            without="yardage and strips {usable_width}; squares their side; fat quarters {fat_quarter}; "
            "fat eighths {fat_eighth}",
            example="42",
        ),
        "colour": Key(form=COLOUR, meaning="Its colour in the figures.", default='"#b8b8b8"', example='"#27364f"'),
        "colours": Key(
            form=list_of(COLOUR, "a list of colours"),
            meaning="The colours of a bundle, one for each of its prints.",
            without="the one colour",
            example='["#c8553d", "#f2b134"]',
        ),
        "directional": Key(
            form=FLAG,
            meaning="Whether its print has an up and a down, so that no piece of it may be turned.",
            default="false",
            example="true",
        ),
        "margin": Key(
            form=LENGTH_OR_NONE,
            meaning="What is added to the length of yardage for straightening, before it is rounded up.",
            without="{margin}",
            example="4",
        ),
    },
    apart=(("colour", "colours"),),
    cases=(
        Case(key="source", value="yardage", bars=("pack", "edge")),
        Case(key="source", value="yardage", otherwise=True, bars=("margin",)),
    ),
)
SETTING: Final = Keys(
    of="the setting",
    required={
        "set": Key(
            form=words_of("straight", "on-point", "strippy"),
            meaning="Whether blocks stand on a side or on a point; strippy: in columns with strips between them.",
            example="straight",
        ),
        "blocks": Key(
            form=_TILE,
            meaning="Which block stands where: rows of blocks that repeat over the quilt. A block may be turned "
            "(star@90), and a plain fabric may stand for a block.",
            example="[[star, plain], [plain, star]]",
        ),
    },
    optional={
        "between": Key(
            form=_TILE,
            meaning="On point: the blocks of the inner grid, which lie between the others.",
            without="the same blocks",
            example="[[ground]]",
        ),
        "turns": Key(
            form=words_of("free", "fixed"),
            meaning="Whether blocks that look the same when turned may be turned so that their seams nest.",
            default="free",
            example="fixed",
        ),
        "sashing": Key(
            form=keys_of("sashing", "keys of the sashing"),
            meaning="Strips between the blocks; in a strippy set between its columns, each as long as a column.",
            without="no sashing",
            example="{fabric: ground, width: 1 1/2}",
        ),
        "triangles": Key(
            form=keys_of("triangles", "keys of the triangles"),
            meaning="The setting triangles at the sides and corners; an on-point set needs them.",
            without="none",
            example="{fabric: ground}",
        ),
    },
    cases=(
        Case(key="set", value="straight", bars=("between", "triangles")),
        Case(key="set", value="on-point", needs=("triangles",)),
        Case(key="set", value="strippy", needs=("sashing",), bars=("between", "triangles")),
    ),
)
SASHING: Final = Keys(
    of="the sashing",
    required={
        "fabric": Key(form=A_FABRIC, meaning="Its fabric.", example="ground"),
        "width": Key(form=LENGTH, meaning="Its finished width.", example="1 1/2"),
    },
    optional={
        "cornerstone": Key(
            form=A_FABRIC,
            meaning="The fabric of the squares where strips meet.",
            without="strips run through",
            example="star",
        ),
        "outer": Key(
            form=FLAG,
            meaning="Whether there are strips round the outside as well.",
            without="false in a straight set, true on point",
            example="true",
        ),
    },
)
TRIANGLES: Final = Keys(
    of="the setting triangles",
    required={"fabric": Key(form=YARDAGE, meaning="Their fabric.", example="ground")},
    optional={
        "oversize": Key(
            form=LENGTH_OR_NONE,
            meaning="What is added to the sides of the squares that they are cut from; the centre is trimmed.",
            without="{triangle_oversize}",
            example="1",
        ),
        "float": Key(
            form=LENGTH_OR_NONE,
            meaning="How far the points of the blocks stay away from the edge.",
            default="0",
            example="1/2",
        ),
    },
)
BORDER: Final = Keys(
    of="a border",
    required={
        "fabric": Key(
            form=YARDAGE,
            meaning="Its fabric; of a pieced border that of the spacers at the ends of its strips.",
            example="edge",
        ),
    },
    optional={
        "width": Key(
            form=WIDTHS,
            meaning="Its finished width; of a range, a size for a bed takes the width that covers with the smallest "
            "quilt, and any other size the least; inside a pieced border the least at which its units come out even.",
            without="the height of the block, of a pieced border",
            example="2 to 6 by 1/2",
        ),
        "pieced": Key(
            form=A_BLOCK,
            meaning="The block that is repeated round the quilt, as it lies at the top; with it there is no width.",
            without="a border of one fabric",
            example="plain",
        ),
        "corner": Key(
            form=words_of("butted", "mitred", "cornerstone"),
            meaning="How its corners are made; butted: the sides first, then top and bottom.",
            default="butted",
            example="mitred",
        ),
        "cornerstone": Key(
            form=YARDAGE,
            meaning="The fabric of the squares at its corners, with corner: cornerstone.",
            without="no squares",
            example="star",
        ),
        "joined": Key(
            form=FLAG,
            meaning="Whether its strips are first sewn to those of the border inside it, and both are mitred as one.",
            default="false",
            example="true",
        ),
        "cut": Key(
            form=words_of("crosswise", "lengthwise"),
            meaning="How its strips are cut; crosswise: across the fabric, and joined; lengthwise: each in one piece "
            "along the selvedge.",
            default="crosswise",
            example="lengthwise",
        ),
    },
    apart=(("width", "pieced"), ("joined", "pieced"), ("cut", "pieced")),
    one_of=("width", "pieced"),
    cases=(
        Case(key="corner", value="mitred", bars=("pieced",)),
        Case(key="corner", value="cornerstone", needs=("cornerstone",)),
        Case(key="corner", value="cornerstone", otherwise=True, bars=("cornerstone",)),
    ),
)
BINDING: Final = Keys(
    of="the binding",
    required={"fabric": Key(form=YARDAGE, meaning="Its fabric.", example="edge")},
    optional={
        "strip": Key(form=LENGTH, meaning="How wide its strips are cut.", without="{binding_strip}", example="2 1/4"),
        "cut": Key(
            form=words_of("crosswise", "lengthwise", "bias"),
            meaning="How its strips are cut; lengthwise: along the selvedge, beside what else is so long.",
            default="crosswise",
            example="bias",
        ),
        "extra": Key(
            form=LENGTH_OR_NONE,
            meaning="What is added to the way round the quilt, for joins and the last seam.",
            without="{binding_extra}",
            example="10",
        ),
    },
)
BACKING: Final = Keys(
    of="the backing",
    optional={
        "fabric": Key(form=YARDAGE, meaning="Its fabric.", without="a fabric of its own", example="ground"),
        "usable": Key(
            form=LENGTH,
            meaning="Its usable width.",
            without="that of its fabric, or else {usable_width}",
            example="106",
        ),
        "extra": Key(
            form=LENGTH_OR_NONE,
            meaning="How far it reaches beyond the top on each side.",
            without="{backing_extra}",
            example="3",
        ),
        "insert": Key(
            form=FLAG, meaning="Whether a strip of leftovers is sewn into it.", default="false", example="true"
        ),
    },
)
BATTING: Final = Keys(
    of="the batting",
    optional={
        "extra": Key(
            form=LENGTH_OR_NONE,
            meaning="How far it reaches beyond the top on each side.",
            without="{batting_extra}",
            example="3",
        )
    },
)
