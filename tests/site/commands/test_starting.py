"""A new working folder: it builds at once, in either unit, whatever its owner is called."""

from __future__ import annotations

import importlib.resources
import json
import re
import shlex
import sys
from pathlib import Path

import jsonschema
import pytest
import yaml

from folders import files_below
from seamleaf.site.commands import command
from seamleaf.site.commands.command import main
from seamleaf.site.commands.starting import Start, StartError, ask, started

ODD = """A: "b" <i> # é {{ x }} 'y' *z* \\ !"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_new_folder_builds_at_once(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """One in centimetres with odd names; test_guide.py builds that of its first page, in inches."""
    assert main(["new", "quilts", "--name", ODD, "--designer", ODD, "--unit", "cm"]) == 0
    said = capfd.readouterr()
    assert said.err == ""
    assert said.out.splitlines()[-1] == "next: cd quilts && seamleaf serve"
    assert main(["build", "--config-file", "quilts/mkdocs.yml"]) == 0
    assert capfd.readouterr() == ("", "")
    site = folder / "quilts" / "site"
    assert sorted(path.parent.name for path in site.glob("first-star/*/booklet.json")) == ["bed", "lap", "mat"]
    assert (site / "index.html").is_file()


def test_every_file_that_is_written_is_told_and_well_formed(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "quilts", "--name", ODD, "--designer", ODD]) == 0
    told = [line.removeprefix("quilts/") for line in capsys.readouterr().out.splitlines()[:-1]]
    files = files_below(folder / "quilts")
    assert sorted(told) == sorted(files)
    for name, content in files.items():
        if name.endswith((".yml", ".yaml")):
            assert isinstance(yaml.safe_load(content), dict), name
    config = yaml.safe_load(files["mkdocs.yml"])
    assert config["site_name"] == ODD
    assert yaml.safe_load(files["patterns/first-star.yaml"])["designer"] == ODD


@pytest.mark.parametrize("unit", ["in", "cm"])
def test_the_first_pattern_tells_an_editor_by_which_schema_it_is_written(folder: Path, unit: str) -> None:
    assert main(["new", "quilts", "--unit", unit]) == 0
    pattern = folder / "quilts" / "patterns" / "first-star.yaml"
    first = pattern.read_text("utf-8").splitlines()[0]
    schema = json.loads((pattern.parent / first.removeprefix("# yaml-language-server: $schema=")).read_bytes())
    value = yaml.safe_load(pattern.read_text("utf-8"))
    assert list(jsonschema.Draft7Validator(schema).iter_errors(value)) == []
    del value["sizes"]["mat"]["blocks"]
    assert len(list(jsonschema.Draft7Validator(schema).iter_errors(value))) == 1


def test_a_schema_that_has_become_old_is_told_of_and_the_current_one_published(
    folder: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "quilts"]) == 0
    beside = folder / "quilts" / "patterns" / "pattern.schema.json"
    current = beside.read_bytes()
    beside.write_text("{}", encoding="utf-8")
    (beside.parent / "first-star.yaml").unlink()  # no pattern need be worked out for it
    capfd.readouterr()
    assert main(["build", "--config-file", "quilts/mkdocs.yml"]) == 0
    told = capfd.readouterr().err
    assert re.fullmatch(r"seamleaf: (\S+) is of another version; '(seamleaf schema --out \1)' writes it anew\n", told)
    assert (folder / "quilts" / "site" / "pattern.schema.json").read_bytes() == current
    assert main(shlex.split(told.split("'")[1])[1:]) == 0
    assert beside.read_bytes() == current


@pytest.mark.parametrize(
    ("file", "schema"), [(".github/workflows/site.yml", "github-workflows"), (".gitlab-ci.yml", "gitlab-ci")]
)
def test_the_workflows_keep_the_schemas_of_their_hosts(folder: Path, file: str, schema: str) -> None:
    """The schemas are those that check-jsonschema carries (from the public catalogue of JSON schemas)."""
    assert main(["new", "quilts"]) == 0
    vendored = importlib.resources.files("check_jsonschema.builtin_schemas.vendor") / f"{schema}.json"
    rules = json.loads(vendored.read_text("utf-8"))
    found = yaml.safe_load((folder / "quilts" / file).read_text("utf-8"))
    # YAML 1.1 takes the word on for a truth value; the hosts' own readers do not.
    words = {"on" if key is True else key: value for key, value in found.items()}
    checker = jsonschema.validators.validator_for(rules)(rules)
    assert [error.message for error in checker.iter_errors(words)] == []
    assert not checker.is_valid({**words, "jobs": []} if "jobs" in words else {**words, "pages": []})


def test_the_workflows_build_and_publish_the_site(folder: Path) -> None:
    assert main(["new", "quilts"]) == 0
    github = yaml.safe_load((folder / "quilts/.github/workflows/site.yml").read_text("utf-8"))
    assert {"name", True, "permissions", "jobs"} <= github.keys(), "YAML 1.1 takes the word on for a truth value"
    (job,) = github["jobs"].values()
    assert all(("run" in step) != ("uses" in step) for step in job["steps"])
    assert job["environment"]["url"] == "${{ steps.published.outputs.page_url }}"
    assert [step["run"] for step in job["steps"] if "run" in step][-1] == "seamleaf build"
    gitlab = yaml.safe_load((folder / "quilts/.gitlab-ci.yml").read_text("utf-8"))
    assert gitlab["pages"]["artifacts"]["paths"] == ["public"]
    assert gitlab["pages"]["script"][-1] == "seamleaf build --site-dir public"


def test_a_folder_that_holds_something_is_left_alone(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "quilts").mkdir()
    (folder / "quilts" / "mine.txt").write_text("mine", encoding="utf-8")
    assert main(["new", "quilts"]) == 1
    assert "holds something already" in capsys.readouterr().err
    assert files_below(folder) == {"quilts/mine.txt": b"mine"}


@pytest.mark.parametrize("words", [["--name", ""], ["--name", "a\nb"], ["--designer", "x" * 201]])
def test_a_name_that_cannot_stand_on_a_page_is_refused(
    folder: Path, capsys: pytest.CaptureFixture[str], words: list[str]
) -> None:
    assert main(["new", "quilts", *words]) == 1
    err = capsys.readouterr().err
    assert err.startswith("seamleaf: ")
    assert "expected" in err
    assert list(folder.iterdir()) == []


def test_on_a_terminal_what_no_option_says_is_asked(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []

    def answer(question: str) -> str:
        asked.append(question)
        return {"Name": "", "Your": "Ada Fen", "Inch": " CM "}[question[:4]]

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr("builtins.input", answer)
    assert command.main(["new", "quilts"]) == 0
    assert [question[:4] for question in asked] == ["Name", "Your", "Inch"]
    pattern = yaml.safe_load((folder / "quilts/patterns/first-star.yaml").read_text("utf-8"))
    assert (pattern["designer"], pattern["unit"]) == ("Ada Fen", "cm")
    assert main(["new", "more", "--name", "N", "--designer", "", "--unit", "in"]) == 0
    assert len(asked) == 3


def test_answers_that_cannot_be_used_are_refused() -> None:
    assert ask({"name": "N", "designer": "D", "unit": "cm"}, lambda _: "") == Start(name="N", designer="D", unit="cm")
    with pytest.raises(StartError, match="expected in or cm"):
        started(name="N", designer="D", unit="yd")
