"""Messages on pattern files are read by quilters: no word of a programmer's stands in them."""

from __future__ import annotations

import re

from pattern_text import pattern_text, split_marks
from reading.test_bad_files import CASES
from seamleaf.reading import read_pattern

JARGON = re.compile(r"\b(?:keys?|bytes?|encod\w*|string|integer|boolean|null|mapping|parse\w*|token|syntax|YAML)\b")


def test_no_message_speaks_as_programmers_do() -> None:
    """A quilter who has never programmed reads them; ``key`` itself is a word of grids, so it may stand in quotes."""
    spoken = {
        (name, said)
        for name, sections, _ in CASES
        for problem in read_pattern(
            split_marks(pattern_text(**sections))[0].encode("utf-8", "surrogatepass"), "x"
        ).problems
        for said in JARGON.findall(re.sub(r"'[^']*'|such as .*", "", problem.sentence("x.yaml").partition("found")[2]))
    }
    assert spoken == set()
