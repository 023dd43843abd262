"""Mutation testing of sizing and planning: small faults are put in, and the suite or the proof must see them.

    python tests/mutation/hunt.py [--count 160] [--seed 1] [--workers 2] [--seconds 20] [MODULE ...]

First every test of the layers runs once without any fault, and what it reaches is noted (kept in .cache/mutation). Then
a sample of faults is drawn. Each runs in a process of its own against the tests that reach its function, the quickest
first, for as many seconds of the processor as given: among them are accepted booklets of the demo, and small quilts
that the proof sews again (``demo_checks.py``). What survives is listed, to be killed by a test or explained in
``survivors.yaml``. The exit status is 1 when fewer than nine in ten are seen.
"""

from __future__ import annotations

import argparse
import hashlib
import importlib
import json
import os
import random
import resource
import sys
import traceback
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, Final

sys.path[:0] = [str(Path(__file__).parents[1])]

import yaml

from mutation.faults import Faulty, Mutant, mutants_of
from mutation.reach import LAYERS, SOURCE, Chosen, Reach

ROOT: Final = Path(__file__).parents[2]
KEPT: Final = ROOT / ".cache" / "mutation"
TESTS: Final = [
    "tests/mutation/demo_checks.py", "tests/sizing", "tests/planning", "tests/booklet", "tests/reading/test_limits.py",
    "tests/proof/test_pressing.py",
]  # fmt: skip
"""What is run; of the whole suite the part that looks at these layers."""
SLOW: Final = 6.0
"""Tests that take more seconds of the processor are left out."""
MEMORY: Final = 4 << 30
OPTIONS: Final = [  # without what takes long
    "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header", "--tb=no",
    "--deselect", "tests/planning/test_colouring_at_size.py", "-k", "not sews_it_again",
    "--hypothesis-profile", "few", "-W", "ignore::pytest.PytestAssertRewriteWarning",
]  # fmt: skip
EXAMPLES: Final = 12
"""Made-up values that a property is asked of, where it does not say itself how many."""


def preload() -> None:
    """Import once what each process would import again."""
    for name in (
        "pytest",
        "hypothesis",
        "numpy",
        "highspy",
        "yaml",
        "shapely",
        "networkx",
        "scipy.optimize",
        "PIL.Image",
    ):
        importlib.import_module(name)
    import hypothesis

    few = hypothesis.settings(max_examples=EXAMPLES, deadline=None, derandomize=True, database=None)
    hypothesis.settings.register_profile("few", few)


def run(paths: list[str], plugin: object, *options: str) -> int:
    """Run tests in this process and return pytest's status."""
    import pytest

    return int(pytest.main([*OPTIONS, *options, *paths], plugins=[plugin]))


def apart(work: Any, seconds: float) -> str:
    """Do a work in a process of its own, with so much of the processor, and return what it says."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        limit = int(seconds) + 1
        resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 1))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        try:
            said = work()
        except BaseException:  # a test that leaves the process has seen the fault as well
            traceback.print_exc()
            said = "failed"
        with os.fdopen(writer, "w") as answer:
            answer.write(said)
        os._exit(0)
    os.close(writer)
    with os.fdopen(reader) as answer:
        said = answer.read()
    _, status = os.waitpid(child, 0)
    return "time" if status else said


def reach() -> dict[str, Any]:
    """Return what each test reaches, noted anew when a module of the layers or a test has changed."""
    digest = hashlib.sha256()
    files = [path for layer in LAYERS for path in (SOURCE / layer).rglob("*.py")]
    for path in sorted([*files, *(path for name in TESTS for path in (ROOT / name).parent.rglob("*.py"))]):
        digest.update(path.read_bytes())
    kept = KEPT / f"{digest.hexdigest()[:16]}.json"
    if not kept.exists():
        KEPT.mkdir(parents=True, exist_ok=True)

        def note() -> str:
            noted = Reach()
            status = run(TESTS, noted)
            return json.dumps({"status": status, "found": noted.found()})

        said = json.loads(apart(note, 3600) or "null")
        if said["status"]:
            raise SystemExit("the tests fail without any fault: nothing can be told")
        kept.write_text(json.dumps(said["found"]), encoding="utf-8")
    found: dict[str, Any] = json.loads(kept.read_text(encoding="utf-8"))
    return found


def tests_for(mutant: Mutant, reached: dict[str, Any], seconds: float) -> list[str]:
    """Return the tests that reach a fault, the quickest first, as far as the seconds go."""

    def calls(called: list[str]) -> bool:
        whole = ":" not in mutant.reached
        return any(name.startswith(mutant.reached + ":") if whole else name == mutant.reached for name in called)

    taken = sorted((test["seconds"], name) for name, test in reached.items() if calls(test["calls"]))
    chosen: list[str] = []
    for needs, name in taken:
        if needs <= SLOW and seconds > 0:
            chosen.append(name)
            seconds -= needs
    return chosen


def hunt(mutant: Mutant, reached: dict[str, Any], seconds: float) -> str:
    """Return what saw a fault: the first test that failed, ``time``, or nothing; ``unreached`` where no test gets."""
    chosen = tests_for(mutant, reached, seconds)
    if not chosen:
        return "unreached"

    def judge() -> str:
        sys.meta_path.insert(0, Faulty(mutant))
        witness = Witness()
        status = run(sorted({name.split("::")[0] for name in chosen}), witness.among(chosen), "-x")
        return witness.first or ("failed" if status else "")

    return apart(judge, 3 * sum(reached[name]["seconds"] for name in chosen) + 20)


class Witness(Chosen):
    """Keeps the chosen tests, and remembers the first that fails."""

    def __init__(self) -> None:
        super().__init__([])
        self.first = ""

    def among(self, tests: list[str]) -> Witness:
        """Choose tests."""
        self.place = {name: place for place, name in enumerate(tests)}
        return self

    def pytest_runtest_logreport(self, report: Any) -> None:
        """Remember a failure."""
        if report.failed and not self.first:
            self.first = report.nodeid


def main() -> int:
    """Hunt a sample and tell what survived."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("modules", nargs="*", help="below generator/seamleaf; all of sizing and planning by default")
    parser.add_argument("--count", type=int, default=160)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--seconds", type=float, default=20)
    options = parser.parse_args()
    os.chdir(ROOT)
    preload()
    reached = reach()
    excused: dict[str, str] = yaml.safe_load((Path(__file__).parent / "survivors.yaml").read_text(encoding="utf-8"))
    modules = options.modules or sorted(
        path.relative_to(SOURCE).as_posix() for layer in LAYERS for path in (SOURCE / layer).rglob("*.py")
    )
    everything = [mutant for module in modules for mutant in mutants_of(module)]
    sample = random.Random(options.seed).sample(everything, min(options.count, len(everything)))
    ends: Counter[str] = Counter()
    with ThreadPoolExecutor(options.workers) as pool:
        for mutant, by in zip(sample, pool.map(lambda one: hunt(one, reached, options.seconds), sample), strict=True):
            survives = by in ("", "unreached")
            kind = "survives" if survives else "seen too late" if by == "time" else "seen"
            ends[kind] += 1
            reason = f" ({excused.get(mutant.name, 'no reason is known')})" if survives else ""
            print(f"{kind}: {mutant.name} [line {mutant.line}] {by}{reason}", flush=True)
    missed = ends["survives"]
    print(f"{len(everything)} faults possible, {len(sample)} drawn: {dict(ends)}")
    print(f"{100 * (len(sample) - missed) / len(sample):.1f} % seen")
    return int(missed * 10 > len(sample))


if __name__ == "__main__":
    sys.exit(main())
