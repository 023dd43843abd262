"""Errata of pages, figures and paper: what is changed in a published file, and the check that must find it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

POND = "pond/mat"
SASH = "sashed/mat"
ARROW = re.compile(r'(<polygon fill="#1b1b1f" points=")((?:[-0-9.]+,[-0-9.]+ ?){7})("/>)')
PATCH = re.compile(r' *<g>\n *<polygon (?!fill="#ffffff" points="[^"]*" stroke="#ffffff").*?</g>\n', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Misprint:
    """One kind of error in a file of a published size."""

    number: str
    says: str
    file: str
    check: str
    change: Callable[[str], str]


def said(old: str, new: str) -> Callable[[str], str]:
    """Return what puts one text for another, everywhere."""
    return lambda text: text.replace(old, new)


def turned(which: int) -> Callable[[str], str]:
    """Return what turns a press arrow round."""

    def change(text: str) -> str:
        match = list(ARROW.finditer(text))[which]
        spots = [tuple(map(float, spot.split(","))) for spot in match[2].split()]
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        x, y = (min(xs) + max(xs)), (min(ys) + max(ys))
        points = " ".join(f"{x - a:.2f},{y - b:.2f}" for a, b in spots)
        return text[: match.start()] + match[1] + points + match[3] + text[match.end() :]

    return change


def without_patch(text: str) -> str:
    """Take the first patch out of a figure."""
    return PATCH.sub("", text, count=1)


def text_of(old: str, new: str) -> Callable[[str], str]:
    """Return what puts one whole label for another, the first time that it stands there; A or B may follow it."""
    return lambda text: re.sub(rf">{re.escape(old)}( [AB])?<", rf">{new}\1<", text, count=1)


def added(html: str) -> Callable[[str], str]:
    """Return what adds to a page."""
    return lambda text: text.replace("</article>", f"{html}</article>")


MISPRINTS = [
    Misprint("F1", "an arrow of a row leads the other way", "figures/row-1.svg", "arrows of figures", turned(0)),
    Misprint(
        "F2", "the arrow of a step leads the other way", "figures/step-ripple.svg", "arrows of figures", turned(0)
    ),
    Misprint(
        "F3",
        "an arrow of a block leads the other way",
        "figures/block-ripple-parts.svg",
        "arrows of figures",
        turned(0),
    ),
    Misprint("F4", "an arrow between rows leads the other way", "figures/centre.svg", "arrows of figures", turned(0)),
    Misprint(
        "F5", "a patch is missing in a block's figure", "figures/block-ripple.svg", "patches of figures", without_patch
    ),
    Misprint(
        "F6",
        "a figure shows a label that nothing has",
        "figures/step-ripple.svg",
        "patches of figures",
        text_of("A1", "A9"),
    ),
    Misprint(
        "F7",
        "a cutting figure shows the label of another patch",
        "figures/cut-B-1.svg",
        "patches of figures",
        text_of("B1", "B2"),
    ),
    Misprint(
        "F8",
        "the size in a figure is another size's",
        "figures/block-ripple.svg",
        "numbers of figures",
        said("6½", "8½"),
    ),
    Misprint(
        "F9",
        "the words under a figure name a finished size for a cut one",
        "figures/step-U1.svg",
        "numbers of figures",
        said("3½", "3⅓"),
    ),
    Misprint(
        "F10",
        "a figure's words count patches that are not there",
        "figures/block-ripple.svg",
        "patches of figures",
        said("three patches", "four patches"),
    ),
    Misprint(
        "F11",
        "a row's figure shows a block of another row",
        "figures/row-1.svg",
        "patches of figures",
        text_of("1.1", "2.1"),
    ),
    Misprint(
        "F12", "a number is missing in the layout", "figures/layout.svg", "patches of figures", text_of("2.1", "2.2")
    ),
    Misprint(
        "F15",
        "an A block is a B block in the layout",
        "figures/layout.svg",
        "patches of figures",
        lambda text: re.sub(r">([0-9.]+) A<", r">\1 B<", text, count=1),
    ),
    Misprint("F13", "a figure is empty", "figures/centre.svg", "figures", lambda _: ""),
    Misprint("F14", "a figure says nothing of itself", "figures/centre.svg", "figures", said("title", "titel")),
    Misprint(
        "P1",
        "a measure is typed into a page",
        "buy/index.html",
        "loose measures of pages",
        added("<p>Cut squares of 2 1/2 in.</p>"),
    ),
    Misprint(
        "P2",
        "a page shows the number of another size",
        "buy/index.html",
        "numbers of pages",
        added('<p><data value="18" data-from="../../runner/booklet.json#/set/blocks">18</data></p>'),
    ),
    Misprint(
        "P3",
        "a page's number is not the booklet's",
        "buy/index.html",
        "numbers of pages",
        added('<p><data value="9" data-from="/set/blocks">9</data></p>'),
    ),
    Misprint(
        "P4",
        "a page's number reads otherwise than its value",
        "buy/index.html",
        "numbers of pages",
        added('<p><data value="8" data-from="/set/blocks">9</data></p>'),
    ),
    Misprint(
        "P5",
        "a page refers to a page that is not there",
        "buy/index.html",
        "links of pages",
        added('<a href="../sew/index.html">see</a>'),
    ),
    Misprint(
        "P6",
        "a page refers to a step that is not there",
        "buy/index.html",
        "links of pages",
        added('<a href="#step-99">see</a>'),
    ),
]

PAPER_MISPRINTS = [
    Misprint(
        "S1",
        "a number on paper is not the page's",
        f"{POND.replace('/', '-')}-a4.pdf",
        "numbers on paper",
        lambda source: source.replace('fraction("1", "2")', 'fraction("1", "3")', 1),
    ),
    Misprint(
        "S2",
        "a measure stands on paper alone",
        f"{POND.replace('/', '-')}-a4.pdf",
        "numbers on paper",
        lambda source: f'{source}\n#para("Cut squares of 7 5/8 in.")\n',
    ),
]
"""What is changed in the source that a PDF is set from."""
