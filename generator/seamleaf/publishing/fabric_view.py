"""What the pages say of each fabric: its name, what it is for, and what kind of purchase it is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from seamleaf.booklet import Booklet
from seamleaf.booklet.prints import used_colours
from seamleaf.booklet.record import FabricNote
from seamleaf.lengths import Length
from seamleaf.planning.fabrics import WIDE
from seamleaf.publishing.patch_view import PatchView, patch_views
from seamleaf.publishing.pointer import pointer


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictView:
    """Colours of a bundle that share a verdict; the two words are keys of the wording."""

    state: str
    reason: str
    colours: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UsableView:
    """Another usable size of a fabric at which the purchase is another; ``at`` is its pointer."""

    at: str
    fails: bool
    """Whether some patch does not come out of it."""
    in_metres: bool
    wide: bool
    """Whether it is fabric sold for backs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricView:
    """One fabric; ``at`` is its pointer, from which the templates take every number."""

    at: str
    id: str
    letter: str
    title: str
    bundle: bool
    in_metres: bool
    """Whether the purchase is told in metres as well."""
    squares: bool
    pinked: bool
    directional: bool
    has_pack: bool
    has_left: bool
    """Whether pieces of its bundles stay whole."""
    has_short: bool
    """Whether one bundle fewer would lack some."""
    has_margin: bool
    colours: tuple[str, ...]
    verdicts: tuple[VerdictView, ...]
    """What became of each colour of a bundle: used, then spare, then rejected."""
    uses: tuple[str, ...]
    """Keys below ``use.`` in the wording, in the order of the work."""
    proven: Literal["need", "buy", "none"]
    """What is proven to be the least: the need, only the purchase, or neither."""
    usables: tuple[UsableView, ...]


def fabric_views(booklet: Booklet) -> tuple[FabricView, ...]:
    """Return the views of all fabrics, in the order of their letters."""
    patches = patch_views(booklet).values()
    wide = Length(WIDE[booklet.unit])
    return tuple(_view(index, fabric, patches, wide) for index, fabric in enumerate(booklet.fabrics))


def _view(index: int, fabric: FabricNote, patches: Iterable[PatchView], wide: Length) -> FabricView:
    uses = [use for patch in patches if patch.letter == fabric.letter for use in patch.uses]
    return FabricView(
        at=pointer("fabrics", index),
        id=fabric.id,
        letter=fabric.letter,
        title=fabric.title,
        bundle=fabric.source != "yardage",
        in_metres=fabric.also is not None,
        squares=fabric.source.startswith("squares"),
        pinked=fabric.pinked,
        directional=fabric.directional,
        has_pack=fabric.pack is not None,
        has_left=bool(fabric.left),
        has_short=fabric.short is not None,
        has_margin=bool(fabric.margin),
        colours=used_colours(fabric),
        verdicts=_verdicts(fabric),
        uses=tuple(dict.fromkeys(uses)),
        proven=_proven(fabric),
        usables=_usables(index, fabric, wide),
    )


def _proven(fabric: FabricNote) -> Literal["need", "buy", "none"]:
    if fabric.need == fabric.bound:
        return "need"
    return "buy" if fabric.buy == fabric.least else "none"


def _usables(index: int, fabric: FabricNote, wide: Length) -> tuple[UsableView, ...]:
    """Return the sizes where what is bought (of bundles: how many pieces are cut) is not that of the size before."""
    told: list[UsableView] = []
    last = fabric.need if isinstance(fabric.need, int) else None
    for number, each in enumerate(fabric.usables):
        if (each.need != last) if isinstance(fabric.need, int) else (each.buy != fabric.buy):
            at = pointer("fabrics", index, "usables", number)
            fails, in_metres = each.need is None, each.also is not None
            told.append(UsableView(at=at, fails=fails, in_metres=in_metres, wide=each.usable == wide))
        last = each.need if isinstance(each.need, int) else None
    return tuple(told)


def _verdicts(fabric: FabricNote) -> tuple[VerdictView, ...]:
    found: dict[tuple[str, str], list[str]] = {}
    for note, colour in zip(fabric.choice, fabric.colours[: len(fabric.choice)], strict=True):
        found.setdefault((note.state, note.reason), []).append(colour)
    order = {state: number for number, state in enumerate(("used", "spare", "reject"))}
    return tuple(
        VerdictView(state=state, reason=reason, colours=tuple(colours))
        for (state, reason), colours in sorted(found.items(), key=lambda item: (order[item[0][0]], item[0][1]))
    )
