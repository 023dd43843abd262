"""Patterns as they were published last, kept on the shelf: with nothing changed, nothing is planned, drawn or set.

A note lists the files of a pattern by the digest of their bytes, and each lies on the shelf under that digest; so a
file that was damaged there, or thrown away, is missed, and the pattern is published anew.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, Final

from seamleaf.site.files.shelf import Shelf, key_for
from seamleaf.site.pages.published import Published

if TYPE_CHECKING:
    from seamleaf.publishing import Gallery
    from seamleaf.site.pages.history import History

_KIND: Final = b"published"
_PAGE: Final = ".md"


@dataclass(frozen=True, slots=True)
class Keeper:
    """Keeps what was published from the same things by the same program."""

    shelf: Shelf
    given: Sequence[object]
    """What all patterns follow from: templates, language, options."""
    pages_at_hand: bool = False
    """Whether pages stay in memory too, as where each may be replaced; the pages of a catalogue fill a lot of it."""

    def key_of(self, pattern_id: str, text: bytes, history: object) -> str:
        """Return what says all that the files of a pattern follow from."""
        given = repr((*self.given, version("typst"), pattern_id, history))
        return key_for(_KIND, given.encode("utf-8", "surrogatepass"), text)

    def take_all(
        self, texts: Mapping[str, bytes], history: History, gallery: Callable[[str, bytes], Gallery]
    ) -> list[Published] | None:
        """Return what was published of all patterns, given by id, if all of it is kept."""
        keys = {each: self.key_of(each, text, history.of(each)) for each, text in texts.items()}
        if any(self.shelf.take(key) is None for key in keys.values()):  # before any file is read
            return None
        taken = [self.take(keys[each], partial(gallery, each, text)) for each, text in texts.items()]
        found = [each for each in taken if each is not None]
        return found if len(found) == len(taken) else None

    def take(self, key: str, gallery: Callable[[], Gallery]) -> Published | None:
        """Return what was published, if it is kept; ``gallery`` gives its booklets where they are asked for."""
        content = self.shelf.take(key)
        if content is None:
            return None
        note = json.loads(content)
        files: dict[str, bytes | Path] = {}
        for path, digest in note["files"].items():
            found = self.shelf.find(digest)
            if found is None:
                return None
            files[path] = found if self._is_at_hand(path) else self.shelf.folder / digest
        return Published(
            id=note["id"],
            title=note["title"],
            sizes=note["sizes"],
            files=files,
            classes=note["classes"],
            gallery=gallery,
            key=key,
        )

    def keep(self, published: Published, key: str) -> Published:
        """Keep what was published; what need not be at hand is then in its file alone."""
        if published.problems:
            return published
        files: dict[str, bytes | Path] = {}
        digests: dict[str, str] = {}
        for path, content in published.files.items():
            laid = content if isinstance(content, Path) else self.shelf.lay(content)
            if laid is None:
                return published
            digests[path] = laid.name
            files[path] = content if self._is_at_hand(path) else laid
        note = {
            "id": published.id,
            "title": published.title,
            "sizes": dict(published.sizes),
            "classes": dict(published.classes),
            "files": digests,
        }
        self.shelf.put(key, json.dumps(note, ensure_ascii=False).encode("utf-8"))
        return replace(published, files=files, key=key, papers={})

    def _is_at_hand(self, path: str) -> bool:
        return self.pages_at_hand and path.endswith(_PAGE)
