"""What a build makes of one pattern."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from seamleaf.publishing import Gallery
    from seamleaf.publishing.paper import Paper


MAKER: Final = "seamleaf"
"""Who has made a file, as MkDocs notes it of those that a plugin adds."""


def cover_path(pattern_id: str) -> str:
    """Return where the cover picture of a pattern lies in the site."""
    return f"{pattern_id}/cover.png"


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One pattern as this build shows it: its files, or the lines that say why it cannot be shown."""

    id: str
    title: str
    sizes: Mapping[str, str]
    """Titles of the sizes, by id."""
    files: Mapping[str, bytes | Path]
    """By path below the site; what is kept on the shelf is named by its place there."""
    gallery: Callable[[], Gallery] | None
    """Gives the booklets and figures, which are worked out where they are not at hand; none of a fault."""
    classes: Mapping[str, str] = field(default_factory=dict)
    """Titles of the classes, by id."""
    papers: Mapping[str, Paper] = field(default_factory=dict)
    """PDF files that are still to be set."""
    problems: tuple[str, ...] = ()
    key: str = ""
    """Says what all of it follows from, where that is kept; empty elsewhere."""

    @property
    def pages(self) -> dict[str, bytes]:
        """The files that are at hand, as all pages are while they are served."""
        return {path: content for path, content in self.files.items() if isinstance(content, bytes)}
