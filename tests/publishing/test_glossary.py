"""The glossary: only words that the pages use, each linked once a page, where running text uses it first."""

from __future__ import annotations

import re

import pytest

from published import SASHED, published, published_in, read_page
from seamleaf.publishing import load_templates
from seamleaf.publishing.glossary import TERMS, Glossary

LINK = re.compile(r'<a class="sl-term" href="\.\./words/index\.html#([a-z-]+)">')


def _pages(language: str) -> dict[str, str]:
    files = published(SASHED, "sashed") if language == "en" else published_in("de")
    return {path: text.decode() for path, text in files.items() if "/mat/" in path and path.endswith(".md")}


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_term_of_the_glossary_is_met_on_a_page_and_every_link_leads_to_a_term(language: str) -> None:
    pages = _pages(language)
    (words,) = (text for path, text in pages.items() if path.endswith("/words/index.md"))
    told = re.findall(r'<div id="([^"]*)">', words.replace("&#45;", "-"))
    met = {key for text in pages.values() for key in LINK.findall(text)}
    assert set(told) == met
    assert told == [key for key in TERMS if key in met]
    assert len(told) > 9


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_page_links_a_term_once_and_never_within_a_heading_a_link_or_a_label(language: str) -> None:
    for path, text in _pages(language).items():
        found = LINK.findall(text)
        assert len(found) == len(set(found)), path
        assert not [line for line in text.split("\n") if line.startswith("#") and "sl-term" in line]
        assert not re.search(
            r"<(a|label|button|summary|figure)\b(?![^>]*(?:sl-term|sl-tick--step))(?:(?!</\1>).)*sl-term",
            text,
            re.DOTALL,
        )


def test_the_booklet_for_paper_has_no_links_to_words() -> None:
    assert "sl-term" not in _pages("en")["sashed/mat/print/index.md"]


def test_only_the_first_use_in_running_text_becomes_a_link() -> None:
    glossary = Glossary(load_templates().wording)
    page = "---\ntitle: nest\n---\n\n# Nest\n\n<label>nest</label> <p>Half-nest, nestle, <b>nest</b>; nest.</p>"
    text, met = glossary.linked(page, "w")
    assert text == page.replace("<b>nest</b>", '<b><a class="sl-term" href="w#nest">nest</a></b>')
    assert met == {"nest"}


def test_a_block_that_is_called_by_a_word_of_the_trade_is_not_taken_for_one() -> None:
    glossary = Glossary(load_templates().wording)
    page = (
        '<p>Make <b class="sl-label">patch</b>.</p>\n'
        '<li><label class="sl-tick sl-tick--step">Sew each patch.</label></li>'
    )
    text, met = glossary.linked(page, "w")
    assert text == page.replace("each patch", 'each <a class="sl-term" href="w#patch">patch</a>')
    assert met == {"patch"}


def test_a_page_reads_the_same_with_its_links() -> None:
    wording = load_templates().wording
    page = "<p>Press the seam allowance of each unit; patches &#60;b&#62; nest &amp; meet.</p>"
    text, met = Glossary(wording).linked(page, "w")
    assert read_page(text.encode()).words != read_page(page.encode()).words
    assert "".join(read_page(text.encode()).words) == "".join(read_page(page.encode()).words)
    assert met == {"press", "allowance", "unit", "patch", "nest"}


def test_no_form_of_a_term_stands_for_two() -> None:
    for language in ("en", "de"):
        wording = load_templates(language=language).wording
        forms = [form.lower() for key in TERMS for form in str(wording.say(f"glossary.{key}.forms")).split(",")]
        assert len(forms) == len(set(forms))
