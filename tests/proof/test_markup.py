"""What is heard of a page is what ``html.parser`` hears of it, of whatever it is made."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seamleaf.proof.markup import read_markup

PIECES = [
    *["<p>", "</p>", "<P CLASS='a b'>", '<a href="x?a=1&amp;b=2">', "<br/>", "<img alt>", "<img src=x.svg>", "</p >"],
    *["<!-- a -->", "<!---->", "<!--x--!>", "<!-->", "<!doctype html>", "<?php ?>", "<![CDATA[x]]>", "< p>", "<3"],
    *["<script>", "</script>", "</SCRIPT >", "<style>", "</style>", 'a="<b>"', "<svg:g xlink:href='#a'/>", "<a b=/x>"],
    *["&amp;", "&#8722;", "&nosuch", "&", "<", ">", "text", " ", "\n", '"', "'", "=", "/", "<data value='9/2'>", "</"],
]


class Heard:
    """Notes what it hears; texts that follow each other are one."""

    def __init__(self) -> None:
        self.heard: list[tuple[str, object]] = []

    def begins(self, tag: str, values: dict[str, str | None]) -> None:
        """Note what begins."""
        self.heard.append((tag, values))

    def ends(self, tag: str) -> None:
        """Note what ends."""
        self.heard.append(("ends", tag))

    def says(self, text: str) -> None:
        """Note a text."""
        if self.heard and self.heard[-1][0] == "says":
            text = f"{self.heard.pop()[1]}{text}"
        self.heard.append(("says", text))


class Reference(HTMLParser):
    """Reads all of a page."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.noted = Heard()
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what begins."""
        self.noted.begins(tag, dict(attrs))

    def handle_endtag(self, tag: str) -> None:
        """Note what ends."""
        self.noted.ends(tag)

    def handle_data(self, data: str) -> None:
        """Note a text."""
        self.noted.says(data)


def heard(page: str) -> list[tuple[str, object]]:
    """Return what is heard of a page."""
    ours = Heard()
    read_markup(page, ours)
    return ours.heard


@given(st.lists(st.sampled_from(PIECES), max_size=12).map("".join))
def test_both_readers_hear_the_same(page: str) -> None:
    try:
        theirs = Reference(page).noted.heard
    except AssertionError:  # a broken declaration
        with pytest.raises(AssertionError):
            heard(page)
    else:
        assert heard(page) == theirs


def test_a_page_without_markup_is_one_text() -> None:
    assert heard("3 &times; 4") == [("says", "3 \N{MULTIPLICATION SIGN} 4")]
