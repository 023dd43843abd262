"""What a value of a pattern file looks like: in a word for readers, and as a JSON Schema for editors.

The readers decide what is right; a form says as much of that as one value alone can show. Tests hold the two together:
whatever reads without a problem has the form, and every fault that one value shows lacks it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from seamleaf.lengths import LENGTH_PATTERN
from seamleaf.reading.limits import MAX_INCHES, MAX_PACE, MAX_SCALE, MAX_TITLE, MIN_SCALE

Schema = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """The form of one value."""

    words: str
    """What it is, as a phrase: ``width x height``."""
    schema: Mapping[str, Any]
    """JSON Schema of the value as an editor reads it, where ``3`` is a number and ``3 1/2`` a text."""
    table: str = ""
    """The table of keys, by its name in the schema, that describes the value or its members."""


_NAME: Final = "[A-Za-z](?:[A-Za-z0-9_-]*[A-Za-z_-])?"
"""An id of a fabric or a block: it does not end in a digit, so that it cannot be taken for a size."""
_OTHER_THAN_X: Final = rf"(?!x(?![A-Za-z0-9_-])){_NAME}"
_USE: Final = rf"{_OTHER_THAN_X}(?:\.[1-9][0-9]?)?"
_PLAIN: Final = LENGTH_PATTERN.rpartition("[ ]*")[0] + ")"
_PAIR: Final = rf"{LENGTH_PATTERN}\s*[xX×]\s*{LENGTH_PATTERN}"
_COUNT: Final = "0*[1-9][0-9]*"
_LONGEST: Final = MAX_INCHES * 2.54
"""The number that no length is over, whichever the pattern's unit."""


def _text(words: str, pattern: str, **more: Any) -> Form:
    return Form(words=words, schema={"type": "string", "pattern": rf"^\s*{pattern}\s*$", **more})


def _number(words: str, pattern: str, **limits: Any) -> Form:
    return Form(words=words, schema={"type": ["number", "string"], "pattern": rf"^\s*{pattern}\s*$", **limits})


LINE: Final = Form(
    words="one line of text",
    schema={"type": ["string", "number", "boolean"], "pattern": r"^\s*\S[^\n]*\s*$", "maxLength": MAX_TITLE},
)
PARAGRAPH: Final = Form(words="text", schema={"type": ["string", "number", "boolean"], "pattern": r"\S"})
FLAG: Final = Form(words="true or false", schema={"type": ["boolean", "string"], "pattern": r"^\s*(?:true|false)\s*$"})
COLOUR: Final = _text("a colour, in quotes", "#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})", format="color-hex")
LENGTH: Final = _number("a length", LENGTH_PATTERN, exclusiveMinimum=0, maximum=_LONGEST)
LENGTH_OR_NONE: Final = _number("a length, or 0", LENGTH_PATTERN, minimum=0, maximum=_LONGEST)
PAIR: Final = _text("width x height", _PAIR)
LENGTH_OR_PAIR: Final = _number(
    "a length, or width x height", rf"(?:{LENGTH_PATTERN}|{_PAIR})", exclusiveMinimum=0, maximum=_LONGEST
)
WIDTHS: Final = _number(
    "a length, or a range of lengths",
    rf"{LENGTH_PATTERN}(?:\s+to\s+{LENGTH_PATTERN}(?:\s+by\s+{LENGTH_PATTERN})?)?",
    exclusiveMinimum=0,
    maximum=_LONGEST,
)
SCALE: Final = _number("a number", _PLAIN, minimum=float(MIN_SCALE), maximum=MAX_SCALE)
PACE: Final = _number(
    "a whole number, or a range of them", rf"{_COUNT}(?:\s+to\s+{_COUNT})?", minimum=1, maximum=MAX_PACE
)
HOURS: Final = _number("hours or minutes", rf"{_PLAIN}\s*(?:h|min)?", exclusiveMinimum=0, maximum=24)
COUNTS: Final = _text("across x down", f"{_COUNT} *[xX×] *{_COUNT}")
TURN: Final = Form(
    words="0, 90, 180 or 270",
    schema={
        "type": ["integer", "string"],
        "pattern": r"^\s*(?:0|90|180|270)\s*$",
        "multipleOf": 90,
        "minimum": 0,
        "maximum": 270,
    },
)
SOURCE: Final = _text(
    "yardage, squares and their side, strips and their width, fat quarters, or fat eighths",
    rf"(?:yardage|fat\s+quarters|fat\s+eighths|(?:squares|strips)\s+{_PLAIN})",
)
FABRIC: Final = _text("a fabric", _USE)
YARDAGE: Final = _text("a fabric that is yardage", _OTHER_THAN_X)
BLOCK: Final = _text("a block", _OTHER_THAN_X)
PATCH: Final = _text("a patch: fabric, width x height", rf"{_USE}\s+{_PAIR}")
LOG: Final = _text("a fabric and a width", rf"{_USE}\s+{LENGTH_PATTERN}")
CELL: Final = _text("a block, a block and its turn, or a plain fabric", rf"{_USE}\s*(?:@\s*(?:0|90|180|270))?")
LETTERS: Final = Form(words="a row of letters", schema={"type": ["string", "number"], "pattern": r"\S"})
SIZE: Final = _text("a size of the pattern", "[^\\n]*\\S[^\\n]*")
PURCHASE: Final = _text("an amount and its unit", rf"{_PLAIN}\s*(?:yd|m|packs?|pieces?)")
STATED_CUT: Final = _number(
    "a cut size, with how many", rf"(?:[0-9]{{1,6}}\s+of\s+)?(?:{_PAIR}|{LENGTH_PATTERN})", exclusiveMinimum=0
)

