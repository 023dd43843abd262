"""What ``seamleaf serve`` keeps from one edit to the next, so that an edit shows at once.

A pattern whose text, templates and corrections are the same is not published again; a page whose Markdown is the same
is not rendered again; a PDF is set when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Final

import jinja2

from seamleaf.publishing import Edition, TemplateError, Templates, lay_papers
from seamleaf.publishing.paper import Paper
from seamleaf.site.published import Published

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.pages import Page

_RENDERED: Final = ("content", "toc", "_title_from_render", "present_anchor_ids")
"""What MkDocs sets where it renders the Markdown of a page; links to anchors are looked at when it is rendered."""

App = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]
"""A WSGI application."""


@dataclass(slots=True)
class Showing:
    """The site as it was shown last."""

    _last: dict[str, tuple[tuple[object, ...], Published]] = field(default_factory=dict)
    """What each pattern was published from, and as what."""
    _good: dict[str, Published] = field(default_factory=dict)
    """Each pattern as it was when it last had no fault."""
    _templates: Templates | None = None
    _rendered: dict[str, list[tuple[object, dict[str, Any]]]] = field(default_factory=dict)
    """Each page as it is, and as it was before: a fault comes and goes."""
    _compiled: dict[str, bytes] = field(default_factory=dict)

    def templates(self, fresh: Templates) -> Templates:
        """Return the templates that were used last, compiled as they are, where these are the same."""
        last = self._templates
        if last is None or (last.digest, last.language) != (fresh.digest, fresh.language):
            self._templates = last = fresh
        return last

    def publish(self, pattern_id: str, given: tuple[object, ...], publish: Callable[[], Published]) -> Published:
        """Publish a pattern, unless it was published last from the same things."""
        last = self._last.get(pattern_id)
        if last is None or last[0] != given:
            last = self._last[pattern_id] = (given, publish())
        if not last[1].problems:
            self._good[pattern_id] = last[1]
        return last[1]

    def in_place(self, faulty: Published) -> Published:
        """Show the fault of a pattern on every page that it had, so that whoever reads one of them sees it there."""
        good = self._good.get(faulty.id)
        if good is None:
            return faulty
        (page,) = faulty.files.values()
        pages = {uri: page for uri in good.files if uri.endswith(".md")}
        return replace(faulty, title=good.title, sizes=good.sizes, classes=good.classes, files=pages)

    def press_when_asked(self, app: App, press: Callable[[str], bytes | None]) -> App:
        """Return the application with PDF files that are set once someone wants to see them."""

        def answer(environ: dict[str, Any], start: Callable[..., Any]) -> Iterable[bytes]:
            path = str(environ.get("PATH_INFO", "")).lstrip("/")
            try:
                content = press(path) if path.endswith(".pdf") else None
            except TemplateError as fault:
                start("500 Internal Server Error", [("Content-Type", "text/plain; charset=utf-8")])
                return [str(fault).encode("utf-8")]
            if content is None:
                return app(environ, start)
            start("200 OK", [("Content-Type", "application/pdf"), ("Content-Length", str(len(content)))])
            return [content]

        return answer

    def remember(self, page: Page, config: MkDocsConfig, files: Files) -> None:
        """Have a page rendered only where its Markdown or the pages that it may lead to are not the same as last."""
        render = page.render
        around = (frozenset(files.src_uris), str(config["markdown_extensions"]), str(config["mdx_configs"]))

        def render_once(config: MkDocsConfig, files: Files) -> None:
            given = (page.markdown, *around)
            known = self._rendered.setdefault(page.file.src_uri, [])
            done = next((done for made_from, done in known if made_from == given), None)
            if done is None:
                render(config, files)
                done = {name: getattr(page, name) for name in _RENDERED}
            for name, value in done.items():
                setattr(page, name, value)
            self._rendered[page.file.src_uri] = [(given, done), *(each for each in known if each[0] != given)][:2]

        page.render = render_once  # type: ignore[method-assign]  # MkDocs makes the pages itself

    def keep_compiled(self, environment: jinja2.Environment) -> None:
        """Have the theme's templates compiled only where their text is not the same as last."""
        environment.bytecode_cache = _Compiled(self._compiled)


def lay_one(
    path: str, published: Sequence[Published], templates: Templates, editions: Sequence[Edition], address: str
) -> Paper | None:
    """Prepare one PDF of what is shown; none where that path is no PDF of a pattern."""
    each = next((each for each in published if path in each.files), None)
    if each is None or each.gallery is None:
        return None
    size = path.split("/")[1]
    booklets = {size: each.gallery.booklets[size]}
    return lay_papers(each.files, booklets, each.gallery.figures, templates, editions, address)[path]


class _Compiled(jinja2.BytecodeCache):
    """Keeps compiled templates in memory, under the digest of their name and the one of their text."""

    def __init__(self, kept: dict[str, bytes]) -> None:
        self._kept = kept

    def load_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        content = self._kept.get(bucket.key)
        if content is not None:
            bucket.bytecode_from_string(content)

    def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        self._kept[bucket.key] = bucket.bytecode_to_string()
