"""Every key that a part of a block may hold: one table a kind."""

from __future__ import annotations

from typing import Final, get_args

from seamleaf.reading.forms import (
    BLOCK as A_BLOCK,
)
from seamleaf.reading.forms import (
    FABRIC,
    FLAG,
    LENGTH,
    LENGTH_OR_NONE,
    LETTERS,
    LOG,
    ONE_LETTER,
    PAIR,
    PATCH,
    TURN,
    either,
    entries_of,
    keys_of,
    list_of,
    words_of,
)
from seamleaf.reading.part_records import Method, Point
from seamleaf.reading.tables import Key, Keys

HALF_SQUARE_METHODS: Final[tuple[Method, ...]] = ("two", "four", "eight", "triangles")
PAIR_METHODS: Final[tuple[Method, ...]] = ("two", "triangles")
HALF_RECTANGLE_METHODS: Final[tuple[Method, ...]] = ("triangles",)
GEESE_METHODS: Final[tuple[Method, ...]] = ("four", "triangles", "flip")
JOIN_METHODS: Final[tuple[Method, ...]] = ("strips", "patches")

# Corners and diamonds are made in one way, which a designer may state.
CORNER_METHODS: Final[tuple[Method, ...]] = ("flip",)
DIAMOND_METHODS: Final[tuple[Method, ...]] = ("triangles",)

PART: Final = keys_of("part", "a part")
"""A patch, or a mapping that one of the tables of parts describes."""


def _method(*methods: Method) -> Key:
    return Key(
        form=words_of(*methods),
        meaning="How the unit is made: so many at a time from squares, from cut triangles, or by stitch and flip.",
        without="the way that suits the unit and its count",
        example=methods[0],
    )


def _finished(of: str, example: str = "4 x 4") -> Key:
    return Key(form=PAIR, meaning=f"The finished size of {of}, without seam allowance.", example=example)


_JOINED: Final = Key(
    form=words_of(*JOIN_METHODS),
    meaning="strips: sew long strips together and cut the rows from them; patches: cut and sew patch by patch.",
    without="strips where that is less work and takes no more fabric",
    example="strips",
)
_TURN: Final = Key(form=TURN, meaning="How far the part is turned, in degrees, clockwise.", default="0", example="90")
_OVERSIZE: Final = Key(
    form=LENGTH_OR_NONE,
    meaning="What is added to the side of each square that is cut; the unit is trimmed to size afterwards.",
    default="0",
    example="1/8",
)
_TWO: Final = list_of(FABRIC, "two fabrics", exactly=2)
_THREE: Final = list_of(FABRIC, "three fabrics", exactly=3)
_FOUR: Final = list_of(FABRIC, "four fabrics", exactly=4)
_CENTRE: Final = Key(form=PART, meaning="The part in the middle.", example="star 2 x 2")


def _flipped(corner: str) -> Key:
    return Key(form=FABRIC, meaning=f"The fabric of the {corner} corner.", without="no such corner", example="ground")


