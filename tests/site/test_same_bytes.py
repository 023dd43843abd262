"""The same input gives the same bytes, wherever, whenever and however it is built, and nothing asks the network."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Final

import pytest

from folders import files_below
from published import METRIC, SMALL

CONFIG = """\
site_name: Test
site_url: "https://example.org/"
docs_dir: patterns
theme: {{name: material, font: false}}
extra: {{generator: false}}
plugins: [search, {{seamleaf: {{processes: {processes}, cache: {cache}, paper: [a4]}}}}]
"""
ONE_SIZE: Final = METRIC.replace("  runner: {title: Runner, blocks: 2 x 9}\n", "")
NOON: Final = "951782400"
"""Seconds from 1970 to the noon of a leap day: in Kiritimati it is the first of March already."""

WATCH = """\
import os, sys

def watch(event, arguments):
    if event in ("socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto", "socket.bind"):
        with open(os.environ["ASKED"], "a") as file:
            file.write(f"{event} {arguments}\\n")
        raise RuntimeError(f"no network here: {event}")

sys.addaudithook(watch)
"""
"""Is imported by every Python that starts with its folder on the path, those of a pool too."""


def environment(folder: Path, **more: str) -> dict[str, str]:
    (folder / "watch").mkdir(parents=True)
    (folder / "watch" / "sitecustomize.py").write_text(WATCH, encoding="utf-8")
    own = {"PYTHONPATH": str(folder / "watch"), "ASKED": str(folder / "asked"), "SOURCE_DATE_EPOCH": NOON}
    return {**os.environ, **own, **more}


def alone() -> list[str]:
    """Return what runs a command in a network namespace of its own, without any way out; nothing where none is made."""
    command = ["unshare", "--map-root-user", "--net"]
    try:
        made = subprocess.run([*command, "true"], capture_output=True, timeout=60).returncode == 0
    except FileNotFoundError:
        made = False
    return command if made else []


def build(folder: Path, processes: int, cache: str, *, within: Sequence[str] = (), **more: str) -> Path:
    (folder / "patterns").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(CONFIG.format(processes=processes, cache=cache), encoding="utf-8")
    for name, text in (("index.md", "# T\n\n<!-- seamleaf: gallery -->\n"), ("a.yaml", SMALL), ("b.yaml", ONE_SIZE)):
        (folder / "patterns" / name).write_text(text, encoding="utf-8")
    command = [*within, Path(sys.executable).with_name("seamleaf"), "build"]
    variables = environment(folder, **more)
    done = subprocess.run(command, cwd=folder, env=variables, capture_output=True, text=True, timeout=300)
    assert (done.returncode, done.stdout + done.stderr) == (0, "")
    return folder


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Build a site twice, with everything different but the input."""
    base = tmp_path_factory.mktemp("bytes")
    return [
        build(base / "a", 1, "false", PYTHONHASHSEED="1", LC_ALL="C", TZ="UTC"),
        build(
            base / "another folder, für später", 2, "true", within=alone(),
            PYTHONHASHSEED="2", LC_ALL="C.UTF-8", LANG="tr_TR.UTF-8", TZ="Pacific/Kiritimati", COLUMNS="20",
        ),
    ]  # fmt: skip


def test_hash_seed_locale_time_zone_folder_processes_and_cache_change_nothing(built: list[Path]) -> None:
    one, other = (files_below(folder / "site") for folder in built)
    assert one.keys() == other.keys()
    assert [name for name in one if one[name] != other[name]] == []
    assert {
        "sitemap.xml",
        "sitemap.xml.gz",
        "search/search_index.json",
        "a/mat/booklet.json",
        "a/mat/a-mat-a4.pdf",
    } <= one.keys()


def test_the_dates_of_the_sitemap_are_those_of_source_date_epoch(built: list[Path]) -> None:
    text = (built[0] / "site" / "sitemap.xml").read_text(encoding="utf-8")
    assert set(re.findall(r"<lastmod>(.*?)</lastmod>", text)) == {"2000-02-29"}


def test_no_build_asks_the_network(built: list[Path]) -> None:
    """Python is watched; whatever else is run, such as typst, has no network in the second build, where one is made."""
    assert [folder / "asked" for folder in built if (folder / "asked").exists()] == []


def test_the_watch_sees_whoever_asks(tmp_path: Path) -> None:
    asks = "import socket; socket.create_connection(('127.0.0.1', 9))"
    variables = environment(tmp_path)
    done = subprocess.run([sys.executable, "-c", asks], env=variables, capture_output=True, timeout=60)
    assert done.returncode == 1
    assert (tmp_path / "asked").read_text(encoding="utf-8").startswith("socket.getaddrinfo")
