"""The proof as the site and the command run it: what it says, and what a fault in a booklet comes to."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from published import SMALL, finished
from seamleaf.publishing import booklet_files, load_templates
from seamleaf.site.commands.command import main
from seamleaf.site.files.output import write_all
from seamleaf.site.pages.history import History
from seamleaf.site.pages.publisher import Publisher
from seamleaf.site.work.proving import prove_booklets
from seamleaf.site.work.workshop import Workshop


@pytest.fixture
def written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Write the booklets of a small pattern below ``out`` in a new working folder."""
    write_all(tmp_path / "out", booklet_files("small-pond", finished(SMALL, "small-pond").booklets))
    monkeypatch.chdir(tmp_path)
    return tmp_path / "out"


def test_a_good_folder_gets_one_line_a_booklet(written: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert written.is_dir()
    assert main(["proof", "out"]) == 0
    out, err = capsys.readouterr()
    expected = []
    for size, booklet in finished(SMALL, "small-pond").booklets.items():
        sheets = sum(sheet.times for sheet in booklet.cutting)
        patches = sum(patch.count for patch in booklet.patches)
        blocks = sum(place.kind == "block" for place in booklet.places)
        expected.append(
            f"out/small-pond/{size}/booklet.json: {sheets} sheets, {patches} patches, {blocks} blocks,"
            f" {booklet.pressing.match_points} match points: all fit"
        )
    assert out.splitlines() == expected
    assert err == ""


def test_findings_stand_on_standard_output_each_with_file_and_place(
    written: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written / "small-pond" / "mat" / "booklet.json"
    booklet = json.loads(path.read_bytes())
    booklet["patches"][0]["count"] += 1
    path.write_text(json.dumps(booklet), encoding="utf-8")
    assert main(["proof", "out"]) == 1
    out, err = capsys.readouterr()
    assert err == ""
    assert any(line.startswith("out/small-pond/mat/booklet.json:/patches/0") for line in out.splitlines())
    assert not any("runner" in line or "all fit" in line for line in out.splitlines())


@pytest.mark.parametrize("name", ["nowhere", "empty", "a\x1b[31mb"])
def test_a_folder_without_a_booklet_is_a_finding(written: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    (written.parent / "empty").mkdir()
    assert main(["proof", name]) == 1
    out, err = capsys.readouterr()
    assert "no booklet.json" in out
    assert "\x1b" not in out
    assert err == ""


def test_booklets_are_proved_before_anything_is_published() -> None:
    booklets = finished(SMALL, "small-pond").booklets
    assert prove_booklets("small-pond", booklets) == []
    spoilt = replace(booklets["mat"], finished=booklets["runner"].finished)
    lines = prove_booklets("small-pond", {**booklets, "mat": spoilt})
    assert lines
    assert all(line.startswith("small-pond/mat/booklet.json:/") for line in lines)


@pytest.mark.parametrize("key", ["sheets", "patches", "units"])
def test_a_total_that_the_pages_would_say_is_counted_again(key: str) -> None:
    booklets = finished(SMALL, "small-pond").booklets
    totals = booklets["mat"].totals
    spoilt = replace(booklets["mat"], totals=replace(totals, **{key: getattr(totals, key) + 1}))
    lines = prove_booklets("small-pond", {**booklets, "mat": spoilt})
    assert [line.split(": ")[0] for line in lines] == [f"small-pond/mat/booklet.json:/totals/{key}"]


def test_a_pattern_that_does_not_prove_shows_its_findings_and_nothing_else() -> None:
    """The page of a fault, as for a pattern that cannot be planned; in a build it is an error."""
    done = finished(SMALL, "small-pond")
    mat = done.booklets["mat"]
    findings = prove_booklets("small-pond", {"mat": replace(mat, finished=mat.set.block)})
    publisher = Publisher(
        workshop=Workshop(),
        templates=load_templates(),
        history=History(),
        editions=(),
        address="",
        proved=True,
        covers=False,
    )
    published = publisher.publish(Path("small-pond.yaml"), replace(done, findings=tuple(findings)))
    assert list(published.files) == ["small-pond/index.md"]
    assert published.gallery is None
    first, *lines = published.problems
    assert first == "small-pond.yaml: does not prove:"
    assert lines == findings != []
