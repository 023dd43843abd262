"""Which block goes where, told in few words: every block can still be told from the list, in quilts of any size."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from published import TWO_FABRICS, published, read_page, text_of

HEAD = f"""{TWO_FABRICS}blocks:
  half: {{half-square: [d, l], finished: 2 x 2}}
  four: {{grid: [DL, LD], key: {{D: d 1 x 1, L: l 1 x 1}}}}
"""
TURNS = HEAD + "setting: {set: straight, turns: fixed, blocks: %s}\nsizes: {mat: {title: Mat, blocks: %s}}\n"
POINT = f"""{HEAD}setting: {{set: on-point, blocks: [[half, four]], triangles: {{fabric: l}}}}
sizes: {{mat: {{title: Mat, blocks: 4 x 5}}}}
"""
WAYS = {"": 0, " (quarter turn)": 90, " (half turn)": 180, " (three quarters of a turn)": 270}
RUN = re.compile(r"(\d+\.\d+)(?: to (\d+\.\d+))? (?:(half|four)( \([a-z ]+\))?|(not turned|[a-z ]*turn))(?:,|$)")
ON = re.compile(r" and so on in turn, to (\d+\.\d+)$")


def told_by(text: str) -> dict[str, tuple[str, int]]:
    """Read the list as a maker does, into the kind of each block and how it lies."""
    told: dict[str, tuple[str, int]] = {}
    for line in re.findall(r"(?:Row|Column) \d+: (.*?)(?= Row \d| Column \d| ## )", text):
        on, runs = ON.search(line), list(RUN.finditer(ON.sub("", line)))
        kinds = []
        for run in runs:
            first, last, kind, way, alone = run.groups()
            turn = WAYS[f" ({alone})"] if alone and alone != "not turned" else WAYS[way or ""]
            kinds += [(kind or "", turn)] * (int((last or first).split(".")[1]) - int(first.split(".")[1]) + 1)
        row, end = (on[1] if on else (runs[-1][2] or runs[-1][1])).split(".")
        told |= {f"{row}.{n + 1}": kinds[n % len(kinds)] for n in range(int(end))}
    return told


def files_of(pattern: str) -> tuple[dict[str, bytes], dict[str, Any]]:
    files = published(pattern, "test")
    return files, json.loads(files["test/mat/booklet.json"])


@pytest.mark.parametrize(
    "pattern",
    [
        TURNS % ("[[half, four], [half@90, half@180]]", "12 x 3"),
        TURNS % ("[[half, half, four, half@270]]", "9 x 2"),
        TURNS % ("[[half], [half@90]]", "1 x 4"),
        TURNS % ("[[half, half@90, half@180]]", "3 x 1"),
        TURNS % ("[[half, half@90, half@180]]", "7 x 2"),
        POINT,
    ],
)
def test_every_block_can_be_told_from_the_list(pattern: str) -> None:
    files, booklet = files_of(pattern)
    text = text_of(read_page(files["test/mat/layout/index.md"]))
    told = told_by(text[text.index("Which block goes where") :])
    tilted = 45 if booklet["set"]["kind"] == "on-point" else 0
    blocks = [place for place in booklet["places"] if place["number"]]
    mixed = len({place["unit"] for place in blocks}) > 1
    assert told == {
        place["number"]: (place["unit"] if mixed else "", (place["turn"] - tilted) % 360) for place in blocks
    }


def test_a_row_of_fifty_blocks_in_turn_is_one_line() -> None:
    """A list of 2,500 blocks, each on a line of its own, filled forty sheets."""
    files, _ = files_of(TURNS % ("[[half, four], [four, half@90]]", "50 x 2"))
    text = text_of(read_page(files["test/mat/layout/index.md"]))
    assert "Row 1: 1.1 half, 1.2 four, and so on in turn, to 1.50 Row 2: 2.1 four, 2.2 half (quarter turn)," in text


def test_on_paper_a_row_that_is_sewn_like_another_has_no_figure_of_its_own() -> None:
    files, booklet = files_of(TURNS % ("[[half, four], [four, half]]", "3 x 4"))
    sewn = [tuple(booklet["places"][item]["unit"] for item in row["items"]) for row in booklet["rows"]]
    assert sewn[0] == sewn[2] != sewn[1] == sewn[3]
    paper = read_page(files["test/mat/print/index.md"])
    assert text_of(paper).count("Sewn like row 1: its figure serves for both.") == 1
    assert text_of(paper).count("Sewn like row 2: its figure serves for both.") == 1
    screen = read_page(files["test/mat/layout/index.md"])
    assert [sum("row-" in image["src"] for image in page.images) for page in (paper, screen)] == [2, 4]
