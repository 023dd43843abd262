"""Pattern files on disk: which there are, and their bytes."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from seamleaf.reading.marks import MAX_BYTES, Mark
from seamleaf.reading.problems import PatternError, Problem, Report

_START = Mark(1, 1)
_MOST: Final = MAX_BYTES + 1
"""Bytes that are read at most: enough to see that a file is too large, whatever endless thing it may be."""


def pattern_files(docs_dir: Path) -> list[Path]:
    """Return the pattern files of a site, by name: every ``*.yaml`` directly in its docs_dir that is no folder.

    Whatever cannot be read is one too, so that it is told of.

    Raises:
        OSError: the docs_dir cannot be read.

    """
    return sorted(path for path in docs_dir.iterdir() if is_pattern_name(path.name) and not path.is_dir())


def is_pattern_name(name: str) -> bool:
    """Tell whether a file is a pattern by its name; what begins with a dot is an editor's or a system's own."""
    return name.endswith(".yaml") and not name.startswith(".")


def unread_files(docs_dir: Path) -> list[str]:
    """Say of each ``*.yml`` beside the patterns that it is none by its name, for its author may take it for one."""
    return [
        f"{os.path.relpath(path)}: not looked at, for the name of a pattern file ends in .yaml"
        for path in sorted(docs_dir.glob("*.yml"))
    ]


def slips_in(config_file: Path) -> list[str]:
    """Return what keeps a configuration from being read as YAML, told as slips in pattern files are."""
    from seamleaf.reading.source import read_source  # late: a build with nothing new reads no pattern

    report = Report()
    read_source(config_file.read_bytes(), report)
    return problem_lines(str(config_file), report.sorted())


def read_file(path: Path) -> bytes:
    """Return the bytes of a pattern file, or the first of them if it is too large to be one.

    Raises:
        PatternError: the file cannot be read; the problem stands at its start.

    """
    try:
        if path.is_fifo() and not path.is_relative_to("/dev"):  # a shell's own pipes, which lie there, come to an end
            raise OSError("nobody may ever write into a pipe")
        with path.open("rb") as file:
            return file.read(_MOST)
    except FileNotFoundError:
        found = "no file of this name"
    except IsADirectoryError:
        found = "a folder"
    except OSError as fault:
        found = f"a file that cannot be read: {fault.strerror or fault}"
    except ValueError:
        found = "a name that no file can have"
    raise PatternError([Problem(where=_START, found=found, expected="a pattern file")])


def read_text(path: Path) -> bytes | PatternError:
    """Return the bytes of a pattern file, or what is wrong with it."""
    try:
        return read_file(path)
    except PatternError as error:
        return error


def problem_lines(file: str, problems: Sequence[Problem]) -> list[str]:
    """Write one line a problem; marks that a terminal would act on are written out."""
    return [printable(problem.sentence(file)) for problem in problems]


def printable(text: str) -> str:
    """Write out control characters, so that one message stays one line."""
    return "".join(mark if mark.isprintable() else repr(mark)[1:-1] for mark in text)
