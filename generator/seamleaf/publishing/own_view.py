"""What the page of a reader's own prints is given: task of the prints, picture, conventions and words."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Sequence
from typing import Any, Final

from markupsafe import Markup

from seamleaf.booklet import Booklet, as_plain
from seamleaf.drawing import plain_quilt
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.publishing.layout_view import layout_view
from seamleaf.publishing.wording import Wording
from seamleaf.words import isolated

SCRIPTS: Final = (
    "elementary", "colour", "chance", "transport", "choice", "pairs", "handout", "floor", "objective", "landscape",
    "annealing", "planner", "reading", "picture", "chart", "page",
)  # fmt: skip
"""The scripts of the page in the order in which they build on each other."""
_WORDS: Final = ("own.", "layout.quarter", "layout.half", "layout.three-quarter", "prepare.state.", "prepare.reason.")
"""Texts that the scripts say, by how their keys begin."""


def has_own_prints(booklet: Booklet) -> bool:
    """Whether a size has blocks with prints of a bundle, so that a reader's prints can be laid out."""
    return bool(_numbered(booklet))


def own_prints_data(booklet: Booklet, wording: Wording) -> Markup:
    """Return the data of the page as JSON that may stand in a script element.

    What could end the element, or begin a comment in it, is written by its code point.
    """
    document = as_plain(booklet)
    data = {
        "task": document["prints"],
        "conventions": dataclasses.asdict(CONVENTIONS),
        "fabrics": [_fabric(fabric, booklet) for fabric in document["fabrics"]],
        "blocks": _blocks(booklet),
        "rows": [list(row.items) for row in booklet.rows],
        "picture": plain_quilt(booklet),
        "words": {key: [text.one, text.other] for key, text in wording.texts.items() if key.startswith(_WORDS)},
    }
    text = json.dumps(data, ensure_ascii=True, separators=(",", ":"))
    for mark in "<>&":
        text = text.replace(mark, f"\\u{ord(mark):04x}")
    return Markup(text)  # noqa: S704 -- made safe just above


def _fabric(fabric: dict[str, Any], booklet: Booklet) -> dict[str, Any]:
    assert booklet.prints is not None  # noqa: S101 -- has_own_prints was asked
    return {
        **{key: fabric[key] for key in ("id", "letter", "colours", "pack")},
        "title": isolated(fabric["title"]),
        "bundle": fabric["id"] in booklet.prints.bundles,
    }


def _numbered(booklet: Booklet) -> list[int]:
    """Return the places with prints that are blocks: a cornerstone takes a print too, but nobody lays it out."""
    cells: Sequence[tuple[int, str, int, int]] = booklet.prints.cells if booklet.prints else ()
    return [place for place, _, _, _ in cells if booklet.places[place].number is not None]


def _blocks(booklet: Booklet) -> dict[int, dict[str, str]]:
    """Return the number, the variant and the turn of every block that has prints, by index of its place."""
    views = {view.at: view for view in layout_view(booklet).blocks}
    shown: dict[int, dict[str, str]] = {}
    for place in _numbered(booklet):
        view = views[f"/places/{place}"]
        shown[place] = {"number": booklet.places[place].number or "", "variant": view.variant, "turn": view.turn}
    return shown
