"""One size's booklet as PDF: what its print page says, set anew for paper."""

from __future__ import annotations

import functools
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import markdown
import segno
import typst

from seamleaf.booklet import Booklet
from seamleaf.drawing import Figure
from seamleaf.publishing.editions import Edition
from seamleaf.publishing.paper.elements import Element, read_elements
from seamleaf.publishing.paper.setting import FOR_EDITION, literal, set_elements
from seamleaf.publishing.templates import TemplateError, Templates
from seamleaf.words import isolated

TEMPLATE: Final = "paper/booklet.typ"
_PICTURE: Final = re.compile(r'"([^"\\/]+\.svg)"')
_FRONT_MATTER: Final = re.compile(r"\A---\n.*?\n---\n", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """What a PDF is set from; the same one gives the same bytes."""

    source: str
    files: Mapping[str, bytes]

    @property
    def size(self) -> int:
        """How many bytes it has."""
        return len(self.source) + sum(map(len, self.files.values()))

    def digested(self) -> bytes:
        """Return everything that the PDF depends on, in one string of bytes."""
        parts = [self.source.encode("utf-8")]
        for name in sorted(self.files):
            parts += [name.encode("utf-8"), self.files[name]]
        return b"".join(len(part).to_bytes(8, "big") + part for part in parts)


def paper_path(stem: str, edition: Edition) -> str:
    """Return where a PDF lies below the folder of its size."""
    return f"{stem}-{edition.id}.pdf"


def page_elements(page: str) -> Element:
    """Return what the Markdown of a page becomes."""
    return read_elements(markdown.markdown(_FRONT_MATTER.sub("", page), extensions=["tables"]))


def lay_paper(
    page: str,
    booklet: Booklet,
    figures: Sequence[Figure],
    templates: Templates,
    edition: Edition,
    part: str = "",
    address: str = "",
    *,
    drawn: Mapping[str, bytes] | None = None,
) -> Paper:
    """Prepare a PDF of one size from the Markdown of its print page, or of a ``part`` that has this title.

    The whole booklet has a cover; where the ``address`` of the site is known, it leads to the corrections. Editions
    share the bytes of figures that are ``drawn`` for them, by id.
    """
    wording = templates.wording
    running = wording.say("page.book", pattern=booklet.pattern.title, size=booklet.size.title).unescape()
    where = f"{address.rstrip('/')}/{booklet.pattern.id}/index.html" if address and not part else ""
    given = {
        "title": isolated(booklet.pattern.title),
        "size": isolated(booklet.size.title),
        "version": wording.say("label.version", version=booklet.pattern.version).unescape(),
        "running": wording.say(
            "page.browser", page=part, pattern=booklet.pattern.title, size=booklet.size.title
        ).unescape()
        if part
        else running,
        "part": part,
        "cover": "" if part else "quilt.svg",
        "alt": next((figure.title for figure in figures if figure.kind == "quilt"), ""),
        "designer": wording.say("label.designer", designer=booklet.pattern.designer).unescape()
        if booklet.pattern.designer
        else "",
        "parts": wording.say("print.parts").unescape(),
        "corrections": wording.say("print.corrections", address=where).unescape() if where else "",
        "code": wording.say("print.corrections-code").unescape(),
        "paper": edition.paper,
        "lang": templates.language,
    }
    for_edition = f"room: {edition.room}pt, points: {edition.points}pt"
    told = ", ".join(f"{name}: {literal(text)}" for name, text in given.items())
    source = "\n".join(
        [
            '#import "booklet.typ": *',
            *(f"#let {name} = {name}.with({for_edition})" for name in FOR_EDITION),
            f"#show: booklet.with({told}, points: {edition.points}pt)",
            f"#{{ {_content(page)} }}\n",
        ]
    )
    shown = set(_PICTURE.findall(source))
    files = {
        f"figures/{each.id}.svg": drawn[each.id] if drawn else each.svg.encode("utf-8")
        for each in figures
        if f"{each.id}.svg" in shown
    }
    if where:
        files["figures/corrections.svg"] = _code_of(where)
    return Paper(source=source, files={"booklet.typ": templates.paper, **files})


@functools.lru_cache(maxsize=1)
def _content(page: str) -> str:
    """Return the calls that set a page; its editions, one after the other, share them."""
    return set_elements(page_elements(page)) or literal("")


def _code_of(address: str) -> bytes:
    """Return an address as a QR code (ISO/IEC 18004) with its quiet zone, as SVG."""
    drawn = io.BytesIO()
    segno.make(address, error="m", micro=False).save(drawn, kind="svg", scale=4, border=4, xmldecl=False)
    return drawn.getvalue()


def set_paper(paper: Paper) -> bytes:
    """Set a PDF: tagged, its fonts embedded, with no date, so that the same paper gives the same bytes.

    Raises:
        TemplateError: the template for paper has a fault.

    """
    files: Any = {"main": paper.source.encode("utf-8"), **paper.files}  # files in memory, which its types do not know
    try:
        found = typst.compile(
            files,
            format="pdf",
            ignore_system_fonts=True,
            pdf_standards=["ua-1"],
        )
    except typst.TypstError as fault:
        raise TemplateError(f"{TEMPLATE}: {fault.message}") from None
    assert isinstance(found, bytes)  # noqa: S101 -- one document, one PDF
    return found
