"""Slips of YAML, told as what they are on the line and what to write there, never in the parser's own words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Final

from seamleaf.reading.marks import Mark
from seamleaf.reading.problems import Report
from seamleaf.reading.wording import quoted, shown

if TYPE_CHECKING:
    import yaml

_FIRST: Final = Mark(1, 1)
_BARE_COLOUR: Final = re.compile(r"\s(#(?:[0-9A-Fa-f]{6}|[0-9A-Fa-f]{3}))\b")
_GLUED: Final = re.compile(r"( *(?:- )*[a-zA-Z][a-zA-Z0-9_-]*):([^ \n].*)")
"""A key, a colon, and a value without the space that belongs between them."""

_OPEN: Final = "a {} or a quote is left open, or a colour lacks its quotes: # begins a comment"
_SYNTAX: Final = (
    (
        "sequence entries are not allowed",
        "a dash where no list can begin",
        "the list on lines of its own, below the word that it belongs to",
        "a text that begins with a dash needs quotes",
    ),
    ("expected the node content", "nothing where something must stand", "a value, or one comma less", ""),
    ("escape", "a backslash in double quotes", "single quotes round the text", ""),
    ("expected ',' or ']'", "a list that is not closed", "a comma, or ']' at its end", _OPEN.format("bracket")),
    ("expected ',' or '}'", "braces that are not closed", "a comma, or '}' at their end", _OPEN.format("brace")),
    (
        "expected <block end>",
        "a line that is indented unlike the lines before it",
        "lines that belong together to begin in the same column",
        "",
    ),
    ("block scalar", "a value that begins with | or >", "quotes round the value", ""),
    ("mapping keys are not allowed", "a value that begins with a question mark", "quotes round the value", ""),
    ("scanning an a", "a value that begins with & or *", "quotes round the value", ""),
    ("directive", "a line that begins with %", "a word, a colon and a space", ""),
    ("YAML document", "a line that begins with %", "a word, a colon and a space", ""),
    ("tag", "a word after !", "the value alone", "or quotes round a text that begins with !"),
    (
        "expected '<document start>'",
        "something beside the lines of the pattern",
        "nothing but the lines of one pattern",
        "does a quote end too late, or a line begin with % or three dots?",
    ),
    ("unexpected document separator", "a quote that is not closed", "a quote at its end", "is a quote left open?"),
    (
        "cannot start any token",
        "a value that begins with a mark that has a meaning of its own",
        "quotes round the value",
        "a value that begins with this character needs quotes",
    ),
    ("found unexpected end of stream", "a quote that is not closed", "a quote at its end", "is a quote left open?"),
)
"""What the parser says; then what that is in plain words, what would be right, and what helps."""
_UNKNOWN: Final = ("something that is no word with its value", "a word, a colon, a space and a value", "")


def report_slip(error: yaml.MarkedYAMLError, rows: Sequence[str], report: Report) -> None:
    """Report what the parser objects to, in a quilter's words and at the place where it is to be mended."""
    problem, context = error.problem or "", error.context or ""
    found, expected, hint = next((rest for words, *rest in _SYNTAX if words in f"{problem} {context}"), _UNKNOWN)
    began = None if error.context_mark is None else mark_of(error.context_mark)
    where = began or _FIRST if error.problem_mark is None else mark_of(error.problem_mark)
    if "mapping values are not allowed" in problem:
        report.add(*_stray_colon(rows, where))
        return
    if "could not find expected ':'" in problem:
        report.add(*_no_colon(rows, began or where))
        return
    if "expected <block end>" in problem and rows[where.line - 1][: where.column - 1].strip():
        report.add(*_after_value(rows[where.line - 1], where))
        return
    if "quoted scalar" in context and began is not None:
        where = began  # where the quote opens says more than the end of the file
    elif "flow" in context and began is not None:
        comment = _bare_colour(rows, began, where)
        if comment is not None:
            report.add(*comment)
            return
        hint = f"{hint}; what is open begins at line {began.line}, column {began.column}" if hint else hint
    report.add(where, found, expected, hint)


def _stray_colon(rows: Sequence[str], where: Mark) -> tuple[Mark, str, str, str]:
    """Say what a colon tells of: a value that holds one, a line above without one, or a wrong column."""
    row = rows[where.line - 1]
    before = row[: where.column - 1]
    if ":" in before:
        return where, "a second colon on the line", "quotes round a value that holds ': '", ""
    above = next((number for number in range(where.line - 1, 0, -1) if _text_of(rows[number - 1])), 0)
    said = _text_of(rows[above - 1]) if above else ""
    if said and ":" not in said and not said.startswith(("-", "[", "{")):
        word, _, rest = said.partition(" ")
        mark = Mark(above, len(rows[above - 1]) - len(rows[above - 1].lstrip()) + 1)
        return mark, "a line without its colon", "a word, a colon and a space", f"such as {shown(f'{word}: {rest}')}"
    glued = _GLUED.match(rows[above - 1]) if above and ": " not in said else None
    if glued:
        return _glued(glued, above)
    expected = "it to begin in the same column as the word above, or nothing after the colon of that word"
    return (
        Mark(where.line, len(before) - len(before.lstrip()) + 1),
        f"{quoted(before.strip())} here",
        expected,
        "",
    )


def _no_colon(rows: Sequence[str], where: Mark) -> tuple[Mark, str, str, str]:
    """Say what a line without a colon and a space lacks."""
    row = rows[where.line - 1]
    if (glued := _GLUED.match(row)) is not None:
        return _glued(glued, where.line)
    said = _text_of(row)
    if re.match("-[^- ]", said):
        return where, "a dash without a space after it", "a dash and a space", f"such as {shown(f'- {said[1:]}')}"
    return where, "a line without its colon", "a word, a colon and a space", ""


def _glued(match: re.Match[str], line: int) -> tuple[Mark, str, str, str]:
    key, value = match.group(1, 2)
    hint = f"such as {shown(f'{key.strip()}: {_text_of(value)}')}"
    return Mark(line, match.end(1) + 1), "a colon without a space after it", "a colon and a space", hint


def _after_value(row: str, where: Mark) -> tuple[Mark, str, str, str]:
    """Say what stands on a line after its value has ended."""
    if row[where.column - 1] in "]}":
        return where, "a bracket that closes nothing", "one bracket less", ""
    before = row[: where.column - 1]
    hint = "an apostrophe ends a text in single quotes: use double ones" if "'" in before else ""
    return where, "more text after the quotes of a value", "quotes round the whole value", hint


def _text_of(row: str) -> str:
    """Return a line without its comment and outer blanks."""
    return re.sub(r"(^|\s)#.*", "", row).strip()


def _bare_colour(rows: Sequence[str], began: Mark, end: Mark) -> tuple[Mark, str, str, str] | None:
    """Find a colour without quotes in what was never closed: the rest of its line was read as a comment."""
    for number in range(began.line, end.line + 1):
        match = _BARE_COLOUR.search(rows[number - 1]) if number <= len(rows) else None
        if match is not None:
            found = f"the colour {match[1]} without quotes"
            return (
                Mark(number, match.start(1) + 1),
                found,
                f'"{match[1]}"',
                "# begins a comment, which hid what follows",
            )
    return None


def mark_of(mark: Any) -> Mark:
    """Count from 1, as editors do."""
    return Mark(mark.line + 1, mark.column + 1)
