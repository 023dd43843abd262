"""What a maker has against what a plan takes, and ways out that are planned and proved again."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from published import SMALL
from seamleaf.site.commands.command import main

POND = SMALL.replace(
    "setting:",
    "borders: [{fabric: reed, width: 2, corner: butted}]\nsetting:",
).replace("reed: {title: Green, source: yardage", "reed: {title: Green, source: yardage, margin: 1")
PIECES = """\
title: Bits
version: 1.0.0
fabrics:
  bit: {title: Bits, source: squares 5, pack: 20}
  ground: {title: Blue, source: yardage}
blocks:
  two: {row: [bit.1 4 x 4, ground 4 x 4]}
setting: {set: straight, blocks: [[two]]}
sizes:
  mat: {title: Mat, blocks: 3 x 4}
  runner: {title: Runner, blocks: 1 x 9}
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "pond.yaml").write_text(POND, encoding="utf-8")
    (tmp_path / "bits.yaml").write_text(PIECES, encoding="utf-8")
    return tmp_path


def asked(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, list[str], str]:
    status = main(["check", *words])
    out, err = capsys.readouterr()
    return status, out.splitlines(), err


def test_what_is_enough_is_said_of_every_size(capsys: pytest.CaptureFixture[str]) -> None:
    assert asked(capsys, "pond.yaml", "--have", "water 3 yd", "--have", "reed 2 m") == (
        0, ["mat: enough", "runner: enough"], "",
    )  # fmt: skip


def test_the_margin_for_straightening_counts(capsys: pytest.CaptureFixture[str]) -> None:
    """A plan of n inches with a margin of 1 asks for n + 1; whole inches below n are not enough."""
    _, lines, _ = asked(capsys, "pond.yaml", "--have", "reed 1 in", "--size", "mat")
    need = re.search(r"takes (\d+(?: \d+/\d+)?) in and 1 in to straighten", lines[0])
    assert need is not None
    whole, _, part = need[1].partition(" ")
    enough = f"{int(whole) + 1} {part}".strip()
    assert asked(capsys, "pond.yaml", "--have", f"reed {enough} in", "--size", "mat")[0] == 0
    assert asked(capsys, "pond.yaml", "--have", f"reed {whole} in", "--size", "mat")[0] == 1


def test_ways_out_are_the_least_changes_and_each_would_do(capsys: pytest.CaptureFixture[str]) -> None:
    """Border, layout and another size: asked again with what a way takes, the answer is that it is enough."""
    status, lines, err = asked(capsys, "pond.yaml", "--have", "reed 17 in", "--size", "runner")
    assert (status, err) == (1, "")
    assert lines[0].startswith("runner: not enough of reed: 17 in; the plan takes ")
    ways = [line.partition(": way out ")[2] for line in lines[1:]]
    assert [way[0] for way in ways] == [str(number) for number in range(1, len(ways) + 1)]
    assert len(ways) >= 3
    assert any("border 1" in way for way in ways)
    assert any("blocks, not 2 x 9" in way for way in ways)
    for way in ways:
        takes = re.search(r"takes reed (\d+)(?: (\d+)/(\d+))? in$", way)
        assert takes is not None, way
        whole, top, bottom = (int(part or 0) for part in takes.groups())
        assert whole + (top / bottom if bottom else 0) <= 17


def test_pieces_and_packs_of_a_bundle(capsys: pytest.CaptureFixture[str]) -> None:
    assert asked(capsys, "bits.yaml", "--have", "bit 1 pack")[0] == 0
    status, lines, _ = asked(capsys, "bits.yaml", "--have", "bit 8", "--size", "mat")
    assert status == 1
    assert lines[0] == "mat: not enough of bit: 8; the plan takes 12 pieces"
    assert lines[1:3] == [
        (
            "mat: way out 1: 4 more of bit, of other fabric that gives 5 x 5 in each; finished 24 x 16 in; "
            "takes bit 12 pieces"
        ),
        "mat: way out 2: 2 x 4 blocks, not 3 x 4; finished 16 x 16 in; takes bit 8 pieces",
    ]


