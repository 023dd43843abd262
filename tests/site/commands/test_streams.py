"""The command where a stream is closed, full, or read by nobody, and where it is ended from outside."""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

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


ENDED = """\
import signal, sys
from seamleaf.site import __main__
from seamleaf.site.commands import command

def main():
    try:
        signal.raise_signal(signal.{first})
    finally:
        print("cleared up")
        {then}

command.main = main
sys.exit(__main__.main())
"""


@pytest.mark.parametrize(("first", "status"), [("SIGINT", 130), ("SIGTERM", 143), ("SIGHUP", 129)])
def test_whatever_ends_it_what_is_begun_is_cleared_up(first: str, status: int) -> None:
    done = ended(first, "")
    assert (done.returncode, done.stdout, done.stderr) == (status, "cleared up\n", "")


def test_whoever_interrupts_again_need_not_wait() -> None:
    done = ended("SIGINT", "signal.raise_signal(signal.SIGINT); print('waited', file=sys.stderr)")
    assert (done.returncode, done.stderr) == (130, "")


def ended(first: str, then: str) -> subprocess.CompletedProcess[str]:
    script = ENDED.format(first=first, then=then)
    return subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=60)
