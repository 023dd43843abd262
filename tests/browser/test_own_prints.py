"""The page of a reader's own prints: the same answers as in Python, and all of it by keyboard, by touch and offline."""

from __future__ import annotations

import dataclasses
import importlib.resources
import json
import random
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal

import pytest

from browsing import AXE, ONE, RULES, RUN, TARGETS, opened
from effort import tries
from prints_cases import FLOORS, case_of
from seamleaf.planning.prints.annealing import GUMBEL, TEMPERATURES
from seamleaf.planning.prints.colour import ciede2000, family_of, lab_of
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.publishing.own_view import SCRIPTS
from serving import serving
from strictness import Strict

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PAGE: Final = f"{ONE}/crib/prints/index.html"
SOLVE: Final = """([cases, conventions]) => {
  const prints = window.seamleafPrints;
  prints.conventions = conventions;
  return cases.map(({ task, bundles, grounds }) => {
    const { labOf } = prints.colour;
    const labs = (colours) => Object.fromEntries(Object.entries(colours).map(([id, colour]) => [id, labOf(colour)]));
    const squares = Object.fromEntries(Object.entries(bundles).map(([id, all]) => [id, all.map(
      ([colour, spread, squares]) => ({ lab: labOf(colour), spread, squares }))]));
    const { pieces, choices, layout } = prints.plan(task, squares, labs(grounds));
    return { pieces: Array.from(pieces), choices, layout };
  });
}"""


@pytest.fixture
def twin(browser: Browser) -> Iterator[Page]:
    """Open an empty page with the scripts of the algorithm alone."""
    folder = importlib.resources.files("seamleaf.site_templates").joinpath("assets", "prints")
    with opened(browser, home="about:") as (page, wrong):
        for script in SCRIPTS[: SCRIPTS.index("planner") + 1]:
            page.add_script_tag(content=folder.joinpath(f"{script}.js").read_text(encoding="utf-8"))
        yield page
        assert wrong == []


@pytest.fixture
def crib(browser: Browser, demo_site: Path) -> Iterator[Page]:
    """Open the page of the smallest quilt of the demo, served with a strict policy."""
    with serving(demo_site, Strict) as address, opened(browser, 390, touch=True) as (page, wrong):
        show(page, address + PAGE)
        yield page
        assert wrong == []


def show(page: Page, address: str) -> None:
    page.goto(address, wait_until="load")
    page.locator("[data-part='result']:not([hidden])").wait_for()


def layout_of(page: Page) -> list[str]:
    """Return what the buttons of the rows say, block by block."""
    names = page.locator("[data-part='chart'] button").evaluate_all("all => all.map((each) => each.ariaLabel)")
    return [str(name) for name in names]


def told(page: Page) -> str:
    return page.locator("[data-part='told']").inner_text()


def test_random_bundles_are_planned_as_in_python(twin: Page) -> None:
    """Choice, reasons, pairs, layout, pieces and report of a task on each floor are equal, number by number.

    tests/bench/twins.py takes any number of them.
    """
    cases = [case_of(seed) for seed in range(tries(len(FLOORS)))]
    found = twin.evaluate(SOLVE, [[case.as_json() for case in cases], dataclasses.asdict(CONVENTIONS)])
    for seed, (case, there) in enumerate(zip(cases, found, strict=True)):
        assert there == json.loads(json.dumps(case.solved())), f"case {seed}"


def test_colours_have_the_same_bits_as_in_python(twin: Page) -> None:
    """Differences of 3,000 random colours before any rounding, and their CIELAB values and families."""
    chance = random.Random(24)
    colours = [f"#{chance.randrange(1 << 24):06x}" for _ in range(3000)] + ["#000000", "#ffffff", "#808080", "#00ff00"]
    there = twin.evaluate(
        """([colours, conventions]) => {
        const { colour } = window.seamleafPrints;
        window.seamleafPrints.conventions = conventions;
        const labs = colours.map(colour.labOf);
        return [labs, labs.map(colour.familyOf), labs.slice(1).map((lab, at) => colour.ciede2000(
            labs[at].map((v) => v / 100), lab.map((v) => v / 100)))];
        }""",
        [colours, dataclasses.asdict(CONVENTIONS)],
    )
    labs = [lab_of(colour) for colour in colours]
    raw = [ciede2000([v / 100 for v in one], [v / 100 for v in other]) for one, other in pairwise(labs)]
    assert there == [[list(lab) for lab in labs], [family_of(lab) for lab in labs], raw]


