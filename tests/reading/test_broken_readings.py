"""A file with problems still gives as much of the pattern as was understood, so that later layers find more."""

from __future__ import annotations

import pytest

from pattern_text import pattern_text
from seamleaf.lengths import Length
from seamleaf.reading import Pattern, PatternError, Reading, read_pattern
from seamleaf.reading.part_records import Broken, Join, Patch, UseBlock


def read(**sections: str) -> Reading:
    return read_pattern(pattern_text(**sections).encode(), "harbour-lights")


def understood(**sections: str) -> Pattern:
    """Return what was understood of a pattern with problems."""
    reading = read(**sections)
    assert reading.problems
    assert reading.pattern is not None
    return reading.pattern


def test_an_unreadable_part_is_broken_and_its_neighbours_are_not() -> None:
    light = understood(blocks="blocks:\n  light: {row: [ground 2 x, ground 2 x 4]}\n  dark: ground 4 x 4").blocks[
        "light"
    ]

    assert isinstance(light.part, Join)
    assert [type(part) for part in light.part.parts] == [Broken, Patch]


def test_a_misspelt_fabric_stands_as_the_one_most_like_it() -> None:
    light = understood(blocks="blocks:\n  light: stra 2 x 4\n  dark: ground 4 x 4").blocks["light"]

    assert isinstance(light.part, Patch)
    assert (light.part.use.fabric, light.part.use.print) == ("star", 1)


def test_a_cycle_is_broken_where_it_closes() -> None:
    pattern = understood(blocks="blocks:\n  light: {row: [{use: dark}]}\n  dark: {row: [{use: light}, ground 2 x 2]}")

    light, dark = pattern.blocks["light"].part, pattern.blocks["dark"].part
    assert isinstance(light, Join)
    assert isinstance(light.parts[0], UseBlock)
    assert isinstance(dark, Join)
    assert [type(part) for part in dark.parts] == [Broken, Patch]


def test_an_unreadable_value_takes_its_default() -> None:
    pattern = understood(
        seam="seam: wide",
        binding="binding: {fabric: edge, strip: broad}",
        setting="setting: {set: on-point, blocks: [[light, darc], [what, dark]]}",
    )

    assert pattern.seam == Length(1) / 4
    assert pattern.binding is not None
    assert pattern.binding.strip == Length(5) / 2
    assert pattern.setting.triangles is not None
    assert [[cell.block for cell in row] for row in pattern.setting.blocks] == [["light", "dark"], ["light", "dark"]]


@pytest.mark.parametrize("section", ["fabrics", "blocks", "setting", "sizes"])
@pytest.mark.parametrize("text", ["", "{}", "[]", "none"])
def test_without_a_main_section_there_is_no_pattern_and_no_noise(section: str, text: str) -> None:
    """What the missing section would name is not called unknown all over the file."""
    reading = read(**{section: f"{section}: {text}" if text else ""})

    assert reading.pattern is None
    assert not [p for p in reading.problems if "unknown" in p.found]
    assert len(reading.problems) <= 2


def test_all_uses_of_a_fabric_whose_source_is_unclear_pass() -> None:
    """Whether it has prints cannot be known."""
    reading = read(fabrics="fabrics: {ground: {source: yardage}, star: {source: sqares 10}, edge: {source: yardage}}")

    assert len(reading.problems) == 1


def test_blocks_that_unfold_without_end_are_refused_before_they_unfold() -> None:
    """Sixty doublings would be more patches than there are grains of sand."""
    chain = "\n".join(f"  b{i}z: {{row: [{{use: b{i + 1}z}}, {{use: b{i + 1}z}}]}}" for i in range(60))
    reading = read(
        blocks=f"blocks:\n{chain}\n  b60z: ground 1 x 1", setting="setting: {set: straight, blocks: [[b0z]]}"
    )

    assert reading.pattern is not None
    assert all("at most 4000 parts" in p.expected for p in reading.problems)
    assert reading.problems


def test_a_chain_of_blocks_deeper_than_the_limit_is_refused() -> None:
    chain = "\n".join(f"  b{i}z: {{use: b{i + 1}z}}" for i in range(3000))
    reading = read(
        blocks=f"blocks:\n{chain}\n  b3000z: ground 1 x 1", setting="setting: {set: straight, blocks: [[b0z]]}"
    )

    assert {p.expected for p in reading.problems} == {"at most 40 deep"}


def test_the_file_name_must_fit_an_address() -> None:
    reading = read_pattern(pattern_text().encode(), "Harbour Lights")

    [problem] = reading.problems
    assert problem.sentence("Harbour Lights.yaml") == (
        "Harbour Lights.yaml:1:1: found the file name 'Harbour Lights', expected a file name of a small letter, "
        "then small letters, digits or hyphens, at most 40 in all"
    )
    assert reading.pattern is not None


def test_problems_are_in_the_order_of_the_file_and_make_one_error() -> None:
    reading = read(seam="seam: 9", sizes="sizes: {Crib: {blocks: 2 x 3}}", title="title: []")

    assert list(reading.problems) == sorted(reading.problems)
    assert len(reading.problems) == 3
    assert PatternError(list(reversed(reading.problems))).problems == list(reading.problems)
