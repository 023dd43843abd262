"""What several parts of the suite share: the demo site, built once a run, and the accepted outputs."""

from __future__ import annotations

import fcntl
import gc
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import hypothesis
import pytest

from accepted import ACCEPTED
from folders import files_below, replace_folder
from seamleaf.planning.memory import remembering
from seamleaf.site.files.shelf import Shelf
from seamleaf.site.work.plans import KeptPlans

ROOT = Path(__file__).parent.parent
FRESH = ROOT / ".cache" / "golden"
"""Takes the fresh output wherever it differs from the accepted one, for viewing."""

# Hundreds of processes load this program in a run. Where the environment has Python keep no bytecode, each would
# compile all that it loads, and the tests themselves be compiled anew in every run.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# A busy machine is no fault, so nothing is timed. Every run looks at the same values, so that a change fails for what
# it changed; a deep run (effort.py) looks at new ones each time.
hypothesis.settings.register_profile("suite", deadline=None, derandomize=True, print_blob=True)
hypothesis.settings.register_profile("deep", deadline=None, print_blob=True)
hypothesis.settings.load_profile("suite")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add ``--accept``: take the present output of the golden tests as the right one."""
    parser.addoption("--accept", action="store_true", help="accept the present output as the golden one")


def pytest_collection_finish() -> None:
    """Leave out of every search for garbage what stays to the end: six thousand tests, and all that they loaded.

    The searches come seldom besides. Both take up to a tenth off the processor time of tests that plan and draw.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 20)


@pytest.fixture(scope="session", autouse=True)
def plans() -> Iterator[None]:
    """Share cutting plans between the processes of a run and the build of the demo site, as builds share them."""
    with remembering(KeptPlans(Shelf(ROOT / ".cache" / "seamleaf", lambda _: None))):
        yield


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the demo site, once for all the processes of a run, and return its folder.

    It is built as a user would build it, by the command in a process of its own, so that its log and its exit status
    are held to be clean as well.
    """
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    site, log = shared / "demo-site", shared / "demo-site.log"
    with (shared / "demo-site.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)  # the process that comes second waits here and finds the site done
        if not log.exists():
            command = [Path(sys.executable).with_name("seamleaf"), "build", "--site-dir", site]
            environment = {**os.environ, "PYTHONHASHSEED": "0"}  # test_packaging.py takes another
            done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=1800, env=environment)
            log.write_text(f"exit status {done.returncode}\n{done.stdout}{done.stderr}", encoding="utf-8")
    assert log.read_text(encoding="utf-8") == "exit status 0\n"
    return site


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, dict[str, bytes]], None]:
    """Return a check that the files of a folder are, byte for byte, the accepted ones in ``tests/golden``.

    With ``--accept`` it makes them so. Otherwise the fresh files of a folder that differs are left in
    ``.cache/golden``, under the same names.
    """
    accept = request.config.getoption("--accept")

    def check(folder: str, fresh: dict[str, bytes]) -> None:
        accepted, shown = ACCEPTED / folder, FRESH / folder
        if accept:
            replace_folder(accepted, fresh)
        known = files_below(accepted)
        differing = sorted(name for name in known.keys() | fresh.keys() if known.get(name) != fresh.get(name))
        if differing:
            replace_folder(shown, fresh)
            pytest.fail(
                f"{', '.join(differing)} of {folder} differ from tests/golden; the fresh ones are in"
                f" {shown.relative_to(ROOT)}; if they are right: python -m pytest tests/golden --accept",
                pytrace=False,
            )

    return check
