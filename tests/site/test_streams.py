"""The command where a stream is closed, full, or read by nobody, and where it is interrupted as it starts."""

from __future__ import annotations

import os
import shlex
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from seamleaf.site import command
from seamleaf.site.__main__ import main

SEAMLEAF = f"{shlex.quote(sys.executable)} -m seamleaf.site"
BUFFERED = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}


def run(line: str) -> subprocess.CompletedProcess[str]:
    script = f"set -o pipefail; {line}"
    return subprocess.run(["bash", "-c", script], capture_output=True, text=True, timeout=120, env=BUFFERED)


@pytest.mark.parametrize("words", ["templates", "--help", "--print-completion bash"])
def test_output_that_nobody_reads_ends_quietly(words: str) -> None:
    """``seamleaf templates | true`` is no fault of anyone."""
    assert run(f"{SEAMLEAF} {words} | true").stderr == ""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no full disk to be had here")
@pytest.mark.parametrize("words", ["templates", "--version", "schema"])
def test_output_that_has_no_room_is_told_of_as_that(words: str) -> None:
    """Not as a fault of the program, whether the words fit into what Python holds back or not."""
    done = run(f"{SEAMLEAF} {words} > /dev/full")
    assert (done.returncode, done.stderr) == (1, "seamleaf: cannot go on: No space left on device\n")


def test_all_streams_may_be_closed(tmp_path: Path) -> None:
    """What is opened next must not get what is meant for a stream."""
    schema = tmp_path / "schema.json"
    assert run(f"{SEAMLEAF} schema --out {shlex.quote(str(schema))} <&- >&- 2>&-").returncode == 0
    assert schema.read_text(encoding="utf-8").startswith("{")
    assert run(f"{SEAMLEAF} check {shlex.quote(str(tmp_path / 'none.yaml'))} <&- >&- 2>&-").returncode == 1


def test_an_interrupted_start_ends_without_a_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted() -> int:
        signal.raise_signal(signal.SIGINT)
        return 0

    monkeypatch.setattr(command, "main", interrupted)
    assert main() == 130
