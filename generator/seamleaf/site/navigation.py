"""Where the generated pages stand in the site's navigation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from mkdocs.utils import nest_paths

from seamleaf.publishing import chrome_title

if TYPE_CHECKING:
    from mkdocs.structure.files import Files

Section = dict[str, list[Any]]


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

    An author who wrote none gets the own pages first and every pattern after them. In a written one, an entry that
    names a pattern's page (``<pattern>/index.md``) becomes the pattern's whole section, under the author's title if
    there is one; patterns that it does not name stay out, as with any page.
    """
    if written is not None:
        return _expanded(written, sections)
    own = [file.src_uri for file in files.documentation_pages() if file.generated_by is None]
    return [*nest_paths(own), *sections.values()]  # type: ignore[no-untyped-call]  # MkDocs leaves it bare


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
