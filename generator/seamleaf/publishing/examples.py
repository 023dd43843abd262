"""Examples on an author's page: a fenced piece of a pattern, and beside it the figures that come of it.

A fence begins with ```` ```pattern ```` and the figures to show, for example ```` ```pattern block step row-2 ````.
What it leaves out of a pattern is taken from ``example.yaml`` of the templates, so that an example of a part is its
line and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from markupsafe import Markup

from seamleaf.publishing.escaping import plain_text

if TYPE_CHECKING:
    from seamleaf.drawing import Figure
    from seamleaf.publishing.templates import Templates

_FENCE: Final = re.compile(
    r"^```pattern(?P<shows>(?: +[a-zA-Z0-9.-]+)*) *\n(?P<text>.*?)^``` *$", re.MULTILINE | re.DOTALL
)
_SECTION: Final = re.compile(r"^([a-z]+):", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """One example as it stands on a page."""

    text: str
    """The piece of a pattern, as the author wrote it."""
    shows: tuple[str, ...]
    """Which figures: families such as ``block``, or single ones such as ``row-2``; none is ``quilt``."""
    line: int
    """The line of its fence."""


def examples_of(page: str) -> list[Example]:
    """Return the examples of a page, in order; line ends are those of Unix."""
    return [_example(fence, page.count("\n", 0, fence.start()) + 1) for fence in _FENCE.finditer(page)]


def completed(example: Example, templates: Templates) -> bytes:
    """Return the example as a whole pattern file; its own lines come first, so that they keep their numbers."""
    own = set(_SECTION.findall(example.text))
    defaults = templates.example
    starts = [*_SECTION.finditer(defaults)]
    ends = [start.start() for start in starts[1:]] + [len(defaults)]
    missing = [defaults[start.start() : end] for start, end in zip(starts, ends, strict=True) if start[1] not in own]
    return (example.text + "".join(missing)).encode("utf-8")


def shown_figures(example: Example, figures: Sequence[Figure]) -> tuple[list[Figure], list[str]]:
    """Return what the example shows of the figures, in the order of its words, and the words that name no figure."""
    shown: list[Figure] = []
    unknown: list[str] = []
    for word in example.shows or ("quilt",):
        named = [figure for figure in figures if word in (figure.kind, figure.id)]
        shown += [figure for figure in named if figure not in shown]
        if not named:
            unknown.append(word)
    return shown, unknown


def figure_path(page: str, number: int, figure: Figure) -> str:
    """Return where a figure of a page's example lies below the site: beside the page, in a folder of its name."""
    return f"{page.removesuffix('.md')}-examples/{number}-{figure.id}.svg"


def publish_example(
    example: Example, figures: Sequence[tuple[Figure, str]], templates: Templates, problems: Sequence[str] = ()
) -> str:
    """Return the markup of an example with its figures, each with its address; or with its problems.

    Raises:
        TemplateError: the template fails.

    """
    pictures: list[dict[str, Any]] = [
        {"figure": figure, "src": src, "width": round(figure.width), "height": round(figure.height)}
        for figure, src in figures
    ]
    lines = Markup("\n").join(plain_text(line) for line in example.text.rstrip("\n").split("\n"))
    return templates.render("pages/example.md.jinja", text=lines, pictures=pictures, problems=tuple(problems))


def with_examples(page: str, markups: dict[Example, str]) -> str:
    """Put the markup of each example where its fence stands; the line of a fence does not count."""
    by_text = {(example.shows, example.text): markup for example, markup in markups.items()}

    def markup_of(fence: re.Match[str]) -> str:
        example = _example(fence, 0)
        return by_text.get((example.shows, example.text), fence[0])

    return _FENCE.sub(markup_of, page)


def _example(fence: re.Match[str], line: int) -> Example:
    return Example(text=fence["text"], shows=tuple(fence["shows"].split()), line=line)
