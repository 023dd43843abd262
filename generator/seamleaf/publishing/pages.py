"""Booklets and figures to the pages of one pattern: an ordered mapping of path to bytes.

Every page is an ``index.md`` in a folder of its own, so that its place in the site, and with it every relative
link, is the same whichever way MkDocs writes addresses.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from seamleaf.booklet import Booklet, as_plain, with_backing_called
from seamleaf.drawing import Figure
from seamleaf.lengths import Measures
from seamleaf.publishing.class_view import class_views
from seamleaf.publishing.cutting_view import cutting_view
from seamleaf.publishing.data import BOOKLET_FILE, booklet_files
from seamleaf.publishing.estimate_view import estimate_view
from seamleaf.publishing.fabric_view import FabricView, fabric_views
from seamleaf.publishing.finishing_view import finishing_view
from seamleaf.publishing.gate_view import gate_views
from seamleaf.publishing.glossary import GLOSSARY, Glossary
from seamleaf.publishing.layout_view import layout_view
from seamleaf.publishing.numbers import Numbers
from seamleaf.publishing.own_view import SCRIPTS, has_own_prints, own_prints_data
from seamleaf.publishing.paper import Edition, Paper, lay_paper, paper_path
from seamleaf.publishing.pictures import Pictures, figure_path
from seamleaf.publishing.piecing_view import unit_views
from seamleaf.publishing.report_view import report_view
from seamleaf.publishing.techniques import techniques
from seamleaf.publishing.templates import Templates
from seamleaf.publishing.titles import FIRST, OWN_PRINTS, REPORT, STAGES, TESTER, class_folder, front_matter
from seamleaf.publishing.versions_view import note_view
from seamleaf.publishing.wording import Wording
from seamleaf.reading.pattern import Pattern
from seamleaf.versions import Note

if TYPE_CHECKING:
    from markupsafe import Markup

HISTORY: Final = "version_history"
"""Folder of the page of versions; no size can have this name."""
_PAPER: Final = "print"
_NEW_SHEETS: Final = ("glance", "buy", "prepare", "cut", "piece", "layout", "finish")
_BED: Final = "bed"
"""Kind of the figures that show all sizes to one scale."""
_BED_LEAST: Final = 140.0
"""Points that stand for the whole width of a card where every size is small."""
_SWATCHES: Final = 14
"""How many colours of a bundle a swatch shows at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One page of a size in its bar of stages."""

    name: str
    title: Markup
    folder: str
    """Folder below the size's; empty for the first page."""
    printed: bool
    """Whether the print page holds it."""
    new_sheet: bool
    """Whether it begins a new sheet of paper, because its pages lie at another table."""

    @property
    def path(self) -> str:
        """Folder with a slash, as links need it."""
        return f"{self.folder}/" if self.folder else ""


def publish_pattern(
    pattern: Pattern,
    booklets: Mapping[str, Booklet],
    figures: Mapping[str, Sequence[Figure]],
    templates: Templates,
    *,
    proved: bool = False,
    history: bool = False,
    editions: Sequence[Edition] = (),
) -> dict[str, bytes]:
    """Publish a pattern in all its sizes.

    Args:
        editions: the PDF files that the pages of each size lead to; see :func:`lay_papers`.
        proved: whether the pages may say that a proof holds, since nothing is published without it.
        history: whether a page of versions goes with it, see :func:`publish_versions`.

    Returns:
        Path below the site's root to content: pages, figures, data.

    Raises:
        TemplateError: a template fails.

    """
    files = publish_overview(pattern, booklets, figures, templates, proved=proved, history=history)
    for size, booklet in booklets.items():
        files |= publish_size(pattern, booklet, figures[size], templates, proved=proved, editions=editions)
    return files


def publish_overview(
    pattern: Pattern,
    booklets: Mapping[str, Booklet],
    figures: Mapping[str, Sequence[Figure]],
    templates: Templates,
    *,
    proved: bool = False,
    history: bool = False,
) -> dict[str, bytes]:
    """Publish the page of a pattern with all its sizes; see :func:`publish_pattern`.

    Raises:
        TemplateError: a template fails.

    """
    told = {size: _told(booklet, templates) for size, booklet in booklets.items()}
    page = _pattern_page(pattern, told, figures, templates, proved=proved, history=history)
    return {f"{pattern.id}/index.md": page}


