"""The workshop: everything once, on one processor or several, from memory or from the shelf, and always the same."""

from __future__ import annotations

import functools
import threading
from collections.abc import Iterator
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
import typst

from published import SASHED, SMALL
from seamleaf.publishing.paper import Paper, set_paper
from seamleaf.publishing.templates import TemplateError
from seamleaf.reading.problems import PatternError
from seamleaf.site.files import shelf as shelf_module
from seamleaf.site.files.shelf import Shelf, key_for
from seamleaf.site.work import jobs as jobs_module
from seamleaf.site.work import workshop as workshop_module
from seamleaf.site.work.jobs import Job, Outcome, packed, unpacked, work_out
from seamleaf.site.work.workshop import Finished, Workshop
from seamleaf.words import english

POND = ("small-pond", SMALL.encode())
SASHES = ("sashed", SASHED.encode())
BROKEN = ("broken", SMALL.replace("reed 3 x 3", "reeds 3 x 3").encode())


def finish(workshop: Workshop, *texts: tuple[str, bytes]) -> list[Finished | Exception]:
    return list(workshop.finish(texts))


@pytest.fixture
def worked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that notes every job that is really done in this process."""
    done: list[str] = []

    def noting(job: Job) -> Outcome:
        done.append(f"{job.pattern}/{job.size}")
        return work_out(job)

    monkeypatch.setattr(jobs_module, "work_out", noting)
    return done


@pytest.fixture
def told() -> list[str]:
    return []


def test_the_same_text_is_worked_out_once(worked: list[str]) -> None:
    workshop = Workshop()
    (first,) = finish(workshop, POND)
    (again,) = finish(workshop, POND)
    assert again is first
    assert worked == ["small-pond/mat", "small-pond/runner"]
    (edited,) = finish(workshop, ("small-pond", SMALL.replace("Mat", "Rug").encode()))
    assert isinstance(edited, Finished)
    assert edited.booklets["mat"].size.title == "Rug"


def test_a_broken_pattern_does_not_hold_the_others_up(worked: list[str]) -> None:
    before, broken, after = finish(Workshop(), POND, BROKEN, SASHES)
    assert isinstance(before, Finished)
    assert isinstance(broken, PatternError)
    assert isinstance(after, Finished)
    assert worked == ["small-pond/mat", "small-pond/runner", "sashed/mat"]


def test_a_fault_of_the_program_is_told_with_its_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(job: Job) -> Outcome:
        raise KeyError(job.size)

    monkeypatch.setattr(jobs_module, "work_out", failing)
    (fault,) = finish(Workshop(), POND)
    assert isinstance(fault, KeyError)
    assert "in failing" in fault.__notes__[0]


TEXTS = [POND, SASHES, BROKEN, ("pond-again", SMALL.encode())]


@functools.cache
def in_one_process() -> list[Finished | Exception]:
    return finish(Workshop(), *TEXTS)


@pytest.mark.parametrize("few", [0, 24])
def test_several_processes_give_what_one_gives(monkeypatch: pytest.MonkeyPatch, few: int) -> None:
    """Nothing hangs on the process: not its hash seed, not what it did before, not what is done in this one first."""
    monkeypatch.setattr(workshop_module, "FEW", few)
    monkeypatch.setattr(workshop_module, "TO_START", 0)
    together = finish(Workshop(processes=2), *TEXTS)
    assert [type(each) for each in together] == [type(each) for each in in_one_process()]
    for one, other in zip(in_one_process(), together, strict=True):
        if isinstance(one, Finished) and isinstance(other, Finished):
            assert (one.booklets, one.figures, one.findings) == (other.booklets, other.figures, other.findings)
        else:
            assert isinstance(one, PatternError)
            assert isinstance(other, PatternError)
            assert one.problems == other.problems


def test_a_process_that_is_killed_costs_time_and_nothing_else(monkeypatch: pytest.MonkeyPatch) -> None:
    """As when a system short of memory ends one."""

    @contextmanager
    def dying(_: int, **_more: bool) -> Iterator[Any]:
        raise BrokenProcessPool
        yield

    monkeypatch.setattr(workshop_module, "worker_pool", dying)
    monkeypatch.setattr(workshop_module, "WORTH_A_POOL", 1)
    monkeypatch.setattr(workshop_module, "FEW", 0)
    (done,) = finish(Workshop(processes=2), POND)
    assert isinstance(done, Finished)


def test_a_large_pdf_is_set_by_a_process_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """What it takes to set one is given back with the process; bytes and faults are what they would be here."""
    small = Paper(source='#set document(title: "Pond", date: none)\nSew.', files={})
    large = Paper(source=f"{small.source}\n//{' ' * 1000}", files={"unused.svg": bytes(1000)})
    broken = Paper(source=f"#pond\n//{' ' * 2000}", files={})
    expected = [set_paper(large), set_paper(small)]
    monkeypatch.setattr(workshop_module, "LARGE_PAPER", 2000)
    here: list[bytes] = []

    def set_here(files: dict[str, bytes], **_: object) -> bytes:
        here.append(files["main"])
        return expected[1]

    monkeypatch.setattr(typst, "compile", set_here)
    assert Workshop().press([large, small]) == expected
    assert here == [small.source.encode()]
    with pytest.raises(TemplateError, match=r"unknown variable: pond"):
        Workshop().press([broken])


def test_where_no_process_can_be_started_a_large_pdf_is_set_here(monkeypatch: pytest.MonkeyPatch) -> None:
    @contextmanager
    def dying(_: int) -> Iterator[Any]:
        raise BrokenProcessPool
        yield

    paper = Paper(source='#set document(title: "Pond", date: none)\nSew.', files={})
    monkeypatch.setattr(workshop_module, "LARGE_PAPER", 1)
    monkeypatch.setattr(workshop_module, "standing_pool", dying)
    assert Workshop().press([paper]) == [set_paper(paper)]


def test_a_kept_outcome_reads_back_as_it_was() -> None:
    for pattern_id, text in (POND, SASHES):
        outcome = work_out(Job(text=text, pattern=pattern_id, size="mat", prove=True, words=english()))
        assert unpacked(packed(outcome)) == outcome


def test_what_lies_on_the_shelf_is_not_worked_out_again(tmp_path: Path, worked: list[str], told: list[str]) -> None:
    first = finish(Workshop(Shelf(tmp_path, told.append)), POND, SASHES)
    assert len(worked) == 3
    assert finish(Workshop(Shelf(tmp_path, told.append)), POND, SASHES) == first
    assert len(worked) == 3
    finish(Workshop(Shelf(tmp_path, told.append), prove=False), POND)
    assert len(worked) == 5, "what was not proved is another thing"
    assert told == []


@pytest.mark.parametrize("harm", ["cut short", "one bit", "empty"])
def test_a_damaged_file_is_told_of_and_made_again(
    tmp_path: Path, worked: list[str], told: list[str], harm: str
) -> None:
    (first,) = finish(Workshop(Shelf(tmp_path, told.append)), SASHES)
    file = max(tmp_path.iterdir(), key=lambda path: path.stat().st_size)  # beside what the proof saw
    whole = file.read_bytes()
    spoilt = {"cut short": whole[:-100], "one bit": whole[:500] + bytes([whole[500] ^ 1]) + whole[501:], "empty": b""}
    file.write_bytes(spoilt[harm])
    assert finish(Workshop(Shelf(tmp_path, told.append)), SASHES) == [first]
    assert len(told) == 1
    assert "damaged" in told[0]
    assert file.read_bytes() == whole
    assert worked == ["sashed/mat", "sashed/mat"]


def test_another_version_of_the_program_believes_nothing_of_the_last(monkeypatch: pytest.MonkeyPatch) -> None:
    key = key_for(b"text")
    assert key == key_for(b"text") != key_for(b"te", b"xt")
    monkeypatch.setattr(shelf_module, "program_digest", lambda: b"another")
    assert key_for(b"text") != key


def test_a_folder_that_cannot_be_used_does_no_harm_and_is_told_of_once(tmp_path: Path, told: list[str]) -> None:
    (tmp_path / "taken").write_text("a file where the folder would be", encoding="utf-8")
    (done,) = finish(Workshop(Shelf(tmp_path / "taken", told.append)), POND)
    assert isinstance(done, Finished)
    assert len(told) == 1


def test_the_shelf_has_an_end(tmp_path: Path, told: list[str]) -> None:
    """What has not been asked for longest goes first."""
    shelf = Shelf(tmp_path, told.append)
    for name in ("one", "two", "three"):
        shelf.put(name, bytes(1000))
    for age, name in enumerate(("two", "one", "three")):
        shelf_module.os.utime(tmp_path / name, ns=(age, age))
    shelf.take("two")
    shelf.tidy(room=2200)
    assert {path.name for path in tmp_path.iterdir()} == {"two", "three"}


def test_two_builds_at_once_read_whole_files_only(tmp_path: Path, told: list[str]) -> None:
    contents = {f"key-{n}": bytes([n]) * 200_000 for n in range(8)}

    def use() -> None:
        shelf = Shelf(tmp_path, told.append)
        for _ in range(5):
            for key, content in contents.items():
                assert shelf.take(key) in (None, content)
                shelf.put(key, content)

    threads = [threading.Thread(target=use) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert told == []
    assert {path.name for path in tmp_path.iterdir()} == set(contents)
