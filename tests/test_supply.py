"""What a site build runs on: known by version and licence."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def bill() -> dict[str, Any]:
    """Return the bill of materials."""
    done = subprocess.run([sys.executable, ROOT / ".ci" / "sbom"], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    bill: dict[str, Any] = json.loads(done.stdout)
    return bill


def test_the_bill_lists_what_is_locked_and_nothing_that_only_tests_use(bill: dict[str, Any]) -> None:
    lines = (ROOT / ".lock" / "versions.txt").read_text(encoding="utf-8").splitlines()
    locked = {line.split(" ;")[0] for line in lines}
    listed = {f"{each['name']}=={each['version']}" for each in bill["components"]}
    assert {"mkdocs", "highspy", "pyyaml", "markupsafe", "requests"} <= {each["name"] for each in bill["components"]}
    assert not {"pytest", "shapely", "playwright"} & {each["name"] for each in bill["components"]}
    assert listed - locked == set()


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
