"""PDF files: the numbers of the page that each was set from, read from the paper."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Final

import markdown
import pytest

from folders import replace_folder
from misprints import PAPER_MISPRINTS, POND, Misprint
from published import SMALL, finished, published
from seamleaf.proof import Finding, prove
from seamleaf.publishing import EDITIONS, load_templates
from seamleaf.publishing.paper import Paper, lay_paper, set_paper

PDF: Final = f"{POND}/{POND.replace('/', '-')}-a4.pdf"


@pytest.fixture(scope="module")
def pond() -> dict[str, bytes]:
    """Return the published files of a small pattern, with its print page as HTML."""
    files = published(SMALL, "pond")
    page = markdown.markdown(files[f"{POND}/print/index.md"].decode(), extensions=["tables"])
    kept = {path: content for path, content in files.items() if not path.endswith(".md")}
    # Links of the page lead to pages that are not built here.
    html = "<article>" + page.replace(" href=", " data-href=") + "</article>"
    return {**kept, f"{POND}/print/index.html": html.encode()}


@pytest.fixture(scope="module")
def paper() -> Paper:
    done = finished(SMALL, "pond")
    page = published(SMALL, "pond")[f"{POND}/print/index.md"].decode()
    return lay_paper(page, done.booklets["mat"], done.figures["mat"], load_templates(), EDITIONS[0])


def findings(root: Path, files: dict[str, bytes]) -> list[Finding]:
    replace_folder(root / "site", files)
    return list(prove(root / "site").findings)


def test_the_paper_says_what_its_page_says(pond: dict[str, bytes], paper: Paper, tmp_path: Path) -> None:
    assert findings(tmp_path, {**pond, PDF: set_paper(paper)}) == []


@pytest.mark.parametrize("misprint", PAPER_MISPRINTS, ids=lambda misprint: misprint.number)
def test_a_misprint_on_paper_is_found(misprint: Misprint, pond: dict[str, bytes], paper: Paper, tmp_path: Path) -> None:
    wrong = misprint.change(paper.source)
    assert wrong != paper.source
    content = set_paper(dataclasses.replace(paper, source=wrong))
    found = {(Path(each.path).name, each.check) for each in findings(tmp_path, {**pond, PDF: content})}
    assert found == {(misprint.file, misprint.check)}


def test_what_is_no_pdf_or_of_no_page_is_told(pond: dict[str, bytes], paper: Paper, tmp_path: Path) -> None:
    assert [each.message for each in findings(tmp_path, {**pond, PDF: b"%PDF-1.7 torn"})] == [
        "a PDF that cannot be read"
    ]
    alone = {path: content for path, content in pond.items() if not path.endswith(".html")}
    found = findings(tmp_path, {**alone, PDF: set_paper(paper)})
    assert [each.message for each in found] == ["a PDF of no page beside it"]
