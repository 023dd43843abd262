"""The booklet on paper: what its pages say, tagged, on both papers, light on ink, and always the same bytes."""

from __future__ import annotations

import ctypes
import functools
import io
import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

import cairosvg
import numpy as np
import pypdf
import pypdfium2
import pytest
import segno
from PIL import Image

from on_paper import assert_light, assert_tagged, grey_sheets, structure_of
from published import DEMO, METRIC, SASHED, SMALL, WAYS, finished, published
from seamleaf.publishing import EDITIONS, Edition, load_templates
from seamleaf.publishing.paper import Paper, lay_paper, set_paper
from seamleaf.publishing.paper.elements import Element, read_elements
from seamleaf.publishing.paper.setting import literal, set_elements
from seamleaf.publishing.paper.sheets import page_elements

A4, LETTER, LARGE = EDITIONS
TEXTS = {DEMO.stem: DEMO.read_text(encoding="utf-8"), "ways": WAYS, "sashed": SASHED, "metric": METRIC, "small": SMALL}
MM = 72 / 25.4
SAFE = 12 * MM
"""No printer of the trade reaches nearer to an edge (common practice, no source)."""


class Printed:
    """One PDF with the page that it was set from."""

    def __init__(self, name: str, size: str, edition: Edition) -> None:
        done = finished(TEXTS[name], name)
        page = published(TEXTS[name], name)[f"{name}/{size}/print/index.md"].decode("utf-8")
        self.booklet, self.others = done.booklets[size], [each for each in done.booklets if each != size]
        self.paper: Paper = lay_paper(page, self.booklet, done.figures[size], load_templates(), edition)
        self.pdf = set_paper(self.paper)
        self.reader = pypdf.PdfReader(io.BytesIO(self.pdf))
        self.points = edition.points
        self.sized: list[tuple[str, float]] = []
        """What stands on the sheets, piece by piece, with the height of its letters in points."""
        self.texts = [sheet.extract_text(visitor_text=self._keep) for sheet in self.reader.pages]
        self.page = page_elements(page)

    def _keep(self, text: str, moved: list[float], placed: list[float], _: object, size: float) -> None:
        self.sized.append((text, abs(size * placed[3] * moved[3])))

    def sheets(self, scale: float) -> Iterator[Any]:
        """Yield the sheets as grey pictures."""
        yield from grey_sheets(self.pdf, scale)


@functools.cache
def print_once(name: str, size: str, edition: Edition) -> Printed:
    """Print a size, or return what was printed."""
    return Printed(name, size, edition)


@pytest.fixture(scope="module", params=[A4, LETTER, LARGE], ids=lambda edition: edition.id)
def printed(request: pytest.FixtureRequest) -> Printed:
    return print_once(DEMO.stem, "crib", request.param)


@pytest.fixture(scope="module", params=["ways", "sashed", "metric"])
def other(request: pytest.FixtureRequest) -> Printed:
    return print_once(request.param, {"ways": "small", "sashed": "mat", "metric": "mat"}[request.param], A4)


def bare(text: str) -> str:
    """Leave out what setting may change: spaces, and how a fraction is written."""
    return re.sub(r"[\s\u2060]", "", text.replace("⁄", "/"))


def numbers_of(element: Element) -> Counter[str]:
    """Count the numbers that a page shows in data elements, without those of what is left out on paper."""
    return Counter(bare(each.text()) for each in element.within("data"))


def test_every_number_of_the_page_stands_on_the_sheets_as_often(printed: Printed) -> None:
    whole = bare("".join(printed.texts))
    for number, count in numbers_of(printed.page).items():
        assert whole.count(number) >= count, number


def test_every_number_of_other_patterns_as_well(other: Printed) -> None:
    whole = bare("".join(other.texts))
    for number, count in numbers_of(other.page).items():
        assert whole.count(number) >= count, number


def test_no_other_size_is_named(printed: Printed) -> None:
    titles = [finished(TEXTS[DEMO.stem], DEMO.stem).booklets[each].size.title for each in printed.others]
    whole = " ".join(printed.texts)
    assert [title for title in titles if re.search(rf"\b{re.escape(title)}\b", whole)] == []


