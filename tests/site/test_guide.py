"""The guide: whatever it tells a reader to type works as it stands there, and its reference leaves nothing out."""

from __future__ import annotations

import html
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from seamleaf import api
from seamleaf.publishing import Example, completed, load_templates
from seamleaf.publishing.reference import key_sections
from seamleaf.reading import keys
from seamleaf.site.building.options import SeamleafConfig
from seamleaf.site.building.reference import command_sections, function_sections, with_reference
from seamleaf.site.usage import command_parser
from seamleaf.site.work.pipeline import plan

GUIDE = Path(__file__).parents[2] / "patterns" / "guide"
PAGES = sorted(GUIDE.glob("*.md"))
TEMPLATES = load_templates()
SEAMLEAF = Path(sys.executable).with_name("seamleaf")


def fences(page: Path, language: str) -> list[str]:
    """Return the fenced texts of a language, in order."""
    found = re.findall(rf"^```{language}\n(.*?)^```", page.read_text("utf-8"), re.MULTILINE | re.DOTALL)
    return [str(text) for text in found]


def whole_pattern() -> str:
    """Return the pattern that the first page ends with."""
    (text,) = [text for text in fences(GUIDE / "first-pattern.md", "yaml") if text.startswith("title:")]
    return text


PIECES = [
    (page, text)
    for page in PAGES
    for text in fences(page, "yaml")
    if yaml.safe_load(text).keys() <= set(keys.PATTERN.all)
]


@pytest.mark.parametrize(("page", "text"), PIECES, ids=[f"{page.stem}-{at}" for at, (page, _) in enumerate(PIECES)])
def test_a_piece_of_a_pattern_is_planned(page: Path, text: str) -> None:
    """Completed as the examples with figures are, which every build draws."""
    pattern, booklets = plan(completed(Example(text=text, shows=(), line=1), TEMPLATES), page.stem)
    assert list(booklets) == list(pattern.sizes)


