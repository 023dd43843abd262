"""Two published versions: what a correction note tells, for whom, and what it refuses."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from accepted import accepted_text
from seamleaf.publishing import load_templates, note_view, publish_note
from seamleaf.site.commands.command import main
from seamleaf.versions import (
    Edition,
    EditionError,
    compare_booklets,
    compare_editions,
    editions_below,
    order_of,
    read_edition,
)
from spoiling import flipped, more, plus, set_at, without

TEMPLATES = load_templates()

Change = Callable[[Any], Any]


@pytest.fixture(scope="module")
def crib() -> str:
    """Return the text of an accepted booklet, to be copied."""
    return accepted_text("lamplight-crossing", "crib")


def changed(text: str, changes: dict[str, Any], version: str = "1.0.1") -> Any:
    booklet = json.loads(text)
    for pointer, new in {"/pattern/version": version, **changes}.items():
        booklet = set_at(booklet, pointer, new)
    return booklet


def edition(**sizes: Any) -> Edition:
    return read_edition({size: (f"{size}/booklet.json", value) for size, value in sizes.items()})


def note_of(old: Edition, new: Edition, words: str = "") -> str:
    return publish_note("Note", [note_view(compare_editions(old, new), TEMPLATES.wording, words)], TEMPLATES)


@pytest.mark.parametrize(
    ("changes", "stage", "advice", "line"),
    [
        (
            {"/patches/A3/w": plus("1/4")},
            "cut",
            "size-up",
            "Patch A3: cut width 5 1/2 in, was 5 1/4 in. Already cut: too",
        ),
        (
            {"/patches/A3/h": plus("-1/4")},
            "cut",
            "size-down",
            "Patch A3: cut height 5 in, was 5 1/4 in. Already cut: trim",
        ),
        ({"/patches/A4/count": more(2)}, "cut", "count-up", "Patch A4: number 34, was 32. Make the missing"),
        ({"/patches/A4/count": more(-2)}, "cut", "count-down", "Patch A4: number 30, was 32. The rest is spare"),
        ({"/fabrics/ground/buy/amount": "17/8"}, "buy", "buy-up", "buy 2 1/8 yd, was 2 yd. Buy the difference"),
        ({"/fabrics/ground/buy/amount": "15/8"}, "buy", "buy-down", "buy 1 7/8 yd, was 2 yd. You have some left"),
        ({"/units/U1/count": more(-4)}, "sew", "count-down", "Unit U1: number 60, was 64."),
        ({"/units/U4/made/h": plus("1/8")}, "sew", "measure", "Unit U4: sewn height 2 5/8 in, was 2 1/2 in. Measure"),
        (
            {"/seams/U1.1/press": flipped},
            "sew",
            "press",
            "Unit U1, seam between A1 and C1: pressed to C1, was to A1. Already pressed",
        ),
        ({"/seams/row2.1/press": flipped}, "join", "press", "Row 2, seam 1: pressed to"),
        ({"/seams/border1.left/press": "open"}, "finish", "press", "Border 1, seam at the left: pressed open, was to"),
        ({"/places/0/turn": 135}, "join", "look", "Layout: changed. Follow the new page."),
        ({"/borders/0/strips/0/length": plus("1")}, "finish", "size-up", "length of the left strip 52 1/2 in, was 51"),
        ({"/binding/strips": more(1)}, "finish", "count-up", "Binding: strips 7, was 6."),
        ({"/backing/w": plus("1")}, "finish", "size-up", "Backing: width about"),
        ({"/backing/seam": "vertical"}, "finish", "look", "Backing: seams vertical, was horizontal."),
        ({"/cutting/0/times": more(1)}, "cut", "look", "Cutting plan of Deep blue solid: changed."),
        ({"/patches": without("A4")}, "cut", "look", "Patch A4: gone."),
        ({"/seam": "3/8"}, "sew", "look", "Seam: allowance 3/8 in, was 1/4 in."),
    ],
)
def test_a_change_is_told_with_its_stage_and_what_to_do(
    crib: str, changes: dict[str, Any], stage: str, advice: str, line: str
) -> None:
    old, new = json.loads(crib), changed(crib, changes)
    found = [change for change in compare_booklets(old, new) if change.stage != "read"]
    assert (stage, advice) in [(change.stage, change.advice) for change in found]
    note = note_of(edition(crib=old), edition(crib=new))
    assert line in note
    assert note_of(edition(crib=old), edition(crib=changed(crib, {}))) != note


def test_no_value_changes_without_a_word(crib: str) -> None:
    """Each leaf of a booklet that is replaced is a change, whatever it is; only the format's name is not looked at."""
    draw = random.Random(7)
    booklet = json.loads(crib)
    leaves = [(holder, key) for holder, key in _leaves(booklet) if key != "format"]
    for holder, key in draw.sample(leaves, 150):
        before = holder[key]
        old = copy.deepcopy(booklet)
        holder[key] = before + 1 if isinstance(before, int) and not isinstance(before, bool) else _another(before)
        if key != "version":
            assert compare_booklets(old, booklet), key
        holder[key] = before
    assert compare_booklets(booklet, json.loads(crib)) == ()


def _leaves(value: Any) -> list[tuple[Any, Any]]:
    items = value.items() if isinstance(value, dict) else enumerate(value)
    return [
        leaf for key, item in items for leaf in (_leaves(item) if isinstance(item, (dict, list)) else [(value, key)])
    ]


def _another(value: Any) -> Any:
    if isinstance(value, str) and value[:1].isdigit():
        return "777"
    return "other" if isinstance(value, str) else 1 if value is None else not value


