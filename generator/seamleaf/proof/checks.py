"""All checks of the booklets, figures, pages and PDF files under a folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path, PurePosixPath
from typing import Any

from seamleaf.proof.beds import check_bed
from seamleaf.proof.bonus import check_bonus
from seamleaf.proof.book import Book, open_book
from seamleaf.proof.cliffs import check_cliffs
from seamleaf.proof.cutting import check_cutting
from seamleaf.proof.estimates import check_estimates
from seamleaf.proof.figures import check_figures
from seamleaf.proof.finishing import check_finish
from seamleaf.proof.gates import check_gates
from seamleaf.proof.joining import check_joins
from seamleaf.proof.layout import check_rows, check_set, check_triangles, lay_places
from seamleaf.proof.ledger import check_ledger
from seamleaf.proof.looks import check_turns
from seamleaf.proof.memory import Memory, digest_of
from seamleaf.proof.neighbours import check_colours
from seamleaf.proof.own_report import check_report
from seamleaf.proof.pages import Site
from seamleaf.proof.paper import check_papers
from seamleaf.proof.plain import PlainBooklets
from seamleaf.proof.plane import CoarseError
from seamleaf.proof.pressing import check_pressing
from seamleaf.proof.prints import check_prints
from seamleaf.proof.reading import as_booklet, read_json
from seamleaf.proof.record import Booklet
from seamleaf.proof.report import BOOKLET, FILE, Finding, Findings, ProofReport, Summary, said_of, summaries_of
from seamleaf.proof.sewing import check_sewing
from seamleaf.proof.shapes import OUTLINE, check_shapes
from seamleaf.proof.sizes import check_sizes, check_where
from seamleaf.proof.teaching import check_cautions, check_classes

Each = Callable[[Callable[[Any], Any], Iterable[Any]], Iterable[Any]]
"""How something is done with each of several things: ``map``, or that of a pool of processes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Proved:
    """What came of one ``booklet.json`` and the figures beside it."""

    name: str
    plain: Any
    booklet: Booklet | None
    summary: Summary | None
    found: tuple[Finding, ...]


def check_all(folder: Path, paths: list[Path], each: Each, memory: Memory) -> ProofReport:
    """Sew every booklet again and look at all that lies beside them; see :func:`seamleaf.proof.prove.prove`."""
    proved: list[_Proved] = list(each(partial(_prove_file, memory), paths))
    found = [finding for one in proved for finding in one.found]
    if not paths:
        found.append(Finding(folder.as_posix(), "", f"no {BOOKLET} here or in any folder below", FILE))
    found += check_sizes({one.name: one.booklet for one in proved if one.booklet is not None})
    known = {Path(one.name).relative_to(folder).as_posix(): one.plain for one in proved}
    plain = PlainBooklets(folder, tuple(known), known)
    by_size: dict[tuple[str, ...], list[Path]] = {}  # what looks into the same booklet, in one go
    for page in sorted(folder.rglob("*.html")):
        by_size.setdefault(page.relative_to(folder).parts[:-1][:2], []).append(page)
    found += [finding for one in each(partial(_check_pages, folder, plain), by_size.values()) for finding in one]
    folders = sorted({path.parent for path in paths})
    found += [finding for one in each(partial(_check_papers, memory), folders) for finding in one]
    summaries = tuple(one.summary for one in proved if one.summary is not None)
    return ProofReport(findings=tuple(sorted(set(found))), booklets=summaries)


def _prove_file(memory: Memory, path: Path) -> _Proved:
    name = path.as_posix()
    findings = Findings(name)
    plain = _read(path, findings)
    booklet = None if plain is None else as_booklet(plain, findings)
    summary = None
    found: list[Finding] = []
    if booklet is not None:
        check_where(booklet, PurePosixPath(path.absolute().as_posix()), findings)
        summary = _prove_once(booklet, path, findings, memory)
        figures = sorted(path.parent.glob("figures/*.svg"))
        if figures:
            found = _unless_seen("figures", [path, *figures], path.parent, memory, partial(_look, booklet))
        found += check_report(booklet, summary, path).found
    found += findings.found
    return _Proved(name=name, plain=plain, booklet=booklet, summary=summary, found=tuple(found))