def test_every_other_fence_of_yaml_is_configuration_that_is_taken() -> None:
    configurations = [
        yaml.safe_load(text) for page in PAGES for text in fences(page, "yaml") if (page, text) not in PIECES
    ]
    given = [each["seamleaf"] for one in configurations for each in one.get("plugins", []) if isinstance(each, dict)]
    assert len(given) >= 3
    for options in given:
        config = SeamleafConfig()
        config.load_dict({name: value for name, value in options.items() if name != "templates"})
        assert config.validate() == ([], [])
        assert options.keys() <= {name for name, _ in SeamleafConfig._schema}
    wording = [one["page"] for one in configurations if "page" in one]
    assert all(f"page.{key}" in TEMPLATES.wording.texts for texts in wording for key in texts)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Do what the first page says."""
    top = tmp_path_factory.mktemp("reader")
    make, enter = fences(GUIDE / "first-pattern.md", "sh")
    subprocess.run([SEAMLEAF, *shlex.split(make)[1:]], cwd=top, check=True, stdin=subprocess.DEVNULL, timeout=120)
    assert enter.splitlines()[1] == "seamleaf serve", "runs until it is interrupted, and has tests of its own"
    folder = top / enter.splitlines()[0].removeprefix("cd ")
    (folder / "patterns" / "garden-path.yaml").write_text(whole_pattern(), encoding="utf-8")
    # test_starting.py builds a new folder with its PDF files.
    config = (folder / "mkdocs.yml").read_text("utf-8")
    assert "  - seamleaf\n" in config
    (folder / "mkdocs.yml").write_text(config.replace("  - seamleaf\n", "  - seamleaf: {paper: []}\n"), "utf-8")
    return folder


def test_every_command_does_what_its_page_says(folder: Path) -> None:
    """In the order in which a reader comes to them."""
    done = []
    path = os.pathsep.join([str(SEAMLEAF.parent), os.environ["PATH"]])
    for name in ("checking", "publishing", "teaching", "data", "corrections", "own-look", "commands"):
        for text in fences(GUIDE / f"{name}.md", "sh"):
            for line in text.splitlines():
                run = subprocess.run(
                    ["bash", "-c", line],
                    cwd=folder, env=os.environ | {"PATH": path}, capture_output=True, text=True, timeout=300,
                )  # fmt: skip
                assert run.returncode == 0, (line, run.stdout, run.stderr)
                done.append(line.split()[1])
    assert {"check", "schema", "build", "booklet", "compare", "figures"} <= set(done)
    assert (folder / "pictures" / "cover.png").is_file()
    assert (folder / "site" / "garden-path" / "bed" / "booklet.json").is_file()
    assert (folder / "booklets" / "first-star" / "lap" / "booklet.json").is_file()
    lines = sum(len(text.splitlines()) for page in PAGES for text in fences(page, "sh"))
    assert lines == len(done) + 3, "no page with commands is left out"


def test_the_problem_that_is_shown_is_the_one_that_is_reported(folder: Path) -> None:
    (shown,) = fences(GUIDE / "checking.md", "text")
    broken = folder / "patterns" / "garden-path.yaml"
    broken.write_text(whole_pattern().replace("[leaf 2 x 2", "[laef 2 x 2"), encoding="utf-8")
    try:
        run = subprocess.run(
            [SEAMLEAF, "check", "patterns/garden-path.yaml"], cwd=folder, capture_output=True, text=True, timeout=60
        )
    finally:
        broken.write_text(whole_pattern(), encoding="utf-8")
    assert run.stderr == shown


def test_the_program_for_a_listing_makes_its_picture(folder: Path) -> None:
    (program,) = fences(GUIDE / "python.md", "python")
    (shown,) = fences(GUIDE / "python.md", "text")
    run = subprocess.run(
        [sys.executable, "-c", program], cwd=folder, capture_output=True, text=True, timeout=120, check=True
    )
    assert run.stdout == shown
    assert (folder / "first-star-lap.svg").read_text("utf-8").startswith("<svg")
    png = (folder / "first-star-lap.png").read_bytes()
    assert png.startswith(b"\x89PNG\r\n")
    assert int.from_bytes(png[16:20], "big") == 1600, "the width stands there in any PNG"


# ----------------------------------------------------------------------------------------------- reference


def test_the_reference_names_every_key_with_its_meaning(demo_site: Path) -> None:
    text = html.unescape((demo_site / "guide" / "keys.html").read_text("utf-8"))
    for table in (keys.PATTERN, keys.BLOCK, *keys.TABLES.values(), *keys.PARTS.values()):
        for name in table.all:
            assert f"<code>{name}</code>" in text
            assert table[name].meaning in text
    titles = [section.title for section in key_sections(TEMPLATES)]
    assert len(set(titles)) == len(titles)


def test_the_reference_names_every_command_and_option(demo_site: Path) -> None:
    text = html.unescape((demo_site / "guide" / "commands.html").read_text("utf-8"))
    sections = list(command_sections())
    told = command_parser().format_help()
    assert len(sections) >= 8
    for section in sections:
        assert section.title.removeprefix("seamleaf ") in told
        assert all(piece in text for piece in section.usage)
        for entry in section.entries:
            assert entry.meaning in text
            assert len(entry.meaning) > 5


def test_the_reference_names_every_option_of_the_plugin(demo_site: Path) -> None:
    text = html.unescape((demo_site / "guide" / "options.html").read_text("utf-8"))
    for name, _ in SeamleafConfig._schema:
        assert f"<code>{name}</code>" in text


def test_the_reference_names_every_function_with_what_it_raises(demo_site: Path) -> None:
    text = html.unescape((demo_site / "guide" / "python.html").read_text("utf-8"))
    sections = list(function_sections(api))
    assert [section.title for section in sections] == ["read", "size", "plan", "draw", "picture", "publish", "show"]
    for section in sections:
        assert all(piece in text for piece in section.usage)
        assert section.lead in text
    (read,) = [section for section in sections if section.title == "read"]
    assert [entry.name for entry in read.entries] == ["PatternError"]


def test_no_mark_is_left_on_a_page_and_unknown_ones_stay(demo_site: Path) -> None:
    for page in (demo_site / "guide").glob("*.html"):
        assert "<!-- seamleaf:" not in page.read_text("utf-8")
    assert with_reference("<!-- seamleaf: nothing -->", TEMPLATES, SeamleafConfig) == "<!-- seamleaf: nothing -->"


def test_what_stands_between_fences_is_shown_as_it_is_written(demo_site: Path) -> None:
    """No fence is left as text, and none holds what a mark in it would have asked for."""
    code = re.compile(r"<(pre|code)\b.*?</\1>", re.DOTALL)
    for page in [*(demo_site / "guide").glob("*.html"), demo_site / "parts.html"]:
        article = page.read_text("utf-8").partition("<article")[2].partition("</article>")[0]
        assert "```" not in code.sub("", article), page.name
        assert "~~~" not in code.sub("", article), page.name
        assert all("&lt;section" not in each[0] for each in code.finditer(article)), page.name


def test_the_guide_leads_to_all_of_its_pages() -> None:
    linked = set(re.findall(r"\]\(([a-z-]+\.md)\)", (GUIDE / "index.md").read_text("utf-8")))
    assert linked == {page.name for page in PAGES} - {"index.md"}
