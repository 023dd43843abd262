"""The pages of the demo, made once from its accepted booklets."""

from __future__ import annotations

import pytest

from published import DEMO, published


@pytest.fixture(scope="session")
def demo() -> dict[str, bytes]:
    """Return the published files of the demo pattern, before MkDocs makes pages of them."""
    return published(DEMO.read_text(encoding="utf-8"), DEMO.stem)