def test_each_sheet_says_what_it_belongs_to_and_where(printed: Printed) -> None:
    for number, text in enumerate(printed.texts, start=1):
        assert f"{number}/{len(printed.texts)}" in bare(text)
        assert printed.booklet.pattern.title in text
        assert printed.booklet.pattern.version in text


def test_whatever_is_read_at_the_table_is_as_large_as_the_edition_says(printed: Printed) -> None:
    """12 points or more, 18 in the large print: each paragraph, point and cell; only running heads are smaller."""
    whole = bare("".join(text for text, size in printed.sized if size >= printed.points - 0.01))
    left_out = {"sl-screen", "sl-done", "sl-narrow", "sl-imprint"}
    steered = {id(each) for nav in printed.page.within("nav") for each in nav.within("p", "li")}
    for each in printed.page.within("p", "li", "td", "th", "dt", "dd"):
        if id(each) not in steered and not each.classes & left_out and not any(each.within("p", "li")):
            for word in each.text().split():
                assert bare(word) in whole, each.text()


def test_each_fabric_is_cut_from_a_sheet_of_its_own(printed: Printed) -> None:
    heads = [bare(each.text()) for each in printed.page.within("h3") if each.text().startswith("Fabric ")][1:]
    starts = [number for head in heads for number, text in enumerate(printed.texts) if head in bare(text)]
    assert len(starts) == len(heads) == len(printed.booklet.fabrics)
    assert starts == sorted(set(starts))


def test_the_words_of_the_trade_stand_at_the_end(printed: Printed) -> None:
    (words,) = (each for each in printed.page.within("dl") if "sl-words" in each.classes)
    assert len(list(words.within("dt"))) > 10
    start = printed.reader.get_destination_page_number(printed.reader.outline[-1]) or 0
    end = bare("".join(printed.texts[start:]))
    assert [each.text() for each in words.within("dt", "dd") if bare(each.text()) not in end] == []


@pytest.mark.parametrize(("name", "size"), [(DEMO.stem, "crib"), ("metric", "mat"), ("sashed", "mat")])
def test_no_fact_and_no_word_is_split_in_the_large_print(name: str, size: str) -> None:
    """What is said of a fact stands on the sheet on which it is named, from its first line to its last."""
    printed = print_once(name, size, LARGE)
    sheets = [bare(text) for text in printed.texts]
    facts = [
        (bare(term.text()), bare(said.text()))
        for each in printed.page.within("dl")
        for term, said in zip(each.within("dt"), each.within("dd"), strict=True)
    ]
    assert len(facts) > 15
    assert [term for term, said in facts if not any(term + said in sheet for sheet in sheets)] == []


def test_no_step_is_split(printed: Printed) -> None:
    """All lines of a step stand on one sheet; a large print may hold a step that is taller than one."""
    sheets = [bare(text) for text in printed.texts]
    split = []
    steps = [each for each in printed.page.within("div") if "sl-step" in each.classes]
    for step in steps:
        after = {
            id(line) for each in step.within("div") if "sl-stop" in each.classes for line in each.within("p", "li")
        }
        lines = [
            bare(line.text())
            for line in step.within("p", "li")
            if id(line) not in after and "sl-done" not in line.classes and line.text().strip()
        ]
        if not any(all(line in sheet for line in lines) for sheet in sheets):
            split.append(lines[0])
    assert len(steps) > 10
    assert len(split) <= (3 if printed.paper.source.count("18pt") else 0), split


def test_nothing_lies_where_a_printer_does_not_reach(printed: Printed) -> None:
    scale = 1.0
    edge = int(SAFE * scale)
    for sheet in printed.sheets(scale):
        assert sheet[edge:-edge, edge:-edge].min() < 128, "an empty sheet"
        inner = sheet.copy()
        inner[edge:-edge, edge:-edge] = 255
        assert inner.min() > 250


