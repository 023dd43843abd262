"""Published pages: every number on them is the booklet's, and every link and picture leads somewhere.

A ``<data>`` element names its value and, by a JSON Pointer, where that stands: in the booklet of the nearest folder
above the page, or in the file that the page names before ``#``. What a reader sees is the value itself, or, where no
ruler shows it, the nearest mark.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any, Final
from urllib.parse import unquote, urlsplit

from seamleaf.lengths import CENTIMETRES, INCHES
from seamleaf.proof.drawn import FIGURES, title_of
from seamleaf.proof.markup import read_markup
from seamleaf.proof.measures import measures_in
from seamleaf.proof.notation import NotationError, read_length
from seamleaf.proof.report import BOOKLET, Findings, say

NUMBERS: Final = "numbers of pages"
LOOSE: Final = "loose measures of pages"
LINKS: Final = "links of pages"
PICTURES: Final = "words for figures"
MAX_BYTES: Final = 32 * 2**20

_LINKED: Final = {"a": "href", "img": "src", "link": "href", "script": "src", "source": "src", "iframe": "src"}
_BLOCKS: Final = frozenset(
    ["p", "li", "td", "th", "dd", "dt", "tr", "figcaption", "div", "summary", "section", "article", "label"]
    + [f"h{level}" for level in range(1, 7)]
)
_EMPTY: Final = frozenset(["br", "img", "input", "meta", "link", "hr", "source", "wbr", "col", "area", "base", "embed"])
_UNREAD: Final = frozenset(["data", "del", "script", "style", "code", "title", "svg", "template"])
"""What holds no number of the quilt that a maker would follow; what was is struck out."""
_ISOLATES: Final = dict.fromkeys(range(0x2066, 0x206A))
"""Marks that keep a title which runs from right to left apart from the words around it (Unicode, UAX 9)."""
_SILENT: Final = "(silent)"
_FRACTION: Final = re.compile(r"(?:(\d+) )?(\d+)/(\d+)")
_ABOUT: Final = ("about", "etwa")
"""What says, in the languages of the pages, that a size is not exact."""
_COMMA: Final = re.compile(r"\d+,\d+")
_DECIMAL: Final = re.compile(r"\d+(?:\.\d+)?")


@dataclass(slots=True)
class _Number:
    value: str | None
    source: str | None
    about: bool
    """Whether the text before it, in its paragraph or cell, says "about"."""
    text: str = ""


@dataclass(slots=True)
class _Page:
    """What a page holds that can be looked up."""

    numbers: list[_Number] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    pictures: list[tuple[str, str]] = field(default_factory=list)
    """Where each picture comes from, and the words for those who do not see it."""
    ids: set[str] = field(default_factory=set)
    loose: list[str] = field(default_factory=list)
    """Text of the page itself that no ``<data>`` holds; of a page without an article, all of it."""
    _within: list[str] = field(default_factory=list)
    _article: bool = False
    _open: _Number | None = None
    _before: str = ""

    def begins(self, tag: str, values: dict[str, str | None]) -> None:
        """Note numbers, links and anchors."""
        if tag not in _EMPTY:
            self._within.append(_SILENT if tag in _UNREAD or "data-constant" in values else tag)
        if tag == "article" and not self._article:
            self._article = True
            self.loose.clear()
        if tag in _BLOCKS:
            self._before = ""
        if tag == "data":
            about = any(word in self._before.lower() for word in _ABOUT)
            self._open = _Number(values.get("value"), values.get("data-from"), about)
            self.numbers.append(self._open)
        link = values.get(_LINKED.get(tag, ""))
        if link is not None:
            self.links.append(link)
        if tag == "img":
            self.pictures.append((link or "", values.get("alt") or ""))
        for key in ("id", "name"):
            anchor = values.get(key)
            if anchor:
                self.ids.add(anchor)

    def ends(self, tag: str) -> None:
        """Close a number."""
        if tag == "data":
            self._open = None
        for index in range(len(self._within) - 1, -1, -1):
            if self._within[index] in (tag, _SILENT):
                del self._within[index:]
                break

    def says(self, text: str) -> None:
        """Gather what a reader sees of a number, and before it."""
        self._before += text
        if _SILENT not in self._within and ("article" in self._within or not self._article):
            self.loose.append(text)
        if self._open is not None:
            self._open.text += text


@dataclass(slots=True)
class Site:
    """A folder of pages, with the booklets in it as plain JSON values, by path below the folder."""

    folder: Path
    booklets: Mapping[str, Any]
    _pages: dict[str, _Page | None] = field(default_factory=dict)
    _titles: dict[str, str | None] = field(default_factory=dict)

    def check(self, pages: Iterable[Path]) -> list[Findings]:
        """Look at pages of the folder."""
        found: list[Findings] = []
        for path in pages:
            below = path.relative_to(self.folder).as_posix()
            findings = Findings(path.as_posix())
            page = self._page(below, findings)
            if page is not None:
                for number in page.numbers:
                    self._check_number(below, number, findings)
                self._check_loose(below, page, findings)
                for link in dict.fromkeys(page.links):
                    self._check_link(below, link, findings)
                for source, words in dict.fromkeys(page.pictures):
                    self._check_picture(below, source, words, findings)
            found.append(findings)
        return found

    def _page(self, below: str, findings: Findings | None = None) -> _Page | None:
        if below not in self._pages:
            self._pages[below] = None
            try:
                content = (self.folder / below).read_bytes()
                text = content.decode("utf-8")
            except (OSError, UnicodeDecodeError):
                if findings is not None:
                    findings.add(LINKS, "", "a page that cannot be read")
                return None
            if len(content) > MAX_BYTES:
                if findings is not None:
                    findings.add(LINKS, "", f"a page of {len(content)} bytes")
                return None
            page = _Page()
            try:
                read_markup(text, page)
            except AssertionError:  # what html.parser does with a broken declaration
                if findings is not None:
                    findings.add(LINKS, "", "no HTML")
                return None
            self._pages[below] = page
        return self._pages[below]

    # ------------------------------------------------------------------------------------ numbers

    def _check_number(self, page: str, number: _Number, findings: Findings) -> None:
        if number.value is None or number.source is None:
            findings.add(NUMBERS, number.source or "", f"the number {number.text!r} does not say where it comes from")
            return
        booklet, pointer = self._source_of(page, number.source)
        if booklet is None:
            findings.add(NUMBERS, number.source, "leads to no booklet")
            return
        own, _ = self._source_of(page, "")
        if own is not None and own is not booklet:
            findings.add(NUMBERS, number.source, "a number of another booklet in the folder of a size")
            return
        try:
            stated = _follow(booklet, pointer)
        except LookupError:
            findings.add(NUMBERS, number.source, "leads nowhere in the booklet")
            return
        if isinstance(stated, bool) or not isinstance(stated, (str, int)) or str(stated) != number.value:
            findings.add(NUMBERS, number.source, f"the page says {number.value}, the booklet {_short(stated)}")
            return
        seen = " ".join(number.text.replace("\N{FRACTION SLASH}", "/").split())
        metric = isinstance(booklet, dict) and booklet.get("unit") == "cm"
        if not _says(seen, stated, (CENTIMETRES if metric else INCHES).cut_grid):
            findings.add(NUMBERS, number.source, f"the reader sees {seen!r} for {number.value}")
        elif "r2" in number.value and not number.about:
            findings.add(NUMBERS, number.source, f"{seen} is not exact, and the page does not say 'about'")

    def _check_loose(self, page: str, shown: _Page, findings: Findings) -> None:
        """See that the pages of a pattern say no measure but in ``<data>``: what a designer wrote is the designer's."""
        folder = posixpath.dirname(page)
        paths = [path for path in self.booklets if _holds(posixpath.dirname(path), folder)]
        paths += [path for path in self.booklets if posixpath.dirname(posixpath.dirname(path)) == folder]
        own = [value for path in paths if isinstance(value := self.booklets[path], dict)]
        if not own:
            return
        written = " ".join(text for value in own for text in _texts(value))
        for data in shown.loose:
            for text, _ in measures_in(data):
                message = f"{text} in {' '.join(data.split())[:60]!r} does not say where it comes from"
                findings.expect(text in written, LOOSE, "", message)

    def _source_of(self, page: str, source: str) -> tuple[Any, str]:
        """Return the booklet that a number comes from, and the pointer into it."""
        name, mark, pointer = source.partition("#")
        if mark:
            path = posixpath.normpath(posixpath.join(posixpath.dirname(page), name))
            return self.booklets.get(path), pointer
        folder = posixpath.dirname(page)
        while True:
            path = posixpath.join(folder, BOOKLET)
            if path in self.booklets or not folder:
                return self.booklets.get(path), source
            folder = posixpath.dirname(folder)

    # -------------------------------------------------------------------------------------- links

    def _check_link(self, page: str, link: str, findings: Findings) -> None:
        try:
            parts = urlsplit(link)
        except ValueError:
            findings.add(LINKS, link, "no address")
            return
        if parts.scheme or parts.netloc or parts.path.startswith("/"):
            return  # leads out of the folder, whose place in the world is not known here
        target = page
        if parts.path:
            target = posixpath.normpath(posixpath.join(posixpath.dirname(page), unquote(parts.path)))
            if target == ".." or target.startswith("../"):
                return
            if (self.folder / target).is_dir():
                target = posixpath.normpath(posixpath.join(target, "index.html"))
            if not (self.folder / target).is_file():
                findings.add(LINKS, link, "leads to no file")
                return
        if parts.fragment and target.endswith(".html"):
            other = self._page(target)
            if other is not None and unquote(parts.fragment) not in other.ids:
                findings.add(LINKS, link, f"leads to no place of {target}")

    def _check_picture(self, page: str, source: str, words: str, findings: Findings) -> None:
        """See that who hears a figure of the pattern hears what it says of itself, which is held to the booklet."""
        path = posixpath.normpath(posixpath.join(posixpath.dirname(page), unquote(source)))
        folder, name = posixpath.split(path)
        size, last = posixpath.split(folder)
        own = posixpath.dirname(size)
        if last != FIGURES or f"{size}/{BOOKLET}" not in self.booklets or not page.startswith(f"{own}/" * bool(own)):
            return
        if path not in self._titles:
            self._titles[path] = title_of(self.folder / path)
        title = self._titles[path]
        words = words.translate(_ISOLATES)  # they are marks of a page, not words
        findings.expect(
            words in ("", (title or words).translate(_ISOLATES)), PICTURES, source, f"{name} is told as {words[:60]!r}"
        )


