"""A folder served on the loopback interface, for as long as a test looks at it."""

from __future__ import annotations

import functools
import http.server
import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any


class Silent(http.server.SimpleHTTPRequestHandler):
    """Serves a folder and logs nothing."""

    def log_message(self, *_: Any) -> None:
        """Keep the test's output clean."""


class Unsearched(Silent):
    """Serves a site whose search finds nothing: to make it ready takes a browser as long as to show a page."""

    def do_GET(self) -> None:
        """Answer with the file, and in place of the index of the search with one of no pages."""
        if not self.path.endswith("/search_index.json"):
            super().do_GET()
            return
        content = _index_of_nothing(self.translate_path(self.path))
        self.send_response(200)
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)


@functools.cache
def _index_of_nothing(path: str) -> bytes:
    index = json.loads(Path(path).read_bytes())
    assert index["docs"]
    return json.dumps({**index, "docs": []}).encode()


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
