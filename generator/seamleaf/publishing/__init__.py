"""Booklets and figures to pages, figures and downloads: an ordered mapping of path to bytes.

Views turn a booklet into plain data that names every number by its place in the booklet; templates hold the
structure, the wording catalogue every sentence.
"""

from seamleaf.publishing.data import booklet_files, booklet_paths
from seamleaf.publishing.examples import (
    Example,
    completed,
    examples_of,
    figure_path,
    publish_example,
    shown_figures,
    with_examples,
)
from seamleaf.publishing.gallery import GALLERY_MARK, Gallery, publish_card, publish_gallery, publish_home
from seamleaf.publishing.overriding import CONTEXT, notes_on_own, replaceable_templates
from seamleaf.publishing.pages import (
    chrome_title,
    lay_papers,
    page_titles,
    paper_paths,
    publish_fault,
    publish_overview,
    publish_pattern,
    publish_size,
    publish_versions,
)
from seamleaf.publishing.paper import EDITIONS, Edition
from seamleaf.publishing.templates import ENGLISH, TemplateError, Templates, languages, load_templates, theme_folder
from seamleaf.publishing.versions_view import note_view, publish_note

__all__ = [
    "CONTEXT",
    "EDITIONS",
    "ENGLISH",
    "GALLERY_MARK",
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
