"""The YAML parser in pure Python, brought in line with libyaml.

The two differ in what they accept: PyYAML's own scanner refuses a question mark inside a plain flow value, and a
comment right behind ``|`` or ``>``, and is stricter about tags. A pattern must not read differently where libyaml
is missing, so the scanner is taught the same leniency.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import yaml

_BLANK = "\0 \t\n"


class PlainLoader(yaml.BaseLoader):
    """PyYAML's scanner and parser with libyaml's leniency, for text whose line ends are all alike."""

    peek: Callable[..., str]

    def _seeing(self, char: str, instead: str, scan: Callable[..., Any], *args: Any) -> Any:
        """Run one scanning step that takes ``char`` for ``instead``; what it stores is the text itself."""
        peek = self.peek

        def masked(index: int = 0) -> str:
            found = peek(index)
            return instead if found == char else found

        self.peek = masked
        try:
            return scan(*args)
        finally:
            self.peek = peek

    def scan_plain(self) -> Any:
        """Scan a plain scalar; a question mark is text in it."""
        return self._seeing("?", "_", super().scan_plain)

    def scan_block_scalar_indicators(self, start_mark: Any) -> Any:
        """Scan what follows ``|`` or ``>``; a comment needs no space before it."""
        return self._seeing("#", " ", super().scan_block_scalar_indicators, start_mark)

    def scan_tag(self) -> Any:
        """Scan any tag up to the next blank, or the comma in flow context: tags are refused whatever they say."""
        start_mark = self.get_mark()
        length = 0
        verbatim = self.prefix(2) == "!<"
        while (char := self.peek(length)) not in _BLANK and not (char == "," and self.flow_level and not verbatim):
            verbatim = verbatim and char != ">"
            length += 1
        text = self.prefix(length)
        self.forward(length)
        return yaml.TagToken((None, text), start_mark, self.get_mark())
