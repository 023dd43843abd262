"""Pages that MkDocs has rendered before: from the same Markdown, among the same files, by the same extensions.

They are kept in memory while a site is served, and on the shelf where all that they follow from is known: the pages
that Seamleaf makes, rendered by extensions that read nothing else. A page of whose rendering MkDocs had something to
say is rendered each time, so that it is said each time.
"""

from __future__ import annotations

import contextlib
import functools
import json
import logging
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from importlib.metadata import version
from typing import TYPE_CHECKING, Any, Final

from mkdocs.structure.toc import AnchorLink, get_toc

from seamleaf.site.files.shelf import Shelf, key_for, key_of
from seamleaf.site.pages.published import MAKER

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.pages import Page

_KIND: Final = b"page"
_KNOWN: Final = frozenset(
    {"abbr", "admonition", "attr_list", "codehilite", "def_list", "extra", "fenced_code", "footnotes", "md_in_html"}
    | {"meta", "nl2br", "sane_lists", "smarty", "tables", "toc"}
)
"""Extensions by their short names that follow from the Markdown alone."""
_READING: Final = ("pymdownx.snippets", "pymdownx.b64")
"""Extensions that read other files."""
_AT_ONCE: Final = 2
"""How many states of a page are kept in memory: a fault comes and goes."""


@dataclass(slots=True)
class RenderedPages:
    """Renders a page only where it was not rendered before."""

    shelf: Shelf | None = None
    in_memory: bool = False
    _known: dict[str, list[tuple[str, dict[str, Any]]]] = field(default_factory=dict)
    _around: tuple[Files | None, bytes, bool] = (None, b"", False)
    """The files among which pages are rendered, a digest of them and of the extensions, and whether that says all."""

    def remember(self, page: Page, config: MkDocsConfig, files: Files) -> None:
        """Have a page rendered only where it must be."""
        render = functools.partial(type(page).render, page)  # not what stood in its place the last time
        around, lasting = self._among(config, files)
        shelf = self.shelf if lasting and page.file.generated_by == MAKER else None

        def render_once(config: MkDocsConfig, files: Files) -> None:
            uri = page.file.src_uri
            key = key_of(_KIND, uri.encode(), (page.markdown or "").encode("utf-8", "surrogatepass"), around)
            done = self._take(uri, key, shelf)
            if done is None:
                with _hearing() as heard:
                    render(config, files)
                done = _plain(page)
                if shelf is not None and not heard:
                    shelf.put(key_for(key.encode()), json.dumps(done, ensure_ascii=False).encode("utf-8"))
            else:
                _restore(page, done, files)
            if self.in_memory:
                others = [each for each in self._known.get(uri, ()) if each[0] != key]
                self._known[uri] = [(key, done), *others][:_AT_ONCE]

        page.render = render_once  # type: ignore[method-assign]  # MkDocs makes the pages itself

    @property
    def lasting(self) -> bool:
        """Tell whether what is rendered follows from the text of each page alone."""
        return self._around[2]

    def look_around(self) -> None:
        """Look again at the files among which pages are rendered, since some came or went."""
        self._around = (None, b"", self.lasting)

    def _take(self, uri: str, key: str, shelf: Shelf | None) -> dict[str, Any] | None:
        for made_from, done in self._known.get(uri, ()):
            if made_from == key:
                return done
        content = None if shelf is None else shelf.take(key_for(key.encode()))
        return None if content is None else json.loads(content)

    def _among(self, config: MkDocsConfig, files: Files) -> tuple[bytes, bool]:
        if self._around[0] is not files:
            names = config["markdown_extensions"]
            with contextlib.suppress(AttributeError):  # what has no name is an object of this process alone
                settings = json.dumps([names, config["mdx_configs"], dict(config.validation.links)], default=_named)
                lasting = all(isinstance(name, str) and _follows(name) for name in names)
                tools = " ".join(f"{name} {version(name)}" for name in ("mkdocs", "markdown", "pymdown-extensions"))
                uris = "\0".join(sorted(files.src_uris))
                urls = str((config.use_directory_urls, config.site_url))
                around = key_of(settings.encode(), tools.encode(), uris.encode("utf-8", "surrogatepass"), urls.encode())
                self._around = (files, around.encode(), lasting)
                return self._around[1:]
            uris = "\0".join(sorted(files.src_uris))
            self._around = (files, f"{uris}{names}{config['mdx_configs']}".encode("utf-8", "surrogatepass"), False)
        return self._around[1:]


def _named(thing: Any) -> str:
    """Return the name of a function or class that is an option of an extension."""
    return f"{thing.__module__}.{thing.__qualname__}"


def _follows(name: str) -> bool:
    """Tell whether what an extension makes follows from the Markdown alone."""
    return name in _KNOWN or (name.startswith(("markdown.extensions.", "pymdownx.")) and not name.startswith(_READING))


@contextlib.contextmanager
def _hearing() -> Iterator[list[logging.LogRecord]]:
    """Give a list of what MkDocs says until the block ends."""
    heard: list[logging.LogRecord] = []
    handler = _Ear(heard.append)
    logger = logging.getLogger("mkdocs")
    logger.addHandler(handler)
    try:
        yield heard
    finally:
        logger.removeHandler(handler)


class _Ear(logging.Handler):
    def __init__(self, hear: Callable[[logging.LogRecord], None]) -> None:
        super().__init__()
        self._hear = hear

    def emit(self, record: logging.LogRecord) -> None:
        self._hear(record)


def _plain(page: Page) -> dict[str, Any]:
    """Return what MkDocs sets where it renders the Markdown of a page."""
    links = page.links_to_anchors
    return {
        "content": page.content,
        "toc": [_plain_link(link) for link in page.toc],
        "title": page._title_from_render,
        "anchors": None if page.present_anchor_ids is None else sorted(page.present_anchor_ids),
        "links": None if links is None else {to.src_uri: anchors for to, anchors in links.items()},
    }


def _restore(page: Page, done: dict[str, Any], files: Files) -> None:
    page.content = done["content"]
    page.toc = get_toc(done["toc"])
    page._title_from_render = done["title"]
    page.present_anchor_ids = None if done["anchors"] is None else set(done["anchors"])
    if done["links"] is not None:
        found = {files.get_file_from_path(uri): anchors for uri, anchors in done["links"].items()}
        page.links_to_anchors = {file: anchors for file, anchors in found.items() if file is not None}


def _plain_link(link: AnchorLink) -> dict[str, Any]:
    """Return an entry of a table of contents as the extension made it."""
    children = [_plain_link(inner) for inner in link.children]
    return {"level": link.level, "id": link.id, "name": link.title, "children": children}
