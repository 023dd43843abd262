"""Prove every booklet under a folder."""

from __future__ import annotations

from pathlib import Path, PurePosixPath
from typing import Any, Final

from seamleaf.proof.book import Book, open_book
from seamleaf.proof.cutting import check_cutting
from seamleaf.proof.figures import check_figures
from seamleaf.proof.finishing import check_finish
from seamleaf.proof.gates import check_gates
from seamleaf.proof.joining import check_joins
from seamleaf.proof.layout import check_rows, check_set, check_triangles, lay_places
from seamleaf.proof.ledger import check_ledger
from seamleaf.proof.looks import check_turns
from seamleaf.proof.neighbours import check_colours
from seamleaf.proof.pages import Site
from seamleaf.proof.plane import CoarseError
from seamleaf.proof.pressing import check_pressing
from seamleaf.proof.prints import check_prints
from seamleaf.proof.reading import as_booklet, read_json
from seamleaf.proof.record import Booklet
from seamleaf.proof.report import Finding, Findings, ProofReport, Summary
from seamleaf.proof.sewing import check_sewing
from seamleaf.proof.shapes import OUTLINE, check_shapes
from seamleaf.proof.sizes import check_sizes, check_where
from seamleaf.proof.teaching import check_cautions, check_classes

FILE: Final = "file"
BOOKLET: Final = "booklet.json"


def prove(folder: Path) -> ProofReport:
    """Sew every published booklet under a folder again, and look every number of the pages beside them up.

    Args:
        folder: a built site, or what holds ``<pattern>/<size>/booklet.json``.

    Returns:
        All findings. A folder without a booklet is a finding, since nothing in it was proved.

    """
    found: list[Finding] = []
    summaries: list[Summary] = []
    booklets: dict[str, Booklet] = {}
    plain: dict[str, Any] = {}
    paths = sorted(path for path in folder.rglob(BOOKLET) if path.is_file())
    if not paths:
        found.append(Finding(folder.as_posix(), "", f"no {BOOKLET} here or in any folder below", FILE))
    for path in paths:
        name = path.as_posix()
        findings = Findings(name)
        value = _read(path, findings)
        plain[path.relative_to(folder).as_posix()] = value
        booklet = None if value is None else as_booklet(value, findings)
        if booklet is not None:
            booklets[name] = booklet
            check_where(booklet, PurePosixPath(path.absolute().as_posix()), findings)
            summaries.append(prove_booklet(booklet, findings))
            for each in look_at_figures(booklet, path.parent):
                found += each.found
        found += findings.found
    found += check_sizes(booklets)
    for page in Site(folder, plain).check():
        found += page.found
    return ProofReport(findings=tuple(sorted(set(found))), booklets=tuple(summaries))


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
        check_set(book, findings)
        check_rows(book, findings)
        check_gates(book, findings)
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
