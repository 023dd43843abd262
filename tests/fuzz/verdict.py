"""What comes of one file: a booklet, problems that have their places, or a fault of the program."""

from __future__ import annotations

import contextlib
import gc
import re
import signal
import time
import traceback
from collections.abc import Iterator
from dataclasses import dataclass
from types import FrameType
from typing import Final

from seamleaf.reading.problems import PatternError
from seamleaf.site.files.sources import problem_lines
from seamleaf.site.work.pipeline import plan, read_checked

LONGEST: Final = 5.0
"""Seconds of the processor after which a file counts as a hang; how busy the machine is does not matter."""
_LINE = re.compile(r"pattern\.yaml:([1-9]\d*):([1-9]\d*): found .+, expected .+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """How one file ended."""

    end: str
    """``planned``, ``sized``, ``refused``, ``traceback``, ``hang`` or ``no line``."""
    seconds: float
    note: str = ""
    """Where a fault of the program happened, or the line that names no place."""

    @property
    def is_fault(self) -> bool:
        """Tell whether the program is to blame."""
        return self.end not in ("planned", "sized", "refused")


class _TooLongError(Exception):
    pass


@contextlib.contextmanager
def _alarm(seconds: float) -> Iterator[None]:
    def ring(_number: int, _frame: FrameType | None) -> None:
        raise _TooLongError

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, seconds, 1)  # again, where the first was lost in a callback
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def try_file(data: bytes, *, planned: bool = True, longest: float = LONGEST) -> Verdict:
    """Take a file through reading and sizing and, if asked, planning."""
    gc.freeze()  # what made the files up is not looked through again and again while they are planned
    start = time.process_time()
    end, note = ("planned" if planned else "sized"), ""
    try:
        with _alarm(longest):
            if planned:
                plan(data, "pattern")
            else:
                read_checked(data, "pattern")
    except PatternError as error:
        lines = problem_lines("pattern.yaml", error.problems)
        faulty = [line for line in lines if not _in_the_file(line, data)] or ([] if lines else ["refused in silence"])
        end, note = ("no line", faulty[0]) if faulty else ("refused", "")
    except _TooLongError:
        end, note = "hang", traceback.format_exc()
    except Exception:  # what the hunt is for
        end, note = "traceback", traceback.format_exc()
    finally:
        seconds = time.process_time() - start
        gc.unfreeze()
    return Verdict(end=end, seconds=seconds, note=note)


def _in_the_file(line: str, data: bytes) -> bool:
    """Tell whether a problem names a place that the file has; an end of file may be named as well."""
    found = _LINE.fullmatch(line)
    if found is None:
        return False
    text = data.decode("utf-8", errors="surrogateescape").removeprefix("\ufeff")
    lines = [*text.replace("\r\n", "\n").replace("\r", "\n").split("\n"), ""]
    row, column = int(found[1]), int(found[2])
    return row <= len(lines) and column <= len(lines[row - 1]) + 1
