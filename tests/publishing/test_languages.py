"""German as a second language: complete, with the same placeholders, and without a sentence left in English."""

from __future__ import annotations

import importlib.resources
import json
import re

import pytest

from accepted import accepted
from published import published_in
from seamleaf.drawing import draw_figures
from seamleaf.publishing import TemplateError, languages, load_templates
from seamleaf.publishing.wording import placeholders, read_wording

FILES = importlib.resources.files("seamleaf.site_templates")
GERMAN = read_wording(FILES.joinpath("wording.de.yaml").read_text(encoding="utf-8")).texts
ENGLISH = load_templates().wording.texts
SENTENCES = sorted(
    {form for text in ENGLISH.values() for form in (text.one, text.other) if len(form.split()) > 2 and "{" not in form}
)
"""English texts that are sentences or phrases of their own."""


def test_the_languages_are_english_and_german() -> None:
    assert languages() == ("en", "de")
    with pytest.raises(TemplateError, match="'xx', expected one of en, de"):
        load_templates(language="xx")


def test_german_says_everything_that_english_says() -> None:
    assert [key for key in ENGLISH if key not in GERMAN] == []
    assert [key for key in GERMAN if key not in ENGLISH] == []


def test_german_asks_for_the_same_values() -> None:
    assert [key for key in GERMAN if key in ENGLISH and placeholders(GERMAN[key]) != placeholders(ENGLISH[key])] == []


def test_no_english_sentence_stands_in_the_german_catalogue() -> None:
    german = {form for text in GERMAN.values() for form in (text.one, text.other)}
    assert german.isdisjoint(SENTENCES)
    english_words = re.compile(r"\b(the|and|with|from|your|each|sew|press)\b", re.IGNORECASE)
    assert [form for form in german if english_words.search(re.sub(r"\{\w+\}", "", form))] == []


def test_pages_of_a_german_site_say_no_english_sentence_and_have_a_decimal_comma() -> None:
    pages = {path: text.decode() for path, text in published_in("de").items() if path.endswith(".md")}
    assert len(pages) > 8
    for path, page in pages.items():
        assert [sentence for sentence in SENTENCES if sentence in page] == [], path
    everything = "\n".join(pages.values())
    assert re.search(r">\d+,\d+</data>", everything)
    assert not re.search(r">\d+\.\d+</data>", re.sub(r'data-from="[^"]*number"[^<]*<', "", everything))


def test_figures_speak_german_with_the_numbers_of_the_booklet() -> None:
    booklet = accepted("kite-weather", "throw")
    figures = draw_figures(booklet, load_templates(language="de").wording.words)
    english = re.compile(r"\b(the|and|of|with|press|sew|cut|fabric|about|finished)\b", re.IGNORECASE)
    titles = json.dumps([booklet.pattern.title, booklet.size.title, [each.title for each in booklet.fabrics]])
    for figure in figures:
        told = re.findall(r"<(?:text|title|desc)[^>]*>([^<]*)<", figure.svg)
        left = [text for text in told if (match := english.search(text)) and match[0] not in titles]
        assert left == [], figure.id
    assert any(re.search(r"\d,\d", figure.svg.partition("</title>")[0]) for figure in figures)
