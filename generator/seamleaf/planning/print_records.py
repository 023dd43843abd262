"""The records of prints in the published format: what becomes of each colour, and how the blocks are laid out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

Family = Literal["neutral", "red", "orange", "yellow", "green", "teal", "blue", "violet", "pink"]
"""Hue families of prints."""
State = Literal["used", "spare", "reject"]
Reason = Literal["clear", "faint", "inside", "needed", "alike", "enough", "lost"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourNote:
    """What becomes of one colour of a bundle, and why."""

    state: Annotated[State, "reject: too near in lightness to all that its patches could be sewn to"]
    reason: Annotated[
        Reason,
        "clear: stands out from the ground; faint: less so; inside: only where it does not touch the ground; needed: "
        "lost on the ground, and used for want of a better one; alike: passes for a colour that is used; enough: there "
        "are enough others; lost: does not stand out anywhere",
    ]
    light: Annotated[int, "least lightness contrast with what its patches may be sewn to, hundredths of CIELAB L*"]
    difference: Annotated[int, "colour difference from that fabric, hundredths of CIEDE2000"]
    alike: Annotated[int | None, "index of the earlier colour that it passes for; null when there is none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyNote:
    """How the blocks with prints of one hue family are spread."""

    family: Family
    blocks: int
    quarters: Annotated[
        tuple[int, int, int, int],
        "quarters of blocks top left, top right, bottom left, bottom right; a block between two counts half in each",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutNote:
    """How the prints of bundles are laid out. Colours that pass for each other count as one print."""

    like_edge: Annotated[int, "prints that two blocks share along an edge"]
    like_corner: Annotated[
        int, "prints that two blocks share at a corner; on point straight above or beside each other"
    ]
    like_bound: Annotated[int, "proven lower bound of like_edge + like_corner for the prints of these blocks"]
    contrasting: Annotated[int, "blocks whose prints all stand out from each other"]
    families: tuple[FamilyNote, ...]
