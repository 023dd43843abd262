"""What the booklet says of the colours of bundles and their layout, as the proof reads it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seamleaf.proof.form import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourNote(Record):
    """What becomes of one colour of a bundle."""

    state: Literal["used", "spare", "reject"]
    light: int
    difference: int
    alike: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutNote(Record):
    """How often like prints touch."""

    like_edge: int
    like_corner: int
    like_bound: int
    contrasting: int
