"""Pages: numbers that come from the booklet and say so, links and pictures that lead somewhere."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from seamleaf.proof import prove
from spoiling import CRIB

Publish = Callable[[dict[str, Any]], Path]


@pytest.fixture
def findings_on(published: dict[str, bytes], folder: Publish) -> Callable[..., list[tuple[str, str]]]:
    """Return a proof of one page beside the demo's crib: check and message of each finding on it."""

    def proof(html: str, name: str = f"{CRIB}/cut/index.html", **files: str) -> list[tuple[str, str]]:
        root = folder({CRIB: published[CRIB]})
        for path, content in {name: html, **files}.items():
            (root / path).parent.mkdir(parents=True, exist_ok=True)
            (root / path).write_text(content, encoding="utf-8")
        return [(finding.check, finding.message) for finding in prove(root).findings]

    return proof


@pytest.mark.parametrize(
    "html",
    [
        '<p><data value="23/8" data-from="/patches/0/w">2&nbsp;<sup>7</sup>&frasl;<sub>8</sub></data> in</p>',
        '<td><data value="2" data-from="/set/across">2</data>',
        '<p>about <b>(<data value="7+24*r2" data-from="/finished/w">41</data>)</b>',
        '<li>About <data value="7+24*r2" data-from="/finished/w">41</data> in',
        '<li>About 41 × <data value="7+36*r2" data-from="/finished/h">57 7⁄8</data> in',
        '<p><data value="1/4" data-from="/seam">1⁄4</data>',
        '<p><data value="1.0.0" data-from="/pattern/version">1.0.0</data>',
        '<p><data value="squares 10" data-from="/fabrics/1/source">bundle of 10 in squares</data>',
        '<p><data value="4" data-from="../booklet.json#/patches/0/per_block/crossing">4</data>',
    ],
)
def test_a_number_that_says_its_value_and_place_holds(
    findings_on: Callable[..., list[tuple[str, str]]], html: str
) -> None:
    assert findings_on(html) == []


@pytest.mark.parametrize(
    ("html", "says"),
    [
        ('<data value="23/8" data-from="/patches/0/w">3 7⁄8</data>', "the reader sees '3 7/8' for 23/8"),
        ('<data value="23/8" data-from="/patches/0/w">27⁄8</data>', "the reader sees '27/8' for 23/8"),
        ('<data value="23/8" data-from="/patches/0/w">2.875 or so</data>', "the reader sees"),
        ('<data value="23/8" data-from="/patches/0/w"></data>', "the reader sees ''"),
        ('<data value="3" data-from="/patches/0/w">3</data>', "the page says 3, the booklet 23/8"),
        ('<data value="23/8" data-from="/patches/999/w">2 7⁄8</data>', "leads nowhere in the booklet"),
        ('<data value="23/8" data-from="/patches/-1/w">2 7⁄8</data>', "leads nowhere in the booklet"),
        ('<data value="23/8" data-from="patches/0/w">2 7⁄8</data>', "leads nowhere in the booklet"),
        ('<data value="23/8" data-from="throw/booklet.json#/seam">2 7⁄8</data>', "leads to no booklet"),
        ('<data value="23/8">2 7⁄8</data>', "does not say where it comes from"),
        ('<data data-from="/seam">1⁄4</data>', "does not say where it comes from"),
        ('<data value="x" data-from="/patches/0">x</data>', "the booklet nothing that a page can say"),
        ('about <data value="7+24*r2" data-from="/finished/w">40 7⁄8</data>', "the reader sees '40 7/8'"),
        ('<data value="7+24*r2" data-from="/finished/w">41</data>', "does not say 'about'"),
        ('<p>about</p><p><data value="7+24*r2" data-from="/finished/w">41</data>', "does not say 'about'"),
        ('<data value="1.0.0" data-from="/pattern/version">1.0.1</data>', "the reader sees '1.0.1'"),
        ('<data value="squares 10" data-from="/fabrics/1/source">5 in squares</data>', "the reader sees"),
    ],
)
def test_a_number_that_does_not_is_found(
    findings_on: Callable[..., list[tuple[str, str]]], html: str, says: str
) -> None:
    ((check, message),) = findings_on(html)
    assert check == "numbers of pages"
    assert says in message


def test_a_page_above_the_sizes_names_the_booklet(findings_on: Callable[..., list[tuple[str, str]]]) -> None:
    """Pattern pages point into SIZE/booklet.json."""
    good = '<p><data value="8" data-from="crib/booklet.json#/set/blocks">8</data>'
    assert findings_on(good, "lamplight-crossing/index.html") == []
    bare = '<p><data value="8" data-from="/set/blocks">8</data>'
    assert findings_on(bare, "lamplight-crossing/index.html") == [("numbers of pages", "leads to no booklet")]


def test_links_and_pictures_are_followed(findings_on: Callable[..., list[tuple[str, str]]]) -> None:
    """Files, folders with an index, anchors of this page and of another; what leads out of the folder is left alone."""
    html = """
    <h2 id="here">x</h2> <a href="#here">x</a> <a href="../">up</a> <a href="../index.html#there">x</a>
    <img src="../figures/a%20b.svg"> <a href="https://example.org/x">x</a> <a href="mailto:x@example.org">x</a>
    <a href="/">root</a> <a href="../../../../outside">x</a> <a name="old">x</a> <a href="?print#old">x</a>
    """
    files = {f"{CRIB}/index.html": '<p id="there">', f"{CRIB}/figures/a b.svg": "<svg><title>x</title></svg>"}
    assert findings_on(html, **files) == []


@pytest.mark.parametrize(
    ("html", "says"),
    [
        ('<a href="../buy/">x</a>', "leads to no file"),
        ('<img src="fig.svg" alt="">', "leads to no file"),
        ('<link rel="stylesheet" href="x.css">', "leads to no file"),
        ('<script src="x.js"></script>', "leads to no file"),
        ('<a href="#nowhere">x</a>', "leads to no place of lamplight-crossing/crib/cut/index.html"),
        ('<a href="http://[x">x</a>', "no address"),
    ],
)
def test_a_link_into_nothing_is_found(findings_on: Callable[..., list[tuple[str, str]]], html: str, says: str) -> None:
    assert findings_on(html) == [("links of pages", says)]


def test_pages_that_are_damaged_are_read_as_far_as_they_go(
    findings_on: Callable[..., list[tuple[str, str]]], tmp_path: Path
) -> None:
    assert findings_on("<p <data value=&#xffffff; <![CDATA[ <!DOCTYPE <a href='") == []
    broken = tmp_path / CRIB / "cut" / "index.html"
    broken.write_bytes(b"\xff\xfe")
    (finding,) = prove(tmp_path).findings
    assert (finding.check, finding.message) == ("links of pages", "a page that cannot be read")
