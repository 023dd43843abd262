"""PDF files of a size: every number of the page that a PDF was set from stands in it, and no measure of another size.

The text of a PDF is read from its glyphs, so this sees what a reader sees, whoever set it. Spaces are left out, since a
file does not say them: where a line ends or a fraction stands close, readers of PDF differ.
"""

from __future__ import annotations

import html
import re
from collections import Counter
from pathlib import Path
from typing import Final

import pypdfium2  # type: ignore[import-untyped]  # has no types of its own

from seamleaf.proof.measures import measures_in
from seamleaf.proof.report import Findings

PAPER: Final = "numbers on paper"
_WHOLE: Final = "print"
"""The folder of the page that the whole booklet is set from; other PDF files name theirs before the paper."""
_DATA: Final = re.compile(r"<data [^>]*>(.*?)</data>", re.DOTALL)
_ARTICLE: Final = re.compile(r"<article.*?</article>", re.DOTALL)
_LABELS: Final = re.compile(r"<text[^>]*>(.*?)</text>", re.DOTALL)
_TAG: Final = re.compile(r"<[^>]+>")
_SPACE: Final = re.compile(r"[\s\u2060]")


def check_papers(folder: Path) -> list[Findings]:
    """Look at every PDF in the folder of a size, beside the page of the same name and the figures of the folder."""
    papers = sorted(folder.glob("*.pdf"))
    if not papers:
        return []
    drawn = "|".join(_read(label) for path in sorted(folder.glob("figures/*.svg")) for label in _labels(path))
    pages = {path.parent.name: path for path in sorted(folder.glob("*/index.html"))}
    return [_check_paper(path, _page_of(path, pages), drawn) for path in papers]


def _check_paper(path: Path, page: Path | None, drawn: str) -> Findings:
    findings = Findings(path.as_posix())
    try:
        document = pypdfium2.PdfDocument(path.read_bytes())
        text = " ".join(sheet.get_textpage().get_text_range() for sheet in document)
        document.close()
    except (OSError, pypdfium2.PdfiumError):
        findings.add(PAPER, "", "a PDF that cannot be read")
        return findings
    if page is None:
        findings.add(PAPER, "", "a PDF of no page beside it")
        return findings
    source = page.read_text(encoding="utf-8", errors="replace")
    article = _ARTICLE.search(source)
    source = source if article is None else article[0]
    sheets, said = _bare(text), _read(source)
    for number, times in Counter(map(_read, _DATA.findall(source))).items():
        found = sheets.count(number)
        findings.expect(found >= times, PAPER, "", f"{number} stands {times} times on the page, {found} times on paper")
    for measure in dict.fromkeys(measure for measure, _ in measures_in(" ".join(text.split()))):
        known = any(_bare(measure) in own for own in (said, drawn))
        findings.expect(known, PAPER, "", f"{measure} stands neither on the page nor in a figure")
    return findings


def _page_of(path: Path, pages: dict[str, Path]) -> Path | None:
    """Return the page whose name stands in that of a PDF, between the size and the paper; the whole booklet else."""
    inner = f"-{path.stem.removeprefix(f'{path.parent.parent.name}-{path.parent.name}-')}"
    return next((page for name, page in pages.items() if inner.startswith(f"-{name}-")), pages.get(_WHOLE))


def _labels(path: Path) -> list[str]:
    return _LABELS.findall(path.read_text(encoding="utf-8", errors="replace"))


def _read(source: str) -> str:
    """Return what a reader sees of a piece of HTML or SVG, without spaces."""
    return _bare(html.unescape(_TAG.sub("", source)))


def _bare(text: str) -> str:
    return _SPACE.sub("", text.replace("\N{FRACTION SLASH}", "/"))
