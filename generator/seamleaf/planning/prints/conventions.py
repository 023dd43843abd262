"""Every threshold and weight of choosing, pairing and laying out prints, named and in one place.

None of them is published anywhere: value outranks hue, says the trade, but no source gives numbers, so all of these
are conventions of ours, to be set by eye. Lightness and colour difference are in hundredths of a unit of CIELAB and of
CIEDE2000; costs have no unit. The browser's twin of this package is given these very numbers with its page.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Conventions:
    """What counts as contrast, what as alike, and what each flaw of a layout costs."""

    # ---- choosing ----
    clear: int = 25_00
    """Least lightness contrast with the ground of a print that stands out from it."""
    faint: int = 15_00
    """Least lightness contrast of a print that may still be used; below, hue cannot make up for it."""
    alike: int = 3_00
    """Colour difference below which two squares pass for the same print."""
    grey: int = 12_00
    """Chroma below which a colour has no hue."""
    hues: tuple[int, ...] = (20, 48, 72, 108, 170, 225, 310, 340)
    """Where the hue families begin, in degrees of the CIELAB hue angle; the last one runs on through 0 to the first."""
    share_over: int = 20
    """By how many percent a hue family may be over its share in the bundle when there are prints to spare."""

    # ---- which square is cut for what ----
    faint_cost: int = 4_000
    """Of a square that is faint where it is sewn to the ground."""
    reject_cost: int = 40_000
    """Of a square that is lost there; it is taken only when there is no other."""
    spare_cost: int = 2_000
    """Of a square that the choice had left over."""
    again_cost: int = 1_000
    """Of each further square of a print."""
    again_alike_cost: int = 100
    """Of each further square of a print that is cut the same way."""
    bold: int = 35_00
    """Lightness contrast with the ground beyond which more is not better."""

    # ---- pairing ----
    pair_light: int = 15_00
    """Lightness contrast of two prints in a block that is enough by itself."""
    pair_difference: int = 25_00
    """Colour difference of two prints in a block that is enough whatever their lightness."""
    pair_same: int = 100_000
    """Of two prints in a block that are the same."""
    pair_family: int = 100
    """Of two prints in a block of one hue family."""
    pair_twin: int = 40
    """Of each further block with the same prints."""
    pair_vivid: int = 50_00
    """Colour difference in a block beyond which more is not better."""

    # ---- laying out: each is the cost of two blocks that share something ----
    like_edge: int = 200
    """A print, along an edge."""
    like_corner: int = 100
    """A print, at a corner."""
    like_near: int = 1
    """A print, with one block between them."""
    family_edge: int = 6
    """A hue family, along an edge."""
    family_corner: int = 3
    """A hue family, at a corner."""
    family_quadrant: int = 2
    """A hue family, for each quarter of them in one quadrant of the quilt; whole blocks are in it for four quarters."""
    family_line: int = 1
    """A hue family, in one row or column of blocks."""
    family_outer: int = 6
    """A hue family, in two corners of the quilt."""
    extremes: int = 10
    """How many percent of the blocks are the darkest, and how many the brightest; at least two each."""
    extreme_touch: int = 4
    """Both among the darkest, or both among the brightest, along an edge or at a corner."""
    extreme_quadrant: int = 2
    """The same, for each quarter in one quadrant."""
    faint_outer: int = 6
    """One block alone: among those with the least contrast with the ground, in a corner of the quilt."""

    # ---- the search for a layout ----
    soft_edge: int = 20
    """What ``like_edge`` is at first, so that blocks can pass each other."""
    soft_corner: int = 14
    """What ``like_corner`` is at first."""
    runs: int = 6
    """Searches, the best of which is kept."""
    agreeing: int = 3
    """Searches that end at the same least cost, after which no more are made."""
    steps: int = 4_000
    """Blocks that each search picks up."""
    steps_each: int = 200
    """Times that each search picks up a block, on average: small quilts need fewer steps."""
    parting_steps: int = 12_000
    """Blocks that are picked up at most to move like prints apart that still touch."""
    most_looks: int = 1_200_000
    """Exchanges that all searches look at together; large quilts get fewer and shorter ones."""
    most_settling: int = 2_500_000
    """Exchanges that are looked at to see which still help; of a quilt of 500 blocks those of each ten times."""


CONVENTIONS: Final = Conventions()
