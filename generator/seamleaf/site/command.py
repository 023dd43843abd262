"""The command ``seamleaf``.

Exit status: 0 all well, 1 problems in the input or findings of the proof, 2 wrong use, 70 a fault of the program
itself.
"""

from __future__ import annotations

import argparse
import os
import re
import shlex
import sys
import traceback
from collections.abc import Iterable, Sequence
from importlib.metadata import version
from pathlib import Path

import shtab

from seamleaf.reading.problems import PatternError
from seamleaf.site.making import add_config_file, add_site_commands
from seamleaf.site.output import write_all, write_one
from seamleaf.site.sources import pattern_files, printable, problem_lines, read_file, unread_files
from seamleaf.site.starting import UNITS, StartError, ask, start_folder
from seamleaf.site.streams import abandon_output, is_of_the_machine, open_streams
from seamleaf.site.telling import (
    FINE,
    INTERRUPTED,
    OWN_FAULT,
    PROBLEMS,
    WRONG_USE,
    Told,
    as_json,
    refuse,
    say,
    shown_lines,
)
from seamleaf.site.workers import processors


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit status."""
    open_streams()
    try:
        try:
            return _run(arguments)
        finally:
            sys.stdout.flush()  # here and not at exit, where Python would complain in its own words
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        abandon_output()
        return PROBLEMS
    except Exception as fault:  # the last line of defence: a maker never sees a traceback unless asked for
        if os.environ.get("SEAMLEAF_TRACEBACK"):
            traceback.print_exc()
        if is_of_the_machine(fault):
            abandon_output()
            return refuse(f"cannot go on: {getattr(fault, 'strerror', None) or 'not enough memory'}")
        say(f"a fault of seamleaf itself, not of your files: {type(fault).__name__}: {fault}")
        say("please report it with the pattern file; SEAMLEAF_TRACEBACK=1 shows where it happened")
        return OWN_FAULT


def _run(arguments: Sequence[str] | None) -> int:
    parser = command_parser()
    if not (sys.argv[1:] if arguments is None else arguments):
        parser.print_help(sys.stderr)
        return WRONG_USE
    options = parser.parse_args(arguments)
    status: int = options.run(options)
    return status


def command_parser() -> argparse.ArgumentParser:
    """Return the parser of the command line, from which its reference is made too."""
    parser = argparse.ArgumentParser(
        prog="seamleaf", description="From one pattern file to quilt booklets in every size.", allow_abbrev=False
    )
    shtab.add_argument_to(parser, "--print-completion", help="print a script by which a shell completes this command")
    parser.add_argument("--version", action="version", version=f"seamleaf {version('seamleaf')}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    new = commands.add_parser("new", help="make a folder with a first pattern and a site around it")
    new.add_argument("folder", metavar="FOLDER", help="a new or an empty folder")
    new.add_argument("--name", metavar="TEXT", help="name of the site; asked for on a terminal")
    new.add_argument("--designer", metavar="TEXT", help="designer of the pattern; asked for on a terminal")
    new.add_argument("--unit", choices=UNITS, help="unit of the pattern; asked for on a terminal")
    new.set_defaults(run=_new)

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
    add_config_file(check)
    check.add_argument(
        "--have",
        action="append",
        metavar="AMOUNT",
        help="what there is of a fabric, as in 'ground 1 7/8 yd' or 'star 38'; says whether it is enough, or ways out",
    )
    check.add_argument("--size", metavar="ID", help="with --have: this size only")
    check.set_defaults(run=_check)

    booklet = commands.add_parser("booklet", help="write the booklets of one pattern as JSON, without a site")
    booklet.add_argument("file", metavar="FILE", help="a pattern file")
    booklet.add_argument("--size", metavar="ID", help="this size only")
    booklet.add_argument("--out", metavar="DIR", required=True, help="folder that takes PATTERN/SIZE/booklet.json")
    booklet.set_defaults(run=_booklet)

    figures = commands.add_parser("figures", help="draw every figure of a booklet as PNG, for slides and listings")
    figures.add_argument("booklet", metavar="BOOKLET", help="a booklet.json, from a built site or from booklet")
    figures.add_argument("--png", metavar="DIR", required=True, help="folder that takes the pictures")
    figures.add_argument("--width", metavar="PIXELS", type=_pixels, default=1600, help="default: 1600")
    figures.set_defaults(run=_figures)

    proof = commands.add_parser("proof", help="sew every published booklet again and tell what does not fit")
    proof.add_argument("folder", metavar="DIR", help="a built site, or the folder that booklet wrote to")
    proof.set_defaults(run=_proof)

    compare = commands.add_parser("compare", help="tell what changed between two published versions, and for whom")
    compare.add_argument("old", metavar="OLD", help="the older version: a built site, or what booklet wrote")
    compare.add_argument("new", metavar="NEW", help="the newer version")
    compare.add_argument("--page", metavar="FILE", help="write the note as a page of its own as well")
    compare.set_defaults(run=_compare)

    colours = commands.add_parser("colours", help="read the colours of squares from a photo of them, as YAML")
    colours.add_argument("photo", metavar="PHOTO", help="squares in a grid that fills the photo: JPEG, PNG or WebP")
    colours.add_argument("--grid", metavar="GRID", type=_grid, required=True, help="squares across and down, as in 6x4")
    colours.set_defaults(run=_colours)

    schema = commands.add_parser("schema", help="write the schema of pattern files, by which editors help and check")
    schema.add_argument("--out", metavar="FILE", help="file that takes it; printed without this option")
    schema.set_defaults(run=_schema)

    templates = commands.add_parser("templates", help="list the templates of the pages, or copy some to change them")
    templates.add_argument("names", nargs="*", metavar="NAME", help="templates to copy; without one, all are listed")
    templates.add_argument("--out", metavar="DIR", help="folder of your own that takes the copies")
    templates.set_defaults(run=_templates)

    add_site_commands(commands)
    for command in commands.choices.values():
        _complete_paths(command)
    return parser


def _complete_paths(parser: argparse.ArgumentParser) -> None:
    """Tell the script for a shell which arguments are files and which are folders."""
    files, folders = ("FILE", "BOOKLET", "PHOTO"), ("DIR", "FOLDER", "OLD", "NEW")
    kinds = dict.fromkeys(files, shtab.FILE) | dict.fromkeys(folders, shtab.DIRECTORY)
    for action in parser._actions:
        if action.metavar in kinds:
            action.complete = kinds[action.metavar]  # type: ignore[attr-defined]  # where that library looks for it


def _new(options: argparse.Namespace) -> int:
    given = {"name": options.name, "designer": options.designer, "unit": options.unit}
    folder = Path(options.folder)
    try:
        files = start_folder(folder, ask(given, input if sys.stdin.isatty() else lambda _: ""))
    except (StartError, EOFError) as fault:
        return refuse(str(fault) or "no answer")
    except OSError as fault:
        return refuse(f"cannot write {folder}: {fault.strerror or fault}")
    for name in files:
        print(printable(f"{folder / name}"))
    print(printable(f"next: cd {shlex.quote(str(folder))} && seamleaf serve"))
    return FINE


def _check(options: argparse.Namespace) -> int:
    if options.have:
        return _have(options)
    if options.size is not None:
        say("--size goes with --have")
        return WRONG_USE
    names = list(dict.fromkeys(options.files))
    if not names:
        from seamleaf.site.building import SiteError  # late: MkDocs takes longer than a small check

        try:
            names = _patterns_of_site(Path(options.config_file))
        except SiteError as fault:
            return refuse(fault)
    checked = [_told(name) for name in sorted(names)]
    problems = any(told.problems for told in checked)
    if options.format == "json":
        print(as_json(checked))
        return PROBLEMS if problems else FINE
    for told in checked:
        if not told.problems:
            print(f"{printable(told.file)}: no problems ({', '.join(told.sizes)})")
    show = sys.stderr.isatty() if options.show is None else options.show
    for told in checked:
        for line in shown_lines(told) if show else problem_lines(told.file, told.problems):
            print(line, file=sys.stderr)
    return PROBLEMS if problems else FINE


def _patterns_of_site(config_file: Path) -> list[str]:
    """Return the names of all pattern files of a site, and say of others that they are none.

    Raises:
        SiteError: there are none, or they cannot be found.

    """
    from seamleaf.site.building import SiteError, load_site  # late, as above

    docs_dir = Path(load_site(config_file).docs_dir)
    try:
        names = [os.path.relpath(path) for path in pattern_files(docs_dir)]
    except OSError as fault:
        raise SiteError(f"{os.path.relpath(docs_dir)}: cannot be read: {fault.strerror or fault}") from fault
    for line in unread_files(docs_dir):
        say(line)
    if not names:
        raise SiteError(f"{os.path.relpath(docs_dir)}: there is no pattern file here")
    return names


def _have(options: argparse.Namespace) -> int:
    """Say whether what there is is enough."""
    from seamleaf.site.having import HavingError, read_haves
    from seamleaf.site.pipeline import read_checked  # late, as below
    from seamleaf.site.ways_out import answer  # late: it needs the proof

    if len(options.files) != 1 or options.format == "json":
        say("--have goes with one FILE, and answers in words")
        return WRONG_USE
    (name,) = options.files
    try:
        pattern = read_checked(read_file(Path(name)), Path(name).stem)
        if options.size is not None and options.size not in pattern.sizes:
            return _no_such_size(options.size, pattern.sizes)
        haves = read_haves(options.have, pattern)
        lines = answer(pattern, haves, list(pattern.sizes) if options.size is None else [options.size])
    except PatternError as error:
        for line in problem_lines(name, error.problems):
            print(line, file=sys.stderr)
        return PROBLEMS
    except HavingError as fault:
        say(f"--have: {fault}")
        return WRONG_USE
    for line in lines:
        print(printable(line))
    return FINE if all(line.endswith(": enough") for line in lines) else PROBLEMS


def _no_such_size(size: str, sizes: Iterable[str]) -> int:
    say(f"--size {size}: the pattern has no such size, only {', '.join(sizes)}")
    return WRONG_USE


def _told(name: str) -> Told:
    """Check one file."""
    from seamleaf.site.pipeline import plan  # late: a build with nothing new plans nothing

    if sys.stderr.isatty():  # planning may take a while
        say(f"checking {name}")
    text = b""
    try:
        text = read_file(Path(name))
        _, booklets = plan(text, Path(name).stem)
    except PatternError as error:
        return Told(file=name, problems=tuple(error.problems), text=text)
    return Told(file=name, sizes=tuple(booklets))


def _booklet(options: argparse.Namespace) -> int:
    from seamleaf.booklet import plan_booklets  # late, as above
    from seamleaf.publishing import booklet_files
    from seamleaf.site.pipeline import read_checked

    try:
        pattern = read_checked(read_file(Path(options.file)), Path(options.file).stem)
        if options.size is not None and options.size not in pattern.sizes:
            return _no_such_size(options.size, pattern.sizes)
        booklets = plan_booklets(pattern, None if options.size is None else [options.size])
    except PatternError as error:
        for line in problem_lines(options.file, error.problems):
            print(line, file=sys.stderr)
        return PROBLEMS
    try:
        write_all(Path(options.out), booklet_files(pattern.id, booklets))
    except OSError as fault:
        return refuse(f"cannot write {options.out}: {fault.strerror or fault}")
    return FINE


def _pixels(text: str) -> int:
    """Read a width in pixels."""
    from seamleaf.publishing.paper import WIDEST

    if not text.isascii() or not text.isdecimal() or not 1 <= int(text) <= WIDEST:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected pixels from 1 to {WIDEST}")
    return int(text)


def _figures(options: argparse.Namespace) -> int:
    from seamleaf.site.pictures import PictureError, figure_pngs  # late: no other command draws

    try:
        write_all(Path(options.png), figure_pngs(Path(options.booklet), options.width))
    except PictureError as fault:
        return refuse(fault)
    except OSError as fault:
        return refuse(f"cannot read or write: {fault}")
    return FINE


def _proof(options: argparse.Namespace) -> int:
    from seamleaf.site.proving import prove_folder  # late: no other command needs the whole proof

    findings, summaries = prove_folder(Path(options.folder), processes=processors())
    for line in findings or summaries:
        print(line)
    return PROBLEMS if findings else FINE


def _compare(options: argparse.Namespace) -> int:
    from seamleaf.site.comparing import compare_folders, note_page  # late: no other command needs it
    from seamleaf.versions import EditionError

    try:
        title, note = compare_folders(Path(options.old), Path(options.new))
    except EditionError as fault:
        for line in fault.lines:
            print(printable(line))
        return PROBLEMS
    print(note, end="")
    if options.page is not None:
        try:
            write_one(Path(options.page), note_page(title, note).encode("utf-8"))
        except OSError as fault:
            return refuse(f"cannot write {options.page}: {fault.strerror or fault}")
    return FINE


def _grid(text: str) -> tuple[int, int]:
    from seamleaf.site.photo import MOST_ACROSS  # late, as below

    found = re.fullmatch(r"(\d{1,3})[x×](\d{1,3})", text)
    across, down = (int(found[1]), int(found[2])) if found else (0, 0)
    if not (1 <= across <= MOST_ACROSS and 1 <= down <= MOST_ACROSS):
        raise argparse.ArgumentTypeError(
            f"found {printable(text)!r}, expected squares across and down, 1 to {MOST_ACROSS} each, as in 6x4"
        )
    return across, down


def _colours(options: argparse.Namespace) -> int:
    from seamleaf.site.photo import PhotoError, read_photo, yaml_lines  # late: no other command reads photos

    try:
        squares = read_photo(Path(options.photo), *options.grid)
    except PhotoError as fault:
        return refuse(f"{options.photo}: {fault}")
    for line in yaml_lines(squares):
        print(line)
    return FINE


def _schema(options: argparse.Namespace) -> int:
    from seamleaf.reading.schema import schema_text  # late: it loads all keys

    if options.out is None:
        print(schema_text(), end="")
        return FINE
    try:
        write_one(Path(options.out), schema_text().encode("utf-8"))
    except OSError as fault:
        return refuse(f"cannot write {options.out}: {fault.strerror or fault}")
    return FINE


def _templates(options: argparse.Namespace) -> int:
    from seamleaf.publishing import replaceable_templates  # late: no other command copies any

    known = replaceable_templates()
    if not options.names:
        for each in known.values():
            print(f"{each.name}  {each.about}")
        return FINE
    unknown = [name for name in options.names if name not in known]
    if unknown or options.out is None:
        say(f"there is no template {unknown[0]}" if unknown else "--out names the folder that takes the copies")
        return WRONG_USE
    out = Path(options.out)
    taken = [name for name in options.names if (out / name).exists()]
    if taken:
        return refuse(f"{out / taken[0]}: is there already; move it away, or copy into another folder and compare")
    try:
        write_all(out, {name: known[name].copied() for name in options.names})
    except OSError as fault:
        return refuse(f"cannot write {options.out}: {fault.strerror or fault}")
    return FINE
