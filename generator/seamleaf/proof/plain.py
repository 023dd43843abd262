"""The booklets below a folder as plain JSON values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from seamleaf.proof.reading import read_json
from seamleaf.proof.report import Findings


class PlainBooklets(Mapping[str, Any]):
    """JSON values by path below a folder, ``None`` for what is no JSON.

    Another process gets the paths alone and reads what it looks into: to send it all values with each of its tasks took
    as long as all checks.
    """

    def __init__(self, folder: Path, paths: tuple[str, ...], known: Mapping[str, Any] | None = None) -> None:
        """Take the paths, and the values of those that were read."""
        self._folder, self._paths = folder, dict.fromkeys(paths)
        self._known = dict(known or {})

    def __getitem__(self, path: str) -> Any:
        """Return the value of one, which is read once."""
        if path not in self._paths:
            raise KeyError(path)
        if path not in self._known:
            try:
                content = (self._folder / path).read_bytes()
            except OSError:  # told of by the check of the booklets
                content = b""
            self._known[path] = read_json(content, Findings(path))
        return self._known[path]

    def __iter__(self) -> Iterator[str]:
        """Go through the paths."""
        return iter(self._paths)

    def __len__(self) -> int:
        """Count the paths."""
        return len(self._paths)

    def __contains__(self, path: object) -> bool:
        """Tell whether there is such a path, without reading it."""
        return path in self._paths

    def __reduce__(self) -> tuple[type[PlainBooklets], tuple[Path, tuple[str, ...]]]:
        """Send the paths alone."""
        return PlainBooklets, (self._folder, tuple(self._paths))