def test_sizes_that_share_a_change_share_its_line(crib: str) -> None:
    old, new = json.loads(crib), changed(crib, {"/patches/A3/w": plus("1/4")})
    only = changed(crib, {"/patches/A3/w": plus("1/4"), "/binding/strips": more(1)})
    note = note_of(edition(crib=old, throw=old), edition(crib=new, throw=only))
    assert note.count("Patch A3") == 1
    assert note.index("### Every size: cutting") < note.index("### Crib: borders and finishing")
    assert "have already cut, added borders or finished." in note


def test_a_note_names_new_and_lost_sizes_and_the_designers_words(crib: str) -> None:
    old, new = json.loads(crib), changed(crib, {})
    new["size"]["title"] = "Big <one>"
    note = note_of(edition(crib=old), edition(king=new), "The king is *new*.")
    assert "New size: Big &#60;one&#62;." in note
    assert "No longer published: Crib." in note
    assert "The king is &#42;new&#42;." in note


def test_a_key_that_the_older_format_lacked_is_no_change(crib: str) -> None:
    old = json.loads(crib)
    del old["totals"], old["fabrics"][0]["cliff"]
    note = compare_editions(edition(crib=old), edition(crib=changed(crib, {})))
    assert note.groups == note.stages == ()


def test_versions_are_ordered_as_numbers() -> None:
    assert sorted(["1.10.0", "1.9.1", "2.0", "1.9"], key=order_of) == ["1.9", "1.9.1", "1.10.0", "2.0"]


@pytest.mark.parametrize(
    ("version", "changes", "says"),
    [
        (
            "1.0.0",
            {"/patches/A3/w": "6"},
            "/pattern/version: found version 1.0.0 again with 1 changed value (first /patches/",
        ),
        ("0.9.0", {}, "/pattern/version: found version 0.9.0, expected one after 1.0.0"),
    ],
)
def test_a_silent_change_and_a_step_back_are_refused(crib: str, version: str, changes: Any, says: str) -> None:
    with pytest.raises(EditionError, match=r"crib/booklet\.json:") as fault:
        compare_editions(edition(crib=json.loads(crib)), edition(crib=changed(crib, changes, version)))
    assert says in fault.value.lines[0]


# ------------------------------------------------------------------------------------------- the command


@pytest.fixture
def kept(tmp_path: Path) -> Callable[[str, Any], Path]:
    """Return what writes a booklet's JSON where ``seamleaf booklet`` would, in a folder of this name."""

    def keep(name: str, value: Any) -> Path:
        path = tmp_path / name / "lamplight-crossing" / "crib" / "booklet.json"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(value if isinstance(value, bytes) else json.dumps(value).encode())
        return tmp_path / name

    return keep


def test_compare_prints_the_note_and_writes_the_page(
    crib: str, kept: Callable[[str, Any], Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old, new = kept("old", json.loads(crib)), kept("new", changed(crib, {"/patches/A3/w": plus("1/4")}))
    index = next(i for i, patch in enumerate(json.loads(crib)["patches"]) if patch["label"] == "A3")
    page = new / "lamplight-crossing" / "crib" / "cut" / "index.html"
    page.parent.mkdir()
    page.write_text(f'<data value="11/2" data-from="/patches/{index}/w">5 1/2</data>', encoding="utf-8")
    assert main(["compare", str(old), str(new), "--page", str(tmp_path / "note.html")]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("# Lamplight Crossing\n\n## From version 1.0.0 to 1.0.1\n")
    assert "was 5 1/4 in. Already cut: too small, cut again. Pages: Cut.\n" in out
    assert err == ""
    assert "<li>Patch A3: cut width 5 1/2 in" in (tmp_path / "note.html").read_text(encoding="utf-8")


def test_what_is_not_comparable_is_told_with_its_path(
    crib: str, kept: Callable[[str, Any], Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = str(kept("good", json.loads(crib)))
    (tmp_path / "empty").mkdir()
    broken = str(kept("broken", b"{"))
    wrong = str(kept("wrong", changed(crib, {"/patches/A3/w": 5})))
    for arguments, says in (
        ([good, str(tmp_path / "empty")], "no booklet.json here"),
        ([broken, good], "booklet.json: no JSON"),
        ([good, wrong], "/w: found 5, expected a length"),
        ([good, str(kept("same", changed(crib, {"/seam": "3/8"}, "1.0.0")))], "again with 1 changed value"),
    ):
        assert main(["compare", *arguments]) == 1
        out, err = capsys.readouterr()
        assert says in out
        assert err == ""


def test_no_spoilt_booklet_ends_in_a_fault(crib: str, kept: Callable[[str, Any], Path]) -> None:
    """Whatever value is replaced by one of another type, the note is made or the file refused."""
    draw = random.Random(11)
    old = edition(crib=json.loads(crib))
    refused = 0
    for junk in (None, [], {}, 3, "x", -1, "1/0", True):
        for _ in range(8):
            booklet = changed(crib, {})
            holder, key = draw.choice(_inner(booklet))
            holder[key] = junk
            refused += not _is_noted(old, kept("spoilt", booklet))
    assert 0 < refused < 64


def _is_noted(old: Edition, folder: Path) -> bool:
    try:
        for new in editions_below(folder).values():
            note_of(old, new)
    except EditionError:
        return False
    return True


def _inner(value: Any) -> list[tuple[Any, Any]]:
    items = list(value.items() if isinstance(value, dict) else enumerate(value))
    return [(value, key) for key, _ in items] + [
        leaf for _, item in items if isinstance(item, (dict, list)) for leaf in _inner(item)
    ]
