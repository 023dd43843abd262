"""Examples on an author's pages: pieces of a pattern, with the figures that come of them."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from seamleaf.publishing import load_templates
from seamleaf.reading import keys
from seamleaf.site.pages.examples import ExamplePages
from seamleaf.site.work.workshop import Workshop

PAGE = Path(__file__).parents[3] / "patterns" / "parts.md"
TEMPLATES = load_templates()


def drawn(page: str) -> tuple[dict[str, bytes], list[str], str]:
    """Return the figures of a page in a folder, its problems, and its text with the examples in place."""
    pages = ExamplePages()
    files, problems = pages.read("guide/parts.md", "guide/parts.md", page, TEMPLATES, Workshop)
    return files, problems, pages.put_in("guide/parts.md", page, "../", TEMPLATES)


def test_the_page_of_parts_shows_every_part_set_and_corner_that_a_pattern_may_name() -> None:
    fences = "".join(
        re.findall(r"^```pattern.*?^```", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL)
    )
    words = [*keys.PARTS, "straight", "on-point", "sashing", "butted", "mitred", "cornerstone", "squares 10", "yardage"]
    assert [word for word in words if not re.search(rf"\b{word}\b", fences)] == []


def test_every_example_of_the_page_is_drawn_and_each_figure_is_shown_once(demo_site: Path) -> None:
    fences = re.findall(r"^```pattern", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE)
    text = html.unescape((demo_site / "parts.html").read_text(encoding="utf-8"))
    assert text.count('<div class="sl-example">') == len(fences)
    shown = re.findall(r'src="(parts-examples/[^"]+)" alt="([^"]+)"', text)
    written = sorted(path.name for path in (demo_site / "parts-examples").iterdir())
    assert sorted(src.removeprefix("parts-examples/") for src, _ in shown) == written
    assert {int(name.split("-")[0]) for name in written} == set(range(1, len(fences) + 1))
    for name in written:
        assert "<title" in (demo_site / "parts-examples" / name).read_text(encoding="utf-8")


def test_an_example_needs_no_more_than_its_own_line() -> None:
    files, problems, text = drawn(
        "# A\n\n```pattern block step\nblocks:\n  example: {half-square: [star, ground], finished: 4 x 4}\n```\n\nEnd\n"
    )
    assert problems == []
    assert sorted(files) == [
        f"guide/parts-examples/1-{name}.svg" for name in ("block-example-parts", "block-example", "step-example")
    ]
    assert re.findall(r'src="([^"]+)"', html.unescape(text)) == [f"../{name}" for name in files]
    assert text.startswith("# A\n\n<div")
    assert text.endswith("\n\nEnd\n")


def test_an_example_may_bring_any_section_of_its_own() -> None:
    page = "```pattern quilt\nfabrics:\n  plum: {source: yardage}\nblocks:\n  example: plum 4 x 4\n```\n"
    files, problems, _ = drawn(page)
    assert problems == []
    assert list(files) == ["guide/parts-examples/1-quilt.svg"]


def test_a_problem_stands_at_its_line_of_the_page() -> None:
    page = "One\n\n```pattern\nblocks:\n  example: stars 4 x 4\n```\n\n```pattern quilts\n```\n"
    files, problems, text = drawn(page)
    assert files == {}
    assert [re.match(r"[^ ]+ found '?[a-z]+", line)[0] for line in problems] == [  # type: ignore[index]  # a match is the point
        "guide/parts.md:5:12: found unknown",
        "guide/parts.md:8:1: found 'quilts",
    ]
    assert text.count('<div class="sl-stop">') == 2


def test_what_an_example_leaves_out_has_its_problems_at_the_fence() -> None:
    """The default setting names a block that these blocks do not have."""
    _, problems, _ = drawn("```pattern\nblocks:\n  star: ground 4 x 4\n```\n")
    assert problems
    assert all(line.startswith("guide/parts.md:1:1: found ") for line in problems)


@pytest.mark.parametrize("page", ["", "```yaml\nblocks: 1\n```\n", "```pattern\nnever closed\n", "``pattern``\n"])
def test_a_page_without_examples_stays_as_it_is(page: str) -> None:
    assert drawn(page) == ({}, [], page)
