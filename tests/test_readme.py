"""What the README tells a reader to do works as it is written there."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
CONFIG, PATTERN = re.findall(r"```yaml\n(.*?)```", README, flags=re.DOTALL)
SEAMLEAF = Path(sys.executable).with_name("seamleaf")


@pytest.fixture
def own_site(tmp_path: Path) -> Path:
    """Lay out the reader's own site as the README shows it."""
    (tmp_path / "patterns").mkdir()
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    (tmp_path / "patterns" / "nine-patch.yaml").write_text(PATTERN, encoding="utf-8")
    return tmp_path


def test_every_command_of_a_readers_own_site_does_what_it_says(own_site: Path) -> None:
    commands = re.findall(r"^    seamleaf (\w.*?) +#", README, flags=re.MULTILINE)
    assert [command.split()[0] for command in commands] == [
        "check",
        "check",
        "check",
        "build",
        "serve",
        "booklet",
        "proof",
        "compare",
    ]
    for command in commands:
        if command != "serve":  # runs until it is interrupted
            done = subprocess.run(
                [SEAMLEAF, *shlex.split(command)], cwd=own_site, capture_output=True, text=True, timeout=120
            )
            assert done.returncode == 0, done.stderr
    assert (own_site / "site" / "index.html").exists() or (own_site / "site" / "nine-patch" / "index.html").exists()
    assert (own_site / "booklets" / "nine-patch" / "mat" / "booklet.json").exists()


ON_POINT = {"set": "on-point", "triangles": {"fabric": "dark"}}
REFUSED = {
    "nor in a set with sashing": {
        "setting": {
            **ON_POINT,
            "triangles": {"fabric": "dark", "float": "1"},
            "sashing": {"fabric": "dark", "width": "1"},
        }
    },
    "Blocks on point do not float in a single row or column": {
        "setting": {**ON_POINT, "triangles": {"fabric": "dark", "float": "1"}},
        "sizes": {"mat": {"blocks": "1 x 3"}},
    },
}
"""What the README says that this version refuses, and a change of its example that asks for it."""


@pytest.mark.parametrize("phrase", REFUSED)
def test_what_the_limits_name_is_refused_at_its_line(own_site: Path, phrase: str) -> None:
    """When a limit falls, its words go out of the README with it."""
    assert phrase in " ".join(README.split())
    file = own_site / "patterns" / "nine-patch.yaml"
    pattern = yaml.safe_load(PATTERN)
    for key, change in REFUSED[phrase].items():
        pattern[key] = {**pattern.get(key, {}), **change}
    file.write_text(yaml.safe_dump(pattern, sort_keys=False), encoding="utf-8")
    done = subprocess.run([SEAMLEAF, "check", file.name], cwd=file.parent, capture_output=True, text=True, timeout=60)
    assert done.returncode == 1
    assert "float" in done.stderr
    assert re.fullmatch(r"nine-patch\.yaml:\d+:\d+: found .*, expected .*", done.stderr.strip())


def test_the_numbers_that_the_reader_is_told_of_are_there(demo_site: Path) -> None:
    """The README says a round number below what is there, so that it need not change with every page."""
    pages = [page.read_text(encoding="utf-8") for page in (demo_site / "lamplight-crossing").rglob("*.html")]
    found = [re.findall(r"<data value=\"[^\"]*\" data-from=", page) for page in pages]
    assert "more than 5,000" in " ".join(README.split())
    assert sum(map(len, found)) > 5000
    places = {
        (page.parts[page.parts.index("lamplight-crossing") + 1], pointer)
        for page in (demo_site / "lamplight-crossing").rglob("*.html")
        for pointer in re.findall(r"data-from=\"([^\"]*)\"", page.read_text(encoding="utf-8"))
    }
    assert "more than 2,000 computed values" in " ".join(README.split())
    assert len(places) > 2000
    typed = re.sub(
        r"\"#[0-9a-fA-F]+\"|#.*", "", (ROOT / "patterns/lamplight-crossing.yaml").read_text(encoding="utf-8")
    )
    assert "Fewer than 100 of its numbers were typed" in " ".join(README.split())
    assert 50 < len(re.findall(r"(?<![\w.])\d+(?: \d/\d+)?(?:/\d+)?", typed)) < 100
    figures = list((demo_site / "lamplight-crossing").rglob("*.svg"))
    assert "more than 250 figures" in " ".join(README.split())
    assert len(figures) > 250


def test_every_link_leads_to_something_that_is_there() -> None:
    for document in ("README.md", "DEVELOPERS.md"):
        targets = re.findall(r"\]\(([^)]+)\)", (ROOT / document).read_text(encoding="utf-8"))
        assert len(targets) > 5
        assert [target for target in targets if not (ROOT / target).exists()] == []


def test_every_file_that_the_guide_names_is_there() -> None:
    """A name that stands between backticks and ends as a source file does is a file of the tree."""
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    tree = {path.name for folder in ("generator", "tests", "site_templates") for path in (ROOT / folder).rglob("*")}
    names = {name.split("/")[-1] for name in re.findall(r"`([\w/]+\.(?:py|yaml))`", guide)} - {"utils.py"}
    assert len(names) > 30
    assert names - tree == set()