def publish_size(
    pattern: Pattern,
    booklet: Booklet,
    figures: Sequence[Figure],
    templates: Templates,
    *,
    proved: bool = False,
    editions: Sequence[Edition] = (),
) -> dict[str, bytes]:
    """Publish one size of a pattern: its pages, its data and its figures; see :func:`publish_pattern`.

    Raises:
        TemplateError: a template fails.

    """
    told = _told(booklet, templates)
    folder = f"{pattern.id}/{booklet.size.id}/"
    data = booklet_files(pattern.id, {booklet.size.id: booklet})
    record = data[folder + BOOKLET_FILE]
    pages = _size_pages(told, record, figures, pattern.measures, templates, editions, proved=proved)
    files = {folder + path: text for path, text in pages.items()} | data
    return files | {folder + figure_path(figure): figure.svg.encode("utf-8") for figure in figures}


def _told(booklet: Booklet, templates: Templates) -> Booklet:
    return with_backing_called(booklet, templates.wording.words.say("fabrics.backing"))


def lay_papers(
    files: Mapping[str, bytes],
    booklets: Mapping[str, Booklet],
    figures: Mapping[str, Sequence[Figure]],
    templates: Templates,
    editions: Sequence[Edition],
    address: str = "",
) -> dict[str, Paper]:
    """Prepare the PDF files of a pattern, by path, from the files that :func:`publish_pattern` gave.

    Args:
        address: where the site will be, so that paper leads to its corrections; empty when nobody knows.

    """
    papers: dict[str, Paper] = {}
    for size, booklet in booklets.items():
        folder = f"{booklet.pattern.id}/{size}/"
        drawn = {figure.id: figure.svg.encode("utf-8") for figure in figures[size]}
        for stem, (part, title) in _sheets(booklet, templates).items():
            page = files[f"{folder}{part}/index.md"].decode("utf-8")
            for edition in editions:
                paper = lay_paper(page, booklet, figures[size], templates, edition, title, address, drawn=drawn)
                papers[folder + paper_path(stem, edition)] = paper
    return papers


def paper_paths(booklets: Mapping[str, Booklet], templates: Templates, editions: Sequence[Edition]) -> list[str]:
    """Return the paths that :func:`lay_papers` gives, without its work."""
    return [
        f"{booklet.pattern.id}/{size}/{paper_path(stem, edition)}"
        for size, booklet in booklets.items()
        for stem in _sheets(booklet, templates)
        for edition in editions
    ]


def _sheets(booklet: Booklet, templates: Templates) -> dict[str, tuple[str, str]]:
    """Return the PDF files of a size, by name without the paper: which page each is set from, and its title."""
    say = templates.wording.say
    sheets = {booklet_file(booklet): (_PAPER, "")}
    sheets[f"{booklet_file(booklet)}-{TESTER}"] = (TESTER, say("tester.title").unescape())
    for each in booklet.classes:
        sheets[class_file(booklet, each.id)] = (class_folder(each.id), say("class.page", title=each.title).unescape())
    return sheets


def booklet_file(booklet: Booklet) -> str:
    """Return what the PDF files of a size are called, without the paper; the name says what it is anywhere."""
    return f"{booklet.pattern.id}-{booklet.size.id}"


def publish_versions(pattern: Pattern, notes: Sequence[Note], templates: Templates) -> dict[str, bytes]:
    """Return the page of a pattern's versions with their corrections; ``notes`` from the first version to this one.

    Raises:
        TemplateError: the template fails.

    """
    wording = templates.wording
    text = templates.render(
        "pages/versions.md.jinja",
        chrome=front_matter,
        pattern=pattern,
        title=wording.say("change.page"),
        browser_title=wording.say("change.browser", pattern=pattern.title),
        notes=[note_view(note, wording, pattern.versions.get(note.new, ""), "../") for note in reversed(notes)],
        first=notes[0].old if notes else pattern.version,
    )
    return {f"{pattern.id}/{HISTORY}/index.md": text.encode("utf-8")}


