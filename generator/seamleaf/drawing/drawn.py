"""Figures that were drawn before: an edit of a title, which few figures say, draws no other again."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable
from typing import Final

from seamleaf.booklet.codec import to_json
from seamleaf.booklet.record import Booklet
from seamleaf.drawing.figure import Figure
from seamleaf.words import Words

MOST: Final = 16
"""Sizes whose figures are remembered; those asked for longest ago go first."""


class Drawn:
    """Remembers figures by all that they are drawn from."""

    def __init__(self) -> None:
        self._figures: OrderedDict[str, tuple[Figure, ...]] = OrderedDict()

    def once(self, booklet: Booklet, words: Words, draw: Callable[[], tuple[Figure, ...]]) -> tuple[Figure, ...]:
        """Return what is drawn of a booklet in these words; it is drawn only where nobody remembers it."""
        key = f"{words.digest} {hashlib.sha256(to_json(booklet).encode()).hexdigest()}"
        figures = self._figures.pop(key, None)
        if figures is None:
            figures = draw()
        self._figures[key] = figures
        if len(self._figures) > MOST:
            self._figures.popitem(last=False)
        return figures
