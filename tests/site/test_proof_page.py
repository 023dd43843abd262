"""The page that tells how booklets are proved: its table is the list of errors that the tests plant.

``python -m pytest tests/site/test_proof_page.py --accept`` writes the table anew.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from errata import ERRATA
from misprints import MISPRINTS, PAPER_MISPRINTS

if TYPE_CHECKING:
    import pytest

PAGE = Path(__file__).parents[2] / "patterns" / "proof.md"
BEGIN, END = "<!-- errors and the checks that find them -->\n", "<!-- end of the table -->"


def table() -> str:
    """Return the table as Markdown."""
    rows = [(each.says, each.check) for each in (*ERRATA, *MISPRINTS, *PAPER_MISPRINTS)]
    lines = [f"| {says[0].upper()}{says[1:]} | {check} |" for says, check in rows]
    return "\n".join([BEGIN, "| Error | Found by the check of |", "|---|---|", *lines, "", END])


def test_the_table_is_what_the_tests_plant(request: pytest.FixtureRequest) -> None:
    text = PAGE.read_text(encoding="utf-8")
    head, _, rest = text.partition(BEGIN)
    present, _, tail = rest.partition(END)
    fresh = f"{head}{table()}{tail}"
    if request.config.getoption("--accept"):
        PAGE.write_text(fresh, encoding="utf-8")
    else:
        assert text == fresh
    assert present.count("\n| ") > 60 or request.config.getoption("--accept")
    assert all("|" not in each.says for each in (*ERRATA, *MISPRINTS, *PAPER_MISPRINTS))
