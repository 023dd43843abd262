"""Errata of pages, figures and paper: what is changed in a published file, and the check that must find it."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from seamleaf.proof import prove

POND = "pond/mat"
SASH = "sashed/mat"
ARROW = re.compile(r'(<polygon fill="#1b1b1f" points=")((?:[-0-9.]+,[-0-9.]+ ?){7})("/>)')
OTHER = "@other@"
"""Stands for a patch that a figure does not show."""
PATCH = re.compile(r' *<g>\n *<polygon (?!fill="#ffffff" points="[^"]*" stroke="#ffffff").*?</g>\n', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Misprint:
    """One kind of error in a file of a published size."""

    number: str
    says: str
    file: str
    """Which files of a size can have it, as a pattern of paths."""
    check: str
    change: Callable[[str], str]


def said(old: str, new: str) -> Callable[[str], str]:
    """Return what puts one text for another, everywhere."""
    return lambda text: text.replace(old, new)


def read_as(pattern: str, new: str | Callable[[re.Match[str]], str]) -> Callable[[str], str]:
    """Return what puts another text for what stands first like this."""
    return lambda text: re.sub(pattern, new, text, count=1)


def turned(which: int) -> Callable[[str], str]:
    """Return what turns a press arrow round."""

    def change(text: str) -> str:
        found = list(ARROW.finditer(text))
        if not found:
            return text
        match = found[which]
        spots = [tuple(map(float, spot.split(","))) for spot in match[2].split()]
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        x, y = (min(xs) + max(xs)), (min(ys) + max(ys))
        points = " ".join(f"{x - a:.2f},{y - b:.2f}" for a, b in spots)
        return text[: match.start()] + match[1] + points + match[3] + text[match.end() :]

    return change


def without_patch(text: str) -> str:
    """Take the first patch out of a figure."""
    return PATCH.sub("", text, count=1)


def next_number(match: re.Match[str]) -> str:
    """Return what was found with its last number one larger."""
    return re.sub(r"\d+(?=\D*$)", lambda number: str(int(number[0]) + 1), match[0])


def added(html: str) -> Callable[[str], str]:
    """Return what adds to a page."""
    return lambda text: text.replace("</article>", f"{html}</article>")


def plant(folder: Path, misprint: Misprint) -> Iterator[tuple[Path, str]]:
    """Yield the files of a size that can have a misprint, each with its text when it has it."""
    for path in sorted(folder.glob(misprint.file)):
        text = path.read_text(encoding="utf-8")
        if (wrong := misprint.change(text)) == text:
            continue
        patches = json.loads((folder / "booklet.json").read_bytes())["patches"]
        other = next((each["label"] for each in patches if f">{each['label']}<" not in text), "Z99")
        yield path, wrong.replace(OTHER, other)


def hunt_in_site(size: Path, misprint: Misprint) -> bool | None:
    """Plant a misprint in a published size and return whether its check finds it; ``None`` if none fits."""
    for path, wrong in plant(size, misprint):
        pictures = size.glob("figures/*.svg") if misprint.check == "words for figures" else ()
        beside = {picture: picture.read_bytes() for picture in pictures}
        good = found_in(size, {**beside, path: path.read_bytes()})
        return misprint.check in {check for check, *_ in found_in(size, {**beside, path: wrong.encode()}) - good}
    return None


def hunt_on_paper(size: Path) -> bool | None:
    """Put the PDF of another size in the place of a size's and return whether it is found; ``None`` without one."""
    name = f"{size.parent.name}-{size.name}-a4.pdf"
    others = [path for path in sorted(size.parent.glob("*/*-a4.pdf")) if path.parent != size]
    others = [path for path in others if path.name == f"{size.parent.name}-{path.parent.name}-a4.pdf"]
    if not others or not (size / name).is_file():
        return None
    beside = {path: path.read_bytes() for form in ("print/index.html", "figures/*.svg") for path in size.glob(form)}
    good = found_in(size, {**beside, size / name: (size / name).read_bytes()})
    found = found_in(size, {**beside, size / name: others[0].read_bytes()})
    return "numbers on paper" in {check for check, *_ in found - good}


