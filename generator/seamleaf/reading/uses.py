"""Blocks that use blocks: no cycles, no tree too deep or too large to sew, prints that run 1..k.

Works on the parts as read, after all blocks are known. All walks over chains of blocks use a stack of their own,
because a chain may be as long as the file.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from typing import Final

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
from seamleaf.reading.pattern import Block
from seamleaf.reading.problems import Report
from seamleaf.reading.source import MAX_DEPTH
from seamleaf.reading.wording import quoted, shown

MAX_PARTS: Final = 4000
"""Most parts of one block with everything that it uses: far above any block that is sewn, far below what would hang."""

_SHOWN: Final = 5
"""Longest cycle that a message spells out."""


def inner_parts(part: Part) -> tuple[Part, ...]:
    """Return the parts directly inside a part."""
    match part:
        case Join():
            return part.parts
        case Diamond(centre=centre):
            return () if isinstance(centre, FabricUse) else (centre,)
        case Around() | Partial():
            return (part.centre,)
        case _:
            return ()


def own_fabrics(part: Part) -> tuple[FabricUse, ...]:
    """Return the fabrics that a part names itself, without those of its inner parts."""
    match part:
        case Patch():
            return (part.use,)
        case HalfSquare() | HalfRectangle():
            return (part.first, part.second)
        case QuarterSquare():
            return part.uses
        case ThreeTriangle():
            return (part.half, part.right, part.bottom)
        case Geese():
            return (part.goose, part.sky)
        case Corners():
            at = (part.base, part.top_left, part.top_right, part.bottom_right, part.bottom_left)
            return tuple(use for use in at if use is not None)
        case Diamond(centre=centre, corners=corners):
            return (centre, corners) if isinstance(centre, FabricUse) else (corners,)
        case Around():
            return tuple(log.use for log in part.logs)
        case Partial():
            return (part.ring.use,)
        case _:
            return ()


def iter_parts(part: Part) -> Iterator[Part]:
    """Yield a part and everything inside it, blocks that it uses not unfolded."""
    yield part
    for inner in inner_parts(part):
        yield from iter_parts(inner)


@dataclass(frozen=True, slots=True)
class Use:
    """One ``use:`` in the file: the block that it names, and the place of that name."""

    block: str
    where: Mark


def break_cycles(blocks: Mapping[str, Block], uses: Mapping[str, Sequence[Use]], report: Report) -> dict[str, Block]:
    """Report each use that closes a cycle, and return the blocks with those uses broken.

    Args:
        blocks: as read.
        uses: what each block uses, in the order of the file.
        report: takes the problems.

    """
    closing: set[tuple[str, str]] = set()
    done: set[str] = set()
    for root in blocks:
        if root in done:
            continue
        path, at, waiting = [root], {root: 0}, [iter(uses.get(root, ()))]
        while path:
            use = next(waiting[-1], None)
            if use is None:
                waiting.pop()
                done.add(path[-1])
                del at[path.pop()]
            elif use.block in at:
                report.add(use.where, _cycle(path, at[use.block]), "a block that does not contain itself")
                closing.add((path[-1], use.block))
            elif use.block in blocks and use.block not in done:
                at[use.block] = len(path)
                path.append(use.block)
                waiting.append(iter(uses.get(use.block, ())))
    if not closing:
        return dict(blocks)
    used: dict[str, set[str]] = {}
    for user, name in closing:
        used.setdefault(user, set()).add(name)
    return {
        id_: replace(block, part=_broken(block.part, used[id_])) if id_ in used else block
        for id_, block in blocks.items()
    }


def _cycle(path: Sequence[str], start: int) -> str:
    """Say which blocks form a cycle: ``a uses b uses a``, shortened when it is long."""
    if len(path) - start <= _SHOWN:
        ring = [*path[start:], path[start]]
    else:
        ring = [*path[start : start + _SHOWN - 2], "...", path[-1], path[start]]
    return f"blocks inside each other: {' uses '.join(map(shown, ring))}"


def _broken(part: Part, closing: Set[str]) -> Part:
    """Return the part with the uses of the blocks in ``closing`` broken."""
    match part:
        case UseBlock():
            return Broken(where=part.where) if part.block in closing else part
        case Join():
            return replace(part, parts=tuple(_broken(inner, closing) for inner in part.parts))
        case Diamond(centre=centre) if not isinstance(centre, FabricUse):
            return replace(part, centre=_broken(centre, closing))
        case Around() | Partial():
            return replace(part, centre=_broken(part.centre, closing))
        case _:
            return part


def limit_trees(blocks: Mapping[str, Block], report: Report) -> dict[str, Block]:
    """Report blocks that unfold to too many parts or levels, and return the blocks with those broken.

    Args:
        blocks: without cycles.
        report: takes the problems.

    """
    kept: dict[str, Block] = {}
    sizes: dict[str, tuple[int, int]] = {}
    for id_ in _inside_out(blocks):
        block = blocks[id_]
        count, depth = _measure(block.part, sizes)
        if count > MAX_PARTS or depth > MAX_DEPTH:
            if count > MAX_PARTS:
                report.add(block.where, f"block {quoted(id_)} of {count} parts", f"at most {MAX_PARTS} parts a block")
            else:
                report.add(
                    block.where,
                    f"block {quoted(id_)} with parts inside parts, {depth} deep",
                    f"at most {MAX_DEPTH} deep",
                )
            block, count, depth = replace(block, part=Broken(where=block.where)), 1, 1
        kept[id_] = block
        sizes[id_] = (count, depth)
    return {id_: kept[id_] for id_ in blocks}


def _measure(part: Part, sizes: Mapping[str, tuple[int, int]]) -> tuple[int, int]:
    """Return how many parts and levels a part unfolds to."""
    if isinstance(part, UseBlock):
        count, depth = sizes.get(part.block, (1, 1))
        return count, depth + 1
    count, depth = 1, 0
    for inner in inner_parts(part):
        inner_count, inner_depth = _measure(inner, sizes)
        count += inner_count
        depth = max(depth, inner_depth)
    return count, depth + 1


def _inside_out(blocks: Mapping[str, Block]) -> list[str]:
    """Order the ids so that each block comes after those that it uses."""
    uses = {id_: [name for name in _used(block) if name in blocks] for id_, block in blocks.items()}
    order: dict[str, None] = {}
    for root in blocks:
        stack = [root]
        while stack:
            waiting = [name for name in uses[stack[-1]] if name not in order]
            if waiting and stack[-1] not in order:
                stack.extend(waiting)
            else:
                order.setdefault(stack.pop())
    return list(order)


def _used(block: Block) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part.block for part in iter_parts(block.part) if isinstance(part, UseBlock)))


def check_prints(blocks: Mapping[str, Block], placed: set[str], report: Report) -> None:
    """Report prints of a block that do not run 1..k, at the first that stands above a gap.

    Blocks that are only parts of others are looked at in those: there the numbers are one set.

    Args:
        blocks: without cycles.
        placed: ids of the blocks that the setting places.
        report: takes the problems.

    """
    used = {id_ for block in blocks.values() for id_ in _used(block)}
    own: dict[str, dict[str, dict[int, Mark]]] = {}
    broken: set[str] = set()
    for id_ in _inside_out(blocks):
        prints: dict[str, dict[int, Mark]] = {}
        for part in iter_parts(blocks[id_].part):
            if isinstance(part, Broken) or (isinstance(part, UseBlock) and part.block in broken):
                broken.add(id_)
            if isinstance(part, UseBlock):
                for fabric, marks in own.get(part.block, {}).items():
                    for number, where in marks.items():
                        prints.setdefault(fabric, {}).setdefault(number, where)
            for use in own_fabrics(part):
                if use.print is not None:
                    prints.setdefault(use.fabric, {}).setdefault(use.print, use.where)
        own[id_] = prints
        if id_ in broken or (id_ in used and id_ not in placed):
            continue
        for fabric, marks in prints.items():
            missing = next(n for n in range(1, len(marks) + 2) if n not in marks)
            above = [number for number in marks if number > missing]
            if above:
                report.add(
                    marks[min(above)],
                    f"{shown(fabric)}.{min(above)} in block {quoted(id_)} without {shown(fabric)}.{missing}",
                    "prints that run from 1 without a gap",
                )