def test_tables_of_chance_are_the_same(twin: Page) -> None:
    there = twin.evaluate(
        "() => [window.seamleafPrints.annealing.GUMBEL, window.seamleafPrints.annealing.TEMPERATURES]"
    )
    assert there == [list(GUMBEL), list(TEMPERATURES)]


def test_the_colours_of_the_pattern_give_the_layout_of_the_booklet(crib: Page, demo_site: Path) -> None:
    booklet = json.loads((demo_site / ONE / "crib" / "booklet.json").read_text(encoding="utf-8"))
    places = [place for place, *_ in booklet["prints"]["cells"]]
    expected = {
        booklet["places"][place]["number"]: ", ".join(map(str, booklet["places"][place]["prints"])) for place in places
    }
    shown = [name.split(". ")[0] for name in layout_of(crib)]
    assert len(shown) == len(places)
    for name in shown:
        number = name.split()[1].strip(",")
        assert name.endswith(f"pieces {expected[number]}")


def test_a_pasted_list_is_judged_and_laid_out_and_kept_on_the_device(crib: Page) -> None:
    asked: list[str] = []
    crib.on("request", lambda request: asked.append(request.url))
    before = layout_of(crib)
    crib.locator("textarea").fill("#22334f x3, f2e3c2\n#3a9 rubbish #c9486b x2 #e8d174; #7fb4d6 #f6c667 #d98cb3")
    crib.get_by_role("button", name="Use this list").click()
    crib.locator("[data-part='verdicts'] tbody:not(:has(tr:nth-child(9))) tr:nth-child(8)").wait_for()  # 8, not 14
    crib.locator("[data-is='own-prints']:not([aria-busy])").wait_for()
    assert crib.get_by_text("Not read: rubbish").is_visible()
    first = crib.locator("[data-part='verdicts'] tbody tr").first.inner_text()
    assert "left out" in first or "only where it does not touch" in first  # it has the colour of the ground
    after = layout_of(crib)
    assert after != before
    crib.reload(wait_until="load")
    crib.locator("[data-part='result']:not([hidden])").wait_for()
    assert layout_of(crib) == after
    assert [each for each in asked if not each.startswith(crib.url.split(ONE)[0])] == []
    crib.get_by_role("button", name="Back to the colours of the pattern").click()
    crib.locator("[data-is='own-prints']:not([aria-busy])").wait_for()
    assert layout_of(crib) == before


def test_too_few_pieces_are_told_and_nothing_is_laid_out(crib: Page) -> None:
    crib.locator("textarea").fill("#f2e3c2 x1 #c9486b x1")
    crib.get_by_role("button", name="Use this list").click()
    crib.locator("[data-part='result']").wait_for(state="hidden")
    assert "missing" in crib.locator(".sl-bundle [role='status']").first.inner_text()
    crib.locator("input[type='number']").first.fill("40")
    crib.locator("input[type='number']").first.press("Enter")
    crib.locator("[data-part='result']:not([hidden])").wait_for()


def test_two_blocks_are_exchanged_by_keyboard_and_the_checks_follow(crib: Page) -> None:
    before, checks = layout_of(crib), crib.locator("[data-part='checks']").inner_text()
    buttons = crib.locator("[data-part='chart'] button")
    buttons.first.focus()
    crib.keyboard.press("Enter")
    assert "picked up" in told(crib)
    assert buttons.first.get_attribute("aria-pressed") == "true"
    for key in ("ArrowDown", "ArrowDown", "ArrowRight"):
        crib.keyboard.press(key)
    crib.keyboard.press("Space")
    assert "are exchanged" in told(crib)
    after = layout_of(crib)
    assert sorted(piece for name in after for piece in name.split("pieces ")[1].split(". ")[0].split(", ")) == sorted(
        piece for name in before for piece in name.split("pieces ")[1].split(". ")[0].split(", ")
    )
    assert len([1 for one, other in zip(before, after, strict=True) if one != other]) >= 2
    assert crib.locator("[data-part='checks']").inner_text() != checks
    crib.get_by_role("button", name="Undo the last exchange").click()
    assert layout_of(crib) == before
    assert crib.locator("[data-part='checks']").inner_text() == checks


