"""How ``seamleaf`` is called: every command with what it takes, in the words that its help and the guide's list show.

What a command does stands in :mod:`seamleaf.site.commands`; a page that lists the commands loads none of that.
"""

from __future__ import annotations

import argparse
import re
from importlib.metadata import version
from typing import Final, Literal

import shtab

from seamleaf.site.files.sources import printable
from seamleaf.site.work.parts import Shard

Unit = Literal["in", "cm"]
UNITS: Final[tuple[Unit, ...]] = ("in", "cm")
MOST_ACROSS: Final = 40
"""Squares of a photo side by side, at most."""


def command_parser() -> argparse.ArgumentParser:
    """Return the parser of the command line, from which its reference is made too."""
    parser = argparse.ArgumentParser(
        prog="seamleaf", description="From one pattern file to quilt booklets in every size.", allow_abbrev=False
    )
    shtab.add_argument_to(parser, "--print-completion", help="print a script by which a shell completes this command")
    parser.add_argument("--version", action="version", version=f"seamleaf {version('seamleaf')}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND", dest="command")

    new = commands.add_parser("new", help="make a folder with a first pattern and a site around it")
    new.add_argument("folder", metavar="FOLDER", help="a new or an empty folder")
    new.add_argument("--name", metavar="TEXT", help="name of the site; asked for on a terminal")
    new.add_argument("--designer", metavar="TEXT", help="designer of the pattern; asked for on a terminal")
    new.add_argument("--unit", choices=UNITS, help="unit of the pattern; asked for on a terminal")

    check = commands.add_parser("check", help="read and compute; print every problem with its place")
    check.add_argument("files", nargs="*", metavar="FILE", help="pattern files; all of the site if none is named")
    check.add_argument(
        "--format",
        choices=("text", "json"),
        default="text",
        help="text, or one JSON document on standard output, for editors",
    )
    check.add_argument(
        "--show",
        action=argparse.BooleanOptionalAction,
        help="show the line of each problem, with a caret; without this option only on a terminal",
    )
    _add_config_file(check)
    check.add_argument(
        "--have",
        action="append",
        metavar="AMOUNT",
        help="what there is of a fabric, as in 'ground 1 7/8 yd' or 'star 38'; says whether it is enough, or ways out",
    )
    check.add_argument("--size", metavar="ID", help="with --have: this size only")

    booklet = commands.add_parser("booklet", help="write the booklets of one pattern as JSON, without a site")
    booklet.add_argument("file", metavar="FILE", help="a pattern file")
    booklet.add_argument("--size", metavar="ID", help="this size only")
    booklet.add_argument("--out", metavar="DIR", required=True, help="folder that takes PATTERN/SIZE/booklet.json")

    figures = commands.add_parser("figures", help="draw every figure of a booklet as PNG, for slides and listings")
    figures.add_argument("booklet", metavar="BOOKLET", help="a booklet.json, from a built site or from booklet")
    figures.add_argument("--png", metavar="DIR", required=True, help="folder that takes the pictures")
    figures.add_argument("--width", metavar="PIXELS", type=_pixels, default=1600, help="default: 1600")

    proof = commands.add_parser("proof", help="sew every published booklet again and tell what does not fit")
    proof.add_argument("folder", metavar="DIR", help="a built site, or the folder that booklet wrote to")

    compare = commands.add_parser("compare", help="tell what changed between two published versions, and for whom")
    compare.add_argument("old", metavar="OLD", help="the older version: a built site, or what booklet wrote")
    compare.add_argument("new", metavar="NEW", help="the newer version")
    compare.add_argument("--page", metavar="FILE", help="write the note as a page of its own as well")

    colours = commands.add_parser("colours", help="read the colours of squares from a photo of them, as YAML")
    colours.add_argument("photo", metavar="PHOTO", help="squares in a grid that fills the photo: JPEG, PNG or WebP")
    colours.add_argument("--grid", metavar="GRID", type=_grid, required=True, help="squares across and down, as in 6x4")

    schema = commands.add_parser("schema", help="write the schema of pattern files, by which editors help and check")
    schema.add_argument("--out", metavar="FILE", help="file that takes it; printed without this option")

    templates = commands.add_parser("templates", help="list the templates of the pages, or copy some to change them")
    templates.add_argument("names", nargs="*", metavar="NAME", help="templates to copy; without one, all are listed")
    templates.add_argument("--out", metavar="DIR", help="folder of your own that takes the copies")

    _add_site_commands(commands)
    for command in commands.choices.values():
        _complete_paths(command)
    return parser


