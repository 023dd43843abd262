"""The interface for programs of one's own: each step takes what the step before gave, and says what is wrong."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from published import SMALL
from seamleaf import api
from seamleaf.lengths import Length


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "pond.yaml"
    path.write_text(SMALL, encoding="utf-8")
    return path


def test_a_file_goes_all_the_way_to_pages(file: Path) -> None:
    pattern = api.read(file)
    assert api.size(pattern, "mat").finished == (Length(12), Length(12))
    booklet = api.plan(pattern, "mat")
    assert (booklet.finished.w, booklet.finished.h) == (12, 12)
    figures = api.draw(booklet)
    assert {"quilt", "key", "block-ripple", "row-1"} <= figures.keys()
    files = api.publish(pattern, [booklet])
    assert files["pond/mat/booklet.json"].decode() == api.to_json(booklet)
    assert "pond/index.md" in files
    assert not any(path.startswith("pond/runner/") for path in files)


def test_a_picture_has_the_width_that_was_asked_for_and_the_same_bytes_each_time(file: Path) -> None:
    quilt = api.draw(api.plan(api.read(str(file)), "mat"))["quilt"]
    picture = api.picture(quilt, width=300)
    assert picture.startswith(b"\x89PNG")
    assert int.from_bytes(picture[16:20], "big") == 300
    assert picture == api.picture(quilt, width=300)
    for width in (0, 8001):
        with pytest.raises(ValueError, match="expected 1 to 8000"):
            api.picture(quilt, width=width)


def test_what_is_wrong_is_told_as_everywhere(file: Path) -> None:
    with pytest.raises(api.PatternError) as missing:
        api.read(file.with_name("no.yaml"))
    assert "no file of this name" in missing.value.problems[0].sentence("no.yaml")
    pattern = api.read(file)
    for step in (api.size, api.plan):
        with pytest.raises(KeyError, match="only mat, runner"):
            step(pattern, "bed")
    file.write_text(SMALL + "stated: {mat: {blocks: 9}}\n", encoding="utf-8")
    stated = api.read(file)
    api.plan(stated, "runner")
    with pytest.raises(api.PatternError, match="9 blocks"):
        api.plan(stated, "mat")


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (Length(Fraction(7, 2)), "in", "3 1/2 in"),
        (Length(Fraction(15, 2)), "cm", "7.5 cm"),
        (Fraction(9, 8), "yd", "1 1/8 yd"),
        (Fraction(12, 10), "m", "1.2 m"),
        (1, "pack", "1 pack"),
        (38, "piece", "38 pieces"),
        (Length(0, 6), "in", "about 8 1/2 in"),
    ],
)
def test_values_are_shown_as_makers_read_them(value: Length | Fraction | int, unit: str, shown: str) -> None:
    """Six times the root of 2 is 8.485, which is nearer to 8 1/2 than to 8 3/8 (derived)."""
    assert api.show(value, unit) == shown  # type: ignore[arg-type]  # a unit of the list above
