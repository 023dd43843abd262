"""Which files of a site have changed since they were last looked at, and how soon a server sees that."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from mkdocs.livereload import LiveReloadServer

LOOK_EVERY: Final = 0.2
"""Seconds between two looks at what is watched; MkDocs takes half a second."""
QUIET_FOR: Final = 0.05
"""Seconds without a change after which a build begins, since some editors write a file in several steps."""
_State = dict[str, tuple[int, int]]


class Watched:
    """Remembers when files were written, and their lengths.

    What editors leave beside a file while it is open, whose names begin with a dot or end with a tilde, is passed over;
    MkDocs publishes none of the first kind.
    """

    def __init__(self) -> None:
        self._seen: dict[str, _State] = {}

    def look(self, roots: Iterable[str]) -> None:
        """Look at files, and at whatever lies below folders."""
        self._seen = {root: _states(root) for root in map(os.path.abspath, roots)}

    def changed(self, roots: Iterable[str]) -> set[Path] | None:
        """Return what came, went or was written since the last look; ``None`` where nobody has looked there yet."""
        before = self._seen
        self.look(roots)
        if not self._seen.keys() <= before.keys():
            return None
        return {
            Path(path)
            for root, after in self._seen.items()
            for path in before[root].keys() | after.keys()
            if before[root].get(path) != after.get(path)
        }


def watch_closely(server: LiveReloadServer) -> None:
    """Have a server see changes sooner than MkDocs would."""
    paths = list(watched_by(server))
    for path in paths:
        server.unwatch(path)
    server.observer = type(server.observer)(timeout=LOOK_EVERY)
    server.build_delay = QUIET_FOR
    for path in paths:
        server.watch(path)


def watched_by(server: LiveReloadServer) -> Iterable[str]:
    """Return the files and folders that a server watches; MkDocs has no other way to ask."""
    return list(server._watched_paths)


def call_builder(server: LiveReloadServer) -> None:
    """Have a server call its builder, and then the browsers look again, as if a file had changed."""
    with server._rebuild_cond:
        server._want_rebuild = True
        server._rebuild_cond.notify_all()


def _states(root: str) -> _State:
    if not os.path.isdir(root):
        return dict(_state_of(root))
    states: _State = {}
    for folder, folders, names in os.walk(root, followlinks=True):
        folders[:] = [each for each in folders if not each.startswith(".")]
        for name in names:
            if not name.startswith(".") and not name.endswith("~"):
                states |= _state_of(os.path.join(folder, name))
    return states


def _state_of(path: str) -> _State:
    try:
        found = os.stat(path)
    except OSError:
        return {}
    return {path: (found.st_mtime_ns, found.st_size)}
