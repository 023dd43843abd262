"""The correction note between two published folders, as Markdown and as a page of its own."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import markdown
from markupsafe import escape

from seamleaf.publishing import load_templates, note_view, publish_note
from seamleaf.versions import EditionError, Note, compare_editions, editions_below

_STYLE: Final = (
    "body{font:1rem/1.5 system-ui,sans-serif;max-width:42rem;margin:2rem auto;padding:0 1rem;color:#1b1b1f;"
    "background:#fff}h1,h2,h3{line-height:1.25}li{margin:.3rem 0}"
)


def compare_folders(old: Path, new: Path) -> tuple[str, str]:
    """Compare every pattern that two folders hold.

    Returns:
        The title of the note, and the note as Markdown.

    Raises:
        EditionError: a folder holds no published pattern, they have none in common, a booklet changed under an
            unchanged version, or a version went back.

    """
    faults: list[str] = []
    sides = []
    for folder in (old, new):
        try:
            sides.append(editions_below(folder))
        except EditionError as fault:
            faults += fault.lines
    if faults:
        raise EditionError(faults)
    before, after = sides
    common = [pattern for pattern in sorted(after) if pattern in before]
    if not common:
        raise EditionError([f"{new.as_posix()}: no pattern of {old.as_posix()} ({', '.join(sorted(before))})"])
    notes: list[Note] = []
    for pattern in common:
        try:
            notes.append(compare_editions(before[pattern], after[pattern]))
        except EditionError as fault:
            faults += fault.lines
    if faults:
        raise EditionError(faults)
    templates = load_templates()
    texts: list[str] = []
    titles: list[str] = []
    for note in notes:
        title = str(next(iter(note.after.values()))["pattern"].get("title", note.pattern))
        titles.append(title)
        texts.append(publish_note(title, [note_view(note, templates.wording)], templates))
    return ", ".join(titles), "\n".join(texts)


def note_page(title: str, note: str) -> str:
    """Return a note as an HTML page that needs no other file."""
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n{markdown.markdown(note)}\n"
        "</body>\n</html>\n"
    )
