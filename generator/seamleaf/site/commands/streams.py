"""The standard streams as a command may find them: closed by whoever started it, full, or read by nobody."""

from __future__ import annotations

import contextlib
import errno
import io
import os
import sys
from typing import Final

_OF_THE_MACHINE: Final = frozenset(
    {errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EFBIG, errno.EROFS, errno.EMFILE, errno.ENFILE, errno.ENOMEM}
)
"""What no program can help: a disk that is full or broken, or too little of something else."""


def open_streams() -> None:
    """See that all three streams are there, and take every character.

    Where one is closed, the next file that is opened would take its number, and get whatever a library says.
    """
    taken = os.open(os.devnull, os.O_RDWR)
    while taken <= 2:
        os.set_inheritable(taken, True)
        taken = os.open(os.devnull, os.O_RDWR)
    os.close(taken)
    if sys.stdin is None:
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: SIM115 -- stays open to the end
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115 -- stays open to the end
        stream = getattr(sys, name)
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def abandon_output() -> None:
    """Send what is left for standard output nowhere, or Python complains again at exit."""
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)


def is_of_the_machine(fault: BaseException) -> bool:
    """Tell whether something failed for want of room, files or memory, and not for a fault of this program."""
    return isinstance(fault, MemoryError) or (isinstance(fault, OSError) and fault.errno in _OF_THE_MACHINE)
