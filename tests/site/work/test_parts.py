"""Work that is shared: parts that join, and a cluster of which one worker dies, give the bytes of one machine."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from folders import files_below
from published import SMALL
from seamleaf.site.commands.command import main
from seamleaf.site.work import jobs, workshop
from seamleaf.site.work.cluster import ClusterError, on_any_machine
from seamleaf.site.work.parts import PartError, Shard, join_parts, note_part
from seamleaf.site.work.progress import Shown

NOON = "951782400"
CONFIG = """\
site_name: Test
site_url: ""
docs_dir: patterns
theme: mkdocs
plugins: [{seamleaf: {processes: 1, paper: [a4]}}]
"""
POND = SMALL.replace("  runner: {title: Runner, blocks: 2 x 9}\n", "")
PATTERNS = {"a": SMALL, "b": POND.replace("version: 1.0.0", "version: 1.0.0\nunit: cm"), "c": POND}


def lay_out(folder: Path) -> Path:
    """Make a site of three patterns."""
    (folder / "patterns").mkdir()
    (folder / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    for name, text in PATTERNS.items():
        (folder / "patterns" / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Make such a site and go there."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", NOON)
    return lay_out(tmp_path)


@pytest.fixture(scope="module")
def alone(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, bytes], str]:
    """Build such a site on one machine; return its files and what was told of the work."""
    place = lay_out(tmp_path_factory.mktemp("alone"))
    command = [Path(sys.executable).with_name("seamleaf"), "build", "--progress", "--profile"]
    environment = {**os.environ, "SOURCE_DATE_EPOCH": NOON}
    done = subprocess.run(command, cwd=place, env=environment, capture_output=True, text=True, timeout=200)
    assert done.returncode == 0, done.stderr
    return files_below(place / "site"), done.stderr


def test_parts_join_into_the_site_that_one_machine_builds(
    folder: Path, monkeypatch: pytest.MonkeyPatch, alone: tuple[dict[str, bytes], str]
) -> None:
    whole, told = alone
    for number in (1, 2):
        assert main(["build", "--shard", f"{number}/2", "--site-dir", f"part-{number}"]) == 0
    assert not (folder / ".cache").exists()
    with monkeypatch.context() as patched:
        patched.setattr(jobs, "work_out", lambda job: pytest.fail(f"{job.pattern} is worked out again"))
        patched.setattr(workshop, "set_paper", lambda _: pytest.fail("a PDF is set again"))
        assert main(["join", "part-1", "part-2", "--site-dir", "joined"]) == 0
    assert files_below(folder / "joined") == whole
    assert "seamleaf: booklets: 0," not in told
    assert [line.split()[1] for line in told.splitlines() if line.endswith("of processors")] == [
        "booklets", "PDF", "pages", "proof", "in",
    ]  # fmt: skip


def test_parts_that_do_not_join_are_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for number in (1, 3):
        (folder / f"part-{number}" / "shelf").mkdir(parents=True)
        note_part(folder / f"part-{number}", Shard(number, 3))
    (folder / "empty").mkdir()
    assert main(["join", "part-1", "part-3"]) == 1
    assert "missing: part 2" in capsys.readouterr().err
    for given, says in ((["part-1", "part-1"], "part 1 again"), (["empty"], "holds no part")):
        with pytest.raises(PartError, match=says):
            join_parts([folder / name for name in given], folder / "shelf")
    note = json.loads((folder / "part-3" / "part.json").read_text("utf-8"))
    (folder / "part-3" / "part.json").write_text(json.dumps(note | {"program": "00"}), encoding="utf-8")
    with pytest.raises(PartError, match="another version"):
        join_parts([folder / "part-3"], folder / "shelf")


@pytest.mark.parametrize("text", ["0/3", "4/3", "3", "1/0", "-1/2", "1/100000", "x"])
def test_a_part_is_one_of_several(text: str) -> None:
    with pytest.raises(ValueError, match="expected a part of several"):
        Shard.read(text)


@pytest.mark.parametrize("of", [1, 2, 5, 16])
def test_every_pattern_is_in_one_part(of: int) -> None:
    patterns = [Path(str(number)) for number in range(23)]
    parts = [Shard(number, of).of_all(patterns) for number in range(1, of + 1)]
    assert sorted(path for part in parts for path in part) == sorted(patterns)
    assert max(map(len, parts)) - min(map(len, parts)) <= 1


# ------------------------------------------------------------------------------------------------- a cluster


@pytest.fixture
def cluster() -> Iterator[tuple[str, subprocess.Popen[str]]]:
    """Run a cluster of two workers that loses one as soon as it works."""
    program = [sys.executable, str(Path(__file__).with_name("a_cluster.py"))]
    with subprocess.Popen(
        program, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    ) as (process):
        assert process.stdout is not None
        yield process.stdout.readline().strip().replace("tcp://", "dask://"), process
        assert process.stdin is not None
        process.stdin.close()
        process.wait(timeout=60)


def test_a_cluster_that_loses_a_worker_in_mid_build_gives_the_same_bytes(
    folder: Path, cluster: tuple[str, subprocess.Popen[str]], alone: tuple[dict[str, bytes], str]
) -> None:
    address, process = cluster
    command = [Path(sys.executable).with_name("seamleaf"), "build", "--site-dir", "there", "--executor", address]
    done = subprocess.run(command, capture_output=True, text=True, timeout=200)
    assert (done.returncode, done.stdout + done.stderr) == (0, "")
    assert process.stdout is not None
    assert process.stdout.readline() == "killed\n"
    assert files_below(folder / "there") == alone[0]


def test_a_machine_with_another_program_does_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = on_any_machine(str.upper)
    assert asked("a") == "A"
    monkeypatch.setattr("seamleaf.site.work.cluster.program_digest", lambda: b"another")
    with pytest.raises(ClusterError, match="another version"):
        asked("a")


@pytest.mark.parametrize(
    ("executor", "says"), [("threads", "expected processes or dask://"), ("dask://127.0.0.1:x", "no scheduler answers")]
)
def test_an_executor_that_is_none_is_refused(
    folder: Path, capsys: pytest.CaptureFixture[str], executor: str, says: str
) -> None:
    assert main(["build", "--site-dir", "there", "--executor", executor]) == 1
    assert says in capsys.readouterr().err
    assert not (folder / "there").exists()


# ------------------------------------------------------------------------------------------------ progress


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Say so."""
        return True


def test_a_terminal_shows_a_bar_and_a_pipe_a_line_a_stage() -> None:
    seen = []
    for stream in (Terminal(), io.StringIO()):
        progress = Shown(stream, shown=True)
        progress.open()
        progress.stage("booklets", 2)
        progress.step()
        progress.step()
        progress.stage("proof", 0)
        progress.close()
        seen.append(stream.getvalue())
        assert [line.split()[0] for line in progress.table()] == ["booklets", "proof"]
    assert "\x1b[" in seen[0]
    assert "2/2" in seen[0]
    assert [line.split(":")[1] for line in seen[1].splitlines()] == [" booklets", " proof"]
