"""A browser, and the demo site served on the loopback interface for it."""

from __future__ import annotations

import functools
import http.server
import os
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, sync_playwright

QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
)  # fmt: skip
"""The browser itself asks nothing of the network."""


class _Silent(http.server.SimpleHTTPRequestHandler):
    """Serves a folder and logs nothing."""

    def log_message(self, *_: Any) -> None:
        """Keep the test's output clean."""


@pytest.fixture(scope="session")
def served(demo_site: Path) -> Iterator[str]:
    """Serve the demo site and return its address, with a slash at the end."""
    handler = functools.partial(_Silent, directory=str(demo_site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        server.daemon_threads = True
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()
        thread.join(timeout=10)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start Chromium; without one the tests are skipped on a desk, and fail in CI."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if chromium is None:
        if os.environ.get("CI"):
            pytest.fail("there is no Chromium; bash .ci/setup test installs it")
        pytest.skip("there is no Chromium on this machine")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=list(QUIET), timeout=60_000)
        yield browser
        browser.close()
