"""Every booklet of the demo site, and the figures of two patterns, byte for byte as they were accepted.

``python -m pytest tests/golden --accept`` takes the present output as right; the difference is then reviewed with the
rest of the change. The folder is the gallery of the project too: open any SVG of it.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

HERE = Path(__file__).parent
PATTERNS = HERE.parent.parent / "patterns"


def pattern_sizes() -> list[tuple[str, str]]:
    """Return every size of every demo pattern, in the order of the files."""
    files = sorted(PATTERNS.glob("*.yaml"))
    return [(file.stem, size) for file in files for size in yaml.safe_load(file.read_text(encoding="utf-8"))["sizes"]]


SIZES = pattern_sizes()
DRAWN = ("kite-weather", "lamplight-crossing")
"""Patterns whose figures are kept: one in cm and straight with sashing, one in inches, on point and from a bundle."""


def with_figures(pattern: str, size: str) -> bool:
    """Whether the figures of this size are kept: those of the first."""
    return pattern in DRAWN and next(each for each in SIZES if each[0] == pattern) == (pattern, size)


@pytest.mark.parametrize(("pattern", "size"), SIZES)
def test_the_published_files_are_the_accepted_ones(
    demo_site: Path, golden: Callable[[str, dict[str, bytes]], None], pattern: str, size: str
) -> None:
    published = demo_site / pattern / size
    kept = [published / "booklet.json"]
    if with_figures(pattern, size):
        kept += sorted((published / "figures").glob("*.svg"))
        assert len(kept) > 10
    golden(f"{pattern}/{size}", {path.relative_to(published).as_posix(): path.read_bytes() for path in kept})


@pytest.mark.parametrize(("pattern", "size"), SIZES)
def test_no_shorter_plan_of_any_fabric_is_left_to_look_for(demo_site: Path, pattern: str, size: str) -> None:
    booklet = json.loads((demo_site / pattern / size / "booklet.json").read_bytes())

    assert [fabric["id"] for fabric in booklet["fabrics"] if fabric["need"] != fabric["bound"]] == []


def test_nothing_is_kept_of_a_size_that_is_gone(request: pytest.FixtureRequest) -> None:
    kept = {path.relative_to(HERE).parts[:2] for path in HERE.rglob("*.json")}
    gone = kept - set(SIZES)
    if request.config.getoption("--accept"):
        for pattern, size in gone:
            shutil.rmtree(HERE / pattern / size)
    else:
        assert not gone


def test_the_gallery_stays_small_enough_for_a_review() -> None:
    assert sum(path.stat().st_size for path in HERE.rglob("*") if path.is_file()) < 3_750_000
