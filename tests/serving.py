"""A folder served on the loopback interface, for as long as a test looks at it."""

from __future__ import annotations

import functools
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any


class Silent(http.server.SimpleHTTPRequestHandler):
    """Serves a folder and logs nothing."""

    def log_message(self, *_: Any) -> None:
        """Keep the test's output clean."""


@contextmanager
def serving(folder: Path, handler: type[Silent] = Silent) -> Iterator[str]:
    """Serve a folder and give its address, with a slash at the end."""
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(handler, directory=str(folder))) as server:
        server.daemon_threads = True
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()
        thread.join(timeout=10)
