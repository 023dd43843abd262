"""What the author's own pages ask for by marks: examples with their figures, the reference, and galleries."""

from __future__ import annotations

import logging
import os
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Final

from mkdocs.exceptions import PluginError

from seamleaf.publishing import ENGLISH, TemplateError, Templates, load_templates
from seamleaf.site.building.marks import marks_of, put_in_marks
from seamleaf.site.building.options import SeamleafConfig
from seamleaf.site.files.sources import printable
from seamleaf.site.pages.cards import Cards
from seamleaf.site.pages.examples import ExamplePages

if TYPE_CHECKING:
    from mkdocs.structure.files import File

    from seamleaf.site.pages.published import Published
    from seamleaf.site.work.workshop import Workshop

_GALLERY: Final = "gallery"
"""The mark of a page that shows the patterns of the site."""

log = logging.getLogger("mkdocs.plugins.seamleaf")


class AuthorPages:
    """The author's pages of one site; while it is served, faults are told and passed over."""

    def __init__(self) -> None:
        self.serving = False
        self.cards = Cards()
        self.galleries: set[str] = set()
        """The pages that hold a gallery."""
        self._examples = ExamplePages()
        self._templates: Templates | None = None
        self._language = ENGLISH

    @property
    def templates(self) -> Templates:
        """The templates of the site."""
        assert self._templates is not None  # noqa: S101 -- the configuration comes first
        return self._templates

    def speak(self, templates: Templates, language: str) -> None:
        """Render by these templates from now on."""
        self._templates, self._language = templates, language

    def rendered(self, render: Callable[[Templates], str]) -> str:
        """Render with the site's templates; if they have a fault, serving goes on with the packaged ones.

        Raises:
            PluginError: in a build.

        """
        try:
            return render(self.templates)
        except TemplateError as fault:
            if not self.serving:
                raise PluginError(str(fault)) from fault
            log.info("%s", fault)
            return render(load_templates(language=self._language))

    def draw_examples(self, pages: Iterable[File], workshop: Callable[[], Workshop]) -> dict[str, bytes]:
        """Draw the examples on pages; return the figures by path.

        Raises:
            PluginError: in a build, with every problem of every example.

        """
        figures: dict[str, bytes] = {}
        problems: list[str] = []
        for file in pages:
            drawn, found = self._examples_of(file, workshop)
            figures |= drawn
            problems += found
        if problems and not self.serving:
            raise PluginError("\n".join(["the examples cannot be shown:", *problems]))
        return figures

    def _examples_of(self, file: File, workshop: Callable[[], Workshop]) -> tuple[dict[str, bytes], list[str]]:
        shown = printable(os.path.relpath(file.abs_src_path or file.src_uri))
        return self._examples.read(file.src_uri, shown, file.content_string, self.templates, workshop)

    def put_in(self, markdown: str, file: File, published: Sequence[Published]) -> str:
        """Put examples, the reference and the patterns of the site where a page asks for them.

        Raises:
            PluginError: in a build, a template with a fault.

        """
        home = "../" * file.dest_uri.count("/")
        uri = file.src_uri
        markdown = self.rendered(lambda templates: self._examples.put_in(uri, markdown, home, templates))
        if marks_of(markdown) - {_GALLERY}:
            from seamleaf.site.building.reference import with_reference  # late: few pages ask for it

            markdown = self.rendered(lambda templates: with_reference(markdown, templates, SeamleafConfig))
        if _GALLERY not in marks_of(markdown):
            return markdown
        self.galleries.add(uri)
        gallery = self.cards.gallery(published, home, self.rendered)
        return put_in_marks(markdown, lambda name: gallery if name == _GALLERY else None)
