"""Pattern files on disk: which there are, and their bytes."""

from __future__ import annotations

from pathlib import Path

from seamleaf.reading.pattern import Mark
from seamleaf.reading.problems import PatternError, Problem

_START = Mark(1, 1)


def pattern_files(docs_dir: Path) -> list[Path]:
    """Return the pattern files of a site, by name: every ``*.yaml`` directly in its docs_dir."""
    return sorted(path for path in docs_dir.glob("*.yaml") if path.is_file())


def read_file(path: Path) -> bytes:
    """Return the bytes of a pattern file.

    Raises:
        PatternError: the file cannot be read; the problem stands at its start.

    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        found = "no file of this name"
    except IsADirectoryError:
        found = "a folder"
    except OSError as fault:
        found = f"a file that cannot be read: {fault.strerror or fault}"
    except ValueError:
        found = "a name that no file can have"
    raise PatternError([Problem(where=_START, found=found, expected="a pattern file")])


def problem_lines(file: str, error: PatternError) -> list[str]:
    """Write one line a problem, in the order of the file; marks that a terminal would act on are written out."""
    return [printable(problem.sentence(file)) for problem in error.problems]


def printable(text: str) -> str:
    """Write out control characters, so that one message stays one line."""
    return "".join(mark if mark.isprintable() else repr(mark)[1:-1] for mark in text)
