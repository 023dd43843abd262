"""The records of prints in the published format: what becomes of each colour, how blocks are laid out, from what."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class RoleNote:
    """One print role of a block unit."""

    fabric: str
    print: int
    grounds: Annotated[tuple[str, ...], "the fabrics without prints that it shares a seam with inside the block"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ServeNote:
    """Pieces of a bundle that are cut alike."""

    times: int
    serves: Annotated[
        tuple[tuple[str, int], ...], "(block unit, print role) that each piece serves, twice if it does so twice"
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintsTask:
    """All that prints are chosen, paired and laid out from but the colours: enough to do it anew in other colours."""

    seed: Annotated[int, "of chance, 1 to 2^32 - 1; from the pattern's id, its version and the size"]
    on_point: bool
    step: Annotated[int, "lattice steps from one block to the next: 2 with sashing"]
    wide: Annotated[int, "greatest distance from the left, in columns of the quilt as it hangs"]
    high: int
    cells: Annotated[
        tuple[tuple[int, str, int, int], ...],
        "blocks with prints in sewing order: index of the place, block unit, column and line of the lattice",
    ]
    roles: Annotated[dict[str, tuple[RoleNote, ...]], "by block unit, in the order of the prints of places"]
    bundles: Annotated[dict[str, tuple[ServeNote, ...]], "by bundle fabric, in the order of cutting"]
