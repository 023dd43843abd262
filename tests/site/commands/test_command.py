"""The command line: what it prints, what it writes, and its exit status."""

from __future__ import annotations

import json
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from published import SMALL
from seamleaf.reading import keys
from seamleaf.reading.marks import Mark
from seamleaf.reading.problems import Problem
from seamleaf.site.building import plugin
from seamleaf.site.building.reference import command_sections
from seamleaf.site.commands import command
from seamleaf.site.commands.command import main
from seamleaf.site.commands.telling import Told, shown_lines
from seamleaf.site.files import sources
from seamleaf.site.work import pipeline

BROKEN = SMALL.replace("reed 3 x 3", "reeds 3 x 3").replace("version: 1.0.0\n", "")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return an empty working folder."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(folder: Path, name: str, text: str) -> str:
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")
    return name


def test_every_command_that_help_lists_does_something() -> None:
    assert {section.title for section in command_sections()} == {f"seamleaf {name}" for name in command.RUN}


def test_check_of_a_good_pattern_names_its_sizes_and_fabrics_that_none_uses(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", write(folder, "small-pond.yaml", SMALL)]) == 0
    assert capsys.readouterr() == ("small-pond.yaml: no problems (mat, runner)\n", "")
    more = SMALL.replace("fabrics:\n", "fabrics:\n  extra: {source: yardage}\n")
    assert main(["check", write(folder, "small-pond.yaml", more)]) == 0
    assert capsys.readouterr().out == "small-pond.yaml: no problems (mat, runner); no size uses extra\n"


def test_check_lists_all_problems_of_all_files_sorted(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each line is FILE:LINE:COLUMN with what was found and what was expected; good files are still told of."""
    write(folder, "b.yaml", BROKEN)
    write(folder, "a.yaml", BROKEN)
    write(folder, "good.yaml", SMALL)
    assert main(["check", "good.yaml", "b.yaml", "a.yaml"]) == 1
    out, err = capsys.readouterr()
    assert out == "good.yaml: no problems (mat, runner)\n"
    lines = err.splitlines()
    assert [line.split(":")[:3] for line in lines] == [
        ["a.yaml", "1", "1"], ["a.yaml", "9", "9"], ["b.yaml", "1", "1"], ["b.yaml", "9", "9"],
    ]  # fmt: skip
    assert all("found" in line and "expected" in line for line in lines)


def test_a_file_is_named_as_it_was_given(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "deep/bad.yaml", BROKEN)
    assert main(["check", "./deep/../deep/bad.yaml"]) == 1
    assert all(line.startswith("./deep/../deep/bad.yaml:") for line in capsys.readouterr().err.splitlines())


@pytest.mark.parametrize("name", ["missing.yaml", ".", "a\0b.yaml", "x" * 300 + ".yaml", "dir/\n.yaml"])
def test_a_file_that_cannot_be_read_is_a_problem(folder: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    assert folder.is_dir()
    assert main(["check", name]) == 1
    assert len(capsys.readouterr().err.splitlines()) == 1


@pytest.mark.parametrize(
    "content", [b"", b"\xff\xfe\x00", b"\x00", b"- 1\n- 2\n", b"[" * 5000, b"a: &x 1\nb: *x\n", b"{}"]
)
def test_bytes_that_are_no_pattern_are_problems(
    folder: Path, capsys: pytest.CaptureFixture[str], content: bytes
) -> None:
    (folder / "bad.yaml").write_bytes(content)
    assert main(["check", "bad.yaml"]) == 1
    err = capsys.readouterr().err
    assert err.startswith("bad.yaml:")
    assert "Traceback" not in err


def test_check_tells_an_editor_everything_in_one_json_document(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(folder, "a.yaml", BROKEN.replace("source: yardage", "source: yardgae", 1))
    write(folder, "good.yaml", SMALL)
    assert main(["check", "--format", "json", "good.yaml", "a.yaml", "missing.yaml"]) == 1
    out, err = capsys.readouterr()
    assert err == ""
    told = json.loads(out)
    assert told["format"] == "seamleaf-problems/1"
    assert told["files"] == [
        {"file": "a.yaml", "sizes": [], "problems": 3},
        {"file": "good.yaml", "sizes": ["mat", "runner"], "problems": 0},
        {"file": "missing.yaml", "sizes": [], "problems": 1},
    ]
    assert [(each["file"], each["line"], each["column"]) for each in told["problems"]] == [
        ("a.yaml", 1, 1), ("a.yaml", 3, 32), ("a.yaml", 9, 9), ("missing.yaml", 1, 1),
    ]  # fmt: skip
    assert told["problems"][0]["hint"] == "such as version: 1.0.0"
    assert told["problems"][3]["hint"] is None
    assert "yardgae" in told["problems"][1]["found"]
    assert "yardage" in told["problems"][1]["expected"]
    assert told["problems"][1]["hint"] == "did you mean 'yardage'?"


def test_check_shows_the_line_and_the_place_in_it_when_asked(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Off a terminal only when asked, so that a program which reads the lines finds one for each problem."""
    write(folder, "a.yaml", BROKEN)
    assert main(["check", "--show", "a.yaml"]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert [line[:11] for line in lines if line.startswith("a.yaml")] == ["a.yaml:1:1:", "a.yaml:9:9:"]
    assert lines[4:] == [
        "    9 |       - reeds 3 x 3",
        "      |         ^",
    ]
    assert main(["check", "--no-show", "a.yaml"]) == 1
    assert len(capsys.readouterr().err.splitlines()) == 2


@pytest.mark.parametrize(
    ("row", "shown", "under"),
    [
        ("seam: \u65e5\u672c", "seam: \u65e5\u672c", "      ^"),
        ("{title: \u65e5\u672c, seam: a}", "{title: \u65e5\u672c, seam: a}", " " * 20 + "^"),
        ("{title: e\u0301, seam: a}", "{title: e\u0301, seam: a}", " " * 17 + "^"),
        ("{title: \u202ea, seam: a}", r"{title: \u202ea, seam: a}", " " * 23 + "^"),
        ("{title: " + "b" * 100 + ", seam: a}", "\u2026" + "b" * 52 + ", seam: a}", " " * 61 + "^"),
        ("seam: " + "c" * 90, "seam: " + "c" * 40 + "\u2026", "      ^"),
    ],
)
def test_the_caret_stands_under_the_place_whatever_the_line_holds(row: str, shown: str, under: str) -> None:
    """Wide characters take two columns, accents none; marks that turn a line around are written out."""
    column = row.index("seam: ") + 7
    problem = Problem(where=Mark(2, column), found="a thing", expected="another")
    lines = shown_lines(Told(file="a.yaml", problems=(problem,), text=f"\ufeff# first\r\n{row}\r\n".encode()))
    assert lines == [f"a.yaml:2:{column}: found a thing, expected another", f"    2 | {shown}", f"      | {under}"]


def test_a_place_behind_the_end_of_the_file_shows_nothing() -> None:
    problem = Problem(where=Mark(9, 1), found="a thing", expected="another")
    assert len(shown_lines(Told(file="a.yaml", problems=(problem,), text=b"a: 1\n"))) == 1


def test_each_file_that_cannot_be_read_is_told_of_at_its_start(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """No such file, a link to none, a link round in a circle, a folder, and a file that is not for us: all at once."""
    (folder / "gone.yaml").symlink_to("nowhere")
    (folder / "round.yaml").symlink_to("round.yaml")
    (folder / "place.yaml").mkdir()
    write(folder, "secret.yaml", SMALL)
    write(folder, "good.yaml", SMALL)
    opened = Path.open

    def guarded(path: Path, *rest: Any, **more: Any) -> Any:  # whoever runs the tests may read every file
        if path.name == "secret.yaml":
            raise PermissionError(13, "Permission denied", str(path))
        return opened(path, *rest, **more)

    monkeypatch.setattr(Path, "open", guarded)
    names = ["none", "gone", "round", "place", "secret", "good"]
    assert main(["check", *(f"{name}.yaml" for name in names)]) == 1
    out, err = capsys.readouterr()
    assert out.startswith("good.yaml: no problems")
    lines = err.splitlines()
    assert {line.split(":")[0] for line in lines} == {f"{name}.yaml" for name in names} - {"good.yaml"}
    assert all(":1:1: found " in line and ", expected a pattern file" in line for line in lines)
    assert sum("a file that cannot be read: " in line for line in lines) == 2


@pytest.mark.parametrize("words", [["check"], ["build"]])
def test_a_pattern_that_vanishes_when_it_has_been_listed_is_told_of_and_the_site_stays(
    words: list[str], folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    write(folder, "mkdocs.yml", "site_name: T\nplugins: [seamleaf]\n")
    write(folder, "docs/index.md", "# T\n")
    write(folder, "docs/pond.yaml", SMALL)
    write(folder, "site/sitemap.xml", "")
    write(folder, "site/index.html", "the last one")

    def listed(docs: Path) -> list[Path]:
        found = sources.pattern_files(docs)
        for path in found:
            path.unlink()
        return found

    monkeypatch.setattr(command, "pattern_files", listed)
    monkeypatch.setattr(plugin, "pattern_files", listed)
    assert main(words) == 1
    told = capsys.readouterr().err
    assert f"{Path('docs/pond.yaml')}:1:1: found no file of this name, expected a pattern file" in told
    assert (folder / "site" / "index.html").read_text(encoding="utf-8") == "the last one"


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="there is no endless file here")
def test_an_endless_file_is_read_as_far_as_needed(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "endless.yaml").symlink_to("/dev/zero")
    assert main(["check", "endless.yaml"]) == 1
    assert "a file of more than a million letters" in capsys.readouterr().err


def test_a_file_that_is_no_pattern_by_its_name_is_told_of(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "mkdocs.yml", "site_name: T\nplugins: [seamleaf]\n")
    write(folder, "docs/boats.yml", SMALL)
    main(["check"])
    told = capsys.readouterr().err
    assert f"{Path('docs/boats.yml')}: not looked at, for the name of a pattern file ends in .yaml" in told


def test_without_a_word_the_command_lists_what_it_can_do(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    told = capsys.readouterr().err
    assert all(word in told for word in ("new", "check", "build", "serve"))


def test_check_without_a_file_takes_the_patterns_of_the_site(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "mkdocs.yml", "site_name: T\ndocs_dir: quilts\nplugins: [seamleaf]\n")
    write(folder, "quilts/two.yaml", SMALL)
    write(folder, "quilts/one.yaml", SMALL)
    write(folder, "quilts/index.md", "# T\n")
    assert main(["check"]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "quilts/one.yaml: no problems (mat, runner)",
        "quilts/two.yaml: no problems (mat, runner)",
    ]


@pytest.mark.parametrize(
    ("config", "words"),
    [
        (None, "mkdocs.yml: there is no such file here; go to your site, or make one: seamleaf new"),
        ("site_name: T\nplugins:\n  - seamleaf\n - search\n", "mkdocs.yml:4:2: found a line that is indented unlike"),
        ("site_name: [\n", "mkdocs.yml:2:1: found nothing where something must stand"),
        ("site_name: T\nplugins: []\n", "seamleaf is not listed under plugins; add the line"),
        ("site_name: T\ndocs_dir: nowhere\nplugins: [seamleaf]\n", "mkdocs.yml"),
        ("site_name: T\nplugins: [no-such-plugin]\n", "no-such-plugin"),
        ("site_name: T\nplugins: [{seamleaf: {colour: red}}]\n", "colour"),
        ("site_name: T\nplugins: [{seamleaf: {templates: nowhere}}]\n", "nowhere"),
        ("site_name: T\nplugins: [seamleaf]\n", "there is no pattern file"),
    ],
)
def test_a_site_that_cannot_be_loaded_says_why(
    folder: Path, capfd: pytest.CaptureFixture[str], config: str | None, words: str
) -> None:
    if config is not None:
        write(folder, "mkdocs.yml", config)
        (folder / "docs").mkdir()
    assert main(["check"]) == 1
    err = capfd.readouterr().err
    assert words in err
    assert all(line.startswith("seamleaf: ") for line in err.splitlines())


def test_a_configuration_that_takes_in_itself_says_so(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "mkdocs.yml", "INHERIT: mkdocs.yml\n")
    assert main(["check"]) == 1
    assert "takes in itself by INHERIT" in capsys.readouterr().err


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
def test_nobody_waits_for_a_pipe(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It would be for ever, where nothing writes into it."""
    os.mkfifo(folder / "pipe.yaml")
    assert [main(words) for words in (["check", "pipe.yaml"], ["booklet", "pipe.yaml", "--out", "out"])] == [1, 1]
    assert main(["figures", "pipe.yaml", "--png", "out"]) == main(["colours", "pipe.yaml", "--grid", "2x2"]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 4
    assert all("pipe.yaml:1:1: found a file that cannot be read" in line for line in lines[:2])
    assert all("pipe.yaml: no file, expected a " in line for line in lines[2:])


def test_what_an_editor_keeps_beside_a_pattern_is_none(folder: Path) -> None:
    """Locks and forks of some editors and systems: links to nowhere, and names with a dot before them."""
    write(folder, "small-pond.yaml", SMALL)
    write(folder, "._small-pond.yaml", "\0")
    (folder / ".#small-pond.yaml").symlink_to("someone@somewhere.1")
    assert [path.name for path in sources.pattern_files(folder)] == ["small-pond.yaml"]


def test_booklet_writes_every_size_and_its_schema(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "small-pond.yaml", SMALL)
    assert main(["booklet", "small-pond.yaml", "--out", "out"]) == 0
    assert capsys.readouterr() == ("", "")
    written = sorted(path.relative_to(folder / "out").as_posix() for path in (folder / "out").rglob("*"))
    assert [name for name in written if "." in name] == [
        f"small-pond/{size}/{name}" for size in ("mat", "runner") for name in ("booklet.json", "booklet.schema.json")
    ]
    assert json.loads((folder / "out/small-pond/mat/booklet.json").read_bytes())["size"]["id"] == "mat"


def test_booklet_of_one_size_leaves_the_others_alone(folder: Path) -> None:
    write(folder, "small-pond.yaml", SMALL)
    write(folder, "out/small-pond/runner/note.txt", "mine")
    assert main(["booklet", "small-pond.yaml", "--size", "mat", "--out", "out"]) == 0
    assert sorted(path.name for path in (folder / "out/small-pond").rglob("*.*")) == [
        "booklet.json", "booklet.schema.json", "note.txt",
    ]  # fmt: skip


def test_booklet_writes_nothing_for_a_broken_pattern(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "bad.yaml", BROKEN)
    assert main(["booklet", "bad.yaml", "--out", "out"]) == 1
    assert not (folder / "out").exists()
    assert len(capsys.readouterr().err.splitlines()) == 2


def test_booklet_into_a_place_that_is_taken_changes_nothing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(folder, "small-pond.yaml", SMALL)
    write(folder, "out/small-pond/runner", "a file where a folder must be")
    assert main(["booklet", "small-pond.yaml", "--out", "out"]) == 1
    assert "cannot write out" in capsys.readouterr().err
    assert list((folder / "out").rglob("*.json")) == []


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["nothing"],
        ["check", "--size", "x"],
        ["booklet", "small-pond.yaml"],
        ["booklet", "--out", "x"],
        ["proof"],
        ["proof", "one", "two"],
        ["build", "extra"],
        ["booklet", "small-pond.yaml", "--size", "giant", "--out", "out"],
    ],
)
def test_wrong_use_has_its_own_status(folder: Path, capsys: pytest.CaptureFixture[str], arguments: list[str]) -> None:
    write(folder, "small-pond.yaml", SMALL)
    try:
        status = main(arguments)
    except SystemExit as stop:
        status = stop.code if isinstance(stop.code, int) else -1
    assert status == 2
    assert capsys.readouterr().err != ""
    assert not (folder / "out").exists()


def test_the_version_is_that_of_the_distribution(capsys: pytest.CaptureFixture[str]) -> None:
    from importlib.metadata import version

    with pytest.raises(SystemExit, match="0"):
        main(["--version"])
    assert capsys.readouterr().out == f"seamleaf {version('seamleaf')}\n"


def test_a_fault_of_the_program_is_told_as_one(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise ZeroDivisionError("made for this test\nin two lines")

    monkeypatch.setattr(pipeline, "plan", fail)
    monkeypatch.delenv("SEAMLEAF_TRACEBACK", raising=False)
    assert main(["check", write(folder, "small-pond.yaml", SMALL)]) == 70
    err = capsys.readouterr().err
    assert "a fault of seamleaf itself" in err
    assert "Traceback" not in err
    assert len(err.splitlines()) == 2


def test_marks_of_a_terminal_are_written_out(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    name = write(folder, "small\x1b[31m.yaml", SMALL)
    main(["check", name])
    out, err = capsys.readouterr()
    assert "\x1b" not in out + err


def test_schema_is_printed_or_written(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 0
    printed = capsys.readouterr().out
    assert main(["schema", "--out", "pattern.schema.json"]) == 0
    assert (folder / "pattern.schema.json").read_text("utf-8") == printed
    assert json.loads(printed)["required"] == list(keys.PATTERN.required)
    assert main(["schema", "--out", "no-such/pattern.schema.json"]) == 1
    assert "cannot write no-such/pattern.schema.json" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["ch"], {"check"}),
        (["check", "--f"], {"--format"}),
        (["check", "--format", ""], {"text", "json"}),
        (["proof", "pa"], {"patterns"}),
    ],
)
def test_a_shell_completes_commands_options_and_files(folder: Path, words: list[str], expected: set[str]) -> None:
    """The script is read by bash as its manual says: words and the place among them in, completions out."""
    (folder / "patterns").mkdir()
    (folder / "page.txt").write_text("", encoding="utf-8")
    seamleaf = Path(sys.executable).with_name("seamleaf")
    script = subprocess.run([seamleaf, "--print-completion", "bash"], capture_output=True, text=True, check=True)
    asked = f"""
COMP_WORDS=(seamleaf {" ".join(shlex.quote(word) for word in words)}); COMP_CWORD={len(words)}
spec=$(complete -p seamleaf); name=${{spec#*-F }}; ${{name%% *}}
printf '%s\\n' "${{COMPREPLY[@]}}"
"""
    run = subprocess.run(["bash", "-c", script.stdout + asked], cwd=folder, capture_output=True, text=True, timeout=60)
    assert set(run.stdout.split()) == expected


FISH = 'source script; complete -C "seamleaf ch"; complete -C "seamleaf check --format "'
ZSH = """
zmodload zsh/zpty
zpty shell zsh -f -i
zpty -w shell 'autoload -Uz compinit; compinit -u; eval "$(cat script)"; print rea""dy'
zpty -r shell said '*ready*'
zpty -n -w shell $'seamleaf ch\\t'
zpty -r shell said '*seamleaf check*'
print -r -- $said
"""


@pytest.mark.parametrize(("shell", "asked", "expected"), [("fish", FISH, "text\t"), ("zsh", ZSH, "seamleaf check")])
def test_other_shells_complete_too(folder: Path, shell: str, asked: str, expected: str) -> None:
    """Fish is asked as its manual says; zsh completes in a terminal alone, so it is given one and a tab."""
    if shutil.which(shell) is None:
        assert not os.environ.get("CI"), "bash .ci/setup test installs it"
        pytest.skip(f"there is no {shell} on this machine")
    seamleaf = Path(sys.executable).with_name("seamleaf")
    script = subprocess.run([seamleaf, "--print-completion", shell], capture_output=True, text=True, check=True)
    (folder / "script").write_text(script.stdout, encoding="utf-8")
    path = os.pathsep.join([str(seamleaf.parent), os.environ["PATH"]])
    told = subprocess.run(
        [shell, "-c", asked],
        cwd=folder, env=os.environ | {"PATH": path, "HOME": str(folder), "TERM": "xterm"},
        stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert expected in told.stdout
    assert "check" in told.stdout
