"""Colours from a photo of squares."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
import yaml
from coloraide import Color
from PIL import Image

from seamleaf.planning.prints.colour import colour_of, lab_of
from seamleaf.site.commands.command import main
from seamleaf.site.commands.photo import read_photo, yaml_lines
from seamleaf.site.work.pipeline import read_checked

COLOURS = ["#d9593d", "#f2e3c2", "#3f9a94", "#22334f", "#000000", "#ffffff"]
SIDE = 60


def photo_of(path: Path, colours: list[str], across: int, noise: int = 0) -> Path:
    """Write a photo of squares with dark gaps between them, and some noise on each."""
    chance = random.Random(3)
    picture = Image.new("RGB", (across * SIDE, -(-len(colours) // across) * SIDE), "#1a1a1a")
    for index, colour in enumerate(colours):
        for x in range(4, SIDE - 4):
            for y in range(4, SIDE - 4):
                shift = chance.randint(-noise, noise)
                pixel = tuple(min(255, max(0, int(colour[at : at + 2], 16) + shift)) for at in (1, 3, 5))
                picture.putpixel((index % across * SIDE + x, index // across * SIDE + y), pixel)
    picture.save(path)
    return path


def test_flat_squares_have_their_colour_and_no_spread(tmp_path: Path) -> None:
    seen = read_photo(photo_of(tmp_path / "p.png", COLOURS, 3), 3, 2)
    assert [each.colour for each in seen] == COLOURS
    assert [each.lab for each in seen] == [lab_of(colour) for colour in COLOURS]
    assert {each.spread for each in seen} == {0}


def test_a_noisy_square_has_its_colour_in_the_mean_and_a_spread(tmp_path: Path) -> None:
    """Noise that lightens as often as it darkens; JPEG changes the pixels a little more."""
    seen = read_photo(photo_of(tmp_path / "p.jpg", COLOURS[:4], 2, noise=30), 2, 2)
    for each, colour in zip(seen, COLOURS, strict=False):
        assert Color(each.colour).delta_e(colour, method="2000", space="lab-d65") < 4
        assert 5_00 < each.spread < 40_00


def test_a_square_that_is_half_dark_and_half_light_is_spread_between_both(tmp_path: Path) -> None:
    picture = Image.new("RGB", (40, 40), "#202020")
    picture.paste("#e0e0e0", (0, 0, 40, 20))
    picture.save(tmp_path / "p.png")
    (seen,) = read_photo(tmp_path / "p.png", 1, 1)
    dark, light = lab_of("#202020")[0], lab_of("#e0e0e0")[0]
    assert seen.spread == light - dark
    assert abs(seen.lab[0] - (dark + light) // 2) <= 1


def test_every_colour_comes_back_from_its_cielab_value() -> None:
    """Two hundred random colours and back: hundredths of CIELAB are about as fine as 8 bits a channel."""
    chance = random.Random(8)
    for _ in range(200):
        colour = f"#{chance.randrange(1 << 24):06x}"
        back = colour_of(lab_of(colour))
        assert all(abs(int(colour[at : at + 2], 16) - int(back[at : at + 2], 16)) <= 1 for at in (1, 3, 5)), colour


def test_what_is_printed_is_yaml_that_a_pattern_takes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["colours", str(photo_of(tmp_path / "p.png", COLOURS, 3)), "--grid", "3x2"]) == 0
    printed = capsys.readouterr().out
    assert yaml.safe_load(printed) == {"colours": COLOURS}
    pattern = f"""
title: T
version: 1.0.0
fabrics:
  star:
    source: squares 10
{"".join(f"    {line}{chr(10)}" for line in printed.splitlines())}
blocks: {{one: star 4 x 4}}
setting: {{set: straight, blocks: [[one]]}}
sizes: {{mat: {{blocks: 2 x 2}}}}
"""
    assert read_checked(pattern.encode(), "t").fabrics["star"].colours == tuple(COLOURS)


@pytest.mark.parametrize(
    ("content", "grid", "words"),
    [
        (None, "2x2", "No such file"),
        (b"no picture", "2x2", "expected JPEG, PNG, WEBP"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "2x2", "p.png"),
        ("small", "40x40", "120 x 60 pixels for 40 x 40 squares, expected at least 8 x 8 a square"),
    ],
)
def test_a_photo_that_cannot_be_read_is_refused_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes | str | None, grid: str, words: str
) -> None:
    path = tmp_path / "p.png"
    if content == "small":
        photo_of(path, COLOURS[:2], 2)
    elif isinstance(content, bytes):
        path.write_bytes(content)
    assert main(["colours", str(path), "--grid", grid]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert words in told.err
    assert told.err.count("\n") == 1


@pytest.mark.parametrize("grid", ["", "6", "0x4", "6x41", "-1x2", "6 x 4", "axb"])
def test_a_grid_that_is_none_is_wrong_use(capsys: pytest.CaptureFixture[str], grid: str) -> None:
    with pytest.raises(SystemExit) as left:
        main(["colours", "p.png", f"--grid={grid}"])
    assert left.value.code == 2
    assert "expected squares across and down" in capsys.readouterr().err


def test_a_photo_is_turned_as_the_camera_says(tmp_path: Path) -> None:
    """A camera held upright stores the picture lying, with a note of how to turn it (Exif, orientation 6)."""
    picture = Image.new("RGB", (80, 40), "#d9593d")
    picture.paste("#22334f", (0, 0, 40, 40))
    exif = Image.Exif()
    exif[0x0112] = 6
    picture.save(tmp_path / "p.png", exif=exif)
    assert [each.colour for each in read_photo(tmp_path / "p.png", 1, 2)] == ["#22334f", "#d9593d"]
    assert yaml_lines(read_photo(tmp_path / "p.png", 1, 2))[1] == '  - "#22334f"  # L* 21, spread 0'
