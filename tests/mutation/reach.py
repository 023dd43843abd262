"""Which tests reach which functions of sizing and planning, and what each test takes.

A plugin of pytest that notes every function a test calls. What a fixture calls counts for every test of its file,
because one test alone sets up what all of them look at.
"""

from __future__ import annotations

import cProfile
import time
from collections.abc import Iterator
from pathlib import Path
from types import CodeType
from typing import Any, Final

import pytest

SOURCE: Final = Path(__file__).parents[2] / "generator" / "seamleaf"
LAYERS: Final = ("sizing", "planning")


class Reach:
    """Notes the functions that each test calls, as ``module:first line``, and its seconds of the processor."""

    def __init__(self) -> None:
        self.called: dict[str, set[str]] = {}
        self.seconds: dict[str, float] = {}
        self._of_files: dict[str, set[str]] = {}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Time a test with its fixtures."""
        start = time.process_time()
        result = yield
        self.seconds[item.nodeid] = round(time.process_time() - start, 3)
        return result

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> Iterator[None]:
        """Note what fixtures call, for the file."""
        forget_plans()
        yield from self._noting(self._of_files.setdefault(item.nodeid.split("::")[0], set()))

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self, item: pytest.Item) -> Iterator[None]:
        """Note what a test calls."""
        yield from self._noting(self.called.setdefault(item.nodeid, set()))

    def _noting(self, functions: set[str]) -> Iterator[None]:
        """Note the functions that are called meanwhile, by the profiler in C, which slows them least."""
        noted = cProfile.Profile(subcalls=False, builtins=False)
        noted.enable()
        try:
            result = yield
        finally:
            noted.disable()
        codes = [entry.code for entry in noted.getstats()]
        functions |= {name for name in map(function_of, codes) if name}
        return result

    def found(self) -> dict[str, dict[str, Any]]:
        """Return the functions and the seconds of every test that reaches any."""
        tests = {name: called | self._of_files[name.split("::")[0]] for name, called in self.called.items()}
        return {
            name: {"seconds": self.seconds[name], "calls": sorted(called)} for name, called in tests.items() if called
        }


def function_of(code: CodeType | str) -> str:
    """Return where a function of sizing or planning begins, or nothing for any other."""
    if isinstance(code, str):  # not written in Python
        return ""
    path = Path(code.co_filename)
    if not path.is_relative_to(SOURCE) or path.relative_to(SOURCE).parts[0] not in LAYERS:
        return ""
    return f"{path.relative_to(SOURCE).as_posix()}:{code.co_firstlineno}"


def forget_plans() -> None:
    """Plan everything anew: what was remembered would hide a fault, and a faulty plan must never be kept."""
    from seamleaf.planning import memory
    from seamleaf.site.work.plans import KeptPlans

    memory._recent.clear()
    KeptPlans.take = lambda *_: None  # type: ignore[method-assign]  # the suite keeps plans between its runs
    KeptPlans.put = lambda *_: None  # type: ignore[method-assign]  # as above


class Chosen:
    """Keeps these tests only, in this order, and what they plan to themselves."""

    def pytest_runtest_setup(self) -> None:
        """Let no test see the plans of another."""
        forget_plans()

    def __init__(self, tests: list[str]) -> None:
        self.place = {name: place for place, name in enumerate(tests)}

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Leave the others out."""
        items[:] = sorted((item for item in items if item.nodeid in self.place), key=lambda i: self.place[i.nodeid])
