"""The patterns of a site in its gallery, each rendered once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from seamleaf.publishing import publish_card, publish_gallery
from seamleaf.site.files.shelf import Shelf, key_for

if TYPE_CHECKING:
    from seamleaf.publishing import Gallery, Templates
    from seamleaf.site.pages.published import Published


@dataclass(slots=True)
class Cards:
    """Remembers what each pattern looks like in the gallery; keeps it where all that it follows from is known."""

    shelf: Shelf | None = None
    _last: dict[tuple[str, str], tuple[Published, str]] = field(default_factory=dict)

    def gallery(
        self, shown: Sequence[Published], home: str, rendered: Callable[[Callable[[Templates], str]], str]
    ) -> str:
        """Return the gallery for a page from which ``home`` leads to the root; ``rendered`` renders with templates."""
        cards = [self._card(each, each.gallery, home, rendered) for each in shown if each.gallery is not None]
        return rendered(lambda templates: publish_gallery(cards, templates))

    def _card(
        self,
        published: Published,
        gallery: Callable[[], Gallery],
        home: str,
        rendered: Callable[[Callable[[Templates], str]], str],
    ) -> str:
        last, card = self._last.get((published.id, home), (None, ""))
        if last is published:
            return card
        key = key_for(b"card", home.encode(), published.key.encode())
        shelf = self.shelf if published.key else None
        kept = None if shelf is None else shelf.take(key)
        if kept is None:
            entry = gallery()
            card = rendered(lambda templates: publish_card(entry, templates, home))
            if shelf is not None:
                shelf.put(key, card.encode("utf-8"))
        else:
            card = kept.decode("utf-8")
        self._last[published.id, home] = (published, card)
        return card