def publish_fault(pattern_id: str, title: str, problems: Sequence[str], templates: Templates) -> dict[str, bytes]:
    """Return the one page of a pattern that cannot be published: what is wrong, and where."""
    text = templates.render("pages/fault.md.jinja", chrome=front_matter, title=title, problems=problems)
    return {f"{pattern_id}/index.md": text.encode("utf-8")}


def _size_pages(
    booklet: Booklet,
    record: bytes,
    figures: Sequence[Figure],
    measures: Measures,
    templates: Templates,
    editions: Sequence[Edition],
    *,
    proved: bool,
) -> dict[str, bytes]:
    wording = templates.wording
    numbers = Numbers(as_plain(booklet), measures, wording)
    stages = [
        Stage(
            name=name,
            title=wording.say(f"page.{name}"),
            folder="" if name == FIRST else name,
            printed=name != _PAPER,
            new_sheet=name in _NEW_SHEETS,
        )
        for name in STAGES
    ]
    book = {"pattern": booklet.pattern.title, "size": booklet.size.title}
    courses = class_views(booklet)
    context = {
        **_numbers(numbers),
        "chrome": front_matter,
        "pattern": booklet.pattern,
        "size_title": booklet.size.title,
        "book": wording.say("page.book", **book),
        "set": "strippy" if booklet.set.run == "down" else booklet.set.kind,
        "metric": booklet.unit == "cm",
        "covers_bed": booklet.size.cover is not None,
        "tucks": booklet.size.cover is not None and bool(booklet.size.cover.tuck),
        "stages": stages,
        "swatches": _SWATCHES,
        "fabrics": fabric_views(booklet),
        "units": unit_views(booklet),
        "cutting": cutting_view(booklet),
        "layout": layout_view(booklet),
        "gates": gate_views(booklet),
        "estimate": estimate_view(booklet),
        "finishing": finishing_view(booklet),
        "cautions": booklet.cautions,
        "papers": _paper_links(booklet_file(booklet), editions, wording),
        "courses": courses,
        "proved": proved,
        "own_prints": has_own_prints(booklet),
    }
    pages: dict[str, bytes] = {}
    glossary = Glossary(wording)
    used: set[str] = set()
    for number, stage in enumerate(stages):
        up = "../" if stage.folder else ""
        text = templates.render(
            f"pages/{stage.name if stage.name in (FIRST, _PAPER) else 'stage'}.md.jinja",
            **context,
            pictures=Pictures(figures, up),
            up=up,
            stage=stage.name,
            next=stages[number + 1] if number + 1 < len(stages) else None,
            back=stages[number - 1] if number else None,
            title=stage.title,
            browser_title=wording.say("page.browser", page=stage.title, **book)
            if stage.folder
            else wording.say("page.book", **book),
            paper=stage.name == _PAPER,
            terms=() if stage.printed else glossary.terms(used),  # of the stages before
        )
        if stage.printed:  # on paper there is nothing to follow
            text, met = glossary.linked(text, f"{up}{GLOSSARY}/index.html")
            used |= met
        pages[f"{stage.path}index.md"] = text.encode("utf-8")
    if has_own_prints(booklet):
        title = wording.say("own.title")
        text = templates.render(
            "pages/prints.md.jinja",
            **context,
            up="../",
            stage=OWN_PRINTS,
            title=title,
            browser_title=wording.say("page.browser", page=title, **book),
            paper=False,
            data=own_prints_data(booklet, wording),
            scripts=SCRIPTS,
        )
        pages[f"{OWN_PRINTS}/index.md"] = text.encode("utf-8")
    title = wording.say("glossary.title")
    text = templates.render(
        "pages/words.md.jinja",
        **context,
        terms=glossary.terms(used),
        up="../",
        stage=GLOSSARY,
        title=title,
        browser_title=wording.say("page.browser", page=title, **book),
        paper=False,
    )
    pages[f"{GLOSSARY}/index.md"] = text.encode("utf-8")
    title = wording.say("tester.title")
    text = templates.render(
        "pages/tester.md.jinja",
        **{**context, "papers": _paper_links(f"{booklet_file(booklet)}-{TESTER}", editions, wording, "tester.")},
        title=title,
        browser_title=wording.say("page.browser", page=title, **book),
        paper=False,
    )
    pages[f"{TESTER}/index.md"] = text.encode("utf-8")
    for course in courses:
        text = templates.render(
            "pages/class.md.jinja",
            **{**context, "papers": _paper_links(class_file(booklet, course.id), editions, wording, "class.")},
            pictures=Pictures(figures, "../"),
            course=course,
            terms=glossary.terms(used),
            browser_title=wording.say("page.browser", page=wording.say("class.page", title=course.title), **book),
            paper=False,
        )
        pages[f"{class_folder(course.id)}/index.md"] = text.encode("utf-8")
    if proved:
        papers = len(_sheets(booklet, templates)) * len(editions)
        title = wording.say("proof.report")
        text = templates.render(
            "pages/report.md.jinja",
            **context,
            report=report_view(booklet, record, pages=len(pages) + 1, figures=len(figures), papers=papers),
            title=title,
            browser_title=wording.say("page.browser", page=title, **book),
        )
        pages[f"{REPORT}/index.md"] = text.encode("utf-8")
    return pages


