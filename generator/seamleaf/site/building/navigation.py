"""Where the generated pages stand in the site's navigation."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Iterable, Mapping
from typing import TYPE_CHECKING, Any, Final

from mkdocs.structure.nav import Navigation
from mkdocs.structure.nav import Section as NavigationSection
from mkdocs.structure.pages import Page
from mkdocs.utils import nest_paths

from seamleaf.publishing import chrome_title

if TYPE_CHECKING:
    from mkdocs.structure import StructureItem
    from mkdocs.structure.files import Files

Section = dict[str, list[Any]]

FRONT: Final = "index.md"
"""The page that a site begins with; one is made where the author has none."""
MOST_BESIDE: Final = 24
"""Patterns that are all named beside each page: as many as a screen shows, a choice."""
_LINK: Final = re.compile(r"\]\(([^()\s#]+\.md)")


def pattern_section(
    title: str, pages: Iterable[str], size_titles: Mapping[str, str], page_titles: Mapping[str, str]
) -> Section:
    """Return the navigation of one pattern: its page, then one section a size, in the order of publishing.

    ``page_titles`` are those of a size's pages, by folder below the size's.
    """
    entries: list[Any] = []
    sizes: dict[str, list[Any]] = {}
    for uri in pages:
        parts = uri.split("/")
        if uri.endswith(".md") and (len(parts) == 2 or parts[1] not in size_titles):
            entries.append(uri)
        elif uri.endswith(".md"):
            sizes.setdefault(parts[1], []).append({page_titles["/".join(parts[2:-1])]: uri})
    entries += [{chrome_title(size_titles[size]): uris} for size, uris in sizes.items()]
    return {chrome_title(title): entries}


def navigation(written: Any, files: Files, sections: Mapping[str, Section]) -> Any:
    """Return the navigation of the site.

    An author who wrote none gets the own pages first and every pattern after them; the pages of a folder stand in the
    order in which its ``index.md`` leads to them, the others after those.

    In a written one, an entry that names a pattern's page (``<pattern>/index.md``) becomes the pattern's whole section,
    under the author's title if there is one; patterns that it does not name stay out, as with any page.
    """
    if written is not None:
        return _expanded(written, sections)
    own = {file.src_uri: file for file in files.documentation_pages() if file.generated_by is None}
    order: dict[str, int] = {}
    for uri, file in own.items():
        folder = posixpath.dirname(uri)
        if posixpath.basename(uri) == "index.md":
            led = [posixpath.normpath(posixpath.join(folder, each)) for each in _LINK.findall(file.content_string)]
            order |= {each: place for place, each in enumerate(dict.fromkeys([uri, *led])) if _is_in(each, folder)}
    front = [] if own.keys() & {"index.md", "README.md"} else [FRONT] if files.get_file_from_path(FRONT) else []
    pages = sorted(own, key=lambda uri: (posixpath.dirname(uri), order.get(uri, len(own))))
    return [*front, *nest_paths(pages), *sections.values()]  # type: ignore[no-untyped-call]  # MkDocs leaves it bare


def beside(nav: Navigation, pattern_id: str, patterns: Collection[str]) -> Navigation:
    """Return what stands beside the pages of a pattern: of many patterns, its own alone; the front page has them all.

    Whoever sews from one pattern looks for its pages, and every page would name every pattern: a catalogue would take
    time and room by the square of their number.
    """
    if len(patterns) <= MOST_BESIDE:
        return nav
    others = {f"{each}/{FRONT}" for each in patterns if each != pattern_id}
    return Navigation([item for item in nav.items if _first_page(item) not in others], nav.pages)


def _first_page(item: StructureItem) -> str:
    """Return the source of the page that a section at the top begins with."""
    first = item.children[0] if isinstance(item, NavigationSection) and item.children else None
    return first.file.src_uri if isinstance(first, Page) else ""


def _is_in(uri: str, folder: str) -> bool:
    return posixpath.dirname(uri) == folder


def _expanded(entry: Any, sections: Mapping[str, Section]) -> Any:
    if isinstance(entry, list):
        return [_expanded(item, sections) for item in entry]
    if isinstance(entry, dict):
        return {title: _expanded_under(item, sections) for title, item in entry.items()}
    section = _section_of(entry, sections)
    return entry if section is None else section


def _expanded_under(entry: Any, sections: Mapping[str, Section]) -> Any:
    """Expand what stands under a title: the section's own title gives way to the author's."""
    section = _section_of(entry, sections)
    return _expanded(entry, sections) if section is None else next(iter(section.values()))


def _section_of(entry: Any, sections: Mapping[str, Section]) -> Section | None:
    if isinstance(entry, str) and entry.endswith("/index.md"):
        return sections.get(entry.removesuffix("/index.md"))
    return None
