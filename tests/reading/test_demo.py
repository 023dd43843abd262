"""The demo pattern reads without a problem, whatever the editor's line ends."""

from __future__ import annotations

from pathlib import Path

import pytest

from seamleaf.reading import read_pattern

DEMOS = sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_demo_pattern_reads_with_no_problem(path: Path) -> None:
    reading = read_pattern(path.read_bytes(), path.stem)

    assert reading.problems == ()
    assert reading.pattern is not None


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_line_ends_and_a_byte_order_mark_change_nothing(path: Path) -> None:
    data = path.read_bytes()
    plain = read_pattern(data, path.stem)

    assert read_pattern(data.replace(b"\n", b"\r\n"), path.stem) == plain
    assert read_pattern(b"\xef\xbb\xbf" + data, path.stem) == plain
