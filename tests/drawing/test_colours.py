"""Whoever sees colours otherwise, or prints in grey, still tells touching patches apart.

Colour vision is simulated with the matrices of Machado, Oliveira and Fernandes (2009), doi 10.1109/TVCG.2009.113, which
apply to linear sRGB; lightness is L* of CIE 1976, from the relative luminance of WCAG 2.2.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import pytest
from coloraide import Color
from shapely.geometry import Polygon
from shapely.strtree import STRtree

from drawing.seen import NAMES, marks, seen_booklet, sketches
from seamleaf.drawing.colours import channels, contrast, luminance
from seamleaf.drawing.figure import Desk, Sketch
from seamleaf.drawing.hatching import HATCHES

Rows = tuple[tuple[float, float, float], ...]
VISIONS: Final[dict[str, Rows]] = {
    "full": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "without red cones": (
        (0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998),
    ),
    "without green cones": (
        (0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881),
    ),
    "without blue cones": (
        (1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900),
    ),
    "grey": ((0.2126, 0.7152, 0.0722),) * 3,
}  # fmt: skip
HALF: Final[dict[str, Rows]] = {
    "without red cones": (
        (0.458064, 0.679578, -0.137642), (0.092785, 0.846313, 0.060902), (-0.007494, -0.016807, 1.024301),
    ),
    "without green cones": (
        (0.547494, 0.607765, -0.155259), (0.181692, 0.781742, 0.036566), (-0.010410, 0.027275, 0.983136),
    ),
}  # fmt: skip
"""The matrices of the same source for cones that are half as strong."""
FILTERS: Final = {"without red cones": "protan", "without green cones": "deutan", "without blue cones": "tritan"}
ENOUGH: Final = 20.0
"""Difference of L* that is told apart at a glance. Common practice, no source: no threshold is published."""
_LONG: Final = 2.0
"""Points of a shared edge from which two patches are said to touch."""


def seen_as(colour: str, vision: str) -> str:
    """Return a colour as somebody sees it."""
    return through(colour, VISIONS[vision])


def through(colour: str, rows: Rows) -> str:
    """Return a colour after a matrix on linear sRGB: decoded, multiplied, clipped, encoded."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (v / 255 for v in channels(colour))]
    mixed = [sum(k * c for k, c in zip(row, linear, strict=True)) for row in rows]
    clipped = [min(1.0, max(0.0, c)) for c in mixed]
    encoded = [c * 12.92 if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in clipped]
    return "#" + "".join(f"{round(c * 255):02x}" for c in encoded)


def lightness(colour: str) -> float:
    """Return L*, 0 to 100."""
    y = luminance(colour)
    return 116 * y ** (1 / 3) - 16 if y > (6 / 29) ** 3 else y * (29 / 3) ** 3


@dataclass(frozen=True, kw_only=True)
class Patch:
    """One patch as it is drawn: its fill, the hatch that can be seen on it, and its label if it carries one."""

    label: str
    shape: Polygon
    fill: str
    hatch: str
    written: bool


def patches(sketch: Sketch, desk: Desk) -> Iterator[list[Patch]]:
    """Yield the patches of each picture of a figure, in the order of drawing."""
    pictures: dict[str, list[Patch]] = {}
    drawn = marks(sketch)
    for i, mark in enumerate(drawn):
        named = re.fullmatch(r"(?:patch|cut) (\S+).*", mark.tags[-1]) if mark.tags else None
        if named is None or mark.kind != "polygon" or mark.ink is None or mark.ink.fill is None:
            continue
        hatch, written = "plain", False
        for other in drawn[i + 1 :]:
            if other.tags != mark.tags or (other.kind == "polygon" and other.ink and other.ink.fill):
                break
            if other.kind == "path":
                hatch = "wrong side" if other.ink and other.ink.rounded else desk.look_of(named[1]).hatch
            written = written or (other.text is not None and other.text.text == named[1])
        shape = Polygon(mark.points)
        pictures.setdefault(mark.tags[0], []).append(
            Patch(label=named[1], shape=shape, fill=mark.ink.fill, hatch=hatch, written=written)
        )
    yield from pictures.values()


def touching(picture: list[Patch]) -> Iterator[tuple[Patch, Patch]]:
    """Yield the pairs of patches that share an edge, or of which one lies on the other."""
    tree = STRtree([patch.shape for patch in picture])
    for i, patch in enumerate(picture):
        for j in tree.query(patch.shape):
            if j > i and patch.shape.buffer(0.01).intersection(picture[j].shape.buffer(0.01)).length > 2 * _LONG:
                yield patch, picture[j]


def told_apart(one: Patch, other: Patch) -> bool:
    """Whether two patches differ by hatch, by letter, or by lightness to everybody."""
    if one.hatch != other.hatch or (one.written and other.written and one.label != other.label):
        return True
    gaps = [abs(lightness(seen_as(one.fill, v)) - lightness(seen_as(other.fill, v))) for v in VISIONS]
    return min(gaps) >= ENOUGH


