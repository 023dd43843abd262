"""Processes that share the work, where the first of them is killed; and what they take of memory."""

from __future__ import annotations

import os
import platform
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

PATIENCE = 60
"""Seconds; a busy machine takes a few."""
WORKING = """
import os, time
from seamleaf.site.work.workers import standing_pool

pool = standing_pool(2)
told = [pool.submit(time.sleep, 0.1 * number) for number in range(8)]
print(*pool._processes, flush=True)
[each.result() for each in told]
time.sleep(600)
"""

TAKING = """
from pathlib import Path
from seamleaf.site.work.workers import give_back_memory

def taken():
    (line,) = (each for each in Path("/proc/self/status").read_text().splitlines() if each.startswith("VmRSS:"))
    return int(line.split()[1])

start = taken()
things = [bytes(1_000) for _ in range(100_000)]
things[:] = things[::100]
before = taken()
give_back_memory()
print(before - start, taken() - start)
"""


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks at processes as Linux tells of them")
def test_they_end_when_the_first_is_killed() -> None:
    with subprocess.Popen([sys.executable, "-c", WORKING], stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout is not None
        others = [int(each) for each in first.stdout.readline().split()]
        time.sleep(2)  # some have begun to work, some still load the program
        assert others
        assert all(_runs(each) for each in others)
        first.send_signal(signal.SIGKILL)
        first.wait()
    last = time.monotonic() + PATIENCE
    while any(_runs(each) for each in others):
        assert time.monotonic() < last, "processes that nobody waits for are still there"
        time.sleep(0.05)


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="other C libraries give it back by themselves")
def test_memory_that_is_free_is_given_back() -> None:
    """However little of it is still in use here and there."""
    done = subprocess.run([sys.executable, "-c", TAKING], capture_output=True, text=True, check=True, timeout=PATIENCE)
    before, after = map(int, done.stdout.split())
    assert before > 80_000
    assert after < before / 3


def _runs(process: int) -> bool:
    """Tell whether a process is there, and has not ended without anybody taking note."""
    try:
        os.kill(process, 0)
        told = Path(f"/proc/{process}/stat").read_text(encoding="utf-8")
    except (OSError, ProcessLookupError):
        return False
    return told.rpartition(")")[2].split()[0] != "Z"
