"""What all records of the booklet are made of, as the proof reads them."""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.lengths import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """An object of the file."""

    pointer: str
    """Where it stands (RFC 6901)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box(Record):
    """A width and a height."""

    w: Length
    h: Length

    @property
    def sides(self) -> tuple[Length, Length]:
        """Width and height."""
        return self.w, self.h