PARTS: Final = {
    "row": Keys(
        of="a row",
        required={
            "row": Key(
                form=list_of(PART, "a list of parts"),
                meaning="Parts that are joined from left to right.",
                example="[star 2 x 2, ground 4 x 2]",
            )
        },
        optional={"method": _JOINED},
    ),
    "column": Keys(
        of="a column",
        required={
            "column": Key(
                form=list_of(PART, "a list of parts"),
                meaning="Parts that are joined from top to bottom.",
                example="[star 2 x 2, ground 2 x 4]",
            )
        },
        optional={"method": _JOINED},
    ),
    "grid": Keys(
        of="a grid",
        required={
            "grid": Key(
                form=list_of(LETTERS, "a list of rows of letters"),
                meaning="The block drawn with letters, a row of it a text.",
                example="[SGS, GSG, SGS]",
            ),
            "key": Key(
                form=entries_of(PART, "a part for each letter", ids=ONE_LETTER),
                meaning="What each letter of the grid stands for.",
                example="{S: star 2 x 2, G: ground 2 x 2}",
            ),
        },
        optional={"method": _JOINED},
    ),
    "half-square": Keys(
        of="a half-square",
        required={
            "half-square": Key(
                form=_TWO,
                meaning="The fabrics of the two triangles: the upper left one, then the lower right one.",
                example="[star, ground]",
            ),
            "finished": _finished("the unit"),
        },
        optional={"turn": _TURN, "method": _method(*HALF_SQUARE_METHODS), "oversize": _OVERSIZE},
    ),
    "quarter-square": Keys(
        of="a quarter-square",
        required={
            "quarter-square": Key(
                form=_FOUR,
                meaning="The fabrics of the four triangles: top, right, bottom, left.",
                example="[star, ground, star, ground]",
            ),
            "finished": _finished("the unit"),
        },
        optional={"turn": _TURN, "method": _method(*PAIR_METHODS), "oversize": _OVERSIZE},
    ),
    "three-triangle": Keys(
        of="a three-triangle square",
        required={
            "three-triangle": Key(
                form=_THREE,
                meaning="The fabrics of the upper left half, of the right quarter and of the bottom quarter.",
                example="[ground, star, ground]",
            ),
            "finished": _finished("the unit"),
        },
        optional={"turn": _TURN, "method": _method(*PAIR_METHODS), "oversize": _OVERSIZE},
    ),
    "half-rectangle": Keys(
        of="a half-rectangle",
        required={
            "half-rectangle": Key(
                form=_TWO,
                meaning="The fabrics of the two triangles: the upper left one, then the lower right one.",
                example="[star, ground]",
            ),
            "finished": _finished("the unit, as it lies", "2 x 4"),
        },
        optional={
            "turn": Key(
                form=TURN,
                meaning="How far the unit is turned, clockwise; a quarter turn makes the seam fall.",
                default="0",
                example="90",
            ),
            "method": _method(*HALF_RECTANGLE_METHODS),
            "oversize": Key(
                form=LENGTH_OR_NONE,
                meaning="What is added to both sides of each rectangle that is cut, beyond what the trim needs anyhow.",
                default="0",
                example="1/4",
            ),
        },
    ),
    "geese": Keys(
        of="flying geese",
        required={
            "geese": Key(
                form=keys_of("geese", "goose and sky"),
                meaning="The fabrics of the large triangle and of the two small ones.",
                example="{goose: star, sky: ground}",
            ),
            "finished": _finished("the unit", "4 x 2"),
        },
        optional={
            "point": Key(
                form=words_of(*get_args(Point)), meaning="Where the goose points.", default="up", example="down"
            ),
            "method": _method(*GEESE_METHODS),
            "oversize": _OVERSIZE,
        },
    ),
    "corners": Keys(
        of="stitch-and-flip corners",
        required={
            "corners": Key(
                form=keys_of("corners", "a base and its corners"),
                meaning="The fabric of the base, and of each corner that is sewn across it.",
                example="{base: star, top-left: ground, bottom-right: ground}",
            ),
            "corner": Key(form=LENGTH, meaning="The finished side of a corner.", example="2"),
            "finished": _finished("the unit"),
        },
        optional={"method": _method(*CORNER_METHODS)},
    ),
    "diamond": Keys(
        of="a square in a square",
        required={
            "diamond": Key(
                form=keys_of("diamond", "a centre and its corners"),
                meaning="A square that stands on its point, and four triangles round it.",
                example="{centre: star, corners: ground}",
            )
        },
        optional={
            "finished": Key(
                form=PAIR,
                meaning="The finished size of the unit, without seam allowance.",
                without="for the centre of another: the size that fills it; elsewhere it must stand",
                example="4 x 4",
            ),
            "method": _method(*DIAMOND_METHODS),
            "oversize": _OVERSIZE,
        },
    ),
    "around": Keys(
        of="a log cabin",
        required={
            "around": Key(
                form=keys_of("around", "a centre and its logs"),
                meaning="Logs that are sewn round a centre, one after the other.",
                example="{centre: star 2 x 2, logs: [ground 1, ground 1, star 1, star 1]}",
            )
        },
    ),
    "partial": Keys(
        of="a ring closed by a partial seam",
        required={
            "partial": Key(
                form=keys_of("partial", "a centre and its ring"),
                meaning="Four equal rectangles round a square.",
                example="{centre: star 2 x 2, ring: ground 2 x 4}",
            )
        },
    ),
    "use": Keys(
        of="a block used as a part",
        required={"use": Key(form=A_BLOCK, meaning="Another block of this pattern.", example="claw")},
        optional={
            "turn": _TURN,
            "mirror": Key(
                form=FLAG,
                meaning="Whether left and right change places, before the block is turned.",
                default="false",
                example="true",
            ),
        },
    ),
}
"""The kinds of parts, by the key that names the kind."""

PART_WORDS: Final = tuple(dict.fromkeys(key for keys in PARTS.values() for key in keys.all))
"""Every key that any part may hold."""

GEESE: Final = Keys(
    of="geese",
    required={
        "goose": Key(form=FABRIC, meaning="The fabric of the large triangle.", example="star"),
        "sky": Key(form=FABRIC, meaning="The fabric of the two small triangles.", example="ground"),
    },
)
CORNERS: Final = Keys(
    of="corners",
    required={"base": Key(form=FABRIC, meaning="The fabric under the corners.", example="star")},
    optional={
        corner: _flipped(corner.replace("-", " "))
        for corner in ("top-left", "top-right", "bottom-right", "bottom-left")
    },
    one_of=("top-left", "top-right", "bottom-right", "bottom-left"),
)
DIAMOND: Final = Keys(
    of="diamond",
    required={
        "centre": Key(
            form=either("a fabric, or a part", FABRIC, PART),
            meaning="What stands on its point in the middle.",
            example="star",
        ),
        "corners": Key(form=FABRIC, meaning="The fabric of the four triangles.", example="ground"),
    },
)
AROUND: Final = Keys(
    of="around",
    required={
        "centre": _CENTRE,
        "logs": Key(
            form=list_of(LOG, "a list of logs"),
            meaning="The logs in the order in which they are sewn, each a fabric and a finished width.",
            example="[ground 1, ground 1, star 1, star 1]",
        ),
    },
    optional={
        "start": Key(
            form=words_of("top", "right", "bottom", "left"),
            meaning="The side of the centre that takes the first log.",
            default="right",
            example="top",
        ),
        "direction": Key(
            form=words_of("clockwise", "anticlockwise", "opposite"),
            meaning="Which way the logs go round; opposite sews them in pairs on facing sides (courthouse steps).",
            default="clockwise",
            example="opposite",
        ),
    },
)
PARTIAL: Final = Keys(
    of="partial",
    required={
        "centre": _CENTRE,
        "ring": Key(form=PATCH, meaning="One of the four rectangles.", example="ground 2 x 4"),
    },
    optional={
        "direction": Key(
            form=words_of("clockwise", "anticlockwise"),
            meaning="Which way the rectangles go round.",
            default="clockwise",
            example="anticlockwise",
        )
    },
)
BLOCK: Final = Keys(
    of="a block",
    optional={
        "finished": Key(
            form=PAIR,
            meaning="The finished size that the block must come to; it is checked against the sum of its parts.",
            without="the size that its parts come to",
            example="8 x 8",
        )
    },
)
"""What a block may say beside its part."""
NO_KEYS: Final = Keys(of="nothing")