def test_the_square_measures_an_inch_and_the_bar_five_centimetres(printed: Printed) -> None:
    """Paths of the sheet with the seam test, in points of 1/72 in: within 0.01 in."""
    document = pypdfium2.PdfDocument(printed.pdf)
    sizes = []
    sheet = next(number for number, text in enumerate(printed.texts) if "This square must measure" in text)
    for thing in document[sheet].get_objects():
        left, bottom, right, top = thing.get_bounds()
        stroke = ctypes.c_float()
        pypdfium2.raw.FPDFPageObj_GetStrokeWidth(thing, stroke)
        sizes.append((right - left, top - bottom, stroke.value))
    document.close()
    # The bounds hold the pen, twice round a closed path.
    assert any(abs(w - 2 * pen - 72) < 0.72 and abs(h - 2 * pen - 72) < 0.72 for w, h, pen in sizes), sizes
    assert any(abs(w - pen - 50 * MM) < 0.72 for w, _, pen in sizes), sizes


def test_the_sheets_are_light_on_ink() -> None:
    for name, size in ((DEMO.stem, "crib"), ("sashed", "mat")):
        assert_light(print_once(name, size, A4).pdf)


def test_the_file_is_tagged_for_readers_who_hear_it(printed: Printed) -> None:
    kinds = assert_tagged(printed.pdf, "Lamplight Crossing, Crib")
    assert kinds["/Figure"] >= sum(1 for _ in printed.page.within("img")) > 20
    assert kinds["/H1"] == sum(1 for _ in printed.page.within("h2")) == 10
    assert kinds["/TH"] > 0
    assert len(printed.reader.outline) > 5


def test_the_cover_tells_on_which_sheets_each_part_lies(printed: Printed) -> None:
    """Every part begins a sheet, so that it can be printed alone, unless the last sheet is all but empty."""
    parts = [each for each in printed.reader.outline if not isinstance(each, list)]
    heads = [bare(str(each.title)) for each in parts]
    assert heads == [bare(each.text()) for each in printed.page.within("h2")]
    cover = bare(printed.texts[0])
    starts = [(printed.reader.get_destination_page_number(each) or 0) + 1 for each in parts]
    height = float(printed.reader.pages[0].mediabox.height)
    above = [(height - float(each["/Top"])) / height for each in parts]  # of a sheet, before the part begins
    assert starts == sorted(set(starts))
    assert max(above) < 0.42
    ends = [after - (gone < 0.12) for after, gone in zip(starts[1:], above[1:], strict=True)] + [len(printed.texts)]
    for head, first, last in zip(heads, starts, ends, strict=True):
        assert (f"{head}{first}–{last}" if last > first else f"{head}{first}") in cover, cover


def test_a_part_stands_below_the_last_lines_of_the_one_before() -> None:
    """In the large print of the crib what is left of the fabrics takes a third of a sheet, and sewing begins there."""
    printed = print_once(DEMO.stem, "crib", LARGE)
    (sheet,) = [text for text in printed.texts[1:] if "What is left" in text]
    assert "Sew the blocks" in sheet


def test_no_row_of_a_long_table_is_torn() -> None:
    """The timeline of a class runs over sheets, and what is to be shown in a lesson was found on two of them."""
    done = finished(SMALL, "pond")
    cells = [" ".join(f"w{row}.{word}" for word in range(40 + row)) for row in range(40)]
    rows = "".join(f"<tr><td>{row}</td><td>{cell}</td></tr>" for row, cell in enumerate(cells))
    page = f"# T\n\n<table><tbody>{rows}</tbody></table>\n"
    paper = lay_paper(page, done.booklets["mat"], done.figures["mat"], load_templates(), EDITIONS[0], "T")
    sheets = [sheet.extract_text().split() for sheet in pypdf.PdfReader(io.BytesIO(set_paper(paper))).pages]
    assert len(sheets) > 2
    for row in range(40):
        assert any({f"w{row}.0", f"w{row}.{39 + row}"} <= set(sheet) for sheet in sheets), row


def test_every_label_of_the_quilt_stands_on_the_label_sheet(printed: Printed) -> None:
    start = next(n for n, text in enumerate(printed.texts[1:], 1) if "Labels for your stacks" in text)
    sheets = bare("".join(printed.texts[start:]))
    for patch in printed.booklet.patches:
        assert f"{patch.label}{patch.count}patch" in sheets, patch.label


