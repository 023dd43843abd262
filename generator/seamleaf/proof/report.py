"""What a proof says: findings, each with its place in a published file, and what was proved."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Final

BOOKLET: Final = "booklet.json"
"""The file of a size that is sewn again."""
FILE: Final = "file"
"""The check that a file can be read at all."""


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One thing that does not fit."""

    path: str
    """The file, as the folder was given."""
    pointer: str
    """Where in it: a JSON Pointer (RFC 6901); empty for the file as a whole."""
    message: str
    check: str
    """Name of the check that found it."""

    def __str__(self) -> str:
        return f"{self.path}:{self.pointer}: {self.message} [{self.check}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """What one booklet was read to hold."""

    path: str
    pattern: str
    size: str
    sheets: int
    """Strips and bundle pieces that are cut."""
    patches: int
    """Patches that the quilt takes; of halved and quartered squares their triangles."""
    units: int
    """Units that are sewn, every copy."""
    blocks: int
    seams: int
    """Seams of the whole top, every copy."""
    match_points: int
    nested: int


def said_of(summaries: Iterable[Summary], folder: Path) -> bytes:
    """Write summaries with their paths below a folder."""
    below = (replace(each, path=Path(each.path).relative_to(folder).as_posix()) for each in summaries)
    return json.dumps([asdict(each) for each in below]).encode()


def summaries_of(said: bytes, folder: Path) -> tuple[Summary, ...]:
    """Read what :func:`said_of` wrote."""
    found = [Summary(**each) for each in json.loads(said)]
    return tuple(replace(each, path=(folder / each.path).as_posix()) for each in found)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofReport:
    """The outcome of a proof."""

    findings: tuple[Finding, ...]
    """Sorted by file, then by place."""
    booklets: tuple[Summary, ...]
    """The booklets that could be read, sorted by file."""

    @property
    def holds(self) -> bool:
        """Whether nothing was found."""
        return not self.findings

    def __str__(self) -> str:
        return "\n".join(map(str, self.findings))


@dataclass(slots=True)
class Findings:
    """Collects what the checks find in one file."""

    path: str
    found: list[Finding] = field(default_factory=list)

    def add(self, check: str, pointer: str, message: str) -> None:
        """Keep one more finding."""
        self.found.append(Finding(self.path, pointer, message, check))

    def expect(self, holds: bool, check: str, pointer: str, message: str) -> bool:
        """Keep a finding unless ``holds``; return ``holds``."""
        if not holds:
            self.add(check, pointer, message)
        return holds

    def expect_equal(self, stated: object, real: object, check: str, pointer: str, what: str) -> bool:
        """Keep a finding unless a stated value is what the proof works out."""
        return self.expect(stated == real, check, pointer, f"{what}: {say(stated)} stated, {say(real)} proved")


def say(value: object) -> str:
    """Write a value for a message, lengths in the exact notation."""
    exact = getattr(value, "exact_text", None)
    if exact is not None:
        return str(exact())
    if isinstance(value, dict):
        return ", ".join(f"{key}: {say(item)}" for key, item in sorted(value.items())) or "nothing"
    if isinstance(value, (tuple, list)):
        return "[" + ", ".join(map(say, value)) + "]"
    if hasattr(value, "w") and hasattr(value, "h"):
        return f"{say(value.w)} x {say(value.h)}"
    return "nothing" if value is None else str(value)
