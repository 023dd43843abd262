"""Booklets to prove: the demo in two sizes, and patterns with what the demo has not."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from accepted import accepted_text
from patterns_for_tests import DEMO, file_of, grid, half_square
from proved import findings_in
from published import SASHED, WAYS
from seamleaf.booklet import Booklet, plan_booklets, to_json
from seamleaf.proof import Finding
from seamleaf.reading import read_pattern

SPUN = file_of(
    {
        "wheel": {
            "column": [
                {"row": [half_square("dark", "light", "3"), half_square("dark", "light", "3", 90)]},
                {"row": [half_square("dark", "light", "3", 270), half_square("dark", "light", "3", 180)]},
            ]
        }
    },
    turns="fixed",
    size="3 x 3",
)
"""A pinwheel, whose neighbours nest only when its last seam is spun."""

TAUGHT = file_of(
    {
        "half": {"row": ["dark 4 x 4", half_square("red", "light", "4")]},
        "square": {"column": [{"use": "half"}, {"use": "half", "turn": "180"}]},
    },
    tile=[["square"]],
    on_point="1/2",
    classes={"winter": {"title": "Winter", "size": "one", "students": "2", "sessions": ["3 h"]}},
)
"""A pattern with a class."""

NINE = file_of({"nine": grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")}, turns="fixed", size="3 x 3")
"""A nine patch, which nests when A and B blocks take turns."""

PIECED = file_of(
    {"two": {"row": ["print 9 x 9", "ground 9 x 9"]}},
    fabrics={"print": {"source": "squares 10", "pack": "42"}, "ground": {"source": "yardage"}},
    size="2 x 6",
    backing={"insert": "true"},
)
"""A pattern whose back has a strip of spare squares."""

STRIPPY = file_of(
    {"four": {"grid": ["DL", "LD"], "key": {"D": "dark 3 x 3", "L": "light 3 x 3"}}},
    set="strippy",
    sashing={"fabric": "red", "width": "4", "outer": "true"},
    size="3 x 4",
)
"""Columns of blocks with strips between them."""

ROUND = file_of(
    {
        "four": {"grid": ["DL", "LD"], "key": {"D": "dark 3 x 3", "L": "light 3 x 3"}},
        "flight": {"geese": {"goose": "dark", "sky": "light"}, "finished": "2 x 4", "point": "right"},
    },
    on_point="1/2",
    borders=[{"fabric": "red", "pieced": "flight", "corner": "cornerstone", "cornerstone": "dark"}],
    size="2 x 3",
)
"""A pieced border with spacers and cornerstones."""

HALVED = file_of({"plain": {"row": ["dark 8 x 16", "light 8 x 16"]}}, size="4 x 5")
"""A quilt so large that it is sewn in halves."""

FLOATING = file_of({"plain": "dark 6 x 6"}, size="3 x 3", on_point="1", float="1")
"""A quilt on point whose blocks float."""

LONG = file_of({"plain": "dark 6 x 6"}, size="2 x 3", on_point="1", sashing={"fabric": "red", "width": "1"})
"""A quilt on point whose rows of sashes are one sash each."""


def _planned(text: bytes | str, pattern_id: str) -> dict[str, Booklet]:
    pattern = read_pattern(text if isinstance(text, bytes) else text.encode(), pattern_id).pattern
    assert pattern is not None
    return plan_booklets(pattern, thorough=False)


@pytest.fixture(scope="session")
def published() -> dict[str, bytes]:
    """Return the text of booklets by ``pattern/size``, as it is published."""
    planned = (
        _planned(WAYS, "ways"),
        _planned(SASHED, "sashed"),
        _planned(SPUN, "spun"),
        _planned(TAUGHT, "taught"),
        _planned(NINE, "nine"),
        _planned(PIECED, "pieced"),
        _planned(STRIPPY, "strippy"),
        _planned(ROUND, "round"),
        _planned(HALVED, "halved"),
        _planned(FLOATING, "floating"),
        _planned(LONG, "long"),
    )
    demo = {f"{DEMO.stem}/{size}": accepted_text(DEMO.stem, size).encode() for size in ("crib", "throw")}
    return demo | {
        f"{booklet.pattern.id}/{size}": to_json(booklet).encode()
        for sizes in planned
        for size, booklet in sizes.items()
    }


@pytest.fixture
def booklet(published: dict[str, bytes]) -> Callable[[str], Any]:
    """Return a fresh copy of a published booklet as plain JSON values, to be spoilt."""
    return lambda name: json.loads(published[name])


@pytest.fixture
def folder(tmp_path: Path) -> Callable[[dict[str, Any]], Path]:
    """Return a function that publishes JSON values, by ``pattern/size``, in a folder."""

    def publish(values: dict[str, Any]) -> Path:
        for name, value in values.items():
            path = tmp_path / name / "booklet.json"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(value if isinstance(value, bytes) else json.dumps(value).encode())
        return tmp_path

    return publish


@pytest.fixture(scope="session")
def findings_of() -> Callable[[bytes], list[Finding]]:
    """Return a proof of one booklet without a file."""
    return findings_in
