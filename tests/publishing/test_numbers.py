"""Numbers of the booklet as type: exact in the value, right for the reader, and never without their place."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from published import number_in, read_page
from seamleaf.lengths import CENTIMETRES, INCHES
from seamleaf.publishing import load_templates
from seamleaf.publishing.numbers import Numbers, typeset_fraction

DOCUMENT = {
    "count": 3,
    "w": "7/2",
    "h": "0+24*r2",
    "box": {"w": "9/2", "h": "5/2"},
    "rough": {"w": "9/2", "h": "0+24*r2"},
    "buy": {"amount": "21/8", "unit": "yd"},
    "metres": {"amount": "13/10", "unit": "m"},
    "pack": {"amount": 1, "unit": "pack"},
    "source": "squares 10",
    "strips": "strips 2 1/2",
    "plain": "yardage",
    "number": "2.1",
    "units": {"a/b": {"count": 1}},
}


@pytest.fixture(scope="module")
def numbers() -> Numbers:
    return Numbers(DOCUMENT, INCHES, load_templates().wording)


def text_of(shown: object) -> str:
    page = read_page(str(shown).encode())
    return " ".join("".join([*page.free_text, *(each.text for each in page.shown)]).split())


def test_a_length_keeps_its_exact_value_and_its_place(numbers: Numbers) -> None:
    shown = read_page(str(numbers.size("/w")).encode()).shown
    assert [(each.value, each.place) for each in shown] == [("7/2", "/w")]
    assert number_in(shown[0].text) == Fraction(7, 2)


def test_a_root_is_rounded_to_the_nearest_eighth_and_called_about(numbers: Numbers) -> None:
    """24 sqrt 2 is 33.941...; the nearest eighth is 34."""
    bound = numbers.size("/h")
    assert str(bound).count("about") == 1
    assert [(each.value, each.text) for each in read_page(str(bound).encode()).shown] == [("0+24*r2", "34")]


def test_a_root_is_never_shown_as_a_cut(numbers: Numbers) -> None:
    with pytest.raises(TypeError, match="/h"):
        numbers.cut("/h")
    with pytest.raises(TypeError, match="/rough/h"):
        numbers.cut_box("/rough")


def test_a_box_says_its_unit_once(numbers: Numbers) -> None:
    assert str(numbers.cut_box("/box")).count("\u00a0in<") == 1
    assert str(numbers.box("/rough")).count("about") == 1


@pytest.mark.parametrize(("path", "words"), [("/buy", "2 5⁄8 yd"), ("/pack", "1 bundle"), ("/metres", "1.3 m")])
def test_a_purchase_says_amount_and_unit(numbers: Numbers, path: str, words: str) -> None:
    shown = str(numbers.amount(path)).replace("&nbsp;", " ").replace("&frasl;", "⁄")
    assert "".join(read_page(shown.encode()).shown[0].text.split()) in "".join(words.split())
    assert shown.rstrip("</span>").endswith(words.split()[-1])


@pytest.mark.parametrize(("path", "kind"), [("/source", "squares"), ("/strips", "strips")])
def test_a_bundle_is_named_by_its_size(numbers: Numbers, path: str, kind: str) -> None:
    shown = read_page(str(numbers.source(path)).encode()).shown
    assert shown[0].value == DOCUMENT[path[1:]]
    assert kind in shown[0].text


def test_yardage_needs_no_number(numbers: Numbers) -> None:
    assert read_page(str(numbers.source("/plain")).encode()).shown == []


@pytest.mark.parametrize("path", ["/w", "/missing", "/buy"])
def test_what_is_no_count_is_refused(numbers: Numbers, path: str) -> None:
    with pytest.raises((TypeError, LookupError)):
        numbers.num(path)


def test_a_page_of_several_sizes_names_the_booklet() -> None:
    shown = Numbers(DOCUMENT, INCHES, load_templates().wording, "crib/booklet.json#").num("/units/a~1b/count")
    assert read_page(str(shown).encode()).shown[0].place == "crib/booklet.json#/units/a~1b/count"


def test_centimetres_are_decimals() -> None:
    numbers = Numbers({"w": "15/2"}, CENTIMETRES, load_templates().wording)
    assert text_of(numbers.length("/w")) == "7.5"


@given(st.fractions(min_value=0, max_value=400, max_denominator=64))
def test_a_fraction_copied_as_text_is_still_the_same_number(value: Fraction) -> None:
    """3 1/2 must never read 31/2 when a maker copies it into a message."""
    page = read_page(f'<data value="" data-from="">{typeset_fraction(value)}</data>'.encode())
    assert number_in(page.shown[0].text) == value
