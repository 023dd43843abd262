"""Templates of one's own: a copy says what it is given, and a build says when it has become old."""

from __future__ import annotations

from pathlib import Path

import pytest

from published import SMALL
from seamleaf.publishing import CONTEXT, load_templates, notes_on_own, replaceable_templates
from seamleaf.publishing.overriding import Replaceable
from seamleaf.site.commands.command import main


@pytest.fixture(scope="module")
def known() -> dict[str, Replaceable]:
    """Return every template that may be replaced."""
    return replaceable_templates()


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "patterns").mkdir()
    (tmp_path / "patterns" / "pond.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: Pond\ndocs_dir: patterns\ntheme: {name: material, font: false}\n"
        "plugins: [seamleaf: {templates: mine, paper: []}]\n",
        encoding="utf-8",
    )
    return tmp_path


def test_every_template_says_what_it_is_for_and_every_name_that_it_is_given_is_explained(
    known: dict[str, Replaceable],
) -> None:
    """What stands in a head is found in the template itself; a new name gets its line in ``CONTEXT``."""
    assert {"stages/buy.md.jinja", "pages/pattern.md.jinja", "assets/seamleaf.css", "paper/booklet.typ"} <= known.keys()
    assert [name for name, each in known.items() if not each.about] == []
    asked = {name for each in known.values() for name in each.context}
    assert asked == CONTEXT.keys()


def test_a_copy_begins_with_what_it_was_made_from_and_is_as_good(tmp_path: Path, known: dict[str, Replaceable]) -> None:
    for name, each in known.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(each.copied())
        head = (tmp_path / name).read_text("utf-8").splitlines()[0]
        assert each.digest in head, name
        assert all(given in head for given in each.context), name
    load_templates(tmp_path)
    assert notes_on_own(tmp_path) == []


def test_a_copy_of_another_template_than_today_s_is_told_of(tmp_path: Path, known: dict[str, Replaceable]) -> None:
    name = "stages/buy.md.jinja"
    (tmp_path / "stages").mkdir()
    copy = known[name].copied().decode("utf-8")
    (tmp_path / name).write_text(copy.replace(known[name].digest, "0" * 12), encoding="utf-8")
    (line,) = notes_on_own(tmp_path)
    assert line.startswith(f"{tmp_path}/{name} is a copy of an older template")
    (tmp_path / name).rename(tmp_path / "stages" / "purchase.md.jinja")
    (line,) = notes_on_own(tmp_path)
    assert "no more" in line


def test_a_file_that_nothing_uses_is_told_of_and_one_that_is_included_is_not(tmp_path: Path) -> None:
    (tmp_path / "pages").mkdir()
    (tmp_path / "pages" / "hoem.md.jinja").write_text("text", encoding="utf-8")
    (line,) = notes_on_own(tmp_path)
    assert "misspelt" in line
    (tmp_path / "pages" / "home.md.jinja").write_text("{% include 'pages/hoem.md.jinja' %}", encoding="utf-8")
    assert notes_on_own(tmp_path) == []


def test_what_a_copy_brings_is_published_and_a_build_tells_of_an_old_one(
    site: Path, capfd: pytest.CaptureFixture[str], known: dict[str, Replaceable]
) -> None:
    name = "stages/buy.md.jinja"
    assert main(["templates", name, "--out", "mine"]) == 0
    own = site / "mine" / name
    own.write_text(own.read_text("utf-8") + "<p>Our shop is open on Fridays.</p>\n", encoding="utf-8")
    assert main(["build"]) == 0
    assert capfd.readouterr().err == ""
    assert "open on Fridays" in (site / "site" / "pond" / "mat" / "buy" / "index.html").read_text("utf-8")
    own.write_text(own.read_text("utf-8").replace(known[name].digest, "0" * 12), encoding="utf-8")
    assert main(["build"]) == 0, "a note is no fault"
    assert "stages/buy.md.jinja is a copy of an older template" in capfd.readouterr().err


def test_the_command_lists_templates_and_never_writes_over_a_file(
    site: Path, capsys: pytest.CaptureFixture[str], known: dict[str, Replaceable]
) -> None:
    assert main(["templates"]) == 0
    assert [line.split("  ")[0] for line in capsys.readouterr().out.splitlines()] == list(known)
    assert main(["templates", "pages/home.md.jinja"]) == 2
    assert main(["templates", "pages/hom.md.jinja", "--out", "mine"]) == 2
    assert "no template pages/hom.md.jinja" in capsys.readouterr().err
    assert main(["templates", "pages/home.md.jinja", "--out", "mine"]) == 0
    (site / "mine" / "pages" / "home.md.jinja").write_text("mine", encoding="utf-8")
    assert main(["templates", "pages/home.md.jinja", "pages/note.md.jinja", "--out", "mine"]) == 1
    assert (site / "mine" / "pages" / "home.md.jinja").read_text("utf-8") == "mine"
