"""Templates compiled once in a process, however often they are loaded.

Jinja remembers them by environment, and every load of the templates makes one: to compile them takes a quarter
of a second, longer than to fill the pages of a small size with them.
"""

from __future__ import annotations

from types import CodeType
from typing import TYPE_CHECKING, Final

from jinja2 import BytecodeCache

if TYPE_CHECKING:
    from jinja2.bccache import Bucket

MOST: Final = 1000
"""Of remembered templates: who edits one while serving leaves an old one behind each time."""

_CODES: Final[dict[tuple[str, str], CodeType]] = {}


class Compiled(BytecodeCache):
    """Knows a template by its name, its place and its text; for environments that differ in their globals alone."""

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give what the template was compiled to, if it was."""
        bucket.code = _CODES.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Remember what it was compiled to."""
        if len(_CODES) >= MOST:
            _CODES.clear()
        if bucket.code is not None:
            _CODES[bucket.key, bucket.checksum] = bucket.code
