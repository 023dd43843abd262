"""What the sizes of one pattern must have in common."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath
from typing import Final

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
        ("/set/block", first.set.block.sides, other.set.block.sides),
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
            before, now = _sort_of(patches[patch.label]), _sort_of(patch)
            message = f"{patch.label} is {_say_sort(now)}, but {_say_sort(before)} {than}"
            findings.expect(before == now, SIZES, patch.pointer, message)


def _sort_of(patch: Patch) -> tuple[object, ...]:
    size = () if patch.use in OWN_SIZES else (patch.w, patch.h)
    return patch.fabric, patch.print, patch.shape, patch.use, *size


def _say_sort(sort: tuple[object, ...]) -> str:
    return ", ".join(map(say, sort))
