"""Patches sewn round a centre: log cabins, courthouse steps, and rings that a partial seam closes.

Every seam is pressed away from the centre, to the newest log (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from seamleaf.lengths import Length
from seamleaf.planning.piecing.shapes import SeamDraft
from seamleaf.reading.part_records import Around, Partial, Patch
from seamleaf.sizing.rounds import CLOCKWISE, Side, log_sides

_OUT: Final[dict[Side, tuple[int, int]]] = {"top": (0, -1), "right": (1, 0), "bottom": (0, 1), "left": (-1, 0)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A patch or the centre, by the top left corner and size of its finished box."""

    x: Length
    y: Length
    w: Length
    h: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounds:
    """A finished round: its size, where the centre lies, then each patch in sewing order, with one seam a patch."""

    w: Length
    h: Length
    centre: Laid
    patches: tuple[tuple[Patch, Laid], ...]
    seams: tuple[SeamDraft, ...]


def sew_around(part: Around, w: Length, h: Length) -> Rounds:
    """Sew logs round a centre of finished size w x h."""
    box = _Box(left=Length(0), top=Length(0), right=w, bottom=h)
    patches: list[tuple[Patch, Laid]] = []
    seams: list[SeamDraft] = []
    for index, (log, side) in enumerate(zip(part.logs, log_sides(part), strict=True), 1):
        seams.append(box.seam(side, index))
        laid = box.add(side, log.width)
        patches.append((Patch(use=log.use, w=laid.w, h=laid.h, where=log.where), laid))
    return _settled(box, Laid(x=Length(0), y=Length(0), w=w, h=h), patches, seams)


def sew_ring(part: Partial, side: Length) -> Rounds:
    """Sew four equal rectangles round a square centre; the first seam is closed last."""
    width, length = sorted((part.ring.w, part.ring.h))
    far = side + width
    zero = Length(0)
    # Clockwise; an anticlockwise ring is its mirror image, left-right.
    rings: tuple[tuple[Side, Length, Length], ...] = (
        ("top", zero, zero),
        ("right", far, zero),
        ("bottom", width, far),
        ("left", zero, width),
    )
    whole = side + width * 2
    mirrored = part.direction == "anticlockwise"
    patches: list[tuple[Patch, Laid]] = []
    seams: list[SeamDraft] = []
    for index, (edge, x, y) in enumerate(rings, 1):
        w, h = (length, width) if edge in ("top", "bottom") else (width, length)
        laid = Laid(x=whole - x - w if mirrored else x, y=y, w=w, h=h)
        flipped: dict[Side, Side] = {"left": "right", "right": "left"}
        at = flipped.get(edge, edge) if mirrored else edge
        inside = _Box(left=laid.x, top=laid.y, right=laid.x + w, bottom=laid.y + h)
        seams.append(inside.seam(_facing(at), index, outward=at))
        patches.append((Patch(use=part.ring.use, w=w, h=h, where=part.ring.where), laid))
    return Rounds(
        w=whole,
        h=whole,
        centre=Laid(x=width, y=width, w=side, h=side),
        patches=tuple(patches),
        seams=tuple(seams),
    )


def _facing(side: Side) -> Side:
    return CLOCKWISE[(CLOCKWISE.index(side) + 2) % 4]


@dataclass(slots=True, kw_only=True)
class _Box:
    """The unit so far, growing on all sides of the centre's frame."""

    left: Length
    top: Length
    right: Length
    bottom: Length

    def seam(self, side: Side, second: int, *, outward: Side | None = None) -> SeamDraft:
        """Return the seam along one side, to patch number ``second``."""
        left, top, right, bottom = self.left, self.top, self.right, self.bottom
        line = {
            "top": ((left, top), (right, top)),
            "right": ((right, top), (right, bottom)),
            "bottom": ((left, bottom), (right, bottom)),
            "left": ((left, top), (left, bottom)),
        }[side]
        x, y = _OUT[outward or side]
        axis: Literal["x", "y"] = "x" if side in ("left", "right") else "y"
        toward = (Length(x), Length(y))
        return SeamDraft(axis=axis, line=line, first=0, second=second, toward=toward, outward=True)

    def add(self, side: Side, width: Length) -> Laid:
        """Grow on one side; return where the new log lies."""
        left, top, right, bottom = self.left, self.top, self.right, self.bottom
        match side:
            case "top":
                self.top = top - width
                return Laid(x=left, y=self.top, w=right - left, h=width)
            case "right":
                self.right = right + width
                return Laid(x=right, y=top, w=width, h=bottom - top)
            case "bottom":
                self.bottom = bottom + width
                return Laid(x=left, y=bottom, w=right - left, h=width)
            case "left":
                self.left = left - width
                return Laid(x=self.left, y=top, w=width, h=bottom - top)


def _settled(box: _Box, centre: Laid, patches: list[tuple[Patch, Laid]], seams: list[SeamDraft]) -> Rounds:
    """Move everything so that the finished box starts at the origin."""
    dx, dy = -box.left, -box.top

    def moved(laid: Laid) -> Laid:
        return Laid(x=laid.x + dx, y=laid.y + dy, w=laid.w, h=laid.h)

    return Rounds(
        w=box.right - box.left,
        h=box.bottom - box.top,
        centre=moved(centre),
        patches=tuple((patch, moved(laid)) for patch, laid in patches),
        seams=tuple(
            SeamDraft(
                axis=seam.axis,
                line=((ax + dx, ay + dy), (bx + dx, by + dy)),
                first=seam.first,
                second=seam.second,
                toward=seam.toward,
                outward=True,
            )
            for seam in seams
            for (ax, ay), (bx, by) in (seam.line,)
        ),
    )
