"""Windows of a real browser on the demo site, and which of its pages to open."""

from __future__ import annotations

import importlib.resources
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

from effort import is_deep

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

LAZY = """() => Promise.all([...document.images].map(async (image) => {
    image.loading = "eager";
    await image.decode().catch(() => null);
    return image.naturalWidth > 0 ? null : image.getAttribute("src");
})).then((broken) => broken.filter(Boolean))"""
"""Loads what a page would load only when it is scrolled to, and returns the pictures that cannot be shown."""


AXE: Final = importlib.resources.files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
RULES: Final = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")
RUN: Final = """([tags, rules]) => axe.run(
    document, {resultTypes: ['violations'], runOnly: {type: 'tag', values: tags}, rules}
).then((found) => found.violations.map((each) => [each.id, each.nodes.map((node) => node.html.slice(0, 160))]))"""
"""Has axe-core look at a page: by the tags of rules, some of them switched off."""
HELD_ELSEWHERE: Final = {"color-contrast": {"enabled": False}, "target-size": {"enabled": False}}
"""Nine tenths of what axe-core takes: contrast.js measures in a tenth of that, and targets.js asks for larger ones."""
TARGETS: Final = (Path(__file__).parent / "browser" / "targets.js").read_text(encoding="utf-8")
"""Returns every control that is less than 44 by 44 pixels."""

PATIENCE: Final = 60_000
"""Milliseconds in which whatever is waited for must come, on the slowest machine."""

ONE: Final = "lamplight-crossing"
"""A pattern that shows every kind of page."""

KINDS: Final = (
    "index", "buy", "prepare", "cut", "piece", "layout", "finish", "print", "prints", "proof", "tester", "words",
    "class-",
)  # fmt: skip
"""Pages of a size; those of corrections and of the comparison of versions are looked at in test_access.py."""

GUIDE: Final = ("guide/first-pattern.html", "guide/index.html", "guide/keys.html", "guide/prints.html")
"""Pages with programs, links, long tables and figures."""


def pages_of(site: Path, *ends: int, of: str | None = None) -> list[str]:
    """Return the pages by their addresses: those of some sizes of each pattern, and all that belong to none.

    ``ends`` are indexes into the sizes in order of their booklets' length: 0 for the shortest, -1 for the longest.
    With ``of`` the other patterns have only their first page in it.
    """
    booklets = sorted(site.glob("*/*/booklet.json"), key=lambda path: path.stat().st_size)
    by_pattern: dict[Path, list[Path]] = {}
    for path in booklets:
        by_pattern.setdefault(path.parent.parent, []).append(path.parent)
    left_out = {size for sizes in by_pattern.values() for size in sizes if size not in {sizes[end] for end in ends}}
    left_out |= {size for pattern, sizes in by_pattern.items() if of not in (None, pattern.name) for size in sizes}
    pages = [path for path in sorted(site.rglob("*.html")) if not left_out & set(path.parents)]
    assert len(pages) > 10
    return [page.relative_to(site).as_posix() for page in pages]


def kinds_of_pages(site: Path) -> list[str]:
    """Return one page of each kind: of the guide some, of patterns those of one; in a deep run every page there is."""
    pages = pages_of(site, 0, of=ONE)
    pages += [path.relative_to(site).as_posix() for path in sorted(site.glob(f"{ONE}/*/class-*/index.html"))]
    pages = list(dict.fromkeys(pages))
    if is_deep():
        return pages
    alike = [page for page in pages if page.startswith("guide/") and page not in GUIDE]
    alike += [f"{path.parent.name}/index.html" for path in site.glob("*/index.html") if path.parent.name != ONE]
    kept = [page for page in pages if page not in alike or page in GUIDE]
    assert all(any(page.startswith(f"{ONE}/") and f"/{kind}" in page for page in kept) for kind in KINDS)
    assert set(pages) > {*GUIDE} <= set(kept)
    return kept


@contextmanager
def opened(
    browser: Browser,
    width: int = 1280,
    scheme: Literal["light", "dark"] = "light",
    home: str = "http://127.0.0.1:",
    *,
    touch: bool = False,
    keeps: bool = True,
) -> Iterator[tuple[Page, list[str]]]:
    """Open a window with nothing in its memory; what it complains of and asks of elsewhere comes into the list.

    Unless it ``keeps`` them, the sizes that it shows are not fetched whole for use without a network.
    """
    context = browser.new_context(
        viewport={"width": width, "height": 900},
        color_scheme=scheme,
        has_touch=touch,
        service_workers="allow" if keeps else "block",
    )
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    wrong: list[str] = []
    page.on("console", lambda message: wrong.append(f"{page.url}: {message.text}") if message.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(f"{page.url}: {error}"))
    page.on("response", lambda r: wrong.append(f"{page.url}: {r.status} for {r.url}") if r.status >= 400 else None)
    page.on("requestfailed", lambda request: wrong.extend(_failure(page.url, request.url, request.failure)))
    page.on(
        "request",
        lambda request: (
            None if request.url.startswith((home, "data:", "blob:")) else wrong.append(f"{page.url} asks {request.url}")
        ),
    )
    yield page, wrong
    context.close()


def _failure(page: str, address: str, reason: str | None) -> list[str]:
    """Say what could not be loaded; what leaving the page cut short is no fault of the page."""
    return [] if reason == "net::ERR_ABORTED" else [f"{page}: cannot load {address}: {reason}"]
