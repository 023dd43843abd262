"""Booklets and figures to pages, figures and downloads: an ordered mapping of path to bytes.

Views turn a booklet into plain data that names every number by its place in the booklet; templates hold the
structure, the wording catalogue every sentence.

Each name loads its own module when it is asked for: a build with nothing new asks for few of them.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from seamleaf.publishing.data import booklet_files, booklet_paths
    from seamleaf.publishing.editions import EDITIONS, Edition
    from seamleaf.publishing.examples import (
        Example,
        completed,
        examples_of,
        figure_path,
        publish_example,
        shown_figures,
        with_examples,
    )
    from seamleaf.publishing.gallery import Gallery, publish_card, publish_gallery, publish_home
    from seamleaf.publishing.overriding import CONTEXT, notes_on_own, replaceable_templates
    from seamleaf.publishing.pages import (
        lay_papers,
        paper_paths,
        publish_fault,
        publish_overview,
        publish_pattern,
        publish_size,
        publish_versions,
    )
    from seamleaf.publishing.templates import ENGLISH, TemplateError, Templates, languages, load_templates, theme_folder
    from seamleaf.publishing.titles import chrome_title, page_titles
    from seamleaf.publishing.versions_view import note_view, publish_note

__all__ = [
    "CONTEXT",
    "EDITIONS",
    "ENGLISH",
    "Edition",
    "Example",
    "Gallery",
    "TemplateError",
    "Templates",
    "booklet_files",
    "booklet_paths",
    "chrome_title",
    "completed",
    "examples_of",
    "figure_path",
    "languages",
    "lay_papers",
    "load_templates",
    "note_view",
    "notes_on_own",
    "page_titles",
    "paper_paths",
    "publish_card",
    "publish_example",
    "publish_fault",
    "publish_gallery",
    "publish_home",
    "publish_note",
    "publish_overview",
    "publish_pattern",
    "publish_size",
    "publish_versions",
    "replaceable_templates",
    "shown_figures",
    "theme_folder",
    "with_examples",
]

_WHERE: Final = {
    "data": "booklet_files booklet_paths",
    "examples": "Example completed examples_of figure_path publish_example shown_figures with_examples",
    "gallery": "Gallery publish_card publish_gallery publish_home",
    "overriding": "CONTEXT notes_on_own replaceable_templates",
    "pages": "lay_papers paper_paths publish_fault publish_overview publish_pattern publish_size publish_versions",
    "editions": "EDITIONS Edition",
    "templates": "ENGLISH TemplateError Templates languages load_templates theme_folder",
    "titles": "chrome_title page_titles",
    "versions_view": "note_view publish_note",
}
"""Modules, with the names that they give."""


def __getattr__(name: str) -> Any:
    """Load the module of a name."""
    for module, names in _WHERE.items():
        if name in names.split():
            return getattr(import_module(f"{__name__}.{module}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
