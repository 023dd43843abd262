"""The patterns of a site as an author's own page shows them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamleaf.booklet import Booklet
from seamleaf.drawing import Figure
from seamleaf.publishing.pages import size_card
from seamleaf.publishing.templates import Templates
from seamleaf.reading.pattern import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Gallery:
    """One pattern of the gallery."""

    pattern: Pattern
    booklets: Mapping[str, Booklet]
    figures: Mapping[str, Sequence[Figure]]


def publish_gallery(entries: Sequence[Gallery], templates: Templates, home: str) -> str:
    """Return the markup of the gallery for a page from which ``home`` leads to the site's root.

    Raises:
        TemplateError: the template fails.

    """
    cards = [
        {
            "pattern": entry.pattern,
            "href": f"{home}/{entry.pattern.id}/index.html",
            "sizes": [
                size_card(booklet, entry.figures[size], entry.pattern, templates, f"{home}/{entry.pattern.id}/{size}/")
                for size, booklet in entry.booklets.items()
            ],
        }
        for entry in entries
    ]
    return templates.render("pages/gallery.md.jinja", cards=cards, swatches=0)
