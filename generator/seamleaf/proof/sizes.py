"""What the sizes of one pattern must have in common."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath
from typing import Final

from seamleaf.lengths import Length
from seamleaf.proof.record import Booklet, Patch
from seamleaf.proof.report import Finding, Findings, say

WHERE: Final = "where it stands"
SIZES: Final = "same in every size"

OWN_SIZES: Final = ("border", "binding", "backing")
"""Uses whose cut sizes go with the size of the quilt."""


def check_where(booklet: Booklet, path: PurePosixPath, findings: Findings) -> None:
    """See that a booklet stands in the folder of its pattern and size."""
    folders = path.parent.parts
    if len(folders) >= 2:
        pattern, size = folders[-2:]
        findings.expect_equal(booklet.pattern.id, pattern, WHERE, "/pattern/id", "the pattern's folder")
        findings.expect_equal(booklet.size.id, size, WHERE, "/size/id", "the size's folder")


def check_sizes(booklets: Mapping[str, Booklet]) -> Iterable[Finding]:
    """Compare the sizes of each pattern, given by path, with the first of them; a pattern is what shares a folder."""
    patterns: dict[PurePosixPath, list[tuple[str, Booklet]]] = defaultdict(list)
    for path, booklet in sorted(booklets.items()):
        patterns[PurePosixPath(path).parent.parent].append((path, booklet))
    for sizes in patterns.values():
        _, first = sizes[0]
        for path, booklet in sizes[1:]:
            findings = Findings(path)
            _compare(first, booklet, findings)
            yield from findings.found


def _compare(first: Booklet, other: Booklet, findings: Findings) -> None:
    than = f"in size {first.size.id}"
    alike: tuple[tuple[str, object, object], ...] = (
        ("/pattern/version", first.pattern.version, other.pattern.version),
        ("/pattern/title", first.pattern.title, other.pattern.title),
        ("/unit", first.unit, other.unit),
        ("/seam", first.seam, other.seam),
        ("/set/kind", first.set.kind, other.set.kind),
        ("/set/run", first.set.run, other.set.run),
        ("/set/block", _drawn(first), _drawn(other)),
    )
    for pointer, a, b in alike:
        findings.expect(a == b, SIZES, pointer, f"{say(b)}, but {say(a)} {than}")
    letters = {fabric.id: fabric.letter for fabric in first.fabrics}
    for fabric in other.fabrics:
        letter = letters.get(fabric.id, fabric.letter)
        message = f"fabric {fabric.id} is {fabric.letter}, but {letter} {than}"
        findings.expect(letter == fabric.letter, SIZES, f"{fabric.pointer}/letter", message)
    patches = {patch.label: patch for patch in first.patches}
    for patch in other.patches:
        if patch.label in patches:
            same_scale = first.size.scale == other.size.scale
            long = patch.label in _long_sashes(first) and patch.label in _long_sashes(other)
            sized = same_scale and not long
            before, now = (_sort_of(each, sized=sized) for each in (patches[patch.label], patch))
            message = f"{patch.label} is {_say_sort(now)}, but {_say_sort(before)} {than}"
            findings.expect(before == now, SIZES, patch.pointer, message)


def _drawn(booklet: Booklet) -> tuple[Length, Length] | None:
    """Return the block's size before the size's scale; ``None`` for a scale that nothing can be multiplied by."""
    w, h = booklet.set.block.sides
    return (w / booklet.size.scale, h / booklet.size.scale) if booklet.size.scale > 0 else None


def _long_sashes(booklet: Booklet) -> set[str]:
    """Return the labels of sashes that are rows of their own: they are as long as the quilt is wide."""
    rows = [booklet.places[row.items[0]] for row in booklet.rows if len(row.items) == 1]
    sashes = {place.unit for place in rows if place.kind == "sash"}
    return {take.label for unit in booklet.units if unit.id in sashes for take in unit.from_ if take.label}


def _sort_of(patch: Patch, *, sized: bool) -> tuple[object, ...]:
    """Return what must not change; the strips of a strip set are as long as the size takes of it."""
    sides = (patch.h,) if patch.shape == "strip" else (patch.w, patch.h)
    return patch.fabric, patch.print, patch.shape, patch.use, *(sides if sized and patch.use not in OWN_SIZES else ())


def _say_sort(sort: tuple[object, ...]) -> str:
    return ", ".join(map(say, sort))
