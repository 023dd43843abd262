"""What a build makes of one pattern."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from seamleaf.publishing import Gallery
from seamleaf.publishing.paper import Paper
from seamleaf.reading.pattern import ClassPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One pattern as this build shows it: its files, or the lines that say why it cannot be shown."""

    id: str
    title: str
    sizes: Mapping[str, str]
    """Titles of the sizes, by id."""
    files: Mapping[str, bytes]
    gallery: Gallery | None
    classes: tuple[ClassPlan, ...] = ()
    papers: Mapping[str, Paper] = field(default_factory=dict)
    """PDF files that are still to be set."""
    problems: tuple[str, ...] = ()
