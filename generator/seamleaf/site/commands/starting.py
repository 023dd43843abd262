"""A new working folder: one small pattern, a site around it, and a note on what to do next."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Final

import jinja2

from seamleaf.publishing.escaping import escape_for_page
from seamleaf.reading.marks import SCHEMA_FILE
from seamleaf.site.files.output import write_all
from seamleaf.site.usage import UNITS, Unit

_FILES: Final = {
    "mkdocs.yml": "mkdocs.yml.jinja",
    "patterns/index.md": "patterns/index.md.jinja",
    "patterns/first-star.yaml": "patterns/first-star.yaml.jinja",
    "NEXT-STEPS.md": "next-steps.md.jinja",
    "requirements.txt": "requirements.txt.jinja",
    ".gitignore": "gitignore.jinja",
    ".github/workflows/site.yml": "github.yml.jinja",
    ".gitlab-ci.yml": "gitlab.yml.jinja",
}
"""What a new folder holds, and the template of each file; the schema for editors comes to it."""

_SIZES: Final[Mapping[Unit, Mapping[str, str]]] = {
    "in": {"block": "9", "patch": "3", "border": "3", "narrow": "1 1/2"},
    "cm": {"block": "24", "patch": "8", "border": "8", "narrow": "4"},
}
"""Finished sizes of the first pattern: round in either unit, never converted."""
LONGEST_NAME: Final = 200


class StartError(Exception):
    """A folder that cannot be started; the message says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """What a designer tells of a new site."""

    name: str = "My patterns"
    designer: str = ""
    unit: Unit = "in"


def ask(given: Mapping[str, str | None], answer: Callable[[str], str]) -> Start:
    """Ask for whatever was not given; an empty answer takes what stands in brackets.

    Args:
        given: ``name``, ``designer`` and ``unit`` as options said them, ``None`` where they did not.
        answer: puts a question and returns the line that is typed.

    Raises:
        StartError: an answer that cannot be used.

    """
    usual = Start()
    name, designer, unit = given["name"], given["designer"], given["unit"]
    if name is None:
        name = answer(f"Name of the site [{usual.name}]: ").strip() or usual.name
    if designer is None:
        designer = answer("Your name, as it shall stand on the pattern [none]: ").strip()
    if unit is None:
        unit = answer(f"Inches or centimetres, in or cm [{usual.unit}]: ").strip().lower() or usual.unit
    return started(name=name, designer=designer, unit=unit)


def started(*, name: str, designer: str, unit: str) -> Start:
    """Check what was told.

    Raises:
        StartError: an empty or too long name, a mark that cannot be printed, an unknown unit.

    """
    for what, text in (("the name of the site", name), ("the designer's name", designer)):
        if len(text) > LONGEST_NAME or not text.isprintable():
            raise StartError(f"{what}: found {text[:40]!r}, expected one line of at most {LONGEST_NAME} characters")
    if not name.strip():
        raise StartError("the name of the site: found nothing, expected a name")
    known = [each for each in UNITS if each == unit]
    if not known:
        raise StartError(f"the unit: found {unit[:40]!r}, expected in or cm")
    return Start(name=name, designer=designer, unit=known[0])


def start_folder(folder: Path, start: Start) -> list[str]:
    """Write a working folder that builds at once, and return the names of its files.

    Raises:
        StartError: the folder holds something already.
        OSError: it cannot be written.

    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise StartError(f"{folder}: holds something already; choose a new or an empty folder")
    from seamleaf.reading.schema import schema_text  # late: it loads all keys

    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("seamleaf.site_templates", "starter"),
        autoescape=False,  # noqa: S701 -- no HTML: YAML quotes its texts, Markdown escapes them
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["markdown"] = escape_for_page
    values = {
        "name": start.name,
        "designer": start.designer,
        "unit": start.unit,
        "version": version("seamleaf"),
        "schema": SCHEMA_FILE,
        **_SIZES[start.unit],
    }
    files = {path: environment.get_template(name).render(values) for path, name in _FILES.items()}
    files[f"patterns/{SCHEMA_FILE}"] = schema_text()
    write_all(folder, {path: text.encode("utf-8") for path, text in files.items()})
    return list(files)
