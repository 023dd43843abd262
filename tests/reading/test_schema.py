"""The schema for editors: good files have it, and what form alone decides it refuses, as the readers do."""

from __future__ import annotations

import contextlib
import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import given, settings

from effort import tries
from fuzz.pattern_files import pattern_files
from pattern_text import pattern_text, split_marks
from patterns_for_tests import file_of
from reading.test_bad_files import CASES, YAML, Case
from seamleaf.publishing import completed, examples_of, load_templates
from seamleaf.reading import read_pattern
from seamleaf.reading.schema import pattern_schema
from strategies import patterns

PATTERNS = Path(__file__).parents[2] / "patterns"
DEMOS = sorted(PATTERNS.glob("*.yaml"))
SCHEMA = jsonschema.Draft7Validator(pattern_schema())


class CoreLoader(yaml.SafeLoader):
    """Reads YAML as editors do, by the core schema of YAML 1.2: ``yes`` is a text, ``1:30`` too."""


CoreLoader.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("null", r"~|null|Null|NULL|", [*"~nN", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", [*"tTfF"]),
    ("int", r"[-+]?[0-9]+", [*"-+0123456789"]),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", [*"-+.0123456789"]),
):
    CoreLoader.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(rf"(?:{_pattern})\Z"), _first)


def faults_of(text: str | bytes) -> list[str]:
    """Return what an editor would underline."""
    return faults_in(yaml.load(text, CoreLoader))  # noqa: S506 -- a SafeLoader with fewer resolvers


def faults_in(value: Any) -> list[str]:
    """Return what does not have the form."""
    return [f"{'/'.join(map(str, each.absolute_path))}: {each.message[:200]}" for each in SCHEMA.iter_errors(value)]


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft7Validator.check_schema(pattern_schema())
    assert json.loads(json.dumps(pattern_schema())) == pattern_schema()


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_demo_pattern_has_the_form(path: Path) -> None:
    assert faults_of(path.read_bytes()) == []


def test_every_example_of_the_guide_has_the_form() -> None:
    templates = load_templates()
    examples = [each for page in sorted(PATTERNS.rglob("*.md")) for each in examples_of(page.read_text("utf-8"))]
    assert len(examples) > 20
    assert [faults for each in examples if (faults := faults_of(completed(each, templates)))] == []


@settings(max_examples=tries(25), deadline=None)
@given(patterns())
def test_whatever_reads_without_a_problem_has_the_form(sections: dict[str, Any]) -> None:
    text = file_of(**sections)
    assert read_pattern(text, "test").problems == ()
    assert faults_of(text) == []


@settings(max_examples=tries(10), deadline=None)
@given(pattern_files())
def test_so_has_any_such_file_that_was_changed_at_random(files: list[bytes]) -> None:
    """Of YAML that is not JSON, editors have parsers of their own; ``null`` is a text for readers alone."""
    for text in files:
        if read_pattern(text, "test").problems == () and b"null" not in text:
            with contextlib.suppress(ValueError):  # not JSON
                assert faults_in(json.loads(text)) == []


BEYOND_FORM = {
    # names that must exist, or must be of another kind
    "unknown fabric", "unknown fabric deep inside", "fabric like none", "sashing of an unknown fabric",
    "print of yardage", "cell with a print of yardage", "backing from a bundle", "binding from a bundle",
    "border from a bundle", "triangles from a bundle", "prints that begin at two", "prints with a gap",
    "unknown block", "unknown block in a tile", "ring of an unknown block", "class of an unknown size",
    "block that uses itself", "cycle through a centre", "cycle through a diamond", "long cycle",
    "two ways into a cycle",
    # sums, and measures that the unit decides
    "border range of many steps", "border range past its steps", "pace from quick to slow",
    "border range upside down", "patch of width zero",
    "patch over 400 in", "patch that divides by zero", "seam too wide", "seam too wide in centimetres",
    "session of more than a day", "too many blocks", "usable larger than the piece",
    # what two places show together
    "diamond without a size", "first border joined to one inside", "letter not in the key", "ragged tile",
    "strippy with cornerstones", "pieced border of an unknown block",
    "several colours of yardage", "usable of a fat quarter as one number", "widths for fewer borders than there are",
    "widths for no borders",
    # locks, which name what a fabric has
    "lock of an unknown fabric", "lock of yardage", "lock of a print of yardage",
    "lock to a colour that the bundle lacks", "lock of two prints to one colour",
}  # fmt: skip
"""Faults that no value shows by its own form; every other one has to be refused."""


@pytest.mark.parametrize("case", [case for case in CASES if case not in YAML], ids=lambda case: case[0])
def test_a_fault_of_form_is_refused(case: Case) -> None:
    """Faults of YAML itself are for the editor's own parser; a file of the many is refused for the first of them."""
    name, sections, _ = case
    text, _ = split_marks(pattern_text(**sections))
    assert (faults_of(text) == []) == (name in BEYOND_FORM)
