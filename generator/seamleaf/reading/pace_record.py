"""The pace at which somebody sews, as the pattern file gives it: for estimates of time."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Paces:
    """What is done in an hour, from slow to quick."""

    cuts: tuple[int, int]
    """Ruler cuts."""
    seams: tuple[int, int]
    """Seams of units, sewn one after the other."""
    presses: tuple[int, int]
    """Seams pressed."""
    pinned: tuple[int, int]
    """Length of pinned seams, in the pattern's unit: rows, borders, binding, back."""

    def by_key(self) -> dict[str, tuple[int, int]]:
        """Return them by the keys of the file."""
        return {"cuts": self.cuts, "seams": self.seams, "presses": self.presses, "pinned": self.pinned}
