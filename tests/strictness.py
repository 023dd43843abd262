"""A site served with a strict Content-Security-Policy.

The policy allows scripts and pictures of the site alone and no inline script but those of the theme, each by its hash.
Inline styles are allowed: the theme sets some, and the swatches of fabrics have their colour in one.
"""

from __future__ import annotations

import base64
import hashlib
from html.parser import HTMLParser
from pathlib import Path

from serving import Silent


class Inline(HTMLParser):
    """Collects the scripts that stand in a page."""

    def __init__(self) -> None:
        super().__init__()
        self.scripts: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a script."""
        names = dict(attrs)
        self._inside = tag == "script" and "src" not in names and "json" not in (names.get("type") or "")
        self.scripts += [""] if self._inside else []

    def handle_data(self, data: str) -> None:
        """Take what stands in it."""
        if self._inside:
            self.scripts[-1] += data

    def handle_endtag(self, tag: str) -> None:  # noqa: ARG002 -- the parser passes it
        """End it."""
        self._inside = False


def policy(page: bytes) -> str:
    """Return the policy for a page, which allows the inline scripts that it has."""
    reader = Inline()
    reader.feed(page.decode())
    digests = (base64.b64encode(hashlib.sha256(script.encode()).digest()).decode() for script in reader.scripts)
    scripts = " ".join(["'self'", *(f"'sha256-{digest}'" for digest in digests)])
    return (
        f"default-src 'none'; script-src {scripts}; style-src 'self' 'unsafe-inline'; img-src 'self' data:;"
        " font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none';"
        " form-action 'none'; frame-ancestors 'none'"
    )


class Strict(Silent):
    """Serves a folder with the policy."""

    def end_headers(self) -> None:
        """Add the policy of the page."""
        path = Path(self.translate_path(self.path))
        page = path if path.is_file() else path / "index.html"
        self.send_header("Content-Security-Policy", policy(page.read_bytes() if page.suffix == ".html" else b""))
        super().end_headers()
