"""The patterns of a site as an author's own page shows them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from seamleaf.publishing.titles import front_matter

if TYPE_CHECKING:
    from seamleaf.booklet import Booklet
    from seamleaf.drawing import Figure
    from seamleaf.publishing.templates import Templates
    from seamleaf.reading.pattern import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Gallery:
    """One pattern of the gallery."""

    pattern: Pattern
    booklets: Mapping[str, Booklet]
    figures: Mapping[str, Sequence[Figure]]


def publish_card(entry: Gallery, templates: Templates, home: str) -> str:
    """Return the markup of one pattern in the gallery, for :func:`publish_gallery`.

    ``home`` leads from the page to the root: empty, or ``../`` repeated.

    Raises:
        TemplateError: the template fails.

    """
    return templates.render("pages/card.md.jinja", card=_card(entry, templates, f"{home}{entry.pattern.id}/"))


def publish_gallery(cards: Sequence[str], templates: Templates) -> str:
    """Return the markup of the gallery, one card a pattern.

    Raises:
        TemplateError: the template fails.

    """
    return templates.render("pages/gallery.md.jinja", cards=[Markup(card) for card in cards])  # noqa: S704 -- rendered


def publish_home(title: str, templates: Templates) -> str:
    """Return a front page with the gallery, for a site whose author wrote none.

    Raises:
        TemplateError: the template fails.

    """
    return templates.render("pages/home.md.jinja", chrome=front_matter, title=title)


def _card(entry: Gallery, templates: Templates, folder: str) -> dict[str, Any]:
    from seamleaf.publishing.pages import size_card  # late: a gallery of cards that are kept needs no page

    sizes = [
        size_card(booklet, entry.figures[size], entry.pattern, templates, f"{folder}{size}/")
        for size, booklet in entry.booklets.items()
    ]
    return {"pattern": entry.pattern, "href": f"{folder}index.html", "sizes": sizes, "shown": sizes[len(sizes) // 2]}
