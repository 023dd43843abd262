"""Mutation testing of sizing and planning: small faults are put in, and the suite or the proof must see them.

    python tests/mutation/hunt.py [--count 160] [--seed 1] [--workers 2] [--seconds 20] [MODULE ...]

First every test of the layers runs once without any fault, and what it reaches is noted (kept in .cache/mutation). Then
a sample of faults is drawn. Each runs in a process of its own against the tests that reach its function: first accepted
booklets of the demo and small quilts that the proof sews again (``demo_checks.py``), then others, the quickest first,
for as many seconds of the processor as given. What survives is listed, to be killed by a test or explained in
``survivors.yaml``.

A fault is seen when a test fails that is named, and that holds without the fault, or when its module cannot be imported
with it. A test that takes far longer than it did is out of time: it is left, the next are asked, and where none of them
fails the fault counts as out of time, which is told apart and is not seen. A process that ends otherwise, for want of
memory or by a fault of pytest, is tried once more, and then counts as ended otherwise, not seen either. The exit
status is 1 when fewer than nine in ten are seen.
"""

from __future__ import annotations

import argparse
import functools
import hashlib
import importlib
import json
import os
import random
import resource
import signal
import sys
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, Final

sys.path[:0] = [str(Path(__file__).parents[1])]

import pytest
import yaml

from mutation.faults import Faulty, Mutant, mutants_of
from mutation.reach import LAYERS, SOURCE, Chosen, Reach

