"""The limits of the pattern file: at the limit a file passes, one beyond it is refused."""

from __future__ import annotations

import pytest

from pattern_text import pattern_text
from seamleaf.reading import Reading, read_pattern


def read(**sections: str) -> Reading:
    return read_pattern(pattern_text(**sections).encode(), "harbour-lights")


def sentences(reading: Reading) -> list[str]:
    return [problem.sentence("f") for problem in reading.problems]


def test_a_file_may_have_one_mebibyte() -> None:
    data = pattern_text().encode()
    filled = data + b"#" * ((1 << 20) - len(data))

    assert read_pattern(filled, "harbour-lights").problems == ()
    beyond = read_pattern(filled + b"#", "harbour-lights")
    assert beyond.pattern is None
    assert sentences(beyond) == [
        "f:1:1: found a file of more than a million letters, expected a shorter one: a file is one pattern"
    ]


@pytest.mark.parametrize(("levels", "passes"), [(40, True), (41, False)])
def test_nesting_may_reach_forty_levels(levels: int, passes: bool) -> None:
    # The pattern, its blocks, the block and its row are four levels; each further row is a mapping and a list.
    inner = "{row: [" * ((levels - 4) // 2) + ("ground 1 x 1" if levels % 2 == 0 else "[]") + "]}" * ((levels - 4) // 2)

    found = sentences(read(blocks=f"blocks:\n  light: {{row: [{inner}]}}\n  dark: ground 1 x 1"))

    assert (not found) if passes else any("parts inside parts, 41 deep" in sentence for sentence in found)


def test_a_title_may_have_200_characters_and_not_bytes() -> None:
    assert read(title="title: " + "é" * 200).problems == ()
    assert len(read(title="title: " + "é" * 201).problems) == 1


def test_there_may_be_sixty_fabrics() -> None:
    extra = [f"  f{chr(97 + i // 26)}{chr(97 + i % 26)}: {{source: yardage}}" for i in range(58)]
    base = ["fabrics:", "  ground: {source: yardage}", "  star: {source: squares 10}"]

    assert read(fabrics="\n".join(base + extra)).problems == ()
    assert len(read(fabrics="\n".join([*base, *extra, "  last: {source: yardage}"])).problems) == 1


@pytest.mark.parametrize(("seam", "passes"), [("1", True), ("2.54 cm", True), ("1/64", True), ("1.001", False)])
def test_a_seam_may_be_one_inch(seam: str, passes: bool) -> None:
    assert (read(seam=f"seam: {seam}").problems == ()) is passes


@pytest.mark.parametrize(("side", "passes"), [("400", True), ("1016 cm", True), ("401", False), ("10161 mm", False)])
def test_a_side_may_have_400_inches(side: str, passes: bool) -> None:
    assert (read(blocks=f"blocks: {{light: ground {side} x 1, dark: ground 4 x 4}}").problems == ()) is passes


@pytest.mark.parametrize(
    ("setting", "blocks", "passes"),
    [
        ("set: straight", "50 x 50", True),
        ("set: straight", "41 x 61", False),
        # On point the blocks between the first ones count: 35 x 36 and 34 x 35 are 2,450.
        ("set: on-point, triangles: {fabric: ground}", "35 x 36", True),
        ("set: on-point, triangles: {fabric: ground}", "36 x 36", False),
    ],
)
def test_a_quilt_may_have_2500_blocks(setting: str, blocks: str, passes: bool) -> None:
    reading = read(
        setting=f"setting: {{{setting}, blocks: [[light, dark]]}}",
        sizes=f"sizes: {{crib: {{blocks: 1 x 1}}, big: {{blocks: {blocks}}}}}",
    )

    assert (reading.problems == ()) is passes


@pytest.mark.parametrize("stem", ["a", "harbour-lights", "a1-", "a" * 40])
def test_a_file_may_be_named(stem: str) -> None:
    assert read_pattern(pattern_text().encode(), stem).problems == ()


@pytest.mark.parametrize("stem", ["", "A", "1a", "-a", "a_b", "a.b", "a b", "é", "a" * 41, "a\n"])
def test_a_file_may_not_be_named(stem: str) -> None:
    assert len(read_pattern(pattern_text().encode(), stem).problems) == 1
