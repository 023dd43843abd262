"""Earlier versions that a designer keeps beside the patterns, and the notes that lead from each to the next.

``seamleaf booklet x.yaml --out patterns/earlier/1.0.0`` keeps a version: one folder each, as the command writes it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Final

from seamleaf.reading.problems import PatternError, Problem
from seamleaf.site.files.sources import printable

if TYPE_CHECKING:
    from seamleaf.reading.pattern import Pattern
    from seamleaf.versions import Edition, Note

KEPT: Final = "earlier"
"""Folder of the docs_dir that holds earlier versions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """The earlier versions of all patterns of a site."""

    editions: Mapping[str, tuple[Edition, ...]] = field(default_factory=dict)
    """By pattern, the oldest first."""
    problems: tuple[str, ...] = ()

    def of(self, pattern_id: str) -> tuple[Edition, ...]:
        """Return the earlier versions of a pattern."""
        return self.editions.get(pattern_id, ())

    def notes(self, pattern: Pattern, files: Mapping[str, bytes]) -> list[Note]:
        """Return the notes from the first version that is kept to the present one, given by its published files.

        Raises:
            PatternError: the pattern makes other booklets than were published under its version, or an older version.

        """
        from seamleaf.versions import compare_editions  # late, like all of it: most sites keep no earlier version

        new = _present(pattern, files)
        notes: list[Note] = []
        for old, following in pairwise((*self.of(pattern.id), new)):
            if following is new:
                _refuse_silent_change(old, new, pattern)
                if old.version == new.version:
                    break
            notes.append(compare_editions(old, following))
        return notes


def read_history(docs_dir: Path) -> History:
    """Read every earlier version below a site's docs_dir."""
    editions: dict[str, list[Edition]] = {}
    problems: list[str] = []
    folders = sorted(path for path in (docs_dir / KEPT).glob("*") if path.is_dir())
    if not folders:
        return History()
    from seamleaf.versions import EditionError, editions_below, order_of

    for folder in folders:
        try:
            found = editions_below(folder)
        except EditionError as fault:
            problems += map(printable, fault.lines)
            continue
        for pattern, edition in found.items():
            known = {each.version: each for each in editions.setdefault(pattern, [])}
            if edition.version in known:
                other = next(iter(known[edition.version].paths.values()))
                path = next(iter(edition.paths.values()))
                problems.append(printable(f"{path}:/pattern/version: version {edition.version} again, as in {other}"))
            else:
                editions[pattern].append(edition)
    return History(
        editions={key: tuple(sorted(each, key=lambda one: order_of(one.version))) for key, each in editions.items()},
        problems=tuple(problems),
    )


def _present(pattern: Pattern, files: Mapping[str, bytes]) -> Edition:
    """Return what is being published as a version."""
    from seamleaf.publishing import booklet_paths
    from seamleaf.versions import pointers_on, read_edition

    sizes = {size: (path, json.loads(files[path])) for size, path in booklet_paths(pattern).items()}
    cited: dict[str, dict[str, frozenset[str]]] = {size: {} for size in sizes}
    for path, content in files.items():
        parts = path.split("/")
        if parts[-1] == "index.md" and len(parts) > 2 and parts[1] in cited:
            cited[parts[1]]["/".join(parts[2:-1])] = pointers_on(content.decode("utf-8"))
    return read_edition(sizes, cited)


def _refuse_silent_change(old: Edition, new: Edition, pattern: Pattern) -> None:
    from seamleaf.versions import compare_booklets, order_of

    found = f"version {new.version!r}"
    if old.version == new.version:
        changed = [
            (size, change)
            for size in new.booklets
            for change in (compare_booklets(old.booklets[size], new.booklets[size]) if size in old.booklets else ())
        ]
        if not changed and set(old.booklets) == set(new.booklets):
            return
        first = f"first {changed[0][0]} {changed[0][1].new_at or changed[0][1].old_at}" if changed else "other sizes"
        hint = f"{len(changed)} changed, {first}; compare with {next(iter(old.paths.values()))}"
        found += ", under which something else was published"
    elif order_of(new.version) < order_of(old.version):
        hint = f"compare with {next(iter(old.paths.values()))}"
    else:
        return
    expected = f"a version after {old.version!r}"
    raise PatternError([Problem(where=pattern.version_where, found=found, expected=expected, hint=hint)])