def _holds(folder: str, inner: str) -> bool:
    return bool(folder) and (inner == folder or inner.startswith(f"{folder}/"))


def _texts(value: Any) -> list[str]:
    """Return what the designer wrote, of a booklet: titles and words."""
    found: list[Any] = []
    for key in ("pattern", "size"):
        inner = value.get(key)
        found += inner.values() if isinstance(inner, dict) else []
    for key in ("fabrics", "classes"):
        items = value.get(key)
        for item in items if isinstance(items, list) else []:
            found += [item.get("title"), item.get("source")] if isinstance(item, dict) else []
    return [text for text in found if isinstance(text, str)]


def _follow(value: Any, pointer: str) -> Any:
    """Follow a JSON Pointer (RFC 6901).

    Raises:
        LookupError: it leads nowhere.

    """
    if pointer and not pointer.startswith("/"):
        raise LookupError(pointer)
    for token in pointer.split("/")[1:]:
        key = token.replace("~1", "/").replace("~0", "~")
        if isinstance(value, dict):
            value = value[key]
        elif isinstance(value, list) and re.fullmatch(r"0|[1-9][0-9]{0,8}", key):
            value = value[int(key)]
        else:
            raise LookupError(pointer)
    return value


def _says(seen: str, value: str | int, grid: Fraction) -> bool:
    """Whether what a reader sees is a value, or the mark nearest to it where no ruler shows it."""
    if isinstance(value, int):
        return _number(seen) == value
    try:
        length = read_length(value)
    except NotationError:
        # A name with numbers in it, such as a version or a bundle, may be put in other words.
        return seen == value or _DECIMAL.findall(seen) == _DECIMAL.findall(value) != []
    exact = length if length.is_rational else length.round_nearest(grid)
    return _number(seen) == exact.a


def _number(seen: str) -> Fraction | None:
    if _COMMA.fullmatch(seen):
        seen = seen.replace(",", ".")
    fraction = _FRACTION.fullmatch(seen)
    if fraction is not None:
        whole, top, bottom = (int(part or 0) for part in fraction.groups())
        return whole + Fraction(top, bottom) if bottom and top < bottom else None
    return Fraction(seen) if _DECIMAL.fullmatch(seen) else None


def _short(value: Any) -> str:
    return say(value)[:60] if isinstance(value, (str, int)) else "nothing that a page can say"