def class_file(booklet: Booklet, class_id: str) -> str:
    """Return what the PDF files of a class are called, without the paper."""
    return f"{booklet.pattern.id}-{booklet.size.id}-{class_folder(class_id)}"


def _paper_links(stem: str, editions: Sequence[Edition], wording: Wording, kind: str = "") -> list[tuple[str, Markup]]:
    """Return the PDF files that a page leads to, each with its title; ``kind`` is that of a part, with a dot."""
    return [(paper_path(stem, each), wording.say(f"paper.{kind}{each.id}")) for each in editions]


def _pattern_page(
    pattern: Pattern,
    booklets: Mapping[str, Booklet],
    figures: Mapping[str, Sequence[Figure]],
    templates: Templates,
    *,
    proved: bool,
    history: bool,
) -> bytes:
    sizes = [size_card(booklet, figures[size], pattern, templates, f"{size}/") for size, booklet in booklets.items()]
    widest = max(_BED_LEAST, *(size["wide"] for size in sizes))
    for size in sizes:  # how much of a card's width its picture takes, so that all are to one scale
        size["share"] = f"{100 * size['wide'] / widest:.1f}"
    text = templates.render(
        "pages/pattern.md.jinja",
        chrome=front_matter,
        pattern=pattern,
        sizes=sizes,
        fabrics=_fabrics_of_all(booklets),
        techniques=techniques(booklets.values()),
        swatches=_SWATCHES,
        proved=proved,
        history=f"{HISTORY}/index.html" if history else "",
        paper=False,
    )
    return text.encode("utf-8")


def _fabrics_of_all(booklets: Mapping[str, Booklet]) -> list[FabricView]:
    """Return the fabrics of all sizes in the order of their letters, since the first size may do without some."""
    views = {view.id: view for booklet in booklets.values() for view in fabric_views(booklet)}
    return sorted(views.values(), key=lambda view: (len(view.letter), view.letter))


def size_card(
    booklet: Booklet, figures: Sequence[Figure], pattern: Pattern, templates: Templates, folder: str
) -> dict[str, Any]:
    """Return what a page outside a size's folder shows of that size; its numbers point into that folder."""
    document = as_plain(booklet)
    numbers = Numbers(document, pattern.measures, templates.wording, f"{folder}{BOOKLET_FILE}#")
    return {
        **_numbers(numbers),
        "title": booklet.size.title,
        "href": f"{folder}index.html",
        "report": f"{folder}{REPORT}/index.html",
        "pictures": Pictures(figures, folder),
        "fabrics": {view.id: view for view in fabric_views(booklet)},
        "estimate": estimate_view(booklet),
        "wide": max((figure.width for figure in figures if figure.kind == _BED), default=1.0),
        "points": booklet.pressing.match_points > 0,
    }


def _numbers(numbers: Numbers) -> dict[str, Any]:
    names = ("num", "size", "cut", "box", "cut_box", "amount", "hours", "source", "word")
    return {name: getattr(numbers, name) for name in names}
