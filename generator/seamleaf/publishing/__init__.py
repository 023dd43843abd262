"""Booklets and figures to pages, figures and downloads: an ordered mapping of path to bytes.

Views turn a booklet into plain data that names every number by its place in the booklet; templates hold the
structure, the wording catalogue every sentence.
"""

from seamleaf.publishing.gallery import GALLERY_MARK, Gallery, publish_gallery, publish_home
from seamleaf.publishing.pages import booklet_files, chrome_title, page_titles, publish_fault, publish_pattern
from seamleaf.publishing.templates import TemplateError, Templates, load_templates, theme_folder

__all__ = [
    "GALLERY_MARK",
    "Gallery",
    "TemplateError",
    "Templates",
    "booklet_files",
    "chrome_title",
    "load_templates",
    "page_titles",
    "publish_fault",
    "publish_gallery",
    "publish_home",
    "publish_pattern",
    "theme_folder",
]
