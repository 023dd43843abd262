"""How each fabric looks: its letter, colour and hatch, the same in every figure of a booklet.

A fabric is told by its letter and hatch as well as by its colour, so that figures read in black and white and for
colour-blind readers. Prints of a bundle are looks of their own: the letter with the print role, B1 and B2 on a key.
"""

from __future__ import annotations

from dataclasses import dataclass

from seamleaf.booklet.prints import piece_colour, role_piece
from seamleaf.booklet.record import Booklet, FabricNote
from seamleaf.drawing.colours import PAPER, ink_on, mix
from seamleaf.drawing.hatching import HATCHES
from seamleaf.drawing.wording import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """The look of one fabric, or of one print role of a bundle."""

    fabric: str
    print: int | None
    name: str
    """What the key calls it: the fabric's letter, with the print role for a bundle."""
    colour: str
    hatch: str
    ink: str
    """Colour of text on it, at least 4.5:1."""
    line: str
    """Colour of the hatch."""
    wrong: str
    """Colour of the wrong side."""


def looks_of(booklet: Booklet) -> dict[tuple[str, int | None], Look]:
    """Return the look of every fabric by (fabric, None) and of every print role in use by (fabric, role)."""
    roles: dict[str, set[int]] = {fabric.id: set() for fabric in booklet.fabrics}
    for patch in booklet.patches:
        if patch.print is not None and patch.fabric in roles:
            roles[patch.fabric].add(patch.print)
    names = list(HATCHES)
    looks: dict[tuple[str, int | None], Look] = {}
    taken = 0
    for fabric in booklet.fabrics:
        shown: list[int | None] = [*sorted(roles[fabric.id])] or [None]
        for role in shown:
            piece = 1 if role is None else role_piece(booklet, fabric, role)
            look = _look(fabric, role, piece_colour(fabric, piece), names[taken % len(names)])
            taken += 1
            looks[fabric.id, role] = look
            looks.setdefault((fabric.id, None), look)
    return looks


def _look(fabric: FabricNote, role: int | None, colour: str, hatch: str) -> Look:
    ink = ink_on(colour)
    return Look(
        fabric=fabric.id,
        print=role,
        name=fabric.letter if role is None else say("figure.print", letter=fabric.letter, number=role),
        colour=colour,
        hatch=hatch,
        ink=ink,
        line=mix(colour, ink, 45),
        wrong=mix(colour, PAPER, 72),
    )
