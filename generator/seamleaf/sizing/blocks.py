"""Finished sizes of parts and blocks, and every misfit among them.

A row's parts must be equally high, a column's equally wide; the part that differs from the first is the one
reported. A part whose size cannot be told (``None``) fits anywhere: its own problem is reported already.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from seamleaf.lengths import Length, say_length
from seamleaf.reading.marks import Mark
from seamleaf.reading.part_records import (
    Around,
    Broken,
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    Join,
    Part,
    Partial,
    Patch,
    QuarterSquare,
    ThreeTriangle,
    UseBlock,
)
from seamleaf.reading.pattern import Block, Pattern
from seamleaf.reading.problems import Problem
from seamleaf.sizing.rounds import around_size

Size = tuple[Length, Length]


@dataclass(slots=True)
class Ruler:
    """Measures parts of one pattern and keeps what does not fit."""

    pattern: Pattern
    problems: list[Problem] = field(default_factory=list)
    _blocks: dict[str, Size | None] = field(default_factory=dict)

    def block(self, block_id: str) -> Size | None:
        """Return a block's finished width and height, or ``None`` when its tree does not give one."""
        if block_id not in self._blocks:
            self._blocks[block_id] = None  # a block inside itself is refused by reading; never recurse for ever
            block = self.pattern.blocks.get(block_id)
            self._blocks[block_id] = None if block is None else self._checked(block)
        return self._blocks[block_id]

    def part(self, part: Part) -> Size | None:
        """Return a part's finished width and height as it lies, reporting what does not fit inside it."""
        match part:
            case Patch():
                return (part.w, part.h)
            case Join():
                return self._join(part)
            case HalfSquare() | QuarterSquare() | ThreeTriangle():
                return self._square(part)
            case HalfRectangle():
                return self._half_rectangle(part)
            case Diamond():
                return self._diamond(part)
            case Geese():
                return self._geese(part)
            case Corners():
                return self._corners(part)
            case Around():
                return self._around(part)
            case Partial():
                return self._ring(part)
            case UseBlock():
                size = self.block(part.block)
                return (size[1], size[0]) if size and part.turn in (90, 270) else size
            case Broken():
                return None

    def refuse(self, where: Mark, found: str, expected: str, hint: str = "") -> None:
        """Keep one more problem."""
        self.problems.append(Problem(where, found, expected, hint))

    def say(self, length: Length) -> str:
        """Write a length for a message; one that no ruler shows to the nearest mark."""
        return say_length(length, self.pattern.measures)

    def _checked(self, block: Block) -> Size | None:
        size = self.part(block.part)
        if size and block.finished and size != block.finished:
            stated = " x ".join(map(self.say, block.finished))
            real = " x ".join(map(self.say, size))
            self.refuse(block.where, f"block '{block.id}' said to be {stated}", f"{real}, which its parts add up to")
        return size

    def _join(self, part: Join) -> Size | None:
        sizes = [self.part(each) for each in part.parts]
        along, across = (0, 1) if part.axis == "row" else (1, 0)
        word = "high" if part.axis == "row" else "wide"
        known = next((size for size in sizes if size), None)
        for each, size in zip(part.parts, sizes, strict=True):
            if size and known and size[across] != known[across]:
                found = f"a part {self.say(size[across])} {word}"
                expected = f"{self.say(known[across])} {word}, like the first part of this {part.axis}"
                self.refuse(each.where, found, expected)
        if known is None or not all(sizes):
            return None
        total = sum((size[along] for size in sizes if size), Length(0))
        return (total, known[across]) if part.axis == "row" else (known[across], total)

    def _square(self, part: HalfSquare | QuarterSquare | ThreeTriangle | Diamond) -> Size | None:
        if part.w != part.h:
            found = f"{_NAMES[type(part)]} of {self.say(part.w)} x {self.say(part.h)}"
            self.refuse(part.where, found, "a square: the same width and height")
            return None
        return (part.w, part.h)

    def _half_rectangle(self, part: HalfRectangle) -> Size | None:
        if part.w == part.h:
            found = f"a half-rectangle of {self.say(part.w)} x {self.say(part.h)}"
            self.refuse(part.where, found, "a width and a height that differ, or a half-square")
            return None
        return (part.w, part.h)

    def _diamond(self, part: Diamond) -> Size | None:
        size = self._square(part)
        if size is None or isinstance(part.centre, FabricUse):
            return size
        side = part.w.times_root2() / 2
        centre = self.part(part.centre)
        if centre and centre != (side, side):
            found = f"a centre of {self.say(centre[0])} x {self.say(centre[1])}"
            expected = f"{self.say(side)} x {self.say(side)}, the side of a square in a square of {self.say(part.w)}"
            self.refuse(part.centre.where, found, expected)
            return None
        return size

    def _corners(self, part: Corners) -> Size | None:
        """Check that no two corners of one side are longer than the side."""
        across = 1 + bool((part.top_left and part.top_right) or (part.bottom_left and part.bottom_right))
        down = 1 + bool((part.top_left and part.bottom_left) or (part.top_right and part.bottom_right))
        if part.corner * across > part.w or part.corner * down > part.h:
            found = f"corners of {self.say(part.corner)} on {self.say(part.w)} x {self.say(part.h)}"
            self.refuse(part.where, found, "corners that do not overlap")
            return None
        return (part.w, part.h)

    def _around(self, part: Around) -> Size | None:
        size = self.part(part.centre)
        return around_size(part, *size) if size else None

    def _ring(self, part: Partial) -> Size | None:
        size = self.part(part.centre)
        if size is None:
            return None
        short, long = sorted((part.ring.w, part.ring.h))
        if size[0] != size[1]:
            found = f"a centre of {self.say(size[0])} x {self.say(size[1])}"
            self.refuse(part.centre.where, found, "a square centre for a ring with a partial seam")
            return None
        if long != size[0] + short:
            found = f"a ring of {self.say(part.ring.w)} x {self.say(part.ring.h)}"
            expected = f"rectangles as long as the centre and their own width: {self.say(short)} x "
            self.refuse(part.ring.where, found, expected + self.say(size[0] + short))
            return None
        return (long + short, long + short)

    def _geese(self, part: Geese) -> Size | None:
        upright = part.point in ("up", "down")
        long, short = (part.w, part.h) if upright else (part.h, part.w)
        if long != short * 2:
            found = f"flying geese {self.say(part.w)} x {self.say(part.h)} that point {part.point}"
            good = (short * 2, short) if upright else (short, short * 2)
            if short == long * 2:  # seen as it lies in the block, and written as if it pointed up
                good = (part.h, part.w)
            hint = f"for example {' x '.join(map(self.say, good))}"
            self.refuse(part.where, found, "a unit twice as long as it is deep, seen with its point up", hint)
            return None
        return (part.w, part.h)


_NAMES: dict[type, str] = {
    HalfSquare: "a half-square",
    QuarterSquare: "a quarter-square",
    ThreeTriangle: "a three-triangle square",
    Diamond: "a square in a square",
}


def walk(part: Part, visit: Callable[[Part], None]) -> None:
    """Call ``visit`` on a part and on every part inside it."""
    visit(part)
    match part:
        case Join():
            for each in part.parts:
                walk(each, visit)
        case Diamond(centre=centre):
            if not isinstance(centre, FabricUse):
                walk(centre, visit)
        case Around() | Partial():
            walk(part.centre, visit)
        case _:
            pass
