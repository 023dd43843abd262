"""The examples on an author's pages, worked out once and drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from seamleaf.publishing import (
    completed,
    examples_of,
    figure_path,
    publish_example,
    shown_figures,
    with_examples,
)
from seamleaf.reading.marks import Mark
from seamleaf.reading.problems import PatternError
from seamleaf.site.files.sources import problem_lines

if TYPE_CHECKING:
    from seamleaf.drawing import Figure
    from seamleaf.publishing import Example, Templates
    from seamleaf.site.work.workshop import Finished, Workshop


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """An example with what came of it: figures with their paths below the site, or lines that say what is wrong."""

    example: Example
    figures: tuple[tuple[Figure, str], ...] = ()
    problems: tuple[str, ...] = ()


class ExamplePages:
    """Works out the examples of pages."""

    def __init__(self) -> None:
        self._drawn: dict[str, list[Drawn]] = {}

    def read(
        self, uri: str, file: str, page: str, templates: Templates, workshop: Callable[[], Workshop]
    ) -> tuple[dict[str, bytes], list[str]]:
        """Work out a page's examples: their figures as files below the site, and every problem at its line.

        ``uri`` is the page's below the docs_dir, ``file`` as a message shall name it.
        """
        examples = examples_of(page)
        if not examples:
            self._drawn.pop(uri, None)
            return {}, []
        stem = uri.removesuffix(".md").rpartition("/")[2].lower()
        done = workshop().finish([(f"{stem}-{at}", completed(each, templates)) for at, each in enumerate(examples, 1)])
        drawn = [_drawn(uri, file, at, each, next(done)) for at, each in enumerate(examples, start=1)]
        self._drawn[uri] = drawn
        files = {path: figure.svg.encode("utf-8") for each in drawn for figure, path in each.figures}
        return files, [line for each in drawn for line in each.problems]

    def put_in(self, uri: str, page: str, home: str, templates: Templates) -> str:
        """Return the page's text with its examples; ``home`` leads from it to the root of the site.

        Raises:
            TemplateError: the template fails.

        """
        markups: dict[Example, str] = {}
        for each in self._drawn.get(uri, ()):
            figures = [(figure, home + path) for figure, path in each.figures]
            markups[each.example] = publish_example(each.example, figures, templates, each.problems)
        return with_examples(page, markups)


def _drawn(uri: str, file: str, number: int, example: Example, done: Finished | Exception) -> Drawn:
    if isinstance(done, PatternError):
        return Drawn(example=example, problems=tuple(problem_lines(file, _on_page(done, example).problems)))
    if isinstance(done, Exception):
        raise done
    figures = next(iter(done.figures.values()))
    chosen, unknown = shown_figures(example, figures)
    if unknown:
        from seamleaf.reading.wording import quoted  # late: it knows all that a pattern may say

        known = ", ".join(dict.fromkeys(name for each in figures for name in (each.kind, each.id)))
        place = f"{file}:{example.line}:1"
        lines = (f"{place}: found {quoted(word)}, expected a figure of this example: {known}" for word in unknown)
        return Drawn(example=example, problems=tuple(lines))
    return Drawn(example=example, figures=tuple((each, figure_path(uri, number, each)) for each in chosen))


def _on_page(error: PatternError, example: Example) -> PatternError:
    """Move problems from the lines of an example to those of its page; what it left out stands at its fence."""
    own = example.text.count("\n")
    moved = []
    for each in error.problems:
        at = each.where
        where = Mark(example.line + at.line, at.column) if at.line <= own else Mark(example.line, 1)
        moved.append(replace(each, where=where))
    return PatternError(moved)
