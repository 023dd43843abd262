"""What a site build runs on: known by version, digest and licence, and asked after."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tomllib
from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_loader
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def bill() -> dict[str, Any]:
    """Return the bill of materials."""
    done = subprocess.run([sys.executable, ROOT / ".ci" / "sbom"], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    bill: dict[str, Any] = json.loads(done.stdout)
    return bill


def test_the_bill_lists_what_is_locked_and_nothing_that_only_tests_use(bill: dict[str, Any]) -> None:
    asked = [Requirement(pin) for pin in pins("build.txt")]
    locked = {f"{each.name}{each.specifier}" for each in asked if each.marker is None or each.marker.evaluate()}
    listed = {f"{each['name']}=={each['version']}" for each in bill["components"]}
    assert {"mkdocs", "highspy", "pyyaml", "markupsafe", "requests"} <= {each["name"] for each in bill["components"]}
    assert not {"pytest", "shapely", "playwright"} & {each["name"] for each in bill["components"]}
    assert {each for each in locked if not each.startswith("setuptools==")} == listed  # which only installs


def test_every_package_says_its_licence_and_each_may_be_used_by_anyone(bill: dict[str, Any]) -> None:
    """All of them are permissive, or let a program of any licence use them unchanged, as the Mozilla licence does."""
    kind = ("MIT", "BSD", "Apache", "PSF", "Python Software", "MPL", "Mozilla")
    odd = [
        (each["name"], licence["license"]["name"])
        for each in bill["components"]
        for licence in each["licenses"]
        if not any(word in licence["license"]["name"] for word in kind)
    ]
    assert odd == []


def pins(name: str) -> list[str]:
    """Return what a lock pins, ``name==version`` with its condition, without digests."""
    text = (ROOT / ".lock" / name).read_text(encoding="utf-8")
    return [line.removesuffix(" \\") for line in text.splitlines() if not line.startswith((" ", "#"))]


@pytest.mark.parametrize("name", ["build.txt", "test.txt"])
def test_every_locked_package_has_digests_and_nothing_else(name: str) -> None:
    """A file is taken only when its bytes have a digest that stands there; no line may lead elsewhere."""
    text = (ROOT / ".lock" / name).read_text(encoding="utf-8").split("\n", 1)[1]
    pin = r"[a-z0-9-]+==[0-9][0-9a-z.]*(?: ; [a-z_]+ [!=<>]+ '[\w.]+')?"
    entry = rf"{pin}(?: \\\n    --hash=sha256:[0-9a-f]{{64}})+\n"
    assert re.fullmatch(f"(?:{entry})+", text)


def test_the_locks_name_the_same_versions() -> None:
    """``bash .ci/lock`` makes all three; what was added by hand to one is missing in another."""
    assert pins("test.txt") == pins("versions.txt")
    assert set(pins("build.txt")) < set(pins("test.txt"))
    assert not {"pytest", "shapely", "playwright"} & {pin.split("==")[0] for pin in pins("build.txt")}
    wanted = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    names = {re.split(r"[^\w.-]", each)[0].lower() for each in wanted}
    assert names <= {pin.split("==")[0] for pin in pins("build.txt")}


@pytest.fixture
def audit() -> ModuleType:
    """Load the script that asks after weaknesses."""
    loader = SourceFileLoader("audit", str(ROOT / ".ci" / "audit"))
    spec = spec_from_loader("audit", loader)
    assert spec is not None
    module = module_from_spec(spec)
    loader.exec_module(module)
    return module


SOUND = {"name": "a", "version": "1", "vulns": []}
WEAK = {"name": "b", "version": "2", "vulns": [{"id": "W-1", "fix_versions": ["3"]}]}
SKIPPED = {"name": "c", "skip_reason": "not found"}


@pytest.mark.parametrize(
    ("told", "reason", "status", "words"),
    [
        ([SOUND], "", 0, "1 packages looked up, 0 weaknesses known"),
        ([SOUND, WEAK], "", 1, "b 2: W-1, mended in 3"),
        ([SOUND, SKIPPED], "", 3, "NOT AUDITED, c: not in the database"),
        ([SKIPPED], "", 3, "NOT AUDITED, none of the packages"),
        ([WEAK, SKIPPED], "", 1, "NOT AUDITED, c"),
        ([], "no route", 3, "NOT AUDITED, the database cannot be reached: no route"),
    ],
)
def test_what_was_not_looked_up_is_never_called_sound(
    audit: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
    told: list[dict[str, Any]], reason: str, status: int, words: str,
) -> None:  # fmt: skip
    monkeypatch.setattr(audit.importlib.util, "find_spec", lambda _: True)
    monkeypatch.setattr(audit, "ask", lambda _: (told, reason))
    assert audit.main(ROOT / ".lock" / "build.txt") == status
    assert words in capsys.readouterr().out
