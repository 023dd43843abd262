"""From the texts of patterns to what a build shows of each: pages, figures, data and PDF files, or what is wrong."""

from __future__ import annotations

import logging
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Final

from seamleaf.publishing import (
    Edition,
    Gallery,
    TemplateError,
    Templates,
    lay_papers,
    load_templates,
    paper_paths,
    publish_fault,
    publish_overview,
    publish_size,
    publish_versions,
)
from seamleaf.reading.problems import PatternError
from seamleaf.site.files.sources import printable, problem_lines, read_text
from seamleaf.site.pages.history import History
from seamleaf.site.pages.keeping import Keeper
from seamleaf.site.pages.pictures import with_cover
from seamleaf.site.pages.published import Published
from seamleaf.site.pages.showing import Showing
from seamleaf.site.work.workshop import Finished, Workshop

AT_ONCE: Final = 16
"""Patterns of a large catalogue that are worked out before the next are begun, so that memory holds no more of them."""

log = logging.getLogger("mkdocs.plugins.seamleaf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Publisher:
    """Publishes patterns with the options of one build."""

    workshop: Workshop
    templates: Templates
    history: History
    editions: Sequence[Edition]
    address: str
    """Where the site will be; empty when nobody says."""
    proved: bool
    covers: bool
    showing: Showing | None = None
    """What is shown already, while a site is served: a fault of one pattern then leaves the others standing."""
    keeper: Keeper | None = None

    def publish_all(self, paths: Sequence[Path]) -> list[Published]:
        """Take every pattern to its files; whatever goes wrong becomes lines and a page that shows them.

        Raises:
            Exception: in a build, a fault of the program itself.

        """
        texts = {path: read_text(path) for path in paths}
        kept = {path: self._kept(path, text) for path, text in texts.items()}
        todo = {path: text for path, text in texts.items() if kept[path] is None}
        made: dict[Path, Published] = {}
        if self.showing is not None or self.keeper is None or len(todo) <= AT_ONCE:
            made = self._publish_some(todo)
        else:
            left = list(todo)
            for start in range(0, len(left), AT_ONCE):
                some = {path: todo[path] for path in left[start : start + AT_ONCE]}
                made |= {path: self._let_go(path, todo[path], each) for path, each in self._publish_some(some).items()}
        published = [kept[path] or made[path] for path in paths]
        if self.showing is not None:
            for path, each in zip(paths, published, strict=True):
                self.showing.shows(each, self.given(path, texts[path]))
        return published

    def _publish_some(self, todo: Mapping[Path, bytes | PatternError]) -> dict[Path, Published]:
        """Take patterns to their files, and keep these."""
        done = self.workshop.finish([(path.stem, text) for path, text in todo.items() if isinstance(text, bytes)])
        # One is published while processes work the next ones out.
        fresh = [self.publish(path, next(done) if isinstance(text, bytes) else text) for path, text in todo.items()]
        if self.showing is None:
            fresh = self._press(fresh)
        if self.covers:
            fresh = [with_cover(each) for each in fresh]
        if self.keeper is not None:
            found = zip(fresh, todo.items(), strict=True)
            fresh = [self.keeper.keep(each, self._key(path, text)) for each, (path, text) in found]
        return dict(zip(todo, fresh, strict=True))

    def _let_go(self, path: Path, text: bytes | PatternError, published: Published) -> Published:
        """Forget the booklets and figures of a pattern; they are taken from the shelf where they are asked for."""
        self.workshop.forget()
        if not published.key or isinstance(text, PatternError):  # not kept, or nothing to keep
            return published
        return replace(published, gallery=partial(self.gallery_of, path.stem, text))

    def publish(self, path: Path, done: Finished | Exception) -> Published:
        """Take what came of one pattern to its files.

        Raises:
            Exception: in a build, a fault of the program itself.

        """
        shown, title = printable(os.path.relpath(path)), path.stem
        try:
            if isinstance(done, Exception):
                raise done
            title = done.pattern.title
            if done.findings:
                return self.faulty(path, title, [f"{shown}: does not prove:", *done.findings])
            return self._published(path, done)
        except PatternError as error:
            problems = problem_lines(os.path.relpath(path), error.problems)
        except TemplateError as fault:
            problems = [f"{shown}: {fault}"]
        except Exception as fault:
            if self.showing is None:
                raise
            log.debug("while publishing %s", path, exc_info=True)
            problems = [f"{shown}: a fault of seamleaf itself: {type(fault).__name__}: {printable(str(fault))}"]
        return self.faulty(path, title, problems)

    def faulty(self, path: Path, title: str, problems: list[str]) -> Published:
        """Return a pattern that shows why it cannot be shown, by the packaged templates, which have no fault."""
        return publish_faulty(path, title, problems, self.templates.language)

    def size_files(self, done: Finished, size: str) -> dict[str, bytes]:
        """Return the files of one size.

        Raises:
            TemplateError: a template fails.

        """
        booklet = done.booklets[size]
        files = publish_size(
            done.pattern, booklet, done.figures[size], self.templates, proved=self.proved, editions=self.editions
        )
        if self.showing is not None:  # each is set once someone asks for it
            files |= dict.fromkeys(paper_paths({size: booklet}, self.templates, self.editions), b"")
        return files

    def publish_again(self, done: Finished, size: str) -> None:
        """Publish a size whose files nobody wants: the templates are then compiled."""
        try:
            self.size_files(done, size)
            self.overview_files(done, {})
        except Exception:  # it is told of where the files are wanted
            log.debug("while getting ready with %s", done.pattern.id, exc_info=True)

    def overview_files(self, done: Finished, sizes: Mapping[str, bytes]) -> dict[str, bytes]:
        """Return the files of a pattern that are no size's, from those of its ``sizes``.

        Raises:
            PatternError: its version has been published with something else in it.
            TemplateError: a template fails.

        """
        earlier = bool(self.history.of(done.pattern.id))
        files = publish_overview(
            done.pattern, done.booklets, done.figures, self.templates, proved=self.proved, history=earlier
        )
        if earlier:
            files |= publish_versions(done.pattern, self.history.notes(done.pattern, sizes), self.templates)
        return files

    def _published(self, path: Path, done: Finished) -> Published:
        sizes: dict[str, bytes] = {}
        for size in done.booklets:
            sizes |= self.size_files(done, size)
        papers = {}
        if self.showing is None:
            papers = lay_papers(sizes, done.booklets, done.figures, self.templates, self.editions, self.address)
        return Published(
            id=path.stem,
            title=done.pattern.title,
            sizes={size.id: size.title for size in done.pattern.sizes.values()},
            files={**self.overview_files(done, sizes), **sizes},
            papers=papers,
            classes={each.id: each.title for each in done.pattern.classes.values()},
            gallery=lambda: Gallery(pattern=done.pattern, booklets=done.booklets, figures=done.figures),
        )

    def _press(self, published: list[Published]) -> list[Published]:
        """Set the PDF files of all patterns at once."""
        papers = [paper for each in published for paper in each.papers.values()]
        try:
            pressed = iter(self.workshop.press(papers))
        except TemplateError as fault:
            return [self.faulty(Path(f"{each.id}.yaml"), each.title, [str(fault)]) for each in published]
        return [
            replace(each, files={**each.files, **{path: next(pressed) for path in each.papers}}) for each in published
        ]

    def given(self, path: Path, text: bytes | PatternError) -> tuple[object, ...]:
        """Return what a pattern that is served follows from."""
        return (text, self.templates.digest, self.templates.language, self.history.of(path.stem), self.address)

    def _key(self, path: Path, text: bytes | PatternError) -> str:
        if self.keeper is None or isinstance(text, PatternError):
            return ""
        return self.keeper.key_of(path.stem, text, self.history.of(path.stem))

    def _kept(self, path: Path, text: bytes | PatternError) -> Published | None:
        if self.showing is not None:
            last = self.showing.last(path.stem, self.given(path, text))
            if last is not None:
                return last
        if self.keeper is None or isinstance(text, PatternError):
            return None
        return self.keeper.take(self._key(path, text), partial(self.gallery_of, path.stem, text))

    def gallery_of(self, pattern_id: str, text: bytes) -> Gallery:
        """Work a pattern out, or take it from the shelf, for the gallery."""
        (done,) = self.workshop.finish([(pattern_id, text)])
        if isinstance(done, Exception):
            raise done
        return Gallery(pattern=done.pattern, booklets=done.booklets, figures=done.figures)


def publish_faulty(path: Path, title: str, problems: Sequence[str], language: str) -> Published:
    """Return a pattern that shows why it cannot be shown, by the packaged templates, which have no fault."""
    return Published(
        id=path.stem,
        title=title,
        sizes={},
        files=publish_fault(path.stem, title, problems, load_templates(language=language)),
        gallery=None,
        problems=tuple(problems),
    )