def found_in(size: Path, files: dict[Path, bytes]) -> set[tuple[str, str, str]]:
    """Prove a size with these files alone, and return what is found: the check, the place and what it says."""
    with tempfile.TemporaryDirectory() as folder:
        for path, content in {size / "booklet.json": (size / "booklet.json").read_bytes(), **files}.items():
            copy = Path(folder) / path.relative_to(size.parents[1])
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(content)
        return {(each.check, each.pointer, each.message) for each in prove(Path(folder)).findings}


MISPRINTS = [
    Misprint("F1", "an arrow of a row leads the other way", "figures/row-*.svg", "arrows of figures", turned(0)),
    Misprint("F2", "the arrow of a step leads the other way", "figures/step-*.svg", "arrows of figures", turned(0)),
    Misprint(
        "F3", "an arrow of a block leads the other way", "figures/block-*-parts.svg", "arrows of figures", turned(0)
    ),
    Misprint("F4", "an arrow between rows leads the other way", "figures/centre.svg", "arrows of figures", turned(0)),
    Misprint(
        "F5", "a patch is missing in a block's figure", "figures/block-*.svg", "patches of figures", without_patch
    ),
    Misprint(
        "F6",
        "a figure shows a label that nothing has",
        "figures/step-*.svg",
        "patches of figures",
        read_as(r">[A-Z]\d+<", ">Z99<"),
    ),
    Misprint(
        "F7",
        "a cutting figure shows the label of another patch",
        "figures/cut-*.svg",
        "patches of figures",
        read_as(r">[A-Z]\d+<", f">{OTHER}<"),
    ),
    Misprint(
        "F8",
        "the size in a figure is another size's",
        "figures/block-*.svg",
        "numbers of figures",
        read_as(r"\d+(?=[^ <]* ×)", lambda match: str(int(match[0]) + 70)),
    ),
    Misprint(
        "F9",
        "the words under a figure name a finished size for a cut one",
        "figures/step-*.svg",
        "numbers of figures",
        read_as(r"\d+(\.5|[½¼¾⅛⅜⅝⅞])?(?= ×)", lambda match: f"{match[0].rstrip('.5½¼¾⅛⅜⅝⅞')}⅓"),
    ),
    Misprint(
        "F10",
        "a figure's words count patches that are not there",
        "figures/block-*.svg",
        "patches of figures",
        read_as(r"\w+ patches,", "99 patches,"),
    ),
    Misprint(
        "F11",
        "a row's figure shows a block of another row",
        "figures/row-*.svg",
        "patches of figures",
        read_as(r">\d+\.\d+<", ">99.1<"),
    ),
    Misprint(
        "F12",
        "a number is missing in the layout",
        "figures/layout.svg",
        "patches of figures",
        read_as(r">\d+\.\d+(?=[< ])", next_number),
    ),
    Misprint(
        "F15",
        "an A block is a B block in the layout",
        "figures/layout.svg",
        "patches of figures",
        read_as(r">([0-9.]+) A<", r">\1 B<"),
    ),
    Misprint("F13", "a figure is empty", "figures/centre.svg", "figures", lambda _: ""),
    Misprint("F14", "a figure says nothing of itself", "figures/centre.svg", "figures", said("title", "titel")),
    Misprint(
        "F16",
        "a step shows a patch that it does not take",
        "figures/step-*.svg",
        "patches of figures",
        read_as(r">[A-Z]\d+<", f">{OTHER}<"),
    ),
    Misprint("F17", "a patch is missing in a step", "figures/step-[!bP]*.svg", "patches of figures", without_patch),
    Misprint(
        "F18",
        "a step measures what nothing in it does",
        "figures/step-*.svg",
        "numbers of figures",
        read_as(r"\d+(?=[^ <]* ×)", lambda match: str(int(match[0]) + 31)),
    ),
    Misprint(
        "F19",
        "a sheet is said to be cut once more than it is",
        "figures/cut-*.svg",
        "patches of figures",
        read_as(r"· \D*\d+", next_number),
    ),
    Misprint(
        "F20",
        "a cut has the number of the next one",
        "figures/cut-*.svg",
        "patches of figures",
        read_as(r">1<", next_number),
    ),
    Misprint(
        "F21",
        "a block's figure says to make one too few",
        "figures/block-*.svg",
        "patches of figures",
        read_as(r"(?<= Make )\d+(?=\.</title>)", lambda match: str(int(match[0]) - 1)),
    ),
    Misprint(
        "F22",
        "a block is missing in the joined centre",
        "figures/centre.svg",
        "patches of figures",
        read_as(r">\d+\.\d+<", "><"),
    ),
    Misprint(
        "F23",
        "a border is drawn with the width of another",
        "figures/border-*.svg",
        "numbers of figures",
        read_as(r"\d+(?=[^ <\d]* ×)", lambda match: str(int(match[0]) + 70)),
    ),
    Misprint(
        "F24",
        "what lies between the blocks of a row is left out",
        "figures/row-*.svg",
        "patches of figures",
        read_as(r">[A-Z]\d+<", "><"),
    ),
    Misprint(
        "P1",
        "a measure is typed into a page",
        "*/index.html",
        "loose measures of pages",
        added("<p>Cut squares of 7 5/16 in.</p>"),
    ),
    Misprint(
        "P2",
        "a page shows the number of another size",
        "*/index.html",
        "numbers of pages",
        added('<p><data value="18" data-from="../../runner/booklet.json#/set/blocks">18</data></p>'),
    ),
    Misprint(
        "P3",
        "a page's number is not the booklet's",
        "*/index.html",
        "numbers of pages",
        read_as(r'(<data value="[^"]*)"', r'\g<1>1"'),
    ),
    Misprint(
        "P4",
        "a page's number reads otherwise than its value",
        "*/index.html",
        "numbers of pages",
        read_as(r'(<data value="\d+"[^>]*>)(\d)', r"\g<1>1\2"),
    ),
    Misprint(
        "P5",
        "a page refers to a page that is not there",
        "*/index.html",
        "links of pages",
        added('<a href="../knit/index.html">see</a>'),
    ),
    Misprint(
        "P6",
        "a page refers to a step that is not there",
        "*/index.html",
        "links of pages",
        added('<a href="#step-99">see</a>'),
    ),
    Misprint(
        "P7",
        "a number does not say where it comes from",
        "*/index.html",
        "numbers of pages",
        read_as(r'(<data [^>]*?) ?data-from="[^"]*"', r"\1"),
    ),
    Misprint(
        "P8",
        "who hears a figure hears of another",
        "*/index.html",
        "words for figures",
        read_as(r'(<img src="[^"]*figures/[^"]*" alt=")[^"]+"', r'\1Cut nine strips."'),
    ),
    Misprint(
        "P9",
        "the report of the proof counts a stop that nobody makes",
        "proof/index.html",
        "report of the proof",
        read_as(r'(?<=data-proved="stops"><b>)\d+', next_number),
    ),
    Misprint(
        "P10",
        "the report of the proof leaves out what was counted",
        "proof/index.html",
        "report of the proof",
        read_as(r'<tr>(?:(?!<tr>).)*data-proved="purchases".*?</tr>', ""),
    ),
    Misprint(
        "P11",
        "the report of the proof is of another booklet",
        "proof/index.html",
        "report of the proof",
        read_as(r'(?<=data-proved="digest">)\w{8}', "00000000"),
    ),
    Misprint(
        "P12",
        "the report of the proof counts files that are not there",
        "proof/index.html",
        "report of the proof",
        read_as(r'(?<=data-proved="figures"><b>)\d+', r"9\g<0>"),
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
