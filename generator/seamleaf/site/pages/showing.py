"""What ``seamleaf serve`` keeps from one edit to the next, so that an edit shows at once.

A pattern whose text, templates and corrections are the same is not published again; a PDF is set when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

import jinja2

from seamleaf.publishing import TemplateError, Templates

if TYPE_CHECKING:
    from seamleaf.publishing import Edition
    from seamleaf.publishing.paper import Paper
    from seamleaf.site.pages.published import Published

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
    _compiled: dict[str, bytes] = field(default_factory=dict)

    def templates(self, fresh: Templates) -> Templates:
        """Return the templates that were used last, compiled as they are, where these are the same."""
        last = self._templates
        if last is None or (last.digest, last.language) != (fresh.digest, fresh.language):
            self._templates = last = fresh
        return last

    def last(self, pattern_id: str, given: tuple[object, ...]) -> Published | None:
        """Return a pattern as it was published last, if that was from the same things."""
        made_from, published = self._last.get(pattern_id, (None, None))
        return published if made_from == given else None

    def good(self, pattern_id: str) -> Published | None:
        """Return a pattern as it was when it last had no fault."""
        return self._good.get(pattern_id)

    def shows(self, published: Published, given: tuple[object, ...]) -> None:
        """Note as what a pattern is shown, and what it was published from."""
        self._last[published.id] = (given, published)
        if not published.problems:
            self._good[published.id] = published

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
    from seamleaf.publishing import lay_papers  # late: nobody has asked for a PDF yet

    size, gallery = path.split("/")[1], each.gallery()
    booklets = {size: gallery.booklets[size]}
    return lay_papers(each.pages, booklets, gallery.figures, templates, editions, address)[path]


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
