"""The correction note: changes of all sizes together, by the sizes and the stage of the work that they belong to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from seamleaf.versions.changes import STAGES, Change, Stage, compare_booklets
from seamleaf.versions.earlier import Edition, EditionError, order_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The changes of one stage that the same sizes share."""

    sizes: tuple[str, ...]
    every: bool
    """Whether these are all sizes that both versions have."""
    stage: Stage
    changes: tuple[Change, ...]
    pages: Mapping[Change, tuple[str, ...]]
    """The pages of a size on which a changed number stands, by folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What changed from one version to the next."""

    pattern: str
    old: str
    new: str
    groups: tuple[Group, ...]
    added: tuple[str, ...]
    """Sizes that the older version had not."""
    removed: tuple[str, ...]
    before: Mapping[str, Any]
    """The older booklets by size, to show old numbers from."""
    after: Mapping[str, Any]

    @property
    def stages(self) -> tuple[Stage, ...]:
        """The stages at which something to make changed."""
        found = {group.stage for group in self.groups}
        return tuple(stage for stage in STAGES if stage in found and stage != "read")


def compare_editions(old: Edition, new: Edition) -> Note:
    """Compare two versions of one pattern.

    Raises:
        EditionError: booklets differ that say they are the same version, or the version went back.

    """
    changes = {
        size: compare_booklets(old.booklets[size], new.booklets[size]) for size in new.booklets if size in old.booklets
    }
    added = tuple(size for size in new.booklets if size not in old.booklets)
    removed = tuple(size for size in old.booklets if size not in new.booklets)
    _refuse_silent_change(old, new, changes, added, removed)
    return Note(
        pattern=new.pattern,
        old=old.version,
        new=new.version,
        groups=_grouped(changes, new),
        added=added,
        removed=removed,
        before=old.booklets,
        after=new.booklets,
    )


def _refuse_silent_change(
    old: Edition,
    new: Edition,
    changes: Mapping[str, tuple[Change, ...]],
    added: tuple[str, ...],
    removed: tuple[str, ...],
) -> None:
    lines: list[str] = []
    if old.version == new.version:
        for size, found in changes.items():
            if found:
                first = found[0].new_at or found[0].old_at
                lines.append(
                    f"{new.paths[size]}:/pattern/version: found version {new.version} again with {len(found)} changed "
                    f"{'value' if len(found) == 1 else 'values'} (first {first}), expected a new version"
                )
        lines += [f"{new.paths[size]}:/size/id: a size that version {new.version} had not" for size in added]
        lines += [f"{old.paths[size]}:/size/id: a size that version {new.version} has no more" for size in removed]
    elif order_of(new.version) < order_of(old.version):
        path = next(iter(new.paths.values()))
        lines.append(f"{path}:/pattern/version: found version {new.version}, expected one after {old.version}")
    if lines:
        raise EditionError(lines)


def _grouped(changes: Mapping[str, tuple[Change, ...]], new: Edition) -> tuple[Group, ...]:
    """Put changes that several sizes share under those sizes; what all share comes first."""
    shared: dict[tuple[object, ...], list[tuple[str, Change]]] = {}
    for size, found in changes.items():
        for change in found:
            key = (change.stage, change.section, change.name, change.key, change.old, change.new)
            shared.setdefault(key, []).append((size, change))
    groups: dict[tuple[tuple[str, ...], Stage], list[Change]] = {}
    for members in shared.values():
        sizes = tuple(size for size, _ in members)
        groups.setdefault((sizes, members[0][1].stage), []).append(members[0][1])
    order = list(changes)
    keys = sorted(groups, key=lambda key: (-len(key[0]), [order.index(size) for size in key[0]], STAGES.index(key[1])))
    return tuple(
        Group(
            sizes=sizes,
            every=len(sizes) == len(changes),
            stage=stage,
            changes=tuple(groups[sizes, stage]),
            pages={change: _pages_of(change, new.cited.get(sizes[0], {})) for change in groups[sizes, stage]},
        )
        for sizes, stage in keys
    )


def _pages_of(change: Change, cited: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    at = change.new_at
    if at is None:
        return ()
    return tuple(
        page
        for page, pointers in cited.items()
        if page != "print" and any(pointer == at or pointer.startswith(f"{at}/") for pointer in pointers)
    )
