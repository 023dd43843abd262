"""The reference on an author's pages: sections of entries, made from what the program itself goes by.

The tables of keys become sections here; commands and options of the site come from
:mod:`seamleaf.site.building.reference`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markdown.extensions.toc import slugify

from seamleaf.publishing.templates import Templates
from seamleaf.reading import keys
from seamleaf.reading.schema import without
from seamleaf.reading.tables import Keys


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One key, option or argument."""

    name: str
    meaning: str
    form: str = ""
    """What may stand there, as a phrase."""
    link: str = ""
    """The section that says more about the form."""
    needed: bool = False
    without: str = ""
    """What holds without it, as a phrase."""
    example: str = ""
    """As it would be written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Entries under a heading."""

    title: str
    entries: tuple[Entry, ...] = ()
    usage: tuple[str, ...] = ()
    """A line as it would be typed, in pieces between which it may be broken."""
    lead: str = ""
    """A text before the entries."""

    @property
    def anchor(self) -> str:
        """The address of the heading in its page."""
        return slugify(self.title, "-")


def publish_reference(sections: Sequence[Section], templates: Templates) -> str:
    """Return the Markdown of sections, each under a heading of the second level.

    Raises:
        TemplateError: the template fails.

    """
    return templates.render("pages/reference.md.jinja", sections=sections)


def key_sections(templates: Templates) -> list[Section]:
    """Return every table of keys in the order of a file, each part followed by what it holds."""
    say = templates.wording.say
    titles = {name: _title(table.of) for name, table in keys.TABLES.items()}
    titles |= {name: str(say("reference.inside", name=name).unescape()) for name in keys.TABLES if name in keys.PARTS}
    parts = Section(title=str(say("reference.parts")), lead=str(say("reference.parts-lead")))
    links = {name: f"#{slugify(title, '-')}" for name, title in titles.items()}
    links |= {"part": f"#{parts.anchor}", "block": f"#{parts.anchor}", "": ""}
    sections = [_section(_title(keys.PATTERN.of), keys.PATTERN, links)]
    for name, table in keys.TABLES.items():
        if name not in keys.PARTS:
            sections.append(_section(titles[name], table, links))
        if name == "fabric":
            sections += [parts, _section(_title(keys.BLOCK.of), keys.BLOCK, links)]
            for kind, part in keys.PARTS.items():
                sections.append(_section(_title(part.of), part, links))
                if kind in keys.TABLES:
                    sections.append(_section(titles[kind], keys.TABLES[kind], links))
    return sections


def _section(title: str, table: Keys, links: Mapping[str, str]) -> Section:
    entries = tuple(
        Entry(
            name=name,
            form=key.form.words,
            link=links[key.form.table],
            meaning=key.meaning,
            needed=name in table.required,
            without=without(key),
            example=f"{name}: {key.example}",
        )
        for name in table.all
        for key in [table[name]]
    )
    return Section(title=title, entries=entries)


def _title(of: str) -> str:
    return of[0].upper() + of[1:]
