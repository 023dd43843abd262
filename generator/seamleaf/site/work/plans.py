"""Plans of cutting and of prints kept on the shelf, beside the booklets that they went into."""

from __future__ import annotations

import json
from typing import Final, TypeVar

from seamleaf.booklet.codec import as_plain, from_plain
from seamleaf.site.files.shelf import Shelf, key_for

_KIND: Final = b"plan"

_Plan = TypeVar("_Plan")


class KeptPlans:
    """A store of plans for :func:`seamleaf.planning.memory.remembering`."""

    def __init__(self, shelf: Shelf) -> None:
        """Keep plans on a shelf."""
        self._shelf = shelf

    def take(self, asked: str, record: type[_Plan]) -> _Plan | None:
        """Return the plan for what is asked, if it is kept."""
        content = self._shelf.take(key_for(_KIND, asked.encode()))
        return None if content is None else from_plain(json.loads(content), record)

    def put(self, asked: str, plan: object) -> None:
        """Keep a plan."""
        self._shelf.put(key_for(_KIND, asked.encode()), json.dumps(as_plain(plan), ensure_ascii=False).encode("utf-8"))
