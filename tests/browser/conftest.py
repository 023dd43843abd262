"""A browser, and the demo site served on the loopback interface for it."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from serving import Unsearched, serving

QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
)  # fmt: skip
"""The browser itself asks nothing of the network."""


@pytest.fixture(scope="session")
def served(demo_site: Path) -> Iterator[str]:
    """Serve the demo site, its search left out, and return its address, with a slash at the end.

    What loads the search as well serves it itself (test_own_prints.py).
    """
    with serving(demo_site, Unsearched) as address:
        yield address


def chromium() -> str | None:
    """Return where Chromium is, or a browser of its kind.

    One without windows comes first: the others load pages of their own for each, which takes four times as long.
    """
    names = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
    return next(filter(None, map(shutil.which, names)), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start Chromium; without one the tests are skipped on a desk, and fail in CI."""
    program = chromium()
    if program is None:
        if os.environ.get("CI"):
            pytest.fail("there is no Chromium; bash .ci/setup test installs it")
        pytest.skip("there is no Chromium on this machine")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=list(QUIET), timeout=60_000)
        yield browser
        browser.close()
