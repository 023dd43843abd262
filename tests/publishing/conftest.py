"""The pages of the demo, from the booklets of the demo site that the whole run shares."""

from __future__ import annotations

from pathlib import Path

import pytest

from published import DEMO
from seamleaf.booklet import from_json
from seamleaf.drawing import draw_figures
from seamleaf.publishing import load_templates, publish_pattern
from seamleaf.site.work.pipeline import read_checked


@pytest.fixture(scope="session")
def demo(demo_site: Path) -> dict[str, bytes]:
    """Return the published files of the demo pattern, before MkDocs makes pages of them."""
    pattern = read_checked(DEMO.read_bytes(), DEMO.stem)
    booklets = {
        size: from_json((demo_site / DEMO.stem / size / "booklet.json").read_text(encoding="utf-8"))
        for size in pattern.sizes
    }
    figures = {size: draw_figures(booklet) for size, booklet in booklets.items()}
    return publish_pattern(pattern, booklets, figures, load_templates(), proved=True)
