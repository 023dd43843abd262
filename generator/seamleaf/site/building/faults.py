"""Faults that are not this program's: of hooks, extensions and templates that an author has written."""

from __future__ import annotations

import os
import sys
import traceback
from pathlib import Path

from jinja2 import TemplateError

import seamleaf


def fault_of_author(fault: Exception, home: Path) -> str | None:
    """Say where in the site's own folder something failed; ``None`` if it was not there, nor in a theme.

    Args:
        fault: what was raised while the site was made.
        home: the folder of its configuration.

    """
    home, others = home.resolve(), [Path(seamleaf.__file__).parent.resolve(), Path(sys.prefix).resolve()]
    for frame in reversed(traceback.extract_tb(fault.__traceback__)):
        path = Path(frame.filename).resolve()
        if path.is_file() and path.is_relative_to(home) and not any(path.is_relative_to(other) for other in others):
            return f"{os.path.relpath(path)}:{frame.lineno}: {type(fault).__name__}: {fault}"
    if isinstance(fault, TemplateError | UnicodeDecodeError):
        return f"in the theme: {type(fault).__name__}: {fault}"
    return None
