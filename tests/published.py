"""Patterns that page and site tests publish, and a reader for the numbers of a page."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass, field
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path

from accepted import accepted
from seamleaf.booklet import plan_booklets
from seamleaf.drawing import draw_figures
from seamleaf.publishing import load_templates, publish_pattern
from seamleaf.site.work.pipeline import read_checked
from seamleaf.site.work.workshop import Finished

DEMO = Path(__file__).parents[1] / "patterns" / "lamplight-crossing.yaml"

SMALL = """\
title: Small Pond
version: 1.0.0
fabrics:
  water: {title: Blue, source: yardage, colour: "#22334f"}
  reed: {title: Green, source: yardage, colour: "#6fb98f"}
blocks:
  ripple:
    row:
      - {half-square: [water, reed], finished: 3 x 3}
      - reed 3 x 3
setting: {set: straight, blocks: [[ripple]]}
binding: {fabric: water}
sizes:
  mat: {title: Mat, blocks: 2 x 4}
  runner: {title: Runner, blocks: 2 x 9}
"""
"""Two sizes that are planned in a moment."""

TWO_FABRICS = """\
title: Test
version: 1.0.0
fabrics:
  d: {source: yardage, colour: "#224466"}
  l: {source: yardage, colour: "#eeeedd"}
"""
"""How a pattern begins; its blocks, setting and sizes follow."""

WAYS = """\
title: 'Many <Ways> & *more* _of_ `sewing` "it" # 1'
version: 0.1.0
designer: <script>alert("designer")</script>
summary: "Text with <b>tags</b>, [links](x), {{ braces }} and {% blocks %}."
fabrics:
  ground: {title: "Deep <blue> *solid*", source: yardage, colour: "#22334f"}
  star: {title: Gold, source: yardage, colour: "#e6b03c", margin: 0}
blocks:
  ways:
    column:
      - row:
          - {half-square: [star, ground], finished: 4 x 4, method: two}
          - {half-square: [star, ground], finished: 4 x 4, method: triangles, oversize: 1/2}
          - {quarter-square: [star, ground, star, ground], finished: 4 x 4, method: two}
          - {half-square: [star, ground], finished: 4 x 4, method: four}
      - row:
          - {quarter-square: [star, ground, ground, star], finished: 4 x 4}
          - {corners: {base: star, top-left: ground, bottom-right: ground}, corner: 2, finished: 4 x 4}
          - {diamond: {centre: star, corners: ground}, finished: 4 x 4}
          - {half-square: [star, ground], finished: 4 x 4, method: eight}
      - row:
          - {around: {centre: star 2 x 2, logs: [ground 1, ground 1, star 1, star 1]}}
          - {partial: {centre: star 2 x 2, ring: ground 1 x 3}}
          - column:
              - {geese: {goose: ground, sky: star}, finished: 4 x 2, point: up, method: flip}
              - {geese: {goose: ground, sky: star}, finished: 4 x 2, point: up, method: triangles}
          - column:
              - {geese: {goose: ground, sky: star}, finished: 4 x 2, point: up, method: four}
              - ground 4 x 2
      - row:
          - {three-triangle: [ground, star, ground], finished: 4 x 4, method: two}
          - {three-triangle: [ground, ground, star], finished: 4 x 4, turn: 90, method: two}
          - {three-triangle: [star, ground, star], finished: 4 x 4}
          - row:
              - {half-rectangle: [star, ground], finished: 2 x 4}
              - {half-rectangle: [star, ground], finished: 2 x 4, turn: 90}
setting:
  set: straight
  blocks: [[ways]]
sizes:
  small: {title: "Small <i>one</i>", blocks: 1 x 2}
"""
"""Every way of sewing, and titles that a careless page would act on."""

SASHED = """\
title: Sashed
version: 1.0.0
fabrics:
  bits: {title: Bits, source: squares 10, pack: 42, colours: ["#d9593d", "#f2e3c2", "#3f9a94"]}
  ground: {title: Blue, source: yardage, colour: "#22334f"}
  more: {title: More bits, source: squares 5, colours: ["#a9cfc4", "#c9486b"]}
  star: {title: Gold, source: yardage, colour: "#e6b03c"}
