"""The page templates: the packaged folder, with a designer's own folder before it, file by file."""

from __future__ import annotations

import hashlib
import importlib.resources
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any, Final

import jinja2

from seamleaf.publishing.compiled import Compiled
from seamleaf.publishing.escaping import escape_for_page
from seamleaf.publishing.wording import Wording, WordingError, read_wording

PACKAGE: Final = "seamleaf.site_templates"
WORDING_FILE: Final = "wording.yaml"
ENGLISH: Final = "en"
ASSETS_FOLDER: Final = "assets"
WORKER_FILE: Final = "offline/worker.js"
PAPER_FILE: Final = "paper/booklet.typ"
EXAMPLE_FILE: Final = "example.yaml"
_SPOKEN: Final = re.compile(r"wording\.([a-z]{2})\.yaml")


class TemplateError(Exception):
    """A template or a catalogue that cannot be used; the message names the file and, where known, the line."""


@dataclass(frozen=True, slots=True)
class Templates:
    """Everything that turns views into pages."""

    environment: jinja2.Environment
    wording: Wording
    language: str
    """Of the sentences, as HTML names it."""
    assets: dict[str, bytes]
    """Style sheets and scripts, by their path in the site."""
    keeper: bytes
    """The script that keeps pages for use without a network, short of its words."""
    paper: bytes
    """How a booklet is set on paper, for typst."""
    example: str
    """What examples on an author's pages leave out: the sections of a pattern."""
    digest: str
    """Digest of every file that the pages depend on."""

    def render(self, name: str, **context: Any) -> str:
        """Render one template; what it prints is escaped unless it is markup.

        Raises:
            TemplateError: the template fails, with its file and line.

        """
        try:
            return self.environment.get_template(name).render(**context)
        except Exception as fault:  # a template may do anything; whatever fails in it is its author's to mend
            raise TemplateError(_message(name, fault)) from fault

    def worker(self) -> bytes:
        """Return the script that keeps pages, with its words. A browser asks for it by itself; no page holds it."""
        words = {key: self.wording.say(f"offline.{key}") for key in ("title", "missing", "how", "again", "kept")}
        return self.keeper + f"\nconst WORDS = {json.dumps({'language': self.language, **words})};\n".encode()


def load_templates(own: Path | None = None, language: str = ENGLISH) -> Templates:
    """Load the packaged templates, each replaced by the file of the same path in ``own``.

    Args:
        own: a designer's own folder.
        language: of the sentences, as in ``wording.de.yaml``; the own ``wording.yaml`` is in that language too.

    Raises:
        TemplateError: a catalogue that cannot be read, a folder that is not there, or a language that is not spoken.

    """
    if own is not None and not own.is_dir():
        raise TemplateError(f"{own}: there is no such folder of templates")
    packaged = dict(template_files(importlib.resources.files(PACKAGE)))
    owned = dict(template_files(own)) if own is not None else {}
    for name, data in owned.items():
        _text(data, f"{own}/{name}")
    wording = _read(packaged[WORDING_FILE], WORDING_FILE)
    if language != ENGLISH:
        spoken = wording_file(language)
        if spoken not in packaged:
            raise TemplateError(f"found the language '{language}', expected one of {', '.join(languages())}")
        wording = wording.overridden_by(_read(packaged[spoken], spoken))
    if WORDING_FILE in owned:
        try:
            wording = wording.overridden_by(_read(owned[WORDING_FILE], f"{own}/{WORDING_FILE}"))
        except WordingError as fault:
            raise TemplateError(f"{own}/{WORDING_FILE}: {fault}") from None
    everything = {**packaged, **{name: text for name, text in owned.items() if name != WORDING_FILE}}
    loaders: list[jinja2.BaseLoader] = [jinja2.PackageLoader(PACKAGE, "")]
    if own is not None:
        loaders.insert(0, jinja2.FileSystemLoader(own))
    environment = jinja2.Environment(
        loader=jinja2.ChoiceLoader(loaders),
        autoescape=True,
        finalize=escape_for_page,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=Compiled(),
    )
    environment.globals["say"] = wording.say
    assets = {name: data for name, data in sorted(everything.items()) if name.startswith(f"{ASSETS_FOLDER}/")}
    digest = hashlib.sha256()
    for name, data in sorted([*packaged.items(), *owned.items()]):
        digest.update(f"{name}\0{len(data)}\0".encode() + data)
    return Templates(
        environment=environment,
        wording=wording,
        language=language,
        assets=assets,
        keeper=everything[WORKER_FILE],
        paper=everything[PAPER_FILE],
        example=_text(everything[EXAMPLE_FILE], EXAMPLE_FILE),
        digest=digest.hexdigest(),
    )


def languages() -> tuple[str, ...]:
    """Return the languages of the pages, English first."""
    names = (name for name, _ in template_files(importlib.resources.files(PACKAGE)))
    others = [match[1] for match in map(_SPOKEN.fullmatch, names) if match]
    return (ENGLISH, *sorted(others))


def wording_file(language: str) -> str:
    """Return the name of the catalogue of a language other than English."""
    return f"wording.{language}.yaml"


def theme_folder() -> Path:
    """Return the folder of page parts that the site's theme finds before its own."""
    return Path(str(importlib.resources.files(PACKAGE))) / "theme"


def template_files(folder: Traversable, prefix: str = "") -> Iterator[tuple[str, bytes]]:
    """Yield every file of a folder of templates: its path below the folder, and its content."""
    for item in sorted(folder.iterdir(), key=lambda each: each.name):
        if item.is_dir() and not item.name.startswith(("_", ".")):
            yield from template_files(item, f"{prefix}{item.name}/")
        elif item.is_file() and item.name.endswith((".jinja", ".css", ".js", ".yaml", ".svg", ".html", ".typ")):
            yield f"{prefix}{item.name}", item.read_bytes()


def _read(data: bytes, name: str) -> Wording:
    try:
        return read_wording(_text(data, name))
    except WordingError as fault:
        raise TemplateError(f"{name}: {fault}") from None


def _text(data: bytes, name: str) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise TemplateError(f"{name}: not UTF-8 at byte {fault.start}") from None


def _message(name: str, fault: Exception) -> str:
    """Name the template and its line: of a syntax error its own, of any other the innermost template frame."""
    if isinstance(fault, jinja2.TemplateSyntaxError):
        return f"{fault.name or name}:{fault.lineno}: {fault.message}"
    place, trace = name, fault.__traceback__
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if file.endswith(".jinja"):
            place = f"{Path(file).name}:{trace.tb_lineno}"
        trace = trace.tb_next
    return f"{place}: {fault}"
