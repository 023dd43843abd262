"""The rules of the house that a tool can hold: what lies where, who imports whom, how long and how documented."""

from __future__ import annotations

import ast
import io
import re
import subprocess
import sys
import tokenize
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "generator" / "seamleaf"
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "mkdocs.yml", "pyproject.toml", "generator", "patterns", "tests", "site_templates",
}  # fmt: skip
LONGEST = 450
"""Lines of a module; beyond, there is a second idea in it."""
LONGER = {
    "tests/booklet/test_identities.py": "a list: every number of a booklet that must tie, one after the other",
    "tests/errata.py": "a list: every erratum that is put into a booklet, one after the other",
}
"""Modules that are longer all the same, tables and lists, each with its reason."""

REGISTRIES = re.compile(r"\b(?:pypi|pythonhosted|npmjs|debian|ubuntu|crates|anaconda)\.(?:org|com|io|net)\b")
MACHINE_PATHS = re.compile(r"(?<![\w.~}])/(?:root|work|home|opt|Users|mnt|srv|tmp)/\w")


def tracked() -> list[str]:
    """Return every file that git tracks, by its path below the root."""
    command = ["git", "-c", "safe.directory=*", "ls-files", "-z"]
    listed = subprocess.run(command, cwd=ROOT, capture_output=True, check=True, timeout=60).stdout
    return [name for name in listed.decode().split("\0") if name and (ROOT / name).exists()]


TRACKED = tracked()
MODULES = [name for name in TRACKED if name.endswith(".py")]


def comments(name: str) -> list[tuple[int, str]]:
    """Return the comments of a Python file with their lines."""
    tokens = tokenize.generate_tokens(io.StringIO((ROOT / name).read_text(encoding="utf-8")).readline)
    return [(token.start[0], token.string) for token in tokens if token.type == tokenize.COMMENT]


def test_the_top_level_holds_the_fixed_names_and_dot_files_only() -> None:
    top = {name.split("/")[0] for name in TRACKED}
    assert {name for name in top if not name.startswith(".")} == TOP_LEVEL


def test_no_tracked_file_names_a_registry_or_a_path_of_some_machine() -> None:
    found = []
    for name in TRACKED:
        text = (ROOT / name).read_bytes().decode("utf-8", errors="replace")
        for pattern in (REGISTRIES, MACHINE_PATHS):
            found += [f"{name}: {match.group()}" for match in pattern.finditer(text)]
    assert found == []


def test_every_tracked_text_is_utf8_with_unix_line_ends_and_a_last_newline() -> None:
    faults = []
    for name in TRACKED:
        content = (ROOT / name).read_bytes()
        content.decode("utf-8")
        if b"\r" in content or (content and not content.endswith(b"\n")):
            faults.append(name)
    assert faults == []


def test_the_locked_versions_are_plain_pins() -> None:
    """One ``name==version`` a line, with a condition on the Python where two are needed; no address, no option."""
    lines = (ROOT / ".lock" / "versions.txt").read_text(encoding="utf-8").splitlines()
    pins = [line for line in lines if not line.startswith("#")]
    odd = [
        line for line in pins if not re.fullmatch(r"[a-z0-9-]+==[0-9][0-9a-z.]*( ; [a-z_]+ [!=<>]+ '[\w.]+')?", line)
    ]
    assert odd == []
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    names = {re.split(r"[^\w.-]", each)[0].lower() for each in wanted}
    assert names <= {pin.split("==")[0] for pin in pins}


def test_imports_flow_one_way() -> None:
    """The contracts stand in pyproject.toml; import-linter holds them."""
    command = [Path(sys.executable).with_name("lint-imports"), "--no-cache"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout
    assert " 0 broken" in done.stdout


def test_lengths_stand_on_the_standard_library_alone() -> None:
    for path in sorted((PACKAGE / "lengths").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            for name in names:
                assert name.split(".")[0] in sys.stdlib_module_names or name.startswith("seamleaf.lengths"), path.name


def test_no_stage_reads_a_clock_the_network_or_chance() -> None:
    """Stages are pure functions of their inputs; only the site package meets the world."""
    worldly = re.compile(r"(time|datetime|random|secrets|uuid|socket|urllib\.request|http|requests|tempfile)\b")
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        if path.relative_to(PACKAGE).parts[0] == "site":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            found += [f"{path.relative_to(ROOT)}: {name}" for name in names if worldly.match(name)]
    assert found == []


def imported(below: str) -> set[str]:
    """Return the top names of everything that the modules below a folder import."""
    names = set()
    for path in sorted((ROOT / below).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                names.add(node.module.split(".")[0])
    return names - set(sys.stdlib_module_names)


def test_what_is_imported_is_asked_for() -> None:
    """Nothing leans on a package that only comes along with another."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    runtime = {re.split(r"[^\w.-]", each)[0].lower() for each in project["dependencies"]}
    extra = {re.split(r"[^\w.-]", each)[0].lower() for each in project["optional-dependencies"]["test"]}
    sources = packages_distributions()

    def lacking(names: set[str], asked: set[str]) -> set[str]:
        return {name for name in names if not {each.lower() for each in sources.get(name, [])} & asked}

    hunted = set(project["optional-dependencies"]["fuzz"])  # not installed with the suite
    own = {"seamleaf"} | hunted | {path.stem for path in (ROOT / "tests").rglob("*")}
    on_wish = {"distributed"}  # of the extra [cluster], asked for where a build names a cluster
    assert on_wish <= {re.split(r"[^\w.-]", each)[0] for each in project["optional-dependencies"]["cluster"]}
    assert lacking(imported("generator") - own - on_wish, runtime) == set()
    assert lacking(imported("tests") - own, runtime | extra) == set()


@pytest.mark.parametrize("name", MODULES)
def test_every_module_says_what_it_is_and_holds_one_idea(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    assert ast.get_docstring(ast.parse(text)), "needs a docstring"
    assert (text.count("\n") > LONGEST) == (name in LONGER)
    assert Path(name).stem not in {"utils", "util", "helpers", "misc", "common"}


@pytest.mark.parametrize("name", MODULES)
def test_every_silenced_check_says_why(name: str) -> None:
    """``# noqa: X -- why``, ``# type: ignore[x]  # why``, ``# pragma: no cover -- why``; none may stand bare."""
    silencers = (
        r"noqa(?!: [A-Z]+[0-9]+(, ?[A-Z]+[0-9]+)* --? \w)",
        r"type: ignore(?!\[[\w-]+(, ?[\w-]+)*\]  # \w)",
        r"pragma: no cover(?! --? \w)",
    )
    found = [(line, comment) for line, comment in comments(name) if re.search(rf"#\s*({'|'.join(silencers)})", comment)]
    assert found == []


def test_every_rule_that_is_off_for_the_whole_project_says_why() -> None:
    lines = (ROOT / "pyproject.toml").read_text(encoding="utf-8").split("[tool.ruff.lint]")[1].split("[tool.mypy]")[0]
    rules = [line for line in lines.splitlines() if re.match(r'\s+"[A-Z]+[0-9]*",', line)]
    assert len(rules) > 5
    assert [line for line in rules if not re.search(r"# \w+ \w+", line)] == []
