"""What is shipped: the wheel holds the packages and every template, and works where there is no checkout."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

from folders import files_below

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def tracked(*below: str) -> list[str]:
    """Return the files that git tracks below some folders."""
    command = ["git", "-c", "safe.directory=*", "ls-files", "-z", "--", *below]
    listed = subprocess.run(command, cwd=ROOT, capture_output=True, check=True, timeout=60).stdout
    return [name for name in listed.decode().split("\0") if name and (ROOT / name).exists()]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel from the tracked files alone, without a network, and return it."""
    source, out = tmp_path_factory.mktemp("source"), tmp_path_factory.mktemp("wheel")
    for name in tracked("generator", "site_templates", "pyproject.toml", "README.md"):
        (source / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(ROOT / name, source / name)
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--no-index"]
    done = subprocess.run(
        [*command, "-w", out, source], capture_output=True, text=True, timeout=180, stdin=subprocess.DEVNULL
    )
    assert done.returncode == 0, done.stderr
    (built,) = out.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def unpacked(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Unpack the wheel and return the folder."""
    folder = tmp_path_factory.mktemp("unpacked")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def test_the_list_of_packages_is_the_tree() -> None:
    """It is written by hand, because the templates live outside generator/."""
    below = {Path(name).parent for name in tracked("generator") if name.endswith("/__init__.py")}
    tree = {".".join(folder.parts[1:]) for folder in below} | {"seamleaf.site_templates"}
    assert set(PROJECT["tool"]["setuptools"]["packages"]) == tree
    modules = {Path(name).parent for name in tracked("generator") if name.endswith(".py")}
    assert modules == below, "a folder with modules is a package"


def test_the_wheel_holds_every_module_and_template_and_nothing_else(wheel: Path) -> None:
    expected = {name.removeprefix("generator/") for name in tracked("generator")}
    expected |= {f"seamleaf/{name}" for name in tracked("site_templates")}
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    records = {name for name in names if name.split("/")[0].endswith(".dist-info")}
    assert names - records == expected
    assert "seamleaf/py.typed" in names


def run_unpacked(unpacked: Path, *arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run Python on the unpacked wheel: the installed checkout is not found, only what it depends on."""
    code = (
        "import sys; sys.path.insert(0, sys.argv.pop(1));"
        "sys.meta_path[:] = [f for f in sys.meta_path if 'editable' not in repr(f).lower()];"
        "sys.path[:] = [p for p in sys.path if not p.endswith('/generator')];"
    )
    other_machine = {"PYTHONHASHSEED": "1", "LC_ALL": "C", "TZ": "Pacific/Kiritimati"}
    environment = {**os.environ, "PYTHONPATH": "", **other_machine}
    return subprocess.run(
        [sys.executable, "-c", code + arguments[0], unpacked, *arguments[1:]],
        cwd=cwd, env=environment, capture_output=True, text=True, timeout=300, stdin=subprocess.DEVNULL,
    )  # fmt: skip


def test_every_package_is_imported_from_the_wheel(unpacked: Path, tmp_path: Path) -> None:
    packages = PROJECT["tool"]["setuptools"]["packages"]
    done = run_unpacked(
        unpacked,
        "import importlib; [print(importlib.import_module(name).__file__) for name in sys.argv[1:]]",
        *packages,
        cwd=tmp_path,
    )
    assert done.returncode == 0, done.stderr
    places = done.stdout.splitlines()
    assert len(places) == len(packages)
    assert [place for place in places if not place.startswith(str(unpacked))] == []


def test_the_wheel_builds_a_pattern_of_the_demo_where_there_is_no_checkout(
    unpacked: Path, demo_site: Path, tmp_path: Path
) -> None:
    """Data, figures and PDF files have the bytes that the checkout gives, whatever the hash seed, locale and time zone.

    Pages differ, since they lead to the other patterns; tests/site/test_same_bytes.py compares those.
    """
    pattern = "millrace"
    for name in ("mkdocs.yml", f"patterns/{pattern}.yaml", "patterns/studio.css"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(ROOT / name, tmp_path / name)
    (tmp_path / "patterns" / "index.md").write_text("# T\n\n<!-- seamleaf: gallery -->\n", encoding="utf-8")
    run = "from seamleaf.site.commands.command import main; sys.exit(main(sys.argv[1:]))"
    # The plugin is found by its entry point, which the unpacked wheel brings along.
    done = run_unpacked(unpacked, run, "build", "--site-dir", str(tmp_path / "site"), cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    here, there = files_below(demo_site / pattern), files_below(tmp_path / "site" / pattern)
    assert here.keys() == there.keys()
    assert [name for name in here if not name.endswith(".html") and here[name] != there[name]] == []
    assert sum(name.endswith(".pdf") for name in here) == 8  # the booklet and the test form, two sizes, two papers


@pytest.mark.parametrize("group", ["console_scripts", "mkdocs.plugins"])
def test_the_wheel_announces_its_command_and_its_plugin(unpacked: Path, group: str) -> None:
    (record,) = unpacked.glob("*.dist-info/entry_points.txt")
    section = record.read_text(encoding="utf-8").split(f"[{group}]")[1].split("[")[0]
    module, name = section.split("=")[1].strip().split(":")
    text = (unpacked / (module.replace(".", "/") + ".py")).read_text(encoding="utf-8")
    assert f"def {name}(" in text or f"class {name}(" in text
