"""The site that MkDocs built last, as it is served: its files are replaced, a page is rendered when it is asked for.

MkDocs renders every page again at every change. Here the pages that a change reaches become stale, and the one that a
reader looks at is read and rendered then, by MkDocs' own steps and with the events of all plugins.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mkdocs.commands.build import _build_page, _populate_page
from mkdocs.structure.files import File, InclusionLevel, set_exclusions
from mkdocs.structure.nav import get_navigation
from mkdocs.utils import is_markdown_file

from seamleaf.site.pages.published import MAKER

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.nav import Navigation

_Contents = Mapping[str, bytes | Path]


class LiveSite:
    """What one whole build left. Whoever calls sees to it that nobody else does meanwhile."""

    def __init__(self, config: MkDocsConfig, files: Files, nav: Navigation, env: Environment) -> None:
        self.config, self.files, self._nav, self._env = config, files, nav, env
        self._pages = self._all_pages()
        self._unread: set[str] = set()
        """Pages whose text is new, by path of the source."""
        self._stale: dict[str, File] = {}
        """Pages that are not as they would be built now, by path below the site."""

    def replace(self, now: _Contents, before: _Contents, *, pages_only: bool = False) -> bool:
        """Put files of ours in the place of others, and tell whether pages came or went.

        Args:
            now: what there is, by path below the site; a file that nobody has set yet is empty.
            before: what there was.
            pages_only: whether other files stay, though they are not among what there is.

        """
        moved = False
        for uri in [each for each in before if each not in now and not (pages_only and not is_markdown_file(each))]:
            file = self.files.get_file_from_path(uri)
            if file is not None and file.generated_by == MAKER:
                self.files.remove(file)
                self._stale.pop(file.dest_uri, None)
                self._unread.discard(uri)
                Path(file.abs_dest_path).unlink(missing_ok=True)
                moved |= file.is_documentation_page()
        for uri, content in now.items():
            if before.get(uri) == content:
                continue
            file = self.files.get_file_from_path(uri)
            if file is None:
                file = self._add(uri)
                moved |= file.is_documentation_page()
            elif file.generated_by != MAKER:  # the author's own stands before ours
                continue
            if not file.is_documentation_page():
                _put(Path(file.abs_dest_path), content)
            elif file.content_bytes != content:
                file.content_bytes = content if isinstance(content, bytes) else content.read_bytes()
                self.read_again(uri)
        return moved

    def read_again(self, uri: str) -> None:
        """Have a page read and rendered anew once it is asked for."""
        file = self.files.get_file_from_path(uri)
        if file is not None:
            self._unread.add(uri)
            self._stale[file.dest_uri] = file

    def read_now(self, uri: str) -> None:
        """Read a page anew, so that others show its title; it is rendered once it is asked for."""
        self.read_again(uri)
        file = self.files.get_file_from_path(uri)
        if file is not None:
            self._read(file)

    def entitle(self, uri: str, title: str) -> None:
        """Give a page the title that it will have when it is read again."""
        file = self.files.get_file_from_path(uri)
        if file is not None and file.page is not None:
            file.page.meta = {**file.page.meta, "title": title}

    def navigate(self, nav: Any) -> None:
        """Lay the navigation anew; every page shows it."""
        self.config.nav = nav
        self._pages = self._all_pages()
        self._nav = self.config.plugins.on_nav(
            get_navigation(self.files, self.config), config=self.config, files=self.files
        )
        self._stale |= {file.dest_uri: file for file in self._pages}
        for file in self._pages:
            if file.page is not None and file.page.title is None:  # until it is read
                self._read(file)

    def uri_at(self, path: str) -> str:
        """Return the source of the page that is asked for, or nothing where that is no page that is stale."""
        file = self._at(path)
        return "" if file is None else file.src_uri

    def render(self, path: str) -> None:
        """Render the page that is asked for, if it is stale."""
        file = self._at(path)
        if file is None or file.page is None:
            return
        del self._stale[file.dest_uri]
        if file.src_uri in self._unread:
            self._read(file)
        excluded = file.inclusion is InclusionLevel.DRAFT or file.inclusion is InclusionLevel.EXCLUDED
        _build_page(file.page, self.config, self._pages, self._nav, self._env, excluded=excluded)

    def _at(self, path: str) -> File | None:
        places = [f"{path}index.html"] if path.endswith("/") or not path else [path, f"{path}/index.html"]
        return next((self._stale[place] for place in places if place in self._stale), None)

    def _read(self, file: File) -> None:
        assert file.page is not None  # noqa: S101 -- whoever calls has looked
        self._unread.discard(file.src_uri)
        _populate_page(file.page, self.config, self.files)

    def _add(self, uri: str) -> File:
        file = File.generated(self.config, uri, content=b"")
        file.generated_by = MAKER
        set_exclusions([file], self.config)
        self.files.append(file)
        return file

    def _all_pages(self) -> list[File]:
        return list(self.files.documentation_pages(inclusion=InclusionLevel.is_in_serve))


def _put(path: Path, content: bytes | Path) -> None:
    data = content if isinstance(content, bytes) else content.read_bytes()
    if not path.exists() or (data and path.read_bytes() != data):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
