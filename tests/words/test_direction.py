"""A title from right to left, or with marks of direction that it never ends, turns nothing but itself."""

from __future__ import annotations

import io

import pypdfium2
import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from seamleaf.drawing.key import _words
from seamleaf.drawing.metrics import text_width
from seamleaf.drawing.scene import Scene
from seamleaf.drawing.svg import write_svg
from seamleaf.publishing.escaping import plain_text
from seamleaf.publishing.paper.setting import literal
from seamleaf.words import Text, Words, isolated
from seamleaf.words.direction import MARKS

RLO, LRE, PDF, RLI, FSI, PDI = "\u202e", "\u202a", "\u202c", "\u2067", "\u2068", "\u2069"
TURNING = [
    f"{RLO}quilt", f"{RLI}quilt", f"{LRE}{RLO}{RLI}quilt", f"{PDI}{RLO}quilt", f"{PDF}{PDI}{PDI}{RLI}quilt{PDI}{RLO}",
    "\u05d0\u05d1\u05d2", "\u05d0\u05d1\u05d2 12", "quilt \u05d0\u05d1\u05d2", f"{FSI}a{PDI}{RLO}b{FSI}c{PDI}",
]  # fmt: skip


def test_ordinary_text_stays_as_it_is() -> None:
    for text in ("Harbour Lights", "Hafen № 3 – größer", "糸と針", "\u200b\u200d"):
        assert isolated(text) is text


@given(st.text(st.sampled_from([*"ab \u05d0\u0661", *MARKS]), max_size=12))
def test_an_isolate_ends_where_it_should_and_holds_every_letter(text: str) -> None:
    """UAX 9: what an isolate begins, its own end closes (BD9); embeddings inside end with it (X6a)."""
    done = isolated(text)
    assert [char for char in done if char not in MARKS] == [char for char in text if char not in MARKS]
    assert isolated(done) == done
    if done != text:
        deep = [0]
        for char in done:
            deep.append(deep[-1] + (char in "\u2066\u2067\u2068") - (char == PDI))
        assert min(deep[1:-1]) >= 1, "it is one isolate from end to end"
        assert deep[-1] == 0


def test_marks_of_direction_take_no_room() -> None:
    assert text_width(f"{FSI}quilt{PDI}", 9) == text_width("quilt", 9)


def test_every_way_to_say_a_title_isolates_it() -> None:
    words = Words({"a": Text("Cut {title}, then sew.", "Cut {title}, then sew.")})
    for title in TURNING:
        assert f"Cut {isolated(title)}, then" in words.say("a", title=title)
        assert str(plain_text(title)) == isolated(title)


@pytest.mark.parametrize("title", TURNING)
def test_what_stands_after_a_title_runs_on_in_a_pdf_file(title: str) -> None:
    """Letters of the rest stand after the title, in their order."""
    places = places_in_pdf(f"wxy {isolated(title)} zkv")
    lefts = [places[char] for char in "wxyzkv"]
    assert lefts == sorted(lefts)
    inside = [left for char, left in places.items() if char in "quiltab\u05d0\u05d1\u05d2"]
    assert inside
    assert all(places["y"] < left < places["z"] for left in inside)


def test_without_an_isolate_an_override_would_turn_what_follows() -> None:
    places = places_in_pdf(f"wxy {TURNING[0]} zkv")
    assert places["z"] > places["k"] > places["v"]


def places_in_pdf(text: str) -> dict[str, float]:
    """Return where each character of a line lies in a PDF file, by its left edge."""
    pdf = typst.compile(f"#set page(width: 400pt, height: 60pt)\n#{literal(text)}".encode())
    page = pypdfium2.PdfDocument(io.BytesIO(pdf))[0].get_textpage()
    places = {}
    for index in range(page.count_chars()):
        places[page.get_text_range(index, 1)] = page.get_charbox(index)[0]
    return places


def test_a_figure_writes_the_isolate() -> None:
    line = _words(0, 10, isolated(TURNING[0]), bold=True)
    svg = write_svg(Scene(w=50, h=20, parts=(line,)), prefix="a", title=isolated(TURNING[0]), desc="")
    assert svg.count(f"{FSI}{RLO}quilt{PDI}") == 2