def _add_site_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    build = commands.add_parser("build", help="build the whole site")
    _add_config_file(build)
    build.add_argument("--site-dir", metavar="DIR", help="folder of the site, in place of the configured one")
    _add_stages(build)
    build.add_argument(
        "--executor",
        metavar="WHO",
        help="who works: 'processes', or a cluster by its scheduler, 'dask://HOST:PORT'",
    )
    build.add_argument(
        "--shard",
        metavar="PART",
        type=_shard,
        help="work out a part of the patterns alone, as in 3/16, into the folder of --site-dir, for join",
    )

    join = commands.add_parser("join", help="build the whole site from what build --shard has worked out")
    join.add_argument("parts", nargs="+", metavar="DIR", help="the folders of all parts")
    _add_config_file(join)
    join.add_argument("--site-dir", metavar="DIR", help="folder of the site, in place of the configured one")
    _add_stages(join)

    serve = commands.add_parser("serve", help="show the site and follow every edit")
    _add_config_file(serve)
    serve.add_argument("--dev-addr", metavar="IP:PORT", help="address to serve at, in place of the configured one")


def _add_config_file(parser: argparse.ArgumentParser) -> None:
    """Add the option that names the configuration of the site."""
    parser.add_argument(
        "--config-file",
        metavar="FILE",
        default="mkdocs.yml",
        help="configuration of the site; mkdocs.yml without this option",
    )


def _add_stages(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--progress",
        action=argparse.BooleanOptionalAction,
        help="show what is being done: a bar on a terminal, else a line for each stage; without this option only a bar",
    )
    parser.add_argument("--profile", action="store_true", help="tell at the end where the time went")


def _complete_paths(parser: argparse.ArgumentParser) -> None:
    """Tell the script for a shell which arguments are files and which are folders."""
    files, folders = ("FILE", "BOOKLET", "PHOTO"), ("DIR", "FOLDER", "OLD", "NEW")
    kinds = dict.fromkeys(files, shtab.FILE) | dict.fromkeys(folders, shtab.DIRECTORY)
    for action in parser._actions:
        if action.metavar in kinds:
            action.complete = kinds[action.metavar]  # type: ignore[attr-defined]  # where that library looks for it


def _shard(text: str) -> Shard:
    try:
        return Shard.read(text)
    except ValueError as fault:
        raise argparse.ArgumentTypeError(printable(str(fault))) from None


def _pixels(text: str) -> int:
    """Read a width in pixels."""
    from seamleaf.publishing.paper import WIDEST  # late: no other command draws

    if not text.isascii() or not text.isdecimal() or not 1 <= int(text) <= WIDEST:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected pixels from 1 to {WIDEST}")
    return int(text)


def _grid(text: str) -> tuple[int, int]:
    found = re.fullmatch(r"(\d{1,3})[x×](\d{1,3})", text)
    across, down = (int(found[1]), int(found[2])) if found else (0, 0)
    if not (1 <= across <= MOST_ACROSS and 1 <= down <= MOST_ACROSS):
        raise argparse.ArgumentTypeError(
            f"found {printable(text)!r}, expected squares across and down, 1 to {MOST_ACROSS} each, as in 6x4"
        )
    return across, down