def test_held_blocks_stay_while_the_others_are_laid_out_anew(crib: Page) -> None:
    """Holding by keyboard: the held keep their pieces, the others share theirs out, and no print touches more often."""

    def pieces_of(names: list[str]) -> list[str]:
        return [name.split("pieces ")[1].split(". ")[0] for name in names]

    def likes() -> int:
        facts = crib.locator("[data-part='checks'] dd").all_inner_texts()
        return sum(int(fact.split(",")[0]) for fact in facts[:2])

    before, least = layout_of(crib), likes()
    buttons = crib.locator("[data-part='chart'] button")
    anew = crib.get_by_role("button", name="Lay out the others anew")
    assert anew.is_disabled()
    buttons.nth(0).click()
    buttons.nth(5).click()
    moved, worse = pieces_of(layout_of(crib)), likes()
    buttons.nth(0).press("Enter")
    crib.get_by_role("button", name="Hold this block").press("Enter")
    assert "is held where it is" in told(crib)
    assert "held" in layout_of(crib)[0]
    buttons.nth(0).click()
    buttons.nth(1).click()
    assert "Let it go first" in told(crib)
    anew.click()
    crib.locator("[data-is='own-prints']:not([aria-busy])").wait_for()
    assert "laid out anew" in told(crib)
    after = layout_of(crib)
    assert pieces_of(after)[0] == moved[0] != pieces_of(before)[0]
    assert sorted(pieces_of(after)) == sorted(moved)
    assert least <= likes() <= worse
    crib.reload(wait_until="load")
    crib.locator("[data-part='result']:not([hidden])").wait_for()
    assert layout_of(crib) == after
    crib.get_by_role("button", name="Undo the last exchange").click()
    assert pieces_of(layout_of(crib)) == moved
    crib.get_by_role("button", name="Back to the proposed layout").click()
    assert layout_of(crib) == before


def test_two_blocks_are_exchanged_by_touch_and_stay_so(crib: Page) -> None:
    before = layout_of(crib)
    blocks = crib.locator(".sl-place")
    blocks.nth(0).tap()
    blocks.nth(1).tap()
    assert "are exchanged" in told(crib)
    after = layout_of(crib)
    assert after != before
    crib.reload(wait_until="load")
    crib.locator("[data-part='result']:not([hidden])").wait_for()
    assert layout_of(crib) == after
    crib.get_by_role("button", name="Back to the proposed layout").click()
    assert layout_of(crib) == before


def test_the_picture_shows_the_readers_colours_and_their_greys(crib: Page) -> None:
    ground = crib.locator("[data-part='grounds'] input").first
    ground.evaluate("(input) => { input.value = '#123456'; input.dispatchEvent(new Event('change')); }")
    crib.locator("[data-part='picture'] [fill='#123456']").first.wait_for()
    crib.get_by_role("button", name="Show in grey").click()
    fills = crib.locator("[data-part='picture'] path").evaluate_all("all => all.map((e) => e.getAttribute('fill'))")
    assert fills
    assert all(fill[1:3] == fill[3:5] == fill[5:7] for fill in fills)


def test_the_page_works_from_a_folder(browser: Browser, demo_site: Path) -> None:
    """From file://, where a browser loads no module and reads no other file."""
    with opened(browser, home="file://") as (page, wrong):
        show(page, (demo_site / PAGE).as_uri())
        page.locator("textarea").fill(
            " ".join(f"#{30 + 5 * n:02x}{200 - 4 * n:02x}{90 + 3 * n:02x}" for n in range(32))
        )
        page.get_by_role("button", name="Use this list").click()
        page.locator("[data-part='verdicts'] tbody tr").nth(31).wait_for()
    assert wrong == []


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (390, "dark"), (320, "light")])
def test_the_filled_page_keeps_wcag_2_2_aa_and_its_targets(
    browser: Browser, served: str, width: int, scheme: Literal["light", "dark"]
) -> None:
    with opened(browser, width, scheme, touch=True) as (page, wrong):
        show(page, served + PAGE)
        page.locator("[data-part='chart'] button").first.click()
        page.evaluate(AXE)
        found: list[Any] = page.evaluate(RUN, [list(RULES), {}])
        assert found == []
        assert page.evaluate(TARGETS) == []
        assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    assert wrong == []


def test_the_chart_is_printed_without_what_is_for_the_screen(crib: Page) -> None:
    crib.emulate_media(media="print")
    assert not crib.locator("textarea").is_visible()
    assert crib.locator("[data-part='picture']").is_visible()
    assert crib.locator("[data-part='chart'] button").first.is_visible()