def test_the_code_on_the_cover_is_the_address_of_the_corrections() -> None:
    """Module by module with its quiet zone of four (ISO/IEC 18004)."""
    done = finished(TEXTS["small"], "small")
    templates = load_templates()
    page = published(TEXTS["small"], "small")["small/mat/print/index.md"].decode("utf-8")
    booklet, figures = done.booklets["mat"], done.figures["mat"]
    plain = lay_paper(page, booklet, figures, templates, A4)
    told = lay_paper(page, booklet, figures, templates, A4, address="https://pond.example/quilts/")
    address = "https://pond.example/quilts/small/index.html"
    assert "figures/corrections.svg" not in plain.files
    assert address in "".join(pypdf.PdfReader(io.BytesIO(set_paper(told))).pages[0].extract_text().split())
    drawn = cairosvg.svg2png(bytestring=told.files["figures/corrections.svg"], background_color="white")
    picture = np.asarray(Image.open(io.BytesIO(drawn)).convert("L")) < 128
    matrix = np.asarray([list(row) for row in segno.make(address, error="m", micro=False).matrix], dtype=bool)
    quiet = 4
    modules = picture[2::4, 2::4]
    assert (modules[quiet:-quiet, quiet:-quiet] == matrix).all()
    assert not modules[:quiet].any()
    assert len(list(images_of(set_paper(told)))) >= len(list(images_of(set_paper(plain)))) + 1


def images_of(pdf: bytes) -> Iterator[Any]:
    """Yield the figures of a structure tree."""
    root: Any = pypdf.PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    return (each for each in structure_of(root["/StructTreeRoot"]) if each["/S"] == "/Figure")


def test_the_same_booklet_gives_the_same_bytes(printed: Printed) -> None:
    assert set_paper(printed.paper) == printed.pdf
    assert b"/CreationDate" not in printed.pdf


def test_all_fonts_lie_in_the_file(printed: Printed) -> None:
    for sheet in printed.reader.pages:
        for font in (sheet["/Resources"].get_object().get("/Font") or {}).values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert {"/FontFile2", "/FontFile3"} & inner.keys()


# ---------------------------------------------------------------------------------------- text into typst


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ('a "b" \\ c', r'"a \"b\" \\ c"'),
        ("#let x = 1 $y$ *z* _w_ @q <l>", '"#let x = 1 $y$ *z* _w_ @q <l>"'),
        ("tab\tnewline\nzero\u200b", r'"tab\u{9}newline\u{a}zero\u{200b}"'),
    ],
)
def test_text_reaches_typst_in_literals_alone(text: str, written: str) -> None:
    assert literal(text) == written


def test_what_a_designer_writes_does_nothing_on_paper(other: Printed) -> None:
    """The titles of the pattern of all ways are full of marks that a careless page would act on."""
    if other.booklet.pattern.id == "ways":
        assert bare("Many <Ways> & *more* _of_ `sewing`") in bare(other.texts[0])


@pytest.mark.parametrize(
    ("html", "code"),
    [
        (
            '<h2>Cut</h2><p class="sl-gate">Now <b>A1</b>.</p><nav>no</nav>',
            '{ head(1, "Cut"); para({ "Now "; strong("A1"); "." }, kind: "gate") }',
        ),
        ('<ul class="sl-ticks"><li>one</li></ul>', 'kept(items("bare", (para("one"), )))'),
        ('<p><label class="sl-tick">one</label></p>', 'para(ticked("one"), kind: "plain")'),
        (
            '<figure class="x--row"><img src="a/b.svg" alt="see" width="4" height="3"></figure><ol><li>x</li></ol>',
            'beside("b.svg", "see", "row", 4, 3, (1, ), items("numbered", (para("x"), )))',
        ),
        (f"<ol><li>{'x' * 900}</li></ol>", f'items("numbered", (para("{"x" * 900}"), ))'),
    ],
)
def test_elements_are_called_by_what_they_are(html: str, code: str) -> None:
    assert set_elements(read_elements(html)) == code
