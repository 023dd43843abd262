"""One size of a pattern: the layout of its centre, its borders and its finished size, all exact."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from seamleaf.lengths import Length, say_length
from seamleaf.reading.pattern import Border, Cover, Pattern, Size, Widths
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.sizing.blocks import Ruler
from seamleaf.sizing.covering import MAX_MIXES, Covering, TooManyMixesError, smallest_covering
from seamleaf.sizing.layout import Layout, centre_size, count_blocks, lay_out
from seamleaf.sizing.limits import MAX_BLOCKS, MAX_SIDE_INCHES
from seamleaf.sizing.pieced import PiecedBorder, fit_pieced, fitting_widths, pieced_depth
from seamleaf.sizing.scaling import scale_of, scaled_pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Quilt:
    """A pattern in one size, as geometry."""

    pattern: Pattern
    """The pattern with its blocks and set in the scale of this size."""
    size: Size
    scale: Fraction
    across: int
    down: int
    block_w: Length
    block_h: Length
    layout: Layout
    borders: tuple[tuple[Border, Length], ...]
    """Each border with its finished width in this size, from the inside out."""
    pieced: tuple[PiecedBorder, ...] = ()
    """Those of them that are pieced, with what stands along each edge."""

    @property
    def finished(self) -> tuple[Length, Length]:
        """Finished width and height of the whole quilt."""
        around = sum((width for _, width in self.borders), Length(0)) * 2
        return (self.layout.w + around, self.layout.h + around)


_recent: Final[list[tuple[Pattern, dict[str, Quilt]]]] = []
"""The sizes of the patterns that were asked of last: whoever plans a pattern asks for each of them several times."""
_MOST_RECENT: Final = 2


def size_quilt(pattern: Pattern, size_id: str) -> Quilt:
    """Return the exact geometry of one size, which is known where it was asked for last.

    The pattern must have passed :func:`seamleaf.sizing.check_pattern`.

    Raises:
        PatternError: the size breaks a limit, or no layout covers the bed that it asks for.

    """
    known = next((quilts for each, quilts in _recent if each is pattern), None)
    if known is None:
        known = {}
        _recent[:] = [(pattern, known), *_recent[: _MOST_RECENT - 1]]
    quilt = known.get(size_id)
    if quilt is None:
        quilt = known[size_id] = _size_quilt(pattern, size_id)
    return quilt


def _size_quilt(pattern: Pattern, size_id: str) -> Quilt:
    size = pattern.sizes[size_id]
    scale = scale_of(size, block_size(pattern))
    pattern = scaled_pattern(pattern, size, scale)
    block_w, block_h = block_size(pattern)
    ranges = _ranges(pattern, size)
    if size.blocks:
        across, down = size.blocks
        widths = fitting_widths(pattern, centre_size(pattern.setting, across, down, block_w, block_h), ranges)
    else:
        assert size.cover is not None  # noqa: S101 -- reading demands one of the two
        covering = _covering(pattern, size, size.cover, block_w, block_h, ranges)
        across, down, widths = covering.across, covering.down, covering.widths
    borders = tuple(zip(pattern.borders, widths, strict=True))
    around = sum(widths, Length(0)) * 2
    problem = _limit_problem(pattern, size, across, down, block_w, block_h, around)
    if problem:
        raise PatternError([problem])
    layout = lay_out(pattern.setting, across, down, block_w, block_h)
    pieced = fit_pieced(pattern, size, (layout.w, layout.h), borders)
    problem = _too_many_units(size, count_blocks(pattern.setting.set, across, down), pieced)
    if problem:
        raise PatternError([problem])
    return Quilt(
        pattern=pattern,
        size=size,
        scale=scale,
        across=across,
        down=down,
        block_w=block_w,
        block_h=block_h,
        layout=layout,
        borders=borders,
        pieced=pieced,
    )


def _ranges(pattern: Pattern, size: Size) -> tuple[Widths, ...]:
    """Return the widths that each border may have: of a pieced one that of its unit, whatever a size says.

    Raises:
        PatternError: a size that gives a pieced border another width.

    """
    ranges: list[Widths] = []
    asked = size.borders or tuple(border.widths for border in pattern.borders)
    for number, (border, widths) in enumerate(zip(pattern.borders, asked, strict=True), 1):
        depth = pieced_depth(pattern, border)
        if depth is not None and size.borders and widths != (depth,):
            ruler = Ruler(pattern)
            found = f"another width for border {number} of size '{size.id}'"
            raise PatternError([Problem(size.where, found, f"{ruler.say(depth)}, the height of its unit")])
        ranges.append(widths if depth is None else (depth,))
    return tuple(ranges)


def _too_many_units(size: Size, blocks: int, pieced: tuple[PiecedBorder, ...]) -> Problem | None:
    units = sum(2 * (each.sides.units + each.ends.units) for each in pieced)
    if blocks + units <= MAX_BLOCKS:
        return None
    found = f"a quilt of {blocks} blocks and {units} units of pieced borders"
    return Problem(size.where, found, f"at most {MAX_BLOCKS} of both together")


def block_size(pattern: Pattern) -> tuple[Length, Length]:
    """Return the finished size of one cell of the set: that of the first block in its tiles."""
    setting = pattern.setting
    ruler = Ruler(pattern)
    for tile in (setting.blocks, setting.between or ()):
        for cell in (each for line in tile for each in line):
            size = ruler.block(cell.block) if cell.block else None
            if size:
                return (size[1], size[0]) if cell.turn in (90, 270) else size
    raise AssertionError("check_pattern refuses a set without a block")


def _outer_size(
    pattern: Pattern, across: int, down: int, w: Length, h: Length, around: Length
) -> tuple[Length, Length]:
    centre = centre_size(pattern.setting, across, down, w, h)
    return (centre[0] + around, centre[1] + around)


def _limit_problem(
    pattern: Pattern, size: Size, across: int, down: int, w: Length, h: Length, around: Length
) -> Problem | None:
    blocks = count_blocks(pattern.setting.set, across, down)
    if blocks > MAX_BLOCKS:
        return Problem(size.where, f"a quilt of {blocks} blocks", f"at most {MAX_BLOCKS} blocks")
    if max(_outer_size(pattern, across, down, w, h, around)) > MAX_SIDE_INCHES * pattern.measures.inch:
        return Problem(
            size.where, f"size '{size.id}' with a side over {MAX_SIDE_INCHES} inches", "fewer blocks, or smaller ones"
        )
    triangles = pattern.setting.triangles
    if triangles and triangles.float and 1 in (across, down):
        found = f"{across} x {down} blocks that float on point"
        expected = "two blocks or more both ways: else corner triangles meet at the point of a block"
        return Problem(size.where, found, expected)
    if triangles and triangles.float.times_root2() >= w:  # the seams beside a triangle would meet inside it
        found = (
            f"blocks of {say_length(w, pattern.measures)} that float by {say_length(triangles.float, pattern.measures)}"
        )
        return Problem(triangles.where, found, "less than half the diagonal of a block; more is a border's work")
    sashing = pattern.setting.sashing
    if sashing and pattern.setting.set == "on-point" and not sashing.outer:
        return _unsewable(size, across, down)
    return None


def _unsewable(size: Size, across: int, down: int) -> Problem | None:
    """Return what is wrong with an on-point set whose sashes end at the edge, if its seams cannot all be straight.

    Each side triangle is then sewn to a row and the sashes beside it, on the left and top edge to those below, on the
    right and bottom edge to those above; a row that has both kinds, or that shares its sashes with a row of the other
    kind, would need an inset seam.
    """
    if across == down:
        return None
    found = f"{across} x {down} blocks on point with sashes between them only"
    return Problem(size.where, found, "'outer: true', or as many blocks across as down: else seams would be inset")


def _covering(pattern: Pattern, size: Size, cover: Cover, w: Length, h: Length, ranges: tuple[Widths, ...]) -> Covering:
    setting = pattern.setting
    try:
        found = smallest_covering(
            cover,
            ranges,
            lambda across, down: centre_size(setting, across, down, w, h),
            lambda across, down: count_blocks(setting.set, across, down),
        )
    except TooManyMixesError:
        expected = f"at most {MAX_MIXES} ways to mix them: longer steps, or fewer borders with a range"
        raise PatternError(
            [Problem(cover.where, "borders whose widths can be mixed in too many ways", expected)]
        ) from None
    if found is None:
        expected = f"a bed that at most {MAX_BLOCKS} blocks of this pattern cover"
        raise PatternError([Problem(cover.where, f"a bed too large for size '{size.id}'", expected)])
    return found
