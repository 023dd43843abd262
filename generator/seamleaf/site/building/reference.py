"""What an author's page may ask for by a mark: the reference of keys, commands, options, templates and functions.

Each is made from what the program itself goes by, so that it cannot say less or more.
"""

from __future__ import annotations

import argparse
import ast
import inspect
import re
import textwrap
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import TYPE_CHECKING, Any

from mkdocs.config import config_options

from seamleaf import api
from seamleaf.publishing import CONTEXT, Templates, replaceable_templates
from seamleaf.publishing.reference import Entry, Section, key_sections, publish_reference
from seamleaf.site.building.marks import put_in_marks
from seamleaf.site.usage import command_parser

if TYPE_CHECKING:
    from mkdocs.config import base


def with_reference(page: str, templates: Templates, options: type[base.Config]) -> str:
    """Put the reference where a page's marks ask for it; other marks stay.

    Raises:
        TemplateError: the template fails.

    """
    made: dict[str, Callable[[], list[Section]]] = {
        "keys": lambda: key_sections(templates),
        "commands": lambda: list(command_sections()),
        "options": lambda: [option_section(options, templates)],
        "templates": lambda: template_sections(templates),
        "functions": lambda: list(function_sections(api)),
    }

    def text_of(name: str) -> str | None:
        sections = made.get(name)
        return None if sections is None else publish_reference(sections(), templates)

    return put_in_marks(page, text_of)


# ------------------------------------------------------------------------------------------------ commands


def command_sections() -> Iterator[Section]:
    """Yield one section a command, in the order of ``seamleaf --help``."""
    parser = command_parser()
    (commands,) = (action for action in parser._actions if isinstance(action, argparse._SubParsersAction))
    told = {each.dest: each.help or "" for each in commands._choices_actions}
    for name, command in commands.choices.items():
        actions = [action for action in command._actions if not isinstance(action, argparse._HelpAction)]
        yield Section(
            title=f"seamleaf {name}",
            usage=(f"seamleaf {name}", *map(_usage, actions)),
            lead=f"{told[name][0].upper()}{told[name][1:]}.",
            entries=tuple(
                Entry(
                    name=", ".join(action.option_strings) or str(action.metavar),
                    form=_argument(action) if action.option_strings else "",
                    meaning=f"{str(action.help)[0].upper()}{str(action.help)[1:]}.",
                    needed=action.required and bool(action.option_strings),
                )
                for action in actions
            ),
        )


def _argument(action: argparse.Action) -> str:
    if action.choices is not None:
        return "|".join(map(str, action.choices))
    return str(action.metavar or "")


def _usage(action: argparse.Action) -> str:
    """Show an argument as a line of use does: in brackets when it may be left out."""
    if not action.option_strings:
        return f"[{action.metavar} ...]" if action.nargs == "*" else str(action.metavar)
    text = " ".join(filter(None, [" | ".join(action.option_strings), _argument(action)]))
    return text if action.required else f"[{text}]"


# ------------------------------------------------------------------------------------- options, functions


def option_section(options: type[base.Config], templates: Templates) -> Section:
    """Return the options of the plugin, each with the text that stands below it in the source."""
    meanings = _texts_below(options)
    entries = []
    for name, option in options._schema:
        usual = option.default
        entries.append(
            Entry(
                name=name,
                form=_form(option),
                meaning=meanings[name],
                without="" if usual is None else _as_yaml(usual),
            )
        )
    return Section(title=str(templates.wording.say("reference.options")), entries=tuple(entries))


def template_sections(templates: Templates) -> list[Section]:
    """Return every template of pages with what it is given, style sheets, and what stands behind the names."""
    say = templates.wording.say
    kinds = (".jinja", ".typ", ".css")
    replaceable = [each for kind in kinds for each in replaceable_templates().values() if each.name.endswith(kind)]
    asked = {name for each in replaceable for name in each.context}
    listed = (Entry(name=each.name, meaning=each.about, form=", ".join(each.context)) for each in replaceable)
    known = (Entry(name=name, meaning=f"{CONTEXT[name]}.") for name in sorted(asked & CONTEXT.keys()))
    return [
        Section(title=str(say("reference.templates")), entries=tuple(listed)),
        Section(title=str(say("reference.given")), entries=tuple(known)),
    ]


def _form(option: Any) -> str:
    """Say what an option takes."""
    if isinstance(option, config_options.Optional):
        return _form(option.option)
    if isinstance(option, config_options.ListOfItems):
        return f"a list of {_form(option.option_type)}"
    if isinstance(option, config_options.Choice):
        return ", ".join(option.choices)
    if isinstance(option, config_options.Dir):
        return "a folder"
    return {bool: "true or false", int: "a whole number", str: "a text"}[option._type]


def _as_yaml(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f"[{', '.join(value)}]" if isinstance(value, list) else str(value)


def _texts_below(cls: type) -> dict[str, str]:
    """Return the text that follows each attribute of a class."""
    (body,) = ast.parse(textwrap.dedent(inspect.getsource(cls))).body
    assert isinstance(body, ast.ClassDef)  # noqa: S101 -- the source of a class is one
    found: dict[str, str] = {}
    for assigned, text in zip(body.body, body.body[1:], strict=False):
        if (
            isinstance(assigned, ast.Assign)
            and isinstance(assigned.targets[0], ast.Name)
            and isinstance(text, ast.Expr)
            and isinstance(text.value, ast.Constant)
        ):
            found[assigned.targets[0].id] = inspect.cleandoc(str(text.value.value)).replace("``", "")
    return found


def function_sections(module: ModuleType) -> Iterator[Section]:
    """Yield one section a function of a module, in its order: how it is called, what it does, what it raises."""
    for name, function in vars(module).items():
        if inspect.isfunction(function) and function.__module__ == module.__name__ and name in module.__all__:
            lead, *rest = re.split(r"^(?=Args:|Raises:)", inspect.getdoc(function) or "", flags=re.MULTILINE)
            yield Section(
                title=name,
                usage=tuple(re.split(r"(?<=,) ", f"{name}{inspect.signature(function)}".replace("'", ""))),
                lead=" ".join(lead.replace("``", "").split()),
                entries=tuple(entry for block in rest for entry in _entries_of(block)),
            )


def _entries_of(block: str) -> Iterator[Entry]:
    """Yield what a block of a docstring lists: names, each with a text that may go on in deeper lines."""
    text = textwrap.dedent(block.partition("\n")[2])
    for name, meaning in re.findall(r"^(\w+): (.*(?:\n(?: .*)?)*)", text, flags=re.MULTILINE):
        told = " ".join(meaning.replace("``", "").split())
        yield Entry(name=name, meaning=f"{told[0].upper()}{told[1:]}")