def test_other_pieces_do_not_help_where_yardage_is_short_too(capsys: pytest.CaptureFixture[str]) -> None:
    _, lines, _ = asked(capsys, "bits.yaml", "--have", "bit 8", "--have", "ground 5 in", "--size", "mat")
    assert len(lines) > 2
    assert not any("more of bit" in line for line in lines)


def test_more_of_a_kind_are_told_where_there_are_few_ways(capsys: pytest.CaptureFixture[str]) -> None:
    """Layouts alone help here; two of them are told where others do as well."""
    _, lines, _ = asked(capsys, "bits.yaml", "--have", "ground 10 in", "--size", "runner")
    ways = [line for line in lines if ": way out " in line]
    assert len(ways) == 3
    assert all("blocks, not 1 x 9" in way for way in ways)


def test_where_nothing_does_it_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    _, lines, _ = asked(capsys, "bits.yaml", "--have", "ground 1 in", "--size", "mat")
    assert lines[-1] == "mat: no smaller layout, border or backing of this pattern does with that"


@pytest.mark.parametrize(
    ("amount", "words"),
    [
        ("grund 1 yd", "found fabric 'grund', expected one of water, reed, backing"),
        ("water", "expected a fabric and an amount"),
        ("water 3", "expected yardage in yd, m, in or cm"),
        ("water 1 9/4 yd", "found the amount '1 9/4'"),
        ("water 1/0 yd", "found the amount '1/0'"),
    ],
)
def test_an_amount_that_cannot_be_understood_is_refused(
    capsys: pytest.CaptureFixture[str], amount: str, words: str
) -> None:
    status, lines, err = asked(capsys, "pond.yaml", "--have", amount)
    assert (status, lines) == (2, [])
    assert words in err


def test_a_unit_may_stand_close_to_its_number(capsys: pytest.CaptureFixture[str]) -> None:
    assert asked(capsys, "pond.yaml", "--have", "water 2yd")[1] == [
        line.replace("water 2 yd", "water 2yd") for line in asked(capsys, "pond.yaml", "--have", "water 2 yd")[1]
    ]


@pytest.mark.parametrize("amount", ["bit 1 yd", "bit 1 1/2"])
def test_a_bundle_comes_in_pieces(capsys: pytest.CaptureFixture[str], amount: str) -> None:
    assert "expected whole pieces or packs" in asked(capsys, "bits.yaml", "--have", amount)[2]


@pytest.mark.parametrize(
    "words",
    [
        ["--have", "water 1 yd"],
        ["pond.yaml", "bits.yaml", "--have", "water 1 yd"],
        ["pond.yaml", "--size", "mat"],
        ["pond.yaml", "--have", "water 1 yd", "--size", "king"],
        ["pond.yaml", "--have", "water 1 yd", "--format", "json"],
    ],
)
def test_wrong_use_is_told(capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    status, _, err = asked(capsys, *words)
    assert status == 2
    assert err.startswith("seamleaf: ")


def test_a_broken_pattern_shows_its_problems_first(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "pond.yaml").write_text(POND.replace("reed 3 x 3", "reeds 3 x 3"), encoding="utf-8")
    status, lines, err = asked(capsys, "pond.yaml", "--have", "water 1 yd")
    assert (status, lines) == (1, [])
    assert err.startswith("pond.yaml:")


def test_a_way_out_tells_what_it_takes_more_of_another_fabric(capsys: pytest.CaptureFixture[str]) -> None:
    """A binding of reed saves water and takes reed, of which the maker may have just what the plan says."""
    _, lines, _ = asked(capsys, "pond.yaml", "--have", "water 8 in", "--size", "mat")
    way = next(line for line in lines if "way out 1: a binding of reed, not water" in line)
    more = re.search(r"; but (\d+)(?: \d+/\d+)? in of reed, not (\d+)(?: \d+/\d+)? in$", way)
    assert more is not None, way
    assert int(more[1]) > int(more[2])
    _, lines, _ = asked(capsys, "pond.yaml", "--have", "reed 10 in", "--size", "mat")
    assert any("way out" in line for line in lines)
    assert not any("but" in line for line in lines), "a smaller quilt takes no more of anything"