def _prove_once(booklet: Booklet, path: Path, findings: Findings, memory: Memory) -> Summary:
    """Prove a booklet, unless one of the very same bytes was proved before."""
    key = digest_of("booklet", [path], path.parent)
    if (said := memory.recall(key)) is not None:
        return replace(summaries_of(said, path.parent)[0], path=findings.path)
    before = len(findings.found)
    summary = prove_booklet(booklet, findings)
    if len(findings.found) == before:
        memory.keep(key, said_of([summary], path.parent))
    return summary


def _unless_seen(
    what: str, paths: Iterable[Path], folder: Path, memory: Memory, check: Callable[[Path], list[Finding]]
) -> list[Finding]:
    """Return what a check finds in a folder, of which it reads these files; none if it found none in them before."""
    try:
        key = digest_of(what, paths, folder)
    except OSError:
        return check(folder)
    if memory.recall(key) is not None:
        return []
    found = check(folder)
    if not found:
        memory.keep(key, b"")
    return found


def _look(booklet: Booklet, folder: Path) -> list[Finding]:
    return [finding for each in look_at_figures(booklet, folder) for finding in each.found]


def _check_pages(folder: Path, booklets: PlainBooklets, pages: list[Path]) -> list[Finding]:
    return [finding for findings in Site(folder, booklets).check(pages) for finding in findings.found]


def _check_papers(memory: Memory, folder: Path) -> list[Finding]:
    if not any(folder.glob("*.pdf")):
        return []
    read = [path for form in ("*.pdf", "figures/*.svg", "*/index.html") for path in sorted(folder.glob(form))]
    # Which page a PDF is of follows from the names of the two folders above it, so the digest begins there.
    return _unless_seen("papers", read, folder.parent.parent, memory, lambda _: _look_at_papers(folder))


def _look_at_papers(folder: Path) -> list[Finding]:
    return [finding for findings in check_papers(folder) for finding in findings.found]


def _read(path: Path, findings: Findings) -> Any:
    """Return the JSON value of a file, or ``None`` when it holds none, which is reported."""
    try:
        content = path.read_bytes()
    except OSError as error:
        findings.add(FILE, "", f"cannot be read: {error.strerror}")
        return None
    return read_json(content, findings)


def prove_booklet(booklet: Booklet, findings: Findings) -> Summary:
    """Make every check of one booklet that its names and outlines allow."""
    book = open_book(booklet, findings)
    seams = None
    if book is not None:
        check_cutting(book, findings)
        check_ledger(book, findings)
        check_cliffs(book, findings)
        check_bonus(book, findings)
        check_set(book, findings)
        check_rows(book, findings)
        check_gates(book, findings)
        check_estimates(book, findings)
        check_bed(book, findings)
        check_finish(book, findings)
        check_prints(book, findings)
        check_colours(book, findings)
        check_classes(book, findings)
        check_cautions(book, findings)
        try:
            seams = _sew(book, findings)
        except CoarseError:
            findings.add(OUTLINE, "/units", "units turned by 45 degrees inside each other too often")
    return Summary(
        path=findings.path,
        pattern=booklet.pattern.id,
        size=booklet.size.id,
        sheets=sum(sheet.times for sheet in booklet.cutting),
        patches=sum(patch.count for patch in booklet.patches),
        units=sum(unit.count for unit in booklet.units),
        blocks=sum(place.kind == "block" for place in booklet.places),
        seams=seams or 0,
        match_points=booklet.pressing.match_points,
        nested=booklet.pressing.nested,
    )


def look_at_figures(booklet: Booklet, folder: Path) -> list[Findings]:
    """Look at the figures of a booklet whose names hold; the fault of names is told by its own proof."""
    book = open_book(booklet, Findings(""))
    return [] if book is None else check_figures(book, folder)


def _sew(book: Book, findings: Findings) -> int | None:
    """Sew the units, lay them out, join and press; later steps need the earlier ones to hold."""
    shapes = check_shapes(book, findings)
    if shapes is None:
        return None
    check_sewing(book, findings)
    check_turns(book, shapes, findings)
    laid = lay_places(book, shapes, findings)
    if laid is None:
        return None
    check_triangles(book, laid, findings)
    return check_pressing(book, shapes, check_joins(book, laid, findings), findings)