FABRIC_IDS: Final = rf"^{_OTHER_THAN_X}$"
BLOCK_IDS: Final = FABRIC_IDS
SIZE_IDS: Final = "^[a-z][a-z0-9-]{0,39}$"
LOCKED_BLOCKS: Final = r"^[1-9][0-9]{0,3}\.[1-9][0-9]{0,3}$"
LOCKED_PRINTS: Final = rf"^\s*{_USE}\s*$"
ONE_LETTER: Final = r"^\S$"


def words_of(*words: str) -> Form:
    """Return the form of one of a few words."""
    *most, last = words
    return Form(words=f"{', '.join(most)} or {last}" if most else last, schema={"enum": list(words)})


def whole_number(most: int) -> Form:
    """Return the form of a whole number from 1."""
    schema = {"type": ["integer", "string"], "pattern": rf"^\s*{_COUNT}\s*$", "minimum": 1, "maximum": most}
    return Form(words="a whole number", schema=schema)


def list_of(item: Form, words: str, *, exactly: int | None = None) -> Form:
    """Return the form of a list of at least one such value, or of exactly so many."""
    schema: Schema = {"type": "array", "items": dict(item.schema), "minItems": exactly or 1}
    if exactly is not None:
        schema["maxItems"] = exactly
    return Form(words=words, schema=schema, table=item.table)


def entries_of(item: Form, words: str, *, ids: str = "", most: int | None = None) -> Form:
    """Return the form of a mapping from ids to such values, at least one; ``ids`` is the pattern of an id."""
    schema: Schema = {"type": "object", "additionalProperties": dict(item.schema), "minProperties": 1}
    if ids:
        schema["propertyNames"] = {"pattern": ids}
    if most is not None:
        schema["maxProperties"] = most
    return Form(words=words, schema=schema, table=item.table)


def keys_of(table: str, words: str) -> Form:
    """Return the form of a mapping whose keys a table lists."""
    return Form(words=words, schema={"$ref": f"#/definitions/{table}"}, table=table)


def either(words: str, *forms: Form) -> Form:
    """Return the form of a value that has any of several forms."""
    table = next((form.table for form in forms if form.table), "")
    return Form(words=words, schema={"anyOf": [dict(form.schema) for form in forms]}, table=table)
