"""Templates: no typed numbers, overrides file by file, faults told with file and line."""

from __future__ import annotations

import importlib.resources
import re
from pathlib import Path
from typing import Any

import jinja2
import pytest

from published import SMALL, finished, published
from seamleaf.publishing import TemplateError, load_templates, publish_pattern

FOLDER = Path(str(importlib.resources.files("seamleaf.site_templates")))
TEMPLATES = sorted(path for path in FOLDER.rglob("*.jinja") if "starter" not in path.relative_to(FOLDER).parts)
"""Those of pages; the files of a new folder are a designer's own, with the designer's numbers."""
CODE = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
STRUCTURE = re.compile(r"</?h[1-6]\b|(?:tabindex|min)=\"0\"")
"""Digits that HTML itself asks for."""


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_types_no_number(path: Path) -> None:
    """Numbers come from the booklet, by their pointer; structure holds none."""
    bare = STRUCTURE.sub("", CODE.sub("", path.read_text(encoding="utf-8")))
    assert re.findall(r".*\d.*", bare) == []


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_does_no_arithmetic(path: Path) -> None:
    code = " ".join(re.sub(r"'[^']*'", "", each) for each in CODE.findall(path.read_text(encoding="utf-8")))
    assert re.findall(r"\w+ [+*/] \w+|\b\w+ - \w+", re.sub(r"\{#.*?#\}", "", code, flags=re.DOTALL)) == []


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_asks_nothing_of_other_hosts(path: Path) -> None:
    assert "//" not in path.read_text(encoding="utf-8")


def own_folder(tmp_path: Path, name: str, text: str) -> Path:
    path = tmp_path / "own" / name
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return tmp_path / "own"


def publish_with(own: Path) -> dict[str, bytes]:
    done = finished(SMALL, "small-pond")
    return publish_pattern(done.pattern, done.booklets, done.figures, load_templates(own))


def test_an_own_template_stands_before_the_packaged_one(tmp_path: Path) -> None:
    own = own_folder(tmp_path, "stages/finish.md.jinja", "Knot by {{ num('/set/blocks') }} hands.\n")
    page = publish_with(own)["small-pond/mat/finish/index.md"].decode()
    assert 'Knot by <data value="8" data-from="/set/blocks">8</data> hands.' in page
    assert (
        publish_with(own)["small-pond/mat/cut/index.md"]
        == published(SMALL, "small-pond")["small-pond/mat/cut/index.md"]
    )


def test_own_words_stand_before_the_packaged_ones(tmp_path: Path) -> None:
    own = own_folder(tmp_path, "wording.yaml", "page: {buy: Einkaufen}\n")
    pages = publish_with(own)
    assert "# Einkaufen\n" in pages["small-pond/mat/buy/index.md"].decode()


def test_an_own_style_sheet_stands_before_the_packaged_one(tmp_path: Path) -> None:
    own = own_folder(tmp_path, "assets/seamleaf.css", "p { color: red }\n")
    assert load_templates(own).assets["assets/seamleaf.css"] == b"p { color: red }\n"
    assert load_templates(own).digest != load_templates().digest


def test_templates_that_are_loaded_again_are_compiled_no_more_but_what_was_written_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = own_folder(tmp_path, "stages/finish.md.jinja", "one")
    assert load_templates(own).render("stages/finish.md.jinja") == "one"
    compiled: list[str] = []
    compile_one = jinja2.Environment.compile

    def noted(environment: jinja2.Environment, source: str, name: str | None = None, *rest: Any) -> Any:
        compiled.append(source)
        return compile_one(environment, source, name, *rest)

    monkeypatch.setattr(jinja2.Environment, "compile", noted)
    assert load_templates(own).render("stages/finish.md.jinja") == "one"
    assert compiled == []
    (own / "stages" / "finish.md.jinja").write_text("two", encoding="utf-8")
    assert load_templates(own).render("stages/finish.md.jinja") == "two"
    assert compiled == ["two"]


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("stages/cut.md.jinja", "line\n{{ num('/nothing') }}\n", "cut.md.jinja:2: nothing at '/nothing'"),
        ("stages/cut.md.jinja", "{% if %}\n", "cut.md.jinja:1: "),
        ("stages/cut.md.jinja", "\n\n{{ unknown }}\n", "cut.md.jinja:3: 'unknown' is undefined"),
        ("stages/cut.md.jinja", "{{ cut('/finished/w', 1) }}\n", "cut.md.jinja:1: "),
        ("stages/cut.md.jinja", "{{ 1 / 0 }}\n", "cut.md.jinja:1: division by zero"),
        ("stages/cut.md.jinja", "{{ say('no.such.text') }}\n", "cut.md.jinja:1: there is no text 'no.such.text'"),
        ("wording.yaml", "page: {bye: x}\n", "wording.yaml: text 'page.bye' is not a text of the pages"),
        ("wording.yaml", "page: [\n", "wording.yaml: not YAML"),
    ],
)
def test_a_fault_of_an_own_file_names_file_and_line(tmp_path: Path, name: str, text: str, message: str) -> None:
    with pytest.raises(TemplateError) as caught:
        publish_with(own_folder(tmp_path, name, text))
    assert message in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_template_file_that_is_not_utf8_is_told(tmp_path: Path) -> None:
    own = own_folder(tmp_path, "stages/cut.md.jinja", "")
    (own / "stages" / "cut.md.jinja").write_bytes(b"\xff")
    with pytest.raises(TemplateError, match=r"cut\.md\.jinja"):
        publish_with(own)


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(TemplateError, match="no such folder"):
        load_templates(tmp_path / "nowhere")
