"""Templates of a designer's own: copied with a head that says what they are given, and told of when they are old.

A copy carries a mark of the template that it was made from. Where the packaged one has changed since, the copy may lack
what a booklet now says, so whoever keeps it is told.
"""

from __future__ import annotations

import hashlib
import importlib.resources
import re
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Final

import jinja2
from jinja2 import meta, nodes

from seamleaf.publishing.templates import PACKAGE, template_files

CONTEXT: Final = {
    "book": "the title of the booklet: pattern and size",
    "browser_title": "the title of the page for a browser's tab",
    "card": "a pattern of the gallery, with its sizes",
    "cards": "the patterns of the gallery, each as card.md.jinja has set it",
    "cautions": "the cautions that the booklet asks for, by id",
    "chrome": "writes a title for the front matter",
    "course": "the class that the page is for",
    "courses": "the classes that sew the size",
    "covers_bed": "whether the size is made for a bed",
    "cutting": "what is cut: fabrics with their sheets, pieces and triangles",
    "data": "what the scripts of the page reckon with, as JSON",
    "estimate": "thread and hours",
    "fabrics": "the fabrics of the booklet, with letters, prints and purchases",
    "finishing": "borders, binding, back and batting",
    "first": "the first version that was kept",
    "gates": "where to stop and measure",
    "handout": "the sheet of the class that is shown",
    "history": "the address of the page of versions, or nothing",
    "layout": "the set: places, rows, prints and how rows are joined",
    "m": "the macros of macros.md.jinja",
    "metric": "whether the pattern is in centimetres",
    "next": "the stage that follows, if any",
    "note": "one correction note",
    "notes": "the correction notes, the newest first",
    "own_prints": "whether the size has a page for a maker's own prints",
    "paper": "whether the page is the one to print",
    "papers": "the PDF files of the size, each with its address and title",
    "pattern": "the pattern: title, version, designer, summary, skill",
    "pictures": "the figures; pictures.of(kind) gives those of a kind, each with address, text and size",
    "problems": "the problems, a line each",
    "proved": "whether the proof was made",
    "report": "what was proved of the size, each with its count, and the digest of the booklet",
    "scripts": "the scripts of the page, in order",
    "sections": "the sections of the reference, each with its entries",
    "set": "the kind of set",
    "size_title": "the title of the size",
    "sizes": "one card a size",
    "back": "the stage before this one, if any",
    "techniques": "what the pattern takes beyond straight seams between patches",
    "terms": "the words of the glossary that the size uses",
    "stage": "the name of this stage",
    "stages": "all stages, each with title and folder",
    "swatches": "how many colours of a bundle are shown at most",
    "text": "the text of the example",
    "title": "the title of the page",
    "tucks": "whether some of the quilt is tucked under a pillow",
    "units": "the units in sewing order, each with what it takes and its steps",
    "up": "the way to the folder of the size: nothing, or ../",
    "amount": "writes a purchase from its place in the booklet",
    "box": "writes width and height from their place in the booklet",
    "cut": "writes a cut size from its place in the booklet",
    "cut_box": "writes a cut width and height from their place in the booklet",
    "hours": "writes hours from their place in the booklet",
    "num": "writes a count from its place in the booklet",
    "size": "writes a length from its place in the booklet",
    "source": "writes what a fabric is bought as",
    "word": "writes a word of the booklet from its place",
}
"""What templates are given, by name."""

_MARK: Final = re.compile(r"Copied from Seamleaf \S+, ([0-9a-f]{12})\b")
_HEAD: Final = 1000
"""Characters at the start of a copy in which its mark stands."""
_COMMENTS: Final = {
    ".jinja": ("{#- ", " -#}"), ".css": ("/* ", " */"), ".js": ("/* ", " */"), ".typ": ("// ", ""), ".yaml": ("# ", ""),
}  # fmt: skip
_NOT_PAGES: Final = ("starter/", "theme/")


@dataclass(frozen=True, slots=True, kw_only=True)
class Replaceable:
    """A packaged template that a file of one's own may stand for."""

    name: str
    """Its path below the folder."""
    about: str
    """What it is for, as its own head says."""
    context: tuple[str, ...]
    """What it asks for by name; empty for what is no page."""
    content: bytes

    @property
    def digest(self) -> str:
        """Tell this content from any other."""
        return hashlib.sha256(self.content).hexdigest()[:12]

    def copied(self) -> bytes:
        """Return a copy to change, with a head that says what it was made from and what it is given."""
        begin, end = _COMMENTS[Path(self.name).suffix]
        given = f" It is given: {', '.join(self.context)}." if self.context else ""
        head = f"{begin}Copied from Seamleaf {version('seamleaf')}, {self.digest}.{given}{end}\n"
        return head.encode("utf-8") + self.content


def replaceable_templates() -> dict[str, Replaceable]:
    """Return every template that may be replaced, by name; sentences are not, for they are changed one by one."""
    environment = jinja2.Environment(autoescape=True)
    found: dict[str, Replaceable] = {}
    for name, content in template_files(importlib.resources.files(PACKAGE)):
        if name.startswith(("wording.", *_NOT_PAGES)):
            continue
        context: set[str] = set()
        if name.endswith(".jinja"):
            tree = environment.parse(content.decode("utf-8"))
            own = {node.name for node in tree.find_all(nodes.Name) if node.ctx == "store"}
            context = meta.find_undeclared_variables(tree) - own - {"say"}
        about = _about(content.decode("utf-8"), *_COMMENTS[Path(name).suffix])
        found[name] = Replaceable(name=name, about=about, context=tuple(sorted(context)), content=content)
    return found


def notes_on_own(own: Path) -> list[str]:
    """Say which files of a folder of one's own are older than what they stand for, or stand for nothing."""
    known = replaceable_templates()
    texts = {name: content.decode("utf-8", "replace") for name, content in template_files(own)}
    notes: list[str] = []
    for name, text in texts.items():
        mark = _MARK.search(text[:_HEAD])
        packaged = known.get(name)
        if mark is not None and packaged is None:
            notes.append(f"{own}/{name} is a copy of a template that is no more; nothing uses it")
        elif packaged is not None and mark is not None and mark[1] != packaged.digest:
            notes.append(f"{own}/{name} is a copy of an older template; see what has changed since in a fresh copy")
        elif packaged is None and name.endswith(".jinja") and not any(name in other for other in texts.values()):
            notes.append(f"{own}/{name} stands for no template and no other file uses it; is its path misspelt?")
    return notes


def _about(text: str, begin: str, end: str) -> str:
    """Return the comment that a file begins with."""
    if not text.startswith(begin):
        return ""
    if end:
        return " ".join(text[len(begin) :].partition(end)[0].split())
    lines = []
    for line in text.splitlines():
        if not line.startswith(begin):
            break
        lines.append(line.removeprefix(begin).strip())
    return " ".join(lines)
