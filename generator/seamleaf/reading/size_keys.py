"""Every key of the sizes, the classes that sew them, and what a designer states of them."""

from __future__ import annotations

from typing import Final

from seamleaf.reading.forms import (
    COLOUR,
    COUNTS,
    HOURS,
    LENGTH_OR_NONE,
    LINE,
    LOCKED_BLOCKS,
    LOCKED_PRINTS,
    PAIR,
    PURCHASE,
    SCALE,
    STATED_CUT,
    WIDTHS,
    entries_of,
    keys_of,
    list_of,
    whole_number,
)
from seamleaf.reading.forms import PACE as A_PACE
from seamleaf.reading.forms import SIZE as A_SIZE
from seamleaf.reading.limits import MAX_COUNT, MAX_STUDENTS
from seamleaf.reading.tables import Key, Keys

SIZE: Final = Keys(
    of="a size",
    optional={
        "title": Key(form=LINE, meaning="What makers read.", without="its id, written as a title", example="Lap"),
        "blocks": Key(form=COUNTS, meaning="How many blocks it has.", without="'cover' decides", example="4 x 5"),
        "cover": Key(
            form=keys_of("cover", "keys of a bed"),
            meaning="A bed to cover: the smallest quilt that covers it is chosen, by its area.",
            without="'blocks' decides",
            example="{mattress: 60 x 80, drop: 12}",
        ),
        "borders": Key(
            form=list_of(WIDTHS, "a list of widths"),
            meaning="The widths of the borders in this size, one for each border.",
            without="those of the borders",
            example="[1, 2 1/2]",
        ),
        "scale": Key(
            form=SCALE,
            meaning="What the measures of blocks and set are multiplied by in this size.",
            without="as they are written",
            example="1 1/2",
        ),
        "finished": Key(
            form=PAIR,
            meaning="In place of a scale: the finished size of the block in this size.",
            without="the block as it is written",
            example="12 x 12",
        ),
        "locks": Key(
            form=entries_of(
                entries_of(COLOUR, "", ids=LOCKED_PRINTS),
                "blocks by their numbers, each with prints and their colours",
                ids=LOCKED_BLOCKS,
            ),
            meaning="Blocks that you decide, by row and position: which print shows which colour of its bundle.",
            without="the layout decides all of them",
            example='{"2.3": {bright.1: "#c8553d"}}',
        ),
    },
    apart=(("blocks", "cover"), ("scale", "finished")),
    one_of=("blocks", "cover"),
)
COVER: Final = Keys(
    of="a bed to cover",
    required={
        "mattress": Key(form=PAIR, meaning="Its mattress.", example="60 x 80"),
        "drop": Key(
            form=LENGTH_OR_NONE, meaning="How far the quilt hangs down at the sides and the foot.", example="12"
        ),
    },
    optional={
        "tuck": Key(form=LENGTH_OR_NONE, meaning="How much is tucked under the pillow.", default="0", example="10")
    },
)
CLASS: Final = Keys(
    of="a class",
    required={
        "size": Key(form=A_SIZE, meaning="The size that it sews, by its id.", example="lap"),
        "students": Key(form=whole_number(MAX_STUDENTS), meaning="How many students there are.", example="12"),
    },
    optional={
        "title": Key(form=LINE, meaning="What students read.", without="its id", example="Autumn class"),
        "sessions": Key(
            form=list_of(HOURS, "a list of times"),
            meaning="How long each session is.",
            without="no sessions are planned",
            example="[3 h, 90 min]",
        ),
    },
)
PACE: Final = Keys(
    of="the pace",
    optional={
        "cuts": Key(
            form=A_PACE, meaning="Ruler cuts in an hour, from slow to quick.", default="60 to 150", example="90"
        ),
        "seams": Key(
            form=A_PACE,
            meaning="Seams of blocks in an hour, sewn one after the other.",
            default="30 to 80",
            example="40 to 90",
        ),
        "presses": Key(form=A_PACE, meaning="Seams pressed in an hour.", default="60 to 160", example="80 to 200"),
        "pinned": Key(
            form=A_PACE,
            meaning="Length of pinned seams in an hour, in the pattern's unit: of rows, borders, binding and back.",
            without="150 to 400 in, or 400 to 1000 cm",
            example="200 to 500",
        ),
    },
)
STATED: Final = Keys(
    of="the stated size",
    optional={
        "finished": Key(
            form=PAIR, meaning="The finished size of the quilt.", without="not compared", example="60 x 72"
        ),
        "blocks": Key(
            form=whole_number(MAX_COUNT), meaning="All blocks of the quilt.", without="not compared", example="20"
        ),
        "buy": Key(
            form=entries_of(PURCHASE, "fabrics, each with a purchase"),
            meaning="What is bought of each fabric; a back without a fabric of the pattern is called backing.",
            without="not compared",
            example="{ground: 3 1/4 yd, star: 1 pack}",
        ),
        "cut": Key(
            form=entries_of(list_of(STATED_CUT, "cut sizes"), "fabrics, each with a list of cut sizes"),
            meaning="The cut sizes of each fabric, with how many if that is stated.",
            without="not compared",
            example="{ground: [32 of 2 7/8, 64 of 4 1/2 x 2 1/2]}",
        ),
        "binding": Key(
            form=whole_number(MAX_COUNT), meaning="The strips of binding.", without="not compared", example="7"
        ),
    },
)
