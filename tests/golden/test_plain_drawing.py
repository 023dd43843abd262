"""Every figure as a plain converter draws it: one that knows little of SVG, as printers' and shops' programs do."""

from __future__ import annotations

import io
from pathlib import Path

import cairosvg
import pytest
import yaml
from PIL import Image

PATTERNS = Path(__file__).parent.parent.parent / "patterns"


def smallest_and_largest() -> list[tuple[str, str]]:
    """Return the first and the last size of every demo pattern."""
    ends = []
    for file in sorted(PATTERNS.glob("*.yaml")):
        sizes = list(yaml.safe_load(file.read_text(encoding="utf-8"))["sizes"])
        ends += [(file.stem, size) for size in dict.fromkeys((sizes[0], sizes[-1]))]
    return ends


@pytest.mark.parametrize(("pattern", "size"), smallest_and_largest())
def test_every_figure_is_drawn_whole(demo_site: Path, pattern: str, size: str) -> None:
    """Something is drawn in colour or grey, and nothing of it touches the edge, where it would be cut off."""
    figures = sorted((demo_site / pattern / size / "figures").glob("*.svg"))
    assert len(figures) > 10
    faults = []
    for figure in figures:
        png = cairosvg.svg2png(bytestring=figure.read_bytes(), background_color="white", scale=0.5)
        with Image.open(io.BytesIO(png)) as opened:
            picture = opened.convert("L")
        inner = picture.point(lambda grey: 255 if grey < 250 else 0).getbbox()
        width, height = picture.size
        if inner is None:
            faults.append(f"{figure.name} is blank")
        elif inner[0] < 1 or inner[1] < 1 or inner[2] > width - 1 or inner[3] > height - 1:
            faults.append(f"{figure.name} is cut off at {inner} of {width} x {height}")
        elif (inner[2] - inner[0]) < width / 2 or (inner[3] - inner[1]) < height / 3:
            faults.append(f"{figure.name} fills only {inner} of {width} x {height}")
    assert faults == []
