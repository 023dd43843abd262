"""The test form of a size: every stop, every fabric, every part of the work, with room to write."""

from __future__ import annotations

import io

import pypdf
import pytest

from on_paper import assert_light, assert_tagged
from published import SASHED, SMALL, finished, published, read_page
from seamleaf.publishing import EDITIONS, lay_papers, load_templates
from seamleaf.publishing.paper import set_paper
from seamleaf.publishing.paper.sheets import page_elements

TEXTS = {"small": SMALL, "sashed": SASHED}


@pytest.mark.parametrize("name", TEXTS)
def test_every_size_has_a_form_with_all_its_stops_fabrics_and_works(name: str) -> None:
    files, done = published(TEXTS[name], name), finished(TEXTS[name], name)
    for size, booklet in done.booklets.items():
        places = {each.place for each in read_page(files[f"{name}/{size}/tester/index.md"]).shown}
        assert {f"/gates/{index}/h" for index in range(len(booklet.gates))} <= places
        assert {f"/fabrics/{index}/buy/amount" for index in range(len(booklet.fabrics))} <= places
        assert {f"/estimates/time/works/{index}/least" for index in range(len(booklet.estimates.time.works))} <= places


def test_there_is_room_to_write_beside_each_of_them() -> None:
    page = published(SMALL, "small")["small/mat/tester/index.md"].decode()
    booklet = finished(SMALL, "small").booklets["mat"]
    cells = [each for each in page_elements(page).within("input") if each.attributes.get("class") == "sl-cell"]
    parts = 7  # pages of a size that are printed
    assert len(cells) == len(booklet.gates) + 2 * len(booklet.fabrics) + len(booklet.estimates.time.works) + 1 + parts
    assert all(each.attributes["aria-label"] for each in cells)


def test_the_form_stands_on_paper_without_the_other_size() -> None:
    done = finished(SMALL, "small")
    papers = lay_papers(published(SMALL, "small"), done.booklets, done.figures, load_templates(), EDITIONS[:1])
    pdf = set_paper(papers["small/mat/small-mat-tester-a4.pdf"])
    text = " ".join(sheet.extract_text() for sheet in pypdf.PdfReader(io.BytesIO(pdf)).pages)
    assert "Test form" in text
    assert "Small Pond" in text
    assert "Runner" not in text
    assert_light(pdf)
    assert assert_tagged(pdf, "Test form: Small Pond, Mat")["/TH"] > 0
