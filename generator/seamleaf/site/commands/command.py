"""The command ``seamleaf``.

Exit status: 0 all well, 1 problems in the input or findings of the proof, 2 wrong use, 70 a fault of the program
itself.
"""

from __future__ import annotations

import argparse
import os
import shlex
import sys
import traceback
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Final

from seamleaf.reading.problems import PatternError
from seamleaf.site.commands.making import build, join, serve
from seamleaf.site.commands.starting import StartError, ask, start_folder
from seamleaf.site.commands.streams import abandon_output, is_of_the_machine, open_streams
from seamleaf.site.commands.telling import (
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
from seamleaf.site.files.output import write_all, write_one
from seamleaf.site.files.sources import pattern_files, printable, problem_lines, read_file, unread_files
from seamleaf.site.usage import command_parser
from seamleaf.site.work.workers import processors


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
    return RUN[options.command](options)


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
        from seamleaf.site.building.running import SiteError  # late: MkDocs takes longer than a small check

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
            unused = f"; no size uses {', '.join(told.unused)}" if told.unused else ""
            print(printable(f"{told.file}: no problems ({', '.join(told.sizes)}){unused}"))
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
    from seamleaf.site.building.running import SiteError, load_site  # late, as above

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
    from seamleaf.site.commands.having import HavingError, read_haves
    from seamleaf.site.commands.ways_out import answer  # late: it needs the proof
    from seamleaf.site.work.pipeline import read_checked  # late, as below

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
    from seamleaf.site.work.pipeline import plan  # late: a build with nothing new plans nothing

    if sys.stderr.isatty():  # planning may take a while
        say(f"checking {name}")
    text = b""
    try:
        text = read_file(Path(name))
        pattern, booklets = plan(text, Path(name).stem)
    except PatternError as error:
        return Told(file=name, problems=tuple(error.problems), text=text)
    used = {fabric.id for booklet in booklets.values() for fabric in booklet.fabrics}
    return Told(file=name, sizes=tuple(booklets), unused=tuple(each for each in pattern.fabrics if each not in used))


def _booklet(options: argparse.Namespace) -> int:
    from seamleaf.booklet import plan_booklets  # late, as above
    from seamleaf.publishing import booklet_files
    from seamleaf.site.work.pipeline import read_checked

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


def _figures(options: argparse.Namespace) -> int:
    from seamleaf.site.pages.pictures import PictureError, figure_pngs  # late: no other command draws

    try:
        write_all(Path(options.png), figure_pngs(Path(options.booklet), options.width))
    except PictureError as fault:
        return refuse(fault)
    except OSError as fault:
        return refuse(f"cannot read or write: {fault}")
    return FINE


def _proof(options: argparse.Namespace) -> int:
    from seamleaf.site.work.proving import prove_folder  # late: no other command needs the whole proof

    findings, summaries = prove_folder(Path(options.folder), processes=processors())
    for line in findings or summaries:
        print(line)
    return PROBLEMS if findings else FINE


def _compare(options: argparse.Namespace) -> int:
    from seamleaf.site.commands.comparing import compare_folders, note_page  # late: no other command needs it
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


def _colours(options: argparse.Namespace) -> int:
    from seamleaf.site.commands.photo import PhotoError, read_photo, yaml_lines  # late: no other command reads photos

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


RUN: Final[dict[str, Callable[[argparse.Namespace], int]]] = {
    "new": _new,
    "check": _check,
    "booklet": _booklet,
    "figures": _figures,
    "proof": _proof,
    "compare": _compare,
    "colours": _colours,
    "schema": _schema,
    "templates": _templates,
    "build": build,
    "join": join,
    "serve": serve,
}
"""What each command of the parser does."""
