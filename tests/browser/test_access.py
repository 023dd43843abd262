"""Pages that the demo site has not, against axe-core: on a desk in light and on a phone in dark."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest

from browsing import AXE, RULES, RUN, opened
from patterns_for_tests import file_of
from seamleaf.publishing.pages import HISTORY
from serving import serving

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def corrected(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build a site of one small pattern in its second version, with a page of corrections."""
    folder = tmp_path_factory.mktemp("corrected")
    config = {"site_name": "T", "docs_dir": "patterns", "theme": {"name": "material", "font": False}}
    more = {
        "plugins": ["search", {"seamleaf": {"paper": []}}],
        "use_directory_urls": False,
        "extra": {"generator": False},
    }
    (folder / "patterns").mkdir()
    (folder / "mkdocs.yml").write_text(json.dumps(config | more), encoding="utf-8")
    seamleaf, pattern = Path(sys.executable).with_name("seamleaf"), folder / "patterns" / "pond.yaml"
    part = {"row": ["light 2 x 4", {"half-square": ["red", "dark"], "finished": "4 x 4"}]}
    keep: list[str | Path] = ["booklet", pattern, "--out", folder / "patterns/earlier/1.0.0"]
    steps: list[tuple[str, str, list[str | Path]]] = [("1.0.0", "2 x 2", keep), ("1.1.0", "2 x 3", ["build"])]
    for version, size, command in steps:
        pattern.write_bytes(file_of({"one": part}, version=version, size=size))
        done = subprocess.run([seamleaf, *command], cwd=folder, capture_output=True, text=True, timeout=300)
        assert done.returncode == 0, done.stdout + done.stderr
    return folder / "site"


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (390, "dark")])
def test_the_page_of_corrections_and_a_front_page_of_ones_own_keep_every_rule(
    browser: Browser, corrected: Path, width: int, scheme: Literal["light", "dark"]
) -> None:
    pages = sorted(path.relative_to(corrected).as_posix() for path in corrected.glob("pond/**/index.html"))
    pages = [page for page in pages if page.count("/") < 3]
    assert f"pond/{HISTORY}/index.html" in pages
    with serving(corrected) as address, opened(browser, width, scheme) as (page, faults):
        for each in ["index.html", *pages]:
            page.goto(address + each, wait_until="load")
            page.evaluate(AXE)
            faults += [f"{each}: {found}" for found in page.evaluate(RUN, [list(RULES), {}])]
    assert faults == []