ROOT: Final = Path(__file__).parents[2]
KEPT: Final = ROOT / ".cache" / "mutation"
FIRST: Final = "tests/mutation/demo_checks.py"
TESTS: Final = [
    FIRST, "tests/sizing", "tests/planning", "tests/booklet", "tests/reading/test_limits.py",
    "tests/proof/test_pressing.py",
]  # fmt: skip
"""What is run; of the whole suite the part that looks at these layers."""
SLOW: Final = 6.0
"""Tests that take more seconds of the processor are left out."""
MEMORY: Final = 4 << 30
LATE: Final = 2
"""So many tests out of time are enough."""
SEEN: Final = "seen"
SURVIVES: Final = "survives"
TIME: Final = "out of time"
OTHERWISE: Final = "ended otherwise"
FORKING: Final = threading.Lock()
OPTIONS: Final = [  # without what takes long
    "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header", "--tb=no",
    "--deselect", "tests/planning/test_colouring_at_size.py", "-k", "not sews_it_again",
    "--deselect", "tests/booklet/test_identities.py",
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
    return int(pytest.main([*OPTIONS, *options, *paths], plugins=[plugin]))


def apart(work: Callable[[], str], seconds: float) -> str:
    """Do a work in a process of its own, with so much of the processor, and return what it says or how it ended."""
    with FORKING:  # else a process that begins meanwhile would hold this pipe open
        reader, writer = os.pipe()
        child = os.fork()
        if child:
            os.close(writer)
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
        except BaseException as failure:
            said = f"{OTHERWISE}: {type(failure).__name__}"
        with os.fdopen(writer, "w") as answer:
            answer.write(said)
        os._exit(0)
    with os.fdopen(reader) as answer:
        said = answer.read()
    _, status = os.waitpid(child, 0)
    ended = os.waitstatus_to_exitcode(status)
    if ended in (-signal.SIGXCPU, -signal.SIGKILL):
        return TIME
    return f"{OTHERWISE}: ended with {ended}" if ended else said


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

        answer = apart(note, 3600)
        said = json.loads(answer) if answer.startswith("{") else {"status": answer}
        if said["status"]:
            raise SystemExit(f"the tests fail without any fault, so nothing can be told: {said['status']}")
        kept.write_text(json.dumps(said["found"]), encoding="utf-8")
    found: dict[str, Any] = json.loads(kept.read_text(encoding="utf-8"))
    return found


def tests_for(mutant: Mutant, reached: dict[str, Any], seconds: float) -> list[list[str]]:
    """Return the tests that reach a fault in two batches, the quickest first, the second as far as the seconds go."""

    def calls(called: list[str]) -> bool:
        whole = ":" not in mutant.reached
        return any(name.startswith(mutant.reached + ":") if whole else name == mutant.reached for name in called)

    taken = sorted((test["seconds"], name) for name, test in reached.items() if calls(test["calls"]))
    taken = [(needs, name) for needs, name in taken if needs <= SLOW]
    first = [name for _, name in taken if name.startswith(FIRST)]
    others: list[str] = []
    opened: set[str] = set()
    for needs, name in taken:
        file = name.split("::")[0]
        if file != FIRST and seconds > 0:
            others.append(name)
            seconds -= needs if file in opened else longest(file, reached)
            opened.add(file)
    return [batch for batch in (first, others) if batch]


def longest(file: str, reached: dict[str, Any]) -> float:
    """Return the seconds of the longest test of a file: its first makes what all look at, and any may be the first."""
    return max(float(test["seconds"]) for name, test in reached.items() if name.startswith(f"{file}::"))


def hunt(mutant: Mutant, reached: dict[str, Any], seconds: float) -> tuple[str, str]:
    """Return how a fault ends, and by what: by the first test that failed, or by what is known of its survival."""
    batches = tests_for(mutant, reached, seconds)
    ends = [try_batch(mutant, batch, reached) for batch in batches[:1]]
    if batches[1:] and ends[0][0] not in (SEEN, TIME):
        ends.append(try_batch(mutant, batches[1], reached))
    for wanted in (SEEN, TIME, OTHERWISE):
        for kind, by in ends:
            if kind == wanted:
                return kind, by
    return SURVIVES, "" if batches else "no test reaches it"


def try_batch(mutant: Mutant, batch: list[str], reached: dict[str, Any]) -> tuple[str, str]:
    """Hold a fault against some tests, once more where the process ends otherwise than they do."""
    taken = {name: reached[name]["seconds"] for name in batch}
    for name in batch:
        file = name.split("::")[0]
        taken[name] = taken[name] if file == FIRST else longest(file, reached)
    for _ in range(2):
        said = apart(lambda: judge(mutant, taken), 2 * sum(reached[name]["seconds"] for name in batch) + 80)
        if not said.startswith(OTHERWISE):
            break
    if said.startswith((TIME, OTHERWISE)):
        kind, _, by = said.partition(": ")
        return kind, by
    if said in taken and not holds(said, taken[said]):
        return OTHERWISE, f"{said} fails without the fault as well"
    return (SEEN, said) if said else (SURVIVES, "")


def judge(mutant: Mutant, taken: dict[str, float]) -> str:
    """Hold a fault against tests, which take so many seconds without it; say what failed first, or what ended it."""
    fault = Faulty(mutant)
    sys.meta_path.insert(0, fault)
    try:
        importlib.import_module(fault.name)
    except (MemoryError, OSError) as failure:
        return f"{OTHERWISE}: {type(failure).__name__}"
    except Exception as failure:
        return f"import of {fault.name}: {type(failure).__name__}"
    witness = Witness(taken)
    status = run(sorted({name.split("::")[0] for name in taken}), witness)
    if witness.first:
        return witness.first
    if witness.late:
        return f"{TIME}: {witness.late[0]}"
    return f"{OTHERWISE}: {witness.spoilt or f'status {status}'}" if status or witness.spoilt else ""


@functools.cache
def holds(test: str, seconds: float) -> bool:
    """Return whether a test holds by itself without any fault."""

    def ask() -> str:
        witness = Witness({test: seconds})
        return f"{run([test.split('::')[0]], witness)}{witness.first}"

    return apart(ask, 3 * seconds + 40) == "0"


class OutOfTime(BaseException):
    """A test has taken far longer than it does without a fault."""


class Witness(Chosen):
    """Runs the chosen tests to the first that fails for any other reason than want of time or memory."""

    def __init__(self, taken: dict[str, float]) -> None:
        super().__init__(list(taken))
        self.taken = taken
        self.first = ""
        self.late: list[str] = []
        self.spoilt = ""
        """What ended for want of memory, or of files."""
        signal.signal(signal.SIGPROF, self._stop)

    @staticmethod
    def _stop(*_: object) -> None:
        raise OutOfTime

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Give a test three times what it took, and twenty seconds for what it has to import."""
        signal.setitimer(signal.ITIMER_PROF, 3 * self.taken[item.nodeid] + 20, 3)
        try:
            result = yield
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
        if self.first or len(self.late) == LATE:
            item.session.shouldstop = "enough is known"
        return result

    def pytest_exception_interact(self, node: Any, call: Any) -> None:
        """Remember what failed, a test or a file that could not be collected."""
        failure = call.excinfo.value
        if isinstance(failure, OutOfTime):
            self.late.append(node.nodeid)
        elif isinstance(failure, (MemoryError, OSError)) or not isinstance(failure, (Exception, pytest.fail.Exception)):
            self.spoilt = self.spoilt or f"{node.nodeid}: {type(failure).__name__}"
        else:
            self.first = self.first or node.nodeid


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
        found = pool.map(lambda one: hunt(one, reached, options.seconds), sample)
        for mutant, (kind, by) in zip(sample, found, strict=True):
            ends[kind] += 1
            reason = "" if kind == SEEN else f" ({excused.get(mutant.name, 'no reason is known')})"
            print(f"{kind}: {mutant.name} [line {mutant.line}] {by}{reason}", flush=True)
    print(f"{len(everything)} faults possible, {len(sample)} drawn: {dict(ends)}")
    print(f"{100 * ends[SEEN] / len(sample):.1f} % seen by a test that is named")
    return int(ends[SEEN] * 10 < len(sample) * 9)


if __name__ == "__main__":
    sys.exit(main())
