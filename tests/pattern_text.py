"""Small pattern files for tests: one that is right, and copies with single sections changed."""

from __future__ import annotations

from seamleaf.reading import Mark

MARK = "➤"
"""Stands before each place where a problem is expected."""

SECTIONS = {
    "title": "title: Harbour Lights",
    "version": "version: 1.0.0",
    "unit": "",
    "seam": "",
    "fabrics": """\
fabrics:
  ground: {source: yardage}
  star: {source: squares 10}
  edge: {source: yardage}""",
    "blocks": """\
blocks:
  light:
    row: [ground 2 x 4, star 2 x 4]
  dark: ground 4 x 4""",
    "setting": "setting: {set: straight, blocks: [[light, dark]]}",
    "borders": "",
    "binding": "",
    "backing": "",
    "batting": "",
    "sizes": """\
sizes:
  crib: {blocks: 2 x 3}""",
    "classes": "",
    "more": "",
}


def pattern_text(**sections: str) -> str:
    """Return the small pattern with some sections replaced; an empty text leaves a section out."""
    unknown = set(sections) - set(SECTIONS)
    if unknown:
        raise KeyError(unknown)
    return "\n".join(text for text in (SECTIONS | sections).values() if text) + "\n"


def split_marks(text: str) -> tuple[str, list[Mark]]:
    """Take the marks out of a text and return the places where they stood."""
    marks = []
    lines = text.split("\n")
    for number, line in enumerate(lines, start=1):
        while MARK in line:
            at = line.index(MARK)
            marks.append(Mark(number, at + 1))
            line = line[:at] + line[at + 1 :]
        lines[number - 1] = line
    return "\n".join(lines), marks
