"""Everything about a pattern's geometry that can be refused before it is planned, in one list."""

from __future__ import annotations

from seamleaf.reading.marks import Mark
from seamleaf.reading.part_records import Broken, FabricUse, Join, Part, Patch
from seamleaf.reading.pattern import Cell, Pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.reading.uses import own_fabrics
from seamleaf.sizing.blocks import Ruler, Size, walk
from seamleaf.sizing.quilt import size_quilt
from seamleaf.sizing.turning import expand


def check_pattern(pattern: Pattern) -> list[Problem]:
    """Return every problem of geometry: parts that do not fit, blocks of unequal size, limits, what is not yet made.

    Works on a pattern that reading had problems with: what could not be read is left out of the comparisons.
    """
    ruler = Ruler(pattern)
    for block_id in pattern.blocks:
        ruler.block(block_id)
    problems = [*ruler.problems, *_not_yet(pattern), *_no_strips(pattern), *_no_borders(pattern)]
    comparison = Ruler(pattern)
    _check_cells(pattern, comparison)
    problems += [problem for problem in comparison.problems if problem not in problems]
    if not problems and not _is_broken(pattern):
        for size_id in pattern.sizes:
            try:
                size_quilt(pattern, size_id)
            except PatternError as error:
                problems += error.problems
    return sorted(set(problems))


def _check_cells(pattern: Pattern, ruler: Ruler) -> None:
    """Compare the cells of the tiles with the first block among them; on point that must be square."""
    setting = pattern.setting
    cells = [cell for tile in (setting.blocks, setting.between or ()) for line in tile for cell in line]
    first: Size | None = None
    for cell in cells:
        size = _cell_size(cell, ruler)
        if size is None:
            continue
        if first is None:
            first = size
            if setting.set == "on-point" and size[0] != size[1]:
                found = f"block '{cell.block}' of {ruler.say(size[0])} x {ruler.say(size[1])}"
                ruler.refuse(cell.where, found, "a square block: only those can be set on point")
        elif size != first:
            found = f"block '{cell.block}' of {ruler.say(size[0])} x {ruler.say(size[1])}"
            ruler.refuse(cell.where, found, f"{ruler.say(first[0])} x {ruler.say(first[1])}, like the first block")
    if first is None and all(cell.block is None for cell in cells):
        ruler.refuse(setting.where, "a set of plain fabric only", "at least one block in 'blocks'")


def _cell_size(cell: Cell, ruler: Ruler) -> Size | None:
    size = ruler.block(cell.block) if cell.block else None
    return (size[1], size[0]) if size and cell.turn in (90, 270) else size


def _is_broken(pattern: Pattern) -> bool:
    broken: list[Part] = []
    for block in pattern.blocks.values():
        walk(block.part, lambda part: broken.append(part) if isinstance(part, Broken) else None)
    return bool(broken)


def _not_yet(pattern: Pattern) -> list[Problem]:
    """Name what the pattern file may say, but this version does not make yet."""
    setting = pattern.setting
    found: list[tuple[Mark, str, str]] = []
    if setting.triangles and setting.triangles.float and setting.sashing:
        expected = "'float: 0', or no sashing: a border of the triangles' fabric lets sashed blocks float"
        found.append((setting.triangles.where, "sashed blocks that float", expected))
    strip = setting.sashing.fabric if setting.sashing and setting.run == "down" else None
    if strip and strip.fabric in pattern.fabrics and not pattern.fabrics[strip.fabric].is_yardage:
        source = pattern.fabrics[strip.fabric].source_text
        found.append((strip.where, f"strips as long as a column from {source}", "yardage, which gives long strips"))
    return [Problem(where, what, expected) for where, what, expected in found]


def _no_borders(pattern: Pattern) -> list[Problem]:
    """Name the blocks that cannot be repeated in a pieced border: plain ones, and those with prints of a bundle."""
    problems: list[Problem] = []
    for border in () if _is_broken(pattern) else pattern.borders:
        block = pattern.blocks.get(border.pieced) if border.pieced is not None else None
        if block is None:
            continue
        tree = expand(block.part, pattern)
        if isinstance(tree, Patch):
            found = f"a border pieced of '{block.id}', which is one patch"
            problems.append(Problem(border.where, found, "a block of several patches, or a border with a width"))
        uses: list[FabricUse] = []
        walk(tree, lambda part, uses=uses: uses.extend(own_fabrics(part)))  # type: ignore[misc]  # a default binds it
        for id_ in dict.fromkeys(use.fabric for use in uses):
            fabric = pattern.fabrics.get(id_)
            if fabric is not None and not fabric.is_yardage:
                found = f"a border pieced of '{block.id}' with fabric '{id_}' from {fabric.source_text}"
                problems.append(Problem(border.where, found, "blocks of yardage alone in a pieced border"))
    return problems


def _no_strips(pattern: Pattern) -> list[Problem]:
    """Name the rows and columns that were asked for as strip sets, but cannot be sewn so."""
    joined: list[Join] = []
    for block in pattern.blocks.values():
        walk(
            block.part, lambda part: joined.append(part) if isinstance(part, Join) and part.method == "strips" else None
        )
    problems: list[Problem] = []
    for join in joined:
        expected = f"a {join.axis} of patches alone; give 'method: strips' to those inside it"
        for part in join.parts:
            if isinstance(part, Broken):
                continue
            if not isinstance(part, Patch):
                problems.append(Problem(part.where, "a part that is no patch in a strip set", expected))
                continue
            fabric = pattern.fabrics.get(part.use.fabric)
            if fabric is not None and not fabric.is_yardage:
                found = f"fabric '{fabric.id}' from {fabric.source_text} in a strip set"
                problems.append(Problem(part.where, found, "yardage, which gives long strips"))
            elif fabric is not None and fabric.directional:
                found = f"the directional fabric '{fabric.id}' in a strip set"
                problems.append(Problem(part.where, found, "a fabric without a direction"))
    return problems
