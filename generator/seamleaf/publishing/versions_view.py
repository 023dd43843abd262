"""Correction notes as a page shows them: new numbers from the newer booklet, old ones as they were shown then."""

from __future__ import annotations

import html
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from markupsafe import Markup

from seamleaf.booklet import fabric_title
from seamleaf.lengths import measures_of
from seamleaf.publishing.escaping import plain_text
from seamleaf.publishing.numbers import Numbers
from seamleaf.publishing.templates import Templates
from seamleaf.publishing.wording import Wording
from seamleaf.versions import Change, Group, Note

_TAG: Final = re.compile(r"</?(?:data|del|span|sup|sub|b)\b[^>]*>")
_REFERENCE: Final = re.compile(r"&#(\d+);")
_ACTIVE: Final = frozenset("&<>*_`[]\\|#")
"""Marks that Markdown or HTML would act on, and that therefore stay written as references."""
_OTHER_PAGES: Final = {
    "tester": "tester.title", "prints": "own.title", "words": "glossary.title", "proof": "proof.report",
}  # fmt: skip
"""Keys of what the pages are called that are no stage of the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One change in words, and the pages that show it, by their short titles."""

    text: Markup
    advice: Markup | None
    pages: tuple[Markup, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The changes of one stage for some sizes."""

    sizes: Markup
    stage: Markup
    matters: Markup
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteView:
    """One correction note."""

    old: str
    new: str
    words: str
    """What the designer says of the version; may be empty."""
    whom: tuple[Markup, ...]
    """For whom something changed: who has already bought, cut, sewn ..."""
    parts: tuple[Part, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]


def note_view(note: Note, wording: Wording, words: str = "", folder: str = "") -> NoteView:
    """Put a correction note into words.

    Args:
        words: what the designer says of the newer version.
        folder: leads from the page to the folder of the sizes of the newer version.

    """
    return NoteView(
        old=note.old,
        new=note.new,
        words=words,
        whom=tuple(wording.say(f"change.whom.{stage}") for stage in note.stages),
        parts=tuple(_part(group, note, wording, folder) for group in note.groups),
        added=tuple(_title(note.after, size) for size in note.added),
        removed=tuple(_title(note.before, size) for size in note.removed),
    )


def publish_note(title: str, notes: Sequence[NoteView], templates: Templates) -> str:
    """Return correction notes as Markdown that reads well as it stands."""
    page = templates.render("pages/note.md.jinja", title=title, notes=notes)
    text = _TAG.sub("", page).replace("&nbsp;", " ").replace("&frasl;", "/")
    text = text.replace("\N{NO-BREAK SPACE}", " ").replace("\N{FRACTION SLASH}", "/")
    return _REFERENCE.sub(_written_out, text)


def _written_out(match: re.Match[str]) -> str:
    mark = html.unescape(match[0])
    return match[0] if mark in _ACTIVE else mark


def _part(group: Group, note: Note, wording: Wording, folder: str) -> Part:
    size = group.sizes[0]
    before, after = note.before[size], note.after[size]
    old = Numbers(before, measures_of(before["unit"]), wording)
    new = Numbers(after, measures_of(after["unit"]), wording, f"{folder}{size}/booklet.json#")
    titles = [plain_text(_title(note.after, each)) for each in group.sizes]
    sizes = wording.say("change.every-size") if group.every else Markup(", ").join(titles)
    lines = []
    for change in group.changes:
        advice = None if change.advice == "none" else wording.say(f"change.advice.{change.advice}")
        pages = tuple(_page_title(page, after, wording) for page in group.pages[change])
        lines.append(Line(text=_line(change, old, new, wording), advice=advice, pages=pages))
    return Part(
        sizes=sizes,
        stage=wording.say(f"change.stage.{group.stage}"),
        matters=wording.say(f"change.matters.{group.stage}"),
        lines=tuple(lines),
    )


def _page_title(folder: str, booklet: Mapping[str, Any], wording: Wording) -> Markup:
    """Return what a page of a size is called, from its folder below the size's."""
    if folder in _OTHER_PAGES:
        return wording.say(_OTHER_PAGES[folder])
    course = next((each for each in booklet.get("classes", ()) if folder == f"class-{each['id']}"), None)
    if course is None:
        return wording.say(f"page.{folder or 'glance'}")
    return wording.say("class.page", title=plain_text(course["title"]))


def _line(change: Change, old: Numbers, new: Numbers, wording: Wording) -> Markup:
    what = _what(change, old, new, wording)
    if change.kind == "plan" or change.old_at is None or change.new_at is None:
        how = change.key if change.kind == "plan" else "plan"
        return wording.say(f"change.line.{how}", what=what)
    shown = _shown(change, change.old_at, old, wording).striptags()
    was = Markup('<del class="sl-was">{}</del>').format(plain_text(shown))
    now = _shown(change, change.new_at, new, wording)
    return wording.say("change.number", what=what, which=_key(change, wording), new=now, old=was)


def _shown(change: Change, at: str, numbers: Numbers, wording: Wording) -> Markup:
    if change.kind == "length":
        return numbers.size(at).markup
    if change.kind == "count":
        return numbers.num(at).markup
    if change.kind == "amount":
        return numbers.amount(at.removesuffix("/amount")).markup
    if change.key == "press":
        seam = numbers.at(at.removesuffix("/press"))
        side = {"before": "first", "after": "second"}.get(seam["press"])
        return wording.say(f"change.press.{'side' if side else seam['press']}", name=seam[side] if side else "")
    return plain_text(str(numbers.at(at)))


def _fabric(fabric: dict[str, Any], wording: Wording) -> str:
    return fabric_title(fabric["id"], str(fabric["title"]), wording.words.say("fabrics.backing"))


def _what(change: Change, old: Numbers, new: Numbers, wording: Wording) -> Markup:
    name = change.name
    if change.section in ("fabrics", "cutting") and name:
        for numbers in (new, old):
            for fabric in numbers.at("/fabrics"):
                if fabric["id"] == name:
                    return wording.say(f"change.of.{change.section}", name=_fabric(fabric, wording))
    if change.section == "seams" and name:
        seams = [seam for numbers in (new, old) for seam in numbers.at("/seams") if seam["id"] == name]
        if seams:  # the order of all of them goes by no seam's name
            return _seam(seams[0], wording)
    section = change.section if f"change.of.{change.section}" in wording.texts else "rest"
    return wording.say(f"change.of.{section}", name=name, section=change.section)


def _seam(seam: Mapping[str, Any], wording: Wording) -> Markup:
    """Say which seam it is, as a quilter would: by what it joins, or by its row, border or corner."""
    of, place = str(seam["of"]), str(seam["id"]).rpartition(".")[2]
    first, second = str(seam["first"]), str(seam["second"])
    if of == "row":
        row = str(seam["id"]).rpartition(".")[0].removeprefix("row")
        return wording.say("change.seam.row", row=row, seam=place)
    if of == "rows":
        corner = "change.seam.corner"
        between = {"first": first.removeprefix("row "), "second": second.removeprefix("row ")}
        return wording.say(corner if place.startswith("corner") else "change.seam.rows", **between)
    if of.startswith("border ") and f"change.seam.{place}" in wording.texts:
        return wording.say(f"change.seam.{place}", border=of.removeprefix("border "))
    return wording.say("change.seam.unit", unit=of, first=first, second=second)


def _key(change: Change, wording: Wording) -> Markup:
    parts = change.key.split("/")
    if parts[0] == "strips" and len(parts) == 3:
        return wording.say(f"change.strip.{parts[2]}", edge=wording.say(f"change.edge.{parts[1]}"))
    key = f"{change.section}-{'-'.join(parts)}"
    if f"change.key.{key}" not in wording.texts:
        key = "-".join(parts)
    return wording.say(f"change.key.{key}")


def _title(booklets: Mapping[str, Any], size: str) -> str:
    return str(booklets[size]["size"].get("title", size))
