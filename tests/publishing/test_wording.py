"""The wording catalogue: forms, placeholders, overriding, and the rules of its language."""

import re

import pytest
from markupsafe import Markup

from seamleaf.publishing import load_templates
from seamleaf.publishing.wording import WordingError, read_wording

CATALOGUE = """
cut:
  strips: {one: "Cut {n} strip of {fabric}.", other: "Cut {n} strips of {fabric}."}
  plain: Cut slowly.
"""


def test_a_count_of_one_takes_its_own_form() -> None:
    wording = read_wording(CATALOGUE)
    assert wording.say("cut.strips", n=1, fabric="A") == "Cut 1 strip of A."
    assert wording.say("cut.strips", n=3, fabric="A") == "Cut 3 strips of A."


def test_values_are_escaped_and_markup_is_not() -> None:
    wording = read_wording(CATALOGUE)
    assert wording.say("cut.strips", n=2, fabric="<i>") == "Cut 2 strips of &#60;i&#62;."
    assert wording.say("cut.strips", n=2, fabric=Markup("<i>x</i>")) == "Cut 2 strips of <i>x</i>."


@pytest.mark.parametrize(
    "source",
    [
        "- a",
        "a: [b]",
        "a: {one: x, few: y, other: z}\nb: {one: [x], other: y}",
        "a: 'x {'",
        "a: : b",
        "a: {one: '{', other: b}",
    ],
)
def test_what_is_no_catalogue_is_refused(source: str) -> None:
    with pytest.raises(WordingError):
        read_wording(source)


def test_a_missing_text_and_a_missing_value_are_told() -> None:
    wording = read_wording(CATALOGUE)
    with pytest.raises(WordingError, match=r"cut\.strip'"):
        wording.say("cut.strip")
    with pytest.raises(WordingError, match="fabric"):
        wording.say("cut.strips", n=1)


def test_an_own_catalogue_replaces_single_texts() -> None:
    own = read_wording("cut: {plain: Schneide langsam.}")
    wording = read_wording(CATALOGUE).overridden_by(own)
    assert wording.say("cut.plain") == "Schneide langsam."
    assert wording.say("cut.strips", n=1, fabric="A") == "Cut 1 strip of A."


@pytest.mark.parametrize(("own", "word"), [("cut: {plian: x}", "plian"), ("cut: {plain: 'x {size}'}", "size")])
def test_an_own_catalogue_with_a_slip_is_refused(own: str, word: str) -> None:
    with pytest.raises(WordingError, match=word):
        read_wording(CATALOGUE).overridden_by(read_wording(own))


LANGUAGES = pytest.mark.parametrize("language", ["en", "de"])


def _forms(language: str = "en") -> list[tuple[str, str]]:
    texts = load_templates(language=language).wording.texts
    return [(key, form) for key, text in texts.items() for form in (text.one, text.other)]


def test_no_text_holds_a_number() -> None:
    """Every number of a page is bound to the booklet, so the catalogue has no digit but that of a paper's name."""
    assert [key for key, form in _forms() if re.search(r"\d", re.sub(r"\{[a-z_]+\}|\bA4\b", "", form))] == []


@LANGUAGES
def test_sentences_have_at_most_twenty_five_words(language: str) -> None:
    """Short sentences, one action each (a rule of this project; common practice in plain language, no source)."""
    long = [
        (key, sentence)
        for key, form in _forms(language)
        for sentence in re.split(r"(?<=[.!?;:])\s", form)
        if len(sentence.split()) > 25
    ]
    assert long == []


def test_no_german_in_stands_after_a_value_that_may_be_a_number() -> None:
    """The proof takes a number before ``in`` for inches, and a block is called 1.1, a pattern perhaps Teich 44."""
    assert [key for key, form in _forms("de") if "} in " in form] == []