def is_one_cloth(one: Patch, other: Patch, desk: Desk) -> bool:
    """Whether two patches show the same side of the same fabric, so that there is nothing to tell apart."""
    mine, its = desk.look_of(one.label), desk.look_of(other.label)
    return one.fill == other.fill and (mine.fabric, mine.print) == (its.fabric, its.print)


@pytest.mark.parametrize("name", NAMES)
def test_touching_patches_are_told_apart_by_everybody_and_in_grey(name: str) -> None:
    desk = Desk(seen_booklet(name))
    alike = set()
    pairs = 0
    for sketch in sketches(name).values():
        if sketch.kind in ("step", "block"):
            for picture in patches(sketch, desk):
                for one, other in touching(picture):
                    if not is_one_cloth(one, other, desk):
                        pairs += 1
                        if not told_apart(one, other):
                            alike.add((sketch.id, one.label, other.label, one.fill, other.fill))
    assert alike == set()
    assert pairs > 10


def test_some_fabrics_of_these_booklets_look_alike_but_for_their_hatch() -> None:
    """Guard: colours alone would not do, so the test above has something to find."""
    looks = Desk(seen_booklet("stages")).looks.values()
    close = [
        (one.fabric, other.fabric)
        for one, other in combinations({look.colour: look for look in looks}.values(), 2)
        if min(abs(lightness(seen_as(one.colour, v)) - lightness(seen_as(other.colour, v))) for v in VISIONS) < ENOUGH
    ]
    assert close


def test_each_simulated_vision_leaves_greys_as_they_are() -> None:
    """Each row of a matrix adds up to 1, so greys are fixed points (a property of the published tables)."""
    for vision, rows in VISIONS.items():
        assert all(sum(row) == pytest.approx(1, abs=1e-5) for row in rows), vision
        assert all(seen_as(grey, vision) == grey for grey in ("#000000", "#808080", "#ffffff")), vision


def test_red_and_green_become_shades_of_one_hue_without_red_cones() -> None:
    """Decoded, multiplied, clipped and encoded by hand: red is seen as 109, 95, 0."""
    assert channels(seen_as("#ff0000", "without red cones")) == (109, 95, 0)
    assert channels(seen_as("#ff0000", "without green cones")) == (163, 144, 0)
    assert channels(seen_as("#ff0000", "without blue cones")) == (255, 0, 15)


def test_blue_is_seen_as_the_published_matrices_say() -> None:
    """Decoded, multiplied, clipped and encoded by hand from Machado, Oliveira and Fernandes (2009)."""
    assert channels(seen_as("#0000ff", "without green cones")) == (0, 61, 251)
    assert channels(seen_as("#0000ff", "without blue cones")) == (0, 107, 150)


@pytest.mark.parametrize(("vision", "severity"), [(v, s) for v in FILTERS for s in (1.0, 0.5) if s == 1 or v in HALF])
def test_simulated_vision_is_that_of_a_colour_library(vision: str, severity: float) -> None:
    """Against coloraide's filters by the same paper, for every fabric colour of the booklets and some pure ones."""
    rows = VISIONS[vision] if severity == 1 else HALF[vision]
    colours = {look.colour for name in NAMES for look in Desk(seen_booklet(name)).looks.values()}
    for colour in sorted(colours | {"#ff0000", "#00ff00", "#0000ff", "#ffff00", "#00ffff", "#ff00ff", "#7f3f1f"}):
        reference = Color(colour).filter(
            FILTERS[vision], severity, method="machado", space="srgb-linear", out_space="srgb"
        )
        theirs = [min(255.0, max(0.0, value * 255)) for value in reference.coords()]
        assert channels(through(colour, rows)) == pytest.approx(theirs, abs=0.51), colour


def test_half_as_strong_cones_leave_greys_as_they_are() -> None:
    for rows in HALF.values():
        assert all(sum(row) == pytest.approx(1, abs=1e-5) for row in rows)
        assert all(through(grey, rows) == grey for grey in ("#000000", "#808080", "#ffffff"))


@pytest.mark.parametrize(
    ("colour", "ratio"),
    [
        ("#000000", 21.0), ("#0000ff", 8.5925), ("#ff0000", 3.9985), ("#00ff00", 1.3722), ("#767676", 4.5422),
        ("#777777", 4.4781), ("#949494", 3.0335), ("#959595", 2.9953), ("#595959", 7.0047), ("#5a5a5a", 6.8969),
    ],
)  # fmt: skip
def test_contrast_with_white_is_what_is_published(colour: str, ratio: float) -> None:
    """WCAG 2.2, relative luminance and contrast ratio (w3.org/TR/WCAG22); blue on white is widely published as 8.59.

    The others are derived from the formula. The greys are the last and the first on either side of 7, 4.5 and 3 to 1.
    """
    assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=0.00005)
    assert contrast("#ffffff", colour) == contrast(colour, "#ffffff")


def test_the_wrong_side_has_a_hatch_that_no_right_side_has() -> None:
    for name in NAMES:
        assert {look.hatch for look in Desk(seen_booklet(name)).looks.values()} <= set(HATCHES)