blocks:
  nine: {grid: [DLD, LEL, DLD], key: {D: bits.1 1 1/2 x 1 1/2, E: more.1 1 1/2 x 1 1/2, L: ground 1 1/2 x 1 1/2}}
  five: {grid: [LDL, DED, LDL], key: {D: more.1 1 1/2 x 1 1/2, E: ground 1 1/2 x 1 1/2, L: ground 1 1/2 x 1 1/2}}
setting:
  set: straight
  blocks: [[nine, five]]
  sashing: {fabric: star, width: 1, cornerstone: ground, outer: true}
borders:
  - {fabric: star, width: 1, corner: mitred}
  - {fabric: ground, width: 2, corner: cornerstone, cornerstone: star}
sizes:
  mat: {title: Mat, blocks: 3 x 4}
"""
"""Sashing, mitres, cornerstones, two bundles, and blocks that take different prints of them."""

METRIC = SMALL.replace("version: 1.0.0", "version: 1.0.0\nunit: cm").replace("3 x 3", "8 x 8")


@functools.cache
def finished(text: str, pattern_id: str) -> Finished:
    """Return a pattern with booklets and figures: the accepted ones of the demo, others without the long search."""
    pattern = read_checked(text.encode(), pattern_id)
    if pattern_id == DEMO.stem:
        booklets = {size: accepted(DEMO.stem, size) for size in pattern.sizes}
    else:
        booklets = plan_booklets(pattern, thorough=False)
    figures = {size: draw_figures(booklet) for size, booklet in booklets.items()}
    return Finished(pattern=pattern, booklets=booklets, figures=figures)


@functools.cache
def published(text: str, pattern_id: str) -> dict[str, bytes]:
    """Return the files that the packaged templates make of a pattern."""
    done = finished(text, pattern_id)
    return publish_pattern(done.pattern, done.booklets, done.figures, load_templates(), proved=True)


def published_in(language: str) -> dict[str, bytes]:
    """Return the files of a metric pattern in a language."""
    done = finished(METRIC, "pond")
    templates = load_templates(language=language)
    figures = {size: draw_figures(booklet, templates.wording.words) for size, booklet in done.booklets.items()}
    return publish_pattern(done.pattern, done.booklets, figures, templates, proved=True)


@dataclass
class Shown:
    """One ``<data>`` element: its value, where it comes from and what a reader sees."""

    value: str
    place: str
    text: str = ""


@dataclass
class PageReader(HTMLParser):
    """Collects what a test asks of a page: numbers, links, images, text."""

    shown: list[Shown] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    images: list[dict[str, str]] = field(default_factory=list)
    tags: set[str] = field(default_factory=set)
    free_text: list[str] = field(default_factory=list)
    """Text outside every ``<data>`` element, label and code."""
    words: list[str] = field(default_factory=list)
    """All text in its order."""
    _open: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag."""
        values = {name: value or "" for name, value in attrs}
        self.tags.add(tag)
        if tag == "data":
            self.shown.append(Shown(values["value"], values["data-from"]))
        if tag in ("data", "b", "code", "script", "style", "h1", "title"):
            self._open.append(tag)
        if tag == "a":
            self.links.append(values.get("href", ""))
        if tag == "img":
            self.images.append(values)

    def handle_endtag(self, tag: str) -> None:
        """Close a tag."""
        if self._open and self._open[-1] == tag:
            self._open.pop()

    def handle_data(self, data: str) -> None:
        """Note text."""
        self.words.append(data)
        if "data" in self._open:
            self.shown[-1].text += data
        elif not self._open:
            self.free_text.append(data)


def read_page(content: bytes) -> PageReader:
    """Read a page, its front matter left out."""
    reader = PageReader()
    reader.feed(re.sub(r"\A---\n.*?\n---\n", "", content.decode("utf-8"), flags=re.DOTALL))
    reader.close()
    return reader


def text_of(page: PageReader) -> str:
    """Return what a reader sees, with single spaces and fractions as they are typed: ``3 1/2 in``."""
    return " ".join("".join(page.words).replace("\N{FRACTION SLASH}", "/").split())


def number_in(text: str) -> Fraction:
    """Return the number that a text such as ``3 1⁄2`` or ``7.5`` says.

    Raises:
        ValueError: it says none, or several.

    """
    parts = text.replace("\N{NO-BREAK SPACE}", " ").replace("\N{FRACTION SLASH}", "/").split(" ")
    if len(parts) > 2 or (len(parts) == 2 and "/" not in parts[1]):
        raise ValueError(text)
    return sum((Fraction(part) for part in parts), Fraction(0))