SYNONYMS = {
    "en": r"iron (?:the|it|each)|swatch|segment|fold the seam|scrap|chunk|stitch together|basting|wadding|lattice strip"
    r"|selvage|wrong-side|HST|backside",
    "de": r"Schnipsel|Segment|plätten|Saumzugabe|Füllvlies|Volumenvlies|Rückenstoff|Fadenrichtung",
}
"""Words beside those of the glossary for patch, unit, press, batting, sash, selvedge, allowance and back."""


@LANGUAGES
def test_one_thing_has_one_name(language: str) -> None:
    """A maker must not wonder whether two words mean two things."""
    words = re.compile(rf"\b(?:{SYNONYMS[language]})", re.IGNORECASE)
    assert [key for key, form in _forms(language) if words.search(form)] == []


def test_every_text_is_used_by_a_template_or_a_view() -> None:
    """A text that nothing says is a text that nobody checks."""
    import importlib.resources
    from pathlib import Path

    templates = Path(str(importlib.resources.files("seamleaf.site_templates")))
    package = Path(str(importlib.resources.files("seamleaf.publishing")))
    files = [*templates.rglob("*.jinja"), *templates.rglob("*.js"), *package.rglob("*.py")]
    files += package.parent.joinpath("site").rglob("*.py")
    files += package.parent.joinpath("drawing").glob("*.py")
    source = "\n".join(path.read_text(encoding="utf-8") for path in files)
    groups = re.findall(r"say\('([a-z.-]+?)\.?' ~", source) + re.findall(r"""say\(f["']([a-z.-]+)\.\{""", source)
    groups += re.findall(r'say\("([a-z]+\.[a-z.]+)\." \+', source)
    unused = [
        key
        for key in load_templates().wording.texts
        if f"'{key}'" not in source and f'"{key}"' not in source and not any(key.startswith(g) for g in groups)
    ]
    assert unused == []


VERBS = frozenset({
    "Add", "Carry", "Check", "Clip", "Close", "Cut", "Do", "Find", "Fold", "Handle", "Keep", "Lay", "Mark", "Match",
    "Measure", "Pin", "Place", "Press", "Sew", "Spin", "Square", "Start", "Stop", "Sub-cut", "Take", "Trim",
})  # fmt: skip
"""What a sentence of the sewing steps may tell a maker to do: one verb an action, the same everywhere."""
OTHERS = frozenset({
    "A", "Edges", "If", "Its", "The", "Then", "They", "Too", "Where", "You", "ease", "measure", "sew", "the",
    "you",
})  # fmt: skip
"""Words that begin what is not an instruction, or stand before its verb."""
SEWN = (
    "half-square", "quarter-square", "three-triangle", "geese", "corners", "diamond", "around", "partial", "strip-set",
    "join",
)  # fmt: skip
SEWING = ("press.", "stop.", *(f"piece.{part}." for part in SEWN))


def test_sewing_steps_begin_with_one_of_a_few_verbs() -> None:
    """House grammar (common practice in instructions, no source): verb first, and one verb an action."""
    beginnings = {
        (key, sentence.split()[0].strip(".,"))
        for key, form in _forms()
        if key.startswith(SEWING)
        for sentence in re.split(r"(?<=[.!?:])\s", form)
    }
    assert [(key, word) for key, word in sorted(beginnings) if word not in VERBS | OTHERS and "{" not in word] == []
    assert {word for _, word in beginnings} > VERBS


@LANGUAGES
def test_no_text_has_an_abbreviation_that_a_maker_may_not_know(language: str) -> None:
    """Units as a ruler has them, hours and minutes, and PDF are all that is abbreviated."""
    short = re.compile(r"\b(?:[A-Z]{2,}|e\.g|i\.e|etc|approx|incl|no\.|usw|ca\.|bzw|evtl|inkl)(?![a-zäöü])")
    found = {(key, word) for key, form in _forms(language) for word in short.findall(re.sub(r"\{\w+\}", "", form))}
    assert [(key, word) for key, word in sorted(found) if word != "PDF"] == []
