"""Every word that a reader sees comes from the catalogue or from the pattern: nothing is composed of words elsewhere.

A made-up language shows it: each letter of the catalogue becomes another one, so that a plain word on a page or in a
figure can only have come from a template, from code, or from what the designer wrote.
"""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from itertools import groupby
from operator import itemgetter
from typing import Final

import pytest

from accepted import accepted, accepted_names, accepted_text
from drawing.kinds import PLANS
from drawing.kinds import booklet as kind
from published import METRIC, SASHED, WAYS, finished
from seamleaf.booklet import Booklet
from seamleaf.drawing import draw_figures
from seamleaf.publishing import load_templates, publish_pattern
from seamleaf.publishing.wording import Text, Wording
from seamleaf.words import Words

WORD = re.compile(r"[A-Za-z]{2,}")
LETTER = "\N{LATIN SMALL LETTER O WITH STROKE}"
TEMPLATES = load_templates()


def _other(form: str) -> str:
    """Put another letter for every letter of a text, but not in its placeholders."""
    parts = re.split(r"(\{[^{}]*\})", form)
    return "".join(part if part.startswith("{") else re.sub(r"[A-Za-z]", LETTER, part) for part in parts)


OTHER = Wording({key: Text(_other(text.one), _other(text.other)) for key, text in TEMPLATES.wording.texts.items()})


def _own(booklet: Booklet) -> set[str]:
    """Return the words of the designer: titles, the names of blocks and fabrics, and the labels made of them."""
    texts = [booklet.pattern.title, booklet.size.title, *(fabric.title for fabric in booklet.fabrics)]
    texts += [unit.id for unit in booklet.units] + [fabric.id for fabric in booklet.fabrics]
    texts += [each.title for each in booklet.classes]
    return {word for text in texts for word in WORD.findall(text)}


def _strange(texts: list[str], own: set[str]) -> list[str]:
    return [text for text in texts if {word for word in WORD.findall(text) if word not in own}]


DEMO: Final = {pattern: [size for _, size in names] for pattern, names in groupby(accepted_names(), key=itemgetter(0))}


def _of_demo(pattern: str) -> Booklet:
    """Return a size of a demo pattern: one that is taught and so has gauges, or that with the shortest booklet."""
    texts = [accepted_text(pattern, size) for size in DEMO[pattern]]
    size = min(zip(texts, DEMO[pattern], strict=True), key=lambda each: ('"classes": []' in each[0], len(each[0])))[1]
    return accepted(pattern, size)


@pytest.mark.parametrize("name", [*DEMO, *PLANS])
def test_every_text_of_a_figure_comes_from_the_catalogue_or_the_pattern(name: str) -> None:
    booklet = _of_demo(name) if name in DEMO else kind(name)
    found = []
    for figure in draw_figures(booklet, Words(OTHER.texts)):
        texts = [unescape(text) for text in re.findall(r"<(?:text|title|desc)\b[^>]*>([^<]*)<", figure.svg)]
        found += [(figure.id, text) for text in _strange([*texts, figure.title, figure.desc], _own(booklet))]
    assert found == []


@pytest.mark.parametrize(("text", "pattern_id"), [(METRIC, "pond"), (SASHED, "sashed"), (WAYS, "ways")])
def test_every_text_of_a_page_comes_from_the_catalogue_or_the_pattern(text: str, pattern_id: str) -> None:
    done = finished(text, pattern_id)
    templates = replace(load_templates(), wording=OTHER)
    templates.environment.globals.update(say=OTHER.say)
    own = set(WORD.findall(text))
    figures = {size: draw_figures(booklet, Words(OTHER.texts)) for size, booklet in done.booklets.items()}
    files = publish_pattern(done.pattern, done.booklets, figures, templates, proved=True)
    pages = {path: page.decode() for path, page in files.items() if path.endswith(".md")}
    assert len(pages) > 8
    assert [(path, text) for path, page in pages.items() for text in _strange(_told(page), own)] == []


def _told(page: str) -> list[str]:
    """Return the texts of a page in Markdown and HTML that are read or read aloud: text, alternative texts, names."""
    page = re.sub(r"\A---\n(.*?)\n---\n", "", page, flags=re.DOTALL)
    page = re.sub(r"<(script|style|code)\b.*?</\1>", " ", page, flags=re.DOTALL)
    told = re.findall(r'\b(?:alt|title|aria-label|placeholder)="([^"]*)"', page)
    page = re.sub(r"\]\([^)]*\)(\{[^}]*\})?|\{[^}]*\}", "] ", page)
    return [unescape(text) for text in [*told, *re.split(r"<[^>]*>|\n", page)]]
